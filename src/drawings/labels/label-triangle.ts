/**
 * The triangle across the labels of one glue-up: parts that stand side by side, or lie over each other, each have their slice of it black.
 * Put in order the slices make the triangle whole, its point up. Uprights are sliced from left to right, levels from the floor up.
 */
import { axesOf, axisOf } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { fill, group, polygonSteps, rectSteps, stroke } from "../../paper/draw.ts";
import type { Point } from "../../paper/shape.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import type { Atom } from "../draughting/cell.ts";

/** Which slice of how many is black, from the left or from the floor. */
export type Slice = { n: number; of: number; cut: "upright" | "level" };

const SETS: readonly (readonly SetPart["role"][])[] = [
  ["side", "divider"],
  ["bottom", "shelf", "top", "stretcher"],
];

/** Null where no other part of its glue-up stands or lies as it does. */
export function sliceOf(set: DryfitSet, part: SetPart): Slice | null {
  const roles = SETS.find((some) => some.includes(part.role));
  if (roles === undefined || part.place === null) return null;
  const axis = facingAxis(part);
  if (axis === 1) return null;
  const row = rowsOf(set, part.assembly, roles, axis).find((some) => some.includes(part));
  if (row === undefined || row.length < 2) return null;
  const at = ({ place }: SetPart): Point => [place!.at[axis]!, place!.at[axis === 0 ? 2 : 0]];
  const inOrder = [...row].sort((a, b) => at(a)[0] - at(b)[0] || at(a)[1] - at(b)[1]);
  return { n: inOrder.indexOf(part), of: row.length, cut: axis === 0 ? "upright" : "level" };
}

/** The parts that face one way, by glue-up; one that is in several is counted to that with the most of them. */
function rowsOf(set: DryfitSet, assembly: string, roles: readonly SetPart["role"][], axis: number): SetPart[][] {
  const glueUps = set.orders.filter((order) => order.assembly === assembly).flatMap((order) => order.glueUps);
  const rows = glueUps.map(({ parts }) =>
    parts
      .map((mark) => partOf(set, mark))
      .filter((one) => one.assembly === assembly && roles.includes(one.role) && one.place !== null)
      .filter((one) => facingAxis(one) === axis),
  );
  const counted = new Set<SetPart>();
  return rows
    .sort((a, b) => b.length - a.length)
    .map((row) => {
      const own = row.filter((one) => !counted.has(one));
      for (const one of own) counted.add(one);
      return own;
    });
}

/** The case's axis across the part's face: 0 for what stands between left and right, 2 for what lies. */
const facingAxis = (part: SetPart): number => axisOf(axesOf(part.place!)[2]);

const WIDE = 1.6; // of its height
const BAR: Mm = 0.6;
const BAR_AIR: Mm = 0.4;

/** The whole triangle in outline with its slice black, `height` high on the baseline. */
export function triangle({ n, of, cut }: Slice, height: Mm): Atom {
  const width = WIDE * height;
  const whole: Point[] = [
    [0, 0],
    [width / 2, -height],
    [width, 0],
  ];
  // Half as wide at every height as the whole triangle is there.
  const half = (up: number): Mm => (width / 2) * (1 - up);
  const heightAt = (x: Mm): Mm => height * (1 - Math.abs(x / (width / 2) - 1));
  const [from, to] = [n / of, (n + 1) / of];
  const slice: Point[] =
    cut === "level"
      ? [
          [width / 2 - half(from), -height * from],
          [width / 2 - half(to), -height * to],
          [width / 2 + half(to), -height * to],
          [width / 2 + half(from), -height * from],
        ]
      : [
          [from * width, 0],
          [from * width, -heightAt(from * width)],
          ...(from < 0.5 && to > 0.5 ? [[width / 2, -height] as Point] : []),
          [to * width, -heightAt(to * width)],
          [to * width, 0],
        ];
  // The slices at a corner are small: a bar beside the triangle says which it is.
  const bar =
    cut === "level"
      ? rectSteps({ x: -BAR - BAR_AIR, y: -height * to, width: BAR, height: height * (to - from) })
      : rectSteps({ x: from * width, y: BAR_AIR, width: (to - from) * width, height: BAR });
  const drawn = [stroke("thin", polygonSteps(whole)), fill(0, polygonSteps(slice)), fill(0, bar)];
  const beside = cut === "level" ? BAR + BAR_AIR : 0;
  const below = cut === "level" ? 0 : BAR + BAR_AIR;
  const shapes = [group(drawn, { move: [beside, 0] })];
  return { kind: "drawn", width: width + beside, up: height, down: below, shapes };
}
