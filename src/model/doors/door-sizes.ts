/** Sizes of a door, worked out before a part of it is laid. */
import { type Mm, SAME } from "../../base/length.ts";
import { HINGE_COUNTS } from "../../project/defaults.ts";
import type { Doors } from "../../project/doors.ts";
import type { Stock } from "../../project/stock.ts";
import type { FrontOpening } from "../front-openings.ts";
import type { Grid } from "../grid.ts";
import type { Door } from "../model.ts";

type Range = [Mm, Mm];

/** Its outline closed, in the room, and what is left between it and the opening's edges, or to the other door of a pair. */
export type Leaf = {
  side: "left" | "right";
  x: Range;
  z: Range;
  edges: Door["edges"];
};

/** From a door's front face to its panel's: the panel lies in the middle of the thickness. */
export const panelSetIn = (member: Stock, panel: Stock): Mm => (member.thickness - panel.thickness) / 2;

/**
 * The doors of one opening. Widths and heights are whole steps, never more than the opening and the gaps leave; what rounding leaves over is
 * shared out among the gaps, which so stay even. Inset, one door: opening less two gaps; overlay: opening and two overlaps; a pair: the same
 * less the gap between, halved.
 */
export function leavesIn(opening: FrontOpening, isPair: boolean, { fit, between }: Doors, grid: Grid): Leaf[] {
  const beyond = fit.kind === "inset" ? -fit.gap : fit.overlap;
  const spread = (size: Mm, count: number): { size: Mm; edge: Mm; between: Mm } => {
    const whole = size + 2 * beyond - (count - 1) * between;
    const own = grid.end(whole / count);
    const over = (whole - count * own) / (count + 1);
    return { size: own, edge: over - beyond, between: between + over };
  };
  const count = isPair ? 2 : 1;
  const across = spread(opening.x[1] - opening.x[0], count);
  const up = spread(opening.z[1] - opening.z[0], 1);
  const z: Range = [opening.z[0] + up.edge, opening.z[0] + up.edge + up.size];
  return Array.from({ length: count }, (_, i): Leaf => {
    const from = opening.x[0] + across.edge + i * (across.size + across.between);
    const isLast = i === count - 1;
    return {
      side: isLast && isPair ? "right" : "left",
      x: [from, from + across.size],
      z,
      edges: {
        left: i === 0 ? across.edge : across.between,
        right: isLast ? across.edge : across.between,
        below: up.edge,
        above: up.edge,
      },
    };
  });
}

/** As many hinges as a door of this height hangs on; one more for each step beyond the table. */
export function hingesFor(height: Mm): number {
  const row = HINGE_COUNTS.find((one) => height <= one.height + SAME);
  const last = HINGE_COUNTS.at(-1)!;
  return row?.count ?? last.count + Math.ceil((height - last.height) / 400);
}

/** Middles of the hinges from the door's lower end: the outer two so far from the ends, the others evenly between, whole steps apart. */
export function hingeMiddles(height: Mm, fromEnds: Mm, count: number, grid: Grid): Mm[] {
  const first = grid.place(fromEnds);
  const pitch = grid.end((height - 2 * first) / (count - 1));
  return Array.from({ length: count }, (_, i) => first + i * pitch);
}
