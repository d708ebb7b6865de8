/** Feet that a case stands on: bought, screwed into its bottom; a base with no parts of its own. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Case, Feet } from "../../project/case.ts";
import { FEET_APART } from "../../project/defaults.ts";
import { type AssemblyModel, BARE, type Bore } from "../model.ts";

/** Middles of the feet in the case, x and y: along its front and its rear, evenly, no two farther apart than so much. */
export function feetUnder({ width, depth }: Pick<Case, "width" | "depth">, { fromEnds, fromEdges }: Feet): [Mm, Mm][] {
  const run = width - 2 * fromEnds;
  const fields = Math.max(1, Math.ceil(run / FEET_APART));
  return [fromEdges, depth - fromEdges].flatMap((y) =>
    Array.from({ length: fields + 1 }, (_, i): [Mm, Mm] => [fromEnds + (i * run) / fields, y]),
  );
}

/** The holes for them in the underside of the bottom, a row along its front and one along its rear. */
export function boresForFeet(design: Case): Bore[] {
  const { feet } = design;
  if (feet === null) return [];
  const middles = feetUnder(design, feet);
  return ["front", "rear"].map((row, i) => ({
    row: `${row} feet`,
    face: "-z",
    ...feet.hole,
    middles: middles.slice((i * middles.length) / 2, ((i + 1) * middles.length) / 2),
    reason: "for a foot",
  }));
}

/** `name`: of the case as it stands, `at` its corner; the bottom's `key`. */
export function layFeet(design: Case, feet: Feet, name: string, at: Vec, key: string): AssemblyModel {
  const { height, diameter, hole } = feet;
  const middles = feetUnder(design, feet);
  return {
    ...BARE,
    name: `${name} feet`,
    kind: "base",
    design,
    at: [at[0], at[1], at[2] - height],
    size: [design.width, design.depth, height],
    parts: [],
    feet: { ...feet, middles },
    hardware: [
      {
        kind: "feet",
        what: feet.range === null ? "feet" : "levelling feet",
        sizes: [height, diameter],
        count: middles.length,
        unit: "feet",
        parts: [key],
        where: `screwed into the bottom, in holes of the size that its stem asks for (here ${hole.diameter.toFixed(1)} mm)`,
        of: null,
      },
    ],
  };
}
