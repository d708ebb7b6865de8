/** Dovetailed ends: told by the note; on the view their lines are where it says, to scale. */
import type { Face } from "../../../../src/set/schema.ts";
import { type Of, type Reading, same } from "./reading.ts";

/** Tails from the lower edge, in the part's own units, with where their flanks come to at the roots. */
export type ReadDovetail = {
  end: Face;
  has: "tails" | "pins";
  holds: string;
  tips: Face;
  tails: [number, number][];
  low: number; // lower edge of the lowest pin
  baseline: number;
  slope: number;
};

export function readDovetails(part: Reading): ReadDovetail[] {
  return part.notesOf("dovetail").flatMap((note) => {
    if (note.count !== note.tails.length)
      part.faults.push(`${note.count} tails are told, and ${note.tails.length} places`);
    const tips = part.faceCalled(note.tips);
    return note.ends.map((called, i): ReadDovetail => {
      const end = part.faceCalled(called);
      checkLines(part, note, end);
      const holds = note.marks[note.marks.length === 1 ? 0 : i]!;
      const { has, tails, low, baseline, slope } = note;
      return { end, has, holds, tips, tails, low, baseline, slope };
    });
  });
}

/** The baseline, and where tails end, are drawn where the note says. */
function checkLines(part: Reading, note: Of<"dovetail">, end: Face): void {
  const scale = part.scale();
  const isLow = end.endsWith("0");
  const base = isLow ? note.baseline * scale : part.size.l - note.baseline * scale;
  part.places.l.tie({
    from: isLow ? 0 : base,
    to: isLow ? base : part.size.l,
    value: note.baseline,
    check: false,
    what: "the baseline",
  });
  const upside = part.faceCalled(note.edge).endsWith("1");
  const deep = note.has === "tails" ? note.baseline : part.caption.thickness;
  const place = (w: number): number => (upside ? part.size.w - w * scale : w * scale);
  const [view] = part.views;
  const corners = part.page.page.strokes
    .flatMap(({ from, to }) => [part.spot(view!, from), part.spot(view!, to)])
    .filter(({ l }) => same(l, isLow ? 0 : part.size.l) || same(l, base));
  const lowest = place(note.low);
  if (note.low > 0)
    part.places.w.tie({
      from: upside ? lowest : 0,
      to: upside ? part.size.w : lowest,
      value: note.low,
      check: false,
      what: "the lowest pin",
    });
  for (const [from, to] of note.tails) {
    for (const [tip, root] of [
      [from, from + deep / note.slope],
      [to, to - deep / note.slope],
    ] as const) {
      if (!corners.some(({ w }) => same(w, place(tip)))) part.faults.push(`no tail is drawn to end at ${tip}`);
      if (!corners.some(({ w }) => same(w, place(root)))) part.faults.push(`no tail is drawn with its root at ${root}`);
      for (const w of [tip, root]) {
        const at = place(w);
        if (part.places.w.valueAt(at) !== null) continue;
        part.places.w.tie({
          from: upside ? at : 0,
          to: upside ? part.size.w : at,
          value: w,
          check: false,
          what: "a tail",
        });
      }
    }
  }
}
