/** What the drawings of all doors have in common, however these hang. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";

export const NOTE_GAP: Mm = 1.2;

export type Span = readonly [Mm, Mm];

/** Spans between one place and the next. */
export const chainOf = (places: readonly Mm[]): Span[] =>
  [...new Set(places)].sort((a, b) => a - b).flatMap((at, i, all) => (i === 0 ? [] : [[all[i - 1]!, at] as const]));

/** From its own left and lower end: outer edges, and inner edges of stiles and rails. */
export function membersOf(set: DryfitSet, { name, size }: SetAssembly): { across: Mm[]; up: Mm[] } {
  const own = set.parts.filter(({ assembly }) => assembly === name);
  const stile = own.find(({ role }) => role === "doorStile");
  const [top, bottom] = ["rail-top", "rail-bottom"].map((id) => own.find(({ key }) => key.endsWith(`/${id}`)));
  return {
    across: stile === undefined ? [0, size[0]] : [0, stile.width, size[0] - stile.width, size[0]],
    up: top === undefined || bottom === undefined ? [0, size[2]] : [0, bottom.width, size[2] - top.width, size[2]],
  };
}
