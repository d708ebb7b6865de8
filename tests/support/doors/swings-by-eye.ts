/**
 * Doors swung as a person would try them on a drawing seen from above: turned by a tenth of a degree at a time, and at every stop held against all that
 * stands still. Blanks, with the tongues of rails, and knobs alone, by corners and their shadows on the sides of each other: nothing of the dry fit's own.
 */
import type { DryfitSet, SetAssembly, SetDoor } from "../../../src/set/schema.ts";

type Block = { what: string; x: [number, number]; y: [number, number]; z: [number, number] };
type Spot = [number, number];

export type Met = { door: string; what: string; depth: number; degrees: number };

const STOPS_A_DEGREE = 10;
const FAR = 5000;

type Range = [number, number];

/** What a part is as a person sees it: its blank, or where its ends are tongues, what lies between their shoulders and the tongues, which the stiles hide. */
function blocksOf(part: DryfitSet["parts"][number], home: SetAssembly): Block[] {
  const whole = { l: [0, part.length], w: [0, part.width], t: [0, part.thickness] } satisfies Record<string, Range>;
  const shoulders = part.features.filter(({ kind, face }) => kind === "shoulder" && face[0] === "t");
  if (shoulders.length === 0) return blockOf(part, home, whole);
  const ends: Range = [0, part.length];
  const tongue: Range = [0, part.thickness];
  for (const { face, box } of shoulders) {
    if (box[0][0] <= 1e-6) ends[0] = Math.max(ends[0], box[1][0]);
    else ends[1] = Math.min(ends[1], box[0][0]);
    if (face === "t0") tongue[0] = Math.max(tongue[0], box[1][2]);
    else tongue[1] = Math.min(tongue[1], box[0][2]);
  }
  return [...blockOf(part, home, { ...whole, l: ends }), ...blockOf(part, home, { ...whole, t: tongue })];
}

/** Of a part, so much along each of its own axes, in the room. */
function blockOf(
  part: DryfitSet["parts"][number],
  { place }: SetAssembly,
  own: Record<"l" | "w" | "t", Range>,
): Block[] {
  if (part.place === null) return [];
  const corner = part.place.at.map((at, i) => at + place.at[i]!);
  const ranges: [Range, Range, Range] = [
    [0, 0],
    [0, 0],
    [0, 0],
  ];
  for (const axis of ["l", "w", "t"] as const) {
    const way = part.place[axis];
    const i = "xyz".indexOf(way[1]!) as 0 | 1 | 2;
    const [low, high] = own[axis];
    ranges[i] = way[0] === "+" ? [corner[i]! + low, corner[i]! + high] : [corner[i]! - high, corner[i]! - low];
  }
  return [{ what: `${part.name} ${part.mark}`, x: ranges[0], y: ranges[1], z: ranges[2] }];
}

function knobOf({ assembly, knob }: SetDoor, { place }: SetAssembly): Block[] {
  if (knob === null) return [];
  const [x, z] = [place.at[0] + knob.at[0], place.at[2] + knob.at[1]];
  const half = knob.diameter / 2;
  return [
    {
      what: `the knob of ${assembly}`,
      x: [x - half, x + half],
      y: [place.at[1] - knob.projection, place.at[1]],
      z: [z - half, z + half],
    },
  ];
}

function wallsOf({ job, assemblies }: DryfitSet): Block[] {
  const cases = assemblies.filter(({ kind }) => kind === "case");
  const low = Math.min(...cases.map(({ place }) => place.at[0]));
  const high = Math.max(...cases.map(({ place, size }) => place.at[0] + size[0]));
  const wall = (what: string, x: [number, number]): Block => ({ what, x, y: [-FAR, FAR], z: [-FAR, FAR] });
  const { left, right } = job.walls;
  return [
    ...(left === null ? [] : [wall("the wall at the left", [low - left - FAR, low - left])]),
    ...(right === null ? [] : [wall("the wall at the right", [high + right, high + right + FAR])]),
  ];
}

const cornersOf = ({ x, y }: Block): Spot[] => [
  [x[0], y[0]],
  [x[1], y[0]],
  [x[1], y[1]],
  [x[0], y[1]],
];

/** How far the one would have to be drawn out of the other, along whichever of their four sides is least. */
function bite(turned: readonly Spot[], still: readonly Spot[], angle: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const way of [0, Math.PI / 2, angle, angle + Math.PI / 2]) {
    const [c, s] = [Math.cos(way), Math.sin(way)];
    const shadow = (spots: readonly Spot[]): number[] => spots.map(([x, y]) => x * c + y * s);
    const [one, other] = [shadow(turned), shadow(still)];
    least = Math.min(least, Math.max(...one) - Math.min(...other), Math.max(...other) - Math.min(...one));
  }
  return least;
}

/** The deepest that each door comes into each thing round it, over 0.02 mm; `reach`: the farthest that anything of a door goes between two looks. */
export function swungByEye(set: DryfitSet): { met: Met[]; reach: number } {
  const home = (name: string): SetAssembly => set.assemblies.find((one) => one.name === name)!;
  const blocks = (door: SetDoor): Block[] => [
    ...set.parts
      .filter(({ assembly }) => assembly === door.assembly)
      .flatMap((part) => blocksOf(part, home(part.assembly))),
    ...knobOf(door, home(door.assembly)),
  ];
  const hung = set.doors.map((door) => ({ door, blocks: blocks(door), travel: home(door.assembly).travel }));
  const fixed = set.parts
    .filter(({ assembly }) => !set.doors.some((door) => door.assembly === assembly))
    .flatMap((part) => blocksOf(part, home(part.assembly)));
  const met: Met[] = [];
  let reach = 0;
  for (const { door, blocks: moving, travel } of hung) {
    if (travel.kind !== "swing") throw new Error(`${door.assembly} does not swing`);
    const at = home(door.assembly).place.at;
    const [px, py] = [at[0] + travel.pivot[0], at[1] + travel.pivot[1]];
    const still = [
      ...fixed,
      ...hung.filter((one) => one.door !== door).flatMap((one) => one.blocks),
      ...wallsOf(set),
    ].filter((one) => moving.some(({ z }) => Math.min(z[1], one.z[1]) - Math.max(z[0], one.z[0]) > 1e-4));
    const [from, to] = [Math.min(...travel.range), Math.max(...travel.range)];
    const count = Math.ceil((to - from) * STOPS_A_DEGREE);
    const worst = new Map<string, Met>();
    for (let stop = 0; stop <= count; stop++) {
      const degrees = from + ((to - from) * stop) / count;
      const angle = (degrees * Math.PI) / 180;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      for (const own of moving) {
        const turned = cornersOf(own).map(
          ([x, y]): Spot => [px + (x - px) * c - (y - py) * s, py + (x - px) * s + (y - py) * c],
        );
        reach = Math.max(
          reach,
          ...turned.map(([x, y]) => (Math.hypot(x - px, y - py) * Math.PI) / 180 / STOPS_A_DEGREE),
        );
        const [xs, ys] = [turned.map(([x]) => x), turned.map(([, y]) => y)];
        for (const other of still) {
          if (Math.min(own.z[1], other.z[1]) - Math.max(own.z[0], other.z[0]) <= 1e-4) continue;
          if (Math.max(...xs) <= other.x[0] || Math.min(...xs) >= other.x[1]) continue;
          if (Math.max(...ys) <= other.y[0] || Math.min(...ys) >= other.y[1]) continue;
          const depth = bite(turned, cornersOf(other), angle);
          if (depth > 0.02 && depth > (worst.get(other.what)?.depth ?? 0))
            worst.set(other.what, { door: door.assembly, what: other.what, depth, degrees });
        }
      }
    }
    met.push(...worst.values());
  }
  return { met, reach };
}
