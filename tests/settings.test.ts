/** Every settings row is turned back into its groove; their number is the least there is, by two other routes; no row asks for an unsafe cut. */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { planSettings } from "../src/plans/settings/index.ts";
import type { Tooling } from "../src/project/project.ts";
import type { SetSetting } from "../src/set/schema.ts";
import { expectRowsToMakeTheGrooves } from "./support/cut-back.ts";
import { EXAMPLES, exampleFile, projectOf, setOf, testFile } from "./support/examples.ts";
import { countOf, groupsOf, leastByElimination, leastByTrying } from "./support/least-settings.ts";
import { expectNoUnsafeCut } from "./support/unsafe-cuts.ts";

const SMALL = readdirSync(testFile("").replace(/\.json$/, ""))
  .map((file) => file.replace(/\.json$/, ""))
  .sort();
const JOBS: [string, string][] = [
  ...EXAMPLES.map((name): [string, string] => [name, exampleFile(name)]),
  ...SMALL.map((name): [string, string] => [name, testFile(name)]),
];

describe.each(JOBS)("the settings of %s", (_, file) => {
  const set = setOf(file);
  const { tooling } = projectOf(file);
  const groups = groupsOf(set, tooling);

  it("make exactly the model's grooves, each once", () => {
    expectRowsToMakeTheGrooves(set);
  });

  it("are as few as any choice of datums makes, and no two are the same", () => {
    const { count, least, proved, fromLowEnds } = set.settingsCount;
    expect(leastByElimination(groups)).toBe(count);
    if (groups.filter(({ high }) => high !== null).length <= 12) expect(leastByTrying(groups)).toBe(count);
    expect({ count: set.settings.length, least, proved }).toEqual({ count, least: count, proved: true });
    expect(countOf(groups, () => false)).toBe(fromLowEnds);
    const keys = set.settings.map((one) =>
      [one.tool, one.carrier, one.cutter, one.width, one.depth, one.fence, one.sacrificial, one.operation].join(),
    );
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("never ask for an unsafe cut", () => {
    expectNoUnsafeCut(set, tooling);
  });

  it("measure whatever holds one part from the same end of every part that holds it", () => {
    const ends = new Map<string, Set<string>>();
    for (const { runs } of set.settings) {
      for (const { mark, feature, datum } of runs) {
        const part = set.parts.find((one) => one.mark === mark)!;
        const { kind, holds } = part.features[feature]!;
        if (kind === "shoulder") continue;
        const way = part.place![datum[0] as "l" | "w"];
        const end = (datum[1] === "1") === (way[0] === "+") ? "high" : "low";
        const key = `${holds} along ${way[1]}`;
        ends.set(key, new Set([...(ends.get(key) ?? []), end]));
      }
    }
    expect([...ends].filter(([, found]) => found.size > 1).map(([key]) => key)).toEqual([]);
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
      assemblies: set.assemblies,
      drilling: [],
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
