/** Paper sizes: by name from the shop's list, or by their measurements. */
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import { nearest } from "../file/nearest.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { choice, quote } from "../file/words.ts";
import type { PaperSize } from "../paper.ts";
import type { PaperFile, PaperOverrides } from "../schema/shop.ts";

export type PaperWish = NonNullable<PaperOverrides["drawings"]>;
type Turn = "portrait" | "landscape";

export type Least = { width: Mm; height: Mm };
/** Between the frame's margins the widest table takes 158 mm, and above the title block the row of a setting with its picture 90 mm. */
export const LEAST_DRAWING: Least = { width: 200, height: 170 };
/** A tile of a stick shorter than this is mostly overlap and margins (common practice, no source). */
export const LEAST_TILE: Least = { width: 140, height: 140 };

export const NO_PAPER: PaperSize = { name: "", width: 0, height: 0 }; // stands in beside a problem that stops the run

export function unknownName(what: string, name: string, known: string[], path: string, source: Source): Problem {
  const near = nearest(name, known);
  const remedy = near === null ? "choose one of these, or give its measurements" : `did you mean ${quote(near)}?`;
  return inputProblem(source, path, `there is no ${what} ${quote(name)}`, choice(known), remedy);
}

function turned(size: PaperSize, turn: Turn | null): PaperSize {
  if (turn === null) return size;
  const short = Math.min(size.width, size.height);
  const long = Math.max(size.width, size.height);
  return turn === "landscape" ? { ...size, width: long, height: short } : { ...size, width: short, height: long };
}

export function shopSize(name: string, shop: PaperFile): PaperSize | null {
  const entry = Object.hasOwn(shop.sizes, name) ? shop.sizes[name] : undefined;
  return entry === undefined
    ? null
    : { name, width: lengthOf(entry.width, shop.unit), height: lengthOf(entry.height, shop.unit) };
}

/** "A4", "A4 landscape", or a name with measurements. */
export function sizeOf(
  wish: PaperWish,
  path: string,
  least: Least,
  shop: PaperFile,
  source: Source,
  unit: Unit,
  problems: Problem[],
): PaperSize {
  const plain = typeof wish === "string" ? /^(.*?)(?: +(portrait|landscape))?$/.exec(wish.trim()) : null;
  const asked = typeof wish === "string" ? { name: plain?.[1] ?? wish, turn: plain?.[2] as Turn | undefined } : wish;
  const known = shopSize(asked.name, shop);
  const width = "width" in asked ? asked.width : undefined;
  const height = "height" in asked ? asked.height : undefined;
  if (known === null && (width === undefined || height === undefined)) {
    problems.push(unknownName("paper size", asked.name, Object.keys(shop.sizes), path, source));
    return NO_PAPER;
  }
  const size = turned(
    {
      name: asked.name,
      width: width === undefined ? known!.width : lengthOf(width, unit),
      height: height === undefined ? known!.height : lengthOf(height, unit),
    },
    asked.turn ?? null,
  );
  if (size.width < least.width - SAME || size.height < least.height - SAME) {
    problems.push(
      inputProblem(
        source,
        path,
        `${quote(size.name)} is too small: ${Math.round(size.width)} mm wide and ${Math.round(size.height)} mm high`,
        `paper at least ${least.width} mm wide and ${least.height} mm high`,
        "choose larger paper, or turn it",
      ),
    );
  }
  return size;
}
