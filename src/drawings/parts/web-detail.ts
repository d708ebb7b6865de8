/**
 * A detail at full size for a part that has grooves back to back: how deep each goes, and the web that is left.
 *
 *         12           the marks of what enters, each at its face
 *     ////|  |////  |  depth
 *     ////|__|////  |  web
 *     /////////////
 *     ////|  |////  |  depth
 *         10
 */
import { type Box, intersectBoxes } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { TEXT } from "../draughting/cell.ts";
import { drawDimensions } from "../draughting/dimension.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { solidOf } from "../solids/solid.ts";
import { type Direction, type View, viewOf } from "../solids/view.ts";
import { acrossRun } from "./datum.ts";
import { flat, isChannel } from "./part-axes.ts";
import type { Before } from "./part-changes.ts";
import { clearOf } from "./part-sections.ts";

/** Two grooves of opposite faces, `low` the one in the face t0. */
type Pair = { low: SetFeature; high: SetFeature };

const overlaps = (a: SetFeature, b: SetFeature): boolean => a.at < b.at + b.width && b.at < a.at + a.width;

const areBackToBack = (a: SetFeature, b: SetFeature): boolean =>
  a.along === b.along && overlaps(a, b) && a.from < b.to && b.from < a.to;

function pairsOf(part: SetPart): Pair[] {
  const on = (face: string): SetFeature[] => part.features.filter((one) => isChannel(one) && one.face === face);
  return on("t0").flatMap((low) =>
    on("t1")
      .filter((high) => areBackToBack(low, high))
      .map((high) => ({ low, high })),
  );
}

/** Pairs that leave the same wood between them are told by one detail. */
function alikePairs(part: SetPart): Pair[][] {
  const heaps: Pair[][] = [];
  for (const pair of pairsOf(part)) {
    const known = heaps.find(
      ([first]) => isSame(first!.low.depth, pair.low.depth) && isSame(first!.high.depth, pair.high.depth),
    );
    if (known === undefined) heaps.push([pair]);
    else known.push(pair);
  }
  return heaps;
}

const ROUND = 1.2; // shown to either side of the grooves, in thicknesses of the part
const CAPTION_AIR: Mm = 3;

/** The part cut through its grooves, no more of it than lies near them; where it goes on, it has no line. */
function sectionAt(part: SetPart, { low, high }: Pair): View {
  const across = acrossRun(low);
  const i = across === "l" ? 0 : 1;
  const size = across === "l" ? part.length : part.width;
  const from = Math.max(0, Math.min(low.at, high.at) - ROUND * part.thickness);
  const to = Math.min(size, Math.max(low.at + low.width, high.at + high.width) + ROUND * part.thickness);
  const near: Box =
    i === 0
      ? [
          [from, 0, 0],
          [to, part.width, part.thickness],
        ]
      : [
          [0, from, 0],
          [part.length, to, part.thickness],
        ];
  const boxes = solidOf(part)
    .map((box) => intersectBoxes(box, near))
    .filter((box) => box !== null);
  const direction: Direction = across === "l" ? { u: "+x", v: "+z", away: "+y" } : { u: "+y", v: "+z", away: "-x" };
  const view = viewOf([{ mark: part.mark, boxes }], direction, flat(direction.away, clearOf(part, across)));
  const isBreak = (u: Mm): boolean => (u === from && from > 0) || (u === to && to < size);
  return { ...view, segments: view.segments.filter(({ a, b }) => !(a[0] === b[0] && isBreak(a[0]))) };
}

const holdsOf = (pairs: readonly Pair[], side: keyof Pair): string =>
  [...new Set(pairs.flatMap((pair) => pair[side].holds ?? []))].sort(byMark).join(", ");

const levelsOf = ({ thickness }: SetPart, { low, high }: Pair): Mm[] => [
  0,
  low.depth,
  thickness - high.depth,
  thickness,
];

/** Which of its figures, from the face t0 on, no pair of an earlier part had. */
function revisedIn(part: SetPart, pair: Pair, { parts }: Before): boolean[] {
  const spans = (of: SetPart, one: Pair): Mm[] => {
    const levels = levelsOf(of, one);
    return levels.slice(1).map((level, k) => level - levels[k]!);
  };
  const before = parts.map((was) => pairsOf(was).map((one) => spans(was, one)));
  return spans(part, pair).map((span, k) => before.some((some) => !some.some((was) => isSame(was[k]!, span))));
}

function drawDetail(set: DryfitSet, part: SetPart, pairs: readonly Pair[], before: Before | null): Block {
  const [{ low, high }] = pairs as [Pair];
  const picture = drawView(sectionAt(part, { low, high }), 1);
  const { box } = picture;
  const style = {
    unit: set.job.unit,
    ratio: 1,
    size: VIEW_FIGURE,
    ...(before === null ? {} : { revision: before.letter }),
  };
  const levels = levelsOf(part, { low, high }).map((t) => picture.y(t));
  const revised = before === null ? [] : revisedIn(part, { low, high }, before);
  const depths = drawDimensions(
    "right",
    box.width,
    [
      {
        kind: "spans",
        spans: levels.slice(1).map((level, k) => [levels[k]!, level] as const),
        check: true,
        revised,
      },
    ],
    style,
  );
  const marks = (
    [
      ["low", "below", 0],
      ["high", "above", box.y],
    ] as const
  ).map(([side, where, edge]) => {
    const feature = side === "low" ? low : high;
    const at = picture.x(feature.at + feature.width / 2);
    return drawDimensions(where, edge, [{ kind: "letters", letters: [{ at, text: holdsOf(pairs, side) }] }], style);
  });
  const reach = unionOf([box, ...[depths, ...marks].flatMap((laid) => laid.boxes)]);
  const isTongue = low.kind === "shoulder" && high.kind === "shoulder";
  const caption = `${part.mark}: ${isTongue ? "tongue" : "web between grooves back to back"}, full size`;
  const foot = reach.y + reach.height + CAPTION_AIR + TEXT;
  const width = Math.max(reach.width, measureText(caption, TEXT, "bold"));
  return {
    shapes: [
      ...picture.shapes,
      ...depths.shapes,
      ...marks.flatMap(({ shapes }) => shapes),
      text([reach.x, foot], caption, TEXT, { weight: "bold" }),
    ],
    box: { x: reach.x, y: reach.y, width, height: foot + 0.36 * TEXT - reach.y },
  };
}

/** One detail for each depth of web that the part has. */
export const webDetails = (set: DryfitSet, part: SetPart, before: Before | null = null): Block[] =>
  alikePairs(part).map((pairs) => drawDetail(set, part, pairs, before));
