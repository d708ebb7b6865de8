/** How high a case stands, and whether it is tall enough to be anchored to the wall. */
import { isSame, type Mm, SAME } from "../base/length.ts";
import type { SetAssembly } from "./schema.ts";

/** 27 in and over: ASTM F2057-23, which 16 CFR 1261 makes law for clothing storage units sold in the United States. Any tall piece is treated so. */
const TALL: Mm = 685.8;
/** Higher than so many times its depth: common practice, no source. */
const SLENDER = 3;

export const TALL_RULE =
  "27 in (686 mm) or more (ASTM F2057-23, 16 CFR 1261: clothing storage units), or higher than three times the depth (common practice, no source)";

/** What it stands on: another that ends where this one begins, and lies under its middle. */
function under(one: SetAssembly, all: readonly SetAssembly[]): SetAssembly | null {
  const middle = one.place.at[0] + one.size[0] / 2;
  const carries = ({ place, size }: SetAssembly): boolean =>
    isSame(place.at[2] + size[2], one.place.at[2]) &&
    place.at[0] < middle &&
    middle < place.at[0] + size[0] &&
    place.at[1] < one.place.at[1] + one.size[1] &&
    one.place.at[1] < place.at[1] + size[1];
  return all.find(carries) ?? null;
}

/** The base that a case stands on. */
export function baseUnder(one: SetAssembly, all: readonly SetAssembly[]): SetAssembly | null {
  const below = under(one, all);
  return below?.kind === "base" ? below : null;
}

/** The face frame before a case's front edges. */
export function frameBefore(one: SetAssembly, all: readonly SetAssembly[]): SetAssembly | null {
  if (one.kind !== "case") return null;
  const middle = one.place.at[0] + one.size[0] / 2;
  const covers = ({ kind, place, size }: SetAssembly): boolean =>
    kind === "frame" &&
    isSame(place.at[1] + size[1], one.place.at[1]) &&
    place.at[0] < middle &&
    middle < place.at[0] + size[0] &&
    place.at[2] < one.place.at[2] + one.size[2] &&
    one.place.at[2] < place.at[2] + size[2];
  return all.find(covers) ?? null;
}

/** The cases that a face frame goes before, from left to right. */
export const behindFrame = (frame: SetAssembly, all: readonly SetAssembly[]): SetAssembly[] =>
  all.filter((one) => frameBefore(one, all) === frame).sort((a, b) => a.place.at[0] - b.place.at[0]);

/** What takes the frame round an end of a case: it lies against a side. */
export function returnsOf(one: SetAssembly, all: readonly SetAssembly[]): SetAssembly[] {
  if (one.kind !== "case") return [];
  const [left, right] = [one.place.at[0], one.place.at[0] + one.size[0]];
  return all.filter(
    ({ kind, place, size }) =>
      kind === "return" &&
      (isSame(place.at[0] + size[0], left) || isSame(place.at[0], right)) &&
      place.at[1] < one.place.at[1] + one.size[1] &&
      one.place.at[1] < place.at[1] + size[1] &&
      place.at[2] < one.place.at[2] + one.size[2] &&
      one.place.at[2] < place.at[2] + size[2],
  );
}

/** What runs in a case, or is fixed in it to carry that. */
export const isInside = ({ kind }: Pick<SetAssembly, "kind">): boolean => kind === "drawer" || kind === "packing";

/** The case that a drawer, or a strip beside one, is in. */
export function caseAround(one: SetAssembly, all: readonly SetAssembly[]): SetAssembly | null {
  if (!isInside(one)) return null;
  const middle = (i: 0 | 2): Mm => one.place.at[i] + one.size[i] / 2;
  const holds = ({ kind, place, size }: SetAssembly): boolean =>
    kind === "case" &&
    ([0, 2] as const).every((i) => place.at[i] < middle(i) && middle(i) < place.at[i] + size[i]) &&
    place.at[1] < one.place.at[1] + one.size[1] &&
    one.place.at[1] < place.at[1] + size[1];
  return all.find(holds) ?? null;
}

/** From the floor to its upper edge: with the base, or the case, that it stands on. */
export function standingHeight(one: SetAssembly, all: readonly SetAssembly[]): Mm {
  const below = under(one, all);
  return one.size[2] + (below === null ? 0 : standingHeight(below, all));
}

export function isTall(one: SetAssembly, all: readonly SetAssembly[]): boolean {
  const height = standingHeight(one, all);
  return one.kind === "case" && (height >= TALL - SAME || height > SLENDER * one.size[1] + SAME);
}
