/** The score cabinet: doors that slide in wooden grooves, and a pair of slabs on hinges in the locker under them; both fit, and are drawn whole. */
import { describe, expect, it } from "vitest";
import { hasFailed } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
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
