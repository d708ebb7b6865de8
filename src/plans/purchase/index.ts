/** What to buy: sheets and boards of each stock, lippings, what fastens, hardware, glue and finish. */
import type { SetPurchase } from "../../set/schema.ts";
import { isBoardStock, isSheetStock } from "../../set/stock.ts";
import { planBits } from "./bits.ts";
import { planDowels, planPanelPins, planPins, planScrews, planTenons, planWallFixings } from "./fasteners.ts";
import { planFinishLines } from "./finish.ts";
import { planGlue } from "./glue.ts";
import { planHardwareLines } from "./hardware.ts";
import type { PurchaseInput } from "./input.ts";
import { planBoardLine, planLippings, planSheetLine } from "./stock.ts";

export function planPurchase(input: PurchaseInput): SetPurchase[] {
  const { stock, sheets, boards, joints, pieces, unit } = input;
  return [
    ...stock.filter(isSheetStock).flatMap((each) => planSheetLine(each, sheets, unit)),
    ...stock.filter(isBoardStock).flatMap((each) => planBoardLine(each, pieces, boards, unit)),
    ...planLippings(input),
    ...planScrews(input),
    ...planPanelPins(input),
    ...planDowels(joints, unit),
    ...planTenons(joints, unit),
    ...planPins(input),
    ...planHardwareLines(input),
    ...planBits(input),
    ...planWallFixings(input),
    ...planGlue(input),
    ...planFinishLines(input),
  ];
}
