/** What the set is printed on: the job's wish, else what the unit's own countries have in the printer. */
import type { Unit } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { PAPER } from "../defaults.ts";
import type { Source } from "../file/source.ts";
import type { PaperChoice, PaperSize } from "../paper.ts";
import type { PaperFile, PaperOverrides } from "../schema/shop.ts";
import { labelsOf } from "./label-format.ts";
import { LEAST_DRAWING, LEAST_TILE, type Least, type PaperWish, sizeOf } from "./paper-size.ts";
import { printerOf } from "./printer.ts";

export function paperOf(
  shop: PaperFile,
  job: PaperOverrides | undefined,
  source: Source,
  unit: Unit,
  problems: Problem[],
): PaperChoice {
  const wishes = PAPER[unit];
  const sheet = (wish: PaperWish, path: string, least: Least): PaperSize =>
    sizeOf(wish, path, least, shop, source, unit, problems);
  const print = printerOf(job?.print ?? shop.print, "paper.print", shop, source, problems);
  return {
    drawings: sheet(job?.drawings ?? wishes.drawings, "paper.drawings", LEAST_DRAWING),
    sticks: sheet(job?.sticks ?? wishes.sticks, "paper.sticks", LEAST_TILE),
    labels: labelsOf(job?.labels ?? wishes.labels, print, shop, source, unit, problems),
    print,
    roll: printerOf(job?.roll, "paper.roll", shop, source, problems),
  };
}
