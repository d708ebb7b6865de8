/** One move of an assembly order as a small picture: what stands ready, what is brought, and an arrow the way it goes. */
import { type Box, type Place, toInner, toOuter, type Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { fill, polygonSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetMove, SetOrder } from "../../set/schema.ts";
import { placeBalloons } from "../draughting/balloon.ts";
import { grow, isWithin, meets, unionOf } from "../draughting/block.ts";
import { type Block, placeBlock, SMALL, setLines, word, words } from "../draughting/cell.ts";
import type { Line } from "../draughting/clip.ts";
import { gridOf, type LineGrid } from "../draughting/line-grid.ts";
import { type Eye, project } from "../solids/hidden-line.ts";
import { type Skin, skinOf } from "../solids/hidden-line-skin.ts";
import {
  BACK_LEFT,
  BACK_RIGHT,
  type Body,
  FRONT_LEFT,
  FRONT_RIGHT,
  inkOf,
  isometric,
  isometricBox,
  isometricShapes,
  joinLines,
} from "../solids/isometric.ts";
import { moveSolid, type Solid, solidsOf } from "../solids/solid.ts";

const NUMBER: Mm = 4.5;
const BESIDE: Mm = 9; // for balloons and arrows
const OVER: Mm = 8;
const AIR: Mm = 1;

// How far what is brought is drawn from its seat: enough to see the joint, little enough to keep the picture large.
const APART = 0.22; // of the largest size shown
const DRAWN_OUT = 0.45; // of its own length, for what slides: it is seen to be in its groove

const ARROW: Mm = 10;
const SHAFT: Mm = 0.8;
const HEAD: Mm = 3.4;
const HEAD_WIDTH: Mm = 3;
/** From its axis to any line: clear of its head, of its shaft alone, over lines; at last over anything. */
const ARROW_CLEAR: readonly Mm[] = [2.1, 1.2, 0, -1];
const MOST_CLEAR: Mm = 3; // past which a line is out of the arrow's way
const ARROW_STEP: Mm = 1.5; // places tried for it
const STEADY = 1.12; // the eye stays where it was unless another sees so much more

type Scene = { bodies: Body[]; marks: string[]; ways: { marks: readonly string[]; travel: Vec }[] };

/** Parts in an assembly's axes, as they are: a part shaped at an edge with its slopes. Pin holes are left out: they say nothing about how it goes together. */
function skinsIn(set: DryfitSet, assembly: SetAssembly): (mark: string) => Skin {
  const solids = new Map<string, Solid>();
  const skins = new Map<string, Skin>();
  const add = (own: SetAssembly): void => {
    // A side that is borrowed belongs to the case beside this one.
    const moved = (solid: Solid): Solid =>
      own === assembly
        ? solid
        : moveSolid(solid, (spot) => toInner(assembly.place as Place, toOuter(own.place as Place, spot)));
    for (const solid of solidsOf(set, own)) solids.set(solid.mark, moved(solid));
  };
  add(assembly);
  return (mark) => {
    const known = skins.get(mark);
    if (known !== undefined) return known;
    if (!solids.has(mark)) {
      const part = set.parts.find((one) => one.mark === mark);
      if (part === undefined || part.place === null)
        throw new Error(`Internal error: a move brings ${mark}, which has no place`);
      add(set.assemblies.find(({ name }) => name === part.assembly)!);
    }
    const { boxes, stairs } = solids.get(mark)!;
    const skin = skinOf(boxes, stairs);
    skins.set(mark, skin);
    return skin;
  };
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

/** `spacers`: skins of what parts stand on meanwhile. */
function sceneOf(order: SetOrder, move: SetMove, skinOfMark: (mark: string) => Skin, spacers: readonly Skin[]): Scene {
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
      ...spacers.map((skin, i): Body => ({ mark: `spacer ${i}`, skin, shift: [0, 0, 0], isMoved: false })),
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

const eyeWords = ({ x, y }: Eye): string => `from ${y < 0 ? "front" : "behind"} ${x > 0 ? "right" : "left"}`;

/**
 * An arrow along `way` (length 1), as near to what it moves as it can be, clear of lines and of taken boxes; over lines
 * only where there is no such place.
 */
function arrowFor(way: Point, about: Rect, lines: readonly Line[], taken: readonly Rect[], within: Rect): Arrow {
  const drawn = gridOf(lines);
  for (const clear of ARROW_CLEAR) {
    const found = arrowAt(way, about, drawn, taken, within, clear);
    if (found !== null) return found;
  }
  throw new Error("Internal error: no place for the arrow of a move");
}

type Arrow = { shape: Shape; box: Rect };

function arrowAt(
  way: Point,
  about: Rect,
  drawn: LineGrid,
  taken: readonly Rect[],
  within: Rect,
  clear: Mm,
): Arrow | null {
  const middle: Point = [about.x + about.width / 2, about.y + about.height / 2];
  const tails: { tail: Point; box: Rect; cost: number }[] = [];
  for (let x = within.x; x <= within.x + within.width; x += ARROW_STEP) {
    for (let y = within.y; y <= within.y + within.height; y += ARROW_STEP) {
      const box = grow(
        lineBox([
          [
            [x, y],
            [x + way[0] * ARROW, y + way[1] * ARROW],
          ],
        ]),
        HEAD_WIDTH / 2,
      );
      if (!isWithin(box, within) || (clear >= 0 && taken.some((other) => meets(box, other)))) continue;
      const [ax, ay] = [x + (way[0] * ARROW) / 2 - middle[0], y + (way[1] * ARROW) / 2 - middle[1]];
      // It comes up behind the part, rather than beside it or from its seat.
      const ahead = ax * way[0] + ay * way[1];
      const aside = Math.abs(ax * way[1] - ay * way[0]);
      tails.push({ tail: [x, y], box, cost: Math.abs(ahead) + 0.7 * aside + (ahead > 0 ? 2 * ahead : 0) });
    }
  }
  tails.sort((a, b) => a.cost - b.cost);
  const best = tails.find(({ tail: [x, y] }) =>
    [0, 0.2, 0.4, 0.6, 0.8, 1].every(
      (f) => drawn.distance([x + way[0] * ARROW * f, y + way[1] * ARROW * f], MOST_CLEAR) > clear,
    ),
  );
  return best === undefined ? null : { shape: arrow(best.tail, way), box: best.box };
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

function drawMove(scene: Scene, eye: Eye, move: SetMove, width: Mm, most: Mm): Block {
  const whole = isometricBox(scene.bodies, eye);
  const room = most - NUMBER - 2 * (AIR + OVER);
  const ratio = Math.min((width - 2 * BESIDE) / whole.width, room / whole.height);
  const picture = isometric(scene.bodies, eye, ratio);
  const space: Rect = {
    x: picture.box.x + picture.box.width / 2 - width / 2,
    y: picture.box.y - OVER,
    width,
    height: picture.box.height + 2 * OVER,
  };
  const drawn = joinLines(picture.drawn.flatMap(({ visible }) => visible));
  const patches = picture.patches(scene.marks);
  const balloons = placeBalloons(patches, drawn, [], space);
  const taken: Rect[] = [...balloons.boxes];
  const arrows = scene.ways.map(({ marks, travel }) => {
    const [x, y] = project(eye, travel);
    const long = Math.hypot(x, y); // never nought: nothing travels along the line of sight
    const own = picture.drawn.filter(({ mark }) => marks.includes(mark)).flatMap(({ visible }) => visible);
    const about = own.length === 0 ? picture.box : lineBox(own);
    const made = arrowFor([x / long, y / long], about, [...drawn, ...balloons.leaders], taken, space);
    taken.push(made.box);
    return made.shape;
  });
  const without = scene.marks.filter((mark) => !patches.has(mark) || balloons.without.includes(mark));
  // No higher than what stands in it.
  const used = grow(unionOf([picture.box, ...taken]), AIR / 2);
  const caption = setLines(
    [
      word(String(move.n), NUMBER, "bold"),
      ...words(eyeWords(eye), SMALL),
      ...(without.length === 0 ? [] : words(`(unmarked: ${without.join(", ")})`, SMALL)),
    ],
    width,
  );
  return {
    width,
    height: caption.height + AIR + used.height,
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
        [-space.x, caption.height + AIR - used.y],
      ),
    ],
  };
}

/** The pictures of some moves of one order, in that order, each as wide as given and at most so high. */
export function drawMoves(
  set: DryfitSet,
  order: SetOrder,
  moves: readonly { move: SetMove; spacers: readonly Box[] }[],
  width: Mm,
  most: Mm,
): Block[] {
  const assembly = set.assemblies.find(({ name }) => name === order.assembly)!;
  const skinOfMark = skinsIn(set, assembly);
  let last: Eye | null = null;
  return moves.map(({ move, spacers }) => {
    const standing = spacers.map((box) => skinOf([box]));
    const scene = sceneOf(order, move, skinOfMark, standing);
    last = eyeFor(scene, last);
    return drawMove(scene, last, move, width, most);
  });
}
