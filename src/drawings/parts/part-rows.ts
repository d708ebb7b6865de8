/** The rows of dimensions and marks round a part's face. */
import { isSame, type Mm } from "../../base/length.ts";
import { axisOfFace, endsSquare, isHigh, lippedAfter, opposite, sizeAlong } from "../../set/facing.ts";
import { type Fastening, fasteningsOf } from "../../set/fastening.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import type { Row } from "../draughting/dimension.ts";
import { acrossRun, datumAt, datumOf, nearWall } from "./datum.ts";
import { type HoleRow, holeRows, isTold } from "./hole-rows.ts";
import { type BroadFace, facesOf, isChannel, type OnPaper } from "./part-axes.ts";
import { linePlaces } from "./part-lines.ts";

export type Rows = { along: Row[]; across: Row[]; marks: Row[]; acrossMarks: Row[]; datums: Face[] };

export type Axis = "l" | "w";
type Letter = { at: Mm; text: string };

/** What is shown along each axis: walls by their datum, further places, and the marks of what enters. */
type Shown = {
  walls: Map<Face, Mm[]>;
  places: Record<Axis, Mm[]>;
  /** Holes in the face, by the end or edge that they are drilled from. */
  drilled: Map<Face, Mm[]>;
  marks: Record<Axis, Letter[]>;
  /** What holes, screws and dowels are told from, by axis. */
  from: Map<Axis, Face>;
};

const otherAxis = (axis: Axis): Axis => (axis === "l" ? "w" : "l");

function showChannel(shown: Shown, part: SetPart, feature: SetFeature, datum: Face): void {
  const axis = acrossRun(feature);
  shown.walls.set(datum, [...(shown.walls.get(datum) ?? []), nearWall(part, feature, datum)]);
  shown.marks[axis].push({ at: feature.at + feature.width / 2, text: feature.holds ?? "\u2013" });
  const run = otherAxis(axis);
  if (endsSquare(part, feature, 0)) shown.places[run].push(feature.from);
  if (endsSquare(part, feature, 1)) shown.places[run].push(feature.to);
}

/** The first that is told along an axis says from where. */
function tellFrom(shown: Shown, datum: Face): void {
  const axis = axisOfFace(datum);
  if (axis !== "t" && !shown.from.has(axis)) shown.from.set(axis, datum);
}

/** A long row gives its first hole, and is told in words; of a short one every hole is shown. */
function showHoles(shown: Shown, part: SetPart, row: HoleRow): void {
  const holes = row.features.map((index) => part.features[index]!);
  for (const { box } of isTold(row) ? holes : holes.slice(0, 1)) {
    for (const [axis, i] of [["l", 0] as const, ["w", 1] as const]) {
      const at = (box[0][i] + box[1][i]) / 2;
      const datum = [row.datum, row.edge].find((face) => axisOfFace(face) === axis);
      // Into an end or an edge: only where it lies along that.
      if (axisOfFace(row.face) === "t" && datum !== undefined)
        shown.drilled.set(datum, [...(shown.drilled.get(datum) ?? []), at]);
      else if (axisOfFace(row.face) !== axis) shown.places[axis].push(at);
    }
  }
  tellFrom(shown, row.datum);
  tellFrom(shown, row.edge);
}

/** A screw in the edge or end of another part, which the joint itself places: on the view, or in the table of its part. */
export const isPlacedScrew = ({ kind, positions, isFlat }: Fastening): boolean =>
  kind === "screw" && positions !== null && !isFlat;

function showFastening(shown: Shown, one: Fastening, isTabled: boolean): void {
  const { entering, kind, along, at, positions, isFlat, reach } = one;
  const across = otherAxis(along);
  const isInTable = isTabled && isPlacedScrew(one);
  const figured = isFlat ? [] : (positions ?? []);
  if (!isInTable) {
    // What is only glued is set by its face: nobody looks for its middle.
    shown.places[across].push(kind === "glue" ? reach : at);
    shown.places[along].push(...figured);
  }
  shown.marks[across].push({ at, text: entering });
  tellFrom(shown, `${across}0`);
  if (figured.length > 0) tellFrom(shown, `${along}0`);
}

function showLines(shown: Shown, part: SetPart, face: BroadFace, isFirst: boolean): void {
  const places = linePlaces(part, face, isFirst);
  for (const axis of ["l", "w"] as const) {
    shown.places[axis].push(...places[axis]);
    if (places[axis].length > 0) tellFrom(shown, `${axis}0`);
  }
  for (const { along, at, holds } of part.lines.filter((line) => line.face === face)) {
    if (along !== "t" && holds.length > 0) shown.marks[otherAxis(along)].push({ at, text: holds.join(", ") });
  }
}

function shownOn(set: DryfitSet, part: SetPart, face: BroadFace, isTabled: boolean): Shown {
  const shown: Shown = {
    walls: new Map(),
    places: { l: [], w: [] },
    drilled: new Map(),
    marks: { l: [], w: [] },
    from: new Map(),
  };
  // What is seen in both faces is told in the first that is drawn.
  const isFirst = facesOf(set, part)[0] === face;
  part.features.forEach((feature, i) => {
    if (feature.kind === "shape" && isFirst) {
      // Where its outline turns, along the edge, and how far in it goes.
      shown.places.l.push(...feature.outline.map(([l]) => l));
      shown.places.w.push(legOf(feature.box[0][1], feature.box[1][1], part.width));
    }
    // How far the slope comes in on the shorter face: the width itself is to the point.
    if (feature.kind === "mitre" && isFirst) shown.places.w.push(feature.outline[1]![0]);
    if (isFirst && (feature.kind === "mortise" || feature.kind === "stub mortise") && feature.along !== "t") {
      shown.places[feature.along].push(feature.from, feature.to);
      shown.marks[feature.along].push({ at: (feature.from + feature.to) / 2, text: feature.holds ?? "" });
      tellFrom(shown, `${feature.along}0`);
    }
    if (isChannel(feature) && feature.face === face) showChannel(shown, part, feature, datumOf(set, part, i));
  });
  for (const row of holeRows(set, part)) {
    if (row.face === face || (isFirst && axisOfFace(row.face) !== "t")) showHoles(shown, part, row);
  }
  for (const one of fasteningsOf(set, part)) if (one.face === face) showFastening(shown, one, isTabled);
  showLines(shown, part, face, isFirst);
  return shown;
}

/** What each axis is measured from: as the settings have it, and where these measure otherwise as the drilling has it; else as holes and screws are told. */
function datumsOf({ walls, drilled, from }: Shown, axis: Axis): Face[] {
  const on = (all: Map<Face, Mm[]>): Face[] => [...all.keys()].filter((datum) => axisOfFace(datum) === axis);
  const set = on(walls);
  return set.length > 0 ? [...new Set([...set, ...on(drilled)])] : from.has(axis) ? [from.get(axis)!] : [];
}

/** What the screws of a face are told from, on its view or in the table. */
export function screwDatums(set: DryfitSet, part: SetPart, face: BroadFace): Record<Axis, Face> {
  const shown = shownOn(set, part, face, true);
  return { l: datumsOf(shown, "l")[0] ?? "l0", w: datumsOf(shown, "w")[0] ?? "w0" };
}

/** An end or edge as it is when the grooves are cut: the panel's own, where a lipping is still to come. */
export const panelEdge = (part: SetPart, face: Face): Mm =>
  datumAt(part, face) + (isHigh(face) ? -1 : 1) * lippedAfter(part, face);

/**
 * Everything along one axis is measured from one datum, its total last, in brackets, for the caption has it: near walls,
 * where cuts stop, holes and screws. A notch is told in words, from its own end and edge. A second datum on an axis, where the settings use one, has a row of its own; so has the finished size of what
 * is lipped after it is grooved. `isTabled`: screws are in a table.
 */
export function rowsOf(set: DryfitSet, part: SetPart, face: BroadFace, paper: OnPaper, isTabled = false): Rows {
  const shown = shownOn(set, part, face, isTabled);
  const { walls, places, drilled, marks } = shown;
  const rows = (axis: Axis): Row[] => {
    const size = sizeAlong(part, axis);
    const at = (value: Mm): Mm => (axis === "l" ? paper.l(value) : paper.w(value));
    const datums = datumsOf(shown, axis);
    // Without a datum of their own holes are told with all else.
    const loose = [...drilled].filter(([datum]) => axisOfFace(datum) === axis && !datums.includes(datum));
    const further = distinctOf([...places[axis], ...loose.flatMap(([, holes]) => holes)]);
    if (datums.length === 0 && further.length === 0)
      return [{ kind: "spans", spans: [[at(0), at(size)]], check: true }];
    const running = (datums.length === 0 ? ([`${axis}0`] as Face[]) : datums).map((datum, i): Row => {
      const last = panelEdge(part, opposite(datum));
      const points = [
        ...(walls.get(datum) ?? []),
        ...(drilled.get(datum) ?? []),
        ...(i === 0 ? [...further, last] : []),
      ];
      return {
        kind: "running",
        datum: at(panelEdge(part, datum)),
        at: distinctOf(points)
          .filter((point) => !isSame(point, panelEdge(part, datum)))
          .map(at),
        total: at(last),
      };
    });
    const isLipped = ([`${axis}0`, `${axis}1`] as const).some((face) => lippedAfter(part, face) > 0);
    return isLipped ? [...running, { kind: "spans", spans: [[at(0), at(size)]], check: true }] : running;
  };
  const letters = (axis: Axis): Row[] => [
    {
      kind: "letters",
      letters: atOnePlace(marks[axis]).map((m) => ({ at: axis === "l" ? paper.l(m.at) : paper.w(m.at), text: m.text })),
    },
  ];
  return {
    along: rows("l"),
    across: rows("w"),
    marks: letters("l"),
    acrossMarks: letters("w"),
    datums: [...datumsOf(shown, "l"), ...datumsOf(shown, "w")],
  };
}

/** What enters at the same place is named together. */
function atOnePlace(letters: readonly Letter[]): Letter[] {
  const heaps: { at: Mm; texts: string[] }[] = [];
  for (const { at, text } of letters) {
    const known = heaps.find((heap) => isSame(heap.at, at));
    if (known === undefined) heaps.push({ at, texts: [text] });
    else if (!known.texts.includes(text)) known.texts.push(text);
  }
  return heaps.map(({ at, texts }) => ({ at, text: texts.sort(byMark).join(", ") }));
}

const distinctOf = (values: readonly Mm[]): Mm[] =>
  [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || !isSame(value, all[i - 1]!));

/** The inner wall of a notch: the one that is not on an end or edge of the part. */
const legOf = (low: Mm, high: Mm, size: Mm): Mm => (low <= size - high ? high : low);
