/** Stock comes in sheets, or in boards of solid wood. */
import type { SetStock } from "./schema.ts";

export type SheetStock = SetStock & { sheet: NonNullable<SetStock["sheet"]> };
export type BoardStock = SetStock & { boards: NonNullable<SetStock["boards"]> };

export const isSheetStock = (stock: SetStock): stock is SheetStock => stock.sheet !== null;
export const isBoardStock = (stock: SetStock): stock is BoardStock => stock.boards !== null;
