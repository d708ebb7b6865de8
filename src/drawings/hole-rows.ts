/** The rows of holes drilled into a part, as its drawing dimensions and words them. */
import type { Mm } from "../base/length.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../set/schema.ts";

export type HoleRow = {
  face: Face;
  count: number;
  diameter: Mm;
  depth: Mm;
  holds: string;
  datum: Face;
  first: Mm;
  /** 0: a hole alone, or at no even pitch. */
  pitch: Mm;
  edge: Face;
  distance: Mm;
};

const AXES = ["l", "w", "t"] as const;

/** The drilling plan's rows; holes that it does not list (of dowels, say) are gathered by their own row, or one by one. */
export function holeRows(set: DryfitSet, part: SetPart): HoleRow[] {
  const planned = set.drilling.flatMap(({ diameter, depth, holds, rows }) =>
    rows.filter(({ mark }) => mark === part.mark).map((row) => ({ ...row, diameter, depth, holds })),
  );
  const listed = new Set(planned.flatMap(({ features }) => features));
  const rest = new Map<string, SetFeature[]>();
  part.features.forEach((feature, i) => {
    if (feature.kind !== "hole" || listed.has(i)) return;
    const key = `${feature.face} ${feature.row ?? i}`;
    rest.set(key, [...(rest.get(key) ?? []), feature]);
  });
  return [...planned, ...[...rest.values()].map((holes) => gathered(part, holes))];
}

function gathered(part: SetPart, holes: readonly SetFeature[]): HoleRow {
  const [hole] = holes as [SetFeature];
  const sizes = [part.length, part.width, part.thickness];
  const middles = (i: number): Mm[] => holes.map(({ box }) => (box[0][i]! + box[1][i]!) / 2).sort((a, b) => a - b);
  const reach = (i: number): Mm => middles(i).at(-1)! - middles(i)[0]!;
  const [p, q] = [0, 1, 2].filter((i) => AXES[i] !== hole.face[0]) as [number, number];
  const [along, across] = reach(q) > reach(p) ? [q, p] : [p, q];
  const at = middles(along);
  const low = middles(across)[0]!;
  const isLow = low <= sizes[across]! - low;
  const pitch = at.length > 1 ? at[1]! - at[0]! : 0;
  const isEven = at.every((one, i) => i === 0 || Math.abs(one - at[i - 1]! - pitch) < 1e-3);
  return {
    face: hole.face,
    count: holes.length,
    diameter: hole.box[1][p]! - hole.box[0][p]!,
    depth: hole.depth,
    holds: hole.reason.replace(/^for /, ""),
    datum: `${AXES[along]!}0`,
    first: at[0]!,
    pitch: isEven ? pitch : 0,
    edge: `${AXES[across]!}${isLow ? "0" : "1"}`,
    distance: isLow ? low : sizes[across]! - low,
  };
}
