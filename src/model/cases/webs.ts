/** The web rule: what is left between two recesses back to back in one part. */
import { AXES, type AxisIndex, axisOf, type Box } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { goesOver, opposite, thicknessAxis } from "../contacts.ts";
import type { Direction, Joint, Part, PinRow, ThirdRule } from "../model.ts";
import { type StockTable, stockOf } from "./carcase.ts";

/** A groove, or a row of holes, as far as the web rule looks at it. */
type Recess = { of: { depth: Mm }; entering: Part | null; name: string; into: Direction; depth: Mm; region: Box };

/**
 * Grooves or holes on opposite faces of one part that overlap, or pass within half its thickness of each other: where both depths together
 * exceed two thirds of the measured thickness, each becomes a third. Changes the joints and rows given.
 */
export function applyWebRule(
  joints: readonly Joint[],
  pinRows: readonly PinRow[],
  parts: readonly Part[],
  stock: StockTable,
): ThirdRule[] {
  const thirds: ThirdRule[] = [];
  for (const part of parts) {
    // Between two faces the thickness as measured; between two edges the part's own width.
    const across = (axis: AxisIndex): Mm =>
      axis === thicknessAxis(part) ? stockOf(stock, part.stock).thickness : part.box[1][axis] - part.box[0][axis];
    const received: Recess[] = [
      ...joints.filter((joint) => joint.receiving === part.key).flatMap((joint) => recessesOfJoint(joint, parts)),
      ...pinRows.filter((row) => row.part === part.key).map(recessOfRow),
    ];
    received.forEach((one, i) => {
      for (const other of received.slice(i + 1)) {
        if (one.into !== opposite(other.into)) continue;
        const axis = axisOf(one.into);
        const thickness = across(axis);
        if (!areClose(one, other, axis, thickness / 2)) continue;
        if (one.depth + other.depth <= (2 / 3) * thickness + SAME) continue;
        for (const { of } of [...lineOf(one, received), ...lineOf(other, received)])
          of.depth = Math.min(of.depth, thickness / 3);
        thirds.push({ receiving: part.key, entering: [one.name, other.name], depth: thickness / 3 });
      }
    });
  }
  return thirds;
}

/** A groove, or what its dowels or loose tenons go into; a butt without them takes nothing away. */
function recessesOfJoint(joint: Joint, parts: readonly Part[]): Recess[] {
  const entering = parts.find(({ key }) => key === joint.entering)!;
  if (goesOver(joint)) return [];
  return [joint, joint.dowel, joint.tenon].flatMap((of) =>
    of === null || of.depth === 0
      ? []
      : [{ of, entering, name: joint.entering, into: joint.direction, depth: of.depth, region: joint.contact }],
  );
}

/** Grooves of like parts in one line are one channel, cut in one pass: of one depth. */
const lineOf = (one: Recess, all: readonly Recess[]): Recess[] =>
  all.filter((other) => other === one || (other.into === one.into && areInLine(one.entering, other.entering)));

function areInLine(one: Part | null, other: Part | null): boolean {
  if (one === null || other === null || one.role !== other.role) return false;
  const across = thicknessAxis(one);
  return thicknessAxis(other) === across && Math.abs(one.box[0][across] - other.box[0][across]) < SAME;
}

function recessOfRow(row: PinRow): Recess {
  const { name, first, pitch, count, at, diameter, depth } = row;
  const top = first + (count - 1) * pitch;
  const radius = diameter / 2;
  // Holes are in upright parts: their rows run up, at a distance from the front.
  const region: Box = [
    [0, at - radius, first - radius],
    [0, at + radius, top + radius],
  ];
  return { of: row, entering: null, name, into: opposite(row.face), depth, region };
}

/** Whether two recesses on opposite faces or edges overlap, seen along the axis they go in by, or pass within `reach` of each other. */
function areClose(one: Recess, other: Recess, into: AxisIndex, reach: Mm): boolean {
  return AXES.filter((axis) => axis !== into).every((axis) => {
    const gap =
      Math.max(one.region[0][axis], other.region[0][axis]) - Math.min(one.region[1][axis], other.region[1][axis]);
    return gap < reach - SAME;
  });
}
