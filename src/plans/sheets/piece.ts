/** What is laid on sheets and boards. */
import type { Mm } from "../../base/length.ts";
import type { SheetStock } from "../../set/stock.ts";

export type LayoutPiece = {
  id: string;
  mark: string;
  stock: string;
  length: Mm; // along the grain
  width: Mm;
  /** Whether its length may lie across the sheet's; left out: as its stock and `grain` have it. */
  turn?: boolean;
  /** What the job says of it, on a stock with a grain; left out: along. */
  grain?: "along" | "wish" | "any";
  /** Wanted from the first sheets. */
  early?: boolean;
};

export type Noun = "sheet" | "board";

/** Whether its length may lie across its sheet's, whatever is wished. */
export const mayTurn = ({ turn, grain = "along" }: LayoutPiece, stock: SheetStock): boolean =>
  turn ?? (!stock.grain || grain !== "along");
