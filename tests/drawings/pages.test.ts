/** Every drawing and stick page of the examples and the small projects, as a draughtsman looks a sheet over before it is signed. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { drawTracks } from "../../src/drawings/doors/track.ts";
import { setIndex } from "../../src/drawings/lists/drawing-index.ts";
import { fill, group, lines, rect, rectSteps, text } from "../../src/paper/draw.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { everyExample, exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { faultsOn, filledShare, paintedOn } from "../support/pages/page-faults.ts";
import { onPaper, PAPER_NAMES, PAPERS, type PaperName } from "../support/pages/papers.ts";
import { faultsOfDrawings, faultsOfPages, faultsOfSticks } from "../support/pages/set-pages.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { IS_WHOLE } from "../support/runs.ts";

/** Each idea on one paper by turns; in a part of the tests every eighth idea. */
const SMALL = readdirSync(fileURLToPath(new URL("../projects", import.meta.url)))
  .map((file) => file.replace(/\.json$/, ""))
  .sort()
  .map((name, i) => [name, PAPER_NAMES[i % PAPER_NAMES.length]!] as const)
  .filter((_, i) => IS_WHOLE || i % 8 === 0);

/** Two of the eight papers by turns; all where the whole is asked for. */
const papersOf = (example: number): readonly PaperName[] =>
  PAPER_NAMES.filter((_, n) => IS_WHOLE || (n + example) % 4 === 0);

/** Three of the examples in a part of the tests. */
const SHOWN = IS_WHOLE ? everyExample().map((name) => [name, setOf(exampleFile(name))] as const) : exampleSets();

describe.each(SHOWN.map(([name, set], i) => [name, set, i] as const))("the pages of %s", (_name, set, i) => {
  it.each(papersOf(i))(
    "on %s: nothing over another, nothing outside, nothing too small, none mostly blank",
    (paper) => {
      expect(faultsOfDrawings(onPaper(set, paper))).toEqual([]);
    },
  );

  it("on sticks: nothing over another, nothing outside, nothing too small", () => {
    expect(faultsOfSticks(set)).toEqual([]);
  });
});

describe("the pages of a small project", () => {
  it.each(SMALL)(
    "%s on %s: nothing over another, nothing outside, nothing too small, none mostly blank",
    (name, paper) => {
      expect(faultsOfPages(onPaper(setOf(testFile(name)), paper))).toEqual([]);
    },
  );
});

describe("a track's table", () => {
  it("stands under the view, and under the sections where the view has no room over it", () => {
    const set = setOf(exampleFile("glaze-console"));
    const drawn = (height: number): { key: string; words: string }[] =>
      drawTracks({ ...set, paper: { ...set.paper, drawings: { name: "low", width: 279.4, height } } })
        .filter(({ key }) => /^track-1(-fixed|-sections)?$/.test(key))
        .map(({ key, shapes }) => ({
          key,
          words: textBoxes(shapes)
            .map(({ text }) => text)
            .join(" "),
        }));
    const [one, ...sections] = drawn(PAPERS.letter[1]);
    expect(sections.map(({ key }) => key)).toEqual(["track-1-sections"]);
    for (const said of ["Along the track", "6 bolts", "4 guides", "Doors: 1"]) expect(one!.words).toContain(said);
    const [view, table] = drawn(PAPERS.letter[1] - 10);
    for (const said of ["Along the track", "Doors: 1"]) expect(view!.words).toContain(said);
    expect(view!.words).not.toContain("6 bolts");
    expect(table!.key).toBe("track-1-sections");
    for (const said of ["6 bolts", "4 guides", "At a hanger"]) expect(table!.words).toContain(said);
  });
});

describe("the list of drawings", () => {
  it("has room for the numbers of more than a hundred", () => {
    const entry = (name: string, n: number, last: number) => ({ name, n, last, key: name });
    for (const index of [[entry("Steps", 123, 131)], [entry("Part 4, top panel", 104, 104), entry("Checks", 9, 9)]]) {
      const { block } = setIndex(index, 80, 200);
      expect(faultsOn(paintedOn({ shapes: block.shapes }), { x: -1, y: -1, width: 82, height: 202 }, 2.5)).toEqual([]);
    }
  });
});

describe("a look at a page", () => {
  const space = { x: 10, y: 10, width: 100, height: 100 };
  const faults = (shapes: Shape[]): string[] => faultsOn(paintedOn({ shapes }), space, 2.5);
  const word = text([20, 30], "rail", 3.5);

  it("finds text over text, also where one is turned in a group that has moved", () => {
    expect(faults([word, text([22, 31], "stile", 3.5)])).toEqual(["text over text: rail / stile"]);
    expect(faults([word, text([20, 40], "stile", 3.5)])).toEqual([]);
    expect(faults([word, group([text([0, 0], "stile", 3.5, { turn: 90 })], { move: [23, 32] })])).toEqual([
      "text over text: rail / stile",
    ]);
  });

  it("finds a line of any pen through a text, hatching aside", () => {
    const across = [[15, 28] as const, [60, 29] as const] as const;
    expect(faults([lines("thin", [across]), word])).toEqual(["a line through: rail"]);
    expect(faults([word, lines("hidden", [across])])).toEqual(["a line through: rail"]);
    expect(faults([lines("hatch", [across]), word])).toEqual([]);
    expect(
      faults([
        lines("thin", [
          [
            [15, 31],
            [60, 31],
          ],
        ]),
        word,
      ]),
    ).toEqual([]); // underlined
  });

  it("lets a line be painted over before the text is lettered, and not after", () => {
    const line = lines("thin", [
      [
        [15, 28],
        [60, 28],
      ],
    ]);
    const white: Shape = { ...rect("thin", { x: 18, y: 24, width: 14, height: 9 }), pen: null, fill: 1 };
    expect(faults([line, white, word])).toEqual([]);
    expect(faults([white, line, word])).toEqual(["a line through: rail"]);
    expect(faults([line, word, white])).toEqual(["a line through: rail", "a body over: rail"]);
  });

  it("finds a body over a text or under a part of it, and a figure that touches an outline", () => {
    const body = (x: number, y: number, grey: number): Shape => fill(grey, rectSteps({ x, y, width: 14, height: 9 }));
    expect(faults([word, body(18, 24, 0.25)])).toEqual(["a body over: rail"]);
    expect(faults([body(18, 24, 0.25), word])).toEqual([]); // lettered on it
    expect(faults([body(22, 24, 0.25), word])).toContain("a body over: rail");
    const level = (y: number): Shape => lines("outline", [[[15, y] as const, [60, y] as const] as const]);
    expect(faults([word, level(30.2)])).toEqual(["touches a line or a body: rail"]);
    expect(faults([word, body(18, 30.2, 0)])).toEqual(["touches a line or a body: rail"]);
    expect(faults([word, level(30.7), body(18, 30.7, 0)])).toEqual([]);
  });

  it("finds what leaves the frame, and small lettering", () => {
    expect(faults([text([105, 30], "rail", 3.5)])).toEqual(["outside: rail"]);
    expect(
      faults([
        lines("outline", [
          [
            [20, 20],
            [20, 111],
          ],
        ]),
      ]),
    ).toEqual(["outside: a line"]);
    expect(faults([text([20, 30], "rail", 2.4)])).toEqual(["small: rail"]);
  });

  it("tells a drawing whose third is used from one that is blank", () => {
    const view = (width: number): Shape[] => [rect("outline", { x: 12, y: 12, width, height: 96 })];
    expect(filledShare({ shapes: view(60) }, space)).toBeGreaterThan(1 / 3);
    expect(filledShare({ shapes: view(10) }, space)).toBeLessThan(1 / 3);
    expect(filledShare({ shapes: [rect("frame", { x: 5, y: 5, width: 110, height: 110 })] }, space)).toBe(0);
  });
});
