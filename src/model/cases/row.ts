/** A row of cases that share sides: their parts in one frame, so that what enters a shared side meets it there. */
import { AXES, axisOf, type Box, type Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { AssemblyModel, Fasteners, Feature, Part, PartShape } from "../model.ts";

const movedVec = (vec: Vec, by: Vec): Vec => [vec[0] + by[0], vec[1] + by[1], vec[2] + by[2]];
const movedBox = (box: Box, by: Vec): Box => [movedVec(box[0], by), movedVec(box[1], by)];

function movedFeature(feature: Feature, by: Vec): Feature {
  const along = by[feature.along];
  return {
    ...feature,
    box: movedBox(feature.box, by),
    runOuts: feature.runOuts.map(([from, to]) => [from + along, to + along]),
  };
}

const movedShape = (shape: PartShape, by: Mm): PartShape => ({ ...shape, from: shape.from + by, to: shape.to + by });

export const movedPart = (part: Part, by: Vec): Part => ({
  ...part,
  box: movedBox(part.box, by),
  shape: part.shape === null ? null : movedShape(part.shape, by[axisOf(part.frame.l)]),
  features: part.features.map((feature) => movedFeature(feature, by)),
});

const movedFasteners = (fasteners: Fasteners | null, by: Vec): Fasteners | null =>
  fasteners && {
    ...fasteners,
    at: fasteners.at + by[fasteners.across],
    positions: fasteners.positions.map((position) => position + by[fasteners.along]),
  };

const opposite = (vec: Vec): Vec => [-vec[0], -vec[1], -vec[2]];
const between = (from: Vec, to: Vec): Vec => AXES.map((axis) => to[axis] - from[axis]) as unknown as Vec;

/** Cases each with those that share a side with it; most stand by themselves. The one whose side is shared comes before. */
export function rowsOf(cases: readonly AssemblyModel[]): AssemblyModel[][] {
  const rows: AssemblyModel[][] = [];
  for (const one of cases) {
    const lender = one.kind === "case" ? one.design.shares?.left : undefined;
    const row = lender === undefined ? undefined : rows.find((other) => other.some(({ name }) => name === lender));
    if (row) row.push(one);
    else rows.push([one]);
  }
  return rows;
}

/** Where a case of a row stands, seen from the first. */
const offsetIn = (row: readonly AssemblyModel[], one: AssemblyModel): Vec => between(row[0]!.at, one.at);

/** Every part of a row in the first case's axes. */
export const gather = (row: readonly AssemblyModel[]): Part[] =>
  row.flatMap((one) => one.parts.map((part) => movedPart(part, offsetIn(row, one))));

/** Finished parts back in their own cases, and what each case borrows, in its own axes. */
export function spread(row: readonly AssemblyModel[], parts: readonly Part[]): AssemblyModel[] {
  const byKey = new Map(parts.map((part) => [part.key, part]));
  return row.map((one) => {
    const home = opposite(offsetIn(row, one));
    const own = new Set(one.parts.map(({ key }) => key));
    const borrowed = [...new Set(one.joints.map(({ receiving }) => receiving).filter((key) => !own.has(key)))];
    const at = (key: string): Part => movedPart(byKey.get(key)!, home);
    const joints = one.joints.map((joint) => ({ ...joint, fasteners: movedFasteners(joint.fasteners, home) }));
    return { ...one, joints, parts: [...own].map(at), borrowed: borrowed.map(at) };
  });
}
