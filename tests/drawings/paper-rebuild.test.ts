/**
 * The strongest test that there is: the part drawings read back from the pages of the bundle, by visible lettering and lines
 * alone, put together as their words say, and tried by the dry fit. Nothing comes from the set, from an attachment or from
 * what is not seen.
 */
import { describe, expect, it } from "vitest";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { EXAMPLES, exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { readPdf } from "../support/pages/pdf.ts";
import { putTogether } from "../support/paper/case.ts";
import { fitOnPaper } from "../support/paper/fit.ts";
import { figuresOn, misprinted } from "../support/paper/misprint.ts";
import { type SeenPage, seenInPdf } from "../support/paper/page.ts";
import { type ReadPart, readParts } from "../support/paper/part/part.ts";
import { partPages } from "../support/paper/part-pages.ts";
import { readPartPage } from "../support/paper/part-views.ts";
import { runs, SEED } from "../support/runs.ts";

/** Every figure of these is printed as it is: millimetres with no more than two decimals. */
const EXACT = [
  "two-rows",
  "two-columns",
  "shelves-opposite",
  "shelves-each-side",
  "bays-in-bays",
  "divider-on-shelf",
  "housing-back",
  "stopped-shelves",
  "rabbeted-back",
  "three-alike",
  "no-back",
  "through-box",
  "tongue",
  "kick",
  "leave",
];

const partsOf = (pages: readonly SeenPage[]): ReadPart[] => pages.flatMap((page) => readParts(readPartPage(page)));

/** What the paper says against itself, and what does not fit. */
function faultsOf(pages: readonly SeenPage[]): string[] {
  const parts = partsOf(pages);
  const together = putTogether(parts);
  const { step } = readPartPage(pages[0]!);
  return [
    ...parts.flatMap(({ faults }) => faults),
    ...together.unplaced.map((mark) => `${mark} has no place`),
    ...fitOnPaper(together, step),
  ];
}

/** Of a bundle's pages the part drawings, by their title blocks. */
const isPartDrawing = ({ words }: SeenPage): boolean =>
  words.some(({ text, bold }) => bold && /^Parts? \d/.test(text)) && words.some(({ text }) => text === "Drawing no.");

/** What no groove holds: strips and bases, frames, fronts and tops, told by other drawings. */
const HELD_OTHERWISE = /filler|plinth|rail|stile|door|drawer|applied front|slab|packing|worktop|loose shelf|runner/;

describe("a case rebuilt from paper", () => {
  it("fits, read from the bundle of an example", async () => {
    const set = setOf(exampleFile("ware-bookcase"));
    const { drawings, sticks, labels } = drawBundle(set);
    const document = { title: "", subject: "", date: "2026-11-20", pages: [...drawings, ...sticks, ...labels] };
    const { pages } = await readPdf(await writePdf(document));
    const parts = pages.map(seenInPdf).filter(isPartDrawing);
    expect(parts.length).toBeGreaterThan(3);
    expect(faultsOf(parts)).toEqual([]);
    expect(putTogether(partsOf(parts)).placed).toHaveLength(set.parts.length);
  });

  it.each(EXACT)("fits: %s", (name) => {
    const set = setOf(testFile(name));
    expect(faultsOf(partPages(set))).toEqual([]);
  });

  it.each([...EXAMPLES, "tile-sideboard"])(
    "of %s: each housed part has its place, and every loop of figures closes",
    (name) => {
      const set = setOf(exampleFile(name));
      const parts = partsOf(partPages(set)).filter(({ caption }) => !HELD_OTHERWISE.test(caption.name));
      // Thicknesses and gaps that are no whole figure are printed rounded: a loop takes up a few of these.
      const { unplaced, faults } = putTogether(parts, set.job.unit === "mm" ? 0.03 : 0.003);
      expect(faults).toEqual([]);
      const called = (mark: string): string => set.parts.find((part) => part.mark === mark)!.name;
      expect(unplaced.map(called).filter((one) => !HELD_OTHERWISE.test(one))).toEqual([]);
    },
  );

  it("does not fit, or does not close, with one wrong digit in any figure", () => {
    let state = SEED;
    const pick = (below: number): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return Math.floor((state / 2 ** 32) * below);
    };
    // Two sides of one drawing go wrong together, and still fit: where each has its own, one tells on the other.
    const jobs = [exampleFile("ware-bookcase"), ...EXACT.map(testFile)]
      .map((file) => partPages(setOf(file)))
      .filter((pages) => partsOf(pages).every(({ caption }) => caption.count === 1 || !caption.name.includes("side")));
    const unseen: string[] = [];
    const own = jobs.map(alone);
    for (let tried = 0; tried < runs(1000); ) {
      const job = pick(jobs.length);
      const pages = jobs[job]!;
      const n = pick(pages.length);
      const figures = figuresOn(pages[n]!);
      const at = figures[pick(figures.length)]!;
      if (own[job]!.includes(pages[n]!.words[at]!.text)) continue;
      tried += 1;
      const wrong = misprinted(pages[n]!, at, pick);
      if (isGood(pages.map((page, k) => (k === n ? wrong : page))))
        unseen.push(`${pages[n]!.words[at]!.text} as ${wrong.words[at]!.text}`);
    }
    expect(unseen).toEqual([]);
  });
});

/**
 * Figures that stand alone on the part drawings, other drawings having their counterparts: the thickness of a stock that one
 * part is of, and how deep the toe space is.
 */
function alone(pages: readonly SeenPage[]): string[] {
  const parts = partsOf(pages);
  const single = parts.filter(
    ({ caption }) => parts.filter((other) => other.caption.stock === caption.stock).length === 1,
  );
  const toes = parts.flatMap(({ notes }) =>
    notes.flatMap((note) =>
      note.kind === "notch" && note.corners.some(({ reason }) => reason.includes("toe space"))
        ? [note.across.value]
        : [],
    ),
  );
  return [...single.map(({ caption }) => caption.thickness), ...toes].map(String);
}

/** What cannot be read, or put together at all, is seen as well. */
function isGood(pages: readonly SeenPage[]): boolean {
  try {
    return faultsOf(pages).length === 0;
  } catch {
    return false;
  }
}
