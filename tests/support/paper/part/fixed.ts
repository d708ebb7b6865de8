/** What is fastened to a part: by the marks of what is fixed, the crosses of screws and the lines that something is fixed along. */

import type { Face } from "../../../../src/set/schema.ts";
import { isDrawnWith } from "../page.ts";
import { ONE_LINE } from "../places.ts";
import { type Axis, type Of, type Placed, type Reading, same } from "./reading.ts";

/** Every place where something is fixed, and every screw that is drawn, must be told. */
type Spot = { mark: string; axis: Axis; at: number };

/** Nothing but glue holds it: the view and the words both say where its near face is. */
export const isGlued = ({ how }: Pick<Of<"fixed">, "how">): boolean => how === "glue";

/** Where the middles of what is fastened lie: a step to take once the places are told. */
export function readFixed(part: Reading): () => Spot[] {
  const fixed: Spot[] = [];
  const rows: RowSpot[] = [];
  for (const note of part.notesOf("fixed")) {
    for (const view of part.viewsOf(note.face)) {
      const axis = part.faceCalled(note.edge)[0] as Axis;
      const spots = view.letters.filter(
        ({ way, marks }) => way === part.way(axis) && marks.some((mark) => note.marks.includes(mark)),
      );
      for (const { at, marks } of spots) {
        if (isGlued(note)) continue;
        if (!note.isTabled) part.own(axis, view.at(axis, at), `fixed ${view.top}`);
        for (const mark of marks) fixed.push({ mark, axis, at: view.at(axis, at) });
        checkLines(part, { axis, at: view.at(axis, at) }, marks, note);
        rows.push(...readRow(part, view, { axis, at: view.at(axis, at) }, note));
        checkApart(part, view, { axis, at: view.at(axis, at) }, note);
      }
      if (spots.length === 0) part.faults.push(`nothing is drawn for what is fixed: ${note.marks}`);
      if (note.near.length !== note.marks.length)
        part.faults.push(`${note.near.length} near faces are told for ${note.marks}`);
      readNear(part, view, axis, note);
    }
  }
  for (const view of part.views) {
    for (const spot of crosses(part, view)) {
      const isInWords = (axis: Axis): boolean =>
        rows.some((row) => row.view === view && row.axis === axis && same(row.l, spot.l) && same(row.w, spot.w));
      // Another row may tell its place along, and not that this one has a screw there.
      const isOnTabled = rows.some(
        (row) => row.isTabled && row.view === view && Math.abs(row[row.line] - spot[row.line]) < ON_ROW,
      );
      if (isOnTabled && !isInWords("l") && !isInWords("w"))
        part.faults.push(`a screw is drawn at ${spot.l}, ${spot.w} on paper that no row of the table has`);
      for (const axis of ["l", "w"] as const) if (!isInWords(axis)) part.own(axis, spot[axis], `screw ${view.top}`);
    }
  }
  return () => fixed.map((one) => ({ ...one, at: part.value(one.axis, one.at) }));
}

/** A row of screws from face to face lies where the words say, too. */
function checkLines(
  part: Reading,
  { axis, at }: { axis: Axis; at: number },
  marks: readonly string[],
  { marks: all, lines, edge, isTabled }: Of<"fixed">,
): void {
  const [from, to] = part.faceCalled(edge).endsWith("0") ? [0, at] : [at, part.size[axis]];
  lines?.forEach((value, i) => {
    if (!marks.includes(all[i]!)) return;
    // Two rows of a table may lie on one line.
    const check = !isTabled || part.places[axis].valueAt(at) !== null;
    part.places[axis].mark(at);
    part.places[axis].tie({ from, to, value, check, what: "the line of screws" });
  });
}

/** Screws of one row stand as far apart as the words say. */
function checkApart(part: Reading, view: Placed, { axis, at }: { axis: Axis; at: number }, note: Of<"fixed">): void {
  if (note.apart === null) return;
  const along: Axis = axis === "l" ? "w" : "l";
  const row = crosses(part, view)
    .filter((spot) => Math.abs(spot[axis] - at) < ON_ROW)
    .map((spot) => spot[along])
    .sort((a, b) => a - b)
    .filter((one, i, all) => i === 0 || !same(one, all[i - 1]!));
  if (row.length !== note.screws)
    part.faults.push(`${note.screws} screws are told into ${note.marks}, ${row.length} drawn`);
  row.slice(1).forEach((to, i) => {
    part.places[along].tie({ from: row[i]!, to, value: note.apart!, check: true, what: "the screws' distance" });
  });
}

type RowSpot = { view: Placed; axis: Axis; line: Axis; isTabled: boolean; l: number; w: number };

/** Screws that the words place along their row: each is drawn where its figure says. */
function readRow(part: Reading, view: Placed, line: { axis: Axis; at: number }, note: Of<"fixed">): RowSpot[] {
  if (note.row === null) return [];
  const { places, end } = note.row;
  const face = part.faceCalled(end);
  const [axis, isLow] = [face[0] as Axis, face.endsWith("0")];
  const [size, scale] = [part.size[axis], part.scale()];
  const onRow = crosses(part, view).filter((spot) => Math.abs(spot[line.axis] - line.at) < ON_ROW);
  if (places.length !== note.screws)
    part.faults.push(`${places.length} places are told for ${note.screws} screws into ${note.marks}`);
  return places.flatMap((value) => {
    const within = note.isTabled ? AT_FIGURE : ON_ROW;
    const spot = onRow.find((one) => Math.abs((isLow ? one[axis] : size - one[axis]) - value * scale) < within);
    if (spot === undefined) {
      part.faults.push(`no screw into ${note.marks} is drawn at ${value}`);
      return [];
    }
    const [from, to] = isLow ? [0, spot[axis]] : [spot[axis], size];
    // Another row, or a line of the view, may have told the same place.
    const check = part.places[axis].valueAt(spot[axis]) !== null;
    part.own(axis, spot[axis], `row of ${note.marks}`);
    part.places[axis].tie({ from, to, value, check, what: "the screw's place" });
    return [{ view, axis, line: line.axis, isTabled: note.isTabled, ...spot }];
  });
}

/** What another part covers is drawn by its outline: its near face is a line of that. */
function readNear(part: Reading, view: Placed, axis: Axis, note: Of<"fixed">): void {
  const { near, edge, isTabled } = note;
  const isLow = part.faceCalled(edge).endsWith("0");
  const lines = part.inside(view, axis, (one) => isDrawnWith(one, "neighbour")).map(({ at }) => at);
  const size = part.size[axis];
  const scale = size / (axis === "l" ? part.caption.length : part.caption.width);
  for (const value of near) {
    const from = isLow ? value * scale : size - value * scale;
    const at = lines.find((line) => Math.abs(line - from) < 0.05);
    if (at === undefined) {
      part.faults.push(`no line is drawn for the near face ${value}`);
    } else if (isGlued(note) || (at > ONE_LINE && at < size - ONE_LINE)) {
      part.own(axis, at, `near ${value}`);
      const [low, high] = isLow ? [0, at] : [at, size];
      const check = isGlued(note) || (isTabled && part.places[axis].valueAt(at) !== null);
      part.places[axis].tie({ from: low, to: high, value, check, what: "the near face" });
    }
  }
}

/** A cross on paper is so near to where it should be. */
const ON_ROW = 0.02;
/** And so near to the figure of a table, which nothing else says: less than the smallest step at any scale. */
const AT_FIGURE = 0.006;
const LONGEST_CROSS = 3.5;

/** Where screws go: small crosses of thin lines, upright or aslant. */
export function crosses(part: Reading, view: Placed): { l: number; w: number }[] {
  const { x0, x1, y0, y1 } = view.outline;
  const short = part.page.page.strokes
    .filter((one) => isDrawnWith(one, "thin"))
    .map(({ from, to }) => ({
      x: (from[0] + to[0]) / 2,
      y: (from[1] + to[1]) / 2,
      dx: to[0] - from[0],
      dy: to[1] - from[1],
    }))
    .filter(({ x, y, dx, dy }) => Math.hypot(dx, dy) < LONGEST_CROSS && x > x0 && x < x1 && y > y0 && y < y1);
  const isCrossed = (one: (typeof short)[number]): boolean =>
    short.some(
      (other) =>
        Math.hypot(one.x - other.x, one.y - other.y) < 0.01 &&
        Math.abs(one.dx * other.dx + one.dy * other.dy) < 1e-3 &&
        Math.abs(Math.hypot(one.dx, one.dy) - Math.hypot(other.dx, other.dy)) < 0.01,
    );
  return short.filter(isCrossed).map(({ x, y }) => part.spot(view, [x, y]));
}

/** A line on a face: how far it lies across, and from where to where it runs along, from the part's low end. */
export type ReadLine = { marks: string[]; face: Face; along: Axis; at: number; from: number; to: number };

/** Lines that something is fixed along: across by the view, along by the note. */
export function readLines(part: Reading): () => ReadLine[] {
  const found: (() => ReadLine)[] = [];
  for (const { face, from, to, end, marks } of part.notesOf("lines")) {
    const named = part.faceCalled(end);
    const along = named[0] as Axis;
    const axis: Axis = along === "l" ? "w" : "l";
    const size = along === "l" ? part.caption.length : part.caption.width;
    const ends = named.endsWith("0") ? { from, to } : { from: size - to, to: size - from };
    for (const view of part.viewsOf(face)) {
      const drawn = part.inside(view, axis, (one) => isDrawnWith(one, "centre"));
      if (drawn.length === 0) part.faults.push(`no line is drawn for ${marks}`);
      for (const one of drawn) {
        part.own(axis, one.at, `line ${view.top}`);
        found.push(() => ({ marks, face: view.top, along, at: part.value(axis, one.at), ...ends }));
        for (const [at, value] of [
          [one.from, from],
          [one.to, to],
        ] as const) {
          if (at > ONE_LINE && part.places[along].valueAt(at) === null) {
            part.places[along].tie({ from: 0, to: at, value, check: false, what: "the line's end" });
          }
        }
      }
    }
  }
  return () => found.map((one) => one());
}
