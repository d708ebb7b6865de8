/** Filler strips: what fills the space over a lowered top panel, so that a worktop lies on wood and can be screwed through it. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Frame, Part } from "../model.ts";

const ACROSS: Frame = { l: "+x", w: "+y", t: "+z" };
const DEEP: Frame = { l: "+y", w: "-x", t: "+z" };

export type FillerSpace = { left: Mm; right: Mm; rear: Mm; below: Mm; above: Mm };
export type Strip = { id: string; name: string; frame: Frame; lo: Vec; hi: Vec };

/** Along front and back from side to side, between these at the sides and over each divider that reaches the top panel. */
export function layFillers(space: FillerSpace, dividers: readonly Part[], width: Mm): Strip[] {
  const { left, right, rear, below, above } = space;
  const across = (id: string, name: string, from: Mm, to: Mm): Strip => ({
    id: `filler-${id}`,
    name: `${name} filler strip`,
    frame: ACROSS,
    lo: [left, from, below],
    hi: [right, to, above],
  });
  const deep = (id: string, name: string, from: Mm, to: Mm): Strip => ({
    id: `filler-${id}`,
    name: `${name} filler strip`,
    frame: DEEP,
    lo: [from, width, below],
    hi: [to, rear - width, above],
  });
  return [
    across("front", "front", 0, width),
    across("rear", "rear", rear - width, rear),
    deep("left", "left", left, left + width),
    deep("right", "right", right - width, right),
    ...dividers.map(({ key, box }) => {
      const middle = (box[0][0] + box[1][0]) / 2;
      return deep(key.slice(key.lastIndexOf("-") + 1), "middle", middle - width / 2, middle + width / 2);
    }),
  ];
}
