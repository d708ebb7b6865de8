/** Worktops: how far each moves, and whether that is what a table is good for; boards in the rough that no jointer takes whole. */
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { type CheckInput, capital, checkOf, computed, PRACTICE, shown } from "./input.ts";

/** Moisture contents between which the published coefficients hold (Wood Handbook 2010, table 13-5). */
const HOLDS = { from: 6, to: 14 };

const MOVES =
  "width x coefficient x points of moisture; the coefficients hold from 6 to 14 % (Wood Handbook 2010, chapter 13)";

type Input = Pick<CheckInput, "parts" | "stock" | "tooling" | "unit" | "moisture"> &
  Pick<DryfitSet, "worktops" | "pieces">;

export const checkWorktops = (input: Input): SetCheck[] => [...checkMovement(input), ...checkJointing(input)];

function checkMovement({ worktops, parts, stock, unit, moisture }: Input): SetCheck[] {
  const { made, driest, wettest } = moisture;
  const beyond = [made ?? driest, driest, wettest].filter((points) => points < HOLDS.from || points > HOLDS.to);
  return worktops.flatMap(({ mark, moves, fixed, glued }) => {
    const part = parts.find((one) => one.mark === mark)!;
    const name = `${capital(part.name)} ${mark}`;
    if (glued === null)
      return [
        checkOf("movement", "ok", [mark], {
          text: `${name} is a panel, which keeps its size: it is screwed down without play.`,
          rule: `a panel keeps its size (${PRACTICE})`,
        }),
      ];
    const species = stock.find(({ id }) => id === part.material)!.species!;
    const away = fixed === "front" ? "back" : "front";
    const text = `${name}, ${species.name}, ${glued.sawn}-sawn, ${shown(part.width, unit)} across the grain, moves to the ${away}: ${computed(moves.wider, unit)} wider and ${computed(moves.narrower, unit)} narrower between ${driest.toFixed(1)} and ${wettest.toFixed(1)} % of moisture, ${made === null ? "whatever it is made at" : `made at ${made.toFixed(1)} %`}.`;
    if (beyond.length === 0) return [checkOf("movement", "ok", [mark], { text, rule: MOVES })];
    return [
      checkOf("movement", "note", [mark], {
        text: `${text} At ${beyond.map((points) => points.toFixed(1)).join(" and ")} % it is reckoned beyond where the coefficients hold.`,
        rule: MOVES,
        change: "measure the moisture where it will stand; leave the slots longer rather than shorter",
      }),
    ];
  });
}

/** A board in the rough wider than the jointer's knives has no flat face until it is ripped. */
function checkJointing({ pieces, tooling, unit }: Input): SetCheck[] {
  const wide = pieces.filter(
    ({ kind, state, width }) => kind === "board" && state === "rough" && width > tooling.jointer,
  );
  if (wide.length === 0) return [];
  return [
    checkOf("tool-jointer", "note", [...new Set(wide.map(({ mark }) => mark))], {
      text: `${wide.map(({ id }) => id).join(", ")}: ${shown(Math.max(...wide.map(({ width }) => width)), unit)} wide in the rough at most, and the jointer takes ${shown(tooling.jointer, unit)}.`,
      rule: `a face is jointed before it is planed (${PRACTICE})`,
      change:
        "rip it in two, joint and plane both, and glue them together again, the grain matched; or flatten a face by hand, or on a sled through the planer",
    }),
  ];
}
