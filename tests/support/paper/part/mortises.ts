/** Mortises: drawn as holes in an end or an edge are, the mark of what enters at the middle of each. */

import type { Box } from "../../../../src/base/geometry.ts";
import type { Face } from "../../../../src/set/schema.ts";
import { isDrawnWith } from "../page.ts";
import type { ReadFeature } from "./part.ts";
import { type Axis, type Of, type Reading, same } from "./reading.ts";

/** The answer is a step to take once the places are told. */
export function readMortises(part: Reading): () => ReadFeature[] {
  const steps = part.notesOf("mortises").map((note) => readNote(part, note));
  return () => steps.flatMap((step) => step());
}

function readNote(part: Reading, note: Of<"mortises">): () => ReadFeature[] {
  const face = part.faceCalled(note.face);
  const into = face[0] as Axis;
  const axis: Axis = into === "l" ? "w" : "l";
  const [view] = part.views;
  const depth = note.depth * part.scale();
  const edge = face.endsWith("0") ? 0 : part.size[into];
  const sides = part
    .inside(view!, axis, (one) => isDrawnWith(one, "hidden"))
    .filter(({ from, to }) => Math.abs(to - from - depth) < 0.05)
    .filter(({ from, to }) => Math.abs(from - edge) < 0.02 || Math.abs(to - edge) < 0.02)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
  const middles = view!.letters
    .filter(({ way, marks }) => way === part.way(axis) && note.marks.some((mark) => marks.includes(mark)))
    .map(({ at }) => view!.at(axis, at));
  const found = middles.flatMap((middle) => {
    const low = sides.filter((at) => at < middle).at(-1);
    const high = sides.find((at) => at > middle);
    return low !== undefined && high !== undefined && same(middle - low, high - middle) ? [[low, high] as const] : [];
  });
  if (found.length !== note.count)
    part.faults.push(`${note.count} mortises are told in the ${note.face}, ${found.length} drawn`);
  for (const ends of found) for (const at of ends) part.own(axis, at, "mortise");
  const { thickness, length, width } = part.caption;
  const size = into === "l" ? length : width;
  const d: [number, number] = face.endsWith("0") ? [0, note.depth] : [size - note.depth, size];
  const t = between(note, note.from === null ? null : part.faceCalled(note.from.face), thickness);
  return () =>
    found.map((ends): ReadFeature => {
      const [a, b] = ends.map((at) => part.value(axis, at)) as [number, number];
      const box: Box =
        into === "l"
          ? [
              [d[0], a, t[0]],
              [d[1], b, t[1]],
            ]
          : [
              [a, d[0], t[0]],
              [b, d[1], t[1]],
            ];
      return { kind: "mortise", face, along: axis, box, holds: note.marks[0] ?? null, also: [], short: [true, true] };
    });
}

/** Through the thickness: from a face, or in the middle. */
function between({ width, from }: Of<"mortises">, face: Face | null, thickness: number): [number, number] {
  const low = from === null ? (thickness - width) / 2 : face === "t0" ? from.by : thickness - from.by - width;
  return [low, low + width];
}
