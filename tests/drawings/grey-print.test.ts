/** A page printed grey at 300 dpi, in black or white alone as an office printer does: the thinnest line of every pen is still there, unbroken. */
import { describe, expect, it } from "vitest";
import { line } from "../../src/paper/draw.ts";
import { PENS, type Pen } from "../../src/paper/pen.ts";
import type { Page, Point } from "../../src/paper/shape.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { darkness, type Raster, rasterise } from "../support/pages/raster.ts";

const DPI = 300;
const DOT = 25.4 / DPI; // a printer's dot, in millimetres
const BLACK = 0.5; // a dot that is darker is printed
const LONG = 20;
const STEPS = 6; // places of a line across a dot

const NAMES = Object.keys(PENS) as Pen[];

/** Every pen level and upright, each at some places across a printer's dot, and aslant. */
type Ruled = { pen: Pen; from: Point; to: Point };

const ruled: Ruled[] = NAMES.flatMap((pen, row) =>
  Array.from({ length: STEPS }, (_, i): Ruled[] => {
    const [x, y] = [10 + i * 4 + (i * DOT) / STEPS, 10 + row * 26 + i * 3 + (i * DOT) / STEPS];
    return [
      { pen, from: [40 + i * 24, y], to: [40 + i * 24 + LONG, y] },
      { pen, from: [x, 10 + row * 26], to: [x, 10 + row * 26 + LONG] },
      { pen, from: [190 + i * 3, 10 + row * 26], to: [190 + i * 3 + 7, 10 + row * 26 + LONG] },
    ];
  }).flat(),
);

const page: Page = {
  key: "pens",
  title: "Pens",
  bookmark: ["Pens"],
  label: "1",
  width: 230,
  height: 20 + NAMES.length * 26,
  shapes: ruled.map(({ pen, from, to }) => line(pen, from, to)),
};

/** Whether some dot at this place on the page, or beside it, is printed. */
function isPrinted(raster: Raster, [x, y]: Point): boolean {
  const [column, row] = [Math.floor(x / DOT), Math.floor(y / DOT)];
  return [-1, 0, 1].some((i) => [-1, 0, 1].some((j) => darkness(raster, column + i, row + j) > BLACK));
}

describe("a page of every pen", async () => {
  const bytes = await writePdf({ title: "Pens", subject: "Pens", date: "2026-11-20", pages: [page] });
  const raster = await rasterise(bytes, 1, DPI);

  it.each(NAMES)("keeps the %s line at 300 dpi, wherever it falls among the dots", (pen) => {
    const { dash } = PENS[pen];
    // Between two dashes there is nothing: as much of the line is there as its dashes take of it.
    const inked = dash.length === 0 ? 1 : dash.reduce((sum, one, i) => sum + (i % 2 === 0 ? one : 0), 0);
    const whole = dash.length === 0 ? 1 : dash.reduce((sum, one) => sum + one, 0);
    for (const { from, to } of ruled.filter((one) => one.pen === pen)) {
      const places = Array.from({ length: 200 }, (_, i): Point => {
        const f = (i + 0.5) / 200;
        return [from[0] + (to[0] - from[0]) * f, from[1] + (to[1] - from[1]) * f];
      });
      const printed = places.filter((place) => isPrinted(raster, place)).length / places.length;
      expect(printed, `${pen} from ${from}`).toBeGreaterThanOrEqual(dash.length === 0 ? 1 : (0.85 * inked) / whole);
    }
  });

  it("has nothing where no line is", () => {
    expect(isPrinted(raster, [225, 5])).toBe(false);
  });
});
