/** Lengths in a sentence: "50, 141.1 and 232.2". */
import type { Mm, Unit } from "../../base/length.ts";
import { type Atom, checkFigure, figure, glue, word, words } from "./cell.ts";

/** `after`: what stands close behind the last; `check`: each in brackets, for it says again what others say. */
export const figuresInWords = (lengths: readonly Mm[], unit: Unit, after = "", check = false): Atom[] =>
  lengths.flatMap((length, i) => {
    const last = lengths.length - 1;
    const stop = i < last - 1 ? "," : i === last ? after : "";
    const one = check ? checkFigure(length, unit) : figure(length, unit);
    return [stop === "" ? one : glue([one, word(stop)], 0), ...(i === last - 1 ? words("and") : [])];
  });
