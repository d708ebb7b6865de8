/** The order of assembly, tried in wood: every motion swept against all that already stands, with solids of the dry fit's own making. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sharedBoxes, volumeOf } from "../src/audit/boxes.ts";
import { type Solid, solidsOf } from "../src/audit/solid.ts";
import type { AxisIndex, Box } from "../src/base/geometry.ts";
import { type Move, planAssembly, type Way } from "../src/plans/assembly.ts";
import { planJoinery, planModels } from "../src/plans/set.ts";
import { tidy } from "../src/plans/tidy.ts";
import type { Project } from "../src/project/project.ts";
import { EXAMPLES, exampleFile, projectOf, testFile } from "./support/examples.ts";
import { randomProject } from "./support/random-project.ts";

/** Where what is moved comes from. */
const FROM: Record<Way, { axis: AxisIndex; sign: 1 | -1 }> = {
  down: { axis: 2, sign: 1 },
  "from below": { axis: 2, sign: -1 },
  "from the left": { axis: 0, sign: -1 },
  "from the right": { axis: 0, sign: 1 },
  "from behind": { axis: 1, sign: 1 },
  "from the front": { axis: 1, sign: -1 },
};

/** Distances at which a part on its way is looked at: near the end, where grooves hold it, and far off. */
const STATIONS = [0.5, 2, 4, 6, 8, 10, 15, 20, 40, 80, 200, 500, 1000, 2500];

const shifted = (boxes: readonly Box[], axis: AxisIndex, by: number): Box[] =>
  boxes.map(([lo, hi]) => {
    const move = (v: readonly number[]): [number, number, number] =>
      v.map((value, i) => (i === axis ? value + by : value)) as [number, number, number];
    return [move(lo), move(hi)];
  });

/** What goes wrong when the motions are carried out one after another; empty when nothing does. */
function tryOut(
  moves: readonly Move[],
  solids: ReadonlyMap<string, Solid>,
  joints: readonly (readonly [string, string])[],
): string[] {
  const faults: string[] = [];
  // Parts that hold together; at first each for itself.
  let groups: string[][] = [...solids.keys()].map((key) => [key]);
  const groupOf = (key: string): string[] => groups.find((group) => group.includes(key))!;
  for (const { parts, to, way } of moves) {
    const moved = [...new Set(parts.flatMap(groupOf))];
    if (moved.length !== parts.length) faults.push(`${parts} ${way}: ${moved} would come along`);
    if (to.length === 0) faults.push(`${parts} ${way}: joins nothing`);
    const ready = [...new Set(to.flatMap(groupOf))];
    const { axis, sign } = FROM[way];
    for (const station of STATIONS) {
      for (const one of moved) {
        const cells = shifted(solids.get(one)!.cells, axis, sign * station);
        for (const other of ready) {
          const shared = sharedBoxes(cells, solids.get(other)!.cells).reduce((sum, box) => sum + volumeOf(box), 0);
          if (shared > 1e-3) faults.push(`${one} ${way} meets ${other} at ${station} mm`);
        }
      }
    }
    const joined = [...moved, ...ready];
    groups = [...groups.filter((group) => !group.some((key) => joined.includes(key))), joined];
  }
  if (groups.length !== 1)
    faults.push(`${groups.length} groups are left: ${groups.map((group) => group.join(" + ")).join("; ")}`);
  // Every housed joint is closed by the one motion that brings its two parts together.
  for (const [entering, receiving] of joints) {
    const closing = moves.filter(
      ({ parts, to }) =>
        (parts.includes(entering) && to.includes(receiving)) || (parts.includes(receiving) && to.includes(entering)),
    );
    if (closing.length !== 1) faults.push(`${entering} in ${receiving} is closed by ${closing.length} motions`);
  }
  return faults;
}

const AS_PLANNED = (moves: Move[]): Move[] => moves;

function faultsOf(project: Project, order = AS_PLANNED): string[] {
  const models = planModels(project, null);
  const plan = planJoinery(project, models, { draft: false, olderSet: null });
  const set = tidy({ ...plan, sheets: [], sticks: [], labels: [], purchase: [], steps: [] });
  const solids = solidsOf(set);
  return models.printed.cases.flatMap((one) => {
    const own = new Map(
      solids.filter(({ part }) => part.assembly === one.name).map((solid) => [solid.part.key, solid]),
    );
    return tryOut(
      order(planAssembly(one)),
      own,
      one.joints
        .filter(({ kind }) => kind === "housed")
        .map(({ entering, receiving }) => [entering, receiving] as const),
    );
  });
}

describe("an order of assembly", () => {
  it.each(EXAMPLES)("of %s closes every housed joint once, and nothing is in the way", (name) => {
    expect(faultsOf(projectOf(exampleFile(name)))).toEqual([]);
  });

  it("of worked example A is the one reckoned by hand: sides last, the top down on divider and back", () => {
    const [one] = planModels(projectOf(testFile("example-a-in")), null).printed.cases;
    const short = (key: string): string => key.split("/")[1]!;
    expect(planAssembly(one!).map(({ parts, to, way }) => `${parts.map(short)} ${way} to ${to.map(short)}`)).toEqual([
      "divider-1 from the right to shelf-1.1",
      "shelf-1.1,divider-1 down to bottom",
      "back down to bottom",
      "top down to divider-1,back",
      "side-left from the left to bottom,shelf-1.1,back,top",
      "side-right from the right to bottom,back,top",
    ]);
  });

  it("with the top last is found to be no order: the sides are in its way", () => {
    const topLast = (moves: Move[]): Move[] => {
      const [top] = moves.filter(({ parts }) => parts.includes("case/top"));
      const others = moves
        .filter((move) => move !== top)
        .map((move) => ({ ...move, to: move.to.filter((key) => key !== "case/top") }));
      return [...others, { parts: ["case/top"], to: [...top!.to, "case/side-left", "case/side-right"], way: "down" }];
    };
    const faults = faultsOf(projectOf(testFile("example-a-in")), topLast);
    expect(faults).toContain("case/top down meets case/side-left at 0.5 mm");
    expect(faults).toContain("case/top down meets case/side-right at 0.5 mm");
  });

  it("of random cases closes every housed joint once, and nothing is in the way", () => {
    fc.assert(
      fc.property(randomProject, (project) => {
        expect(faultsOf(project)).toEqual([]);
      }),
      { numRuns: 120, seed: 20261120 },
    );
  });
});
