/** Props: what a part that is held at one end only stands on until its other end is closed, and how long the spacers are. */
import { type AxisIndex, axesOf, axisOf, type Box, boxOf, signOf, type Vec } from "../../base/geometry.ts";
import { isSame, type Mm, SAME } from "../../base/length.ts";
import { type Rounder, rounderOf } from "../../base/step.ts";
import type { Face, SetAssembly, SetJoint, SetOrder, SetPart } from "../../set/schema.ts";
import { placedIn } from "../standing.ts";
import { joinedAfter, lyingSide } from "./moves.ts";
import { byMarkIn, type StepsInput } from "./step.ts";

/** From move `from` until move `until`: so many spacers under each of these ends, as long as the bays below are clear, or standing on the bench. */
export type Prop = {
  mark: string;
  ends: string[];
  /** In whole rounding steps, a hair short rather than long: a spacer too long lifts the part. */
  height: Mm;
  bays: string[];
  spacers: number;
  /** Where they stand, in the room. */
  boxes: Box[];
  from: number;
  until: number;
};

/** By the number of a move: the props it asks for, or how what it joins lies on the bench meanwhile, where nothing hangs. */
export type Propping = { props: Prop[]; rest: Rest | null };

/** On all front edges, or on this back with the parts that go into it upright. */
export type Rest = "fronts" | { back: string };

/** The spacers that stand while a move is made, as boxes in the room: of what is joined by then. */
export function spacersAt(order: SetOrder, n: number, propping: ReadonlyMap<number, Propping>): Box[] {
  const group = joinedAfter(order)[order.moves.findIndex((move) => move.n === n)]!;
  return [...propping.values()]
    .flatMap(({ props }) => props)
    .filter(({ mark, from, until }) => from <= n && n < until && group.has(mark))
    .flatMap(({ boxes }) => boxes);
}

type Placed = ReturnType<typeof placedIn>[number];
type Scene = { placed: ReadonlyMap<string, Placed>; joints: readonly SetJoint[]; bays: readonly Bay[]; round: Rounder };
type Bay = { name: string; box: Box };
/** The way up: along an axis, with or against it. */
type Up = { axis: AxisIndex; sign: 1 | -1 };

const ABOVE: Vec = [0, 0, 1];

export function planProps(order: SetOrder, assembly: SetAssembly, input: StepsInput): ReadonlyMap<number, Propping> {
  const { assemblies, parts, joints, openings } = input;
  const placed = new Map(assemblies.flatMap((one) => placedIn(one, parts)).map((one) => [one.part.mark, one]));
  const [x, y, z] = assembly.place.at;
  const bays = openings
    .filter((one) => one.case === assembly.name)
    .map(({ name, at, width, depth, height }): Bay => {
      const low: Vec = [at[0] + x, at[1] + y, at[2] + z];
      return { name, box: [low, [low[0] + width, low[1] + depth, low[2] + height]] };
    });
  const scene: Scene = { placed, joints, bays, round: rounderOf(input.job.step) };
  const lying = lyingSide(order, byMarkIn(parts));
  const groups = joinedAfter(order);
  const upIn = (group: ReadonlySet<string>): Up => upOf(lying !== null && group.has(lying.mark) ? lying.up : ABOVE);
  const isHeldAfter = (mark: string, i: number): boolean => holdOf(mark, groups[i]!, upIn(groups[i]!), scene).held;
  return new Map(
    order.moves.map(({ n, bring }, i): [number, Propping] => {
      const group = groups[i]!;
      const up = upIn(group);
      const props = bring
        .flatMap((body) => body.parts)
        .flatMap((mark): Prop[] => {
          const free = freeEnds(mark, group, up, scene);
          if (free.length === 0) return [];
          const later = order.moves.findIndex(
            (move, j) => j > i && (move.bring.some((body) => body.parts.includes(mark)) || isHeldIn(mark, j)),
          );
          return later < 0
            ? []
            : propsUnder({ mark, from: n, until: order.moves[later]!.n }, free, { group, up, scene });
        });
      const rest = props.length === 0 ? null : restOf(group, assembly, up, scene);
      return [n, { props: rest === null ? props : [], rest }];
    }),
  );

  function isHeldIn(mark: string, i: number): boolean {
    return groups[i]!.has(mark) && isHeldAfter(mark, i);
  }
}

function upOf(up: Vec): Up {
  const axis = ([0, 1, 2] as const).find((one) => up[one] !== 0)!;
  return { axis, sign: up[axis] > 0 ? 1 : -1 };
}

const bottomOf = ({ box }: { box: Box }, { axis, sign }: Up): Mm => (sign > 0 ? box[0][axis] : -box[1][axis]);
const topOf = ({ box }: { box: Box }, { axis, sign }: Up): Mm => (sign > 0 ? box[1][axis] : -box[0][axis]);

type Hold = { ends: { axis: AxisIndex; sign: 1 | -1 }[]; below: number; held: boolean };

/** The way a face of a part looks in the room. */
function lookOf({ place }: SetPart, face: Face): { axis: AxisIndex; sign: 1 | -1 } {
  const signed = axesOf(place!)[{ l: 0, w: 1, t: 2 }[face[0] as "l" | "w" | "t"]]!;
  return { axis: axisOf(signed), sign: (signOf(signed) * (face[1] === "1" ? 1 : -1)) as 1 | -1 };
}

/** What holds a level part once a group is joined: ends in grooves, and what it rests on. Two places hold it, one does not. */
function holdOf(mark: string, group: ReadonlySet<string>, up: Up, { placed, joints }: Scene): Hold {
  const { part } = placed.get(mark)!;
  const hold: Hold = { ends: [], below: 0, held: false };
  for (const { entering, receiving, kind, fit, enteringEnd, receivingFace } of joints) {
    if (!group.has(entering) || !group.has(receiving)) continue;
    if (entering === mark && kind === "face") hold.held = true; // it lies on the whole of it
    if (entering === mark && (kind === "housed" || kind === "tongue") && fit === "seated") {
      hold.ends.push(lookOf(part, enteringEnd));
    }
    if (receiving === mark) {
      const look = lookOf(part, receivingFace);
      if (look.axis === up.axis && look.sign === -up.sign) hold.below += 1;
    }
  }
  const places = new Set(hold.ends.map(({ axis, sign }) => `${axis} ${sign}`)).size + hold.below;
  return { ...hold, held: hold.held || places >= 2 };
}

/** The ends of a level part that hang in the air. */
function freeEnds(mark: string, group: ReadonlySet<string>, up: Up, scene: Scene): { axis: AxisIndex; sign: 1 | -1 }[] {
  const own = scene.placed.get(mark);
  if (own === undefined || own.thick !== up.axis || own.part.role === "back") return [];
  const { ends, held } = holdOf(mark, group, up, scene);
  if (held || isSame(bottomOf(own, up), lowest(group, up, scene))) return [];
  const [end] = ends;
  if (end !== undefined) return [{ axis: end.axis, sign: end.sign === 1 ? -1 : 1 }];
  const across = ([0, 1, 2] as const).filter((axis) => axis !== up.axis);
  const long = across.reduce((a, b) => (own.box[1][a] - own.box[0][a] >= own.box[1][b] - own.box[0][b] ? a : b));
  return [
    { axis: long, sign: -1 },
    { axis: long, sign: 1 },
  ];
}

const lowest = (group: ReadonlySet<string>, up: Up, { placed }: Scene): Mm =>
  Math.min(...[...group].flatMap((mark) => (placed.has(mark) ? [bottomOf(placed.get(mark)!, up)] : [])));

const END_WORDS: readonly { low: string; high: string }[] = [
  { low: "left", high: "right" },
  { low: "front", high: "rear" },
  { low: "lower", high: "upper" },
];

/** A part so deep stands on one near the front and one near the rear (common practice, no source). */
const TWO_FROM: Mm = 150;

/** From what lies under each free end up to the part's underside; ends that take the same spacers in one. */
function propsUnder(
  what: Pick<Prop, "mark" | "from" | "until">,
  free: readonly { axis: AxisIndex; sign: 1 | -1 }[],
  { group, up, scene }: { group: ReadonlySet<string>; up: Up; scene: Scene },
): Prop[] {
  const own = scene.placed.get(what.mark)!;
  const underside = bottomOf(own, up);
  const props: Prop[] = [];
  for (const { axis, sign } of free) {
    const half = halfOf(own.box, axis, sign);
    const floors = [...group].flatMap((other): Mm[] => {
      const below = other === what.mark ? undefined : scene.placed.get(other);
      if (below === undefined || below.thick !== up.axis || !overlapsFrom(below.box, half, up.axis)) return [];
      const top = topOf(below, up);
      return top < underside + SAME ? [top] : [];
    });
    const floor = floors.length > 0 ? Math.max(...floors) : lowest(group, up, scene);
    const clear = underside - floor;
    const height = scene.round.down(clear);
    const bay = floors.length === 0 ? undefined : scene.bays.find((one) => spans(one, half, floor, clear, up));
    const bays = bay === undefined ? [] : [bay.name];
    const end = END_WORDS[axis]![sign > 0 ? "high" : "low"];
    const across = ([0, 1, 2] as const).find((one) => one !== axis && one !== up.axis)!;
    const boxes = spacersUnder(own.box, { axis, sign, across }, up, [floor, floor + height]);
    const same = props.find((one) => isSame(one.height, height) && one.bays.length === bays.length);
    if (same) {
      same.ends.push(end);
      same.bays.push(...bays);
      same.boxes.push(...boxes);
    } else props.push({ ...what, ends: [end], height, bays, spacers: boxes.length, boxes });
  }
  return props;
}

/** A spacer is about so broad and so thick, and stands so far inside the end, clear of the part that closes it, and inside the edge. */
const SPACER = { broad: 40, thick: 18, fromEnd: 45, fromEdge: 25 } as const;

/** One in the middle of a narrow part's end, two under a deep one's. */
function spacersUnder(
  [lo, hi]: Box,
  { axis, sign, across }: { axis: AxisIndex; sign: 1 | -1; across: AxisIndex },
  up: Up,
  [foot, head]: readonly [Mm, Mm],
): Box[] {
  const end = sign > 0 ? hi[axis] : lo[axis];
  const inner = end - sign * Math.min(SPACER.fromEnd, (hi[axis] - lo[axis]) / 4);
  const depth = hi[across] - lo[across];
  const broad = Math.min(SPACER.broad, depth / 2);
  const edge = Math.min(SPACER.fromEdge, depth / 4);
  const fronts = depth < TWO_FROM ? [lo[across] + (depth - broad) / 2] : [lo[across] + edge, hi[across] - edge - broad];
  return fronts.map((front): Box => {
    const corner = (a: Mm, b: Mm, c: Mm): Vec => {
      const made: [Mm, Mm, Mm] = [0, 0, 0];
      made[axis] = a;
      made[across] = b;
      made[up.axis] = up.sign * c;
      return made;
    };
    return boxOf(corner(inner, front, foot), corner(inner - sign * SPACER.thick, front + broad, head));
  });
}

function halfOf([lo, hi]: Box, axis: AxisIndex, sign: 1 | -1): Box {
  const middle = (lo[axis] + hi[axis]) / 2;
  const cut = (vec: Vec): Vec => vec.map((one, i) => (i === axis ? middle : one)) as unknown as Vec;
  return sign > 0 ? [cut(lo), hi] : [lo, cut(hi)];
}

/** Whether two boxes lie over each other, seen along an axis. */
const overlapsFrom = (a: Box, b: Box, along: AxisIndex): boolean =>
  ([0, 1, 2] as const).every(
    (axis) => axis === along || Math.min(a[1][axis], b[1][axis]) - Math.max(a[0][axis], b[0][axis]) > SAME,
  );

/** A bay whose clear size, from this floor, the spacer is as long as. */
const spans = (bay: Bay, over: Box, floor: Mm, height: Mm, up: Up): boolean =>
  isSame(bottomOf(bay, up), floor) && isSame(topOf(bay, up) - floor, height) && overlapsFrom(bay.box, over, up.axis);

/** With no floor under it yet, a group lies on its back, or with every front flush on those; not when it is part of a case that stands. */
function restOf(group: ReadonlySet<string>, { name }: SetAssembly, up: Up, scene: Scene): Rest | null {
  const all = [...group].flatMap((mark) => scene.placed.get(mark) ?? []);
  const ground = lowest(group, up, scene);
  const hasFloor = all.some((one) => one.thick === up.axis && isSame(bottomOf(one, up), ground));
  if (hasFloor || all.some(({ part }) => part.assembly !== name)) return null;
  const back = all.find(({ part }) => part.role === "back");
  if (back !== undefined) return { back: back.part.mark };
  return all.every(({ box }) => isSame(box[0][1], all[0]!.box[0][1])) ? "fronts" : null;
}
