/**
 * A case put together from its part drawings: each part turned as its ends, edges and faces are called, and pushed into the
 * grooves that its notes name. The left side stands at the origin; what no groove holds from front to back stands with its front edge in
 * line, and a kick behind the toe space that is notched for it.
 */
import type { AxisIndex, Box, Place, SignedAxis, Vec } from "../../../src/base/geometry.ts";
import { AXES, axisOf, boxToOuter, signOf } from "../../../src/base/geometry.ts";
import type { Face } from "../../../src/set/schema.ts";
import { fixedSeatsOf } from "./fixed-seats.ts";
import type { ReadPart } from "./part/part.ts";

/** `home`: the case it is in, counted from 1. */
export type Placed = { mark: string; name: string; read: ReadPart; place: Place; home: number };
export type PutTogether = { placed: Placed[]; unplaced: string[]; faults: string[] };

export type Turned = {
  mark: string;
  name: string;
  read: ReadPart;
  turn: Omit<Place, "at">;
  /** The low corner, as far as it is known. */
  low: [number | null, number | null, number | null];
  home: number;
};

const WAYS: Record<string, SignedAxis> = {
  left: "-x",
  right: "+x",
  front: "-y",
  back: "+y",
  bottom: "-z",
  lower: "-z",
  top: "+z",
  upper: "+z",
};
const INWARDS: readonly (readonly [RegExp, SignedAxis])[] = [
  [/stretcher/, "-z"],
  [/^left side/, "+x"],
  [/^right side/, "-x"],
  [/^bottom/, "+z"],
  [/^top panel/, "-z"],
  [/^back/, "-y"],
];
const opposite = (axis: SignedAxis): SignedAxis => `${axis[0] === "+" ? "-" : "+"}${axis[1]}` as SignedAxis;

/** "left, right side" is the left side for the first mark, the right side for the second. */
function nameOf(read: ReadPart, i: number): string {
  const names = read.caption.name.split(", ");
  if (names.length !== read.caption.marks.length) return read.caption.name;
  const last = names.at(-1)!;
  return i === names.length - 1 ? last : `${names[i]} ${last.split(" ").slice(1).join(" ")}`;
}

/** Which way a face looks in the case. */
export function wayOf(called: string, name: string): SignedAxis | null {
  const [word] = called.split(" ") as [string];
  if (word !== "inside" && word !== "outside") return WAYS[word] ?? null;
  const inwards = INWARDS.find(([one]) => one.test(name))?.[1];
  if (inwards === undefined) return null;
  return word === "inside" ? inwards : opposite(inwards);
}

const isRightHanded = ([l, w, t]: readonly SignedAxis[]): boolean => {
  const [a, b, c] = [axisOf(l!), axisOf(w!), axisOf(t!)];
  if (new Set([a, b, c]).size !== 3) return false;
  return signOf(l!) * signOf(w!) * signOf(t!) * ((b - a + 3) % 3 === 1 ? 1 : -1) === 1;
};

function turnOf(read: ReadPart, name: string, isFirst: boolean): Omit<Place, "at"> | null {
  const way = (face: Face): SignedAxis | null => {
    const called = read.names[face];
    return called === undefined ? null : wayOf(called, name);
  };
  const [l, w, t] = completed([way("l1"), way("w1"), way("t1")]);
  if (l === undefined || w === undefined || t === undefined) return null;
  if (isRightHanded([l, w, t])) return { l, w, t };
  // Made alike with the one that is drawn, but turned round.
  return isFirst ? null : { l, w: opposite(w), t };
}

const ALL: readonly SignedAxis[] = ["+x", "-x", "+y", "-y", "+z", "-z"];

/** Two ways that are named tell the third; a plain strip of which only the face is named lies level. */
function completed(named: readonly (SignedAxis | null)[]): (SignedAxis | undefined)[] {
  const [l, w, t] = named;
  const ways = l === null && w === null && t !== null ? ["+x" as const, null, t!] : named;
  const missing = ways.indexOf(null);
  if (missing === -1 || ways.lastIndexOf(null) !== missing) return ways.map((way) => way ?? undefined);
  const whole = (one: SignedAxis): SignedAxis[] => ways.map((way) => way ?? one);
  const third = ALL.find((one) => isRightHanded(whole(one)));
  return third === undefined ? [] : whole(third);
}

const sizesOf = ({ caption }: ReadPart): Vec => [caption.length, caption.width, caption.thickness];

/** The part's box at the origin of its own corner, in the case: its low corner there, and its size. */
function boundsOf({ read, turn }: Turned): Box {
  return boxToOuter({ ...turn, at: [0, 0, 0] }, [[0, 0, 0], sizesOf(read)]);
}

/** Something of the part in the case, from the part's low corner. */
function fromLow(part: Turned, box: Box): Box {
  const [low] = boundsOf(part);
  const [lo, hi] = boxToOuter({ ...part.turn, at: [0, 0, 0] }, box);
  return [AXES.map((i) => lo[i] - low[i]) as unknown as Vec, AXES.map((i) => hi[i] - low[i]) as unknown as Vec];
}

export const sizeIn = (part: Turned): Vec => {
  const [lo, hi] = boundsOf(part);
  return AXES.map((i) => hi[i] - lo[i]) as unknown as Vec;
};

const TRUE = 1e-6;

/** How far a loop of figures, each rounded as it is printed, may fail to close: five of the last digit. */
export const CLOSES = { mm: 0.025, in: 0.0025 };

export function putTogether(parts: readonly ReadPart[], unit: "mm" | "in"): PutTogether {
  const within = CLOSES[unit];
  const turned: Turned[] = parts.flatMap((read) =>
    read.caption.marks.flatMap((mark, i): Turned[] => {
      const name = nameOf(read, i);
      const turn = turnOf(read, name, i === 0);
      return turn === null ? [] : [{ mark, name, read, turn, low: [null, null, null], home: 0 }];
    }),
  );
  const lost: string[] = [];
  const seats = turned.flatMap((part) => [
    ...seatsOf(part, turned, lost),
    ...fixedSeatsOf(part, turned, lost),
    ...backSeatsOf(part, turned),
  ]);
  const isPlaced = ({ low }: Turned): boolean => low.every((one) => one !== null);
  const open: string[] = [];
  let home = 0;
  for (const first of turned.filter(({ name }) => name.startsWith("left side"))) {
    if (first.low[0] !== null) continue;
    home += 1;
    first.low = [0, 0, 0];
    settle(seats, open, within);
    for (const kick of turned.filter((one) => one.name.startsWith("kick") && !isPlaced(one)))
      if (nthOf(kick) === nthOf(first)) placeKick(kick, first, turned);
    for (const part of turned) if (isPlaced(part) && part.home === 0) part.home = home;
  }
  if (home === 0) throw new Error("no left side to begin with");
  const placed = turned.filter(isPlaced);
  return {
    placed: placed.map((part) => {
      const [low] = boundsOf(part);
      const at = AXES.map((i) => part.low[i]! - low[i]) as unknown as Vec;
      return { mark: part.mark, name: part.name, read: part.read, place: { ...part.turn, at }, home: part.home };
    }),
    unplaced: parts.flatMap(({ caption }) => caption.marks).filter((mark) => !placed.some((one) => one.mark === mark)),
    faults: [...new Set([...lost, ...open, ...notInLine(seats, within)])],
  };
}

/** Of several made alike, in as many cases made alike, which. */
const nthOf = ({ mark, read }: Turned): number => read.caption.marks.indexOf(mark);

/** Every part that a seat ties to one that stands, until none is left; where two seats tell of one place they must agree. */
function settle(seats: readonly Seat[], faults: string[], within: number): void {
  const set = (part: Turned, axis: AxisIndex, at: number, why: string): boolean => {
    const known = part.low[axis];
    if (known === null) {
      part.low[axis] = at;
      return true;
    }
    if (Math.abs(known - at) > within) faults.push(`${part.mark} does not close along ${"xyz"[axis]}: ${why}`);
    return false;
  };
  for (let moved = true; moved; ) {
    moved = false;
    for (const { part, into, axis, by, why } of seats) {
      const [a, b] = [part.low[axis], into.low[axis]];
      if (b !== null) moved = set(part, axis, b + by, why) || moved;
      else if (a !== null) moved = set(into, axis, a - by, why) || moved;
    }
    if (moved) continue;
    // Nothing holds it from front to back: its front edge is in line with what it goes into.
    const loose = seats.find(({ part, into }) => part.low[1] === null && into.low[1] !== null);
    const back = seats.find(({ part, into }) => part.low[1] !== null && into.low[1] === null);
    if (loose !== undefined) moved = set(loose.part, 1, loose.into.low[1]!, "the front");
    else if (back !== undefined) moved = set(back.into, 1, back.part.low[1]!, "the front");
  }
}

/** What runs from front to back in the groove that it goes into has its front edge in line with that part's. */
const notInLine = (seats: readonly Seat[], within: number): string[] =>
  seats.flatMap(({ part, into, axis, run }) => {
    const [a, b] = [part.low[1], into.low[1]];
    const isBack = [part, into].some(({ read }) => read.notes.some((note) => note.kind === "back"));
    if (isBack || run !== 1 || axis === 1 || a === null || b === null || Math.abs(a - b) <= within) return [];
    return [`the front edges of ${part.mark} and ${into.mark} are not in line`];
  });

/** Behind the toe space of the left side, under the bottom: between the sides, or before them and as wide as the case. */
function placeKick(kick: Turned, side: Turned, all: readonly Turned[]): void {
  const told = side.read.notes.find(
    (note) => note.kind === "notch" && note.corners.some(({ reason }) => reason.includes("toe space")),
  );
  if (told?.kind !== "notch") return;
  const [thick] = sizeIn(side);
  const right = all.find(({ name, low }) => name.startsWith("right side") && low[0] !== null);
  const isBetween = right === undefined || sizeIn(kick)[0] < right.low[0]! - thick / 2;
  const back = told.across.value;
  const at = isBetween ? [thick, back, 0] : [0, back - sizeIn(kick)[1], 0];
  kick.low = AXES.map((i) => kick.low[i] ?? at[i]!) as Turned["low"];
}

/** `run`: the way the groove runs. */
export type Seat = { part: Turned; into: Turned; axis: AxisIndex; run: AxisIndex; by: number; why: string };

/** From the low corner of what receives to that of what enters: along the depth by the floor and the gap, across by the wall that is exact. */
function seatsOf(part: Turned, all: readonly Turned[], faults: string[]): Seat[] {
  const seats: Seat[] = [];
  const size = sizeIn(part);
  const own = part.read.notes
    .filter((note) => note.kind === "seats")
    .filter(({ marks }) => marks === null || marks.includes(part.mark));
  for (const { ends, depth, gap } of own.flatMap((note) => note.seats)) {
    for (const { end, into } of ends) {
      const towards = wayOf(end, part.name);
      for (const mark of into) {
        const receiving = all.find((one) => one.mark === mark);
        if (towards === null || receiving === undefined) {
          faults.push(`${part.mark} goes into ${mark}, which is not there`);
          continue;
        }
        const axis = axisOf(towards);
        const channel = channelFor(part, receiving, axis, signOf(towards), depth);
        if (channel === null) {
          faults.push(`${mark} has no groove for ${part.mark}, ${depth} deep`);
          continue;
        }
        const [lo, hi] = channel.box;
        const why = `${end} in ${mark}`;
        const isUp = signOf(towards) === 1;
        const run = (3 - axis - channel.across) as AxisIndex;
        seats.push({ part, into: receiving, axis, run, by: isUp ? hi[axis] - gap - size[axis] : lo[axis] + gap, why });
        const across = channel.across;
        seats.push({
          part,
          into: receiving,
          axis: across,
          run,
          by: lo[across] - shoulderUnder(part, across, axis, isUp),
          why,
        });
      }
    }
  }
  return seats;
}

/** Behind the front edges of what it goes into, by as much as the words say. */
const backSeatsOf = (part: Turned, all: readonly Turned[]): Seat[] =>
  part.read.notes
    .filter((note) => note.kind === "back")
    .filter(({ marks }) => marks === null || marks.includes(part.mark))
    .flatMap(({ by, behind }) =>
      all
        .filter(({ mark }) => behind.includes(mark))
        .map((into): Seat => ({ part, into, axis: 1, run: 1, by, why: "stands back" })),
    );

/** What a shoulder at that end takes off the lower, left or front face: the tongue lies so much higher. */
function shoulderUnder(part: Turned, across: AxisIndex, axis: AxisIndex, isUp: boolean): number {
  const size = sizeIn(part);
  return part.read.features
    .filter(({ kind }) => kind === "shoulder")
    .map(({ box }) => fromLow(part, box))
    .filter(([lo, hi]) => (isUp ? hi[axis] > size[axis] - TRUE : lo[axis] < TRUE) && lo[across] < TRUE)
    .reduce((sum, [lo, hi]) => sum + hi[across] - lo[across], 0);
}

const holdsAny = (holds: string | null, also: readonly string[], marks: readonly string[]): boolean =>
  [holds, ...also].some((mark) => mark !== null && marks.includes(mark));

/** The groove that is named for the part, or for one made alike, in the face that looks against its end. */
function channelFor(
  part: Turned,
  receiving: Turned,
  axis: AxisIndex,
  sign: 1 | -1,
  depth: number,
): { box: Box; across: AxisIndex } | null {
  const size = sizeIn(receiving);
  const thin = axisOf(part.turn.t);
  const found = receiving.read.features
    .filter(
      ({ kind, holds, also }) =>
        (kind === "groove" || kind === "rabbet") && holdsAny(holds, also, part.read.caption.marks),
    )
    .map(({ box, holds }) => ({ box: fromLow(receiving, box), holds }))
    .filter(({ box: [lo, hi] }) => (sign === 1 ? lo[axis] < TRUE : hi[axis] > size[axis] - TRUE))
    .filter(({ box: [lo, hi] }) => Math.abs(hi[axis] - lo[axis] - depth) < TRUE);
  const own = found.find(({ holds }) => holds === part.mark) ?? found[0];
  return own === undefined ? null : { box: own.box, across: thin };
}
