/** Drawers spoiled in one thing after another, and found; what cannot be made, said at its place. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { built, file, inch, SMALL, textOf } from "../support/drawers/drawer-jobs.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";

describe("planted faults", () => {
  const spoil = (name: string, change: (set: DryfitSet) => void): string[] => {
    const set = structuredClone(setOf(testFile(name)));
    change(set);
    return dryFit(set)
      .filter(({ level }) => level === "failure")
      .map(({ id }) => id);
  };
  const home = (set: DryfitSet, i = 0): DryfitSet["assemblies"][number] =>
    set.assemblies.find(({ name }) => name === set.drawers[i]!.assembly)!;

  it.each(SMALL)("a drawer of %s that is moved by two steps is found, whichever way", (name) => {
    for (const axis of [0, 1, 2] as const) {
      for (const sign of [1, -1]) {
        const found = spoil(name, (set) => {
          home(set).place.at[axis] += sign * 2 * set.job.step;
        });
        expect(
          found.filter((id) => id.startsWith("drawer") || id === "overlap"),
          `${axis} ${sign}`,
        ).not.toEqual([]);
      }
    }
  });

  it.each([
    [
      "drawers-side-mounted",
      "Chest drawer 1 has 12.7 mm free at its left; side-mounted slides take 17.7 mm. Make the box narrower by 5 mm.",
    ],
    [
      "drawers-face-frame",
      "Bench drawer 1 has 1/2 in free at its left; side-mounted slides take 0.697 in. Make the box narrower by 0.197 in.",
    ],
    [
      "drawers-undermount",
      "Cabinet drawer 1 has 42.05 mm between the opening's width and the inside of its box; undermount slides take 47 mm. Make the box narrower by 4.95 mm.",
    ],
    [
      "drawers-runners",
      "Rack drawer 1 has 1.5 mm free at its left; a box on runners takes 6.5 mm. Make the box narrower by 5 mm.",
    ],
  ])("a box of %s without clearance is found, with the figure and the remedy", (name, words) => {
    const set = structuredClone(setOf(testFile(name)));
    set.drawers[0]!.slides.clearance += 5;
    const found = dryFit(set).filter(({ id, level }) => id === "drawer-clearance" && level === "failure");
    expect(found.map(({ text, change }) => `${text} ${change}`)).toContain(words);
  });

  it.each(SMALL)("what stands in the way of a drawer of %s is found", (name) => {
    const found = spoil(name, (set) => {
      const drawer = set.drawers[0]!;
      // Another's applied front, hung too low by what is more than its gap.
      const other = set.assemblies.find(({ kind, name: own }) => kind === "case" && own === drawer.case)!;
      const top = set.parts.find(({ assembly, role }) => assembly === other.name && role === "back")!;
      top.place!.at[1] -= drawer.free.behind + 1;
    });
    expect(found).toContain("overlap");
  });

  it.each(SMALL)("a slide line of %s that is off, or left out, is found", (name) => {
    for (const change of ["move", "drop", "short"] as const) {
      const found = spoil(name, (set) => {
        const [mark] = set.parts.filter(({ role }) => role === "drawerSide").map((one) => one.mark);
        const owner = set.parts.find(({ lines }) => lines.some(({ holds: held }) => held.includes(mark!)))!;
        const line = owner.lines.find(({ holds: held }) => held.includes(mark!))!;
        if (change === "move") line.at += 2 * set.job.step;
        if (change === "short") line.to -= 2 * set.job.step;
        if (change === "drop") owner.lines = owner.lines.filter((one) => one !== line);
      });
      expect(found, change).toContain("drawer-slide");
    }
  });

  it("a drawer that does not come out, and a sum that does not add up", () => {
    expect(
      spoil("drawers-side-mounted", (set) => {
        home(set).travel = { kind: "none" };
      }),
    ).toContain("drawer-travel");
    expect(
      spoil("drawers-side-mounted", (set) => {
        set.drawers[0]!.sums[0]!.makes += 1;
      }),
    ).toContain("drawer-sum");
  });

  it("a rail that hangs in the way of a drawer behind it", () => {
    expect(
      spoil("drawers-face-frame", (set) => {
        const rail = set.parts.find(({ key }) => key.endsWith("/rail-top"))!;
        rail.width += inch(1);
        rail.cut.width += inch(1);
        rail.place!.at[2] -= inch(1);
      }),
    ).toContain("drawer-travel");
  });
});
describe("what cannot be made is said at its place", () => {
  const said = (change: Record<string, unknown>, drawers: Record<string, unknown> = {}): string[] =>
    problemsIn(textOf("drawers-side-mounted", change, drawers)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, Record<string, unknown>, Record<string, unknown>, string]>([
    [
      "without clearance for the slides",
      {},
      { slides: { kind: "side-mounted", clearance: 0 } },
      'cases[0].drawers.slides.clearance: 0 mm at each side of a box on side-mounted slides in "chest"',
    ],
    [
      "bays without drawers",
      { bays: {} },
      {},
      'cases[0].drawers: how the drawers of "chest" are made, and no bay of it has any',
    ],
    [
      "undermount slides with the bottom too low",
      {},
      { slides: { kind: "undermount" }, bottom: { up: 8 } },
      'cases[0].drawers.bottom.up: bottoms 8 mm up in "chest"',
    ],
    [
      "a bottom groove deeper than half the side",
      {},
      { bottom: { depth: 7 } },
      'cases[0].drawers.bottom.depth: grooves 7 mm deep for the bottom, in boxes of "chest" nominally 12 mm thick',
    ],
    [
      "thick sides on undermount slides",
      {},
      {
        slides: { kind: "undermount" },
        stock: { box: "ply-18mm", bottom: "ply-6mm", face: "ply-18mm" },
        bottom: { up: 13 },
        gaps: { below: 5 },
      },
      'cases[0].drawers.gaps.below: 5 mm below the lowest box of "chest" on undermount slides',
    ],
    [
      "an overlap for an inset front",
      {},
      { front: { fit: "inset", overlap: 5 } },
      'cases[0].drawers.front.overlap: "overlap" for a front that is "inset"',
    ],
    [
      "a drawer of two heights",
      { bays: { drawers: [{ size: 100, front: 110 }, {}] } },
      {},
      'cases[0].bays.drawers[0].front: "size" and "front" of one drawer',
    ],
    [
      "drawers and loose shelves in one bay",
      { bays: { loose: 2, drawers: [{}] } },
      {},
      'cases[0].bays.drawers: "loose" and "drawers" in one bay',
    ],
  ])("%s", (_, change, drawers, words) => {
    expect(said(change, drawers)).toContain(words);
  });

  it("drawers in a case that does not say how", () => {
    const job = file("drawers-side-mounted");
    const [one] = job.cases;
    const text = JSON.stringify({ ...job, cases: [{ ...one, drawers: undefined }] });
    expect(problemsIn(text).map(({ found }) => found)).toContain(
      'drawers in a bay of "chest", which does not say how its drawers are made',
    );
  });

  const thrown = (change: Record<string, unknown>, drawers: Record<string, unknown> = {}): string => {
    try {
      built(textOf("drawers-side-mounted", change, drawers));
    } catch (error) {
      return String(error);
    }
    return "";
  };

  it("a stack too high, and one that leaves some", () => {
    expect(thrown({ bays: { drawers: [{ size: 400 }, { size: 300 }] } })).toContain(
      "drawers that with their gaps take 37.3 mm more than the 684.7 mm that this bay is high in front",
    );
    expect(thrown({ bays: { drawers: [{ size: 400 }, { size: 200 }] } })).toContain(
      "drawers that with their gaps leave 62.7 mm of the 684.7 mm that this bay is high in front",
    );
  });

  it("a case too shallow for its slides", () => {
    expect(thrown({}, { slides: { kind: "side-mounted", lengths: [450, 500] } })).toContain(
      "this bay is 444.45 mm deep behind the drawer's applied front, of which 15 mm stay free, and the shortest slides are 450 mm long",
    );
  });

  it("stiles that lap farther in than packing is thick", () => {
    const job = file("drawers-face-frame");
    const [one] = job.cases as unknown as Record<string, unknown>[];
    const text = JSON.stringify({
      ...job,
      cases: [{ ...one, frame: { stock: "maple", stile: 2.5, topRail: 2 } }],
    });
    expect(() => built(text)).toThrow(
      /stiles that lap 1 .* inside "wide"|stiles that lap .* and packing strips of 1 in/,
    );
  });
});
