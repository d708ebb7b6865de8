import { describe, expect, it } from "vitest";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import { seatLines } from "../../src/drawings/parts/seats.ts";
import { webDetails } from "../../src/drawings/parts/web-detail.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { parseFigure, printedWithin, tokensOf } from "../support/pages/read-figures.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const textsOn = (shapes: readonly Shape[]): string[] => textBoxes(shapes).map(({ text }) => text);

describe("the web between grooves back to back", () => {
  it("is drawn at full size, with both depths and what is left of the thickness", () => {
    const set = setOf(exampleFile("glaze-console"));
    const divider = set.parts.find(({ mark }) => mark === "11")!;
    const [detail, ...others] = webDetails(set, divider);
    expect(others).toEqual([]);
    const read = tokensOf(textBoxes(detail!.shapes)).flatMap((token) => {
      const value = parseFigure(token.text, "in");
      return value === null || /^\d+$/.test(token.text) ? [] : [{ value, within: printedWithin(token, "in") }];
    });
    // Two depths of 7/32 and the rest of 0.704, read off the paper: together they are the thickness.
    const sum = read.reduce((total, { value }) => total + value, 0);
    const slack = read.reduce((total, { within }) => total + within, 0);
    expect(read).toHaveLength(3);
    expect(Math.abs(sum - divider.thickness)).toBeLessThanOrEqual(slack);
    expect(read.filter(({ value }) => Math.abs(value - (7 / 32) * 25.4) < 1e-6)).toHaveLength(2);
    for (const mark of ["10", "12"]) expect(textsOn(detail!.shapes)).toContain(mark);
    // Full size: the outline is as high as the part is thick, level lines only.
    const level = detail!.shapes
      .filter((shape) => shape.kind === "path" && shape.pen === "outline")
      .flatMap((shape) => segmentsOf([shape]))
      .filter(({ y0, y1, x0, x1 }) => y0 === y1 && x0 !== x1)
      .map(({ y0 }) => y0);
    expect(Math.max(...level) - Math.min(...level)).toBeCloseTo(divider.thickness, 6);
  });

  it("stands on the drawing of the part it names, and on no other", () => {
    const set = setOf(exampleFile("glaze-console"));
    const caption = "web between grooves back to back";
    const pages = drawParts(set).flatMap(({ parts, shapes }) =>
      textsOn(shapes)
        .filter((text) => text.includes(caption))
        .map((text) => ({ parts, text })),
    );
    // Small parts share a drawing: the caption says whose web it is.
    expect(pages.map(({ text }) => text)).toEqual([`11: ${caption}, full size`]);
    expect(pages[0]!.parts).toContain("11");
    for (const name of ["two-rows", "two-columns"]) {
      const plain = setOf(testFile(name));
      for (const part of plain.parts) expect(webDetails(plain, part)).toEqual([]);
    }
  });

  it("is one for grooves that leave as much, and names them all", () => {
    const set = setOf(testFile("shared-side"));
    const side = set.parts.find(({ mark }) => mark === "2")!;
    const details = webDetails(set, side);
    expect(details).toHaveLength(1);
    expect(textsOn(details[0]!.shapes)).toEqual(expect.arrayContaining(["3, 4, 6", "8, 9, 11"]));
  });
});

describe("how far a part goes in", () => {
  const lineOf = (atoms: ReturnType<typeof seatLines>[number]): string =>
    atoms
      .flatMap((atom) => (atom.kind === "word" ? [atom.text] : atom.kind === "drawn" ? textsOn(atom.shapes) : []))
      .join(" ");

  it("is told end by end where the web rule made one end shorter", () => {
    const set = setOf(testFile("shelves-opposite"));
    const shelves = set.parts.filter(({ role }) => role === "shelf").map(({ mark }) => mark);
    expect(seatLines(set, shelves).map(lineOf)).toEqual([
      "5 goes in: left end into 1, 9 deep, no gap; right end into 6, 5.8 deep, no gap",
      "7 goes in: left end into 6, 5.8 deep, no gap; right end into 2, 9 deep, no gap",
    ]);
  });

  it("gives every gap that is at a seat, as the joints of the set have it", () => {
    for (const [name, set] of exampleSets()) {
      for (const part of set.parts) {
        const text = seatLines(set, [part.mark]).map(lineOf).join(" ");
        const own = set.joints.filter(
          ({ entering, kind }) => entering === part.mark && (kind === "housed" || kind === "tongue"),
        );
        for (const { receiving, fit, gap } of own) {
          expect(text, `${name} ${part.mark}`).toMatch(new RegExp(`into [^;]*\\b${receiving}\\b`));
          if (gap[1] > 1e-6) expect(text).toContain(fit === "slip" ? "to slip" : "from rounding");
        }
        if (own.length > 0 && own.every(({ gap }) => gap[1] <= 1e-6)) expect(text).not.toMatch(/rounding|slip/);
      }
    }
  });
});
