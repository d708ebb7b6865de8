/** What is said to stand back reaches to the back, or as far back as what it goes into: a second figure for where it stands. */
import { type Box, boxToOuter } from "../../../src/base/geometry.ts";
import { CLOSES, type Placed } from "./case.ts";

const boundsOf = ({ place, read: { caption } }: Placed): Box =>
  boxToOuter(place, [
    [0, 0, 0],
    [caption.length, caption.width, caption.thickness],
  ]);

/** Its back edge is rounded forwards, by less than a step. */
export function standingFaults(placed: readonly Placed[], unit: "mm" | "in", step: number): string[] {
  return placed.flatMap((part) => {
    const notes = part.read.notes.filter(
      (note) => note.kind === "back" && (note.marks === null || note.marks.includes(part.mark)),
    );
    return notes.flatMap((note) => {
      if (note.kind !== "back") return [];
      const [, [, back]] = boundsOf(part);
      const own = placed.filter(({ home }) => home === part.home);
      const ends = [
        ...own.filter(({ name }) => name.startsWith("back")).map((one) => boundsOf(one)[0][1]),
        ...own.filter(({ mark }) => note.behind.includes(mark)).map((one) => boundsOf(one)[1][1]),
      ];
      return ends.some((end) => back <= end + CLOSES[unit] && back > end - step + CLOSES[unit])
        ? []
        : [`part ${part.mark} stands back ${note.by}: it ends at ${back}, and the back is at ${ends}`];
    });
  });
}
