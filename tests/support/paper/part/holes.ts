/** Holes: in a face drawn round, in an end or an edge by their dashed sides. */

import type { Face } from "../../../../src/set/schema.ts";
import { isDrawnWith } from "../page.ts";
import { ONE_LINE } from "../places.ts";
import type { ReadHole } from "./part.ts";
import { type Axis, type Of, type Reading, same } from "./reading.ts";

/** Holes are read once their places are told: the answer is a step to take later. */
export function readHoles(part: Reading): () => ReadHole[] {
  const steps: (() => ReadHole[])[] = [];
  const pitches: Pitched[] = [];
  for (const note of part.notesOf("holes")) {
    const face = part.faceCalled(note.face);
    steps.push(face[0] === "t" ? faceHoles(part, note, face, pitches) : endHoles(part, note, face));
  }
  return () => steps.flatMap((step) => step());
}

function faceHoles(part: Reading, note: Of<"holes">, face: Face, pitches: Pitched[]): () => ReadHole[] {
  const view = part.views.find(({ top }) => top === face);
  if (view === undefined) throw new Error(`part ${part.caption.marks[0]}: holes in a face that is not drawn`);
  const radius = (note.diameter / 2) * part.scale();
  const drawn = view.outline.rounds
    .filter((one) => Math.abs(one.radius - radius) < 0.02)
    .map(({ middle }) => part.spot(view, middle));
  const wanted = note.rows * note.count;
  if (note.pitch === null) {
    const told = drawn.filter(({ l, w }) => drawn.length === wanted || (l >= 0 && w >= 0));
    if (told.length !== wanted) part.faults.push(`${wanted} holes are told, ${told.length} drawn`);
    for (const { l, w } of told) {
      part.own("l", l, `hole ${face}`);
      part.own("w", w, `hole ${face}`);
    }
    return () => told.map(({ l, w }) => hole(part, note, face, l, w));
  }
  const rows = rowsOfHoles(drawn, note.count);
  if (rows.length !== note.rows)
    part.faults.push(`${note.rows} rows of ${note.count} holes are told, ${rows.length} drawn`);
  for (const { axis, holes } of rows) {
    const other: Axis = axis === "l" ? "w" : "l";
    part.own(other, holes[0]![other], `hole ${face}`);
    part.own(axis, holes[0]![axis], `hole ${face}`);
    // One pitch serves all rows: places that an earlier row has told are not told again.
    holes.slice(1).forEach((hole, i) => {
      const [a, b] = [holes[i]![axis], hole[axis]];
      const check = isTied(pitches, axis, a, b);
      part.places[axis].tie({ from: a, to: b, value: note.pitch!, check, what: "the pitch" });
    });
  }
  return () => rows.flatMap(({ holes }) => holes.map(({ l, w }) => hole(part, note, face, l, w)));
}

/** Stretches that a pitch has told. */
type Pitched = { axis: Axis; a: number; b: number };

function isTied(pitches: Pitched[], axis: Axis, a: number, b: number): boolean {
  if (pitches.some((one) => one.axis === axis && same(one.a, a) && same(one.b, b))) return true;
  pitches.push({ axis, a, b });
  return false;
}

/** Right through, as deep as the part is that way: no figure is told for that. */
function deepIn({ caption, faults }: Reading, { depth, what }: Of<"holes">, face: Face): number {
  const size = { l: caption.length, w: caption.width, t: caption.thickness }[face[0] as Axis | "t"];
  if (depth === size) faults.push(`part ${caption.marks[0]}: holes for ${what} go right through, not ${depth} deep`);
  return depth ?? size;
}

function hole(part: Reading, note: Of<"holes">, face: Face, l: number, w: number): ReadHole {
  const { diameter } = note;
  const depth = deepIn(part, note, face);
  const t = face === "t1" ? part.caption.thickness - depth / 2 : depth / 2;
  return { face, at: [part.value("l", l), part.value("w", w), t], diameter, depth };
}

/** Drilled into an end or an edge: drawn dashed, as wide as the hole and as long as it is deep. */
function endHoles(part: Reading, note: Of<"holes">, face: Face): () => ReadHole[] {
  const into = face[0] as Axis;
  const axis: Axis = into === "l" ? "w" : "l";
  const [view] = part.views;
  const deep = deepIn(part, note, face);
  const depth = deep * part.scale();
  const radius = (note.diameter / 2) * part.scale();
  const edge = face.endsWith("0") ? 0 : part.size[into];
  const sides = part
    .inside(view!, axis, (one) => isDrawnWith(one, "hidden"))
    .filter(
      ({ from, to }) =>
        Math.abs(to - from - depth) < 0.05 && (Math.abs(from - edge) < 0.02 || Math.abs(to - edge) < 0.02),
    )
    .map(({ at }) => at)
    .sort((a, b) => a - b);
  const middles = sides
    .filter((at) => sides.some((far) => Math.abs(far - at - 2 * radius) < 0.02))
    .map((at) => at + radius);
  const distinct = middles.filter((at, i) => i === 0 || at - middles[i - 1]! > ONE_LINE);
  if (distinct.length !== note.count)
    part.faults.push(`${note.count} holes are told in the ${note.face}, ${distinct.length} drawn`);
  for (const at of distinct) part.own(axis, at, "holes in ends");
  if (note.off === null) part.faults.push(`no distance from a face is told for the holes in the ${note.face}`);
  return () =>
    distinct.map((at): ReadHole => {
      const from = note.off === null ? "t0" : part.faceCalled(note.off.from);
      const by = note.off?.by ?? Number.NaN;
      const t = from === "t0" ? by : part.caption.thickness - by;
      const size = into === "l" ? part.caption.length : part.caption.width;
      const d = face.endsWith("0") ? deep / 2 : size - deep / 2;
      const value = part.value(axis, at);
      return { face, at: into === "l" ? [d, value, t] : [value, d, t], diameter: note.diameter, depth: deep };
    });
}

type Hole = Record<Axis, number>;

/** Holes in lines of so many, each line level with an axis. */
function rowsOfHoles(holes: readonly Hole[], count: number): { axis: Axis; holes: Hole[] }[] {
  const rows = (["l", "w"] as const).flatMap((axis) => {
    const other: Axis = axis === "l" ? "w" : "l";
    const lines = new Map<string, Hole[]>();
    for (const hole of holes) {
      const key = hole[other].toFixed(2);
      lines.set(key, [...(lines.get(key) ?? []), hole]);
    }
    return [...lines.values()]
      .filter((line) => line.length === count)
      .map((line) => ({ axis, holes: [...line].sort((a, b) => a[axis] - b[axis]) }));
  });
  return rows;
}
