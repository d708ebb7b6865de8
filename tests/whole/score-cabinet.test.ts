/** The score cabinet: doors that slide in wooden grooves, and a pair of slabs on hinges in the locker under them; both fit, and are drawn whole. */
import { describe, expect, it } from "vitest";
import { hasFailed } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { planStandings } from "../../src/plans/standing.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { checkLettering } from "../../src/writers/lettered.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { expectWaits } from "../support/machines/waiting.ts";
import { onPaper, PAPER_NAMES } from "../support/pages/papers.ts";
import { runs } from "../support/runs.ts";

describe("the score cabinet", () => {
  const set = setOf(exampleFile("score-cabinet"));

  it("fits, closed, open and at both ends of travel, without a warning", () => {
    expect(set.checks.filter(({ level }) => level === "failure" || level === "warning")).toEqual([]);
    expect(hasFailed(set)).toBe(false);
  });

  it("has two doors that slide and two that hang", () => {
    expect(set.sliders.map(({ doors }) => doors.length)).toEqual([2]);
    expect(set.doors.map(({ meets }) => meets !== null)).toEqual([true, true]);
    const kinds = ["slide", "swing"].map((kind) => set.assemblies.filter(({ travel }) => travel.kind === kind).length);
    expect(kinds).toEqual([2, 2]);
  });

  it("has two doors wait, with something over, on a sheet that is cut for the case", () => {
    expect(expectWaits(set, set.steps)).toBe(2);
  });

  it("hangs on the wall by a rail that carries it, at its height, by fixings for its load and what is in it", () => {
    const [step] = set.steps.filter(({ title }) => title === "Hang score cabinet on the wall");
    const text = step!.text.join(" ");
    expect(text).toContain("level line 1100 mm above the floor for its lower end; its upper end comes to 1540 mm");
    expect(text).toMatch(/thin back alone does not hold.* 960 mm long/);
    // 20 kg/m, as the job says, on bottom and shelf; its own parts and its two sliding doors.
    const own = set.parts.filter(({ assembly }) => assembly.startsWith("score cabinet"));
    const metres =
      own.filter(({ role }) => role === "bottom" || role === "shelf").reduce((sum, part) => sum + part.length, 0) /
      1000;
    const mass = own.reduce((sum, part) => sum + part.mass, 0);
    const told = [...text.matchAll(/([\d.]+) kg/g)].map(([, kg]) => Number(kg));
    const due = [mass, 20 * metres, mass + 20 * metres];
    expect(due.map((kg, i) => Math.abs(told[i]! - kg) < 0.06)).toEqual([true, true, true]);
    expect(step!.cautions.join(" ")).toMatch(/wires and pipes.* who built it .* local codes come first/);
    expect(set.purchase.map(({ what }) => what)).toEqual(
      expect.arrayContaining(["Rail on the wall, solid wood", "Wall fixings, half with brackets"]),
    );
    expect(set.steps.indexOf(step!)).toBeGreaterThan(set.steps.findIndex(({ title }) => title.startsWith("Sand")));
  });

  it("hangs through a back that is stout enough, and stands where something is under it", () => {
    const kindsOf = (change: (copy: DryfitSet) => void): string[] => {
      const copy = structuredClone(set) as DryfitSet;
      change(copy);
      return planStandings({ ...copy, unit: "mm" }).flatMap((one) =>
        one.kind === "hang" ? [`${one.case} ${one.through} ${one.under}`] : [],
      );
    };
    const place = ({ assemblies }: DryfitSet) => assemblies.find(({ name }) => name === "score cabinet")!.place;
    expect(kindsOf(() => {})).toEqual(["score cabinet null 4"]);
    expect(
      kindsOf(({ parts }) => {
        parts.find(({ mark }) => mark === "7")!.thickness = 18;
      }),
    ).toEqual(["score cabinet 7 4"]);
    const locker = set.assemblies.find(({ name }) => name === "stand locker")!;
    expect(kindsOf((copy) => place(copy).at.splice(2, 1, locker.size[2]))).toEqual([]);
    expect(kindsOf((copy) => place(copy).at.splice(2, 1, 0))).toEqual([]);
  });

  it("grooves its case before that is glued up, and has the doors in it after", () => {
    const titles = set.steps.map(({ title }) => title);
    const [told] = set.sliders;
    const at = (find: (title: string) => boolean): number => titles.findIndex(find);
    const grooves = set.steps.findIndex(({ settings }) =>
      set.settings.some(
        ({ n, width, runs: cut }) =>
          settings.includes(n) && width === told!.groove && cut.some(({ mark }) => mark === told!.above.mark),
      ),
    );
    const glued = at((title) => title.includes("glue up score cabinet"));
    const slid = at((title) => title === "Slide the doors of score cabinet into their grooves");
    expect(grooves).toBeGreaterThan(-1);
    expect(glued).toBeGreaterThan(grooves);
    expect(slid).toBeGreaterThan(glued);
  });

  it.each(PAPER_NAMES.slice(0, runs(10)))("is drawn and lettered whole on %s", (paper) => {
    const pages = drawBundle(onPaper(set, paper));
    checkLettering(Object.values(pages).flat());
    const titles = pages.drawings.map(({ title }) => title);
    expect(titles).toContain("Front views with sliding doors, score cabinet");
    expect(titles.some((title) => title.startsWith("Sliding doors, score cabinet"))).toBe(true);
  });
});
