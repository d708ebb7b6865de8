/** Every settings row is turned back into its groove; their number is the least there is, by two other routes; no row asks for an unsafe cut. */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { planSettings } from "../../src/plans/settings/index.ts";
import { rampOf } from "../../src/plans/settings/stops.ts";
import type { Tooling } from "../../src/project/tooling.ts";
import type { DryfitSet, SetSetting } from "../../src/set/schema.ts";
import { partOf } from "../../src/set/words.ts";
import { EXAMPLES, exampleFile, projectOf, setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { expectRowsToMakeTheGrooves } from "../support/machines/cut-back.ts";
import { countOf, groupsOf, leastByElimination, leastByTrying } from "../support/machines/least-settings.ts";
import { expectNoUnsafeCut } from "../support/machines/unsafe-cuts.ts";
import { IS_WHOLE } from "../support/runs.ts";

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

  // Two routes that try every choice take their time over boxes that are all alike: once, when everything is proved.
  it.skipIf(!IS_WHOLE && file === testFile("drawers-undermount"))(
    "are as few as any choice of datums makes, and no two are the same",
    () => {
      const { count, least, proved, fromLowEnds } = set.settingsCount;
      expect(leastByElimination(groups)).toBe(count);
      if (groups.filter(({ high }) => high !== null).length <= 12) expect(leastByTrying(groups)).toBe(count);
      expect({ count: set.settings.length, least, proved }).toEqual({ count, least: count, proved: true });
      expect(countOf(groups, () => false)).toBe(fromLowEnds);
      const keys = set.settings.map((one) =>
        [one.tool, one.carrier, one.cutter, one.width, one.depth, one.fence, one.sacrificial, one.operation].join(),
      );
      expect(new Set(keys).size).toBe(keys.length);
    },
  );

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
    saw: {
      kerf: 3.2,
      bladeRadius: 127,
      rip: 600,
      ripOther: 300,
      narrowest: 50,
      sled: 600,
      sledDepth: 600,
      stop: 600,
      stopped: "router",
      dado: { least: 6, most: 20, radius: 100 },
    },
    router: {
      baseHalf: 3 * IN,
      baseAhead: 3 * IN,
      plunge: IN / 4,
      bits: [{ name: "1/2 in", diameter: IN / 2, reach: 25 }],
    },
    lift: null,
    throat: 100,
    planer: 330,
    jointer: 150,
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
      groups: set.groups,
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

describe("a shop that stops cuts at the saw", () => {
  const sawnBy = (name: string, saw: Partial<Tooling["saw"]>): DryfitSet => {
    const project = projectOf(testFile(name));
    return joinerySet({
      ...project,
      tooling: { ...project.tooling, saw: { ...project.tooling.saw, stopped: "saw", ...saw } },
    });
  };
  const sawn = (set: DryfitSet): SetSetting[] =>
    set.settings.filter(({ tool, stopped }) => tool === "table saw" && stopped);

  // Sides 800 x 300, grooves for shelves stopped 20 short of the front edge. Card in the hand: inside face down and the bottom end to the
  // right, the left side's front edge goes first, the right side's back edge.
  it("enters each at its open edge: of a pair one with the stop on the left of the cutter", () => {
    const set = sawnBy("stopped-shelves", {});
    const runs = sawn(set).flatMap(({ side, operation, runs: list }) =>
      list.map(({ mark, stops }) => ({ operation, side, name: partOf(set, mark).name, stops })),
    );
    const grooves = runs.filter(({ operation }) => operation === "groove");
    const stops = [{ edge: "w0", leave: 20, block: 280 }];
    expect(grooves).toEqual([
      { operation: "groove", side: "left", name: "left side", stops },
      { operation: "groove", side: "right", name: "right side", stops },
      { operation: "groove", side: "left", name: "left side", stops },
      { operation: "groove", side: "right", name: "right side", stops },
    ]);
    for (const setting of sawn(set)) expect(setting.caution).toContain("wait until it stands still, then lift");
    expectRowsToMakeTheGrooves(set);
    expect(dryFit(set).filter(({ level }) => level === "failure")).toEqual([]);
  });

  // Radius 4, depth 3/8: 1.69 (derived from the cutter's circle). Here radius 100, depth 7.6: sqrt(7.6 x 192.4) = 38.24.
  it("chisels the slope that the round cutter leaves before each stop", () => {
    expect(rampOf(4, 3 / 8)).toBeCloseTo(1.69, 2);
    const set = sawnBy("stopped-shelves", { dado: { least: 6, most: 20, radius: 100 } });
    for (const { ramp } of sawn(set)) {
      expect(ramp!.radius).toBe(100);
      expect(ramp!.length).toBeCloseTo(38.24, 2);
    }
    const told = set.handWork.filter(({ text }) => text.includes("slope"));
    expect(told.map(({ mark }) => mark)).toEqual(["1", "1", "2", "2"]);
    expect(told[0]!.text).toBe(
      "Chisel the slope out of the grooves for 5 and 6 where they stop short of the front edge: 38.24 mm of it, down to 7.6 mm, square at the end.",
    );
    expect(sawnBy("stopped-shelves", { stopped: "router" }).handWork.some(({ text }) => text.includes("slope"))).toBe(
      false,
    );
  });

  it("leaves both of a pair to the router where the fence does not go to the other side of the cutter", () => {
    const both = (ripOther: number): string[] => {
      const project = projectOf(exampleFile("ware-bookcase"));
      const { saw } = project.tooling;
      const dado = { ...saw.dado, least: 5 };
      const set = joinerySet({
        ...project,
        tooling: { ...project.tooling, saw: { ...saw, stopped: "saw", ripOther, dado } },
      });
      // The back's groove in the sides stops short of their top ends, and runs along the fence.
      return set.settings
        .filter(({ runs, holds }) => holds.includes("9") && runs.some(({ mark }) => ["1", "2"].includes(mark)))
        .map(({ tool, side }) => `${tool} ${side}`);
    };
    expect(both(300).sort()).toEqual(["table saw left", "table saw right"]);
    // From their back edges, too, they would need it.
    expect(both(0)).toEqual(["router null"]);
  });
});

describe("sizing", () => {
  const set = setOf(exampleFile("wedging-pair"));

  it("tells every cut of the sheets once, those of one fence distance together", () => {
    const told = set.sizing.flatMap(({ fence, cuts }) =>
      cuts.flatMap(({ sheet, cuts: numbers }) => numbers.map((n) => `${sheet}.${n} ${fence}`)),
    );
    const wanted = set.sheets.flatMap(({ n, cuts }) => cuts.map((cut) => `${n}.${cut.n} ${cut.fence}`));
    expect(told.sort()).toEqual(wanted.sort());
    const keys = set.sizing.map(({ group, fence, guide }) => `${group} ${guide} ${fence}`);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("never has fence and gauge guide one through cut, nor a piece wider than long run along the fence", () => {
    const { saw } = projectOf(exampleFile("wedging-pair")).tooling;
    const guides = new Map<string, number>();
    for (const { fence, guide, cuts } of set.sizing) {
      for (const { sheet, cuts: numbers } of cuts) {
        const laid = set.sheets.find((one) => one.n === sheet)!;
        for (const n of numbers) {
          const { from, to, piece, across } = laid.cuts.find((one) => one.n === n)!;
          const along = to - from;
          guides.set(guide, (guides.get(guide) ?? 0) + 1);
          // The whole sheet is wider than any sled is long.
          const isWhole = piece === `S${sheet}` && n <= 4;
          if (guide === "fence") expect([along >= fence - 1e-6, fence <= saw.rip]).toEqual([true, true]);
          if (guide === "stop")
            expect([along <= saw.sledDepth, fence <= saw.stop, isWhole]).toEqual([true, true, false]);
          if (isWhole && across === "x") expect(guide, `sheet ${sheet}, cut ${n}`).toBe("straightedge");
        }
      }
    }
    expect([...guides.keys()].sort()).toEqual(["fence", "stop", "straightedge"]);
  });
});
