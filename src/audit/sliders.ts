/** Doors that slide in grooves: as they stand closed, in grooves that are there for them; slid from end to end; leaned in. */
import type { Box } from "../base/geometry.ts";
import { isSame, MM_PER_INCH, type Mm } from "../base/length.ts";
import type { DryfitSet, SetAssembly, SetCheck, SetPart, SetSliders } from "../set/schema.ts";
import { around, cutAwayAll, drawnOut, sharedBox, TOUCH } from "./boxes.ts";
import { type Body, isMeasured, knobOf, woodOf } from "./doors.ts";
import { checkLift } from "./slider-lift.ts";
import { checkPull } from "./slider-pull.ts";
import { type Channel, type Hole, roomBox, type Solid } from "./solid.ts";
import { amount, failure, failureOf, type Job, nameOf, partsOf } from "./words.ts";

type SetSlider = SetSliders["doors"][number];

/** A door in the room, closed. */
export type Slid = {
  slider: SetSlider;
  assembly: SetAssembly;
  parts: SetPart[];
  bodies: Body[]; // wood, and a knob
  bounds: Box; // of its wood
  holes: Hole[]; // in its own coordinates
  thickest: Mm; // of what runs in its grooves
  range: readonly [Mm, Mm];
};

/** The least that a seated door is held by, and the least wood between two grooves. */
const HELD = { mm: 4, in: (5 / 32) * MM_PER_INCH };
const APART = { mm: 6, in: (15 / 64) * MM_PER_INCH };

export function checkSliders(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  return [
    ...strayGrooves(set, solids),
    ...set.sliders.flatMap((told) => {
      const doors = told.doors.flatMap((slider) => slidOf(set, slider, solids));
      if (doors.length < told.doors.length)
        return failureOf(
          "slider",
          [],
          `${told.doors.map(({ assembly }) => assembly).join(", ")} are told to slide in ${told.bay} of ${told.case}, but ${told.doors.length - doors.length} of them stand nowhere or do not slide. Change: their parts and their travel, or leave them out.`,
        );
      const own = new Set(doors.map(({ assembly }) => assembly.name));
      const others = solids.filter(({ assembly }) => !own.has(assembly.name));
      return [
        ...checkGrooves(told, doors, solids, set),
        ...checkSum(told, doors, set.job),
        ...doors.flatMap((door) => checkPull(door, set.job)),
        ...doors.flatMap((door) => checkTravel(told, door, doors, wood(set, others), set.job)),
        ...doors.flatMap((door) => checkLift(told, door, doors, wood(set, others.filter(isFast)), set.job)),
      ];
    }),
  ];
}

const wood = (set: DryfitSet, solids: readonly Solid[]): Body[] => solids.flatMap((solid) => woodOf(set, solid));

/** Hung doors stand open and drawers out while a door is leaned in. */
const isFast = ({ assembly }: Solid): boolean => assembly.kind !== "door" && assembly.kind !== "drawer";

function slidOf(set: DryfitSet, slider: SetSlider, solids: readonly Solid[]): Slid[] {
  const assembly = set.assemblies.find(({ name }) => name === slider.assembly);
  const own = solids.filter((solid) => solid.assembly.name === slider.assembly);
  const travel = assembly?.travel;
  if (assembly === undefined || own.length === 0 || travel?.kind !== "slide" || travel.axis !== "+x") return [];
  const bodies = own.flatMap((solid) => woodOf(set, solid));
  const runs = own.filter(({ part }) => part.role !== "doorPanel");
  return [
    {
      slider,
      assembly,
      parts: partsOf(own),
      bodies: [...bodies, ...knobOf(slider, assembly)],
      bounds: around(bodies.map(({ box }) => box)),
      holes: own.flatMap((solid) => solid.holes),
      thickest: Math.max(...runs.map(({ stock }) => stock.thickest)),
      range: travel.range,
    },
  ];
}

/** A groove that something is to slide in belongs to the doors of a bay. */
function strayGrooves(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const isTold = ({ owner }: Channel): boolean =>
    set.sliders.some(({ above, below }) => [above.mark, below.mark].includes(owner.part.mark));
  return solids.flatMap(({ slideways, part }) =>
    slideways
      .filter((slideway) => !isTold(slideway))
      .map(({ feature }) =>
        failure(
          "slider-groove",
          [part],
          `Something that nothing tells of slides in the groove at ${amount(feature.at, set.job)} on face ${feature.face} of ${nameOf(part)}. Change: say what does.`,
        ),
      ),
  );
}

type Groove = { slideway: Channel; box: Box };

/** Whether one lies over the other, seen from above. */
const isInPlan = (a: Box, b: Box): boolean =>
  ([0, 1] as const).every((axis) => Math.min(a[1][axis], b[1][axis]) - Math.max(a[0][axis], b[0][axis]) > TOUCH);

/** Each door in its own groove above and below: on the floor of the one, held by the other, with its play in both. */
function checkGrooves(told: SetSliders, doors: readonly Slid[], solids: readonly Solid[], set: DryfitSet): SetCheck[] {
  const { job } = set;
  const groovesIn = (mark: string): Groove[] =>
    solids
      .filter(({ part }) => part.mark === mark)
      .flatMap((solid) =>
        solid.slideways
          .map((slideway) => ({ slideway, box: roomBox(solid.assembly, set.assemblies, slideway.box) }))
          .filter(({ box }) => doors.some(({ bounds }) => isInPlan(bounds, box))),
      )
      // A shelf between two bays has grooves on both its faces.
      .filter(({ slideway: { inward } }) => inward === (mark === told.above.mark ? 1 : -1));
  const [above, below] = [groovesIn(told.above.mark), groovesIn(told.below.mark)];
  const marks = [told.above.mark, told.below.mark, ...doors.flatMap(({ parts }) => parts.map(({ mark }) => mark))];
  if (above.length !== 2 || below.length !== 2)
    return [
      failureOf(
        "slider-groove",
        marks,
        `The doors of ${told.bay} of ${told.case} have ${above.length} grooves above and ${below.length} below. Change: two and two.`,
      ),
    ];
  return [
    ...checkTracks(told, { above, below, doors }, job),
    ...doors.flatMap((door) => checkSeat(told, door, { above, below }, job)),
    ...[...above, ...below].flatMap((groove) => [
      ...checkHidden(told, groove, solids, set),
      ...checkStops(told, groove, set),
    ]),
  ];
}

function checkTracks(
  told: SetSliders,
  { above, below, doors }: { above: readonly Groove[]; below: readonly Groove[]; doors: readonly Slid[] },
  job: Job,
): SetCheck[] {
  const faults: string[] = [];
  const say = (is: boolean, words: string): void => {
    if (!is) faults.push(words);
  };
  for (const [grooves, at, { depth }] of [
    [above, "above", told.above],
    [below, "below", told.below],
  ] as const) {
    const [front, rear] = [...grooves].sort((a, b) => a.box[0][1] - b.box[0][1]) as [Groove, Groove];
    [front, rear].forEach(({ box, slideway: { feature } }, i) => {
      const off = box[0][1] - told.tracks[i]!;
      say(Math.abs(off) <= TOUCH, `the groove ${at} lies ${amount(Math.abs(off), job)} off where it is told`);
      say(isSame(feature.width, told.groove), `one ${at} is ${amount(feature.width, job)} wide`);
      say(isSame(feature.depth, depth), `one ${at} is ${amount(feature.depth, job)} deep`);
      const { holds } = feature;
      const isOwn = holds === null || doors.some(({ parts }) => parts.some(({ mark }) => mark === holds));
      say(isOwn, `one ${at} is to hold ${holds}, which does not slide in it`);
    });
    const apart = rear.box[0][1] - front.box[1][1];
    say(Math.abs(apart - told.apart) <= TOUCH, `those ${at} are ${amount(apart, job)} apart`);
    say(apart >= APART[job.unit] - TOUCH, `those ${at} leave ${amount(apart, job)} of wood between them`);
  }
  if (faults.length === 0) return [];
  return [
    failureOf(
      "slider-groove",
      [told.above.mark, told.below.mark],
      `The grooves for the doors of ${told.bay} of ${told.case} are not as told (${amount(told.groove, job)} wide, ${amount(told.above.depth, job)} and ${amount(told.below.depth, job)} deep, ${amount(told.apart, job)} apart): ${[...new Set(faults)].join("; ")}. Change: the grooves, or what is told.`,
    ),
  ];
}

function checkSeat(
  told: SetSliders,
  { slider, bounds, thickest, parts }: Slid,
  { above, below }: { above: readonly Groove[]; below: readonly Groove[] },
  job: Job,
): SetCheck[] {
  const [lo, hi] = bounds;
  const inTrack = (grooves: readonly Groove[]): Groove =>
    [...grooves].sort((a, b) => a.box[0][1] - b.box[0][1])[slider.track]!;
  const [over, under] = [inTrack(above), inTrack(below)];
  const faults: string[] = [];
  const say = (is: boolean, words: string): void => {
    if (!is) faults.push(words);
  };
  const stands = lo[2] - under.box[0][2];
  say(Math.abs(stands) <= TOUCH, `stands ${amount(stands, job)} off the floor of its lower groove`);
  const held = hi[2] - over.box[0][2];
  say(Math.abs(held - told.held) <= TOUCH, `is held above by ${amount(held, job)}, not ${amount(told.held, job)}`);
  say(held >= HELD[job.unit] - TOUCH, `is held above by ${amount(held, job)} alone`);
  const spare = over.box[1][2] - (hi[2] - lo[2]) - under.box[1][2];
  say(
    Math.abs(spare - told.spare) <= TOUCH,
    `has ${amount(spare, job)} to spare lifted, not ${amount(told.spare, job)}`,
  );
  say(spare > TOUCH, "cannot be lifted out of its lower groove");
  for (const { box, slideway } of [over, under]) {
    const [front, rear] = [lo[1] - box[0][1], box[1][1] - hi[1]];
    say(
      Math.abs(front - rear) <= TOUCH,
      `does not stand in the middle of its groove in ${nameOf(slideway.owner.part)}`,
    );
    const play = slideway.feature.width - thickest;
    say(
      Math.abs(play - told.play) <= TOUCH && front > 0,
      `has ${amount(play, job)} of play there, not ${amount(told.play, job)}`,
    );
  }
  if (faults.length === 0) return [];
  return [
    failure(
      "slider",
      [...parts, over.slideway.owner.part, under.slideway.owner.part],
      `${slider.assembly} ${[...new Set(faults)].join("; ")}. Change: its height or place, or the depths of its grooves.`,
    ),
  ];
}

/** A stopped groove ends at the face of what bounds the bay, no more than a rounding step beyond it: as printed, before anything was measured. */
function checkStops(told: SetSliders, { slideway, box }: Groove, set: DryfitSet): SetCheck[] {
  if (isMeasured(told, set)) return [];
  const { owner, feature } = slideway;
  const { job } = set;
  const forward = owner.directions.find(({ axis }) => axis === 0)?.sign === 1;
  const ends = forward ? feature.ends : [feature.ends[1], feature.ends[0]];
  const { at, width } = told.opening;
  const beyond = [at[0] - box[0][0], box[1][0] - at[0] - width];
  return ends.flatMap((end, i) => {
    const over = beyond[i]!;
    if (end !== "square" || (over > -TOUCH && over < job.step + TOUCH)) return [];
    return failure(
      "slider-groove",
      [owner.part],
      `The groove at ${amount(feature.at, job)} on face ${feature.face} of ${nameOf(owner.part)} stops ${amount(Math.abs(over), job)} ${over > 0 ? "beyond" : "short of"} the ${i === 0 ? "left" : "right"} of ${told.bay}. Change: where it stops.`,
    );
  });
}

/** So far before a groove's mouth is looked for the wood that hides it: beyond the play of whatever the part itself is housed in. */
const BEFORE: readonly [Mm, Mm] = [2.5, 3];

/** What of a groove lies beyond the bay is covered, or runs into what bounds the bay. */
function checkHidden(
  { opening, bay }: SetSliders,
  { slideway, box }: Groove,
  solids: readonly Solid[],
  set: DryfitSet,
): SetCheck[] {
  const { owner, inward } = slideway;
  const mouth = box[inward === 1 ? 0 : 1][2];
  const [near, far] = BEFORE;
  const before =
    inward === 1 ? drawnOut(box, 2, mouth - far, mouth - near) : drawnOut(box, 2, mouth + near, mouth + far);
  const [left, right] = [opening.at[0], opening.at[0] + opening.width];
  const beyond = [
    ...(box[0][0] < left - TOUCH ? [drawnOut(before, 0, box[0][0], left)] : []),
    ...(box[1][0] > right + TOUCH ? [drawnOut(before, 0, right, box[1][0])] : []),
  ];
  const others = solids.filter((solid) => solid !== owner && solid.assembly.kind === "case");
  const bare = cutAwayAll(
    beyond,
    wood(set, others).map((body) => body.box),
  );
  if (bare.length === 0) return [];
  const region = around(bare);
  return [
    failure(
      "slider-groove",
      [owner.part],
      `The groove at ${amount(slideway.feature.at, set.job)} on face ${slideway.feature.face} of ${nameOf(owner.part)} is open for ${amount(region[1][0] - region[0][0], set.job)} beyond ${bay}. Change: end it at what bounds the bay.`,
    ),
  ];
}

/** Widths and overlaps make the opening; the outer doors stand against what bounds it. */
function checkSum(told: SetSliders, doors: readonly Slid[], job: Job): SetCheck[] {
  const { opening, overlap } = told;
  const ends = [opening.at[0], opening.at[0] + opening.width] as const;
  const laps = doors.slice(1).map(({ bounds }, i) => doors[i]!.bounds[1][0] - bounds[0][0]);
  const widths = doors.map(({ bounds }) => bounds[1][0] - bounds[0][0]);
  const sum = widths.reduce((all, one) => all + one, 0) - overlap * (doors.length - 1);
  const faults = [
    ...(Math.abs(sum - opening.width) > TOUCH * doors.length
      ? [`their widths less ${amount(overlap, job)} of overlap make ${amount(sum, job)}`]
      : []),
    ...laps.filter((lap) => Math.abs(lap - overlap) > TOUCH).map((lap) => `one lies ${amount(lap, job)} over the next`),
    ...(Math.abs(doors[0]!.bounds[0][0] - ends[0]) > TOUCH || Math.abs(doors.at(-1)!.bounds[1][0] - ends[1]) > TOUCH
      ? ["the outer ones do not stand against the sides of the bay"]
      : []),
  ];
  if (faults.length === 0) return [];
  return [
    failure(
      "slider-sum",
      doors.flatMap(({ parts }) => parts),
      `The doors of ${told.bay} of ${told.case} do not close ${amount(opening.width, job)}: ${[...new Set(faults)].join("; ")}. Change: their widths, or their places.`,
    ),
  ];
}

/** All that a door passes over, slid: against what stands still, the doors of the other groove wherever they are, and those of its own closed. */
function checkTravel(
  told: SetSliders,
  { slider, bodies, bounds, parts, range }: Slid,
  all: readonly Slid[],
  still: readonly Body[],
  job: Job,
): SetCheck[] {
  const swept = (one: Pick<Slid, "range">, box: Box): Box =>
    drawnOut(box, 0, box[0][0] + one.range[0], box[1][0] + one.range[1]);
  // Two grooves: each pair of doors is looked at once, from the left.
  const isLeft = (one: Slid): boolean => all.indexOf(one) < all.findIndex((each) => each.slider === slider);
  const others = all
    .filter((one) => one.slider !== slider && (one.slider.track === slider.track || !isLeft(one)))
    .flatMap((one) =>
      one.bodies.map((body) => ({ ...body, box: one.slider.track === slider.track ? body.box : swept(one, body.box) })),
    );
  const checks: SetCheck[] = [];
  const met = new Map<string, { own: Body; other: Body; shared: Box }>();
  for (const own of bodies)
    for (const other of [...still, ...others]) {
      const shared = sharedBox(swept({ range }, own.box), other.box);
      if (shared !== null && !met.has(other.words)) met.set(other.words, { own, other, shared });
    }
  for (const { own, other, shared } of met.values())
    checks.push(
      failure(
        "slider-travel",
        [...parts, ...(other.part === null ? [] : [other.part])],
        `${slider.assembly} cannot slide by: ${own.words} meets ${other.words}, ${amount(Math.min(...[0, 1, 2].map((i) => shared[1][i]! - shared[0][i]!)), job)} into each other. Change: ${own.part === null || other.part === null ? "a recess instead of a knob, or one that stands out less" : 'more "apart", a groove that goes on, or less travel'}.`,
      ),
    );
  const [left, right] = [told.opening.at[0], told.opening.at[0] + told.opening.width];
  const own = all.filter((one) => one.slider !== slider && one.slider.track === slider.track);
  const low = Math.max(left, ...own.map((one) => one.bounds[1][0]).filter((x) => x <= bounds[0][0] + TOUCH));
  const high = Math.min(right, ...own.map((one) => one.bounds[0][0]).filter((x) => x >= bounds[1][0] - TOUCH));
  const off = Math.max(Math.abs(bounds[0][0] + range[0] - low), Math.abs(bounds[1][0] + range[1] - high));
  if (off > TOUCH)
    checks.push(
      failure(
        "slider-travel",
        parts,
        `${slider.assembly} is told to end ${amount(off, job)} off where the side of its bay, or the next door in its groove, stops it. Change: its travel.`,
      ),
    );
  return checks;
}
