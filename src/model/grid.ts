/** The grid that printed figures lie on. */
import type { Mm } from "../base/length.ts";
import { thicknessAxis } from "./contacts.ts";
import type { Part } from "./model.ts";

/** How coordinates are brought to the grid of printed figures; the exact model leaves them alone. */
export type Grid = {
  /** Lower coordinate of a part across its thickness. */
  wall: (part: Part) => Mm;
  /** The low end of a part: never before this. */
  start: (coordinate: Mm) => Mm;
  /** The high end of a part: never beyond this. */
  end: (coordinate: Mm) => Mm;
  /** A length that must be at least so much. */
  atLeast: (length: Mm) => Mm;
  /** Where a hole's middle is marked. */
  place: (coordinate: Mm) => Mm;
};

export const EXACT: Grid = {
  wall: (part) => part.box[0][thicknessAxis(part)],
  start: (coordinate) => coordinate,
  end: (coordinate) => coordinate,
  atLeast: (length) => length,
  place: (coordinate) => coordinate,
};
