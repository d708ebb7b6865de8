/** Boards of a worktop that is glued up: how many, and how wide each is jointed. */
import { type Mm, SAME, type Unit } from "../base/length.ts";
import { GLUED_OVER, MILLING } from "./defaults.ts";
import type { Boards } from "./stock.ts";
import type { Worktop } from "./worktop.ts";

/** `atLeast` brings a width to the grid, upwards. */
export type GluedUp = { length: Mm; width: Mm; boards: Mm[] };

/** The panel as glued up from boards of one width, before it is trimmed. `jointer`: widest board that it takes. */
export function gluedUp(
  { boards: count }: Pick<Worktop, "boards">,
  finished: { length: Mm; width: Mm },
  { boards, jointer, unit, atLeast }: { boards: Boards; jointer: Mm; unit: Unit; atLeast: (length: Mm) => Mm },
): GluedUp {
  const over = GLUED_OVER[unit];
  const width = finished.width + over.width;
  const widest = Math.min(boards.width, Math.max(jointer, MILLING.width * 2)) - MILLING.width;
  const n = count ?? Math.max(1, Math.ceil(width / widest - SAME));
  const each = atLeast(width / n);
  return {
    length: atLeast(finished.length + over.length),
    width: n * each,
    boards: Array.from({ length: n }, () => each),
  };
}
