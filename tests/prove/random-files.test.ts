/** Over random project files: most can be made, and then the independent dry fit finds nothing; the others are refused for a known reason. */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { boxSize } from "../../src/base/geometry.ts";
import { SAME } from "../../src/base/length.ts";
import { planAssemblies, planOpenings } from "../../src/plans/assemblies.ts";
import { planJointList } from "../../src/plans/joint-list.ts";
import { planParts } from "../../src/plans/parts.ts";
import { planPieces } from "../../src/plans/pieces.ts";
import { planModels } from "../../src/plans/set.ts";
import { NO_WISHES } from "../../src/plans/sheets/wishes.ts";
import { tidy } from "../../src/plans/tidy.ts";
import type { Project } from "../../src/project/project.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { spanFaults } from "../support/checks/clear-spans.ts";
import { likenessFaults } from "../support/checks/told-apart.ts";
import { WORDS, wordsOf } from "../support/jobs/coverage.ts";
import { KNOWN_REASONS, reasonOf } from "../support/jobs/known-reasons.ts";
import { type Outcome, outcomeOf } from "../support/jobs/outcome.ts";
import { inOtherUnit, type RandomFile, randomFile } from "../support/jobs/random-file.ts";
import { IS_WHOLE, runs, SEED, tell } from "../support/runs.ts";

const FILES = 2000;
const LEAST_EACH = 50; // of every word in the whole; a tenth of it in a tenth

type Tried = { file: RandomFile; outcome: Outcome };
let tried: Tried[];

beforeAll(() => {
  tried = fc
    .sample(randomFile, { numRuns: runs(FILES), seed: SEED })
    .map((file) => ({ file, outcome: outcomeOf(file.text) }));
}, 1_200_000);

const made = (): { file: RandomFile; outcome: Outcome & { kind: "made" } }[] =>
  tried.flatMap(({ file, outcome }) => (outcome.kind === "made" ? [{ file, outcome }] : []));

describe("random project files", () => {
  it("can be made in at least four of five cases, and the dry fit then finds nothing", () => {
    const failing = made().filter(({ outcome }) => outcome.failures.length > 0);
    const unknown = failing.filter(({ outcome }) => outcome.failures.some((check) => reasonOf(check) === null));
    expect(
      unknown.slice(0, 3).map(({ file, outcome }) => [outcome.failures.map(({ text }) => text), file.text]),
    ).toEqual([]);
    expect(made().length - failing.length).toBeGreaterThanOrEqual(0.8 * tried.length);
  });

  it("are refused, where they are, for a reason that is known and that the message names", () => {
    const counts = new Map<string, number>(KNOWN_REASONS.map(({ name }) => [name, 0]));
    const unknown: string[] = [];
    for (const { outcome, file } of tried) {
      const said = outcome.kind === "refused" ? outcome.problems : outcome.failures;
      const reasons = said.map(reasonOf);
      for (const name of new Set(reasons)) if (name !== null) counts.set(name, counts.get(name)! + 1);
      said.forEach((one, i) => {
        if (reasons[i] === null) unknown.push(`${"found" in one ? one.found : one.text}\n${file.text}`);
      });
    }
    tell(
      `Refused, of ${tried.length}`,
      [...counts].filter(([, count]) => count > 0),
    );
    expect(unknown.slice(0, 3)).toEqual([]);
  });

  it("show every joint, base, back, top and stop", () => {
    const counts = new Map(
      Object.entries(WORDS).flatMap(([heap, words]) => words.map((word) => [`${heap}: ${word}`, 0])),
    );
    for (const { outcome } of made()) {
      for (const word of wordsOf(outcome.project, outcome.set)) counts.set(word, (counts.get(word) ?? 0) + 1);
    }
    tell(`Coverage, of ${made().length} made`, [...counts]);
    const least = IS_WHOLE ? LEAST_EACH : 1;
    expect([...counts].filter(([, count]) => count < least)).toEqual([]);
  });

  it("have every check told in full, its rule and what to change, and every setting of theirs within reach", () => {
    for (const { outcome } of made()) {
      for (const { id, level, text, rule, change } of outcome.set.checks) {
        expect(`${text} ${rule} ${change}`).not.toMatch(/NaN|undefined|Infinity/);
        expect([id, rule === null, change === null]).toEqual([id, false, level === "ok"]);
        expect([id, level]).not.toEqual(["tool-reach", "failure"]);
      }
    }
  });

  it("span from what carries them to what carries them, and never farther than they are long", () => {
    const looked = made().map(({ outcome }) => spanFaults(outcome.set));
    tell("Clear stretches", [["looked over", looked.reduce((sum, { spans }) => sum + spans, 0)]]);
    expect(looked.flatMap(({ faults }) => faults)).toEqual([]);
  });

  it("say of look-alikes what is so, on labels and among the checks alike", () => {
    const looked = made().map(({ outcome }) => likenessFaults(outcome.set));
    tell("Look-alikes", [["told", looked.reduce((sum, { told }) => sum + told, 0)]]);
    expect(looked.flatMap(({ faults }) => faults)).toEqual([]);
  });

  it("mean the same in inches and in millimetres, with the same step", () => {
    for (const { file, outcome } of made()) {
      const { project } = readProjectText(JSON.stringify(inOtherUnit(file.data)), "random.json");
      expect(rounded(figuresOf(project))).toEqual(rounded(figuresIn(outcome.set)));
    }
  });

  it("are printed in whole steps, and every printed length is a whole multiple of 3.125 micrometres", () => {
    const off: string[] = [];
    for (const { outcome } of made()) {
      const { step } = outcome.project;
      for (const part of outcome.set.parts) {
        for (const length of [part.length, part.width, ...part.features.flatMap((one) => setOut(part, one))]) {
          const isWhole = (of: number, within: number): boolean =>
            Math.abs(length / of - Math.round(length / of)) < within;
          if (!isWhole(step, 1e-4) || !isWhole(1 / 320, 1e-3)) off.push(`${part.name} ${length}, step ${step}`);
        }
      }
    }
    expect(off).toEqual([]);
  });

  it("come out mirrored when they are put in mirrored", () => {
    for (const { file, outcome } of made()) {
      const cases = file.data.cases as Record<string, unknown>[];
      if (cases.length > 1 || cases[0]!.quantity !== undefined) continue;
      const straight = planModels(outcome.project, null).exact.assemblies.find(({ kind }) => kind === "case")!;
      const turned = planModels(mirrored(outcome.project), null).exact.assemblies.find(({ kind }) => kind === "case")!;
      const width = straight.size[0];
      const text = (role: string, lo: readonly number[], hi: readonly number[]): string =>
        [role, ...[...lo, ...hi].map((value) => Math.round(value * 1e4 + 0.31))].join(" ");
      const boxes = straight.parts.map(({ role, box: [lo, hi] }) =>
        text(role, [width - hi[0], lo[1], lo[2]], [width - lo[0], hi[1], hi[2]]),
      );
      expect(turned.parts.map(({ role, box: [lo, hi] }) => text(role, lo, hi)).sort()).toEqual(boxes.sort());
    }
  });

  it("are never rounded by more than their seats allow", () => {
    for (const { outcome } of made()) {
      const { exact, printed } = planModels(outcome.project, null);
      exact.assemblies.forEach((one, i) => {
        one.parts.forEach((part, j) => {
          const [before, after] = [boxSize(part.box), boxSize(printed.assemblies[i]!.parts[j]!.box)];
          for (const axis of [0, 1, 2] as const) {
            // At each end less than a step for its own rounding, one for the face it meets, and one for the joint's depth.
            expect(Math.abs(after[axis] - before[axis])).toBeLessThan(6 * outcome.project.step + SAME);
          }
        });
      });
    }
  });
});

/** What a feature is set out by, and so rounded. Widths and thicknesses never are, nor a stop at a lipping or in another groove: nobody measures it. */
function setOut(part: SetPart, { kind, face, along, at, depth, from, to, ends, row }: SetFeature): number[] {
  if (kind === "notch") return [depth];
  if (kind === "hole") {
    // From the first hole of a row the drill goes on by its own pitch.
    const isFirst = part.features.every((one) => one.row !== row || one.face !== face || one.from >= from);
    return isFirst && along !== "t" ? [depth, (from + to) / 2] : [depth];
  }
  const lipped = ([0, 1] as const).map((end) =>
    part.lippings.some(({ edge, thickness }) => {
      const size = edge[0] === "l" ? part.length : part.width;
      return edge === `${along}${end}` && Math.abs(thickness - (end === 0 ? from : size - to)) < SAME;
    }),
  );
  return [at, depth, ...[from, to].filter((_, end) => !lipped[end] && ends[end] !== "open")];
}

type Figures = Pick<DryfitSet, "assemblies" | "openings" | "parts" | "pieces" | "joints">;

/** The same figures of a project alone, without all that is planned with them. */
function figuresOf(project: Project): Figures {
  const { printed, marks } = planModels(project, null);
  const parts = planParts(printed, marks, project.stock, project.step);
  const assemblies = planAssemblies(printed, marks);
  return tidy({
    assemblies,
    openings: planOpenings(printed),
    parts,
    pieces: planPieces(
      parts,
      project.stock,
      [],
      { job: { walls: project.walls }, assemblies, worktops: [] },
      NO_WISHES,
      project.step,
    ),
    joints: unplaced(planJointList(printed, marks, parts)),
  });
}

const figuresIn = ({ assemblies, openings, parts, pieces, joints }: DryfitSet): Figures => ({
  assemblies,
  openings,
  parts,
  pieces,
  joints: unplaced(joints),
});

/** Without the screws that the plan sets out: each unit has marks of its own on the tape. */
const unplaced = (joints: DryfitSet["joints"]): DryfitSet["joints"] =>
  joints.map((joint) => ({
    ...joint,
    fasteners: joint.fasteners?.kind === "screw" && joint.fasteners.size === null ? null : joint.fasteners,
    fixings: joint.kind === "face" ? "glue" : joint.fixings,
  }));

/** Float noise of converting a figure from one unit to the other is far below a micrometre. */
const rounded = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (_, one) => (typeof one === "number" ? Math.round(one * 1e5) / 1e5 + 0 : one)));

type Bays = Parameters<typeof planModels>[0]["cases"][number]["bays"];

/** Columns in the other order; rows stay. */
function turnedBays(bay: Bays): Bays {
  if (bay.kind === "open") return bay;
  const bays = bay.bays.map(turnedBays);
  return { ...bay, bays: bay.kind === "columns" ? bays.reverse() : bays };
}

const mirrored = (project: Parameters<typeof planModels>[0]): typeof project => ({
  ...project,
  cases: project.cases.map((one) => ({ ...one, bays: turnedBays(one.bays) })),
});
