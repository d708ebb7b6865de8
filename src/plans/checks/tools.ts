/** Tools: parts too narrow, too wide or too long for the machines given, and whether every setting is within their reach. */
import { isSame, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetPart, SetSetting, SetSheet } from "../../set/schema.ts";
import { isSheetStock } from "../../set/stock.ts";
import { MOST_PASSES } from "../settings/guide.ts";
import { type CheckInput, capital, checkOf, nameAlike, PRACTICE, shown } from "./input.ts";
import { checkLayoutWishes } from "./layout-wishes.ts";
import { checkLift } from "./lift.ts";

const marksOf = (parts: readonly SetPart[]): string[] => parts.map(({ mark }) => mark);

export function checkTools(input: CheckInput): SetCheck[] {
  const { parts, tooling, unit } = input;
  const { saw } = tooling;
  const show = (length: Mm): string => shown(length, unit);
  const narrowSide = ({ cut }: SetPart): Mm => Math.min(cut.length, cut.width);
  const narrow = parts.filter((part) => narrowSide(part) < saw.narrowest - SAME);
  const wide = parts.filter((part) => narrowSide(part) > saw.rip + SAME);
  const long = parts.filter(({ cut }) => Math.max(cut.length, cut.width) > saw.sled + SAME);
  const checks: SetCheck[] = [];
  if (narrow.length > 0) {
    const least = Math.min(...narrow.map(narrowSide));
    checks.push(
      checkOf("tool-narrow", "warning", marksOf(narrow), {
        text: `${capital(nameAlike(narrow))}: ${narrow.length > 1 ? "down to " : ""}${show(least)} wide, too narrow to be ripped between fence and blade, where ${show(saw.narrowest)} is the least.`,
        rule: `a push block needs room between fence and guard: "narrowest" of the saw (${PRACTICE})`,
        change:
          "let the strip fall away on the side of the blade that is not the fence's, or rip it from a wider piece by a jig",
      }),
    );
  }
  if (wide.length > 0) {
    const most = Math.max(...wide.map(narrowSide));
    checks.push(
      checkOf("tool-wide", "note", marksOf(wide), {
        text: `${capital(nameAlike(wide))}: ${wide.length > 1 ? "up to " : ""}${show(most)} across, and the fence reaches ${show(saw.rip)}: it is not sized at the fence.`,
        rule: `"rip" of the saw: farthest that fence and blade stand apart`,
        change:
          "cut it with a circular saw and a straightedge, or set the fence at the other side of the cut where the diagram leaves less there",
      }),
    );
  }
  if (long.length > 0) {
    const most = Math.max(...long.map(({ cut }) => Math.max(cut.length, cut.width)));
    checks.push(
      checkOf("tool-long", "note", marksOf(long), {
        text: `${capital(nameAlike(long))}: ${long.length > 1 ? "up to " : ""}${show(most)} long, and the sled or mitre gauge carries ${show(saw.sled)}: its ends are not squared there.`,
        rule: `"sled" of the saw: longest part that it carries across`,
        change: "square the ends with a circular saw and a straightedge before the part is ripped from its strip",
      }),
    );
  }
  return [...checks, ...solidBoards(input), ...reach(input, checks.length)];
}

/** Edge-glued boards are flattened by the jointer and brought to thickness by the planer, where these take them. */
function solidBoards({ parts, stock, tooling, unit }: CheckInput): SetCheck[] {
  const solid = parts.filter(({ material }) => stock.find(({ id }) => id === material)!.solid);
  const machines = [
    {
      id: "tool-planer",
      name: "planer",
      width: tooling.planer,
      wide: solid.filter(({ width }) => width > tooling.planer + SAME),
    },
    {
      id: "tool-jointer",
      name: "jointer",
      width: tooling.jointer,
      wide: solid.filter(({ width }) => width > tooling.jointer + SAME),
    },
  ];
  return machines.flatMap(({ id, name, width, wide }): SetCheck[] => {
    if (wide.length === 0) return [];
    const most = Math.max(...wide.map((part) => part.width));
    return [
      checkOf(id, "note", marksOf(wide), {
        text: `${capital(nameAlike(wide))}: ${wide.length > 1 ? "up to " : ""}${shown(most, unit)} wide, and the ${name} takes ${shown(width, unit)}: not once it is glued up.`,
        rule: `"width" of the ${name}: widest board that it takes`,
        change: `bring the boards through the ${name} before they are glued up, and level the glue lines by hand or with a sander`,
      }),
    ];
  });
}

/** A groove in an edge that the saw's own blade makes, in a few passes side by side. */
const isForBlade = ({ runs, width }: SetSetting, kerf: Mm): boolean =>
  runs.every(({ face }) => !face.startsWith("t")) && width >= kerf - SAME && width <= MOST_PASSES * kerf + SAME;

/** A setting beyond a machine's reach would be a mistake of the plan: it is looked for afresh from what the paper says. */
function reach({ settings, parts, tooling, unit }: CheckInput, found: number): SetCheck[] {
  const { saw, router } = tooling;
  const show = (length: Mm): string => shown(length, unit);
  const faults = settings.flatMap((setting): string[] => {
    if (setting.tool === "router") {
      const bit = router.bits.find(({ name }) => name === setting.cutter);
      if (bit === undefined) return [`setting ${setting.n}: no bit of the shop is called ${setting.cutter}`];
      return bit.reach < setting.depth - SAME
        ? [`setting ${setting.n}: ${show(setting.depth)} deep, and ${bit.name} reaches ${show(bit.reach)}`]
        : [];
    }
    const { least, most } = saw.dado;
    // A rabbet may be narrower than the cutter, part of which then runs in the sacrificial fence; a shoulder is cut in passes.
    const isTooWide = setting.operation !== "shoulder" && setting.operation !== "lap" && setting.width > most + SAME;
    const isTooNarrow =
      setting.operation === "groove" && setting.width < least - SAME && !isForBlade(setting, saw.kerf);
    const width =
      isTooWide || isTooNarrow
        ? [
            `setting ${setting.n}: ${show(setting.width)} wide, and the grooving cutter is set from ${show(least)} to ${show(most)}`,
          ]
        : [];
    return [...width, ...carried(setting, parts, saw, show)];
  });
  if (faults.length > 0) {
    return [
      checkOf("tool-reach", "failure", [], {
        text: `${faults.join("; ")}.`,
        rule: "every setting is within the reach of the tools given",
        change: 'what the shop has, under "tooling" of the project file',
      }),
    ];
  }
  const farthest = settings
    .filter(({ carrier, side }) => carrier === "fence" && side === "right")
    .map(({ fence }) => fence);
  const fence =
    farthest.length === 0
      ? ""
      : ` The fence stands ${show(Math.max(...farthest))} off at the most, of ${show(saw.rip)}.`;
  const sized = found === 0 ? " Every part can be ripped at the fence and squared on the sled." : "";
  return [
    checkOf("tool-reach", "ok", [], {
      text: `The tools given reach every one of the ${settings.length} settings.${fence}${sized}`,
      rule: 'how far saw and router reach, by the "tooling" of the shop and of the project file',
    }),
  ];
}

function carried(
  { n, carrier, side, fence, sacrificial, runs }: SetSetting,
  parts: readonly SetPart[],
  saw: CheckInput["tooling"]["saw"],
  show: (length: Mm) => string,
): string[] {
  if (carrier === "fence") {
    const rip = side === "left" ? saw.ripOther : saw.rip;
    return !sacrificial && fence > rip + SAME
      ? [`setting ${n}: fence at ${show(fence)}, and it reaches ${show(rip)}`]
      : [];
  }
  if (carrier !== "sled") return [];
  const sizes = runs.map(({ mark, datum }) => {
    const { length, width } = parts.find((one) => one.mark === mark)!;
    return datum.startsWith("l") ? { across: length, along: width } : { across: width, along: length };
  });
  const [across, along] = [Math.max(...sizes.map((one) => one.across)), Math.max(...sizes.map((one) => one.along))];
  return [
    ...(across > saw.sled + SAME
      ? [`setting ${n}: a part ${show(across)} long, and the sled carries ${show(saw.sled)}`]
      : []),
    ...(along > saw.sledDepth + lippingsAfter(runs, parts) + SAME
      ? [`setting ${n}: a part ${show(along)} wide along the cut, and the sled carries ${show(saw.sledDepth)}`]
      : []),
    ...(!sacrificial && fence > saw.stop + SAME
      ? [`setting ${n}: stop at ${show(fence)}, and it reaches ${show(saw.stop)}`]
      : []),
  ];
}

/** What parts still lack on the sled, at the most: lippings that are put on afterwards. */
const lippingsAfter = (runs: SetSetting["runs"], parts: readonly SetPart[]): Mm =>
  Math.max(
    0,
    ...runs.map(({ mark }) =>
      parts
        .find((one) => one.mark === mark)!
        .lippings.filter(({ lipped }) => lipped === "after")
        .reduce((sum, { thickness }) => sum + thickness, 0),
    ),
  );

type Layouts = Pick<DryfitSet, "layout" | "pieces" | "parts" | "sheets" | "boards" | "stock"> &
  Pick<CheckInput, "tooling" | "unit">;

const BOUND =
  "cuts from edge to edge, the kerf counted; no layout needs fewer sheets than their bound says: dual feasible functions u, f0 and f2 (Fekete and Schepers 2001; Carlier, Clautiaux and Moukrim 2007), or shares made for the job's own sizes (bar relaxation, Scheithauer 1999)";

/** What the parts of a stock are cut from. */
function roomOf(used: readonly SetSheet[], full: { length: Mm; width: Mm }, unit: Unit): string {
  const isOfSize = ({ length, width }: SetSheet): boolean => isSame(length, full.length) && isSame(width, full.width);
  const isPlain = used.every((one) => one.offcut === null && isOfSize(one));
  return isPlain
    ? `a sheet of ${shown(full.length, unit)} x ${shown(full.width, unit)}, its edges trimmed`
    : "its sheet, the edges trimmed, or its offcut of the rack, the edges as they are";
}

/** How good the layouts are, stock by stock, and which of their rips lie farther from an edge than the fence reaches. */
export function checkLayouts(input: Layouts): SetCheck[] {
  const { layout, sheets, boards, stock, tooling, unit } = input;
  const bounds = stock.filter(isSheetStock).flatMap(({ id, name, sheet: full }): SetCheck[] => {
    const used = sheets.filter((sheet) => sheet.stock === id);
    if (used.length === 0) return [];
    return [
      checkOf("layout-bound", "ok", [], {
        text: `${name}: ${used[0]!.boundText}. Every part lies within ${roomOf(used, full, unit)}.${used[0]!.boundProof === "" ? "" : ` ${used[0]!.boundProof}`}`,
        rule: BOUND,
      }),
    ];
  });
  bounds.push(
    ...stock.flatMap(({ id, name, boards: sold }): SetCheck[] => {
      const [first] = boards.filter((board) => board.stock === id);
      if (first === undefined || sold === null) return [];
      return [
        checkOf("layout-bound", "ok", [], {
          text: `${name}: ${first.boundText}, of ${shown(sold.length, unit)} x ${shown(sold.width, unit)}.${first.boundProof === "" ? "" : ` ${first.boundProof}`}`,
          rule: BOUND.replaceAll("sheets", "boards"),
        }),
      ];
    }),
  );
  if (!layout.repeatable) {
    bounds.push(
      checkOf("layout-clock", "warning", [], {
        text: "The search for better layouts was ended by the clock: not repeatable, another run may lay the parts otherwise.",
        rule: "The same job gives the same layout on any machine, unless that takes far longer than it should",
        change: 'nothing, as long as these pages stay together; for a layout that can be repeated "effort": "quick"',
      }),
    );
  }
  bounds.push(...checkLayoutWishes(input), ...checkLift({ sheets, stock, tooling, unit }));
  const { rip } = tooling.saw;
  const far = sheets.flatMap(({ n, cuts }) => {
    const beyond = cuts
      .filter(({ fence, from, to, makes, piece }) => {
        const isTrim = makes.includes(piece) && makes.includes("waste");
        // Where the fence guides: along a cut at least as long as it is away from it. The rest is for sled, stop or straightedge anyway.
        return fence > rip + SAME && to - from >= fence && !isTrim;
      })
      .map((cut) => cut.n);
    return beyond.length === 0 ? [] : [{ count: beyond.length, words: `${beyond.join(", ")} of sheet ${n}` }];
  });
  if (far.length === 0) return bounds;
  const list = far.map(({ words }) => words).join("; ");
  const isOne = far.length === 1 && far[0]!.count === 1;
  return [
    ...bounds,
    checkOf("layout-reach", "note", [], {
      text: `${isOne ? `Rip ${list} lies farther from its` : `Rips ${list} lie farther from their`} reference edge than the ${shown(rip, unit)} that the fence reaches.`,
      rule: `"rip" of the saw: farthest that fence and blade stand apart`,
      change:
        "make these with a circular saw along a straightedge, both set from the reference edge; or a saw with a longer rail",
    }),
  ];
}
