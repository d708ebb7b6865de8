/** Sections of each case: upright through a bay, and level through the bays; what is cut is hatched. */
import type { Mm } from "../base/length.ts";
import type { DryfitSet } from "../set/schema.ts";
import { type Block, fitBlocks, unionOf } from "./block.ts";
import { caseGroups, keyOfCase, nameOfCase, standingSolids } from "./case-group.ts";
import { cutsOf } from "./cutting.ts";
import { type DimensionStyle, drawDimensions, type Row } from "./dimension.ts";
import type { Draft } from "./draft.ts";
import { VIEW_FIGURE } from "./elevation.ts";
import { drawingSpace } from "./frame.ts";
import { markView, NO_MARKS, withAside } from "./marking.ts";
import { drawView } from "./picture.ts";
import { FROM_ABOVE, FROM_RIGHT, type Patch, type View, viewOf } from "./view.ts";
import { captioned } from "./view-title.ts";

type Spans = (readonly [Mm, Mm])[];

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

function sectionBlock(
  set: DryfitSet,
  view: View,
  first: "u" | "v",
  title: string,
  ratio: number,
  withMarks: boolean,
): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const clears = clearsOf([...view.cut.values()].flat(), view.bounds, first, set.job.step);
  const across: Row[] = [
    { kind: "spans", spans: clears.u.map(([a, b]) => [picture.x(a), picture.x(b)]) },
    { kind: "spans", spans: [[0, box.width]] },
  ];
  const up: Row[] = [
    { kind: "spans", spans: clears.v.map(([a, b]) => [picture.y(a), picture.y(b)]) },
    { kind: "spans", spans: [[box.y, 0]] },
  ];
  const dimensions = [drawDimensions("below", 0, across, style), drawDimensions("left", 0, up, style)];
  const marking = withMarks ? markView(view.cut, picture, [], withAside(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    title,
    marking.note,
  );
}

export const drawSections = (set: DryfitSet): Draft[] =>
  caseGroups(set).map(({ drawn }) => {
    const solids = standingSolids(set, drawn);
    const { upright, level } = cutsOf(set, drawn);
    // Depth runs away from the eye: looking to the left it is -x, looking down -z.
    const levelView = viewOf(solids, FROM_ABOVE, -level.z);
    const uprightView = viewOf(solids, FROM_RIGHT, -upright.x);
    const titles = {
      level: `Section ${level.letter}-${level.letter}, from above`,
      upright: `Section ${upright.letter}-${upright.letter}, from the right`,
    };
    const { shapes, scale } = fitBlocks(set.job.unit, drawingSpace(set), (ratio, withMarks) => [
      sectionBlock(set, levelView, "u", titles.level, ratio, withMarks),
      sectionBlock(set, uprightView, "v", titles.upright, ratio, withMarks),
    ]);
    const name = nameOfCase(set, "Sections", drawn);
    return {
      key: keyOfCase(set, "sections", drawn),
      name,
      bookmark: ["Views", name],
      scale: scale.name,
      projected: true,
      shapes,
    };
  });
