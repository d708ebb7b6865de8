import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Resvg } from "@resvg/resvg-js";
import { describe, expect, it } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { fill, group, line, polygonSteps, rectSteps, text } from "../../src/paper/draw.ts";
import { measureText } from "../../src/paper/lettering.ts";
import type { Page, Point, Shape } from "../../src/paper/shape.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { writeSvg } from "../../src/writers/svg.ts";
import { link, METACHARACTERS, sampleDocument, samplePage } from "../fixtures/sample-document.ts";
import { openBrowser } from "../support/browser.ts";
import { darkness, inkOf, type Raster, rasterise, rasteriseSvg } from "../support/pages/raster.ts";

const INLINE = { embedFont: false, idPrefix: "d1-" };
const FILE = { embedFont: true, idPrefix: "" };

const pageOf = (shapes: Shape[], more: Partial<Page> = {}): Page => ({
  key: "page",
  title: "Page",
  bookmark: [],
  label: "1",
  width: 100,
  height: 60,
  shapes,
  ...more,
});

const inline = (...shapes: Shape[]): string => writeSvg(pageOf(shapes), INLINE);

const count = (svg: string, pattern: RegExp): number => [...svg.matchAll(pattern)].length;

/** What XML says the text of each text element is. */
const textsIn = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, content]) =>
    content!.replace(/&(lt|gt|quot|amp);/g, (_, name: string) => ({ lt: "<", gt: ">", quot: '"', amp: "&" })[name]!),
  );

/** Darkness by squares of `cell` pixels: how two pictures are compared whose edges are smoothed differently. */
function coarse(raster: Raster, cell: number): number[] {
  const cells: number[] = [];
  for (let top = 0; top + cell <= raster.height; top += cell) {
    for (let left = 0; left + cell <= raster.width; left += cell) {
      let dark = 0;
      for (let row = top; row < top + cell; row++) {
        for (let column = left; column < left + cell; column++) dark += darkness(raster, column, row);
      }
      cells.push(dark / cell ** 2);
    }
  }
  return cells;
}

describe("an SVG drawing", () => {
  it("states its size in millimetres, with a unit of the drawing for each", () => {
    const svg = writeSvg(pageOf([], { width: 279.4, height: 215.9 }), INLINE);
    expect(svg).toMatch(/^<svg [^>]*width="279.4mm" height="215.9mm" viewBox="0 0 279.4 215.9"/);
    const { width, height } = new Resvg(svg);
    expect(width).toBeCloseTo((279.4 / 25.4) * 96, 2);
    expect(height).toBeCloseTo((215.9 / 25.4) * 96, 2);
  });

  it("shows the same picture as the PDF of the same page", async () => {
    const dpi = 150;
    const printed = await rasterise(await writePdf(sampleDocument), 1, dpi);
    const shown = rasteriseSvg(writeSvg(samplePage, FILE), dpi);
    expect(Math.abs(shown.width - printed.width)).toBeLessThanOrEqual(1);
    expect(Math.abs(shown.height - printed.height)).toBeLessThanOrEqual(1);
    const [inPdf, inSvg] = [inkOf(printed, dpi), inkOf(shown, dpi)];
    expect(inPdf).toBeGreaterThan(500);
    expect(Math.abs(inSvg - inPdf) / inPdf).toBeLessThan(0.02);
    const width = Math.min(printed.width, shown.width);
    const cut = (raster: Raster): Raster => ({
      ...raster,
      height: Math.min(printed.height, shown.height),
      width,
      data: raster.width === width ? raster.data : narrowed(raster, width),
    });
    const [a, b] = [coarse(cut(printed), 12), coarse(cut(shown), 12)]; // squares of 2 mm
    const worst = Math.max(...a.map((dark, i) => Math.abs(dark - b[i]!)));
    expect(worst).toBeLessThan(0.05);
  }, 60_000);

  it("is the same written twice, and whatever was drawn before it", () => {
    const once = writeSvg(samplePage, INLINE);
    writeSvg(pageOf([group([line("thin", [0, 0], [1, 1])], { clip: { x: 0, y: 0, width: 1, height: 1 } })]), INLINE);
    expect(writeSvg(samplePage, INLINE)).toBe(once);
  });

  it("puts down numbers to four decimals, without exponents, noise or negative zero", () => {
    const svg = inline(
      line("thin", [0.1 + 0.2, 1e-7], [-0.00001, 1 / 3]),
      group([text([1, 2], "a", 3)], { turn: 90, move: [0.1 + 0.2, 0] }),
    );
    expect(svg).toContain('d="M0.3 0L0 0.3333"');
    expect(svg).toContain('transform="translate(0.3 0) rotate(-90)"');
    expect(svg).not.toMatch(/\de[-+]?\d|NaN|Infinity|undefined|\d\.\d{5}|-0[^.\d]/);
  });

  it("refuses what is no number", () => {
    expect(() => inline(line("thin", [0, Number.NaN], [1, 1]))).toThrow("Internal error: NaN cannot be drawn");
    expect(() => inline(text([1, 1], "a", Number.POSITIVE_INFINITY))).toThrow(
      "Internal error: Infinity cannot be drawn",
    );
    expect(() => inline(fill(1.2, rectSteps({ x: 0, y: 0, width: 1, height: 1 })))).toThrow(
      "Internal error: 1.2 is no grey",
    );
  });
});

/** The left `width` columns of a picture. */
function narrowed(raster: Raster, width: number): Uint8ClampedArray {
  const data = new Uint8ClampedArray(4 * width * raster.height);
  for (let row = 0; row < raster.height; row++) {
    const start = 4 * row * raster.width;
    data.set(raster.data.subarray(start, start + 4 * width), 4 * row * width);
  }
  return data;
}

describe("text", () => {
  it("comes out as text, whatever markup it holds, in well-formed XML", () => {
    const page = pageOf([text([1, 10], METACHARACTERS, 3)], { title: METACHARACTERS });
    for (const options of [INLINE, FILE]) {
      const svg = writeSvg(page, options);
      expect(textsIn(svg)).toEqual([METACHARACTERS]);
      expect(svg).not.toContain("<b>");
      expect(() => new Resvg(svg)).not.toThrow();
    }
    expect(() => new Resvg(writeSvg(page, FILE).replace("&lt;", "<"))).toThrow(); // the reader is a strict one
  });

  it("keeps every space, so that it is as wide as it was measured", () => {
    expect(textsIn(inline(text([1, 10], "  two  spaces ", 3)))).toEqual(["  two  spaces "]);
    const width = (content: string) => {
      const svg = writeSvg(pageOf([text([1, 10], content, 3)]), FILE);
      const files = ["Regular", "Bold"].map((cut) =>
        createRequire(import.meta.url).resolve(`source-sans/TTF/SourceSans3-${cut}.ttf`),
      );
      return new Resvg(svg, { font: { loadSystemFonts: false, fontFiles: files } }).getBBox()!.width;
    };
    expect(width("a  a") - width("a a")).toBeCloseTo((0.2 * 3) / 0.66, 3);
  });

  it("that the lettering lacks, or that XML forbids, is an error", () => {
    expect(() => inline(text([1, 1], "a\u0000b", 3))).toThrow(ProblemsFound);
    expect(() => inline(text([1, 1], "a\u0000b", 3))).toThrow(
      '"a\ufffdb" on page "page" has characters that cannot be lettered: U+0000',
    );
    expect(() => writeSvg(pageOf([], { title: "\u0008" }), FILE)).toThrow("cannot be lettered: U+0008");
  });

  it("of one look shares a group that carries the look; a single one carries its own", () => {
    const svg = inline(text([1, 1], "a", 3), text([1, 5], "b", 3), line("thin", [0, 0], [1, 1]), text([1, 9], "c", 3));
    expect(svg).toContain(
      '<g font-size="4.5455"><text x="1" y="1">a</text><text x="1" y="5">b</text><text x="1" y="9">c</text></g>',
    );
    expect(inline(text([1, 1], "a", 3.3, { weight: "bold", anchor: "end", grey: 0.5 }))).toContain(
      '<text x="1" y="1" font-size="5" font-weight="700" text-anchor="end" fill="#808080">a</text>',
    );
  });

  it("is lettered as it was measured: no kerning, slashed zeros", () => {
    expect(inline()).toContain(`style="font-kerning:none;font-feature-settings:'zero'"`);
    expect(inline()).toContain(`font-family="'Source Sans 3', sans-serif"`);
  });
});

describe("in a browser", () => {
  it("text is as wide as it was measured, to a hundredth of its size", async () => {
    const samples = [
      "17 5/8 AVAT To.",
      "fi ffi 5\u20448  two ",
      "\u0141\u00f3d\u017a \u0395\u03bb\u03bb\u03ac\u03b4\u03b1 \u0414\u0443\u0431 100",
    ];
    const svg = writeSvg(pageOf(samples.map((sample, i) => text([1, 10 * i + 10], sample, 5))), FILE);
    const browser = await openBrowser();
    try {
      const page = await browser.newPage();
      await page.setContent(svg);
      await page.evaluate("document.fonts.ready.then(() => undefined)");
      const widths: number[] = await page.evaluate(
        "[...document.querySelectorAll('text')].map((text) => text.getComputedTextLength())",
      );
      expect(await page.evaluate("document.fonts.check('10px \"Source Sans 3\"')")).toBe(true);
      samples.forEach((sample, i) => {
        expect(Math.abs(widths[i]! - measureText(sample, 5, "regular")), sample).toBeLessThan(0.05);
      });
    } finally {
      await browser.close();
    }
  }, 60_000);
});

describe("the lettering's file", () => {
  const faces = (...shapes: Shape[]) =>
    [...writeSvg(pageOf(shapes), FILE).matchAll(/font-weight:(\d+);src:url\(data:font\/woff2;base64,([^)]*)\)/g)].map(
      ([, weight, data]) => ({ weight, data: Buffer.from(data!, "base64") }),
    );

  it("is inside a drawing of its own, unmodified, in the weights it uses", () => {
    const file = (cut: string) =>
      readFileSync(createRequire(import.meta.url).resolve(`source-sans/WOFF2/TTF/SourceSans3-${cut}.ttf.woff2`));
    const both = faces(text([1, 1], "a", 3), group([text([1, 1], "b", 3, { weight: "bold" })]));
    expect(both.map((face) => face.weight)).toEqual(["400", "700"]);
    expect(both[0]!.data.equals(file("Regular"))).toBe(true);
    expect(both[1]!.data.equals(file("Bold"))).toBe(true);
    expect(faces(text([1, 1], "b", 3, { weight: "bold" })).map((face) => face.weight)).toEqual(["700"]);
    expect(faces(line("thin", [0, 0], [1, 1]))).toEqual([]);
  });

  it("is not inside a drawing that is set into a page, which has no prolog and no title either", () => {
    const svg = writeSvg(samplePage, INLINE);
    expect(svg).toMatch(/^<svg /);
    expect(svg).not.toMatch(/font-face|base64|<title>|<style>/);
    expect(writeSvg(samplePage, FILE)).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg [^>]*><title>/);
  });
});

describe("elements", () => {
  it("are few: strokes of one pen are one path, through groups that only move", () => {
    const row = (y: number) => group([line("thin", [0, 0], [9, 0]), text([0, -1], "row", 2.5)], { move: [5, y] });
    const svg = inline(...Array.from({ length: 10 }, (_, i) => row(5 * i + 5)));
    expect(count(svg, /<path/g)).toBe(1);
    expect(count(svg, /M\S+ \S+L/g)).toBe(10);
    expect(count(svg, /<g/g)).toBe(1);
    expect(svg).toContain("M5 50L14 50");
    expect(svg).toContain('<text x="5" y="49">row</text>');
  });

  it("of different greys stay in their order", () => {
    const black = fill(0, rectSteps({ x: 0, y: 0, width: 50, height: 50 }));
    const white = fill(1, rectSteps({ x: 10, y: 10, width: 20, height: 20 }));
    const svg = inline(black, white, line("frame", [10, 20], [30, 20]));
    const raster = rasteriseSvg(svg, 254); // ten pixels a millimetre
    expect(darkness(raster, 50, 50)).toBe(1);
    expect(darkness(raster, 150, 150)).toBe(0);
    expect(darkness(raster, 150, 200)).toBe(1);
  });

  it("that are areas drawn opposite ways round leave no hole where they overlap", () => {
    const square: Point[] = [
      [10, 10],
      [30, 10],
      [30, 30],
      [10, 30],
    ];
    const svg = inline(fill(0, polygonSteps(square)), fill(0, polygonSteps([...square].reverse())));
    expect(darkness(rasteriseSvg(svg, 254), 200, 200)).toBe(1);
  });

  it("in a turned or clipped group stand where the page has them", () => {
    const svg = inline(
      group([line("frame", [0, 0], [40, 0])], { move: [50, 50], turn: 90 }),
      group([line("frame", [0, 5], [90, 5])], { move: [5, 0], clip: { x: 10, y: 0, width: 20, height: 10 } }),
    );
    const raster = rasteriseSvg(svg, 254);
    expect(darkness(raster, 500, 150)).toBe(1);
    expect(darkness(raster, 500, 90)).toBe(0);
    expect([10, 20, 30, 40].map((x) => darkness(raster, 10 * x, 50))).toEqual([0, 1, 1, 0]);
  });

  it("have ids of our own, behind the prefix, each once", () => {
    const clip = { x: 0, y: 0, width: 5, height: 5 };
    const clipped = (id: string | null) => group([line("thin", [0, 0], [9, 9])], { id, clip });
    const svg = inline(clipped(null), clipped("bay"), clipped(null));
    const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids).toEqual(["d1-clip-1", "d1-clip-2", "d1-clip-3", "d1-bay"]);
    for (const [, id] of svg.matchAll(/url\(#([^)]*)\)/g)) expect(ids).toContain(id);
    expect(() => inline(clipped("bay"), clipped("bay"))).toThrow(
      "Internal error: the id d1-bay stands twice on page page",
    );
    expect(() => inline(clipped("a b"))).toThrow('Internal error: "d1-a b" is no id');
  });
});

describe("links", () => {
  const shapes = [link(1, 2, { page: "part-3" }), link(1, 12, { address: "https://example.org/a?b=<c>&d" })];

  it("lead to the file of a page beside the drawing's own, and to addresses", () => {
    const svg = writeSvg(pageOf(shapes), FILE);
    expect(svg).toContain('<a href="part-3.svg" aria-label="part-3">');
    expect(svg).toContain('<a href="https://example.org/a?b=%3Cc%3E&amp;d"');
  });

  it("lead where the site says, or to no page where it says nothing", () => {
    const sited = writeSvg(pageOf(shapes), { ...INLINE, hrefOf: (key) => `../svg/${key}.svg` });
    expect(sited).toContain('<a href="../svg/part-3.svg"');
    expect([...inline(...shapes).matchAll(/<a href="([^"]*)"/g)].map(([, href]) => href)).toEqual([
      "https://example.org/a?b=%3Cc%3E&amp;d",
    ]);
  });

  it("that would run something are refused", () => {
    expect(() => inline(link(1, 2, { address: "javascript:alert(1)" }))).toThrow(
      'Internal error: "javascript:alert(1)" is no address to link to',
    );
  });
});
