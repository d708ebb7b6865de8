/** Sections of a case: upright through a bay, and level through the bays, and through its base; what is cut is hatched. */
import type { Mm } from "../../base/length.ts";
import type { Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { baseUnder } from "../../set/standing.ts";
import { partOf } from "../../set/words.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import { drawView, hatchWords, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned, subtitleOf } from "../draughting/view-title.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_ABOVE, FROM_RIGHT, type Patch, type View, viewOf } from "../solids/view.ts";
import { baseOf } from "./base-sizes.ts";
import type { Spans } from "./bay-sizes.ts";
import { standingSolids } from "./case-group.ts";
import type { CaseView } from "./case-view.ts";
import { cutsOf } from "./cutting.ts";
import { drawPinsFromRight } from "./loose-shelves.ts";
import { markView, NO_MARKS, withAside } from "./marking.ts";

/** The clear stretches between what is cut, and between it and the outline, along a line across the section. */
function gapsBetween(cut: Patch[], axis: "u" | "v", across: number, outline: Patch, least: Mm): Spans {
  const [low, high] = axis === "u" ? (["u0", "u1"] as const) : (["v0", "v1"] as const);
  const [from, to] = axis === "u" ? (["v0", "v1"] as const) : (["u0", "u1"] as const);
  const solid = cut.filter((patch) => patch[from] < across && across < patch[to]).sort((a, b) => a[low] - b[low]);
  const gaps: Spans = [];
  let end = outline[low];
  for (const next of [
    ...solid.map((patch) => [patch[low], patch[high]] as const),
    [outline[high], outline[high]] as const,
  ]) {
    if (next[0] - end > least) gaps.push([end, next[0]]);
    end = Math.max(end, next[1]);
  }
  return gaps;
}

const middleOfLargest = (spans: Spans): Mm => {
  const [a, b] = spans.reduce((best, span) => (span[1] - span[0] > best[1] - best[0] ? span : best));
  return (a + b) / 2;
};

/** Upright sections give their heights first, level ones their widths; the depths are taken through the largest clear. */
function clearsOf(cut: Patch[], outline: Patch, first: "u" | "v", least: Mm): { u: Spans; v: Spans } {
  const second = first === "u" ? "v" : "u";
  const [low, high] = first === "u" ? (["v0", "v1"] as const) : (["u0", "u1"] as const);
  // A third of the way in: clear of notches at the front and of the back behind.
  const along = gapsBetween(cut, first, outline[low] + (outline[high] - outline[low]) / 3, outline, least);
  const across = along.length === 0 ? [] : gapsBetween(cut, second, middleOfLargest(along), outline, least);
  return first === "u" ? { u: along, v: across } : { u: across, v: along };
}

/** The piece over all in the view's coordinates, its neighbours left out. */
type Whole = { u: Spans[number]; v: Spans[number] };

const isLoose = (set: DryfitSet, mark: string): boolean => partOf(set, mark).role === "looseShelf";

function sectionBlock(
  set: DryfitSet,
  view: View,
  first: "u" | "v",
  whole: Whole,
  title: string,
  ratio: number,
  withMarks: boolean,
  drawBehind: (picture: Picture) => Shape[] = () => [],
): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  // What is loose stands in nobody's way, and a neighbour bounds the room as well as a part of its own.
  const walls = [...view.cut].filter(([mark]) => !isLoose(set, mark)).flatMap(([, patches]) => patches);
  const clears = clearsOf(walls, view.bounds, first, set.job.step);
  const row = (spans: Spans, at: (place: Mm) => Mm): Row => ({
    kind: "spans",
    spans: spans.map(([a, b]) => [at(a), at(b)]),
  });
  const across = [clears.u, [whole.u]].map((spans) => row(spans, picture.x));
  const up = [clears.v, [whole.v]].map((spans) => row(spans, picture.y));
  const dimensions = [drawDimensions("below", 0, across, style), drawDimensions("left", 0, up, style)];
  const marking = withMarks ? markView(view.cut, picture, [], withAside(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...drawBehind(picture), ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    title,
    subtitleOf(hatchWords(view), marking.note),
    box,
  );
}

export function sectionViewsOf(set: DryfitSet, drawn: SetAssembly): CaseView[] {
  const { upright, level } = cutsOf(set, drawn);
  // Depth runs away from the eye: looking to the left it is -x, looking down -z.
  const levelView = viewOf(standingSolids(set, drawn, "own"), FROM_ABOVE, -level.z);
  const uprightView = viewOf(standingSolids(set, drawn, "any"), FROM_RIGHT, -upright.x);
  const titles = {
    level: `Section ${level.letter}-${level.letter}, from above`,
    upright: `Section ${upright.letter}-${upright.letter}, from the right`,
  };
  const [width, depth, height] = drawn.size;
  const fromAbove: Whole = { u: [0, width], v: [0, depth] };
  const fromRight: Whole = { u: [0, depth], v: [baseOf(set, drawn)?.up[0] ?? 0, height] };
  const pins = (picture: Picture): Shape[] => drawPinsFromRight(set, drawn, uprightView, picture, upright.x);
  return [
    {
      kind: "upright section",
      stands: "right",
      draw: (ratio, withMarks) =>
        sectionBlock(set, uprightView, "v", fromRight, titles.upright, ratio, withMarks, pins),
    },
    {
      kind: "level section",
      stands: "above",
      draw: (ratio, withMarks) => sectionBlock(set, levelView, "u", fromAbove, titles.level, ratio, withMarks),
    },
  ];
}

/** The base under a case, cut half way up: where its ends and ribs stand. */
export function baseViewsOf(set: DryfitSet, drawn: SetAssembly): CaseView[] {
  const base = baseUnder(drawn, set.assemblies);
  if (base === null || base.feet !== null) return []; // feet show in the other views, their places on the bottom
  const [width, depth, height] = base.size;
  const view = viewOf(solidsOf(set, base), FROM_ABOVE, -height / 2);
  const whole: Whole = { u: [0, width], v: [0, depth] };
  const title = "Plinth, from above, cut half way up";
  return [
    {
      kind: "plinth",
      stands: "above",
      draw: (ratio, withMarks) => sectionBlock(set, view, "u", whole, title, ratio, withMarks),
    },
  ];
}
