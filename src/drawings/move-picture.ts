/** One move of an assembly order as a small picture: what stands ready, what is brought, and an arrow the way it goes. */
import { type Box, boxToInner, boxToOuter, type Place, type Vec } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { fill, polygonSteps } from "../paper/draw.ts";
import type { Point, Rect, Shape } from "../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetMove, SetOrder } from "../set/schema.ts";
import { placeBalloons } from "./balloon.ts";
import { grow, isWithin, meets, unionOf } from "./block.ts";
import { type Block, placeBlock, SMALL, setLines, word, words } from "./cell.ts";
import type { Line } from "./clip.ts";
import { type Eye, project } from "./hidden-line.ts";
import { type Skin, skinOf } from "./hidden-line-skin.ts";
import {
  BACK_LEFT,
  BACK_RIGHT,
  type Body,
  distanceTo,
  FRONT_LEFT,
  FRONT_RIGHT,
  inkOf,
  isometric,
  isometricBox,
  isometricShapes,
} from "./isometric.ts";
import { subtractBoxes } from "./solid.ts";

const NUMBER: Mm = 4.5;
const AROUND: Mm = 10.5; // for balloons and arrows
const AIR: Mm = 1;

// How far what is brought is drawn from its seat: enough to see the joint, little enough to keep the picture large.
const APART = 0.22; // of the largest size shown
const DRAWN_OUT = 0.45; // of its own length, for what slides: it is seen to be in its groove

const ARROW: Mm = 10;
const SHAFT: Mm = 0.8;
const HEAD: Mm = 3.4;
const HEAD_WIDTH: Mm = 3;
const ARROW_CLEAR: Mm = 2.1; // from its axis to any line
const ARROW_STEP: Mm = 1.5; // places tried for it
const STEADY = 1.12; // the eye stays where it was unless another sees so much more

type Scene = { bodies: Body[]; marks: string[]; ways: { marks: readonly string[]; travel: Vec }[] };

/** A part in its assembly's axes. Pin holes are left out: they say nothing about how it goes together. */
function boxesOf(set: DryfitSet, assembly: SetAssembly, mark: string): Box[] {
  const part = set.parts.find((one) => one.mark === mark);
  if (part === undefined || part.place === null)
    throw new Error(`Internal error: a move brings ${mark}, which has no place`);
  const own = set.assemblies.find(({ name }) => name === part.assembly)!;
  const blank: Box = [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ];
  const cuts = part.features.filter(({ kind }) => kind !== "hole").map(({ box }) => box);
  return subtractBoxes(blank, cuts).map((box) => {
    const placed = boxToOuter(part.place as Place, box);
    // A side that is borrowed belongs to the case beside this one.
    return own === assembly ? placed : boxToInner(assembly.place as Place, boxToOuter(own.place as Place, placed));
  });
}

/** What each part is joined with once the moves before this one are made. */
function joinedBefore(order: SetOrder, move: SetMove): (mark: string) => readonly string[] {
  const groups = new Map<string, Set<string>>();
  const join = (marks: readonly string[]): void => {
    const all = new Set(marks.flatMap((mark) => [mark, ...(groups.get(mark) ?? [])]));
    for (const mark of all) groups.set(mark, all);
  };
  for (const before of order.moves) {
    if (before.n >= move.n) break;
    join([...before.bring.flatMap(({ parts }) => parts), ...before.to]);
  }
  return (mark) => [...(groups.get(mark) ?? [mark])];
}

function sizeOf(skins: readonly Skin[], axis: number): Mm {
  let [lo, hi] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { facets } of skins) {
    for (const { corners } of facets) {
      lo = Math.min(lo, corners[0][axis]!);
      hi = Math.max(hi, corners[1][axis]!);
    }
  }
  return hi - lo;
}

function sceneOf(order: SetOrder, move: SetMove, skinOfMark: (mark: string) => Skin): Scene {
  const joined = joinedBefore(order, move);
  const brought = move.bring.map(({ parts, travel }) => ({ marks: [...new Set(parts.flatMap(joined))], travel }));
  const isBrought = new Set(brought.flatMap(({ marks }) => marks));
  const standing = [...new Set(move.to.flatMap(joined))].filter((mark) => !isBrought.has(mark));
  const skins = (marks: readonly string[]): Skin[] => marks.map(skinOfMark);
  const all = skins([...standing, ...isBrought]);
  const apart = APART * Math.max(...[0, 1, 2].map((axis) => sizeOf(all, axis)));
  const bodies = brought.flatMap(({ marks, travel }): Body[] => {
    const along = travel.findIndex((one) => one !== 0);
    const far = move.slides ? Math.max(apart, DRAWN_OUT * sizeOf(skins(marks), along)) : apart;
    const shift: Vec = [-travel[0] * far, -travel[1] * far, -travel[2] * far];
    return marks.map((mark) => ({ mark, skin: skinOfMark(mark), shift, isMoved: true }));
  });
  return {
    bodies: [
      ...standing.map((mark): Body => ({ mark, skin: skinOfMark(mark), shift: [0, 0, 0], isMoved: false })),
      ...bodies,
    ],
    marks: [...isBrought, ...move.to.filter((mark) => !isBrought.has(mark))],
    ways: brought,
  };
}

/** The corner from which most of what is joined shows: from behind only what comes from behind. */
function eyeFor({ bodies, marks, ways }: Scene, last: Eye | null): Eye {
  const isFromBehind = ways.some(({ travel }) => travel[1] < 0);
  const eyes = isFromBehind ? [BACK_RIGHT, BACK_LEFT] : [FRONT_RIGHT, FRONT_LEFT];
  const [best] = eyes
    .map((eye) => ({
      eye,
      shows:
        isometric(bodies, eye, 1)
          .drawn.filter(({ mark }) => marks.includes(mark))
          .reduce((sum, { visible }) => sum + inkOf(visible), 0) * (eye === last ? STEADY : 1),
    }))
    .sort((a, b) => b.shows - a.shows);
  return best!.eye;
}

const eyeWords = ({ x, y }: Eye): string => `from ${y < 0 ? "the front" : "behind"}, ${x > 0 ? "right" : "left"}`;

/** An arrow along `way` (length 1), clear of lines and taken boxes, as near to what it moves as it can be; null where there is no room. */
function arrowFor(
  way: Point,
  about: Rect,
  drawn: readonly Line[],
  taken: readonly Rect[],
  within: Rect,
): { shape: Shape; box: Rect } | null {
  const middle: Point = [about.x + about.width / 2, about.y + about.height / 2];
  let best = null as { tail: Point; box: Rect; cost: number } | null;
  for (let x = within.x; x <= within.x + within.width; x += ARROW_STEP) {
    for (let y = within.y; y <= within.y + within.height; y += ARROW_STEP) {
      const tip: Point = [x + way[0] * ARROW, y + way[1] * ARROW];
      const box = grow(
        unionOf([x, tip[0]].map((left, i) => ({ x: left, y: [y, tip[1]][i]!, width: 0, height: 0 }))),
        HEAD_WIDTH / 2,
      );
      const [ax, ay] = [x + (way[0] * ARROW) / 2 - middle[0], y + (way[1] * ARROW) / 2 - middle[1]];
      // It comes up behind the part, rather than beside it or from its seat.
      const ahead = ax * way[0] + ay * way[1];
      const aside = Math.abs(ax * way[1] - ay * way[0]);
      const cost = Math.abs(ahead) + 0.7 * aside + (ahead > 0 ? 2 * ahead : 0);
      if (best !== null && cost >= best.cost) continue;
      if (!isWithin(box, within) || taken.some((other) => meets(box, other))) continue;
      const isClear = [0, 0.2, 0.4, 0.6, 0.8, 1].every((f) =>
        drawn.every((one) => distanceTo([x + (tip[0] - x) * f, y + (tip[1] - y) * f], one) > ARROW_CLEAR),
      );
      if (isClear) best = { tail: [x, y], box, cost };
    }
  }
  return best === null ? null : { shape: arrow(best.tail, way), box: best.box };
}

function arrow([x, y]: Point, [dx, dy]: Point): Shape {
  const at = (along: Mm, aside: Mm): Point => [x + dx * along - dy * aside, y + dy * along + dx * aside];
  const neck = ARROW - HEAD;
  return fill(
    0,
    polygonSteps([
      at(0, -SHAFT / 2),
      at(neck, -SHAFT / 2),
      at(neck, -HEAD_WIDTH / 2),
      at(ARROW, 0),
      at(neck, HEAD_WIDTH / 2),
      at(neck, SHAFT / 2),
      at(0, SHAFT / 2),
    ]),
  );
}

function lineBox(all: readonly Line[]): Rect {
  let [x0, y0, x1, y1] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const [x, y] of all.flat())
    [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
  return { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
}

const named = (marks: readonly string[]): string => marks.join(", ");

function drawMove(scene: Scene, eye: Eye, move: SetMove, width: Mm, most: Mm): Block {
  const whole = isometricBox(scene.bodies, eye);
  const room = most - 2 * AROUND;
  const ratio = Math.min((width - 2 * AROUND) / whole.width, room / whole.height);
  const picture = isometric(scene.bodies, eye, ratio);
  const within = grow(picture.box, AROUND);
  // Wider than the picture where the column is: room for balloons.
  const space: Rect = { ...within, x: picture.box.x + picture.box.width / 2 - width / 2, width };
  const drawn = picture.drawn.flatMap(({ visible }) => visible);
  const taken: Rect[] = [];
  const arrows = scene.ways.flatMap(({ marks, travel }) => {
    const [x, y] = project(eye, travel);
    const long = Math.hypot(x, y);
    const own = picture.drawn.filter(({ mark, visible }) => marks.includes(mark) && visible.length > 0);
    // Hidden altogether, or moving straight along the line of sight: no arrow could say it.
    if (own.length === 0 || long < 1e-9) return [];
    const made = arrowFor([x / long, y / long], lineBox(own.flatMap(({ visible }) => visible)), drawn, taken, space);
    if (made === null) return [];
    taken.push(made.box);
    return [made.shape];
  });
  const patches = picture.patches(scene.marks);
  const balloons = placeBalloons(patches, drawn, taken, space);
  const without = scene.marks.filter((mark) => !patches.has(mark) || balloons.without.includes(mark));
  const caption = setLines(
    [
      word(String(move.n), NUMBER, "bold"),
      ...words(eyeWords(eye), SMALL),
      ...(without.length === 0 ? [] : words(`(hidden: ${named(without)})`, SMALL)),
    ],
    width,
  );
  return {
    width,
    height: caption.height + AIR + space.height,
    baseline: caption.baseline,
    shapes: [
      placeBlock(caption, [0, 0]),
      placeBlock(
        {
          width,
          height: space.height,
          baseline: 0,
          shapes: [...isometricShapes(picture.drawn), ...arrows, ...balloons.shapes],
        },
        [-space.x, caption.height + AIR - space.y],
      ),
    ],
  };
}

/** The pictures of some moves of one order, in that order, each as wide as given and at most so high. */
export function drawMoves(set: DryfitSet, order: SetOrder, moves: readonly SetMove[], width: Mm, most: Mm): Block[] {
  const assembly = set.assemblies.find(({ name }) => name === order.assembly)!;
  const skins = new Map<string, Skin>();
  const skinOfMark = (mark: string): Skin => {
    const known = skins.get(mark) ?? skinOf(boxesOf(set, assembly, mark));
    skins.set(mark, known);
    return known;
  };
  let last: Eye | null = null;
  return moves.map((move) => {
    const scene = sceneOf(order, move, skinOfMark);
    last = eyeFor(scene, last);
    return drawMove(scene, last, move, width, most);
  });
}
