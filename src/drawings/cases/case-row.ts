/** Cases of one job that stand beside or on each other, seen together from the front, each part once. */
import { AXES, type Box, boxToOuter, type Place, toOuter } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { baseUnder, behindFrame } from "../../set/standing.ts";
import { type Block, noRoomFor, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare } from "../draughting/filled.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { fitViews, type ProjectedView } from "../draughting/projection.ts";
import type { Scale } from "../draughting/scale.ts";
import { stackStretches } from "../draughting/stretch.ts";
import { captioned } from "../draughting/view-title.ts";
import { moveSolid, type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_ABOVE, FROM_FRONT, FROM_RIGHT, type View, viewOf } from "../solids/view.ts";
import { distinct, type Spans } from "./bay-sizes.ts";
import { type Exploded, togetherOf, twoOf } from "./exploded.ts";
import { markView, NO_MARKS, withAbove } from "./marking.ts";

/** A case with the base under it, as boxes in the room. */
type Standing = { assembly: SetAssembly; base: SetAssembly | null; boxes: Box[] };

export const boxOfAssembly = ({ place, size }: SetAssembly): Box => boxToOuter(place as Place, [[0, 0, 0], size]);

/** Whether two boxes meet in a plane upright from left to right, or level: neither behind the other. */
const touch = (a: Box, b: Box): boolean =>
  ([0, 2] as const).some(
    (across) =>
      (isSame(a[1][across], b[0][across]) || isSame(b[1][across], a[0][across])) &&
      AXES.filter((i) => i !== across).every((i) => Math.min(a[1][i], b[1][i]) - Math.max(a[0][i], b[0][i]) > 1e-3),
  );

function standingCases(set: DryfitSet): Standing[] {
  return set.assemblies
    .filter(({ kind }) => kind === "case")
    .map((assembly) => {
      const base = baseUnder(assembly, set.assemblies);
      const boxes = [assembly, ...(base === null ? [] : [base])].map(boxOfAssembly);
      return { assembly, base, boxes };
    });
}

/** Cases joined by touch, in the order of the set; those that stand alone are left out. */
function caseRows(set: DryfitSet): Standing[][] {
  let rows: Standing[][] = [];
  for (const one of standingCases(set)) {
    const near = rows.filter((row) => row.some((other) => other.boxes.some((a) => one.boxes.some((b) => touch(a, b)))));
    rows = [...rows.filter((row) => !near.includes(row)), [...near.flat(), one]];
  }
  return rows.filter((row) => row.length > 1);
}

/** With the frames that go before several of them, and their returns. */
const solidsOfRow = (set: DryfitSet, row: readonly Standing[]): Solid[] =>
  [
    ...row.flatMap(({ assembly, base }) => (base === null ? [assembly] : [assembly, base])),
    ...framesOver(set, row).flatMap((frame) => [frame, ...returnsOn(set, frame)]),
  ]
    .filter((assembly, i, all) => all.indexOf(assembly) === i)
    .flatMap((assembly) =>
      solidsOf(set, assembly).map((solid) => moveSolid(solid, (spot) => toOuter(assembly.place as Place, spot))),
    );

const framesOver = ({ assemblies }: DryfitSet, row: readonly Standing[]): SetAssembly[] =>
  assemblies.filter((frame) => {
    const behind = behindFrame(frame, assemblies);
    return behind.length > 1 && behind.every((one) => row.some(({ assembly }) => assembly === one));
  });

const returnsOn = ({ assemblies, returns }: DryfitSet, { name }: SetAssembly): SetAssembly[] =>
  assemblies.filter((one) => returns.some(({ assembly, frame }) => assembly === one.name && frame === name));

type Extent = Spans[number];

const extentsOf = (row: readonly Standing[], axis: 0 | 1 | 2): Extent[] =>
  distinct(row.flatMap(({ boxes }) => boxes).map(([lo, hi]): Extent => [lo[axis], hi[axis]]));

const wholeOf = (extents: readonly Extent[]): Extent => [
  Math.min(...extents.map(([a]) => a)),
  Math.max(...extents.map(([, b]) => b)),
];

/** Each case's own extent along an axis of the room, then all of them together; once where they are the same. */
function rowsOfSpans(row: readonly Standing[], axis: 0 | 1 | 2, at: (place: Mm) => Mm): Row[] {
  const own = extentsOf(row, axis);
  const whole = wholeOf(own);
  const parted = own.filter(([a, b]) => !isSame(a, whole[0]) || !isSame(b, whole[1]));
  return [...stackStretches(parted), [whole]].map((spans) => ({
    kind: "spans",
    spans: spans.map(([a, b]) => [at(a), at(b)]),
  }));
}

/** What each row measures over all: its cases by name, and width, depth and height. */
export const rowSizes = (set: DryfitSet): { cases: SetAssembly[]; names: string; size: readonly [Mm, Mm, Mm] }[] =>
  caseRows(set).map((row) => {
    const [width, depth, height] = AXES.map((axis) => {
      const [from, to] = wholeOf(extentsOf(row, axis));
      return to - from;
    }) as [Mm, Mm, Mm];
    const cases = row.map(({ assembly }) => assembly);
    return { cases, names: listInWords(cases.map(({ name }) => name)), size: [width, depth, height] };
  });

function rowBlock(
  set: DryfitSet,
  row: readonly Standing[],
  view: View,
  { up, title }: { up: 1 | 2 | null; title: string },
  ratio: number,
  withMarks: boolean,
): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  // What a view beside these has is not said again.
  const dimensions =
    up === null
      ? []
      : [
          drawDimensions("below", 0, rowsOfSpans(row, 0, picture.x), style),
          drawDimensions("left", 0, rowsOfSpans(row, up, picture.y), style),
        ];
  const marking = withMarks ? markView(view.seen, picture, [], withAbove(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    title,
    marking.note,
    box,
  );
}

type Draw = (ratio: number, withMarks: boolean) => ProjectedView[];

const SHARES = [0.4, 0.5, 0.6, 0.7, 0.8];

type Drawn = { shapes: Shape[]; scale: Scale };

/** The views as large as they go, and beside or under them, where that makes them no smaller, the first of the pictures that has room there, as large as that goes. */
function withPicture(job: DryfitSet["job"], space: Rect, draw: Draw, pictures: readonly Exploded[]): Drawn {
  const whole = fitViews(job, space, draw);
  if (whole === null) throw noRoomFor(space);
  for (const picture of pictures) {
    const beside = pictureBeside(job, space, draw, { whole, picture });
    if (beside !== null) return beside;
  }
  return whole;
}

function pictureBeside(
  job: DryfitSet["job"],
  space: Rect,
  draw: Draw,
  { whole, picture }: { whole: Drawn; picture: Exploded },
): Drawn | null {
  const rooms = SHARES.flatMap((share) => [
    {
      own: { ...space, width: space.width * share },
      rest: { ...space, x: space.x + space.width * share, width: space.width * (1 - share) },
    },
    {
      own: { ...space, height: space.height * share },
      rest: { ...space, y: space.y + space.height * share, height: space.height * (1 - share) },
    },
  ]).sort((a, b) => picture.ratioIn(b.rest) - picture.ratioIn(a.rest));
  for (const { own, rest } of rooms) {
    if (!picture.isLarge(picture.ratioIn(rest))) break;
    const fitted = fitViews(job, own, draw);
    if (fitted?.scale.ratio === whole.scale.ratio) {
      return { shapes: [...fitted.shapes, ...picture.draw(rest)], scale: whole.scale };
    }
  }
  return null;
}

const LEAST_FILLED = 0.34; // a third, and a little for what rounding makes of it

/** The first way that does not leave the drawing nearly blank, none drawn smaller than by the first; else the fullest. */
function fullEnough(set: DryfitSet, ways: readonly [Draw, Exploded[]][]): Drawn {
  const space = drawingSpace(set);
  let best: (Drawn & { filled: number }) | null = null;
  for (const [draw, pictures] of ways) {
    const drawn = withPicture(set.job, space, draw, pictures);
    const filled = filledShare(drawn.shapes, space);
    const isSmaller = best !== null && drawn.scale.ratio < best.scale.ratio - 1e-9;
    if (!isSmaller && (best === null || filled > best.filled)) best = { ...drawn, filled };
    if (best!.filled >= LEAST_FILLED) break;
  }
  return best!;
}

/** One drawing for each row: from the front, and over it from above; from the right and from behind too where these leave it nearly blank. */
export const drawRows = (set: DryfitSet): Draft[] =>
  caseRows(set).map((row, i) => {
    const solids = solidsOfRow(set, row);
    const [front, plan] = [viewOf(solids, FROM_FRONT), viewOf(solids, FROM_ABOVE)];
    const names = listInWords(row.map(({ assembly }) => assembly.name));
    const few: Draw = (ratio, withMarks) => [
      { stands: "front", block: rowBlock(set, row, front, { up: 2, title: "Front view, together" }, ratio, withMarks) },
      { stands: "above", block: rowBlock(set, row, plan, { up: 1, title: "Plan, from above" }, ratio, withMarks) },
    ];
    const many: Draw = (ratio, withMarks) => {
      const title = "Side view, from the right";
      const block = rowBlock(set, row, viewOf(solids, FROM_RIGHT), { up: null, title }, ratio, withMarks);
      return [...few(ratio, withMarks), { stands: "right", block }];
    };
    const [marked, plainly] = [togetherOf(solids), togetherOf(solids, false)];
    const behind = togetherOf(solids, false, "behind");
    const both = [twoOf(marked, behind), twoOf(plainly, behind)];
    const ways: [Draw, Exploded[]][] = [
      [few, [marked, plainly]],
      [many, [marked, plainly]],
      [many, both],
    ];
    const { shapes, scale } = fullEnough(set, ways);
    const name = `Front view and plan, ${names} together`;
    return { key: `together-${i + 1}`, name, bookmark: ["Views", name], scale: scale.name, projected: true, shapes };
  });
