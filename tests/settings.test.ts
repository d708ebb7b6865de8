/** Every settings row is turned back into its groove by a checker that knows only the row: fence, cutter, face, datum, run. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planJoinery, planModels } from "../src/plans/set.ts";
import { planSettings } from "../src/plans/settings.ts";
import type { Tooling } from "../src/project/project.ts";
import type { DryfitSet, SetPart, SetSetting } from "../src/set/schema.ts";
import { EXAMPLES, exampleFile, projectOf, setOf } from "./support/examples.ts";
import { randomProject } from "./support/random-project.ts";

type Range = readonly [number, number];
type Cut = { mark: string; face: string; l: Range; w: Range; t: Range };

const AXES = ["l", "w", "t"] as const;
type Axis = (typeof AXES)[number];

const sizeOf = (part: SetPart, axis: Axis): number => ({ l: part.length, w: part.width, t: part.thickness })[axis];

/** What a person standing at the machine with only the row would take out of the part. */
function cutBy(setting: SetSetting, run: SetSetting["runs"][number], part: SetPart): Cut {
  const into = run.face[0] as Axis;
  const across = run.datum[0] as Axis;
  const along = AXES.find((axis) => axis !== into && axis !== across)!;
  const size = sizeOf(part, across);
  // A rabbet runs to an end: the far one, or the datum itself, where the figure is to its inner wall.
  const atDatum = setting.operation === "rabbet" && Math.abs(setting.fence + setting.width - size) > 1e-3;
  const near = atDatum ? 0 : setting.fence;
  const fromDatum: Range = [near, near + setting.width];
  const walls: Range = run.datum.endsWith("0") ? fromDatum : [size - fromDatum[1], size - fromDatum[0]];
  const deep: Range = run.face.endsWith("0")
    ? [0, setting.depth]
    : [sizeOf(part, into) - setting.depth, sizeOf(part, into)];
  const ranges = { [into]: deep, [across]: walls, [along]: [run.from, run.to] } as Record<Axis, Range>;
  return { mark: part.mark, face: run.face, ...ranges };
}

/** To a micrometre; the shift keeps whole steps, which float noise may push either way, off the edge of rounding. */
const rounded = (range: Range): string => range.map((value) => Math.round(value * 1000 + 0.31)).join("..");
const textOf = ({ mark, face, l, w, t }: Cut): string => `${mark} ${face} ${rounded(l)} ${rounded(w)} ${rounded(t)}`;

function expectRowsToMakeTheGrooves(set: Pick<DryfitSet, "parts" | "settings">): void {
  const made = set.settings.flatMap((setting) =>
    setting.runs.map((run) => textOf(cutBy(setting, run, set.parts.find(({ mark }) => mark === run.mark)!))),
  );
  const wanted = set.parts.flatMap((part) =>
    part.features
      .filter(({ kind }) => kind !== "notch")
      .map(({ face, box: [lo, hi] }) =>
        textOf({ mark: part.mark, face, l: [lo[0], hi[0]], w: [lo[1], hi[1]], t: [lo[2], hi[2]] }),
      ),
  );
  expect(made.sort()).toEqual(wanted.sort());
}

describe("settings", () => {
  it.each(EXAMPLES)("rows of %s make exactly the model's grooves, each once", (name) => {
    expectRowsToMakeTheGrooves(setOf(exampleFile(name)));
  });

  it("rows of random projects make exactly the model's grooves", () => {
    fc.assert(
      fc.property(randomProject, (project) => {
        const plan = planJoinery(project, planModels(project, null), { draft: false, olderSet: null });
        const toolless = plan.checks.filter(({ id }) => id === "no-tool").length;
        fc.pre(toolless === 0);
        expectRowsToMakeTheGrooves(plan);
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  it.each(EXAMPLES)("no two settings of %s are the same, and no row asks for an unsafe cut", (name) => {
    const { settings, parts } = setOf(exampleFile(name));
    const { tooling } = projectOf(exampleFile(name));
    const keys = settings.map((one) =>
      [one.tool, one.carrier, one.cutter, one.width, one.depth, one.fence, one.stopped, one.operation].join(),
    );
    expect(new Set(keys).size).toBe(keys.length);
    for (const setting of settings) {
      expect(setting.fence).toBeGreaterThan(0);
      for (const run of setting.runs) {
        const part = parts.find(({ mark }) => mark === run.mark)!;
        const across = run.datum[0] as Axis;
        const along = AXES.find((axis) => axis !== run.face[0] && axis !== across)!;
        if (setting.tool === "table saw") {
          expect(setting.stopped).toBe(false);
          if (setting.carrier === "fence") {
            expect(sizeOf(part, along)).toBeGreaterThanOrEqual(sizeOf(part, across));
            expect(setting.fence).toBeLessThanOrEqual(tooling.saw.rip);
          } else expect(sizeOf(part, across)).toBeLessThanOrEqual(tooling.saw.sled);
        }
      }
    }
  });

  it("whatever holds one part is measured from the same end of every part that holds it", () => {
    for (const name of EXAMPLES) {
      const { settings, parts } = setOf(exampleFile(name));
      for (const held of parts) {
        const ends = settings.flatMap(({ runs }) =>
          runs
            .filter(
              ({ mark, feature }) => parts.find((part) => part.mark === mark)!.features[feature]!.holds === held.mark,
            )
            .map(({ datum }) => datum[1]),
        );
        expect(new Set(ends).size, `${name}: ${held.name} ${held.mark}`).toBeLessThanOrEqual(1);
      }
    }
  });
});

describe("straightedge", () => {
  const IN = 25.4;
  const tooling: Tooling = {
    saw: { kerf: 3.2, bladeRadius: 127, rip: 600, narrowest: 50, sled: 600, dado: { least: 6, most: 20, radius: 100 } },
    router: { baseHalf: 3 * IN, bits: [{ name: "1/2 in", diameter: IN / 2, reach: 25 }] },
  };
  const set = setOf(exampleFile(EXAMPLES[0]));
  const side = set.parts.find(({ role }) => role === "side")!;

  /** One stopped groove across a long part, so that it goes to the router. */
  const straightedgeFor = (from: number, to: number): SetSetting["straightedge"] => {
    const groove = side.features.find(({ along, kind }) => along === "w" && kind === "groove")!;
    const stopped = {
      ...groove,
      at: from * IN,
      width: (to - from) * IN,
      ends: ["square", "through"] as ["square", "through"],
    };
    const others = set.parts.filter(({ mark }) => mark !== side.mark).map((part) => ({ ...part, features: [] }));
    const { settings } = planSettings({
      parts: [{ ...side, features: [stopped] }, ...others],
      stock: set.stock,
      tooling,
      unit: "in",
    });
    expect(settings).toHaveLength(1);
    return settings[0]!.straightedge;
  };

  // Router forum, worked example: base 6, bit 1/2, groove 1/2 to 1, straightedge beyond it at 3 3/4.
  it("lies beyond a groove near the end", () => {
    expect(straightedgeFor(0.5, 1)!.near).toBeCloseTo(3.75 * IN, 3);
  });

  // Derived from the same rule: groove 15 1/4 to 16 with a 1/2 bit, before it at 12 1/2 for the near wall and 12 3/4 for the far one.
  it("lies before a groove in the middle, and moves by the width less the bit", () => {
    const { near, far, spacer } = straightedgeFor(15.25, 16)!;
    expect(near).toBeCloseTo(12.5 * IN, 3);
    expect(far).toBeCloseTo(12.75 * IN, 3);
    expect(spacer).toBeCloseTo(0.25 * IN, 3);
  });
});
