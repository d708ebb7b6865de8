/** The rows of dimensions and marks round a part's face. */
import { isSame, type Mm } from "../base/length.ts";
import { endsSquare, isHigh, sizeAlong } from "../set/facing.ts";
import type { DryfitSet, Face, SetPart } from "../set/schema.ts";
import { acrossRun, datumAt, datumOf, nearWall } from "./datum.ts";
import type { Row } from "./dimension.ts";
import { holeRows } from "./hole-rows.ts";
import { type BroadFace, isChannel, type OnPaper } from "./part-axes.ts";

export type Rows = { along: Row[]; across: Row[]; marks: Row[]; acrossMarks: Row[]; datums: Face[] };

/**
 * Everything along one axis is measured from one datum, its total last: near walls, where cuts stop, notches. A second
 * datum on an axis, where the settings use one, has a row of its own.
 */
export function rowsOf(set: DryfitSet, part: SetPart, face: BroadFace, paper: OnPaper): Rows {
  const walls = new Map<Face, Mm[]>();
  const ends: Record<"l" | "w", Mm[]> = { l: [part.length], w: [part.width] };
  const marks: Record<"l" | "w", { at: Mm; text: string }[]> = { l: [], w: [] };
  part.features.forEach((feature, i) => {
    if (feature.kind === "notch") {
      if (feature.lipping) return; // nothing is cut there
      ends.l.push(legOf(feature.box[0][0], feature.box[1][0], part.length));
      ends.w.push(legOf(feature.box[0][1], feature.box[1][1], part.width));
      return;
    }
    if (!isChannel(feature) || feature.face !== face) return;
    const axis = acrossRun(feature);
    const datum = datumOf(set, part, i);
    walls.set(datum, [...(walls.get(datum) ?? []), nearWall(part, feature, datum)]);
    marks[axis].push({ at: feature.at + feature.width / 2, text: feature.holds ?? "\u2013" });
    const run = axis === "l" ? "w" : "l";
    if (endsSquare(part, feature, 0)) ends[run].push(feature.from);
    if (endsSquare(part, feature, 1)) ends[run].push(feature.to);
  });
  // A row of holes gives its first hole and its distance from the edge; the rest of it is said in words.
  for (const row of holeRows(set, part).filter((one) => one.face === face)) {
    for (const [from, distance] of [
      [row.datum, row.first],
      [row.edge, row.distance],
    ] as const) {
      const axis = from[0] === "l" ? "l" : "w";
      ends[axis].push(isHigh(from) ? sizeAlong(part, axis) - distance : distance);
    }
  }
  const rows = (axis: "l" | "w"): Row[] => {
    const at = (value: Mm): Mm => (axis === "l" ? paper.l(value) : paper.w(value));
    const datums = [...walls].filter(([datum]) => datum[0] === axis);
    const inner = distinctOf(ends[axis].slice(1));
    const first: [Face, Mm[]] = datums[0] ?? [`${axis}0`, []];
    if (datums.length === 0 && inner.length === 0) return [{ kind: "spans", spans: [[at(0), at(ends[axis][0]!)]] }];
    return [[first[0], [...first[1], ...inner]] as const, ...datums.slice(1)].map(
      ([datum, points], i): Row => ({
        kind: "running",
        datum: at(datumAt(part, datum)),
        at: distinctOf([...points, ...(i === 0 ? [isHigh(datum) ? 0 : ends[axis][0]!] : [])])
          .filter((point) => !isSame(point, datumAt(part, datum)))
          .map(at),
      }),
    );
  };
  const letters = (axis: "l" | "w"): Row[] => [
    {
      kind: "letters",
      letters: marks[axis].map((m) => ({ at: axis === "l" ? paper.l(m.at) : paper.w(m.at), text: m.text })),
    },
  ];
  return {
    along: rows("l"),
    across: rows("w"),
    marks: letters("l"),
    acrossMarks: letters("w"),
    datums: [...walls.keys()],
  };
}

const distinctOf = (values: readonly Mm[]): Mm[] =>
  [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || !isSame(value, all[i - 1]!));

/** The inner wall of a notch: the one that is not on an end or edge of the part. */
const legOf = (low: Mm, high: Mm, size: Mm): Mm => (low <= size - high ? high : low);
