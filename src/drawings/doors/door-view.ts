/** What the drawings of all doors have in common, however these hang. */
import { boxToOuter, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import type { Block } from "../draughting/block.ts";
import { clean, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare, LEAST_FILLED } from "../draughting/filled.ts";
import type { Picture } from "../draughting/picture.ts";

export const NOTE_GAP: Mm = 1.2;

export type Span = readonly [Mm, Mm];

/** Spans between one place and the next. */
const chainOf = (places: readonly Mm[]): Span[] =>
  [...new Set(places)].sort((a, b) => a - b).flatMap((at, i, all) => (i === 0 ? [] : [[all[i - 1]!, at] as const]));

/** From its own left and lower end: outer edges, and inner edges of stiles and rails. */
function membersOf(set: DryfitSet, { name, size }: SetAssembly): { across: Mm[]; up: Mm[] } {
  const own = set.parts.filter(({ assembly }) => assembly === name);
  const stile = own.find(({ role }) => role === "doorStile");
  const rails = own
    .filter(({ role, place }) => role === "doorRail" && place !== null)
    .map((rail) =>
      boxToOuter(rail.place as Place, [
        [0, 0, 0],
        [rail.length, rail.width, rail.thickness],
      ]),
    );
  return {
    across: stile === undefined ? [0, size[0]] : [0, stile.width, size[0] - stile.width, size[0]],
    up: [0, ...rails.flatMap(([lo, hi]) => [clean(lo[2]), clean(hi[2])]), size[2]],
  };
}

/** From the door to the paper. */
export const acrossOn = (picture: Picture, spans: readonly Span[]): Span[] =>
  spans.map(([a, b]) => [picture.x(a), picture.x(b)]);
const upOn = (picture: Picture, spans: readonly Span[]): Span[] => spans.map(([a, b]) => [picture.y(b), picture.y(a)]);

/** The members of a framed door in a chain, then the whole; of a door in one piece the whole alone. */
export function memberRows(set: DryfitSet, assembly: SetAssembly, picture: Picture): { across: Row[]; up: Row[] } {
  const { across, up } = membersOf(set, assembly);
  const [width, , height] = assembly.size;
  const rows = (places: Mm[], whole: Mm, on: typeof acrossOn): Row[] =>
    [...(places.length > 2 ? [chainOf(places)] : []), [[0, whole] as const]].map((spans) => ({
      kind: "spans",
      spans: on(picture, spans),
    }));
  return { across: rows(across, width, acrossOn), up: rows(up, height, upOn) };
}

/** Spans that overlap stand in rows of their own. */
export function rowsOf(spans: readonly Span[]): Span[][] {
  const rows: Span[][] = [];
  for (const span of [...spans].sort((a, b) => a[0] - b[0])) {
    const row = rows.find((one) => one.at(-1)![1] <= span[0] + 1e-6);
    if (row === undefined) rows.push([span]);
    else row.push(span);
  }
  return rows;
}

/** A door beside another in line with it, as both hang, whatever stands over and under the other. */
export function levelWith(other: Block, { shapes, box }: Block): Block {
  const top = Math.min(box.y, other.box.y);
  const bottom = Math.max(box.y + box.height, other.box.y + other.box.height);
  return { shapes, box: { ...box, y: top, height: bottom - top } };
}

/** A door's drawing; where it would stay nearly blank with the one that is its mirror image beside it, if no view is then smaller. */
export function withMate<T>(draw: (mates: readonly T[]) => Draft[], mate: T | null, space: Rect): Draft[] {
  const alone = draw([]);
  const [one, ...more] = alone;
  if (mate === null || one === undefined || more.length > 0 || filledShare(one.shapes, space) >= LEAST_FILLED)
    return alone;
  const both = draw([mate]);
  return both.length === 1 && both[0]!.scale === one.scale ? both : alone;
}
