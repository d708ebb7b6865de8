/** Boards are long and narrow: their widths are drawn larger than their lengths where lettering asks for it, and the drawing says so. */
import { describe, expect, it } from "vitest";
import { type Scale, scalesOf } from "../../src/drawings/draughting/scale.ts";
import { drawSheetDiagram } from "../../src/drawings/sheets/sheet-diagram.ts";
import { drawBoardLayouts, drawSheetLayouts } from "../../src/drawings/sheets/sheet-layout.ts";
import { alikeSheets } from "../../src/drawings/sheets/sheet-pieces.ts";
import type { Shape } from "../../src/paper/shape.ts";
import type { DryfitSet, SetSheet } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { paintedOn } from "../support/pages/page-faults.ts";
import { onPaper } from "../support/pages/papers.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const NAMES = ["face-frame", "worktop-solid", "base-of-lumber"] as const;
const PAPERS = ["a4", "letter upright"] as const;
const SETS = NAMES.flatMap((name) =>
  PAPERS.map((paper) => [`${name} on ${paper}`, onPaper(setOf(testFile(name)), paper)] as const),
);

const scaleNamed = (name: string): Scale => [...scalesOf("mm"), ...scalesOf("in")].find((one) => one.name === name)!;

const wordsOn = (shapes: readonly Shape[]): string =>
  textBoxes(shapes)
    .map(({ text }) => text)
    .join(" ");

/** The scales that a layout says it is drawn at. */
function scalesOn(shapes: readonly Shape[], main: string): { along: number; across: number } {
  const told = /Not to scale across: lengths (.+?), widths (.+?)\. Circled/.exec(wordsOn(shapes));
  if (told === null) return { along: scaleNamed(main).ratio, across: scaleNamed(main).ratio };
  expect(told[1]).toBe(main);
  return { along: scaleNamed(told[1]!).ratio, across: scaleNamed(told[2]!).ratio };
}

/** Whether some rectangle of four lines of the outline's pen has this size on paper. */
function hasOutline(shapes: readonly Shape[], width: number, height: number): boolean {
  const lines = paintedOn({ shapes: [...shapes] }).flatMap((one) =>
    one.kind === "line" && one.pen === "outline" ? [one] : [],
  );
  const has = (dx: number, dy: number): boolean =>
    lines.some(
      ({ from, to }) =>
        Math.abs(Math.abs(to[0] - from[0]) - dx) < 1e-6 && Math.abs(Math.abs(to[1] - from[1]) - dy) < 1e-6,
    );
  return has(width, 0) && has(0, height);
}

const boardsOf = (set: DryfitSet): { board: SetSheet; shapes: Shape[]; scale: string }[] => {
  const firsts = drawBoardLayouts(set).filter(({ scale }) => scale !== null);
  return alikeSheets(set.boards).map(([board], i) => ({
    board: board!,
    shapes: firsts[i]!.shapes,
    scale: firsts[i]!.scale!,
  }));
};

describe.each(SETS)("the boards of %s", (_name, set) => {
  it("are drawn at the two scales that are told, each of the standard series, widths never the smaller", () => {
    for (const { board, shapes, scale } of boardsOf(set)) {
      const { along, across } = scalesOn(shapes, scale);
      expect(across).toBeGreaterThanOrEqual(along);
      expect(hasOutline(shapes, board.length * along, board.width * across)).toBe(true);
    }
  });

  it("have every part lettered inside it: no leader crosses a figure", () => {
    for (const { board, shapes, scale } of boardsOf(set)) {
      const { along, across } = scalesOn(shapes, scale);
      const lettering = {
        unit: set.job.unit,
        stock: set.stock.find(({ id }) => id === board.stock)!,
        idsOf: (i: number) => [board.parts[i]!.id],
      };
      expect(drawSheetDiagram(board, along, lettering, across)).toMatchObject({ outside: 0, without: [] });
    }
  });

  it("and sheets, which are wide, are to scale in both directions", () => {
    for (const { shapes } of drawSheetLayouts(set)) expect(wordsOn(shapes)).not.toContain("Not to scale");
  });
});

it("draws some board's widths larger", () => {
  const told = SETS.flatMap(([, set]) => boardsOf(set)).filter(({ shapes }) =>
    wordsOn(shapes).includes("Not to scale across"),
  );
  expect(told.length).toBeGreaterThan(0);
});
