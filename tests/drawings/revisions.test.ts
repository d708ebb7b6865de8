/** The revision table, and clouds round what changed: on part drawings, in the cut list and in the settings, and nowhere else. */
import { describe, expect, it } from "vitest";
import { makeSet } from "../../src/build.ts";
import { drawDrawings } from "../../src/drawings/bundle.ts";
import { drawCover } from "../../src/drawings/lists/cover.ts";
import { drawCutList } from "../../src/drawings/lists/cut-list.ts";
import { indexEntries } from "../../src/drawings/lists/drawing-index.ts";
import { drawSettings } from "../../src/drawings/machines/settings.ts";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { jobWith, printed, problemsIn } from "../support/jobs/project-file.ts";
import { onPaper } from "../support/pages/papers.ts";
import { parseFigure, tokensOf } from "../support/pages/read-figures.ts";
import { faultsOfDrawings } from "../support/pages/set-pages.ts";
import { type Matrix, textBoxes, times, turned } from "../support/pages/text-boxes.ts";
import { IS_WHOLE } from "../support/runs.ts";

type Box = { x0: number; x1: number; y0: number; y1: number };

/** Outlines of nothing but arcs, more than a circle has. */
function cloudsIn(shapes: readonly Shape[], m: Matrix = [1, 0, 0, 1, 0, 0]): Box[] {
  return shapes.flatMap((shape): Box[] => {
    if (shape.kind === "group") {
      return cloudsIn(shape.shapes, times(m, turned(shape.move[0], shape.move[1], shape.turn)));
    }
    if (shape.kind !== "path" || shape.pen !== "outline") return [];
    const curves = shape.steps.flatMap((step) => (step.to === "curve" ? [step.at] : []));
    if (curves.length <= 4 || shape.steps.length !== curves.length + 2) return [];
    const spots = curves.map(([x, y]) => [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]] as const);
    const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
    return [{ x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) }];
  });
}

/** What is read inside each cloud of a page. */
function clouded(shapes: readonly Shape[]): string[][] {
  const tokens = tokensOf(textBoxes(shapes));
  return cloudsIn(shapes).map(
    (cloud) =>
      tokens
        .filter(({ x0, x1, y0, y1 }) => x0 > cloud.x0 && x1 < cloud.x1 && y0 > cloud.y0 && y1 < cloud.y1)
        .map(({ text }) => text)
        .filter((text) => !/^[()]$/.test(text)), // a check total stands in brackets
  );
}

const pagesOf = (set: DryfitSet, older: DryfitSet): Record<"parts" | "cutList" | "settings", string[]> => {
  const on = (drafts: { shapes: Shape[] }[]): string[] => drafts.flatMap(({ shapes }) => clouded(shapes)).flat();
  return {
    parts: on(drawParts(set, older)),
    cutList: on(drawCutList(set, older)),
    settings: on(drawSettings(set, older)),
  };
};

/** The set as it would have been, had one part been otherwise. */
function older(set: DryfitSet, mark: string, change: (part: SetPart) => void): DryfitSet {
  const was = structuredClone(set);
  change(was.parts.find((part) => part.mark === mark)!);
  return was;
}

/** A few of many where only a part of the tests is run. */
const some = <T>(list: readonly T[], count: number): T[] =>
  IS_WHOLE ? [...list] : list.filter((_, i) => i % Math.ceil(list.length / count) === 0);

const STEP = 3.175; // a whole step of either unit's figures: 1/8 in

describe("a set laid beside itself", () => {
  it.each(some(exampleSets().reverse(), 1))("%s: no cloud, and the very same pages", (_, set) => {
    expect(drawParts(set, set)).toEqual(drawParts(set));
    expect(drawCutList(set, set)).toEqual(drawCutList(set));
    expect(drawSettings(set, set)).toEqual(drawSettings(set));
  });
});

describe.each(some(["stopped-shelves", "example-a-in"], 1))("one figure of %s that was another", (name) => {
  const set = setOf(testFile(name));
  const values = (texts: string[]): number[] => texts.map((text) => parseFigure(text, set.job.unit)!);
  /** Every cloud holds one of these lengths, and there is a cloud. */
  const expectOnly = (texts: string[], lengths: readonly number[]): void => {
    expect(texts.length).toBeGreaterThan(0);
    for (const value of values(texts)) {
      expect(Math.min(...lengths.map((length) => Math.abs(length - value))), texts.join()).toBeLessThan(0.03);
    }
  };

  it("length or width: on its drawing and in the cut list, and not in the settings", () => {
    for (const side of ["length", "width"] as const) {
      for (const part of some(set.parts, 1)) {
        const pages = pagesOf(
          set,
          older(set, part.mark, (was) => {
            was[side] += STEP;
          }),
        );
        // What is measured from the far end reads otherwise as well.
        const { features, [side]: size } = part;
        const fromFar = features.flatMap(({ at, width, from, to }) => [
          size - at - width,
          size - at,
          size - to,
          size - from,
        ]);
        expectOnly(pages.parts, [size, ...fromFar]);
        expectOnly(pages.cutList, [size]);
        expect(pages.settings).toEqual([]);
      }
    }
  });

  const grooves = set.parts.flatMap((part) =>
    part.features.flatMap((feature, i) => (feature.kind === "groove" ? [{ part, feature, i }] : [])),
  );
  const beforeWith = (of: (typeof grooves)[number], change: (feature: SetFeature) => void): DryfitSet =>
    older(set, of.part.mark, (was) => change(was.features[of.i]!));

  it("a groove's depth or width: on its drawing alone", () => {
    for (const one of some(grooves, 2)) {
      const { part, feature } = one;
      const deep = pagesOf(
        set,
        beforeWith(one, (was) => {
          was.depth -= STEP / 2;
        }),
      );
      const webs = part.features.map((other) => part.thickness - feature.depth - other.depth);
      expectOnly(deep.parts, [feature.depth, ...webs]);
      expect([...deep.cutList, ...deep.settings]).toEqual([]);
      const wide = pagesOf(
        set,
        beforeWith(one, (was) => {
          was.width -= STEP / 2;
        }),
      );
      const run = set.settings
        .flatMap(({ runs }) => runs)
        .find(({ mark, feature: n }) => mark === part.mark && n === one.i)!;
      const size = run.datum[0] === "l" ? part.length : part.width;
      const wall = run.datum[1] === "1" ? [size - feature.at - feature.width] : [];
      expectOnly(wide.parts, [feature.width, ...wall]);
    }
  });

  it("a groove's place: the figure from its datum, and no other", () => {
    for (const one of some(grooves, 2)) {
      const { part, feature } = one;
      const { parts } = pagesOf(
        set,
        beforeWith(one, (was) => {
          was.at -= STEP / 4;
        }),
      );
      const run = set.settings
        .flatMap(({ runs }) => runs)
        .find(({ mark, feature: n }) => mark === part.mark && n === one.i)!;
      const size = run.datum[0] === "l" ? part.length : part.width;
      const [low, high] = [feature.at, feature.at + feature.width];
      expectOnly(parts, run.datum[1] === "1" ? [size - high] : [low]);
    }
  });
});

describe("a screw of a table that stood elsewhere", () => {
  it("is in a cloud, and so is the line of a row that lay elsewhere, and no other figure", () => {
    const set = setOf(testFile("wide-back"));
    const back = set.parts.find(({ role }) => role === "back")!;
    const was = structuredClone(set);
    const own = was.joints.filter(({ receiving, fasteners }) => receiving === back.mark && fasteners !== null);
    const [first, last] = [own[0]!.fasteners!, own.at(-1)!.fasteners!];
    first.positions![2]! -= 4;
    last.at -= 3;
    const now = set.joints.filter(({ receiving, fasteners }) => receiving === back.mark && fasteners !== null);
    const told = [now[0]!.fasteners!.positions![2]!, now.at(-1)!.fasteners!.at];
    expect(pagesOf(set, was).parts.map(Number).sort()).toEqual(told.sort());
  });
});

describe("settings", () => {
  const set = setOf(testFile("example-a-in"));
  const [setting] = set.settings as [DryfitSet["settings"][number]];

  it("a fence that stood elsewhere is in a cloud, once, with its letter", () => {
    const was = structuredClone(set);
    was.settings[0]!.fence += STEP;
    const pages = pagesOf(set, was);
    const values = new Set(pages.settings.map((text) => parseFigure(text, "in")!.toFixed(2)));
    expect([...values]).toEqual([setting.fence.toFixed(2)]);
    expect(drawSettings(set, was).flatMap(({ shapes }) => cloudsIn(shapes))).toHaveLength(1);
  });

  it("a part that was not run there is in a cloud by its mark", () => {
    const was = structuredClone(set);
    const [run] = was.settings[0]!.runs.splice(0, 1) as [(typeof setting.runs)[number]];
    expect(pagesOf(set, was).settings).toEqual([run.mark]);
  });
});

describe("a part that is new", () => {
  it("has the letter and the word, and no cloud", () => {
    const set = setOf(testFile("example-a-in"));
    const { mark } = set.parts.at(-1)!;
    const was = { ...set, parts: set.parts.filter((part) => part.mark !== mark), settings: set.settings };
    const texts = drawParts(set, was).flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));
    expect(texts.filter((text) => text === "new")).toHaveLength(1);
    expect(drawParts(set, was).flatMap(({ shapes }) => cloudsIn(shapes))).toEqual([]);
  });
});

/** An edit of an example, as a maker gives it out: the next letter, with its line in the table. */
function nextRevision(): { set: DryfitSet; was: DryfitSet } {
  const was = setOf(IS_WHOLE ? exampleFile("ware-bookcase") : testFile("stopped-shelves"));
  const table = [
    { revision: "A", date: "2026-10-01", words: "First issue" },
    { revision: "B2", date: was.job.date, words: "Lowest row higher, for the large platters" },
  ];
  const set = structuredClone(was);
  const moved = set.parts.filter(({ features }) => features.some(({ kind }) => kind === "groove"));
  for (const part of moved) for (const feature of part.features) feature.depth -= set.job.step;
  return { was, set: { ...set, job: { ...set.job, revision: "B2", revisions: table } } };
}

describe("a later revision", () => {
  const { set, was } = nextRevision();
  const drawings = drawDrawings(set, was);

  it.each(some(["a4 upright", "letter", "tabloid"] as const, 1))("stands on %s with nothing over another", (paper) => {
    expect(faultsOfDrawings(onPaper(set, paper), was)).toEqual([]);
  });

  it("is the same every time", () => {
    expect(drawDrawings(structuredClone(set), structuredClone(was))).toEqual(drawings);
  });

  it("stands in every title block with its words, whole or not at all, and the whole table on the cover, the newest first", () => {
    for (const { shapes } of drawings) {
      const texts = textBoxes(shapes).map(({ text }) => text);
      expect(texts).toContain("What changed");
      expect(texts.includes("Lowest row higher, for the large platters") || texts.includes("see the cover")).toBe(true);
      expect(texts.filter((text) => text.includes("\u2026"))).toEqual([]);
    }
    const cover = textBoxes(drawings[0]!.shapes).map(({ text }) => text);
    expect(cover.join(" ")).toMatch(
      /Revisions B2 \S+ Lowest row higher, for the large platters A 2026-10-01 First issue/,
    );
  });
});

describe("the cover", () => {
  it("goes on where forty revisions and an index of two hundred do not fit, every line once and every link", () => {
    const base = setOf(testFile("example-a-in"));
    const revisions = Array.from({ length: 40 }, (_, i) => ({
      revision: `R${i}`,
      date: base.job.date,
      words: `change number ${i}`,
    }));
    const set = { ...base, job: { ...base.job, revision: "R39", revisions } };
    const drafts = Array.from({ length: 200 }, (_, i) => ({
      key: `part-${i}`,
      name: `Part ${i}, shelf`,
      bookmark: ["Part drawings", `Part ${i}, shelf`],
      scale: null,
      shapes: [],
    }));
    const covers = drawCover(set, indexEntries(drafts, 2));
    expect(covers.length).toBeGreaterThan(1);
    const texts = covers.flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));
    for (let i = 0; i < 40; i++) expect(texts.filter((text) => text === `change number ${i}`)).toHaveLength(1);
    const links = covers.flatMap(({ shapes }) => linksIn(shapes));
    expect(links).toEqual(drafts.map(({ key }) => key));
    expect(texts).toContain(String(covers.length + 200));
  });
});

function linksIn(shapes: readonly Shape[]): string[] {
  return shapes.flatMap((shape) => {
    if (shape.kind === "group") return linksIn(shape.shapes);
    return shape.kind === "link" && "page" in shape.to ? [shape.to.page] : [];
  });
}

describe("the table in a project file", () => {
  const withTable = (lines: string): string => jobWith(['"revision": "A"', `"revision": "A", "revisions": [${lines}]`]);
  const line = (revision: string, date: string): string =>
    `{ "revision": "${revision}", "date": "${date}", "words": "w" }`;

  it("ends with the job's own revision", () => {
    expect(printed(problemsIn(withTable(line("B", "2026-11-20"))))).toBe(
      [
        "job.json:2:110  job.revisions[0].revision",
        '  error: the last revision of the table is "B"',
        '  expected: the job\'s own, "A"',
        "  try: add a line for this revision, or change job.revision",
      ].join("\n"),
    );
  });

  it("and with its date", () => {
    expect(printed(problemsIn(withTable(line("A", "2026-11-19"))))).toBe(
      [
        "job.json:2:123  job.revisions[0].date",
        '  error: revision "A" is of 2026-11-19 in the table',
        "  expected: the job's own date, 2026-11-20",
        "  try: give both the same date",
      ].join("\n"),
    );
  });

  it("holds each revision once, the oldest first: both faults are told at once", () => {
    const lines = [line("A", "2026-11-20"), line("0", "2026-10-01"), line("A", "2026-11-20")].join(", ");
    expect(problemsIn(withTable(lines)).map(({ found }) => found)).toEqual([
      "2026-10-01, after a revision of 2026-11-20",
      'revision "A" is in the table twice',
    ]);
  });
});

describe("a set that changed and kept its letter", () => {
  it("is warned of", () => {
    const text = (size: number): string => `{
      "job": { "number": "R-1", "title": "Box", "date": "2026-11-20", "revision": "A" }, "unit": "mm",
      "stock": { "panel": { "name": "18 mm plywood", "nominal": 18, "measured": 17.6, "sheet": { "length": 2440, "width": 1220 } } },
      "cases": [{ "name": "box", "width": ${size}, "height": 400, "depth": 300, "stock": { "all": "panel", "back": "panel" } }]
    }`;
    const setFor = (size: number, olderSet: DryfitSet | null): DryfitSet =>
      makeSet(readProjectText(text(size), "job.json").project, {
        draft: false,
        olderSet,
        changedOnly: olderSet !== null,
      });
    const first = setFor(600, null);
    const ids = (set: DryfitSet): string[] => set.checks.filter(({ id }) => id === "revision").map(({ text: t }) => t);
    expect(ids(setFor(600, first))).toEqual([]);
    expect(ids(setFor(610, first))).toEqual([
      "Parts have changed, and this set still calls itself revision A, as the one before it did.",
    ]);
  });
});
