/** Grooves and rabbets, each with what enters it: filled across, down to the floor and along, and tight to the right wall. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck } from "../../set/schema.ts";
import { type GapRule, gapRule } from "../limits.ts";
import { around, cutAwayAll, sharedBox, sharedBoxes, TOUCH, within } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import { type Channel, faceTowards, reachOf, type Solid } from "../solids/solid.ts";
import { amount, channelName, endOf, failure, type Job, nameOf, where } from "../words.ts";

/** What of a part stands in a groove, across it, and how much of its thickness a shoulder has taken there. */
type Tongue = { low: Mm; thickness: Mm; shoulder: Mm };

function tongueIn(solid: Solid, channel: Channel): Tongue {
  const [lo, hi] = around(solid.hull.filter((cell) => sharedBox(cell, channel.box)));
  const thickness = hi[channel.across] - lo[channel.across];
  return { low: lo[channel.across], thickness, shoulder: solid.part.thickness - thickness };
}

/** A part in a groove: its end, the gap it leaves at the floor, and how loose it is across. */
export type Housing = {
  channel: Channel;
  entering: Solid;
  end: Face;
  gap: Mm;
  loose: Mm;
  rule: GapRule;
  tongue: Tongue;
};

const isInChannel = (solid: Solid, channel: Channel): boolean =>
  sharedBox(solid.bounds, channel.box) !== null && sharedBoxes(solid.hull, [channel.box]).length > 0;

/** The part lies in the groove the right way: its thickness across it. Others only cross it, in a groove of their own. */
const fitsAcross = (solid: Solid, channel: Channel): boolean => solid.directions[2].axis === channel.across;

/** The same, but for what its own groove leaves open where it takes in the other's tongue, with the groove across that. */
function entersChannel(solid: Solid, channel: Channel): boolean {
  if (!isInChannel(solid, channel)) return false;
  const own = solid.channels.map(({ box }) => box).filter((box) => sharedBoxes(channel.owner.hull, [box]).length > 0);
  return cutAwayAll(sharedBoxes(solid.hull, [channel.box]), own).length > 0;
}

const floorOf = (channel: Channel): Mm => channel.box[channel.inward === 1 ? 1 : 0][channel.depth];

export function housingsOf(solids: readonly Solid[], near: Neighbours, step: Mm): Housing[] {
  return solids.flatMap((owner) =>
    owner.channels.flatMap((channel) =>
      near
        .of(owner)
        .filter((solid) => fitsAcross(solid, channel) && entersChannel(solid, channel))
        .map((entering) => ({ entering, tongue: tongueIn(entering, channel) }))
        .map(({ entering, tongue }) => ({
          channel,
          tongue,
          entering,
          end: faceTowards(entering, channel.depth, channel.inward),
          gap: (floorOf(channel) - reachOf(entering, channel.depth, channel.inward)) * channel.inward,
          loose: channel.feature.width - tongue.thickness,
          rule: gapRule(entering, channel, step),
        })),
    ),
  );
}

/**
 * A rabbet open above or behind has no second wall: it runs to the edge, wherever rounding left that. What lies in it does not stand out,
 * and stays back from the edge by no more than the play of a groove and one step.
 */
const endsAtEdge = (channel: Channel, entering: Solid, wanted: Mm, step: Mm): boolean => {
  const edge = channel.box[1][channel.across];
  return (
    channel.feature.kind === "rabbet" &&
    isSame(edge, channel.owner.bounds[1][channel.across]) &&
    edge >= entering.bounds[1][channel.across] - TOUCH &&
    channel.feature.width <= wanted + step + TOUCH
  );
};

/** The wall at the entering part's lower, left or front face is exact; width is its thickest reading and the allowance, and nothing else. */
function checkWalls({ channel, entering, tongue }: Housing, job: Job): SetCheck[] {
  const checks: SetCheck[] = [];
  const { across, box, feature, owner } = channel;
  const off = tongue.low - box[0][across];
  const parts = [owner.part, entering.part];
  if (Math.abs(off) > TOUCH) {
    checks.push(
      failure(
        "wall",
        parts,
        `${nameOf(entering.part)} stands ${amount(Math.abs(off), job)} ${off > 0 ? "past" : "short of"} the exact wall of ${channelName(channel, job)}, ${where(box, owner.assembly, job)}: its lower, left or front face must lie on that wall. Change: move the groove by ${amount(Math.abs(off), job)}, or the part.`,
      ),
    );
  }
  const wanted = entering.stock.thickest - tongue.shoulder + owner.assembly.fits.allowance;
  if (!isSame(feature.width, wanted) && !endsAtEdge(channel, entering, wanted, job.step)) {
    checks.push(
      failure(
        "groove-width",
        parts,
        `${channelName(channel, job)} is ${amount(feature.width, job)} wide, but ${nameOf(entering.part)} (thickest reading ${amount(entering.stock.thickest, job)}, allowance ${amount(owner.assembly.fits.allowance, job)}) needs ${amount(wanted, job)}, ${where(box, owner.assembly, job)}. Change: make the groove ${amount(wanted, job)} wide.`,
      ),
    );
  }
  return checks;
}

/** Seated ends rest on the floor but for rounding; a back keeps its slip, and no more than rounding beyond it. */
function checkSeat({ channel, entering, end, gap, rule }: Housing, job: Job): SetCheck[] {
  if (gap >= rule.least - TOUCH && gap <= rule.most + TOUCH) return [];
  const allowed = `${amount(rule.least, job)} to ${amount(rule.most, job)}`;
  const by = gap > rule.most ? gap - rule.most : rule.least - gap;
  const change =
    gap > rule.most ? "lengthen the part or cut the groove less deep" : "shorten the part or cut the groove deeper";
  return [
    failure(
      rule.fit === "slip" ? "slip" : "seat",
      [channel.owner.part, entering.part],
      `The ${endOf(end)} of ${nameOf(entering.part)} leaves ${amount(gap, job)} at the floor of ${channelName(channel, job)}, ${where(channel.box, channel.owner.assembly, job)}; ${allowed} is allowed. Change: ${change} by ${amount(by, job)} or more.`,
    ),
  ];
}

const runOf = (box: Box, axis: AxisIndex): readonly [Mm, Mm] => [box[0][axis], box[1][axis]];

/** The boxes of a groove that no part fills, gaps at the floor, at the loose wall, one step at each end and named run-outs left out. */
function unfilled(channel: Channel, housings: readonly Housing[], step: Mm): Box[] {
  const { box, across, depth, run, inward } = channel;
  const gap = Math.max(...housings.map((housing) => Math.max(housing.gap, housing.rule.most)));
  const floor = floorOf(channel);
  const floorZone = inward === 1 ? within(box, depth, floor - gap, floor) : within(box, depth, floor, floor + gap);
  // The gap at the walls is judged by checkWalls, so a part that lies in the groove counts as filling it across.
  const fill = housings.flatMap(({ entering }) => sharedBoxes(entering.hull, [box]));
  const filled = fill.map((cell): Box => {
    const wide = within(box, run, cell[0][run], cell[1][run]);
    return within(wide, depth, cell[0][depth], cell[1][depth]);
  });
  const [from, to] = runOf(box, run);
  const ends = [within(box, run, from, from + step), within(box, run, to - step, to)];
  const runOuts = channel.runOuts.map(([start, end]) => within(box, run, start - step, end + step));
  return cutAwayAll([box], [...filled, floorZone, ...ends, ...runOuts]).filter(
    (left) => left[1][across] - left[0][across] > TOUCH,
  );
}

function checkFill(channel: Channel, housings: readonly Housing[], set: DryfitSet): SetCheck[] {
  const { job } = set;
  const { owner, run, box } = channel;
  const parts = [owner.part, ...housings.map((housing) => housing.entering.part)];
  const empty = unfilled(channel, housings, job.step);
  const checks: SetCheck[] = [];
  if (empty.length > 0) {
    const region = around(empty);
    checks.push(
      failure(
        "groove-fill",
        parts,
        `${channelName(channel, job)} has ${amount(region[1][run] - region[0][run], job)} of its run that nothing fills, ${where(region, owner.assembly, job)}, and no run-out is named there. Change: stop the groove there, or lengthen ${housings.map((housing) => nameOf(housing.entering.part)).join(", ")}.`,
      ),
    );
  }
  for (const [from, to] of channel.runOuts) {
    const [low, high] = runOf(box, run);
    if (from < low - TOUCH || to > high + TOUCH) {
      checks.push(
        failure(
          "run-out",
          [owner.part],
          `A run-out of ${channelName(channel, job)} lies beyond the groove, ${where(within(box, run, from, to), owner.assembly, job)}. Change: end it with the groove.`,
        ),
      );
    }
    const stretch = within(box, run, from, to);
    for (const { entering } of housings) {
      const inside = sharedBoxes(entering.hull, [stretch]);
      if (inside.length === 0) continue;
      const region = around(inside);
      const length = region[1][run] - region[0][run];
      if (length <= job.step + TOUCH) continue;
      checks.push(
        failure(
          "run-out",
          [owner.part, entering.part],
          `${nameOf(entering.part)} enters ${amount(length, job)} of a run-out of ${channelName(channel, job)} that is to stay empty, ${where(region, owner.assembly, job)}. Change: shorten the part there, or the run-out.`,
        ),
      );
    }
  }
  return checks;
}

/** A part that crosses a groove may do so only inside a groove of its own in the same part, or where the wood is notched away for it. */
function checkCrossings(channel: Channel, near: Neighbours, housings: readonly Housing[], job: Job): SetCheck[] {
  return near
    .of(channel.owner)
    .filter((solid) => !fitsAcross(solid, channel) && isInChannel(solid, channel))
    .flatMap((solid) => {
      const own = housings.filter((housing) => housing.entering === solid && housing.channel.owner === channel.owner);
      const inside = sharedBoxes(solid.cells, [channel.box]);
      // A groove of what lies in this one may run on into it, and what enters that groove with it.
      const tenants = housings.filter((housing) => housing.channel === channel).map(({ entering }) => entering);
      const shared = housings.filter(
        ({ entering, channel: { owner } }) => entering === solid && tenants.includes(owner),
      );
      const free = [...own, ...shared].map((housing) => housing.channel.box);
      // Beside a tenant that is entered in turn lies the play of this groove, which the crossing part bridges.
      const { box, across } = channel;
      const play = housings.filter((housing) => housing.channel === channel).map(({ loose }) => loose);
      if (shared.length > 0) free.push(within(box, across, box[1][across] - Math.max(...play), box[1][across]));
      // Where the wood is notched away, or rabbeted for a tongue, no groove is left to stand in.
      const stray = sharedBoxes(cutAwayAll(inside, free), channel.owner.hull);
      if (stray.length === 0) return [];
      return failure(
        "groove-crossed",
        [channel.owner.part, solid.part],
        `${nameOf(solid.part)} stands in ${channelName(channel, job)} without a groove of its own, ${where(around(stray), channel.owner.assembly, job)}. Change: move the part, or cut it a groove.`,
      );
    });
}

export function checkGrooves(
  set: DryfitSet,
  solids: readonly Solid[],
  near: Neighbours,
  housings: readonly Housing[],
): SetCheck[] {
  const { job } = set;
  return solids.flatMap((owner) =>
    owner.channels.flatMap((channel) => {
      const held = housings.filter((housing) => housing.channel === channel);
      const crossings = checkCrossings(channel, near, housings, job);
      if (held.length === 0) {
        return [
          failure(
            "groove-empty",
            [owner.part],
            `Nothing enters ${channelName(channel, job)}, ${where(channel.box, owner.assembly, job)}. Change: leave the groove out, or put the part that belongs in it where the groove is.`,
          ),
          ...crossings,
        ];
      }
      return [
        ...held.flatMap((housing) => [...checkWalls(housing, job), ...checkSeat(housing, job)]),
        ...checkFill(channel, held, set),
        ...crossings,
      ];
    }),
  );
}
