/** The grooves of sliding doors, above and below: as told, each door seated in its own, hidden beyond the bay. */
import type { Box } from "../../base/geometry.ts";
import { isSame, MM_PER_INCH, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetSliders } from "../../set/schema.ts";
import { around, cutAwayAll, drawnOut, TOUCH } from "../solids/boxes.ts";
import { type Channel, roomBox, type Solid } from "../solids/solid.ts";
import { amount, failure, failureOf, type Job, nameOf } from "../words.ts";
import { isMeasured, woodOf } from "./doors.ts";
import type { Slid } from "./slid.ts";

/** The least that a seated door is held by, and the least wood between two grooves. */
const HELD = { mm: 4, in: (5 / 32) * MM_PER_INCH };
const APART = { mm: 6, in: (15 / 64) * MM_PER_INCH };

type Groove = { slideway: Channel; box: Box };

/** Whether one lies over the other, seen from above. */
const isInPlan = (a: Box, b: Box): boolean =>
  ([0, 1] as const).every((axis) => Math.min(a[1][axis], b[1][axis]) - Math.max(a[0][axis], b[0][axis]) > TOUCH);

/** Each door in its own groove above and below: on the floor of the one, held by the other, with its play in both. */
export function checkSliderGrooves(
  told: SetSliders,
  doors: readonly Slid[],
  solids: readonly Solid[],
  set: DryfitSet,
): SetCheck[] {
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
    others.flatMap((solid) => woodOf(set, solid)).map((body) => body.box),
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
