/** Finish: over what area, how much of it, when; reckoned again by hand and by counting small squares. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { type Box, boxToOuter, type Place } from "../../src/base/geometry.ts";
import { ProblemsFound } from "../../src/base/problem.ts";
import { makeSet } from "../../src/build.ts";
import { openArea } from "../../src/plans/finishes.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";

const built = (finish: Record<string, unknown>[], name = "plain-box"): DryfitSet => {
  const text = JSON.stringify({ ...parse(readFileSync(testFile(name), "utf8")), finish });
  return makeSet(readProjectText(text, "finish.json").project, { draft: false, olderSet: null });
};
const PRIMER = { name: "primer", coats: 1, coverage: "10 m2/l", dry: 4 };

const boxOf = (part: SetPart): Box =>
  boxToOuter(part.place as Place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);

/** One face as squares of 2 mm, each open unless its middle lies in or against another part. */
function countedArea(part: SetPart, parts: readonly SetPart[]): number {
  const SIZE = 2;
  const own = boxOf(part);
  const others = parts
    .filter((one) => one.assembly === part.assembly && one !== part && one.role !== "looseShelf")
    .map(boxOf);
  let area = 0;
  for (const axis of [0, 1, 2]) {
    const [u, v] = [0, 1, 2].filter((one) => one !== axis) as [number, number];
    for (const end of [0, 1] as const) {
      const plane = own[end][axis as 0]!;
      const [nu, nv] = [u, v].map((one) => Math.ceil((own[1][one as 0]! - own[0][one as 0]!) / SIZE)) as [
        number,
        number,
      ];
      const [du, dv] = [(own[1][u as 0]! - own[0][u as 0]!) / nu, (own[1][v as 0]! - own[0][v as 0]!) / nv];
      for (let i = 0; i < nu; i++) {
        for (let j = 0; j < nv; j++) {
          const at = [0, 0, 0];
          at[axis] = plane;
          at[u] = own[0][u as 0]! + (i + 0.5) * du;
          at[v] = own[0][v as 0]! + (j + 0.5) * dv;
          const hidden = others.some((box) =>
            at.every((x, k) => x > box[0][k as 0]! - 1e-6 && x < box[1][k as 0]! + 1e-6),
          );
          if (!hidden) area += du * dv;
        }
      }
    }
  }
  return area;
}

describe("the area of a part", () => {
  it.each(["plain-box", "face-frame", "shelves-opposite"])(
    "%s: is what no other part covers, counted in small squares",
    (name) => {
      const { parts } = setOf(testFile(name));
      for (const part of parts) {
        const whole = 2 * (part.length * part.width + (part.length + part.width) * part.thickness);
        expect(Math.abs(openArea(part, parts) - countedArea(part, parts)) / whole).toBeLessThan(0.01);
      }
    },
  );
});

describe("how much of it", () => {
  it("is coats times area by the coverage of its data sheet, whatever the unit that is written in", () => {
    const [one] = built([{ ...PRIMER, coats: 3 }]).finishes;
    expect(one!.litres).toBeCloseTo((3 * one!.area) / 10, 5);
    // 400 sq ft/gal: 400 x 0.09290304 m2 in 3.785411784 l.
    const [other] = built([{ ...PRIMER, coverage: "400 sq ft/gal" }]).finishes;
    expect(other!.litres).toBeCloseTo(other!.area / ((400 * 0.09290304) / 3.785411784), 5);
  });

  it("goes on the buying list with a tenth over", () => {
    const set = built([{ ...PRIMER, coats: 2 }]);
    const line = set.purchase.find(({ what }) => what === "primer")!;
    const litres = set.finishes[0]!.litres * 1.1;
    expect(line.unit).toBe("l");
    expect(line.quantity).toBeGreaterThanOrEqual(litres - 1e-9);
    expect(line.quantity).toBeLessThan(litres + 0.1);
  });

  it("goes on the parts that are named", () => {
    const set = built([{ ...PRIMER, parts: ["back"] }]);
    expect(set.finishes[0]!.parts).toEqual(set.parts.filter(({ role }) => role === "back").map(({ mark }) => mark));
  });
});

describe("when it goes on", () => {
  const titles = (set: DryfitSet): string[] => set.steps.map(({ title }) => title);
  const step = (set: DryfitSet, title: string): DryfitSet["steps"][number] =>
    set.steps.find((one) => one.title.startsWith(title))!;

  it("before assembly comes after the joints are cut and before the dry fit, masked", () => {
    const set = built([{ ...PRIMER, before: true }]);
    const at = titles(set).indexOf("Finish the parts");
    expect(at).toBeGreaterThan(titles(set).findIndex((title) => title.startsWith("Cut the grooves")));
    expect(at).toBeLessThan(titles(set).findIndex((title) => title.startsWith("Dry-fit")));
    expect(step(set, "Finish the parts").text.join(" ")).toContain("Mask every groove");
  });

  it("otherwise last, coat by coat with the hours between", () => {
    const set = built([{ ...PRIMER, coats: 2 }]);
    expect(titles(set)).not.toContain("Finish the parts");
    expect(step(set, "Sand").text).toContain(
      "Primer on every part: 2 coats, 4 hours from one to the next; 4 hours before anything is put on it.",
    );
  });

  it("warns of oily rags where there is oil, or where the job does not say what it is", () => {
    const rags = (set: DryfitSet): boolean => step(set, "Sand").cautions.some((one) => one.includes("Rags"));
    expect(rags(built([{ ...PRIMER, kind: "oil" }]))).toBe(true);
    expect(rags(built([PRIMER]))).toBe(false);
    expect(rags(setOf(testFile("plain-box")))).toBe(true);
  });
});

it("a role that the job has no part of is an error", () => {
  expect(() => built([{ ...PRIMER, parts: ["stile"] }])).toThrow(ProblemsFound);
});

describe("in an inset gap", () => {
  const said = (name: string, coats: number, parts?: string[], gap?: string): string[] => {
    const job = parse(readFileSync(testFile(name), "utf8"));
    if (gap !== undefined) job.cases[0].doors.gap = gap;
    const finish = [{ name: "enamel", kind: "film", ...(parts && { parts }), coats, coverage: "12 m2/l", dry: 4 }];
    const set = joinerySet(readProjectText(JSON.stringify({ ...job, finish }), "finish.json").project);
    return set.checks
      .filter(({ id }) => id === "inset-film")
      .map(({ level, text, change }) => `${level}: ${text} ${change}`);
  };

  it("takes its own thickness at both edges, and is told of where less than 1 mm is left", () => {
    // 0.05 mm a coat on each face, and 1 mm to be left: common practice, no source. Fronts with a gap of 2 mm take ten coats on both, not eleven.
    expect(said("drawers-runners", 10)).toEqual([]);
    expect(said("drawers-runners", 11)[0]).toBe(
      'warning: Rack drawer 1 has a gap of 2 mm; 1.1 mm of finish on its edge and on the one beside it leaves 0.9 mm. A "gap" of 2.1 mm or more, or fewer coats.',
    );
    expect(said("drawers-runners", 12, ["drawerFace"])).toEqual([]);
    expect(said("doors-inset", 1)).toEqual([]);
    expect(said("doors-inset", 12, undefined, "2 mm").length).toBeGreaterThan(0);
    // An overlay front has no such gap.
    expect(said("doors-overlay", 12)).toEqual([]);
  });
});
