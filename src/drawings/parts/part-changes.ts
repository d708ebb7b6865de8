/** Which figures round a part's face an earlier set did not print there. */
import { isSame, type Mm } from "../../base/length.ts";
import { isMadeAlike } from "../../set/fastening.ts";
import type { SetPart } from "../../set/schema.ts";
import type { Row } from "../draughting/dimension.ts";
import type { Earlier } from "../draughting/revised.ts";
import { type BroadFace, OWN } from "./part-axes.ts";
import { type Rows, rowsOf } from "./part-rows.ts";

/** A part as it was, with the set it was in. */
export type Before = Earlier & { parts: SetPart[] };

/** One of each drawing that there was: others that it served may lie on it turned. */
export const drawnThen = ({ set, parts }: Before): SetPart[] => {
  const isAlike = (a: SetPart, b: SetPart): boolean => a.pattern === b.pattern && isMadeAlike(set, a, b);
  return parts.filter((part, i) => parts.findIndex((one) => isAlike(one, part)) === i);
};

/** A figure as it is read: how long, and from which end it is measured; `both`: over all. */
type Figure = { length: Mm; from: "low" | "high" | "both" };

function figuresIn(row: Row): Figure[] {
  switch (row.kind) {
    case "spans":
      return row.spans.map(([a, b]) => ({ length: Math.abs(b - a), from: "both" }));
    case "running":
      return row.at.map((at) => ({ length: Math.abs(at - row.datum), from: at > row.datum ? "low" : "high" }));
    case "letters":
      return [];
  }
}

const isAmong = (figure: Figure, printed: readonly Figure[]): boolean =>
  printed.some(
    ({ length, from }) =>
      isSame(length, figure.length) && (from === figure.from || from === "both" || figure.from === "both"),
  );

function flagged(rows: readonly Row[], own: readonly Row[], before: readonly (readonly Row[])[]): Row[] {
  const printed = before.map((some) => some.flatMap(figuresIn));
  return rows.map((row, i): Row => {
    if (row.kind === "letters") return row;
    const revised = figuresIn(own[i]!).map((figure) => !printed.every((figures) => isAmong(figure, figures)));
    return revised.includes(true) ? { ...row, revised } : row;
  });
}

/** The rows of a part's face, those figures told that are not on the earlier drawing. Of a new part none is: it has no earlier drawing. */
export function withChanges(
  rows: Rows,
  own: { set: Earlier["set"]; part: SetPart; face: BroadFace; isTabled: boolean },
  before: Before,
): Rows {
  const { set, part, face, isTabled } = own;
  const now = rowsOf(set, part, face, OWN, isTabled);
  const then = drawnThen(before).map((was) => rowsOf(before.set, was, face, OWN));
  const tell = (side: "along" | "across"): Row[] =>
    flagged(
      rows[side],
      now[side],
      then.map((some) => some[side]),
    );
  return { ...rows, along: tell("along"), across: tell("across") };
}
