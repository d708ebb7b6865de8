/** The clear sizes of a case's bays, along its outside where a chain reaches them, else inside the bays; and the bays' names. */
import type { Mm } from "../../base/length.ts";
import { text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetOpening, SetPart } from "../../set/schema.ts";
import { grow, isWithin, meets } from "../draughting/block.ts";
import { clipToBox } from "../draughting/clip.ts";
import { type DimensionStyle, drawSpan } from "../draughting/dimension.ts";
import { LEAST_TEXT } from "../draughting/fitting.ts";
import type { Picture } from "../draughting/picture.ts";
import type { Marking } from "./marking.ts";

export type Spans = (readonly [Mm, Mm])[];

const isSame = (a: readonly [Mm, Mm], b: readonly [Mm, Mm]): boolean =>
  Math.abs(a[0] - b[0]) < 1e-4 && Math.abs(a[1] - b[1]) < 1e-4;

export const distinct = (spans: Spans): Spans =>
  spans.filter((span, i) => spans.findIndex((other) => isSame(span, other)) === i);

export const acrossOf = (opening: SetOpening): readonly [Mm, Mm] => [opening.at[0], opening.at[0] + opening.width];
export const upOf = (opening: SetOpening): readonly [Mm, Mm] => [opening.at[2], opening.at[2] + opening.height];

/** The clear sizes a chain along one side shows, and those of the openings it does not reach. */
export type Chains = { below: Spans; left: Spans; right: Spans; innerAcross: SetOpening[]; innerUp: SetOpening[] };

export function chainsOf(openings: SetOpening[]): Chains {
  const lowest = Math.min(...openings.map((o) => o.at[2]));
  const leftmost = Math.min(...openings.map((o) => o.at[0]));
  const rightmost = Math.max(...openings.map((o) => acrossOf(o)[1]));
  const below = distinct(openings.filter((o) => o.at[2] - lowest < 1e-4).map(acrossOf));
  const left = distinct(openings.filter((o) => o.at[0] - leftmost < 1e-4).map(upOf));
  const atRight = distinct(openings.filter((o) => rightmost - acrossOf(o)[1] < 1e-4).map(upOf));
  const right = atRight.filter((span) => !left.some((other) => isSame(other, span)));
  const shown = [...left, ...right];
  return {
    below,
    left,
    right,
    innerAcross: openings.filter((o) => !below.some((span) => isSame(span, acrossOf(o)))),
    innerUp: openings.filter((o) => !shown.some((span) => isSame(span, upOf(o)))),
  };
}

/** Chains along a frame, its members' widths between and beside the clear ones. */
export function withMembers(chains: Chains, [width, , height]: readonly [Mm, Mm, Mm]): Chains {
  const filled = (spans: Spans, whole: Mm): Spans => {
    const sorted = [...spans].sort((a, b) => a[0] - b[0]);
    const members = [...sorted, [whole, whole] as const].map(([from], i) => [sorted[i - 1]?.[1] ?? 0, from] as const);
    return [...sorted, ...members.filter(([a, b]) => b - a > 1e-4)].sort((a, b) => a[0] - b[0]);
  };
  const left = filled(chains.left, height);
  const right = chains.right.length === 0 ? [] : filled(chains.right, height);
  return { ...chains, below: filled(chains.below, width), left, right };
}

/** What is left over at the foot and the head: the floor to the bottom's underside, the top panel to the sides' ends; less than a rounding step is none. */
export function setDowns(set: DryfitSet, assembly: SetAssembly, openings: SetOpening[]): Spans {
  const lowest = Math.min(...openings.map((o) => o.at[2]));
  const highest = Math.max(...openings.map((o) => upOf(o)[1]));
  const thicknessOf = (...roles: SetPart["role"][]): Mm =>
    set.parts.find((part) => part.assembly === assembly.name && roles.includes(part.role))?.thickness ?? 0;
  const foot = lowest - thicknessOf("bottom");
  const head = highest + thicknessOf("top", "stretcher");
  return [
    ...(foot > set.job.step ? [[0, foot] as const] : []),
    ...(assembly.size[2] - head > set.job.step ? [[head, assembly.size[2]] as const] : []),
  ];
}

export const openingsOf = (set: DryfitSet, assembly: SetAssembly): SetOpening[] =>
  set.openings.filter((opening) => opening.case === assembly.name);

/** Where across a bay its inner dimension line may stand, as shares of the bay; the first is read best. */
const SHARES: readonly number[] = [0.25, 0.15, 0.4, 0.08, 0.55, 0.7, 0.85, 0.32, 0.62];
const INNER_CLEAR: Mm = 0.8;
const ARROW_CLEAR: Mm = 0.5; // half an arrowhead beside its line

type Inner = { shapes: Shape[]; boxes: Rect[]; crowdedAcross: SetOpening[]; crowdedUp: SetOpening[] };

/** Dimension lines inside the bays that no outer chain reaches; where a bay is too small for one, it is left to the outside. */
export function drawInner(chains: Chains, picture: Picture, style: DimensionStyle): Inner {
  const inner: Inner = { shapes: [], boxes: [], crowdedAcross: [], crowdedUp: [] };
  const place = (o: SetOpening, lineAt: (share: number) => readonly [Point, Point]): boolean => {
    const bay = picture.rectOf({ u0: o.at[0], u1: acrossOf(o)[1], v0: o.at[2], v1: upOf(o)[1] });
    for (const share of SHARES) {
      const span = drawSpan(...lineAt(share), style);
      const isFree =
        isWithin(grow(span.box, INNER_CLEAR), bay) &&
        !inner.boxes.some((box) => meets(grow(box, 0.5), span.box)) &&
        // A loose shelf in the bay, or what lies behind it.
        !picture.segments.some(([a, b]) => clipToBox(a, b, grow(span.box, 0.3)) !== null);
      if (!isFree) continue;
      inner.shapes.push(...span.shapes);
      inner.boxes.push(span.box, grow(span.line, ARROW_CLEAR));
      return true;
    }
    return false;
  };
  for (const o of chains.innerAcross) {
    const y = (share: number): Mm => picture.y(o.at[2] + o.height * share);
    const isPlaced = place(o, (share) => [
      [picture.x(o.at[0]), y(share)],
      [picture.x(acrossOf(o)[1]), y(share)],
    ]);
    if (!isPlaced) inner.crowdedAcross.push(o);
  }
  for (const o of chains.innerUp) {
    const x = (share: number): Mm => picture.x(o.at[0] + o.width * share);
    const isPlaced = place(o, (share) => [
      [x(share), picture.y(o.at[2])],
      [x(share), picture.y(upOf(o)[1])],
    ]);
    if (!isPlaced) inner.crowdedUp.push(o);
  }
  return inner;
}

const BAY_SHARES: readonly number[] = [0, 0.5, 1, 0.25, 0.75];

/** The name of each bay, as the steps call it, in a corner of it; where marks and figures leave no room, none. */
export function nameBays(openings: SetOpening[], picture: Picture, taken: readonly Rect[], marking: Marking): Shape[] {
  const blocked = [...taken, ...marking.boxes];
  return openings.flatMap((o): Shape[] => {
    const bay = picture.rectOf({ u0: o.at[0], u1: acrossOf(o)[1], v0: o.at[2], v1: upOf(o)[1] });
    const size = { width: measureText(o.name, LEAST_TEXT, "regular"), height: LEAST_TEXT };
    const room = grow(bay, -BAY_CLEAR);
    for (const down of BAY_SHARES) {
      for (const across of BAY_SHARES) {
        const x = room.x + across * (room.width - size.width);
        const y = room.y + down * (room.height - size.height);
        const box = { x, y, ...size };
        const air = grow(box, 0.6);
        const isFree =
          isWithin(box, room) &&
          !blocked.some((other) => meets(air, other)) &&
          ![...picture.segments, ...marking.leaders].some(([a, b]) => clipToBox(a, b, air) !== null);
        if (isFree) return [text([x, y + LEAST_TEXT], o.name, LEAST_TEXT)];
      }
    }
    return [];
  });
}

const BAY_CLEAR: Mm = 1.2;
