/** The letter of each joint of a frame, on both members beside the line where they meet; of a return, on its stile. */
import { type AxisIndex, type Box, boxToOuter, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { grow, isWithin, meets } from "../draughting/block.ts";
import { clipToBox } from "../draughting/clip.ts";
import type { Picture } from "../draughting/picture.ts";
import { shapesIn } from "../draughting/shaped.ts";

const SIZE: Mm = 2.5;
const OFF: Mm = 2.4; // from the joint's line to the middle of a letter
const AIR: Mm = 0.55; // round a letter, to the middle of the outline: clear of its half width
const BASE = 0.36; // a capital is so much lower than its middle, of its size
const LOW: Mm = SIZE * (0.5 - BASE); // in a member hardly higher than its letter, with equal air over and under it
/** Where two meet in one member, the second goes aside. */
const SHIFTS: readonly Mm[] = [0, 3.4, -3.4, 6.8, -6.8];

const boxOf = (part: SetPart): Box =>
  boxToOuter(part.place as Place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);

/** What is cut out of a member's edges along a line of its own, each as the box about it. */
const shapedOf = (part: SetPart): Box[] => shapesIn(part).map(({ box }) => boxToOuter(part.place as Place, box));

/** A member too narrow on paper for a letter, or left so narrow by its shaped edge, goes without: the list under the view has all. */
export function drawMating(
  set: DryfitSet,
  assembly: SetAssembly,
  picture: Picture,
): { shapes: Shape[]; boxes: Rect[] } {
  const shapes: Shape[] = [];
  const boxes: Rect[] = [];
  const rectOf = ([lo, hi]: Box): Rect => picture.rectOf({ u0: lo[0], u1: hi[0], v0: lo[2], v1: hi[2] });
  /** At the first of the spots that is free, and whole within its member. */
  const letter = (mating: string, spots: readonly Point[], room: Rect, sawn: readonly Rect[]): void => {
    const width = measureText(mating, SIZE, "bold");
    const boxAt = ([u, v]: Point): Rect => ({ x: u - width / 2, y: v + SIZE * (BASE - 1), width, height: SIZE });
    const spot = spots
      .flatMap(([u, v]): Point[] => [
        [u, v],
        [u, v + LOW],
      ])
      .find((one) => {
        const box = grow(boxAt(one), AIR);
        return (
          isWithin(box, room) &&
          ![...boxes, ...sawn].some((other) => meets(box, other)) &&
          !picture.segments.some(([a, b]) => clipToBox(a, b, box) !== null)
        );
      });
    if (spot === undefined) return;
    shapes.push(text([spot[0], spot[1] + SIZE * BASE], mating, SIZE, { anchor: "middle", weight: "bold" }));
    boxes.push(boxAt(spot));
  };
  for (const { entering, receiving, receivingFace, mating } of set.joints) {
    const [one, other] = [partOf(set, entering), partOf(set, receiving)];
    if (mating === null || one.assembly !== assembly.name) continue;
    const [from, on] = [boxOf(one), boxOf(other)];
    // The face lies across x where the member that takes it stands upright.
    const local = { l: 0, w: 1, t: 2 }[receivingFace[0] as "l" | "w" | "t"];
    const axis = "xyz".indexOf([other.place!.l, other.place!.w, other.place!.t][local]![1]!) as AxisIndex;
    const along: AxisIndex = axis === 0 ? 2 : 0;
    const middle = (Math.max(from[0][along], on[0][along]) + Math.min(from[1][along], on[1][along])) / 2;
    const isLow = (from[0][axis] + from[1][axis]) / 2 < (on[0][axis] + on[1][axis]) / 2;
    const plane = on[isLow ? 0 : 1][axis];
    const paper = (a: Mm, b: Mm): Point => (axis === 0 ? [picture.x(a), picture.y(b)] : [picture.x(b), picture.y(a)]);
    const [x, y] = paper(plane, middle);
    const outwards = isLow === (axis === 0) ? -1 : 1;
    for (const [part, member, way] of [
      [one, from, outwards],
      [other, on, -outwards],
    ] as const) {
      const room = rectOf(member);
      const shaped = shapedOf(part);
      const sawn = shaped.map(rectOf);
      // From the joint to the far edge, or to what is cut out of it there.
      const ends = shaped.flatMap(([lo, hi]) =>
        lo[along] < middle && middle < hi[along]
          ? [lo, hi].map((corner) => paper(corner[axis], middle)).map(([u, v]) => Math.abs(axis === 0 ? u - x : v - y))
          : [],
      );
      const off = way * Math.min(OFF, Math.min(axis === 0 ? room.width : room.height, ...ends) / 2);
      const spots = SHIFTS.map((shift): Point => (axis === 0 ? [x + off, y + shift] : [x + shift, y + off]));
      letter(mating, spots, room, sawn);
    }
  }
  // Along the outer edge of its stile, half way up: the return itself is not seen from here.
  for (const { frame, stile, side, mating } of set.returns) {
    if (frame !== assembly.name) continue;
    const room = rectOf(boxOf(partOf(set, stile)));
    const off = Math.min(OFF, room.width / 2);
    const x = side === "left" ? room.x + off : room.x + room.width - off;
    letter(
      mating,
      SHIFTS.map((shift): Point => [x, room.y + room.height / 2 + shift]),
      room,
      [],
    );
  }
  return { shapes, boxes: boxes.map((box) => grow(box, AIR)) };
}
