/** What rounding does, measured on the placed printed parts: no seat opens by a step, and the largest rounding is told as it is. */
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../../src/base/length.ts";
import type { Project } from "../../src/project/project.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { EXAMPLES, exampleFile, projectOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";

const STEPS: readonly [string, number][] = [
  ["1/16 in", MM_PER_INCH / 16],
  ["1/32 in", MM_PER_INCH / 32],
  ["1/64 in", MM_PER_INCH / 64],
  ["0.5 mm", 0.5],
  ["0.1 mm", 0.1],
];
/** So fine that what is printed is as good as exact. */
const FINE = 1e-4;
const NEAR = 1e-3;
/** Lengths are kept in whole grains of 1/320 mm, and one length joins two of them. */
const NEAR_EXACT = 0.01;

const JOBS = [
  ...EXAMPLES.map((name) => [name, exampleFile(name)] as const),
  ...["two-stocks", "readings", "leave", "divider-on-shelf", "stretchers", "bottom-under-top-over"].map(
    (name) => [name, testFile(name)] as const,
  ),
];

type Span = { lo: number; hi: number };
const AXES = ["l", "w", "t"] as const;
const SIZES = { l: "length", w: "width", t: "thickness" } as const;

/** A stretch of one local axis, in the case. */
function placed({ place }: SetPart, axis: "l" | "w" | "t", from: number, to: number): Span & { axis: string } {
  const sign = place![axis][0] === "-" ? -1 : 1;
  const name = place![axis][1]!;
  const at = place!.at["xyz".indexOf(name)]!;
  const [a, b] = [at + sign * from, at + sign * to];
  return { axis: name, lo: Math.min(a, b), hi: Math.max(a, b) };
}

const facesOf = (set: DryfitSet): Map<string, number> =>
  new Map(
    set.parts.flatMap((part) =>
      AXES.flatMap((axis) => {
        const { lo, hi, axis: name } = placed(part, axis, 0, part[SIZES[axis]]);
        return [[`${part.mark} ${name}0`, lo] as const, [`${part.mark} ${name}1`, hi] as const];
      }),
    ),
  );

/** From the entering end to the floor of its groove, both placed. */
function gapAt(entering: SetPart, end: string, receiving: SetPart, groove: SetFeature): number {
  const into = groove.face[0] as "l" | "w" | "t";
  const floor = groove.face[1] === "0" ? groove.depth : receiving[SIZES[into]] - groove.depth;
  const seat = placed(receiving, into, floor, floor);
  const axis = end[0] as "l" | "w" | "t";
  const run = placed(entering, axis, 0, entering[SIZES[axis]]);
  expect(run.axis).toBe(seat.axis);
  const tip = placed(
    entering,
    axis,
    end[1] === "0" ? 0 : entering[SIZES[axis]],
    end[1] === "0" ? 0 : entering[SIZES[axis]],
  ).lo;
  return Math.abs(tip - seat.lo);
}

const withStep = (project: Project, step: number): Project => ({ ...project, step });

const exactSets = new Map<string, DryfitSet>();

/** The set of a job that is as good as not rounded, derived once. */
function exactSetOf(file: string): DryfitSet {
  const known = exactSets.get(file) ?? joinerySet(withStep(projectOf(file), FINE));
  exactSets.set(file, known);
  return known;
}

describe.each(STEPS)("a step of %s", (_, step) => {
  it.each(JOBS)("in %s opens no seat by a step", (_name, file) => {
    const set = joinerySet(withStep(projectOf(file), step));
    const byMark = new Map(set.parts.map((part) => [part.mark, part]));
    let seats = 0;
    for (const joint of set.joints) {
      const receiving = byMark.get(joint.receiving)!;
      const grooves = receiving.features.filter(
        ({ kind, face, holds }) => kind === "groove" && face === joint.receivingFace && holds === joint.entering,
      );
      if (joint.kind !== "housed" || grooves.length !== 1) continue;
      seats += 1;
      const entering = byMark.get(joint.entering)!;
      const gap = gapAt(entering, joint.enteringEnd, receiving, grooves[0]!);
      const slip = joint.fit === "slip" ? set.assemblies.find(({ name }) => name === entering.assembly)!.fits.slip : 0;
      expect(gap - slip).toBeGreaterThan(-NEAR);
      expect(gap - slip).toBeLessThan(step);
      expect(joint.rounding).toBeCloseTo(gap - slip, 5);
      expect(joint.gap[1]).toBeCloseTo(gap, 5);
    }
    expect(seats).toBeGreaterThan(0);
  });

  it.each(JOBS)("in %s: the largest rounding is told as it is found on the parts", (_name, file) => {
    const exact = exactSetOf(file);
    const set = joinerySet(withStep(projectOf(file), step));
    const before = facesOf(exact);
    const moves = [...facesOf(set)].map(([face, at]) => Math.abs(at - before.get(face)!));
    const sizes = set.parts.flatMap((part) => {
      const was = exact.parts.find(({ mark }) => mark === part.mark)!;
      return [Math.abs(part.length - was.length), Math.abs(part.width - was.width)];
    });
    const depths = set.joints.map((joint, i) => Math.abs(joint.depth - exact.joints[i]!.depth));
    const largest = Math.max(...moves, ...sizes, ...depths);
    expect(Math.abs(set.rounding.largest - largest)).toBeLessThan(NEAR_EXACT);
    expect(set.rounding.mark === null).toBe(largest < NEAR_EXACT);
  });
});
