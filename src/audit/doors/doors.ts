/** Doors as they hang: closed, with the gaps or overlaps that are stated; swung, clear of all that stands beside and of each other. */
import type { AxisIndex, Box, Place, Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetCheck, SetDoor, SetPart } from "../../set/schema.ts";
import { casesBehind } from "../frames/behind.ts";
import { around, TOUCH } from "../solids/boxes.ts";
import { placeBox, roomBox, type Solid } from "../solids/solid.ts";
import type { Outline, Point, Swing } from "../solids/turned.ts";
import { amount, failureOf, type Job, nameOf, partsOf } from "../words.ts";
import type { Body } from "./body.ts";
import { clashOf, sweepsMeet } from "./swing.ts";
import { wallsOf } from "./walls.ts";
import { wholeWood } from "./whole-wood.ts";

export type Hung = {
  door: SetDoor;
  assembly: SetAssembly;
  solids: Solid[];
  bodies: Body[];
  whole: Body[]; // the same, undivided
  bounds: Box; // of its wood
  swing: Swing | null;
};

type Side = keyof SetDoor["edges"];
const SIDES: readonly { side: Side; axis: AxisIndex; high: boolean }[] = [
  { side: "left", axis: 0, high: false },
  { side: "right", axis: 0, high: true },
  { side: "below", axis: 2, high: false },
  { side: "above", axis: 2, high: true },
];

export function checkDoors(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const hung = set.doors.flatMap((door) => hungOf(set, door, solids));
  const isHung = (name: string): boolean => set.doors.some(({ assembly }) => assembly === name);
  const still = solids.filter(({ assembly }) => !isHung(assembly.name)).flatMap((solid) => woodOf(set, solid));
  const stillWhole = hung.length === 0 ? [] : wholeWood(still);
  return [
    ...set.doors.filter((door) => !hung.some((one) => one.door === door)).map(missing),
    ...set.assemblies.flatMap((one) => unlisted(one, set)),
    ...hung.flatMap((one) => [
      ...checkClosed(one, hung, still, set),
      ...checkHinges(one, set.job),
      ...checkStick(one, set.job),
      ...checkSwing(one, hung, stillWhole, set),
    ]),
    ...hung.flatMap((one, i) => hung.slice(i + 1).flatMap((other) => checkBothOpen(one, other))),
  ];
}

const missing = ({ assembly }: SetDoor): SetCheck =>
  failureOf(
    "door",
    [],
    `${assembly} is told to hang, but no such door stands in the set. Change: its parts, or leave it out.`,
  );

function unlisted({ name, kind }: SetAssembly, { doors, sliders, tracks }: DryfitSet): SetCheck[] {
  const told = [...doors, ...sliders.flatMap((one) => one.doors), ...tracks.flatMap((one) => one.doors)].some(
    ({ assembly }) => assembly === name,
  );
  if (kind !== "door" || told) return [];
  return [failureOf("door", [], `${name} is a door, but nothing tells how it hangs or slides. Change: say so.`)];
}

export const woodOf = (set: DryfitSet, solid: Solid): Body[] =>
  solid.cells.map((cell) => ({
    part: solid.part,
    words: nameOf(solid.part),
    box: roomBox(solid.assembly, set.assemblies, cell),
  }));

export function hungOf(set: DryfitSet, door: SetDoor, solids: readonly Solid[]): Hung[] {
  const assembly = set.assemblies.find(({ name }) => name === door.assembly);
  const own = solids.filter((solid) => solid.assembly.name === door.assembly);
  if (assembly === undefined || own.length === 0) return [];
  const bodies = own.flatMap((solid) => woodOf(set, solid));
  const bounds = around(bodies.map(({ box }) => box));
  const knob = knobOf(door, assembly);
  const { travel } = assembly;
  const swing =
    travel.kind === "swing"
      ? {
          pivot: [assembly.place.at[0] + travel.pivot[0], assembly.place.at[1] + travel.pivot[1]] as Point,
          from: (Math.min(0, ...travel.range) * Math.PI) / 180,
          to: (Math.max(0, ...travel.range) * Math.PI) / 180,
        }
      : null;
  return [
    {
      door,
      assembly,
      solids: own,
      bodies: [...bodies, ...knob],
      whole: wholeWood([...bodies, ...knob]),
      bounds,
      swing,
    },
  ];
}

/** As far out before the face as it stands, and round: in plan as wide as its diameter. */
export function knobOf({ knob, assembly }: Pick<SetDoor, "knob" | "assembly">, { place }: SetAssembly): Body[] {
  if (knob === null) return [];
  const [x, z] = knob.at;
  const half = knob.diameter / 2;
  const lo: Vec = [x - half, -knob.projection, z - half];
  const hi: Vec = [x + half, 0, z + half];
  return [{ part: null, words: `the knob of ${assembly}`, box: placeBox(place as Place, [lo, hi]) }];
}

/** Whether two boxes share more than a touch on every axis but one. */
const face = (a: Box, b: Box, but: AxisIndex): boolean =>
  ([0, 1, 2] as const).every(
    (axis) => axis === but || Math.min(a[1][axis], b[1][axis]) - Math.max(a[0][axis], b[0][axis]) > TOUCH,
  );

/** Whether what stands round a door was measured, and so is not where it is printed. */
export const isMeasured = ({ case: home }: Pick<SetDoor, "case">, { asBuilt }: DryfitSet): boolean =>
  asBuilt.some(({ assembly }) => assembly === home || assembly.startsWith(`${home} `));

/** Sizes and gaps add up to the opening, are even, and are what the wood leaves. */
function checkClosed(hung: Hung, all: readonly Hung[], still: readonly Body[], set: DryfitSet): SetCheck[] {
  const { job } = set;
  const { door, bounds } = hung;
  const marks = partsOf(hung.solids).map(({ mark }) => mark);
  const { opening, edges } = door;
  const from: Vec = opening.at;
  const to: Vec = [from[0] + opening.width, from[1], from[2] + opening.height];
  const checks: SetCheck[] = [];
  const depth = bounds[door.fit === "inset" ? 0 : 1][1] - opening.at[1];
  if (Math.abs(depth) > TOUCH)
    checks.push(
      failureOf(
        "door",
        marks,
        `${door.assembly} ${door.fit === "inset" ? "is not flush with the front that it is set into" : "does not lie on the front that it closes"}: ${amount(Math.abs(depth), job)} ${depth > 0 ? "behind" : "before"} it. Change: its place.`,
      ),
    );
  const other = all.find(({ door: one }) => one.assembly === door.meets);
  for (const { side, axis, high } of SIDES) {
    const own = bounds[high ? 1 : 0][axis];
    const meets = other !== undefined && axis === 0 && high === (door.hinges.side === "left");
    const edge = meets ? other.bounds[high ? 0 : 1][axis] : high ? to[axis] : from[axis];
    const left = high ? edge - own : own - edge;
    if (Math.abs(left - edges[side]) > TOUCH)
      checks.push(
        failureOf(
          "door-gap",
          marks,
          `${door.assembly} is to ${told(edges[side], job, true)} ${side}, but its size and place make that ${amount(left, job)}. Change: its size, its place, or the figure.`,
        ),
      );
    const least = meets ? door.between : door.fit === "inset" ? door.least : -door.least - job.step;
    const most = meets
      ? door.between + job.step
      : door.fit === "inset"
        ? door.least + job.step
        : -door.least + job.step;
    if (left < least - TOUCH || left > most + TOUCH)
      checks.push(
        failureOf(
          "door-gap",
          marks,
          `${door.assembly} ${told(left, job)} ${side}; ${amount(Math.abs(meets ? door.between : door.least), job)} was asked for, and rounding moves it by at most ${amount(job.step, job)}. Change: its size or its place by ${amount(Math.max(least - left, left - most), job)}.`,
        ),
      );
    if (!meets && !isMeasured(door, set)) checks.push(...checkWood(hung, { side, axis, high }, still, job));
  }
  const beside = all.filter((one) => one !== hung && one !== other);
  for (const one of beside) {
    if (!face(bounds, one.bounds, 0) && !face(bounds, one.bounds, 2)) continue;
    const axis: AxisIndex = face(bounds, one.bounds, 0) ? 0 : 2;
    const gap = Math.max(bounds[0][axis] - one.bounds[1][axis], one.bounds[0][axis] - bounds[1][axis]);
    if (gap >= door.between - TOUCH || all.indexOf(one) < all.indexOf(hung)) continue;
    checks.push(
      failureOf(
        "door-gap",
        [...marks, ...partsOf(one.solids).map(({ mark }) => mark)],
        `${door.assembly} and ${one.door.assembly} ${gap > TOUCH ? `stand ${amount(gap, job)} apart` : `meet, ${amount(-gap, job)} over each other`}; ${amount(door.between, job)} is the least between them. Change: less "overlap", by ${amount((door.between - gap) / 2, job)} or more.`,
      ),
    );
  }
  return checks;
}

/** "leaves 2 mm", "lie 7 mm over the opening's edge" */
const told = (left: Mm, job: Job, plain = false): string => {
  const verb = (one: string): string => (plain ? one : `${one}s`);
  return left < 0
    ? `${verb("lie")} ${amount(-left, job)} over the opening's edge`
    : `${verb("leave")} ${amount(left, job)}`;
};

/** The opening as the wood round it makes it: before an inset door's edges, behind an overlay door's. */
function checkWood(
  { door, bounds, solids }: Hung,
  { side, axis, high }: (typeof SIDES)[number],
  still: readonly Body[],
  job: Job,
): SetCheck[] {
  const own = bounds[high ? 1 : 0][axis];
  const edges = door.fit === "inset" ? insetEdges(bounds, axis, high, still) : overlaidEdges(bounds, axis, high, still);
  const edge = high ? Math.min(...edges) : Math.max(...edges);
  const left = high ? edge - own : own - edge;
  if (Number.isFinite(edge) && Math.abs(left - door.edges[side]) <= TOUCH) return [];
  return [
    failureOf(
      "door-gap",
      partsOf(solids).map(({ mark }) => mark),
      Number.isFinite(edge)
        ? `${door.assembly} is to ${told(door.edges[side], job, true)} ${side}, but by the wood there it ${told(left, job)}. Change: the opening that it is made for, or its place.`
        : `${door.assembly} has no wood ${side} ${door.fit === "inset" ? "beside" : "behind"} it. Change: the opening that it is made for, or its place.`,
    ),
  ];
}

/** Straight before the door's edge, at its own depth. */
const insetEdges = (bounds: Box, axis: AxisIndex, high: boolean, still: readonly Body[]): Mm[] =>
  still
    .filter(({ box }) => face(box, bounds, axis))
    .map(({ box }) => box[high ? 0 : 1][axis])
    .filter((at) => (high ? at >= bounds[1][axis] - TOUCH : at <= bounds[0][axis] + TOUCH));

/**
 * Wood that the door's edge lies against, and how far it goes on inwards: at the middle one of several places along the edge, for at one of
 * them a shelf may begin, or a divider.
 */
function overlaidEdges(bounds: Box, axis: AxisIndex, high: boolean, still: readonly Body[]): Mm[] {
  const along: AxisIndex = axis === 0 ? 2 : 0;
  const behind = still.filter(({ box }) => Math.abs(box[0][1] - bounds[1][1]) <= TOUCH).map(({ box }) => box);
  const start = bounds[high ? 1 : 0][axis];
  const reached = [0.12, 0.31, 0.5, 0.69, 0.88].map((share) => {
    const at = bounds[0][along] + share * (bounds[1][along] - bounds[0][along]);
    const cells = behind.filter((box) => box[0][along] <= at && box[1][along] >= at);
    return wholeFrom(start, cells, axis, high);
  });
  const found = reached.filter((edge) => Math.abs(edge - start) > TOUCH).sort((a, b) => a - b);
  return found.length === 0 ? [] : [found[Math.floor(found.length / 2)]!];
}

/** Where wood ends that goes on without a break from a place inwards; that place itself where there is none. */
function wholeFrom(start: Mm, cells: readonly Box[], axis: AxisIndex, high: boolean): Mm {
  let at = start;
  for (;;) {
    const next = cells.find((box) =>
      high
        ? box[1][axis] >= at - TOUCH && box[0][axis] < at - TOUCH
        : box[0][axis] <= at + TOUCH && box[1][axis] > at + TOUCH,
    );
    if (next === undefined) return at;
    at = next[high ? 0 : 1][axis];
  }
}

/** One groove all round, of one depth. */
function checkStick({ door, solids }: Hung, job: Job): SetCheck[] {
  return solids.flatMap((solid) =>
    solid.channels.flatMap(({ feature: { depth } }) => {
      if (door.stick !== null && Math.abs(depth - door.stick) <= TOUCH) return [];
      return failureOf(
        "door",
        [solid.part.mark],
        `The groove in ${nameOf(solid.part)} is ${amount(depth, job)} deep; ${door.stick === null ? "a door in one piece has none" : `that of ${door.assembly} is ${amount(door.stick, job)} all round`}. Change: its depth, or the width of the part.`,
      );
    }),
  );
}

/** Hinges on the door, apart, and each cup's hole where its hinge is. */
function checkHinges({ door, assembly, solids, swing }: Hung, job: Job): SetCheck[] {
  const { middles, kind, side, size } = door.hinges;
  const height = assembly.size[2];
  const marks = partsOf(solids).map(({ mark }) => mark);
  const checks: SetCheck[] = [];
  const isOff = middles.some((z, i) => z < size / 2 || z > height - size / 2 || (i > 0 && z <= middles[i - 1]!));
  if (middles.length < 2 || isOff)
    checks.push(
      failureOf(
        "door-hinges",
        marks,
        `The ${middles.length} hinges of ${door.assembly} stand ${middles.map((z) => amount(z, job)).join(", ")} from its lower end, and it is ${amount(height, job)} high. Change: two or more, on the door, from below upwards.`,
      ),
    );
  const cups = solids.flatMap(({ holes }) => holes);
  if (kind === "cup") {
    const missed = middles.filter(
      (z) =>
        !cups.some(({ box }) => {
          const [x, at] = [(box[0][0] + box[1][0]) / 2, (box[0][2] + box[1][2]) / 2];
          const isNear = side === "left" ? x < assembly.size[0] / 2 : x > assembly.size[0] / 2;
          const fromEdge = side === "left" ? x : assembly.size[0] - x;
          const isBack = Math.abs(box[1][1] - assembly.size[1]) <= TOUCH;
          return (
            isNear &&
            isBack &&
            Math.abs(fromEdge - (door.hinges.fromEdge ?? 0)) <= TOUCH &&
            Math.abs(at - z) <= TOUCH &&
            Math.abs(box[1][2] - box[0][2] - size) <= TOUCH
          );
        }),
    );
    if (missed.length > 0 || cups.length !== middles.length)
      checks.push(
        failureOf(
          "door-hinges",
          marks,
          `${door.assembly} has ${cups.length} cup holes for ${middles.length} hinges${missed.length > 0 ? `, none at ${missed.map((z) => amount(z, job)).join(", ")} from its lower end at ${amount(door.hinges.fromEdge ?? 0, job)} from its ${side} edge, in the back` : ""}. Change: a hole at each hinge.`,
        ),
      );
  }
  if (swing === null)
    checks.push(
      failureOf("door-hinges", marks, `${door.assembly} has hinges, but does not swing. Change: its travel.`),
    );
  return checks;
}

export const outlineOf = ([lo, hi]: Box): Outline => [
  [lo[0], lo[1]],
  [hi[0], lo[1]],
  [hi[0], hi[1]],
  [lo[0], hi[1]],
];

const overlapUp = (a: Box, b: Box): boolean => Math.min(a[1][2], b[1][2]) - Math.max(a[0][2], b[0][2]) > TOUCH;

/** The deepest clash of a door on its way with each thing that stands still: its case and frame, the other doors closed, their knobs, the walls. */
function checkSwing(hung: Hung, all: readonly Hung[], still: readonly Body[], set: DryfitSet): SetCheck[] {
  const { door, swing, whole, solids } = hung;
  if (swing === null) return [];
  const { job } = set;
  const others = all.filter((one) => one !== hung).flatMap((one) => one.whole);
  const worst = new Map<string, { own: Body; other: Body; angle: number; depth: Mm }>();
  const round = isMeasured(door, set) ? still.filter(({ part }) => !isRound(door, part, set)) : still;
  const knobs = set.sliders
    .flatMap(({ doors }) => doors)
    .flatMap((slider) => knobOf(slider, set.assemblies.find(({ name }) => name === slider.assembly)!));
  for (const other of [...round, ...others, ...knobs, ...wallsOf(set)]) {
    for (const own of whole) {
      if (!overlapUp(own.box, other.box)) continue;
      const clash = clashOf(outlineOf(own.box), outlineOf(other.box), swing);
      const known = worst.get(other.words);
      if (clash !== null && (known === undefined || clash.depth > known.depth))
        worst.set(other.words, { own, other, ...clash });
    }
  }
  return [...worst.values()].map(({ own, other, angle, depth }) =>
    failureOf(
      "door-swing",
      [...partsOf(solids).map(({ mark }) => mark), ...(other.part === null ? [] : [other.part.mark])],
      `${door.assembly} cannot open: ${Math.round((Math.abs(angle) * 1800) / Math.PI) / 10}° open, ${own.words} comes ${amount(depth, job)} into ${other.words}. Change: hinges on the other side, a wider gap, a hinge whose axis stands farther out, less "opens", or ${other.words} farther off.`,
    ),
  );
}

/** Whether a part belongs to what a door was measured to. */
function isRound({ case: home }: SetDoor, part: SetPart | null, { asBuilt, assemblies }: DryfitSet): boolean {
  if (part === null) return false;
  const own = assemblies.find(({ name }) => name === part.assembly)!;
  return (
    part.assembly === home ||
    asBuilt.some(({ assembly }) => assembly === part.assembly) ||
    (own.kind === "frame" && casesBehind(own, assemblies).some(({ name }) => name === home))
  );
}

/** Two doors, each somewhere on its way: they may be hung so, but whoever opens both must know. */
function checkBothOpen(one: Hung, other: Hung): SetCheck[] {
  const [a, b] = [one.swing, other.swing];
  if (a === null || b === null) return [];
  const meets = one.bodies.some((own) =>
    other.bodies.some(
      (body) => overlapUp(own.box, body.box) && sweepsMeet(outlineOf(own.box), a, outlineOf(body.box), b),
    ),
  );
  if (!meets) return [];
  return [
    {
      ...failureOf(
        "doors-meet",
        [...partsOf(one.solids), ...partsOf(other.solids)].map(({ mark }) => mark),
        `${one.door.assembly} and ${other.door.assembly} can meet when both are open: each clears the other closed. Change: hang one on its other side, or put a stop or a soft buffer where they meet.`,
      ),
      level: "warning",
    },
  ];
}
