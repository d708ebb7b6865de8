/** The marks of a view's parts, and what is said where one found no room. */
import type { Mm } from "../../base/length.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { placeBalloons } from "../draughting/balloon.ts";
import type { Picture } from "../draughting/picture.ts";
import type { Patch } from "../solids/view.ts";

export type Marking = {
  shapes: Shape[];
  boxes: Rect[];
  leaders: readonly (readonly [Point, Point])[];
  note: string;
};

export const NO_MARKS: Marking = { shapes: [], boxes: [], leaders: [], note: "" };

/** Room for marks beside a view, on the sides that carry no dimensions. */
const ASIDE: Mm = 13;

export const withAside = (box: Rect): Rect => ({
  ...box,
  y: box.y - ASIDE,
  width: box.width + ASIDE,
  height: box.height + ASIDE,
});

export const withAbove = (box: Rect): Rect => ({ ...box, y: box.y - ASIDE, height: box.height + ASIDE });

export function markView(
  shown: ReadonlyMap<string, readonly Patch[]>,
  picture: Picture,
  taken: readonly Rect[],
  within: Rect,
): Marking {
  const { shapes, boxes, leaders, without } = placeBalloons(
    new Map([...shown].map(([mark, patches]) => [mark, patches.map(picture.rectOf)])),
    picture.segments,
    taken,
    within,
  );
  return {
    shapes,
    boxes,
    leaders,
    note:
      without.length === 0
        ? ""
        : `no room here for the ${without.length === 1 ? "mark" : "marks"} ${without.join(", ")}`,
  };
}
