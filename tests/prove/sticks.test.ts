/** The sticks of random jobs on four papers, from the PDF's operators; some of them as pictures too. */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { drawLongSticks, drawRollSticks } from "../../src/drawings/sticks/long-sticks.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import type { Page } from "../../src/paper/shape.ts";
import { planSticks } from "../../src/plans/sticks/index.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { writeSvg } from "../../src/writers/svg.ts";
import { everyExample, exampleFile, setOf } from "../support/jobs/examples.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { randomFile } from "../support/jobs/random-file.ts";
import { openPdf, readPdf } from "../support/pages/pdf.ts";
import { faultsAtEdges, faultsOfBars, faultsOfFigures, faultsOfTiles } from "../support/pages/stick-operators.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";
import { rasteriseWindow, runsAlong } from "../support/pages/window.ts";
import { IS_WHOLE, runs, SEED, tell } from "../support/runs.ts";

const JOBS = 200;
const PICTURED = 10;
const PAPERS = [
  { name: "A4", width: 210, height: 297 },
  { name: "A3 landscape", width: 420, height: 297 },
  { name: "Letter", width: 215.9, height: 279.4 },
  { name: "Tabloid", width: 279.4, height: 431.8 },
];
/** A true printer, and the worst that copiers are known to do, by turns. */
const PRINTERS = [
  { x: 1, y: 1 },
  { x: 0.984, y: 1.012 },
];

type Job = { text: string; set: DryfitSet };

function jobsOf(count: number): Job[] {
  const jobs: Job[] = [];
  for (const { text } of fc.sample(randomFile, { numRuns: 3 * count, seed: SEED + 6 })) {
    if (jobs.length === count) break;
    const outcome = outcomeOf(text);
    if (outcome.kind === "made" && outcome.failures.length === 0) jobs.push({ text, set: outcome.set });
  }
  return jobs;
}

/** Each job on all papers; in a part of them, on one paper each by turns. */
const onPapers = (set: DryfitSet, i: number): DryfitSet[] =>
  PAPERS.filter((_, n) => IS_WHOLE || n === i % PAPERS.length).map((sticks, n) => {
    const print = PRINTERS[(i + n + Math.floor(i / PAPERS.length)) % PRINTERS.length]!;
    const paper = { ...set.paper, sticks, print };
    return { ...set, paper, sticks: planSticks({ ...set, paper }) };
  });

/** Walls of the first tiles by the picture, 600 dots an inch, printed by the printer that was measured. */
async function misplacedOnPicture(set: DryfitSet, bytes: Uint8Array): Promise<string[]> {
  const pdf = await openPdf(bytes);
  const bad: string[] = [];
  for (const stick of set.sticks) {
    const tile = stick.tiles[0]!;
    const [along, across] = tile.direction === "down" ? (["y", "x"] as const) : (["x", "y"] as const);
    const size = { x: set.paper.sticks.width, y: set.paper.sticks.height };
    const inFile = (axis: "x" | "y", at: number): number =>
      size[axis] / 2 + (at - size[axis] / 2) / set.paper.print[axis];
    const asPrinted = (at: number): number => size[along] / 2 + set.paper.print[along] * (at - size[along] / 2);
    const [from, to] = [tile[along] - 1, tile[along] + tile.to - tile.from + 1].map((at) => inFile(along, at)) as [
      number,
      number,
    ];
    const middle = inFile(across, tile[across]);
    const window =
      along === "x"
        ? { x: from, y: middle - 0.3, width: to - from, height: 0.6 }
        : { x: middle - 0.3, y: from, width: 0.6, height: to - from };
    const pane = await rasteriseWindow(pdf, tile.page, 600, window);
    const found = runsAlong(pane, along, middle).map(
      (run) => tile.from + asPrinted((run.from + run.to) / 2) - tile[along],
    );
    const walls = stick.marks.flatMap(({ at, width }) => (width === 0 ? [at] : [at, at + width]));
    for (const wall of walls.filter((at) => at < tile.to)) {
      if (!found.some((at) => Math.abs(at - wall) <= 0.1)) bad.push(`${stick.name}: ${wall}`);
    }
  }
  await pdf.destroy();
  return bad;
}

/** Walls of the uncut sticks by their SVG: true millimetres, the zero line 15 mm from its left edge. */
function misplacedInDrawing(set: DryfitSet, pages: Page[]): string[] {
  const printed = set.sticks.filter(({ tiles }) => tiles.length > 0);
  return pages.flatMap((page, i) => {
    const stick = printed[i]!;
    const svg = writeSvg(page, { embedFont: false, idPrefix: "" });
    const size = /<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
    if (size === null || size[1] !== size[3] || size[2] !== size[4]) return [`${stick.name}: not at its true size`];
    const strokes = [...svg.matchAll(/M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/g)].map((found) =>
      found.slice(1).map(Number),
    );
    // Those that cross the strip's middle, 32 mm down the page.
    const lines = strokes
      .filter(([x0, y0, x1, y1]) => x0 === x1 && Math.min(y0!, y1!) < 32 && Math.max(y0!, y1!) > 32)
      .map(([x]) => x!);
    const walls = stick.marks.flatMap(({ at, width }) => (width === 0 ? [at] : [at, at + width]));
    return walls
      .filter((wall) => !lines.some((x) => Math.abs(x - 15 - wall) <= 0.1))
      .map((wall) => `${stick.name}: ${wall} is not in its drawing`);
  });
}

/** The set as if its last groove lay 0.2 mm farther on. */
const moved = (set: DryfitSet): DryfitSet => ({
  ...set,
  sticks: set.sticks.map((stick) => {
    const last = stick.marks.filter(({ kind }) => kind === "groove").at(-1);
    return { ...stick, marks: stick.marks.map((mark) => (mark === last ? { ...mark, at: mark.at + 0.2 } : mark)) };
  }),
});

/** Every example, whatever it is made of. */
const examplesOf = (): Job[] => everyExample().map((name) => ({ text: name, set: setOf(exampleFile(name)) }));

describe("the sticks of the examples and of random jobs", () => {
  let jobs: Job[];
  beforeAll(() => {
    jobs = [...(IS_WHOLE ? examplesOf() : []), ...jobsOf(runs(JOBS))];
  }, 3_600_000);

  it("are true on every paper: walls, joins, bars, edges; nothing is lettered over anything", async () => {
    const examples = jobs.length - runs(JOBS);
    expect(examples).toBe(IS_WHOLE ? 5 : 0);
    const counts = { pages: 0, tiles: 0, walls: 0, figures: 0, fractions: 0, inColumns: 0, pictured: 0, drawings: 0 };
    for (const [i, { text, set }] of jobs.entries()) {
      for (const made of onPapers(set, i)) {
        const where = `${made.paper.sticks.name}, printed ${made.paper.print.x}: ${text}`;
        const pages = drawSticks(made);
        const bytes = await writePdf({ title: "t", subject: "s", date: set.job.date, pages });
        const file = await readPdf(bytes);
        expect(
          [...faultsOfTiles(made, file), ...faultsOfBars(made, file), ...faultsAtEdges(made, file)],
          where,
        ).toEqual([]);
        expect(
          pages.flatMap(({ shapes }) => overlapping(textBoxes(shapes))),
          where,
        ).toEqual([]);
        const figures = faultsOfFigures(made, file);
        expect(figures.faults, where).toEqual([]);
        counts.figures += figures.found;
        counts.fractions += figures.fractions;
        counts.inColumns += figures.inColumns;
        if (i === 0) expect(faultsOfTiles(moved(made), file)).not.toEqual([]); // the look would see a wall that is off
        if (i < examples + runs(PICTURED)) {
          expect(await misplacedOnPicture(made, bytes), where).toEqual([]);
          counts.pictured += 1;
        }
        counts.pages += pages.length;
        counts.tiles += made.sticks.flatMap(({ tiles }) => tiles).length;
        counts.walls += made.sticks.flatMap(({ marks }) => marks).length;
      }
      if (IS_WHOLE || i % 4 === 0) {
        const uncut = drawLongSticks(set);
        expect(misplacedInDrawing(set, uncut), text).toEqual([]);
        counts.drawings += uncut.length;
        const long = [...uncut, ...drawRollSticks({ ...set, sticks: planSticks(set) })];
        expect(
          long.flatMap(({ shapes }) => overlapping(textBoxes(shapes))),
          text,
        ).toEqual([]);
      }
    }
    expect(counts.pictured).toBeGreaterThan(0);
    expect(counts.figures).toBeGreaterThan(jobs.length);
    if (IS_WHOLE) tell("Sticks of random jobs", Object.entries(counts));
  }, 3_600_000);
});
