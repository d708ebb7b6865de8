/** The dry fit: the parts of a set, as printed, put together and looked over. Knows nothing of how they were derived. */
import type { DryfitSet, SetCheck } from "../set/schema.ts";
import { checkAsBuilt, checkFrameStands } from "./cases/as-built.ts";
import { asMeasured } from "./cases/as-measured.ts";
import { checkAppliedBacks, checkEnvelope, checkOuterFaces } from "./cases/envelope.ts";
import { checkFeet } from "./cases/feet.ts";
import { checkDiagonals, checkOpenings } from "./cases/openings.ts";
import { checkPins, checkRows, pinnedEnds } from "./cases/pins.ts";
import { checkSkirting } from "./cases/skirting.ts";
import { checkDoors } from "./doors/doors.ts";
import { checkSliders } from "./doors/sliders.ts";
import { checkTracks } from "./doors/tracks.ts";
import { checkDrawers } from "./drawers/drawers.ts";
import { casesBehind } from "./frames/behind.ts";
import { checkFrameCovers } from "./frames/covers.ts";
import { checkReturns } from "./frames/returns.ts";
import { checkDovetails, dovetailedOf } from "./joints/dovetails.ts";
import { checkDowels } from "./joints/dowels.ts";
import { type Contact, checkFreeEnds, findContacts } from "./joints/ends.ts";
import { checkFasteners } from "./joints/fasteners.ts";
import { checkGrooves, type Housing, housingsOf } from "./joints/grooves.ts";
import { checkJoints, foundJoints } from "./joints/joints.ts";
import { checkLaps, lappedOf } from "./joints/laps.ts";
import { checkOverlaps } from "./joints/overlaps.ts";
import { checkShoulders } from "./joints/shoulders.ts";
import { checkTenons } from "./joints/tenons.ts";
import { checkDrilling } from "./parts/drilling.ts";
import { checkFeatures } from "./parts/features.ts";
import { checkFigures } from "./parts/figures.ts";
import { checkLikeness } from "./parts/likeness.ts";
import { checkNotches } from "./parts/notches.ts";
import { checkSums } from "./parts/sums.ts";
import { checkGroups } from "./plans/groups.ts";
import { checkLayoutWishes } from "./plans/layout-wishes.ts";
import { checkLayouts } from "./plans/layouts.ts";
import { checkOrder } from "./plans/order.ts";
import { checkSettings, isHousing } from "./plans/settings.ts";
import { RULES } from "./rules.ts";
import { Neighbours } from "./solids/neighbours.ts";
import { type Solid, solidsOf } from "./solids/solid.ts";
import { amount, type Job, nameOf } from "./words.ts";
import { checkWorktops } from "./worktops/worktops.ts";

export function dryFit(set: DryfitSet): SetCheck[] {
  const solids = solidsOf(set);
  const near = new Neighbours(solids, set.job.step);
  const housings = housingsOf(solids, near, set.job.step);
  const lapped = [...lappedOf(solids, near), ...dovetailedOf(solids, near)];
  const { contacts, checks: reach } = findContacts(set, solids, housings, lapped, near);
  // What was made to an opening is judged where its members came to stand; what is inside an assembly, as it is printed.
  const measured = asMeasured(set);
  const standing = measured === set ? solids : solidsOf(measured);
  const { checks: overlaps, pairs } = overlapsOf(set, solids, standing);
  const pinned = pinnedEnds(solids);
  const slideways = new Set(solids.flatMap((solid) => solid.slideways.map(({ feature }) => feature)));
  const failures = [
    ...checkFigures(set),
    ...checkFeatures(set),
    ...checkLikeness(set),
    ...overlaps,
    ...checkGrooves(set, solids, near, housings),
    ...checkNotches(set, solids, near),
    ...checkSkirting(set, solids),
    ...checkFeet(set, solids),
    ...reach,
    ...checkFreeEnds(set, solids, housings, contacts, lapped),
    ...checkEnvelope(set, solids),
    ...checkAppliedBacks(set, solids),
    ...checkOuterFaces(set, solids),
    ...checkJoints(set, foundJoints(housings, contacts, pinned, lapped), slideways),
    ...checkPins(set, solids, pinned),
    ...checkRows(set, solids, near),
    ...checkDowels(set, solids, near),
    ...checkLaps(set, solids, near),
    ...checkDovetails(set, solids, lapped),
    ...checkTenons(set, solids, near),
    ...checkFasteners(set, solids),
    ...checkShoulders(set, solids, housings),
    ...checkSums(set, solids, housings),
    ...checkOpenings(set, solids),
    ...checkDiagonals(set, solids),
    ...checkFrameStands(set),
    ...checkFrameCovers(measured, standing),
    ...checkReturns(set, solids),
    ...checkWorktops(set, solids),
    ...checkLayouts(set),
    ...checkLayoutWishes(set),
    ...checkSettings(set),
    ...checkGroups(set),
    ...checkDrilling(set),
    ...checkDrawers(measured, standing),
    ...checkDoors(measured, standing),
    ...checkSliders(measured, standing),
    ...checkTracks(measured, standing),
    ...checkOrder(set, solids, housings),
  ];
  return [
    ...failures,
    ...cleared(set, failures, solids, housings, contacts, pairs),
    ...checkAsBuilt(set),
    ...notes(set.job, housings, contacts),
  ];
}

/** Within an assembly, and under a worktop, which follows no measure, as printed; between two others as measured. */
function overlapsOf(
  set: DryfitSet,
  solids: readonly Solid[],
  standing: readonly Solid[],
): { checks: SetCheck[]; pairs: number } {
  const printed = checkOverlaps(set, solids);
  if (standing === solids) return printed;
  const homeOf = (mark: string): string | undefined => set.parts.find((part) => part.mark === mark)?.assembly;
  const tops = set.assemblies.filter(({ kind }) => kind === "worktop").map(({ name }) => name);
  const isPrinted = ({ parts }: SetCheck): boolean => {
    const homes = [...new Set(parts.map(homeOf))];
    return homes.length === 1 || homes.some((home) => home !== undefined && tops.includes(home));
  };
  const checks = [
    ...printed.checks.filter(isPrinted),
    ...checkOverlaps(set, standing).checks.filter((check) => !isPrinted(check)),
  ];
  return { checks, pairs: printed.pairs };
}

type Looked = [ids: string[], text: string];

/** Of what there is none of, nothing is told. */
const counted = (count: number, tell: () => Looked): Looked[] => (count === 0 ? [] : [tell()]);

/** What was looked at and found good, with the figures that show that it was looked at. */
function cleared(
  set: DryfitSet,
  failures: readonly SetCheck[],
  solids: readonly Solid[],
  housings: readonly Housing[],
  contacts: readonly Contact[],
  pairs: number,
): SetCheck[] {
  const channels = solids.flatMap((solid) => solid.channels);
  const runOuts = channels.reduce((sum, channel) => sum + channel.runOuts.length, 0);
  const notches = solids.reduce((sum, solid) => sum + solid.notches.length, 0);
  const ends = [
    ...(housings.length > 0 ? [`${housings.length} housed`] : []),
    ...(contacts.length > 0 ? [`${contacts.length} butted`] : []),
  ];
  const looked: Looked[] = [
    [["overlap"], `No two parts overlap: ${solids.length} parts, ${pairs} pairs near each other compared box by box.`],
    ...counted(channels.length, () => [
      ["groove-empty", "groove-fill", "run-out", "groove-crossed"],
      `Each of ${channels.length} grooves and rabbets is filled by what enters it${runOuts === 0 ? "" : `, but for ${runOuts} named run-outs`}.`,
    ]),
    ...counted(housings.length, () => [
      ["wall", "groove-width"],
      `Each of ${housings.length} tongues lies at the exact wall of its groove, and each groove is as wide as the thickest reading and the allowance.`,
    ]),
    ...counted(ends.length, () => [
      ["seat", "slip", "reach", "free-end"],
      `Each of ${ends.join(" and ")} ends reaches its seat, within rounding.`,
    ]),
    ...counted(notches, () => [["notch"], `Each of ${notches} notches clears what stands in it, within rounding.`]),
    [["envelope", "flush"], `No part stands out of its case, and none stops short of being flush with it.`],
    ...counted(set.openings.length, () => [
      ["bays"],
      `Each of ${set.openings.length} bays is clear and closed, and its diagonal follows from its width and height.`,
    ]),
    [
      ["feature", "groove-depth", "groove-beside", "whole-steps", "stock", "place", "marks", "pieces"],
      `The figures of ${set.parts.length} parts agree with their shapes, stock and pieces, and are whole steps of ${amount(set.job.step, set.job)}.`,
    ],
  ];
  const grooves = set.parts.flatMap((part) => part.features.filter(isHousing));
  // Where no tool cuts a groove, not every groove has its setting.
  if (grooves.length > 0 && !set.checks.some(({ id, level }) => id === "no-tool" && level === "failure"))
    looked.push([
      ["run", "setting", "fence", "straightedge"],
      `Each of ${grooves.length} grooves and rabbets is cut once, by ${set.settings.length} settings that have its own face, distance, width, depth and ends.`,
    ]);
  looked.push([
    ["pattern", "hand"],
    `Parts of one pattern are alike, and a part without a hand may be made either way round: ${new Set(set.parts.map((part) => part.pattern)).size} patterns.`,
  ]);
  const sums = set.parts.reduce((sum, part) => sum + part.sums.length, 0);
  looked.push(...counted(sums, () => [["sums"], `Each of ${sums} sums of clear size and joints makes the cut size.`]));
  const holes = solids.flatMap((solid) => solid.holes).length;
  if (holes > 0)
    looked.push([
      ["dowel", "pins", "drilling", "fasteners"],
      `Each of ${holes} holes is drilled once, for a dowel in line with its other half or for a pin with its like across the bay.`,
    ]);
  const laps = solids.flatMap((solid) => solid.laps).length;
  if (laps > 0)
    looked.push([
      ["lap"],
      `Each of ${laps} laps is filled by the part that is halved with it, and their faces are flush.`,
    ]);
  const sockets = set.parts.flatMap(({ features }) => features).filter(({ kind }) => kind === "socket").length;
  if (sockets > 0)
    looked.push([
      ["dovetail"],
      `Each of ${sockets} sockets of dovetailed corners is filled by a pin or a tail, at its end and at its root alike, and no tail can be drawn out.`,
    ]);
  const mortises = solids.flatMap((solid) => solid.mortises).length;
  if (mortises > 0)
    looked.push([
      ["tenon", "tenon-wood"],
      `Each of ${mortises} mortises goes on in line in the other member, half of a loose tenon in either; one of each joint is tight, and wood is left round all.`,
    ]);
  if (set.drawers.length > 0)
    looked.push([
      [
        "drawer",
        "drawer-sum",
        "drawer-free",
        "drawer-box",
        "drawer-clearance",
        "drawer-front",
        "drawer-slide",
        "drawer-travel",
      ],
      `Each of ${set.drawers.length} drawers fits its opening with what its slides take, and comes out by their whole length past everything that stands beside it.`,
    ]);
  const swings = set.doors.length;
  if (swings > 0)
    looked.push([
      ["door", "door-gap", "door-swing", "door-hinges"],
      `Each of ${swings} ${swings === 1 ? "door" : "doors"} has its gaps or overlaps all round as stated and even within a rounding step, and opens all the way, clear of case, frame, walls, knobs and the other doors closed: by the arcs of its corners, no angle left out.`,
    ]);
  const slid = set.sliders.flatMap((one) => one.doors).length;
  if (slid > 0)
    looked.push([
      ["slider", "slider-groove", "slider-sum", "slider-travel", "slider-lift", "slider-pull"],
      `Each of ${slid} sliding doors stands in grooves above and below with its play, closes its part of the bay, slides from end to end past the others, and goes in leaning and comes out the same way: by what it sweeps, no place left out.`,
    ]);
  const sliding = set.tracks.flatMap(({ doors }) => doors).length;
  if (sliding > 0)
    looked.push([
      [
        "track",
        "track-length",
        "track-lap",
        "track-meet",
        "track-opening",
        "track-stop",
        "track-way",
        "track-lift",
        "track-bolt",
        "track-guide",
      ],
      `Each of ${sliding} doors on ${set.tracks.length === 1 ? "its track" : "their tracks"} laps its opening as stated, slides from end to end of its way clear of everything beside it, the others and their knobs, by swept boxes, no place left out, and can be lifted on; every bolt of the track is in solid wood, and a guide holds each door wherever it stands.`,
    ]);
  const laid = [...set.sheets, ...set.boards];
  if (laid.length > 0)
    looked.push([
      ["layout"],
      `Each of ${laid.reduce((sum, { parts }) => sum + parts.length, 0)} pieces lies once, whole inside one of ${laid.length} sheets and boards, a kerf from the next.`,
    ]);
  const frames = set.assemblies.filter(({ kind }) => kind === "frame");
  if (frames.length > 0) {
    const behind = frames.map((frame) => casesBehind(frame, set.assemblies));
    const joints = behind.reduce((sum, row) => sum + row.length - 1, 0);
    looked.push([
      ["frame", "frame-cover"],
      `${frames.length === 1 ? "The face frame covers" : `Each of ${frames.length} face frames covers`} the front edges of the sides behind it${joints === 0 ? "" : `, and ${joints === 1 ? "the joint" : `${joints} joints`} of cases that stand side by side`}; it ends level with them and stands out as stated.`,
    ]);
  }
  if (set.returns.length > 0)
    looked.push([
      ["return", "frame"],
      `Each of ${set.returns.length} returns lies on its side, as long as the stile it meets${set.returns.some(({ fit }) => fit === "mitred") ? ", the slopes of each mitre against each other on their whole length" : ""}.`,
    ]);
  if (set.worktops.length > 0) {
    const screws = set.worktops.flatMap((one) => one.screws);
    looked.push([
      ["worktop", "worktop-screw", "worktop-slot", "worktop-fixed", "worktop-boards"],
      `${set.worktops.length === 1 ? "The worktop lies" : "The worktops lie"} on what carries ${set.worktops.length === 1 ? "it" : "them"}; each of ${screws.length} screws goes through wood and ends in it, ${screws.filter(({ front, rear }) => front + rear > 0).length} of them in slots as long as the wood moves there.`,
    ]);
  }
  if (set.joints.length > 0)
    looked.push([
      ["joints"],
      `Each of ${set.joints.length} stated joints is made by the parts with the gaps stated, and no other joint is made.`,
    ]);
  return looked
    .filter(([ids]) => !failures.some((check) => ids.includes(check.id)))
    .map(([ids, text]) => ({ id: ids[0]!, level: "ok", parts: [], text, rule: null, change: null }));
}

/** The largest gap that rounding leaves at a seat, and the loosest groove: to know before the glue, not to mend. */
function notes(job: Job, housings: readonly Housing[], contacts: readonly Contact[]): SetCheck[] {
  const seats = [
    ...housings
      .filter(({ rule }) => rule.fit === "seated")
      .map(({ entering, channel, gap }) => ({ a: entering, b: channel.owner, gap })),
    ...contacts.map(({ entering, receiving, gap }) => ({ a: entering, b: receiving, gap })),
  ];
  const open = seats.filter(({ gap }) => gap > 1e-4);
  const worst = open.reduce<(typeof open)[number] | null>(
    (most, seat) => (most && most.gap >= seat.gap ? most : seat),
    null,
  );
  const checks: SetCheck[] = [];
  if (worst) {
    checks.push({
      id: "rounding",
      level: "note",
      parts: [worst.a.part.mark, worst.b.part.mark],
      text: `Rounding to ${amount(job.step, job)} leaves a gap at ${open.length} of ${seats.length} seats; the largest is ${amount(worst.gap, job)}, ${nameOf(worst.a.part)} in ${nameOf(worst.b.part)}.`,
      rule: RULES.seat ?? null,
      change: "Nothing: close joints at the face that shows.",
    });
  }
  const loosest = housings.reduce<Housing | null>(
    (most, each) => (most && most.loose >= each.loose ? most : each),
    null,
  );
  if (loosest && loosest.loose > 1e-4) {
    checks.push({
      id: "loose",
      level: "note",
      parts: [loosest.entering.part.mark, loosest.channel.owner.part.mark],
      text: `The loosest tongue has ${amount(loosest.loose, job)} in its groove, ${nameOf(loosest.entering.part)} in ${nameOf(loosest.channel.owner.part)}: the allowance, and the spread of the stock's readings.`,
      rule: RULES["groove-width"] ?? null,
      change: "Nothing: test the groove with the part itself.",
    });
  }
  return checks;
}
