/** Where each case is cut for its sections, and the marks on the front view that say so. */
import type { Mm } from "../../base/length.ts";
import { fill, line, rectSteps, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { arrow } from "../draughting/dimension.ts";
import type { Picture } from "../draughting/picture.ts";

/** An upright plane at x, seen from the right, and a level one at z, seen from above. */
export type Cuts = { upright: { letter: string; x: Mm }; level: { letter: string; z: Mm } };

const ASIDE = 0.32; // not through the middle of a bay, where its figures stand

const SHARES = [0.25, 0.4, 0.6, 0.7];
const CLEAR_SHARE = 0.07; // of the case's size: a letter's height and more, on paper

/** Through the bay column with most bays in it, and level through the bay row with most bays beside each other. */
export function cutsOf(set: DryfitSet, assembly: SetAssembly): Cuts {
  const openings = set.openings.filter((opening) => opening.case === assembly.name);
  const crossed = (axis: 0 | 2, at: Mm): number =>
    openings.filter((o) => o.at[axis] < at && at < o.at[axis] + (axis === 0 ? o.width : o.height)).length;
  const ends = (axis: 0 | 2): Mm[] =>
    openings.flatMap((o) => [o.at[axis], o.at[axis] + (axis === 0 ? o.width : o.height)]);
  const clear = (axis: 0 | 2, at: Mm): number => Math.min(...ends(axis).map((end) => Math.abs(end - at)));
  const at = (axis: 0 | 2, share: number): Mm[] =>
    openings.map((o) => o.at[axis] + (axis === 0 ? o.width : o.height) * share);
  const best = (axis: 0 | 2): Mm => {
    const first = at(axis, ASIDE).reduce((a, b) => (crossed(axis, b) > crossed(axis, a) ? b : a));
    if (clear(axis, first) >= CLEAR_SHARE * assembly.size[axis]) return first;
    // A bay beside it ends there: the letter would stand on that bay's extension line.
    return SHARES.flatMap((share) => at(axis, share))
      .filter((place) => crossed(axis, place) === crossed(axis, first))
      .reduce((a, b) => (clear(axis, b) > clear(axis, a) ? b : a), first);
  };
  return { upright: { letter: "A", x: best(0) }, level: { letter: "B", z: best(2) } };
}

const PLANE_END: Mm = 4; // the ends of the plane, outside the view
const ARROW_RUN: Mm = 4.5;
const LETTER: Mm = 3.5;
const LETTER_AIR: Mm = 0.4;

/** Kept free round the front view for the marks. */
export const MARKS_SPACE: Mm = 1 + PLANE_END + LETTER / 2 + 1.2;

export function drawCutMarks(cuts: Cuts, picture: Picture): { shapes: Shape[]; boxes: Rect[] } {
  const { box } = picture;
  const shapes: Shape[] = [];
  const boxes: Rect[] = [];
  const mark = (from: Point, to: Point, look: Point, letter: string): void => {
    const tip: Point = [to[0] + look[0] * ARROW_RUN, to[1] + look[1] * ARROW_RUN];
    shapes.push(line("outline", from, to), line("thin", to, tip), arrow(to, tip));
    // The letter stands on the far side of the plane from the arrow.
    const at: Point = [to[0] - look[0] * 2.4, to[1] - look[1] * 2.4 + LETTER / 2];
    // It stands clear in an extension line that runs by.
    const half = measureText(letter, LETTER, "bold") / 2 + LETTER_AIR;
    const under = { x: at[0] - half, y: at[1] - LETTER - LETTER_AIR, width: 2 * half, height: LETTER + 2 * LETTER_AIR };
    shapes.push(fill(1, rectSteps(under)), text(at, letter, LETTER, { anchor: "middle", weight: "bold" }));
    boxes.push({ x: at[0] - LETTER / 2, y: at[1] - LETTER, width: LETTER, height: LETTER });
    boxes.push({
      x: Math.min(to[0], tip[0]),
      y: Math.min(to[1], tip[1]),
      width: Math.abs(tip[0] - to[0]),
      height: Math.abs(tip[1] - to[1]),
    });
  };
  const x = picture.x(cuts.upright.x);
  mark([x, box.y - 1], [x, box.y - 1 - PLANE_END], [-1, 0], cuts.upright.letter);
  mark([x, 1], [x, 1 + PLANE_END], [-1, 0], cuts.upright.letter);
  const y = picture.y(cuts.level.z);
  mark([-1, y], [-1 - PLANE_END, y], [0, 1], cuts.level.letter);
  mark([box.width + 1, y], [box.width + 1 + PLANE_END, y], [0, 1], cuts.level.letter);
  return { shapes, boxes };
}
