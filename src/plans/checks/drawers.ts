/** Drawers under load: what a pair of slides carries, and what its screws meet. */

import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { massOfAssembly } from "../../set/mass.ts";
import type { SetCheck } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { type CheckInput, capital, checkOf, PRACTICE, shown } from "./input.ts";

export const checkDrawers = (input: CheckInput): SetCheck[] =>
  input.drawers.length === 0 ? [] : [...checkRatings(input), ...checkOpposite(input)];

/** Box, front and load against what a pair carries; those without a rating are told once. */
function checkRatings({ drawers, parts, unit }: CheckInput): SetCheck[] {
  const rule = `a pair of slides carries box, front and load, drawn out (the slides' rating, by the job; load by the job, or 8.5 lb to the cubic foot: ASTM F2057-23)`;
  const sold = drawers.filter(({ slides }) => slides.kind !== "wooden runners");
  const unrated = sold.filter(({ slides }) => slides.rating === null);
  const rated = sold.flatMap((drawer): SetCheck[] => {
    const { rating } = drawer.slides;
    if (rating === null) return [];
    const own = massOfAssembly(parts, drawer.assembly);
    const whole = own + drawer.load;
    const told = `${capital(drawer.assembly)} weighs ${formatMass(own, unit)}, with ${formatMass(drawer.load, unit)} in it ${formatMass(whole, unit)}; its slides carry ${formatMass(rating, unit)}.`;
    return [
      whole > rating + 1e-9
        ? checkOf("slides", "warning", [drawer.face], {
            text: `${told} That is ${formatMass(whole - rating, unit)} too much.`,
            rule,
            change: "slides of a higher rating, or less in the drawer",
          })
        : checkOf("slides", "ok", [drawer.face], { text: told, rule }),
    ];
  });
  if (unrated.length === 0) return rated;
  return [
    ...rated,
    checkOf("slides", "note", [], {
      text: `No rating is given for the slides of ${listInWords(unrated.map(({ assembly }) => assembly))}; the heaviest weighs ${formatMass(Math.max(...unrated.map((one) => massOfAssembly(parts, one.assembly) + one.load)), unit)} with what is in it.`,
      rule,
      change: 'give "rating" under "slides", from the slides\' sheet',
    }),
  ];
}

/** Screws of two slides on one divider that would meet in the wood. */
function checkOpposite({ parts, unit }: CheckInput): SetCheck[] {
  return parts.flatMap((part): SetCheck[] => {
    const [one, other] = (["t0", "t1"] as const).map((face) =>
      part.lines.filter((line) => line.face === face && line.bolt === null),
    );
    const close = one!.flatMap((line) => other!.filter((each) => Math.abs(each.at - line.at) < NEAR));
    if (close.length === 0) return [];
    return [
      checkOf("slides", "note", [part.mark], {
        text: `Slides lie on both faces of ${part.name} ${part.mark}, ${shown(part.thickness, unit)} thick, at ${close.length === 1 ? "one height" : `${close.length} heights`}: their screws would meet in the wood.`,
        rule: `screws from two faces are set apart (${PRACTICE})`,
        change: "screw one slide in its next holes along",
      }),
    ];
  });
}

const NEAR: Mm = 6;
