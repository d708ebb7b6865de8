/** Holes: rows for pins, and for the dowels of butt joints; where screws and dowels go. */
import { AXES, type AxisIndex, axisOf, type Box, signOf } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { FASTENER } from "../project/defaults.ts";
import { opposite, planeOf, thicknessAxis } from "./contacts.ts";
import type { Grid } from "./grid.ts";
import { runAxis } from "./joints.ts";
import type { Bore, Direction, Fasteners, Feature, Joint, Part, PinRow } from "./model.ts";

/** A row of pin holes, from the lowest up. */
export function cutRow(row: PinRow, part: Part): Feature[] {
  const { name, face, first, pitch, count, at, diameter, depth } = row;
  return Array.from({ length: count }, (_, i) =>
    holeAt(part, face, { 1: at, 2: first + i * pitch }, { diameter, depth, along: 2, row: name, holds: null }),
  );
}

/** Holes that the design asks for: a row runs upright, or, in a level face, from left to right. */
export function cutBore({ row, face, diameter, depth, middles, reason }: Bore, part: Part): Feature[] {
  const into = axisOf(face);
  const [first, second] = AXES.filter((axis) => axis !== into) as [AxisIndex, AxisIndex];
  const along = into === 2 ? 0 : 2;
  return middles.map(([a, b]) => ({
    ...holeAt(part, face, { [first]: a, [second]: b }, { diameter, depth, along, row, holds: null }),
    reason,
  }));
}

/**
 * Where a butt joint is screwed or dowelled: on the middle of the entering part's thickness, the outer ones so far in from the contact's
 * ends, the others evenly between, no two farther apart than so much; one alone where there is no room for two. Null where nothing of the kind holds it.
 */
export function fastenersOf(joint: Joint, entering: Part, receiving: Part, grid: Grid): Fasteners | null {
  if (joint.kind !== "butt" || (joint.fixing !== "screws" && joint.fixing !== "dowels")) return null;
  const across = thicknessAxis(entering);
  const along = runAxis(joint, entering);
  const kind = joint.fixing === "screws" ? "screw" : "dowel";
  const at = (entering.box[0][across] + entering.box[1][across]) / 2;
  const low = Math.max(entering.box[0][along], receiving.box[0][along]);
  const high = Math.min(entering.box[1][along], receiving.box[1][along]);
  if (high - low < FASTENER.two) return { kind, along, across, at, positions: [grid.place((low + high) / 2)] };
  const inset = Math.min(FASTENER.inset, (high - low) / 4);
  const [from, to] = [grid.place(low + inset), grid.place(high - inset)];
  const spaces = Math.max(1, Math.ceil((to - from) / FASTENER.farthest - SAME));
  const pitch = grid.end((to - from) / spaces);
  const positions = Array.from({ length: spaces + 1 }, (_, i) => from + i * pitch);
  return { kind, along, across, at, positions };
}

/** Holes for the dowels of a joint: into the receiving face, and into the entering end, so deep that the dowel does not bottom. */
export function cutDowels(
  joint: Joint,
  entering: Part,
  receiving: Part,
  grid: Grid,
): { entering: Feature[]; receiving: Feature[] } {
  const { fasteners } = joint;
  if (fasteners === null || joint.dowel === null) return { entering: [], receiving: [] };
  const { along, across, at, positions } = fasteners;
  const { dowel } = joint;
  const depth = grid.end(dowel.depth);
  const drill = (part: Part, face: Direction, deep: Mm, other: Part): Feature[] =>
    positions.map((position) =>
      holeAt(
        part,
        face,
        { [along]: position, [across]: at },
        { diameter: dowel.diameter, depth: deep, along, row: `dowels ${other.key}`, holds: other.key },
      ),
    );
  return {
    entering: drill(entering, joint.direction, grid.atLeast(dowel.length - depth + dowel.spare), receiving),
    receiving: drill(receiving, opposite(joint.direction), depth, entering),
  };
}

type Hole = { diameter: Mm; depth: Mm; along: AxisIndex; row: string; holds: string | null };

/** `middle`: its coordinates on the two axes across the hole. */
function holeAt(part: Part, face: Direction, middle: Partial<Record<AxisIndex, Mm>>, hole: Hole): Feature {
  const { diameter, depth, along, row, holds } = hole;
  const into = axisOf(face);
  const mouth = planeOf(part.box, face);
  const bottom = mouth - signOf(face) * depth;
  const range = (axis: AxisIndex): [Mm, Mm] =>
    axis === into
      ? [Math.min(mouth, bottom), Math.max(mouth, bottom)]
      : [middle[axis]! - diameter / 2, middle[axis]! + diameter / 2];
  const [x, y, z] = [range(0), range(1), range(2)];
  const box: Box = [
    [x[0], y[0], z[0]],
    [x[1], y[1], z[1]],
  ];
  return {
    kind: "hole",
    face,
    along,
    box,
    ends: ["square", "square"],
    holds,
    runOuts: [],
    row,
    lipping: false,
    reason: holds === null ? "for a shelf pin" : "for a dowel",
  };
}
