/** The base that a case stands on, in the dimensions of the case's views. */
import { AXES } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { baseUnder } from "../../set/standing.ts";
import type { Spans } from "./bay-sizes.ts";

/** From and to along an axis of the case. */
type Stretch = readonly [Mm, Mm];

/** A base under the case: what it takes of the width, the depth and the height. */
export type Base = { across: Stretch; back: Stretch; up: Stretch };

export function baseOf(set: DryfitSet, assembly: SetAssembly): Base | null {
  const base = baseUnder(assembly, set.assemblies);
  if (base === null) return null;
  const [across, back, up] = AXES.map((i): Stretch => {
    const from = base.place.at[i] - assembly.place.at[i];
    return [from, from + base.size[i]];
  }) as [Stretch, Stretch, Stretch];
  return { across, back, up };
}

const SAME_PLANE = 1e-4;

/** How far the base stands in at either end, and what it measures itself; nothing where it is flush. */
export function chainOf(size: Mm, [from, to]: Stretch): Spans {
  const stretches: Spans = [
    [0, from],
    [from, to],
    [to, size],
  ];
  const chain = stretches.filter(([a, b]) => Math.abs(b - a) > SAME_PLANE);
  return chain.length > 1 ? chain : [];
}

/** The case's own height; on a base, the base's beside it, and then both together from the floor. */
export const heightSpans = (height: Mm, base: Base | null): Spans[] =>
  base === null ? [[[0, height]]] : [[base.up, [0, height]], [[base.up[0], height]]];
