/** Corners that are cut away: seen in the outline, told in the notes by their legs. */

import type { Face } from "../../../../src/set/schema.ts";
import type { Note, Said } from "../notes.ts";
import { cornersOut } from "../outline.ts";
import { ONE_LINE } from "../places.ts";
import type { ReadFeature } from "./part.ts";
import { type Axis, type Placed, type Reading, same } from "./reading.ts";

/** `panel`: the edges of the panel itself, where a lipping lies on it. */
type Corner = { x: readonly [number, number]; y: readonly [number, number] };

/** The answer is a step to take once the places are told. */
export function readNotches(part: Reading, panel: Record<Axis, [number, number]>): () => ReadFeature[] {
  const corners = cornersOf(part, panel);
  return () => corners.map((one) => featureOf(part, one));
}

function cornersOf(part: Reading, panel: Record<Axis, [number, number]>): Corner[] {
  const legs: Legs = new Map();
  const [view] = part.views;
  if (part.notesOf("cut out").length > 0) return [];
  const pieces = cornersOut(view!.outline);
  const told = part
    .notesOf("notch")
    .flatMap((note) =>
      note.corners.map((corner) => ({ note, end: part.faceCalled(corner.end), edge: part.faceCalled(corner.edge) })),
    );
  const boxes: Corner[] = [];
  for (const piece of pieces) {
    const span = (axis: Axis): [number, number] => {
      const ends = part.way(axis) === "x" ? [piece.x0, piece.x1] : [piece.y0, piece.y1];
      return ends.map((end) => view!.at(axis, end)).sort((a, b) => a - b) as [number, number];
    };
    const [l, w] = [span("l"), span("w")];
    const end: Face = l[0] < ONE_LINE ? "l0" : "l1";
    const edge: Face = w[0] < ONE_LINE ? "w0" : "w1";
    const own = told.filter((one) => one.end === end && one.edge === edge);
    if (own.length === 0) {
      // Left open where a lipping ends short of the end: the lipping's own note tells it.
      boxes.push({ x: l, y: w });
      continue;
    }
    if (own.length > 1) {
      part.faults.push(`${own.length} notches at one corner`);
      continue;
    }
    const [{ note }] = own as [(typeof own)[0]];
    tieLeg(part, legs, "l", end, l, note.along, note);
    const isLow = edge.endsWith("0");
    const behind: [number, number] = isLow ? [panel.w[0], w[1]] : [w[0], panel.w[1]];
    tieLeg(part, legs, "w", edge, note.behind ? behind : w, note.across, note);
    boxes.push({ x: l, y: w });
  }
  for (const one of told) {
    if (!pieces.some((piece) => isAt(part, view!, piece, one.end, one.edge)))
      part.faults.push(`no notch is drawn at ${one.end} ${one.edge}`);
  }
  return boxes;
}

/** Which legs the figures of each note have told. */
type Legs = Map<Note, { axis: Axis; at: number }[]>;

function isAt(
  part: Reading,
  view: Placed,
  piece: { x0: number; x1: number; y0: number; y1: number },
  end: Face,
  edge: Face,
): boolean {
  const touches = (axis: Axis, face: Face): boolean => {
    const ends = (part.way(axis) === "x" ? [piece.x0, piece.x1] : [piece.y0, piece.y1]).map((at) => view.at(axis, at));
    return face.endsWith("0") ? Math.min(...ends) < ONE_LINE : Math.max(...ends) > part.size[axis] - ONE_LINE;
  };
  return touches("l", end) && touches("w", edge);
}

/** One figure serves every corner of a note. */
function tieLeg(
  part: Reading,
  all: Legs,
  axis: Axis,
  face: Face,
  [low, high]: [number, number],
  { value, check }: Said,
  note: Note,
): void {
  const what = "the notch";
  const at = face.endsWith("0") ? high : low;
  const legs = all.get(note) ?? [];
  if (legs.some((one) => one.axis === axis && same(one.at, at))) return;
  all.set(note, [...legs, { axis, at }]);
  part.own(axis, at, `notch ${part.notes.indexOf(note)}`);
  part.places[axis].tie({ from: low, to: high, value, check, what });
}

function featureOf(part: Reading, { x, y }: Corner): ReadFeature {
  const [a, b] = x.map((at) => part.value("l", at)) as [number, number];
  const [c, d] = y.map((at) => part.value("w", at)) as [number, number];
  return {
    kind: "notch",
    face: x[0] < ONE_LINE ? "l0" : "l1",
    along: "t",
    box: [
      [a, c, 0],
      [b, d, part.caption.thickness],
    ],
    holds: null,
    also: [],
    short: [false, false],
  };
}
