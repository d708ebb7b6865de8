/** What the drawings of sliding doors have in common. */
import type { Mm } from "../../base/length.ts";
import { circleSteps, stroke } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetSliders } from "../../set/schema.ts";
import { AIR, type Block, placeBlock } from "../draughting/block.ts";
import type { Picture } from "../draughting/picture.ts";

export type SetSlider = SetSliders["doors"][number];

export const doorOf = (set: DryfitSet, { assembly }: SetSlider): SetAssembly =>
  set.assemblies.find(({ name }) => name === assembly)!;

/** Blocks side by side, as one. */
export function rowOf(blocks: readonly Block[]): Block {
  const height = Math.max(...blocks.map(({ box }) => box.height));
  let x = 0;
  const shapes = blocks.map((block) => {
    const placed = placeBlock(block, [x, (height - block.box.height) / 2]);
    x += block.box.width + 2 * AIR;
    return placed;
  });
  return { shapes, box: { x: 0, y: 0, width: x - 2 * AIR, height } };
}

/** `at`: where it lies in the view. No mark stands on it. */
export function pullMark(
  { pull }: SetSlider,
  picture: Picture,
  ratio: number,
  at: readonly [Mm, Mm] | null = null,
): { shapes: Shape[]; boxes: Rect[] } {
  if (pull === null) return { shapes: [], boxes: [] };
  const [x, y] = [picture.x((at ?? pull.at)[0]), picture.y((at ?? pull.at)[1])];
  const radius = Math.max(1, (pull.diameter / 2) * ratio);
  return {
    shapes: [stroke("outline", circleSteps([x, y], radius))],
    boxes: [{ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius }],
  };
}
