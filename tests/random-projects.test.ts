/** Over random projects: a model comes out, what is printed is whole steps, and the independent dry fit has nothing to object to. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryFit } from "../src/audit/dryfit.ts";
import { boxSize } from "../src/base/geometry.ts";
import { SAME } from "../src/base/length.ts";
import { planJoinery, planModels } from "../src/plans/set.ts";
import { tidy } from "../src/plans/tidy.ts";
import type { Project } from "../src/project/project.ts";
import type { DryfitSet } from "../src/set/schema.ts";
import { randomProject } from "./support/random-project.ts";

/** The set without its paper: the dry fit needs no more. */
const setOf = (project: Project): DryfitSet => {
  const plan = planJoinery(project, planModels(project, null), { draft: false, olderSet: null });
  return tidy({ ...plan, sheets: [], sticks: [], labels: [], purchase: [], steps: [], sensitivity: [] });
};

const seeds = { numRuns: 200, seed: 20261120 };

describe("random projects", () => {
  it("go together: the dry fit finds no failure", () => {
    fc.assert(
      fc.property(randomProject, (project) => {
        expect(
          dryFit(setOf(project))
            .filter(({ level }) => level === "failure")
            .map(({ text }) => text),
        ).toEqual([]);
      }),
      seeds,
    );
  });

  it("are printed in whole steps, and every printed length is a whole multiple of 3.125 micrometres", () => {
    fc.assert(
      fc.property(randomProject, (project) => {
        for (const part of setOf(project).parts) {
          const lengths = [
            part.length,
            part.width,
            ...part.features.flatMap(({ at, depth, from, to, along, kind }) =>
              kind === "notch" || along === "t" ? [depth] : [at, depth, from, to],
            ),
          ];
          for (const length of lengths) {
            expect(Math.abs(length / project.step - Math.round(length / project.step))).toBeLessThan(1e-4);
            expect(Math.abs(length * 320 - Math.round(length * 320))).toBeLessThan(1e-3);
          }
        }
      }),
      seeds,
    );
  });

  it("no printed part differs from its exact one by more than the rounding of its two seats", () => {
    fc.assert(
      fc.property(randomProject, (project) => {
        const { exact, printed } = planModels(project, null);
        exact.cases.forEach((one, i) => {
          one.parts.forEach((part, j) => {
            const [before, after] = [boxSize(part.box), boxSize(printed.cases[i]!.parts[j]!.box)];
            for (const axis of [0, 1, 2] as const) {
              // At each end less than a step for its own rounding, one for the face it meets, and one for the joint's depth.
              expect(Math.abs(after[axis] - before[axis])).toBeLessThan(6 * project.step + SAME);
            }
          });
        });
      }),
      seeds,
    );
  });

  it("mirrored, are mirrored: left and right change places and nothing else does", () => {
    fc.assert(
      fc.property(randomProject, (project) => {
        const straight = planModels(project, null).exact.cases[0]!;
        const turned = planModels(
          { ...project, cases: project.cases.map((one) => ({ ...one, bays: mirrored(one.bays) })) },
          null,
        ).exact.cases[0]!;
        const width = straight.size[0];
        const boxes = straight.parts.map(({ role, box: [lo, hi] }) =>
          text(role, [width - hi[0], lo[1], lo[2]], [width - lo[0], hi[1], hi[2]]),
        );
        expect(turned.parts.map(({ role, box: [lo, hi] }) => text(role, lo, hi)).sort()).toEqual(boxes.sort());
      }),
      seeds,
    );
  });
});

/** To a tenth of a micrometre; the shift keeps whole steps, which float noise may push either way, off the edge of rounding. */
const text = (role: string, lo: readonly number[], hi: readonly number[]): string =>
  [role, ...[...lo, ...hi].map((value) => Math.round(value * 1e4 + 0.31))].join(" ");

type Bays = Project["cases"][number]["bays"];

/** Columns in the other order; rows stay. */
function mirrored(bay: Bays): Bays {
  if (bay.kind === "open") return bay;
  const bays = bay.bays.map(mirrored);
  return { ...bay, bays: bay.kind === "columns" ? bays.reverse() : bays };
}
