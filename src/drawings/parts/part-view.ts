/**
 * One face of a part, features hatched and dimensioned, with the sections that show their depth. Lying, the length runs
 * to the right; standing, it runs up. Laid out about the face's lower left corner:
 *
 *        running dimensions, overall length
 *       +--------------------------------+  marks   section
 *   w   |   ///        inside face       |          across
 *       +--------------------------------+          the length
 *             marks of what enters
 *       ================================== section along the length
 */
import type { Mm } from "../../base/length.ts";
import { circleSteps, group, lines, rect, slotSteps, stroke } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { longerFace } from "../../set/facing.ts";
import { type Fastening, fasteningsOf } from "../../set/fastening.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../set/schema.ts";

import { type Block, grow, unionOf } from "../draughting/block.ts";
import { setLines, TEXT, words } from "../draughting/cell.ts";

import { DATUM_SPACE, datumMark, sideOfDatum } from "../draughting/datum-mark.ts";
import type { DimensionStyle, Side } from "../draughting/dimension.ts";
import { hatch } from "../draughting/hatch.ts";
import { drawView } from "../draughting/picture.ts";
import type { Projection } from "../draughting/projection.ts";
import { drawDimensionsRound } from "../draughting/round-view.ts";
import { drawShaped, mitresIn, shapesIn } from "../draughting/shaped.ts";
import { drawSocket, socketsIn } from "../draughting/sockets.ts";
import { lippingBox, solidOf } from "../solids/solid.ts";
import { type Direction, type View, viewOf } from "../solids/view.ts";
import {
  axesOnPaper,
  type BroadFace,
  endHoles,
  FACE_VIEWS,
  featuresOn,
  holesOn,
  type Lie,
  type OnPaper,
  rectOnPaper,
  slotsOf,
} from "./part-axes.ts";
import { type Before, withChanges } from "./part-changes.ts";
import { letterFace } from "./part-lettering.ts";
import { drawLine, edgeBolts, lineBox } from "./part-lines.ts";
import { rowsOf } from "./part-rows.ts";
import { drawStrips, type Section, sectionsOf } from "./part-sections.ts";

export const PART_FIGURE: Mm = 3.5; // read at the saw
const GROOVE_HATCH: Mm = 1.8;
const CENTRE_MARK: Mm = 0.6; // beyond the hole
const SCREW: Mm = 1.3; // each arm of a screw's cross

type Ways = { along: Side; marks: Side; across: Side; acrossMarks: Side };
export const WAYS: Record<Lie, Ways> = {
  lying: { along: "above", marks: "below", across: "left", acrossMarks: "right" },
  standing: { along: "left", marks: "right", across: "above", acrossMarks: "below" },
};

/** What is seen of a part's face and of its sections, at no scale yet. */
export type FaceViews = {
  part: SetPart;
  face: BroadFace;
  lie: Lie;
  direction: Direction;
  view: View;
  sections: Section[];
  before: Before | null;
};

export function faceViews(
  part: SetPart,
  face: BroadFace,
  lie: Lie,
  before: Before | null = null,
  projection: Projection = "third",
): FaceViews {
  const direction = FACE_VIEWS[lie][face];
  const view = viewOf([{ mark: part.mark, boxes: solidOf(withoutSockets(part)) }], direction);
  return { part, face, lie, direction, view, sections: sectionsOf(part, face, lie, projection), before };
}

/** Drawn by their own lines, which slope. */
const withoutSockets = (part: SetPart): SetPart => ({
  ...part,
  features: part.features.filter(({ kind }) => kind !== "socket"),
});

const revisionOf = (before: Before | null): Pick<DimensionStyle, "revision"> =>
  before === null ? {} : { revision: before.letter };

/** `isTabled`: its screws are told in a table, not round the view. */
export function drawFace(set: DryfitSet, views: FaceViews, ratio: number, isTabled = false, isTitled = true): Block {
  const { part, face, lie, direction, before } = views;
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: PART_FIGURE, ...revisionOf(before) };
  const picture = drawView(views.view, ratio);
  const paper = axesOnPaper(picture, direction);
  const ways = WAYS[lie];
  const plain = rowsOf(set, part, face, paper, isTabled);
  const rows = before === null ? plain : withChanges(plain, { set, part, face, isTabled }, before);
  const edges: Record<Side, Mm> = { above: picture.box.y, below: 0, left: 0, right: picture.box.width };
  const reserved = (side: Side): Mm =>
    rows.datums.some((d) => sideOfDatum(d, part, paper, picture.box) === side) ? DATUM_SPACE : 0;
  const asked = [
    { side: ways.along, list: rows.along },
    { side: ways.across, list: rows.across },
    { side: ways.marks, list: rows.marks },
    { side: ways.acrossMarks, list: rows.acrossMarks },
  ];
  const laid = drawDimensionsRound(
    asked.map(({ side, list }) => ({ side, edge: edges[side], rows: list, reserved: reserved(side) })),
    style,
  );
  const dimensions = asked.map(({ side }, i) => ({ side, laid: laid[i]! }));
  const depthOn = (side: Side): Mm => dimensions.find((d) => d.side === side)!.laid.depth;
  const grooves = featuresOn(part, face).map((feature) => rectOnPaper(feature.box, paper));
  const lippings = part.lippings.map((lipping) => rectOnPaper(lippingBox(part, lipping), paper));
  const holes = holesOn(part, face).map((feature) => rectOnPaper(feature.box, paper));
  const drilled = [...endHoles(part).map(({ box }) => box), ...edgeBolts(part)].map((box) => rectOnPaper(box, paper));
  const fastenings = fasteningsOf(set, part).filter((one) => one.face === face);
  const covered = fastenings.map(({ covers }) => rectOnPaper(covers, paper));
  const lettering = letterFace(
    part,
    face,
    lie,
    picture.box,
    [
      ...part.features.filter(({ kind }) => kind !== "hole").map((feature) => rectOnPaper(feature.box, paper)),
      ...lippings,
      ...holes.map((hole) => grow(hole, CENTRE_MARK)),
      ...drilled.map((hole) => grow(hole, CENTRE_MARK)),
      ...covered,
      ...part.lines
        .filter((one) => one.face === face)
        .map((one) => grow(rectOnPaper(lineBox(one), paper), CENTRE_MARK)),
    ],
    Object.fromEntries(part.lippings.map(({ edge, thickness }) => [edge, thickness * ratio])),
  );
  const under = drawNameUnder(lettering.homeless, picture.box, depthOn("below"));
  const strips = drawStrips(
    views.sections,
    ratio,
    picture.box,
    (side) => (side === "below" ? depthOn(side) + under.depth : depthOn(side)),
    isTitled && under.depth > 0,
  );
  return {
    shapes: [
      hatch(grooves, "rising", GROOVE_HATCH),
      ...hiddenOutlines(part, face, paper),
      hatch(lippings, "falling", GROOVE_HATCH),
      ...lippings.map((lipping) => rect("thin", lipping)),
      ...covered.map((one) => rect("neighbour", one)),
      ...drilled.map((one) => rect("hidden", one)),
      ...picture.shapes,
      ...shapesIn(part).flatMap((shape) => drawShaped(shape, spotOn(paper), "outline")),
      ...socketsIn(part).flatMap((socket) => drawSocket(part, socket, face, spotOn(paper))),
      ...mitresIn(part).map((mitre) => drawHeel(part, mitre, face, spotOn(paper))),
      ...holes.flatMap(drawHole),
      ...slotsOf(part).map((slot) => stroke("outline", slotSteps(rectOnPaper(slot.box, paper)))),
      ...fastenings.flatMap((one) => drawScrews(one, paper)),
      ...part.lines.filter((one) => one.face === face).flatMap((one) => drawLine(one, spotOn(paper))),
      ...rows.datums.map((datum) => datumMark(datum, part, paper, picture.box)),
      ...dimensions.flatMap((d) => d.laid.shapes),
      ...strips.shapes,
      ...lettering.shapes,
      ...under.shapes,
    ],
    box: unionOf([
      picture.box,
      ...dimensions.flatMap((d) => d.laid.boxes),
      ...under.boxes,
      ...strips.boxes,
      ...dimensions.map((d) => depthBox(d.side, d.laid.depth, picture.box)),
    ]),
  };
}

const UNDER_AIR: Mm = 2;

/** The name of a face that has no room for it, under the view. */
function drawNameUnder(name: string | null, box: Rect, below: Mm): { shapes: Shape[]; boxes: Rect[]; depth: Mm } {
  if (name === null) return { shapes: [], boxes: [], depth: 0 };
  const set = setLines(words(name, TEXT, "bold"), Math.max(box.width, LEAST_NAME));
  const at: Point = [box.x, box.y + box.height + below + UNDER_AIR];
  return {
    shapes: [group(set.shapes, { move: at })],
    boxes: [{ x: at[0], y: at[1], width: set.width, height: set.height }],
    depth: UNDER_AIR + set.height,
  };
}

const LEAST_NAME: Mm = 40; // narrower views have a name wider than they are

/** A place on the part, along and across, on paper. */
const spotOn =
  (paper: OnPaper) =>
  (l: Mm, w: Mm): Point =>
    paper.lie === "lying" ? [paper.l(l), paper.w(w)] : [paper.w(w), paper.l(l)];

/** A hole at its true place and size, its middle crossed. */
function drawHole({ x, y, width, height }: Rect): Shape[] {
  const [u, v] = [x + width / 2, y + height / 2];
  const reach = width / 2 + CENTRE_MARK;
  return [
    stroke("outline", circleSteps([u, v], width / 2)),
    lines("hatch", [
      [
        [u - reach, v],
        [u + reach, v],
      ],
      [
        [u, v - reach],
        [u, v + reach],
      ],
    ]),
  ];
}

/** A cross where each screw goes through; where the shop spaces them, the line that they stand on. Dowels are holes of their own. */
function drawScrews({ kind, along, at, positions, covers }: Fastening, paper: OnPaper): Shape[] {
  if (kind !== "screw") return [];
  const spot = (place: Mm): Point => (along === "l" ? spotOn(paper)(place, at) : spotOn(paper)(at, place));
  if (positions === null) {
    const i = along === "l" ? 0 : 1;
    return [lines("centre", [[spot(covers[0][i]), spot(covers[1][i])]])];
  }
  return positions.map((place) => {
    const [x, y] = spot(place);
    return lines("thin", [
      [
        [x - SCREW, y],
        [x + SCREW, y],
      ],
      [
        [x, y - SCREW],
        [x, y + SCREW],
      ],
    ]);
  });
}

/** The room dimensions took on a side, lines included. */
function depthBox(side: Side, depth: Mm, box: Rect): Rect {
  switch (side) {
    case "above":
      return { ...box, y: box.y - depth, height: depth };
    case "below":
      return { ...box, y: box.y + box.height, height: depth };
    case "left":
      return { ...box, x: box.x - depth, width: depth };
    case "right":
      return { ...box, x: box.x + box.width, width: depth };
  }
}

/** Where the slope of a mitre ends on the shorter face: hidden where that is the one behind. */
function drawHeel(part: SetPart, mitre: SetFeature, face: BroadFace, spot: (l: number, w: number) => Point): Shape {
  const heel = mitre.outline[1]![0];
  return lines(longerFace(mitre) === face ? "hidden" : "outline", [[spot(0, heel), spot(part.length, heel)]]);
}

/** Grooves of the far face, dashed: they tell where two come near each other. */
const hiddenOutlines = (part: SetPart, face: BroadFace, paper: OnPaper): Shape[] =>
  featuresOn(part, face === "t0" ? "t1" : "t0").map((feature) => rect("hidden", rectOnPaper(feature.box, paper)));
