/** Grooves, rabbets, shoulders and laps: drawn on the view by their walls, told in the notes by their width and depth. */

import type { Box } from "../../../../src/base/geometry.ts";
import type { Face } from "../../../../src/set/schema.ts";
import type { Note } from "../notes.ts";
import { runsAt, wallsAt } from "./channel-lines.ts";
import type { ReadFeature } from "./part.ts";
import { type Axis, type Of, PRINTED, type Reading, same } from "./reading.ts";

type ChannelNote = Of<"groove" | "rabbet" | "shoulder" | "lap">;
type Channel = {
  note: ChannelNote;
  holds: string | null;
  /** What else it is for: at one place one letter names all. */
  also: string[];
  low: number;
  high: number;
  from: number;
  to: number;
  top: Face;
};

const isChannelNote = (note: Note): note is ChannelNote => ["groove", "rabbet", "shoulder", "lap"].includes(note.kind);

/** The answer is a step to take once the places are told. */
export function readChannels(part: Reading): () => ReadFeature[] {
  const channels: Channel[] = [];
  for (const note of part.notes.filter(isChannelNote)) readChannel(part, note, channels);
  const whole = channels.map((one) => asSaid(part, one, channels));
  return () => whole.map((one) => featureOf(part, one));
}

/**
 * What is said to stop does not end at the far wall of a groove that crosses it: it ends at the near one, and only the hatching runs
 * on. What is said to go through, where a deeper rabbet along the part's end has taken the wood, is drawn to that alone.
 */
function asSaid(part: Reading, one: Channel, all: readonly Channel[]): Channel {
  const { along } = one.note;
  const stopsAt = (end: "0" | "1") => one.note.stops.find((stop) => part.faceCalled(stop.end) === `${along}${end}`);
  const isStopped = (end: "0" | "1"): boolean => stopsAt(end)?.into === null;
  const crossing = all.filter((other) => other.top === one.top && other.note.along !== along);
  const before = isStopped("0") ? crossing.find((other) => same(other.low, one.from)) : undefined;
  const after = isStopped("1") ? crossing.find((other) => same(other.high, one.to)) : undefined;
  const size = part.size[along];
  const deeper = crossing.filter(({ note }) => note.kind === "rabbet" && note.depth >= one.note.depth);
  const opensLow = stopsAt("0") === undefined && deeper.some(({ low, high }) => low < 1e-3 && same(high, one.from));
  const opensHigh =
    stopsAt("1") === undefined && deeper.some(({ low, high }) => high > size - 1e-3 && same(low, one.to));
  return {
    ...one,
    from: before?.high ?? (opensLow ? 0 : one.from),
    to: after?.low ?? (opensHigh ? size : one.to),
  };
}

function readChannel(part: Reading, note: ChannelNote, channels: Channel[]): void {
  if (note.face !== null && !note.face.endsWith("face")) return;
  const axis: Axis = note.along === "w" ? "l" : "w";
  const views = part.viewsOf(note.face);
  const wanted = note.marks.length === 0 ? ["–"] : note.marks;
  const found: string[] = [];
  for (const view of views) {
    for (const { way, at, marks } of view.letters) {
      if (way !== part.way(axis)) continue;
      const here = marks.filter((mark) => wanted.includes(mark));
      if (here.length === 0) continue;
      const walls = wallsAt(view.outline, way, at);
      if (walls === null) continue; // fastened there, not let in
      for (const run of runsAt(view.outline, way, walls)) {
        const ends = run.map((end) => view.at(note.along, end)).sort((a, b) => a - b) as [number, number];
        const [low, high] = walls.map((wall) => view.at(axis, wall)).sort((a, b) => a - b) as [number, number];
        const known = channels.some(
          (one) =>
            one.top === view.top && one.note.along === note.along && same(one.low, low) && same(one.from, ends[0]),
        );
        if (known) continue;
        for (const at of [low, high]) part.own(axis, at, `wall ${view.top}`);
        for (const at of ends) part.own(note.along, at, `stop ${view.top}`);
        part.places[axis].tie({
          from: low,
          to: high,
          value: note.width.value,
          check: note.width.check,
          what: `the width of the ${note.kind} for ${here}`,
        });
        channels.push({
          note,
          holds: here[0] === "–" ? null : here[0]!,
          also: here.slice(1),
          low,
          high,
          from: ends[0],
          to: ends[1],
          top: view.top,
        });
      }
      found.push(...here);
    }
  }
  const missing = wanted.filter((mark) => !found.includes(mark));
  if (missing.length > 0) part.faults.push(`no ${note.kind} is drawn for ${missing}`);
}

function featureOf(part: Reading, { note, holds, also, low, high, from, to, top }: Channel): ReadFeature {
  const axis: Axis = note.along === "w" ? "l" : "w";
  const [a, b] = [part.value(axis, low), part.value(axis, high)];
  const [c, d] = [part.value(note.along, from), part.value(note.along, to)];
  const [e, f] = top === "t1" ? [part.caption.thickness - note.depth, part.caption.thickness] : [0, note.depth];
  const box: Box =
    note.along === "w"
      ? [
          [a, c, e],
          [b, d, f],
        ]
      : [
          [c, a, e],
          [d, b, f],
        ];
  return {
    kind: note.kind,
    face: top,
    along: note.along,
    box,
    holds,
    also,
    short: [from > 1e-3, to < part.size[note.along] - 1e-3],
  };
}

/** A groove in an edge is told in words alone: where from, how wide and deep. */
export const readEdgeGrooves = (part: Reading): ReadFeature[] =>
  part.notes.filter(isChannelNote).flatMap((note) => edgeGroove(part, note));

function edgeGroove(part: Reading, note: ChannelNote): ReadFeature[] {
  if (note.face === null || note.face.endsWith("face") || note.from === null) return [];
  const edge = part.faceCalled(note.face);
  const { thickness, length, width } = part.caption;
  const from = part.faceCalled(note.from.face);
  const t: [number, number] =
    from === "t0"
      ? [note.from.by, note.from.by + note.width.value]
      : [thickness - note.from.by - note.width.value, thickness - note.from.by];
  const across = edge[0] as Axis;
  const size = across === "w" ? width : length;
  const d: [number, number] = edge[1] === "0" ? [0, note.depth] : [size - note.depth, size];
  // Its floor is seen where shoulders have laid it open.
  const floor = edge[1] === "0" ? note.depth * part.scale() : part.size[across] - note.depth * part.scale();
  for (const view of part.views) {
    const at = view.lines[across].map((line) => view.at(across, line)).find((line) => Math.abs(line - floor) < 0.02);
    if (at === undefined || part.places[across].valueAt(at) !== null) continue;
    const [low, high] = edge[1] === "0" ? [0, at] : [at, part.size[across]];
    part.places[across].tie({ from: low, to: high, value: note.depth, check: false, what: "the depth" });
  }
  const run: [number, number] = [0, across === "w" ? length : width];
  for (const { end, by } of note.stops) {
    if (by === null) continue;
    if (part.faceCalled(end)[1] === "0") run[0] = by.value;
    else run[1] -= by.value;
  }
  const box: Box =
    across === "w"
      ? [
          [run[0], d[0], t[0]],
          [run[1], d[1], t[1]],
        ]
      : [
          [d[0], run[0], t[0]],
          [d[1], run[1], t[1]],
        ];
  return [
    {
      kind: note.kind,
      face: edge,
      along: across === "w" ? "l" : "w",
      box,
      holds: note.marks[0] ?? null,
      also: note.marks.slice(1),
      short: [run[0] > 0, run[1] < (across === "w" ? length : width)],
    },
  ];
}

/** What a tongue keeps of the thickness is what its shoulders leave. */
export function checkTongues(part: Reading): string[] {
  const shoulders = part.notes.filter(isChannelNote).filter(({ kind }) => kind === "shoulder");
  return shoulders.flatMap(({ tongue, marks }) => {
    if (tongue === null) return ["a shoulder without its tongue"];
    const taken = shoulders
      .filter((one) => one.marks.join() === marks.join())
      .reduce((sum, { depth }) => sum + depth, 0);
    const left = part.caption.thickness - taken;
    return Math.abs(left - tongue.value) <= 2 * PRINTED[part.page.unit]
      ? []
      : [`the tongue ${tongue.value} is not ${left}`];
  });
}
