/** Drilling: rows of holes, gathered by group, diameter and depth, so that one bit and one stop serve them all. */
import { isSame, type Mm, SAME, type Unit } from "../base/length.ts";
import { soldSize } from "../base/sold.ts";
import { PULLS } from "../model/doors/sliders.ts";
import { axisOfFace, frontFace, isHigh, lippedAfter, sizeAlong, thirdAxis } from "../set/facing.ts";
import type { Face, SetDrilling, SetFeature, SetGroup, SetPart } from "../set/schema.ts";
import { groupOf } from "./groups.ts";

type Row = SetDrilling["rows"][number];
type Task = Pick<SetDrilling, "group" | "diameter" | "depth" | "holds"> & { row: Row };

export function planDrilling(parts: readonly SetPart[], groups: readonly SetGroup[], unit: Unit): SetDrilling[] {
  const heaps: Task[][] = [];
  for (const task of parts.flatMap((part) => tasksOf(part, groupOf(part.mark, groups).n))) {
    const heap = heaps.find(([first]) => isShared(first!, task));
    if (heap) heap.push(task);
    else heaps.push([task]);
  }
  return heaps
    .sort(([a], [b]) => a!.group - b!.group || a!.diameter - b!.diameter || a!.depth - b!.depth)
    .map((heap, i): SetDrilling => {
      const { group, diameter, depth, holds } = heap[0]!;
      return {
        n: i + 1,
        group,
        diameter,
        depth,
        holds,
        rows: heap.map(({ row }) => row),
        test: testOf(diameter, holds, unit),
        caution: CAUTION,
      };
    });
}

const isShared = (a: Task, b: Task): boolean =>
  a.group === b.group && isSame(a.diameter, b.diameter) && isSame(a.depth, b.depth) && a.holds === b.holds;

const passOf = (holds: string): string => {
  if (holds === PINS) return "the pin itself goes in by hand and does not rock";
  if (holds === PULLS) return "a fingertip goes in and pulls, its rim is clean, and no point shows at the other face";
  if (holds === FEET) return "the stem of the foot itself, or what it is screwed into, goes in as its maker says";
  if (holds === CUPS) return "the hinge itself drops in and its plate lies flat, and no point shows at the face";
  if (holds === HANGERS) return "the bolt itself goes through by hand, and both faces are clean";
  return "the dowel itself goes in by hand pressure";
};

const testOf = (diameter: Mm, holds: string, unit: Unit): string =>
  `Drill a hole of ${soldSize([diameter], unit)} in a scrap of the same stock. Pass: ${passOf(holds)}. ${holds === HANGERS ? "Right through, without a stop, scrap clamped tight behind." : "Set the stop by the depth of this hole."}`;

const CAUTION =
  "Depth stop on the bit, part clamped on a flat bench with scrap under it; a drilling jig or a drill press keeps the holes square. Eye protection; no gloves or loose sleeves near the bit. The machine's manual comes first.";

export const PINS = "shelf pins";
const CUPS = "hinge cups";
const FEET = "feet";
/** Right through, for the bolts of what a sliding door hangs on. */
const HANGERS = "hanger bolts";
/** Rows that the design names itself, and what is in them. */
const OWN_ROWS: Readonly<Record<string, string>> = {
  [CUPS]: CUPS,
  [PULLS]: PULLS,
  "front feet": FEET,
  "rear feet": FEET,
  "left hanger holes": HANGERS,
  "right hanger holes": HANGERS,
};

/** The rows of one part, each with its holes in order from the datum. */
function tasksOf(part: SetPart, group: number): Task[] {
  const names = [
    ...new Set(part.features.flatMap(({ kind, row, face }) => (kind === "hole" ? [`${row} ${face}`] : []))),
  ];
  return names.map((name) => {
    const holes = part.features
      .map((feature, index) => ({ feature, index }))
      .filter(({ feature }) => feature.kind === "hole" && `${feature.row} ${feature.face}` === name)
      .sort((a, b) => a.feature.from - b.feature.from);
    return { group, ...taskOf(part, holes) };
  });
}

const middle = (low: Mm, high: Mm): Mm => (low + high) / 2;

/** From the low end and the nearer edge; a row of pin holes from the front edge, so that the rows of two parts agree; holes in the edges of what stands in a front from its front face. */
function taskOf(part: SetPart, holes: readonly { feature: SetFeature; index: number }[]): Omit<Task, "group"> {
  const { feature } = holes[0]!;
  const along = feature.along;
  const across = thirdAxis(along, axisOfFace(feature.face));
  const own = OWN_ROWS[feature.row ?? ""];
  // Where a door hangs is measured from its upper end.
  const isHung = own === HANGERS && part.place?.[along] === "+z";
  const datum: Face = `${along}${isHung ? 1 : 0}`;
  const at = middle(feature.at, feature.at + feature.width);
  const size = sizeAlong(part, across);
  const isPins = feature.holds === null && own === undefined;
  // Members that meet flush are drilled from the face that looks to the front, be it which of their own: what a thickness is out lies behind.
  const front = across === "t" ? frontFace(part) : null;
  // In the middle from the low edge, whichever way the figures were rounded: parts alike are drilled alike.
  const isLow = front === null ? isPins || at <= size / 2 + SAME : !isHigh(front);
  const edge: Face = `${across}${isLow ? 0 : 1}`;
  const long = sizeAlong(part, along);
  const middles = holes
    .map(({ feature: { from, to } }) => middle(from, to))
    .map((at) => (isHung ? long - at : at))
    .sort((a, b) => a - b);
  const [first, second] = middles;
  return {
    diameter: feature.width,
    depth: feature.depth,
    holds: own ?? (isPins ? PINS : "dowels"),
    row: {
      mark: part.mark,
      row: feature.row ?? "",
      features: holes.map(({ index }) => index),
      face: feature.face,
      datum,
      first: first! - lippedAfter(part, datum),
      pitch: second === undefined ? 0 : second - first!,
      count: holes.length,
      edge,
      distance: (isLow ? at : size - at) - lippedAfter(part, edge),
    },
  };
}
