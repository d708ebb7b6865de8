/** How high a case stands, and whether it is tall enough to be anchored to the wall. */
import { isSame, type Mm, SAME } from "../base/length.ts";
import type { SetAssembly } from "./schema.ts";

/** 27 in and over: ASTM F2057-23, which 16 CFR 1261 makes law for clothing storage units sold in the United States. Any tall piece is treated so. */
const TALL: Mm = 685.8;
/** Higher than so many times its depth: common practice, no source. */
const SLENDER = 3;

export const TALL_RULE =
  "27 in (686 mm) or more (ASTM F2057-23, 16 CFR 1261: clothing storage units), or higher than three times the depth (common practice, no source)";

/** The base a case stands on: it ends where the case begins, and lies under its middle. */
export function baseUnder(one: SetAssembly, all: readonly SetAssembly[]): SetAssembly | null {
  const middle = one.place.at[0] + one.size[0] / 2;
  const isUnder = ({ kind, place, size }: SetAssembly): boolean =>
    kind === "base" &&
    isSame(place.at[2] + size[2], one.place.at[2]) &&
    place.at[0] < middle &&
    middle < place.at[0] + size[0] &&
    place.at[1] < one.place.at[1] + one.size[1] &&
    one.place.at[1] < place.at[1] + size[1];
  return one.kind === "base" ? null : (all.find(isUnder) ?? null);
}

/** Its own height and that of the base under it. */
export const standingHeight = (one: SetAssembly, all: readonly SetAssembly[]): Mm =>
  one.size[2] + (baseUnder(one, all)?.size[2] ?? 0);

export function isTall(one: SetAssembly, all: readonly SetAssembly[]): boolean {
  const height = standingHeight(one, all);
  return one.kind === "case" && (height >= TALL - SAME || height > SLENDER * one.size[1] + SAME);
}
