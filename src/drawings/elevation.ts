/** Elevations of each case: from the front with every clear size and mark, then from the right and from above. */
import type { Mm } from "../base/length.ts";
import { group as groupShapes, text } from "../paper/draw.ts";
import { measureText } from "../paper/lettering.ts";
import type { Point, Rect, Shape } from "../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetOpening } from "../set/schema.ts";
import { type Block, fitBlocks, grow, isWithin, meets, unionOf } from "./block.ts";
import { type CaseGroup, caseGroups, keyOfCase, nameOfCase, standingSolids } from "./case-group.ts";
import { setLines, words } from "./cell.ts";
import { clipToBox } from "./clip.ts";
import { cutsOf, drawCutMarks, MARKS_SPACE } from "./cutting.ts";
import { type DimensionStyle, drawDimensions, drawSpan, type Row } from "./dimension.ts";
import type { Draft } from "./draft.ts";
import { LEAST_TEXT } from "./fitting.ts";
import { drawingSpace } from "./frame.ts";
import { type Marking, markView, NO_MARKS, withAbove, withAside } from "./marking.ts";
import { drawView, type Picture } from "./picture.ts";
import { stackStretches } from "./stretch.ts";
import { FROM_ABOVE, FROM_FRONT, FROM_RIGHT, type View, viewOf } from "./view.ts";
import { captioned } from "./view-title.ts";

/** Figures on general views. */
export const VIEW_FIGURE: Mm = 3.5; // its fraction digits are then the least that is lettered

type Spans = (readonly [Mm, Mm])[];

const isSame = (a: readonly [Mm, Mm], b: readonly [Mm, Mm]): boolean =>
  Math.abs(a[0] - b[0]) < 1e-4 && Math.abs(a[1] - b[1]) < 1e-4;

const distinct = (spans: Spans): Spans =>
  spans.filter((span, i) => spans.findIndex((other) => isSame(span, other)) === i);

const acrossOf = (opening: SetOpening): readonly [Mm, Mm] => [opening.at[0], opening.at[0] + opening.width];
const upOf = (opening: SetOpening): readonly [Mm, Mm] => [opening.at[2], opening.at[2] + opening.height];

/** The clear sizes a chain along one side shows, and those of the openings it does not reach. */
type Chains = { below: Spans; left: Spans; right: Spans; innerAcross: SetOpening[]; innerUp: SetOpening[] };

function chainsOf(openings: SetOpening[]): Chains {
  const lowest = Math.min(...openings.map((o) => o.at[2]));
  const leftmost = Math.min(...openings.map((o) => o.at[0]));
  const rightmost = Math.max(...openings.map((o) => acrossOf(o)[1]));
  const below = distinct(openings.filter((o) => o.at[2] - lowest < 1e-4).map(acrossOf));
  const left = distinct(openings.filter((o) => o.at[0] - leftmost < 1e-4).map(upOf));
  const atRight = distinct(openings.filter((o) => rightmost - acrossOf(o)[1] < 1e-4).map(upOf));
  const right = atRight.filter((span) => !left.some((other) => isSame(other, span)));
  const shown = [...left, ...right];
  return {
    below,
    left,
    right,
    innerAcross: openings.filter((o) => !below.some((span) => isSame(span, acrossOf(o)))),
    innerUp: openings.filter((o) => !shown.some((span) => isSame(span, upOf(o)))),
  };
}

/** What is left over at the foot and the head: the floor to the bottom's underside, the top panel to the sides' ends; less than a rounding step is none. */
function setDowns(set: DryfitSet, assembly: SetAssembly, openings: SetOpening[]): Spans {
  const lowest = Math.min(...openings.map((o) => o.at[2]));
  const highest = Math.max(...openings.map((o) => upOf(o)[1]));
  const thicknessOf = (role: "bottom" | "top"): Mm =>
    set.parts.find((part) => part.assembly === assembly.name && part.role === role)?.thickness ?? 0;
  const foot = lowest - thicknessOf("bottom");
  const head = highest + thicknessOf("top");
  return [
    ...(foot > set.job.step ? [[0, foot] as const] : []),
    ...(assembly.size[2] - head > set.job.step ? [[head, assembly.size[2]] as const] : []),
  ];
}

const openingsOf = (set: DryfitSet, assembly: SetAssembly): SetOpening[] =>
  set.openings.filter((opening) => opening.case === assembly.name);

/** Where across a bay its inner dimension line may stand, as shares of the bay; the first is read best. */
const SHARES: readonly number[] = [0.25, 0.15, 0.4, 0.08, 0.55, 0.7];
const INNER_CLEAR: Mm = 0.8;

type Inner = { shapes: Shape[]; boxes: Rect[]; crowdedAcross: SetOpening[]; crowdedUp: SetOpening[] };

/** Dimension lines inside the bays that no outer chain reaches; where a bay is too small for one, it is left to the outside. */
function drawInner(chains: Chains, picture: Picture, style: DimensionStyle): Inner {
  const inner: Inner = { shapes: [], boxes: [], crowdedAcross: [], crowdedUp: [] };
  const place = (o: SetOpening, lineAt: (share: number) => readonly [Point, Point]): boolean => {
    const bay = picture.rectOf({ u0: o.at[0], u1: acrossOf(o)[1], v0: o.at[2], v1: upOf(o)[1] });
    for (const share of SHARES) {
      const span = drawSpan(...lineAt(share), style);
      const isFree =
        isWithin(grow(span.box, INNER_CLEAR), bay) && !inner.boxes.some((box) => meets(grow(box, 0.5), span.box));
      if (!isFree) continue;
      inner.shapes.push(...span.shapes);
      inner.boxes.push(span.box, span.line);
      return true;
    }
    return false;
  };
  for (const o of chains.innerAcross) {
    const y = (share: number): Mm => picture.y(o.at[2] + o.height * share);
    const isPlaced = place(o, (share) => [
      [picture.x(o.at[0]), y(share)],
      [picture.x(acrossOf(o)[1]), y(share)],
    ]);
    if (!isPlaced) inner.crowdedAcross.push(o);
  }
  for (const o of chains.innerUp) {
    const x = (share: number): Mm => picture.x(o.at[0] + o.width * share);
    const isPlaced = place(o, (share) => [
      [x(share), picture.y(o.at[2])],
      [x(share), picture.y(upOf(o)[1])],
    ]);
    if (!isPlaced) inner.crowdedUp.push(o);
  }
  return inner;
}

const BAY_SHARES: readonly number[] = [0, 0.5, 1, 0.25, 0.75];

/** The name of each bay, as the steps call it, in a corner of it; where marks and figures leave no room, none. */
function nameBays(openings: SetOpening[], picture: Picture, taken: readonly Rect[], marking: Marking): Shape[] {
  const blocked = [...taken, ...marking.boxes];
  return openings.flatMap((o): Shape[] => {
    const bay = picture.rectOf({ u0: o.at[0], u1: acrossOf(o)[1], v0: o.at[2], v1: upOf(o)[1] });
    const size = { width: measureText(o.name, LEAST_TEXT, "regular"), height: LEAST_TEXT };
    const room = grow(bay, -BAY_CLEAR);
    for (const down of BAY_SHARES) {
      for (const across of BAY_SHARES) {
        const x = room.x + across * (room.width - size.width);
        const y = room.y + down * (room.height - size.height);
        const box = { x, y, ...size };
        const air = grow(box, 0.6);
        const isFree =
          isWithin(box, room) &&
          !blocked.some((other) => meets(air, other)) &&
          ![...picture.segments, ...marking.leaders].some(([a, b]) => clipToBox(a, b, air) !== null);
        if (isFree) return [text([x, y + LEAST_TEXT], o.name, LEAST_TEXT)];
      }
    }
    return [];
  });
}

const BAY_CLEAR: Mm = 1.2;

function frontBlock(set: DryfitSet, assembly: SetAssembly, view: View, ratio: number, withMarks: boolean): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const openings = openingsOf(set, assembly);
  const chains = chainsOf(openings);
  const onX = (spans: Spans): Spans => spans.map(([a, b]) => [picture.x(a), picture.x(b)]);
  const onY = (spans: Spans): Spans => spans.map(([a, b]) => [picture.y(a), picture.y(b)]);
  const all = (size: Mm): Spans => [[0, size]];
  const { box } = picture;
  const inner = drawInner(chains, picture, style);
  const rowsOf = (spans: Spans): Row[] => stackStretches(spans).map((row) => ({ kind: "spans", spans: row }));
  const dimensions = [
    drawDimensions(
      "below",
      0,
      [
        { kind: "spans", spans: onX(chains.below) },
        ...rowsOf(onX(distinct(inner.crowdedAcross.map(acrossOf)))),
        { kind: "spans", spans: onX(all(assembly.size[0])) },
      ],
      style,
      MARKS_SPACE,
    ),
    drawDimensions(
      "left",
      0,
      [
        { kind: "spans", spans: onY([...chains.left, ...setDowns(set, assembly, openings)]) },
        { kind: "spans", spans: onY(all(assembly.size[2])) },
      ],
      style,
      MARKS_SPACE,
    ),
    drawDimensions(
      "right",
      box.width,
      [{ kind: "spans", spans: onY(chains.right) }, ...rowsOf(onY(distinct(inner.crowdedUp.map(upOf))))],
      style,
      MARKS_SPACE,
    ),
  ];
  const cutMarks = drawCutMarks(cutsOf(set, assembly), picture);
  const marking = withMarks
    ? markView(view.seen, picture, [...inner.boxes, ...cutMarks.boxes], withAbove(box))
    : NO_MARKS;
  const names = withMarks ? nameBays(openings, picture, [...inner.boxes, ...cutMarks.boxes], marking) : [];
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        ...dimensions.flatMap((d) => d.shapes),
        ...inner.shapes,
        ...cutMarks.shapes,
        ...marking.shapes,
        ...names,
      ],
      box: unionOf([box, ...cutMarks.boxes, ...marking.boxes, ...dimensions.flatMap((d) => d.boxes)]),
    },
    FRONT,
    marking.note,
  );
}

const FRONT = "Front view";

/** "make 2", and which marks the other ones carry. */
function makeWords(group: CaseGroup): string {
  if (group.others.length === 0) return "";
  const others = group.others.map(
    ({ assembly, marks }) =>
      `Marks in ${assembly.name}: ${marks.map(({ drawn, other }) => `${other} for ${drawn}`).join(", ")}.`,
  );
  return `Make ${group.others.length + 1}. ${others.join(" ")}`;
}

const NOTE_AIR: Mm = 3;

function drawFront(set: DryfitSet, group: CaseGroup): Draft {
  const { drawn } = group;
  const space = drawingSpace(set);
  const view = viewOf(standingSolids(set, drawn), FROM_FRONT);
  const note = setLines(words(makeWords(group)), space.width);
  const room: Rect = { ...space, height: space.height - (note.height === 0 ? 0 : note.height + NOTE_AIR) };
  const { shapes, scale } = fitBlocks(set.job.unit, room, (ratio, withMarks) => [
    frontBlock(set, drawn, view, ratio, withMarks),
  ]);
  const name = nameOfCase(set, FRONT, drawn);
  return {
    key: keyOfCase(set, "front-view", drawn),
    name,
    bookmark: ["Views", name],
    scale: scale.name,
    projected: true,
    shapes: [...shapes, groupShapes(note.shapes, { move: [space.x, space.y + space.height - note.height] })],
  };
}

/** A view with its overall sizes, and the marks that show. */
function plainBlock(set: DryfitSet, view: View, title: string, ratio: number, withMarks: boolean): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const dimensions = [
    drawDimensions("below", 0, [{ kind: "spans", spans: [[0, box.width]] }], style),
    drawDimensions("left", 0, [{ kind: "spans", spans: [[box.y, 0]] }], style),
  ];
  const marking = withMarks ? markView(view.seen, picture, [], withAside(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    title,
    marking.note,
  );
}

function drawSideAndPlan(set: DryfitSet, { drawn }: CaseGroup): Draft {
  const solids = standingSolids(set, drawn);
  const [plan, side] = [viewOf(solids, FROM_ABOVE), viewOf(solids, FROM_RIGHT)];
  const { shapes, scale } = fitBlocks(set.job.unit, drawingSpace(set), (ratio, withMarks) => [
    plainBlock(set, plan, "Plan, from above", ratio, withMarks),
    plainBlock(set, side, "Side view, from the right", ratio, withMarks),
  ]);
  const name = nameOfCase(set, "Side view and plan", drawn);
  return {
    key: keyOfCase(set, "side-and-plan", drawn),
    name,
    bookmark: ["Views", name],
    scale: scale.name,
    projected: true,
    shapes,
  };
}

/** The front view of each case, then its side view and plan. */
export const drawElevations = (set: DryfitSet): Draft[] =>
  caseGroups(set).flatMap((group) => [drawFront(set, group), drawSideAndPlan(set, group)]);
