/**
 * Each part drawing is closed: from the figures that are shown on it the whole part can be worked out, none is missing, none
 * said twice but in brackets, as a check. What is read is the page alone, lines and lettering, as a person has it.
 */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { framePages } from "../../src/drawings/draughting/frame.ts";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { EXAMPLES, exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { readPdf } from "../support/pages/pdf.ts";
import { figuresOn, misprinted } from "../support/paper/misprint.ts";
import { seenInPdf } from "../support/paper/page.ts";
import { closePage, partPages } from "../support/paper/part-pages.ts";
import { IS_WHOLE, runs, SEED } from "../support/runs.ts";

const SMALL = readdirSync(new URL("../projects", import.meta.url)).map((name) => name.replace(".json", ""));
/** Each has something that no other part drawing has. */
const TRIED = [
  "drawers-dovetailed",
  "doors-sliding",
  "frame-loose-tenons",
  "lipping-band-before",
  "butt-dowels",
  "butt-screws",
  "no-back",
  "tongue",
  "loose-shelves-each-side",
  "wide-back",
];

const sets = (): (readonly [string, DryfitSet])[] => [
  ...[...EXAMPLES, "tile-sideboard", "score-cabinet"].map((name) => [name, setOf(exampleFile(name))] as const),
  ...(IS_WHOLE ? SMALL : TRIED).map((name) => [name, setOf(testFile(name))] as const),
];

/** Numbers below a bound, the same each time. */
function picker(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

describe("part drawings alone", () => {
  it.each(sets())("rebuild the parts of %s, no figure missing and none told twice", (_, set) => {
    const read = partPages(set).map((page) => closePage(set, page));
    expect(read.flatMap(({ faults }) => faults)).toEqual([]);
    expect(read.flatMap(({ marks }) => marks).sort()).toEqual(set.parts.map(({ mark }) => mark).sort());
  });

  it("are read from a PDF as from the shapes that it was written from", async () => {
    const set = setOf(exampleFile("ware-bookcase"));
    const pages = framePages(set, drawParts(set));
    const bytes = await writePdf({ title: "Parts", subject: "", date: "2026-11-20", pages });
    const { pages: printed } = await readPdf(bytes);
    expect(printed.flatMap((page) => closePage(set, seenInPdf(page)).faults)).toEqual([]);
  });

  it("do not close with one wrong digit in any figure", () => {
    const pick = picker(SEED);
    const pages = sets().flatMap(([name, set]) => partPages(set).map((page) => ({ name, set, page })));
    const unseen: string[] = [];
    for (let i = 0; i < runs(1000); i++) {
      const { name, set, page } = pages[pick(pages.length)]!;
      const figures = figuresOn(page);
      const at = figures[pick(figures.length)]!;
      const wrong = misprinted(page, at, pick);
      const what = `${name}: ${page.words[at]!.text} as ${wrong.words[at]!.text}`;
      if (isClosed(set, wrong)) unseen.push(what);
    }
    expect(unseen).toEqual([]);
  });
});

/** What cannot be read at all is seen as well. */
function isClosed(set: DryfitSet, page: Parameters<typeof closePage>[1]): boolean {
  try {
    return closePage(set, page).faults.length === 0;
  } catch {
    return false;
  }
}
