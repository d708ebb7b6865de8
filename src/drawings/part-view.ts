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
import type { Box, SignedAxis } from "../base/geometry.ts";
import { isSame, type Mm } from "../base/length.ts";
import { fill, group, polygonSteps, rect, text } from "../paper/draw.ts";
import { measureText } from "../paper/lettering.ts";
import type { Point, Rect, Shape } from "../paper/shape.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../set/schema.ts";
import { type Block, grow, meets, unionOf } from "./block.ts";
import { acrossRun, datumAt, datumOf, nearWall } from "./datum.ts";
import { arrow, type DimensionStyle, drawDimensions, type Row, type Side } from "./dimension.ts";
import { faceWords, isHigh } from "./facing.ts";
import { LEAST_TEXT } from "./fitting.ts";
import { hatch } from "./hatch.ts";
import { drawView, type Picture } from "./picture.ts";
import { solidOf } from "./solid.ts";
import { freeStretches } from "./stretch.ts";
import { type Direction, type View, viewOf } from "./view.ts";

export const PART_FIGURE: Mm = 3.5;
export type Lie = "lying" | "standing";
export type BroadFace = "t0" | "t1";

const GROOVE_HATCH: Mm = 1.8;
const STRIP_AIR: Mm = 3;
const DATUM_SPACE: Mm = 3.6;
const DATUM_SIZE: Mm = 2.8;

/** Each view of a part in its own axes, l as x, w as y and t as z. */
const FACE_VIEWS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "+x", v: "+y", away: "-z" }, t0: { u: "+x", v: "-y", away: "+z" } },
  standing: { t1: { u: "-y", v: "+x", away: "-z" }, t0: { u: "+y", v: "+x", away: "+z" } },
};

/** The section beside the face whose upper (or left) line is the face looked at, as third angle has it. */
const LENGTH_SECTIONS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "+x", v: "+z", away: "+y" }, t0: { u: "+x", v: "-z", away: "-y" } },
  standing: { t1: { u: "-z", v: "+x", away: "+y" }, t0: { u: "+z", v: "+x", away: "-y" } },
};
const ACROSS_SECTIONS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "-z", v: "+y", away: "-x" }, t0: { u: "+z", v: "-y", away: "-x" } },
  standing: { t1: { u: "-y", v: "+z", away: "+x" }, t0: { u: "+y", v: "-z", away: "+x" } },
};

export const featuresOn = (part: SetPart, face: BroadFace): SetFeature[] =>
  part.features.filter((feature) => feature.kind !== "notch" && feature.face === face);

/** The broad faces to draw: every one that carries a groove; the inside, or the upper one of two, where none does. */
export function facesToDraw(part: SetPart): BroadFace[] {
  const cut = (["t0", "t1"] as const).filter((face) => featuresOn(part, face).length > 0);
  if (cut.length > 0) return cut;
  return [part.inside === "t0" ? "t0" : "t1"];
}

type Ways = { along: Side; marks: Side; across: Side; acrossMarks: Side };
const WAYS: Record<Lie, Ways> = {
  lying: { along: "above", marks: "below", across: "left", acrossMarks: "right" },
  standing: { along: "left", marks: "right", across: "above", acrossMarks: "below" },
};

const flat = (axis: SignedAxis, at: Mm): number => (axis[0] === "+" ? at : -at);

/** What is seen of a part's face and of its sections, at no scale yet. */
export type FaceViews = {
  part: SetPart;
  face: BroadFace;
  lie: Lie;
  direction: Direction;
  view: View;
  sections: Section[];
};
type Section = { view: View; isBelow: boolean };

export function faceViews(part: SetPart, face: BroadFace, lie: Lie): FaceViews {
  const solids = [{ mark: part.mark, boxes: solidOf(part) }];
  const section = (directions: Record<Lie, Record<BroadFace, Direction>>, cutAt: Mm, isBelow: boolean): Section => {
    const direction = directions[lie][face];
    return { view: viewOf(solids, direction, flat(direction.away, cutAt)), isBelow };
  };
  const cut = part.features.filter((feature) => feature.kind !== "notch");
  const direction = FACE_VIEWS[lie][face];
  return {
    part,
    face,
    lie,
    direction,
    view: viewOf(solids, direction),
    sections: [
      ...(cut.some((f) => f.along === "w") ? [section(LENGTH_SECTIONS, clearOf(part, "l"), lie === "lying")] : []),
      ...(cut.some((f) => f.along === "l") ? [section(ACROSS_SECTIONS, clearOf(part, "w"), lie === "standing")] : []),
    ],
  };
}

export function drawFace(set: DryfitSet, views: FaceViews, ratio: number): Block {
  const { part, face, lie, direction } = views;
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: PART_FIGURE };
  const picture = drawView(views.view, ratio);
  const paper = axesOnPaper(picture, direction);
  const ways = WAYS[lie];
  const rows = rowsOf(set, part, face, paper);
  const edges: Record<Side, Mm> = { above: picture.box.y, below: 0, left: 0, right: picture.box.width };
  const reserved = (side: Side): Mm =>
    rows.datums.some((d) => sideOfDatum(d, part, paper, picture, lie) === side) ? DATUM_SPACE : 0;
  const dimensions = (
    [
      [ways.along, rows.along],
      [ways.across, rows.across],
      [ways.marks, rows.marks],
      [ways.acrossMarks, rows.acrossMarks],
    ] as const
  ).map(([side, list]) => ({ side, laid: drawDimensions(side, edges[side], list, style, reserved(side)) }));
  const depthOn = (side: Side): Mm => dimensions.find((d) => d.side === side)!.laid.depth;
  const strips = drawStrips(views.sections, ratio, picture.box, depthOn);
  const grooves = featuresOn(part, face).map((feature) => rectOnPaper(feature.box, paper));
  const lettering = letterFace(
    part,
    face,
    lie,
    picture.box,
    part.features.map((feature) => rectOnPaper(feature.box, paper)),
  );
  return {
    shapes: [
      hatch(grooves, "rising", GROOVE_HATCH),
      ...hiddenOutlines(part, face, paper),
      ...picture.shapes,
      ...rows.datums.map((datum) => datumMark(datum, part, paper, picture, lie)),
      ...dimensions.flatMap((d) => d.laid.shapes),
      ...strips.shapes,
      ...lettering,
    ],
    box: unionOf([
      picture.box,
      ...dimensions.flatMap((d) => d.laid.boxes),
      ...strips.boxes,
      ...dimensions.map((d) => depthBox(d.side, d.laid.depth, picture.box)),
    ]),
  };
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

/** Where a place along the length, or across the width, comes to lie on paper: an x or a y, as the part lies. */
type OnPaper = { l: (at: Mm) => Mm; w: (at: Mm) => Mm; lie: Lie };

function axesOnPaper(picture: Picture, direction: Direction): OnPaper {
  const isLying = direction.u === "+x";
  return isLying
    ? { lie: "lying", l: (at) => picture.x(at), w: (at) => picture.y(flat(direction.v, at)) }
    : { lie: "standing", l: (at) => picture.y(at), w: (at) => picture.x(flat(direction.u, at)) };
}

function rectOnPaper(box: Box, paper: OnPaper): Rect {
  const l = [paper.l(box[0][0]), paper.l(box[1][0])] as const;
  const w = [paper.w(box[0][1]), paper.w(box[1][1])] as const;
  const [xs, ys] = paper.lie === "lying" ? [l, w] : [w, l];
  return {
    x: Math.min(...xs),
    y: Math.min(...ys),
    width: Math.abs(xs[1] - xs[0]),
    height: Math.abs(ys[1] - ys[0]),
  };
}

/** Grooves of the far face, dashed: they tell where two come near each other. */
const hiddenOutlines = (part: SetPart, face: BroadFace, paper: OnPaper): Shape[] =>
  featuresOn(part, face === "t0" ? "t1" : "t0").map((feature) => rect("hidden", rectOnPaper(feature.box, paper)));

type Rows = { along: Row[]; across: Row[]; marks: Row[]; acrossMarks: Row[]; datums: Face[] };

/**
 * Everything along one axis is measured from one datum, its total last: near walls, where cuts stop, notches. A second
 * datum on an axis, where the settings use one, has a row of its own.
 */
function rowsOf(set: DryfitSet, part: SetPart, face: BroadFace, paper: OnPaper): Rows {
  const walls = new Map<Face, Mm[]>();
  const ends: Record<"l" | "w", Mm[]> = { l: [part.length], w: [part.width] };
  const marks: Record<"l" | "w", { at: Mm; text: string }[]> = { l: [], w: [] };
  part.features.forEach((feature, i) => {
    if (feature.kind === "notch") {
      ends.l.push(legOf(feature.box[0][0], feature.box[1][0], part.length));
      ends.w.push(legOf(feature.box[0][1], feature.box[1][1], part.width));
      return;
    }
    if (feature.face !== face) return;
    const axis = acrossRun(feature);
    const datum = datumOf(set, part, i);
    walls.set(datum, [...(walls.get(datum) ?? []), nearWall(feature, datum)]);
    marks[axis].push({ at: feature.at + feature.width / 2, text: feature.holds ?? "\u2013" });
    const run = axis === "l" ? "w" : "l";
    if (feature.ends[0] !== "through") ends[run].push(feature.from);
    if (feature.ends[1] !== "through") ends[run].push(feature.to);
  });
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

/** The side of the view on which a datum lies. */
function sideOfDatum(datum: Face, part: SetPart, paper: OnPaper, picture: Picture, lie: Lie): Side {
  const onL = datum[0] === "l";
  const at = onL ? paper.l(datumAt(part, datum)) : paper.w(datumAt(part, datum));
  return onL === (lie === "lying")
    ? at < picture.box.width / 2
      ? "left"
      : "right"
    : at < picture.box.y / 2
      ? "above"
      : "below";
}

const DATUM_ALONG = 0.2; // where along its edge a datum's triangle stands

const OUTWARDS: Record<Side, Point> = { left: [-1, 0], right: [1, 0], above: [0, -1], below: [0, 1] };

/** A filled triangle, its base on the datum end or edge. */
function datumMark(datum: Face, part: SetPart, paper: OnPaper, picture: Picture, lie: Lie): Shape {
  const { box } = picture;
  const side = sideOfDatum(datum, part, paper, picture, lie);
  const half = DATUM_SIZE / 2;
  const base: Point =
    side === "left" || side === "right"
      ? [side === "left" ? box.x : box.x + box.width, box.y + box.height * (1 - DATUM_ALONG)]
      : [box.x + box.width * DATUM_ALONG, side === "above" ? box.y : box.y + box.height];
  const out = OUTWARDS[side];
  return fill(
    0,
    polygonSteps([
      [base[0] + out[1] * half, base[1] + out[0] * half],
      [base[0] - out[1] * half, base[1] - out[0] * half],
      [base[0] + out[0] * DATUM_SIZE, base[1] + out[1] * DATUM_SIZE],
    ]),
  );
}

/** The sections that show depths: along the length where grooves run across it, across it where they run along. */
function drawStrips(
  sections: readonly Section[],
  ratio: number,
  box: Rect,
  depthOn: (side: Side) => Mm,
): { shapes: Shape[]; boxes: Rect[] } {
  const strips = sections.map(({ view, isBelow }) => {
    const strip = drawView(view, ratio);
    const at: Point = isBelow
      ? [0, box.y + box.height + depthOn("below") + STRIP_AIR + strip.box.height]
      : [box.width + depthOn("right") + STRIP_AIR, 0];
    return {
      shape: group(strip.shapes, { move: at }),
      box: { x: at[0], y: at[1] - strip.box.height, width: strip.box.width, height: strip.box.height },
    };
  });
  return { shapes: strips.map((strip) => strip.shape), boxes: strips.map((strip) => strip.box) };
}

/** A place to cut where no groove along (for a cut along the length) or across it lies: the middle of the widest free stretch. */
function clearOf(part: SetPart, along: "l" | "w"): Mm {
  const i = along === "l" ? 1 : 0;
  const size = along === "l" ? part.width : part.length;
  const taken = part.features
    .filter((f) => f.kind === "notch" || f.along === along)
    .map((f) => [f.box[0][i], f.box[1][i]] as const);
  return middleOfWidest(freeStretches(0, size, taken));
}

const middleOfWidest = (free: readonly [Mm, Mm][]): Mm => {
  const [a, b] = free.reduce((best, one) => (one[1] - one[0] > best[1] - best[0] ? one : best));
  return (a + b) / 2;
};

const FACE_TEXT: Mm = 2.8;
const GRAIN_LENGTH: Mm = 12;

/** What the face is, which way the grain runs and which edge is which, where the wood is free of lines. */
function letterFace(part: SetPart, face: BroadFace, lie: Lie, box: Rect, taken: readonly Rect[]): Shape[] {
  const shapes: Shape[] = [];
  const placed: Rect[] = [];
  const isFree = (r: Rect): boolean =>
    r.x >= box.x + 0.8 &&
    r.y >= box.y + 0.8 &&
    r.x + r.width <= box.x + box.width - 0.8 &&
    r.y + r.height <= box.y + box.height - 0.8 &&
    !taken.some((t) => meets(grow(r, 0.8), t)) &&
    !placed.some((p) => meets(grow(r, 1), p));
  const put = (width: Mm, height: Mm, ys: readonly Mm[], draw: (r: Rect) => Shape[]): void => {
    // From the middle outwards, so that the words stand where they are looked for.
    for (const y of ys) {
      for (const x of outwards(box.x, box.x + box.width - width)) {
        const r = { x, y, width, height };
        if (!isFree(r)) continue;
        placed.push(r);
        shapes.push(...draw(r));
        return;
      }
    }
  };
  const words = faceWords(part, face);
  const wordsWidth = measureText(words, FACE_TEXT, "bold");
  const middle = box.y + box.height / 2;
  put(
    wordsWidth,
    FACE_TEXT * 1.36,
    outwards(box.y, box.y + box.height - FACE_TEXT * 1.36).sort(
      (a, b) => Math.abs(a - middle + 4) - Math.abs(b - middle + 4),
    ),
    (r) => [text([r.x, r.y + FACE_TEXT], words, FACE_TEXT, { weight: "bold" })],
  );
  if (part.grain === "length") {
    const isLying = lie === "lying";
    const label = measureText("grain", LEAST_TEXT, "regular");
    const [w, h] = isLying
      ? [GRAIN_LENGTH + 1.5 + label, LEAST_TEXT * 1.36]
      : [Math.max(label, 2), GRAIN_LENGTH + 1.5 + LEAST_TEXT * 1.36];
    put(
      w,
      h,
      outwards(box.y, box.y + box.height - h).sort((a, b) => Math.abs(a - middle - 2) - Math.abs(b - middle - 2)),
      (r) => {
        const [a, b]: [Point, Point] = isLying
          ? [
              [r.x, r.y + LEAST_TEXT / 2],
              [r.x + GRAIN_LENGTH, r.y + LEAST_TEXT / 2],
            ]
          : [
              [r.x + w / 2, r.y],
              [r.x + w / 2, r.y + GRAIN_LENGTH],
            ];
        return [
          {
            kind: "path",
            pen: "thin",
            fill: null,
            steps: [
              { to: "move", at: a },
              { to: "line", at: b },
            ],
          },
          arrow(a, b),
          arrow(b, a),
          text(
            isLying
              ? [r.x + GRAIN_LENGTH + 1.5, r.y + LEAST_TEXT]
              : [r.x + w / 2, r.y + GRAIN_LENGTH + 1.5 + LEAST_TEXT],
            "grain",
            LEAST_TEXT,
            {
              anchor: isLying ? "start" : "middle",
            },
          ),
        ];
      },
    );
  }
  for (const edge of edgesOf(face, lie)) {
    const content = faceWords(part, edge.face);
    const width = measureText(content, LEAST_TEXT, "regular");
    const height = LEAST_TEXT * 1.36;
    if (edge.side === "above" || edge.side === "below") {
      const y = edge.side === "above" ? box.y + 1.2 : box.y + box.height - 1.2 - height;
      put(width, height, [y], (r) => [text([r.x, r.y + LEAST_TEXT], content, LEAST_TEXT)]);
    } else {
      const x = edge.side === "left" ? box.x + 1.2 : box.x + box.width - 1.2 - height;
      for (const y of outwards(box.y, box.y + box.height - width)) {
        const r = { x, y, width: height, height: width };
        if (!isFree(r)) continue;
        placed.push(r);
        // Read from the right, as upright lettering is.
        shapes.push(text([r.x + LEAST_TEXT, r.y + width], content, LEAST_TEXT, { turn: 90 }));
        break;
      }
    }
  }
  return shapes;
}

/** Places between two limits, the middle one first. */
function outwards(from: Mm, to: Mm): Mm[] {
  const middle = (from + to) / 2;
  const steps = Math.max(0, Math.floor((to - from) / 2));
  return [middle, ...Array.from({ length: steps }, (_, k) => [middle - (k + 1), middle + (k + 1)]).flat()];
}

function edgesOf(face: BroadFace, lie: Lie): { face: Face; side: Side }[] {
  const isFar = face === "t1";
  return lie === "lying"
    ? [
        { face: "w0", side: isFar ? "below" : "above" },
        { face: "w1", side: isFar ? "above" : "below" },
        { face: "l0", side: "left" },
        { face: "l1", side: "right" },
      ]
    : [
        { face: "w0", side: isFar ? "right" : "left" },
        { face: "w1", side: isFar ? "left" : "right" },
        { face: "l0", side: "below" },
        { face: "l1", side: "above" },
      ];
}
