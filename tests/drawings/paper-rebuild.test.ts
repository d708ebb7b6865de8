/**
 * The strongest test that there is: cut list, buying list, settings and part drawings read back from the pages of the bundle, by
 * visible lettering and lines alone. They must agree, the settings alone must make every groove that is drawn, and the cases put
 * together as the words say must pass the dry fit. Nothing comes from the set, from an attachment or from what is not seen.
 */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { readPdf } from "../support/pages/pdf.ts";
import { putTogether } from "../support/paper/case.ts";
import { clearSizeFaults } from "../support/paper/clear-sizes.ts";
import { figuresOf, misprinted } from "../support/paper/misprint.ts";
import { seenInPdf } from "../support/paper/page.ts";
import { faultsOfPaper, HELD_OTHERWISE, type PaperPage, paperOf, partsOn, sorted } from "../support/paper/paper.ts";
import { IS_WHOLE, runs, SEED } from "../support/runs.ts";

const namesIn = (folder: string): string[] =>
  readdirSync(new URL(folder, import.meta.url))
    .map((name) => name.replace(".json", ""))
    .sort();

const EXAMPLES = namesIn("../../projects");

const SMALL = namesIn("../projects");
/** Told by other words than grooves: what is screwed or doweled, held from both sides, or stands back. */
const OTHERWISE = ["back-sections-applied", "butt-dowels", "stretchers", "twin-rack-in", "wide-back"];
/** In a part of the tests every twelfth beside those. */
const TRIED = SMALL.filter((name, i) => IS_WHOLE || i % 12 === 0 || OTHERWISE.includes(name));

/** Parts of the cases themselves, and whether they have all been placed. */
function placedIn(pages: readonly PaperPage[]): { cases: number; placed: number } {
  const parts = partsOn(pages).filter(({ caption }) => !HELD_OTHERWISE.test(caption.name));
  return {
    cases: parts.reduce((sum, { caption }) => sum + caption.count, 0),
    placed: putTogether(parts, parts[0]!.unit).placed.length,
  };
}

describe("cases rebuilt from paper", () => {
  it.each(IS_WHOLE ? EXAMPLES : ["ware-bookcase"])("fit, read from the bundle of %s", async (name) => {
    const { drawings, sticks, labels } = drawBundle(setOf(exampleFile(name)));
    const document = { title: "", subject: "", date: "2026-11-20", pages: [...drawings, ...sticks, ...labels] };
    const { pages } = await readPdf(await writePdf(document));
    const paper = sorted(pages.map(seenInPdf));
    expect([...new Set(paper.map(({ kind }) => kind))].sort()).toEqual(["list", "part", "settings", "stock"]);
    expect(faultsOfPaper(paper)).toEqual([]);
  });

  it.each([
    ...EXAMPLES.map((name) => [name, exampleFile(name)] as const),
    ...TRIED.map((name) => [name, testFile(name)] as const),
  ])("fit, and all pages agree: %s", (_, file) => {
    const set = setOf(file);
    const paper = paperOf(set);
    const { cases, placed } = placedIn(paper);
    expect(placed).toBe(cases);
    expect([...faultsOfPaper(paper), ...clearSizeFaults(set)]).toEqual([]);
  });

  it("do not fit, or the pages disagree, with one wrong digit in any figure", () => {
    const pick = picker();
    const jobs = [
      ...["ware-bookcase", "wedging-pair"].map(exampleFile),
      ...["two-rows", "tongue", "kick", "example-a-in", "stretchers", "butt-dowels", "wide-back"].map(testFile),
    ].map((file) => paperOf(setOf(file)));
    const unseen: string[] = [];
    for (let tried = 0; tried < runs(1000); tried++) {
      const pages = jobs[pick(jobs.length)]!;
      const kinds = [...new Set(pages.map(({ kind }) => kind))];
      const kind = kinds[pick(kinds.length)]!;
      const printed = pages.filter((one) => one.kind === kind && figuresOf(one).length > 0);
      const paper = printed[pick(printed.length)]!;
      const figures = figuresOf(paper);
      const at = figures[pick(figures.length)]!;
      const wrong = { ...paper, page: misprinted(paper.page, at, pick) };
      if (isGood(pages.map((one) => (one === paper ? wrong : one))))
        unseen.push(`${kind}: ${paper.page.words[at]!.text} as ${wrong.page.words[at]!.text}`);
    }
    expect(unseen).toEqual([]);
  });

  it("do not fit with one wrong digit in any figure of a table of screws", () => {
    const pages = paperOf(setOf(testFile("wide-back")));
    const paper = pages.find(({ page }) => page.words.some(({ text }) => text === "Near face"))!;
    const figures = figuresOf(paper);
    expect(figures.length).toBeGreaterThan(30);
    const pick = picker();
    const tried = figures.filter((_, i) => IS_WHOLE || i % 4 === 0);
    const unseen = tried.filter((at) => {
      const wrong = { ...paper, page: misprinted(paper.page, at, pick) };
      return isGood(pages.map((one) => (one === paper ? wrong : one)));
    });
    expect(unseen.map((at) => paper.page.words[at]!.text)).toEqual([]);
  });
});

/** Numbers below a bound, the same each time. */
function picker(): (below: number) => number {
  let state = SEED;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** What cannot be read, or put together at all, is seen as well. */
function isGood(pages: readonly PaperPage[]): boolean {
  try {
    return faultsOfPaper(pages).length === 0;
  } catch {
    return false;
  }
}
