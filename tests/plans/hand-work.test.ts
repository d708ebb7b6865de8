/**
 * Hand work, by another route than its plan: where wood is left beside the end of a groove, a round cutter has left its corners to the
 * chisel; where a corner of the panel is gone, a saw has taken it. Each such feature is told once, with its figures and its words.
 */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { lengthOf } from "../../src/base/parse-length.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { EXAMPLES, exampleFile, projectOf, testFile } from "../support/jobs/examples.ts";
import { madeProjects } from "../support/jobs/made-projects.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { runs, SEED } from "../support/runs.ts";

type Point = [number, number, number];
const AXES = ["l", "w", "t"] as const;
const HAIR = 0.01; // mm: beside a wall, just inside or just outside
const WRITTEN = 0.013; // mm: a figure is written to 0.01 mm or 0.001 in

/** The bare panel, in the part's own axes: what is left of the blank without its lippings, all of them or those still to come. */
function panelOf(part: SetPart, isOff: (lipped: "before" | "after") => boolean): [Point, Point] {
  const lo: Point = [0, 0, 0];
  const hi: Point = [part.length, part.width, part.thickness];
  for (const { edge, thickness } of part.lippings.filter((one) => isOff(one.lipped))) {
    const axis = AXES.indexOf(edge[0] as "l");
    if (edge[1] === "0") lo[axis]! += thickness;
    else hi[axis]! -= thickness;
  }
  return [lo, hi];
}

const isIn = ([lo, hi]: readonly [readonly number[], readonly number[]], point: Point): boolean =>
  point.every((at, i) => at > lo[i]! && at < hi[i]!);

/** Points just beyond an end of a groove's run, at its floor, one beside either wall. */
function pointsBeyond({ face, along, box: [lo, hi] }: SetFeature, end: 0 | 1): Point[] {
  const run = AXES.indexOf(along);
  const deep = AXES.indexOf(face[0] as "l");
  const across = 3 - run - deep;
  return [lo[across]! + HAIR, hi[across]! - HAIR].map((at) => {
    const point: Point = [0, 0, 0];
    point[across] = at;
    point[run] = end === 0 ? lo[run]! - HAIR : hi[run]! + HAIR;
    point[deep] = face[1] === "0" ? hi[deep]! - HAIR : lo[deep]! + HAIR;
    return point;
  });
}

/** Ends of a groove at which wood is left when it has just been cut. */
function blindEnds(part: SetPart, feature: SetFeature): (0 | 1)[] {
  const panel = panelOf(part, (lipped) => lipped === "after");
  const others = part.features.filter((other) => other !== feature && other.kind !== "hole");
  return ([0, 1] as const).filter((end) =>
    pointsBeyond(feature, end).some((point) => isIn(panel, point) && !others.some(({ box }) => isIn(box, point))),
  );
}

/** A corner that is gone right through the thickness, of the panel and not of its lipping alone. */
function isCornerGone(part: SetPart, { box: [lo, hi] }: SetFeature): boolean {
  const size = [part.length, part.width, part.thickness];
  const isThrough = lo[2] < HAIR && hi[2] > part.thickness - HAIR;
  const atLow = [0, 1].map((axis) => lo[axis]! < HAIR);
  const atHigh = [0, 1].map((axis) => hi[axis]! > size[axis]! - HAIR);
  const isCorner = [0, 1].every((axis) => atLow[axis] !== atHigh[axis]!) || touchesNotch(part, lo, hi);
  const inner: Point = [atLow[0] ? hi[0] - HAIR : lo[0] + HAIR, 0, part.thickness / 2];
  const panel = panelOf(part, () => true);
  const isNearFront = lo[1] + hi[1] < part.width;
  inner[1] = isNearFront ? hi[1] - HAIR : lo[1] + HAIR;
  return isThrough && isCorner && isIn(panel, inner);
}

/** Behind a corner that a lipping leaves open, the panel's own corner begins. */
const touchesNotch = (part: SetPart, lo: readonly number[], hi: readonly number[]): boolean =>
  part.lippings.some(({ edge, thickness }) =>
    edge === "w0"
      ? Math.abs(lo[1]! - thickness) < HAIR
      : edge === "w1" && Math.abs(hi[1]! - part.width + thickness) < HAIR,
  ) && [lo[0]! < HAIR, hi[0]! > part.length - HAIR].includes(true);

const isCutByHand = (part: SetPart, feature: SetFeature): boolean =>
  ["shape", "edge", "mitre", "slot", "socket", "mortise", "stub mortise"].includes(feature.kind) ||
  isLeftByMachines(part, feature);

const isLeftByMachines = (part: SetPart, feature: SetFeature): boolean =>
  feature.kind === "groove" || feature.kind === "rabbet"
    ? blindEnds(part, feature).length > 0
    : !["hole", "shoulder", "lap"].includes(feature.kind) && isCornerGone(part, feature);

/** Features that the plan tells of otherwise than once, or once without need. */
function untold(set: DryfitSet): string[] {
  return set.parts.flatMap((part) =>
    part.features.flatMap((feature, i) => {
      const told = set.handWork.filter(({ mark, features }) => mark === part.mark && features.includes(i)).length;
      const times = set.handWork
        .filter(({ mark }) => mark === part.mark)
        .flatMap(({ features }) => features)
        .filter((index) => index === i).length;
      const wanted = isCutByHand(part, feature) ? 1 : 0;
      return told === wanted && times === wanted ? [] : [`${part.mark} ${feature.kind} ${i}: ${times} for ${wanted}`];
    }),
  );
}

/** The end or edge of the part that lies nearest to a point of it, as one says it of the part in its place. */
function sideNear(part: SetPart, axis: 0 | 1, at: number): string {
  const signed = [part.place!.l, part.place!.w][axis]!;
  const size = [part.length, part.width][axis]!;
  const isHigh = at > size / 2 === (signed[0] === "+");
  const names = { x: ["left", "right"], y: ["front", "back"], z: ["bottom", "top"] }[signed[1] as "x" | "y" | "z"];
  return `${names[isHigh ? 1 : 0]} ${axis === 0 ? "end" : "edge"}`;
}

const numbers = (text: string): string[] => text.match(/\d+/g) ?? [];

/** What is said of stopped grooves against their own numbers: who enters each, and which ends or edges they stop short of. */
function badStops(set: DryfitSet): string[] {
  return set.handWork.flatMap(({ mark, features, text }) => {
    const said =
      /^Square the (groove|rabbet)s? for (.+) with a chisel where (?:it stops|they stop) short of the (.+)\.$/.exec(
        text,
      );
    if (said === null) return [];
    const part = set.parts.find((one) => one.mark === mark)!;
    return features.flatMap((index) => {
      const feature = part.features[index]!;
      const run = AXES.indexOf(feature.along) as 0 | 1;
      const sides = blindEnds(part, feature).map((end) => sideNear(part, run, feature.box[end][run]));
      const isRight =
        said[1] === feature.kind && numbers(said[2]!).includes(feature.holds!) && sides.join(" and ") === said[3];
      return isRight ? [] : [`${mark}: ${text}`];
    });
  });
}

/** What is said of notches against their own numbers: the corner, how far in each way, and whose groove is cleared or why. */
function badNotches(set: DryfitSet): string[] {
  return set.handWork.flatMap(({ mark, features, text }) => {
    const said =
      /^Notch (the corner|both corners) at the (.+?), (.+?): (.+?) in from the (end|edge), (.+?) in from the (end|edge), (?:for (?:the (.+))|to clear the stopped grooves? in (.+))\.$/.exec(
        text,
      );
    if (said === null) return [];
    const part = set.parts.find((one) => one.mark === mark)!;
    const [, corners, one, others, deep, deepFrom, wide, wideFrom, reason, cleared] = said;
    const given = Object.fromEntries([
      [deepFrom, lengthOf(deep!, set.job.unit)],
      [wideFrom, lengthOf(wide!, set.job.unit)],
    ]);
    return features.flatMap((index) => {
      const {
        box: [lo, hi],
        holds,
        reason: why,
      } = part.features[index]!;
      const sides = ([0, 1] as const).map((axis) => sideNear(part, axis, (lo[axis] + hi[axis]) / 2));
      const isRight =
        Math.abs(given.end! - (hi[0] - lo[0])) < WRITTEN &&
        Math.abs(given.edge! - (hi[1] - lo[1])) < WRITTEN &&
        sides.includes(one!) &&
        sides.some((side) => side !== one && others!.split(" and ").includes(side)) &&
        corners === (features.length === 1 ? "the corner" : "both corners") &&
        (holds === null ? reason === why : numbers(cleared!).includes(holds));
      return isRight ? [] : [`${mark}: ${text}`];
    });
  });
}

const unread = (set: DryfitSet): string[] =>
  set.handWork
    .map(({ text }) => text)
    .filter(
      (text) =>
        !/^(Square the|Notch|Tails at the|Pins at the|Upper edges,|Cut out of the|Mortises? in the|Rip the|Drill (the holes|both ends of each slot) for the screws of) /.test(
          text,
        ),
    );

/** What is said of a shaped edge against its own numbers: where it begins, how wide and how high it is. */
const badShapes = (set: DryfitSet): string[] =>
  set.handWork.flatMap(({ mark, features, text }) => {
    const said = /^Cut out of the .+ edge, (.+?) from the .+ end: (?:an arch )?(.+?) wide and (.+?) high[,.]/.exec(
      text,
    );
    if (said === null) return [];
    const { from, to, depth } = set.parts.find((one) => one.mark === mark)!.features[features[0]!]!;
    const figures = said.slice(1).map((figure) => lengthOf(figure, set.job.unit));
    return [from, to - from, depth].every((wanted, i) => Math.abs(wanted - figures[i]!) < WRITTEN)
      ? []
      : [`${mark}: ${text}`];
  });

/** What is said of moulded edges against their own numbers: which they are, by which bit, and its radius. */
const badEdges = (set: DryfitSet): string[] =>
  set.handWork.flatMap(({ mark, features, text }) => {
    const said = /^Upper edges, (.+?): (roundover|chamfer|ogee) bit, (?:radius )?(.+?), with a bearing/.exec(text);
    if (said === null) return [];
    const part = set.parts.find((one) => one.mark === mark)!;
    const own = features.map((index) => part.features[index]!);
    const [, sides, shape, radius] = said;
    const near = own.map(({ face, box: [lo, hi] }) => {
      const axis = face[0] === "l" ? 0 : 1;
      return sideNear(part, axis, (lo[axis] + hi[axis]) / 2);
    });
    const isRight =
      [...near].sort().join() ===
        sides!
          .split(/, | and /)
          .sort()
          .join() &&
      own.every(({ kind, reason, depth }) => {
        const takes = lengthOf(radius!, set.job.unit) * (shape === "ogee" ? 2 : 1);
        return kind === "edge" && reason === shape && Math.abs(takes - depth) < WRITTEN;
      });
    return isRight ? [] : [`${mark}: ${text}`];
  });

/** How wide a mitred part is left on one of its broad faces, by the corners of what is sawn off it. */
function widthLeft(part: SetPart, { outline }: SetFeature, face: "t0" | "t1"): number {
  const level = face === "t0" ? 0 : part.thickness;
  const off = outline.filter(([, t]) => Math.abs(t - level) < HAIR).map(([w]) => w);
  return part.width - (Math.max(...off) - Math.min(...off));
}

/** The broad face that the point of a mitre must be on: of a stile the one to the front, of a return the one away from its case. */
function pointFace(set: DryfitSet, part: SetPart): "t0" | "t1" {
  const { side, stile } = set.returns.find((one) => one.mark === part.mark || one.stile === part.mark)!;
  const wanted = stile === part.mark ? "-y" : side === "left" ? "-x" : "+x";
  expect(part.place!.t[1]).toBe(wanted[1]);
  return part.place!.t === wanted ? "t1" : "t0";
}

/**
 * What is said of mitres against their own numbers: the edge, how wide the part is left on either face, and how it goes through the saw. Its other
 * edge runs along the fence; with the wider face up the blade comes through the table where the lower, narrower face ends.
 */
const badMitres = (set: DryfitSet): string[] =>
  set.handWork.flatMap(({ mark, features, text }) => {
    const said =
      /^Rip the (.+? edge) at 45°, after every other cut: (.+?) wide to the point, on the (.+? face), (.+?) on the (.+? face)\. The (.+? edge) against the fence, the (.+? face) up, the fence (.+?) from the blade at the table\. .*The blade tilts away from the fence, never over it: .*Guard and riving knife on, a push stick .*The saw's manual comes first\.$/.exec(
        text,
      );
    if (said === null) return text.startsWith("Rip the ") ? [`${mark}: ${text}`] : [];
    const part = set.parts.find((one) => one.mark === mark)!;
    const feature = part.features[features[0]!]!;
    const [, edge, wide, longer, narrow, shorter, opposite, up, fence] = said;
    const point = pointFace(set, part);
    const [onPoint, onOther] = [
      widthLeft(part, feature, point),
      widthLeft(part, feature, point === "t0" ? "t1" : "t0"),
    ];
    const isHigh = feature.face === "w1";
    const isRight =
      features.length === 1 &&
      edge === sideNear(part, 1, isHigh ? part.width : 0) &&
      opposite === sideNear(part, 1, isHigh ? 0 : part.width) &&
      onPoint - onOther > WRITTEN &&
      part.inside !== point &&
      longer === "outside face" &&
      shorter === "inside face" &&
      up === longer &&
      [
        [wide, onPoint],
        [narrow, onOther],
        [fence, onOther],
      ].every(([figure, is]) => Math.abs(lengthOf(figure as string, set.job.unit) - (is as number)) < WRITTEN);
    return isRight ? [] : [`${mark}: ${text}`];
  });

/** What is said of mortises against their own numbers: how wide and deep they are, from where to where each goes, and for whom. */
const badMortises = (set: DryfitSet): string[] =>
  set.handWork.flatMap(({ mark, features, text }) => {
    const said = /^Mortises? in the (.+?), (.+?) wide.*?, ([^,;]+?) deep[,;].* from the (.+?): (.+)\.$/.exec(text);
    if (said === null) return [];
    const part = set.parts.find((one) => one.mark === mark)!;
    const [, , wide, deep, , places] = said;
    const each = places!.split("; ");
    const isRight = features.every((index, i) => {
      const { width, depth, from, to, holds } = part.features[index]!;
      const [, low, high, mate] = /^(.+?) to (.+?)(?:, tight,|, slotted,)? for .* (\d+)$/.exec(each[i] ?? "") ?? [];
      return (
        mate === holds &&
        [
          [wide, width],
          [deep, depth],
          [low, from],
          [high, to],
        ].every(([figure, is]) => Math.abs(lengthOf(figure as string, set.job.unit) - (is as number)) < WRITTEN)
      );
    });
    return isRight && each.length === features.length ? [] : [`${mark}: ${text}`];
  });

/** Tails or pins of an end against its own numbers: which part meets it there, and how deep. */
const badDovetails = (set: DryfitSet): string[] =>
  set.handWork.flatMap(({ mark, features, text }) => {
    const said = /^(Tails|Pins) at the (.+? end) for .+ (\d+): .+, baseline (.+?) from the end, /.exec(text);
    if (said === null) return /^(Tails|Pins) at/.test(text) ? [`${mark}: ${text}`] : [];
    const part = set.parts.find((one) => one.mark === mark)!;
    const own = features.map((index) => part.features[index]!);
    const isRight = own.every(
      ({ kind, axis, face, holds, depth }) =>
        kind === "socket" &&
        (axis === "t") === (said[1] === "Tails") &&
        sideNear(part, 0, face === "l0" ? 0 : part.length) === said[2] &&
        holds === said[3] &&
        Math.abs(depth - lengthOf(said[4]!, set.job.unit)) < WRITTEN,
    );
    return isRight ? [] : [`${mark}: ${text}`];
  });

const wrong = (set: DryfitSet): string[] => [
  ...untold(set),
  ...badStops(set),
  ...badNotches(set),
  ...badShapes(set),
  ...badEdges(set),
  ...badMitres(set),
  ...badMortises(set),
  ...badDovetails(set),
  ...unread(set),
];

describe.each([
  ...EXAMPLES.map((name) => [name, exampleFile(name)] as const),
  ...readdirSync(new URL("../projects", import.meta.url))
    .sort()
    .map((file) => file.replace(".json", ""))
    .map((name) => [name, testFile(name)] as const),
])("%s", (_, file) => {
  it("tells each stopped end and each sawn corner once, as it is", () => {
    expect(wrong(joinerySet(projectOf(file)))).toEqual([]);
  });
});

it("random cases tell each stopped end and each sawn corner once, as it is", () => {
  let told = 0;
  for (const { set, file } of madeProjects(runs(300), SEED)) {
    told += set.handWork.length;
    const found = wrong(set);
    expect(found, found.length > 0 ? file.text : "").toEqual([]);
  }
  expect(told).toBeGreaterThan(150);
});

describe("worked by hand: a bookcase whose sides' grooves stop, with a toe notch", () => {
  const set = joinerySet(projectOf(exampleFile("ware-bookcase")));
  const told = (mark: string): string[] => set.handWork.filter((one) => one.mark === mark).map(({ text }) => text);

  // The back's groove ends 5 mm into the top panel's, as deep: nothing is left to square there.
  it("says it of the left side", () => {
    expect(told("1")).toEqual([
      "Square the grooves for 3, 5, 6, 7, 8 and 4 with a chisel where they stop short of the front edge.",
      "Notch the corner at the front edge, bottom end: 80 mm in from the end, 40 mm in from the edge, for the toe space of the kick.",
    ]);
  });

  it("and of a shelf", () => {
    expect(told("5")).toEqual([
      "Notch both corners at the front edge, left end and right end: 6 mm in from the end, 15 mm in from the edge, to clear the stopped grooves in left side 1 and right side 2.",
    ]);
  });
});
