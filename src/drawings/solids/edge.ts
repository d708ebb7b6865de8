/** An edge of a solid, as its pictures draw it. */
import type { AxisIndex, Vec } from "../../base/geometry.ts";

/** `outs`: the ways out of the wood of the two faces that meet at an outer corner; null at an inner one, and where two corners touch. */
export type Edge = { ends: readonly [Vec, Vec]; outs: readonly { axis: AxisIndex; out: 1 | -1 }[] | null };
