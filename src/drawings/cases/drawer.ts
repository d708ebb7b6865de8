/**
 * A drawer by itself: its applied front with the box behind, the box cut from front to back and from above, a corner of it at large scale, and
 * "opening - clearance = box".
 */
import { type Box, boxToOuter, intersectBoxes, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { group as groupShapes, rect } from "../../paper/draw.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetDrawer, SetFeature, SetPart } from "../../set/schema.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks as stackLines, TEXT, word, words } from "../draughting/cell.ts";
import type { DimensionStyle, Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, hatchWords, VIEW_FIGURE } from "../draughting/picture.ts";
import { drawDimensionsRound } from "../draughting/round-view.ts";
import { draftViews } from "../draughting/several.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { captioned, subtitleOf } from "../draughting/view-title.ts";
import { type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_ABOVE, FROM_FRONT, FROM_RIGHT, type View, viewOf } from "../solids/view.ts";
import type { Spans } from "./bay-sizes.ts";
import { type CaseGroup, groupsOf } from "./case-group.ts";
import { makeWords } from "./elevation.ts";
import { markView, NO_MARKS, withAbove, withAside } from "./marking.ts";

const NOTE_GAP: Mm = 1.2;
const BETWEEN: Mm = 5; // two views one under the other
const CORNER: Mm = 45; // of the box, shown at large scale
const LARGE = 1 / 2;

const drawerOf = (set: DryfitSet, { name }: SetAssembly): SetDrawer =>
  set.drawers.find(({ assembly }) => assembly === name)!;

/** Round the box, without the applied front; in the drawer's own axes. */
function boxIn(solids: readonly Solid[], face: string): Box {
  const boxes = solids.filter(({ mark }) => mark !== face).flatMap((solid) => solid.boxes);
  const low = (i: 0 | 1 | 2): Mm => Math.min(...boxes.map(([lo]) => lo[i]));
  const high = (i: 0 | 1 | 2): Mm => Math.max(...boxes.map(([, hi]) => hi[i]));
  return [
    [low(0), low(1), low(2)],
    [high(0), high(1), high(2)],
  ];
}

/** From one end of the front to the other, past both ends of the box; what is nothing is left out. */
const past = (from: Mm, to: Mm, whole: readonly [Mm, Mm], least: Mm): Spans => {
  const at = [whole[0], from, to, whole[1]].sort((a, b) => a - b);
  return at.slice(1).flatMap((end, i) => (end - at[i]! > least ? [[at[i]!, end] as const] : []));
};

function frontBlock(set: DryfitSet, solids: Solid[], face: string, ratio: number, withMarks: boolean): Block {
  const view = viewOf(solids, FROM_FRONT);
  const picture = drawView(view, ratio);
  const [lo, hi] = boxIn(solids, face);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const row = (spans: Spans, at: (place: Mm) => Mm): Row => ({
    kind: "spans",
    spans: spans.map(([a, b]) => [at(a), at(b)]),
  });
  const [front] = solids.filter(({ mark }) => mark === face).flatMap(({ boxes }) => boxes);
  const { step } = set.job;
  const across = past(lo[0], hi[0], [front![0][0], front![1][0]], step / 2);
  const up = past(lo[2], hi[2], [front![0][2], front![1][2]], step / 2);
  const whole = (i: 0 | 2): Spans => [[front![0][i], front![1][i]]];
  const dimensions = drawDimensionsRound(
    [
      { side: "below", edge: 0, rows: [row(across, picture.x), row(whole(0), picture.x)] },
      { side: "left", edge: 0, rows: [row(up, picture.y), row(whole(2), picture.y)] },
    ],
    style,
  );
  const hidden = picture.rectOf({ u0: lo[0], u1: hi[0], v0: lo[2], v1: hi[2] });
  const marking = withMarks ? markView(view.seen, picture, [], withAbove(picture.box)) : NO_MARKS;
  return captioned(
    {
      shapes: [rect("hidden", hidden), ...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([picture.box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    "From the front, the box behind dashed",
    marking.note,
    picture.box,
  );
}

/** The box cut through, with what is clear inside it and what its parts take. */
function cutBlock(
  set: DryfitSet,
  view: View,
  spans: { across: Spans; up: Spans },
  title: string,
  ratio: number,
  withMarks: boolean,
): Block {
  const picture = drawView(view, ratio);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const rows = (list: Spans, at: (place: Mm) => Mm): Row[] =>
    [list, [[list[0]![0], list.at(-1)![1]] as const]].map((row) => ({
      kind: "spans",
      spans: row.map(([a, b]) => [at(a), at(b)]),
    }));
  const dimensions = drawDimensionsRound(
    [
      { side: "below", edge: 0, rows: rows(spans.across, picture.x) },
      { side: "left", edge: 0, rows: rows(spans.up, picture.y) },
    ],
    style,
  );
  const marking = withMarks ? markView(view.cut, picture, [], withAside(picture.box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([picture.box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    title,
    subtitleOf(hatchWords(view), marking.note),
    picture.box,
  );
}

/** The left front corner of the box, cut through below its bottom's groove or above it, as it is joined. */
function cornerBlock(solids: readonly Solid[], face: string, height: Mm, withMarks: boolean): Block {
  const [lo] = boxIn(solids, face);
  const window: Box = [
    [lo[0] - 1, lo[1] - CORNER / 2, lo[2]],
    [lo[0] + CORNER, lo[1] + CORNER, height + 1000],
  ];
  const near = solids.flatMap((solid): Solid[] => {
    const boxes = solid.boxes.flatMap((box) => {
      const inside = intersectBoxes(box, window);
      return inside === null ? [] : [inside];
    });
    return boxes.length === 0 ? [] : [{ ...solid, boxes }];
  });
  const view = viewOf(near, FROM_ABOVE, -height);
  const picture = drawView(view, LARGE);
  const marking = withMarks ? markView(view.cut, picture, [], withAside(picture.box)) : NO_MARKS;
  return captioned(
    { shapes: [...picture.shapes, ...marking.shapes], box: unionOf([picture.box, ...marking.boxes]) },
    "Its left front corner, from above, 1:2",
    marking.note,
    picture.box,
  );
}

/** One under the other, their left sides in line. */
function under(blocks: readonly Block[]): Block {
  const left = Math.min(...blocks.map(({ box }) => box.x));
  let y = 0;
  const placed = blocks.map((block): Block => {
    const by = y - block.box.y;
    y += block.box.height + BETWEEN;
    return {
      shapes: [groupShapes(block.shapes, { move: [-left, by] })],
      box: { ...block.box, x: block.box.x - left, y: block.box.y + by },
    };
  });
  return { shapes: placed.flatMap(({ shapes }) => shapes), box: unionOf(placed.map(({ box }) => box)) };
}

function drawDrawer(set: DryfitSet, group: CaseGroup, space: Rect): Draft[] {
  const { drawn } = group;
  const drawer = drawerOf(set, drawn);
  const solids = solidsOf(set, drawn);
  const [lo, hi] = boxIn(solids, drawer.face);
  const lines = [...notesOf(set, drawer), words(makeWords(group))].filter((atoms) => atoms.length > 0);
  const note = stackLines(
    lines.map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const middle = (lo[0] + hi[0]) / 2;
  // Above the bottom, where the box is open.
  const bottom = set.parts.find(({ assembly, role }) => assembly === drawn.name && role === "drawerBottom")!;
  const open = bottom.place!.at[2] + bottom.thickness + (hi[2] - lo[2]) / 4;
  const upright = viewOf(solids, FROM_RIGHT, -middle);
  const level = viewOf(solids, FROM_ABOVE, -open);
  const chain = chainsOf(set, drawn, [lo, hi]);
  const name = `${drawn.name.charAt(0).toUpperCase()}${drawn.name.slice(1)}`;
  const key = `drawer-${set.assemblies.indexOf(drawn) + 1}`;
  const views = (ratio: number, withMarks: boolean): [Block, Block, Block, Block] => [
    frontBlock(set, solids, drawer.face, ratio, withMarks),
    cutBlock(
      set,
      upright,
      { across: chain(1), up: chain(2) },
      "Cut from front to back, from the right",
      ratio,
      withMarks,
    ),
    cutBlock(set, level, { across: chain(0), up: chain(1) }, "Cut above the bottom, from above", ratio, withMarks),
    cornerBlock(solids, drawer.face, open, withMarks),
  ];
  return draftViews(
    { unit: set.job.unit, space, note, key, name },
    (ratio, withMarks) => {
      const [front, cut, above, corner] = views(ratio, withMarks);
      return [under([front, cut]), under([above, corner])];
    },
    views,
  );
}

const SUM_WORDS = { width: "Width", inside: "Inside", height: "Height", depth: "Depth" };
const WHOLE_WORDS = {
  width: "opening",
  inside: "opening",
  height: "opening",
  depth: "clear behind the applied front",
};

/** "Width: opening 564.7 - 12.7 (slide, left) - 12.7 (slide, right) = box 539.3" */
function sumAtoms({ what, whole, less, makes }: SetDrawer["sums"][number], unit: "in" | "mm"): Atom[] {
  return [
    word(`${SUM_WORDS[what]}:`, TEXT, "bold"),
    ...words(WHOLE_WORDS[what]),
    figure(whole, unit),
    ...less.flatMap((one) => [...words("\u2212"), figure(one.size, unit), ...words(`(${one.what})`)]),
    ...words(what === "inside" ? "= inside" : "= box"),
    figure(makes, unit, undefined, "bold"),
  ];
}

/** Along an axis of the box: its walls, or its bottom, and what is clear between them. */
const chainsOf =
  (set: DryfitSet, drawn: SetAssembly, [lo, hi]: Box) =>
  (axis: 0 | 1 | 2): Spans => {
    const of = (role: SetPart["role"]): [Mm, Mm][] =>
      set.parts
        .filter((part) => part.assembly === drawn.name && part.role === role)
        .map((part) => {
          const [a, b] = boxToOuter(part.place as Place, [
            [0, 0, 0],
            [part.length, part.width, part.thickness],
          ]);
          return [a[axis], b[axis]];
        });
    const walls =
      axis === 0 ? of("drawerSide") : axis === 1 ? [...of("drawerFront"), ...of("drawerBack")] : of("drawerBottom");
    const ends = [lo[axis], ...walls.flat(), hi[axis]].sort((a, b) => a - b);
    return ends.slice(1).flatMap((end, i) => (end - ends[i]! > set.job.step / 2 ? [[ends[i]!, end] as const] : []));
  };

/** The sums, how the box is joined, what it runs on and what lies in it. */
function notesOf(set: DryfitSet, drawer: SetDrawer): Atom[][] {
  const { unit } = set.job;
  const own = set.parts.filter(({ assembly }) => assembly === drawer.assembly);
  const bottom = own.find(({ role }) => role === "drawerBottom")!;
  const groove = own.flatMap(({ features }) => features).find(({ holds }) => holds === bottom.mark)!;
  const { slides } = drawer;
  const side = own.find(({ role }) => role === "drawerSide")!;
  return [
    ...drawer.sums.map((sum) => sumAtoms(sum, unit)),
    [
      ...words(
        `${drawer.keeps === null ? "" : `For ${drawer.keeps}. `}Front and back ${joinedBy(own)}; bottom in grooves`,
      ),
      figure(groove.depth, unit),
      ...words("deep,"),
      figure(bottomUp(side, groove.width, bottom), unit),
      ...words("up, loose in them. Applied front screwed on from inside, last of all."),
    ],
    [
      ...words(
        slides.kind === "wooden runners"
          ? "Runs on wooden runners,"
          : `One pair of ${slides.kind} slides${slides.rating === null ? "" : ` rated ${weight(slides.rating, unit)}`},`,
      ),
      figure(slides.length, unit),
      ...words(`long; reckoned with ${weight(drawer.load, unit)} in it. Measure the slides before anything is cut.`),
    ],
  ];
}

/** How front and back of a box are held by its sides. */
function joinedBy(own: readonly SetPart[]): string {
  const has = (kind: SetFeature["kind"]): boolean =>
    own.some(({ features }) => features.some((one) => one.kind === kind));
  if (has("socket"))
    return "run over the sides and are dovetailed with them, by the layout at full size among the sticks";
  return has("shoulder") ? "in dados of the sides, by a tongue that a rabbet leaves" : "in rabbets of the sides";
}

/** Lower edge of the side to the groove's lower wall. */
function bottomUp(side: SetPart, width: Mm, bottom: SetPart): Mm {
  const groove = side.features.find(({ holds }) => holds === bottom.mark)!;
  return side.place!.w === "+z" ? groove.at : side.width - groove.at - width;
}

const KG_PER_POUND = 0.45359237;
const weight = (mass: number, unit: "in" | "mm"): string =>
  unit === "mm" ? `${Number(mass.toFixed(1))} kg` : `${(mass / KG_PER_POUND).toFixed(0)} lb`;

export const drawDrawers = (set: DryfitSet): Movable[] =>
  groupsOf(set, "drawer").flatMap((group) => movable(drawingSpace(set), (space) => drawDrawer(set, group, space)));
