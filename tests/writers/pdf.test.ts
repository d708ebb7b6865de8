import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { group, line, lines, text } from "../../src/paper/draw.ts";
import { CAP_HEIGHT, measureText } from "../../src/paper/lettering.ts";
import { PENS } from "../../src/paper/pen.ts";
import type { Page, PaperDocument, Shape } from "../../src/paper/shape.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { link, METACHARACTERS, sampleDocument } from "../fixtures/sample-document.ts";
import {
  type PdfFile,
  type PdfPage,
  type PdfPath,
  type PdfPoint,
  type PdfText,
  readPdf,
} from "../support/pages/pdf.ts";
import { darkRuns, rasterise } from "../support/pages/raster.ts";

const digest = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

const page = (key: string, shapes: Shape[], more: Partial<Page> = {}): Page => ({
  key,
  title: key,
  bookmark: [key],
  label: "1",
  width: 297,
  height: 210,
  shapes,
  ...more,
});

const documentOf = (...pages: Page[]): PaperDocument => ({
  title: "Test",
  subject: "Test",
  date: "2026-11-20",
  pages,
});

const paint = async (shapes: Shape[]): Promise<PdfPage> =>
  (await readPdf(await writePdf(documentOf(page("one", shapes))))).pages[0]!;

const distance = (a: PdfPoint, b: PdfPoint): number => Math.hypot(b.x - a.x, b.y - a.y);

const ends = (path: PdfPath): [PdfPoint, PdfPoint] => {
  const { points } = path.runs[0]!;
  return [points[0]!, points.at(-1)!];
};

let bytes: Uint8Array;
let file: PdfFile;

beforeAll(async () => {
  bytes = await writePdf(sampleDocument);
  file = await readPdf(bytes);
});

const find = (content: string): PdfText => {
  const found = file.pages.flatMap((one) => one.texts).filter((one) => one.text === content);
  expect(found, content).toHaveLength(1);
  return found[0]!;
};

describe("pages", () => {
  it("have exactly the paper's size, in points", () => {
    const inPoints = sampleDocument.pages.map(({ width, height }) => [0, 0, (width / 25.4) * 72, (height / 25.4) * 72]);
    file.pages.forEach((one, i) => {
      one.mediaBox.forEach((side, n) => {
        expect(side).toBeCloseTo(inPoints[i]![n]!, 5);
      });
    });
    expect(file.pages[1]!.mediaBox).toEqual([0, 0, 792, 612]); // Letter: whole points
  });

  it("carry their labels", () => {
    expect(file.pages.map((one) => one.label)).toEqual(["D-1", "D-2", "S-1", "S-2", "S-3", "S-4"]);
  });

  it("are refused when there are none, or two of one key", async () => {
    await expect(writePdf(documentOf())).rejects.toThrow('Internal error: "Test" has no pages');
    await expect(writePdf(documentOf(page("a", []), page("a", [])))).rejects.toThrow(
      'Internal error: two pages have the key "a"',
    );
  });
});

describe("lines", () => {
  it("are as long as they are drawn, in width, dash and grey of their pen", async () => {
    const drawn = await paint([
      line("bar", [50, 50], [150, 50]),
      line("cutting", [20, 10], [20, 200]),
      line("cut", [30, 30], [60, 70]),
    ]);
    expect(drawn.paths.map((path) => distance(...ends(path)))).toEqual([
      expect.closeTo(100, 4),
      expect.closeTo(190, 4),
      expect.closeTo(50, 4),
    ]);
    for (const [i, pen] of (["bar", "cutting", "cut"] as const).entries()) {
      const path = drawn.paths[i]!;
      expect(path.width).toBeCloseTo(PENS[pen].width, 6);
      expect(path.grey).toBeCloseTo(PENS[pen].grey, 2);
      expect(path.dash.map((length) => Number(length.toFixed(6)))).toEqual(
        PENS[pen].dash.map((length) => Number(length.toFixed(6))),
      );
    }
  });

  it("of 100 mm and of 4 in measure so within 0.1 mm, printed at 600 dpi, where they were drawn", async () => {
    const drawn = await writePdf(
      documentOf(
        page("bars", [
          lines("bar", [
            [
              [30, 40],
              [130, 40],
            ],
            [
              [160, 20],
              [160, 121.6],
            ],
          ]),
        ]),
      ),
    );
    const raster = await rasterise(drawn, 1, 600);
    expect([raster.width, raster.height]).toEqual([Math.round((297 / 25.4) * 600), Math.round((210 / 25.4) * 600)]);
    const [level, upright] = [darkRuns(raster, 600, "x", 40)[0]!, darkRuns(raster, 600, "y", 160)[0]!];
    expect(Math.abs(level.to - level.from - 100)).toBeLessThan(0.1);
    expect(Math.abs(upright.to - upright.from - 101.6)).toBeLessThan(0.1);
    expect(Math.abs(level.from - 30)).toBeLessThan(0.05);
    expect(Math.abs(upright.from - 20)).toBeLessThan(0.05);
  }, 60_000);

  it("change back after a group, whatever pen the group used last", async () => {
    const drawn = await paint([
      line("thin", [0, 10], [10, 10]),
      group([line("frame", [0, 20], [10, 20])], { move: [5, 5] }),
      line("thin", [0, 30], [10, 30]),
    ]);
    expect(drawn.paths.map((path) => path.width)).toEqual([0.18, 0.7, 0.18].map((width) => expect.closeTo(width, 6)));
  });

  it("that have no finite end are an error", async () => {
    await expect(paint([line("thin", [0, 0], [Number.NaN, 1])])).rejects.toThrow("Internal error: NaN cannot be drawn");
    await expect(paint([line("thin", [0, 0], [1, 1 / 0])])).rejects.toThrow("Internal error: Infinity cannot be drawn");
  });
});

describe("text", () => {
  it("stands where it is put, in the size it is given, as wide as it was measured", () => {
    const start = find(METACHARACTERS);
    expect(start).toMatchObject({ x: expect.closeTo(20, 3), y: expect.closeTo(25, 3), turn: 0, grey: 0 });
    expect(start.size * CAP_HEIGHT).toBeCloseTo(3.5, 3);
    expect(start.width).toBeCloseTo(measureText(METACHARACTERS, 3.5, "regular"), 2);
    expect(start.font).toBe("DRYFIT+SourceSans3-Regular");
  });

  it("is anchored by its middle or its end", () => {
    const middle = find("in the middle");
    expect(middle.x + middle.width / 2).toBeCloseTo(60, 3);
    expect(middle.font).toBe("DRYFIT+SourceSans3-Bold");
    const end = find("end of a line");
    expect(end.x + end.width).toBeCloseTo(120, 3);
    expect(end.grey).toBeCloseTo(0.5, 2);
  });

  it("turns anticlockwise about its point, alone and in a group", () => {
    expect(find("upwards")).toMatchObject({
      turn: expect.closeTo(90, 3),
      x: expect.closeTo(130, 3),
      y: expect.closeTo(100, 3),
    });
    const aslant = find("aslant, ending here");
    const radians = (30 / 180) * Math.PI;
    expect(aslant.turn).toBeCloseTo(30, 3);
    expect(aslant.x + aslant.width * Math.cos(radians)).toBeCloseTo(140, 3);
    expect(aslant.y - aslant.width * Math.sin(radians)).toBeCloseTo(150, 3);
    // The group stands at 30, 150, turned by 90: its own (0, -1) lies one to the left of its origin.
    expect(find("in a turned group")).toMatchObject({
      turn: expect.closeTo(90, 3),
      x: expect.closeTo(29, 3),
      y: expect.closeTo(150, 3),
    });
  });

  it("comes out as text, whatever brackets, escapes and markup it holds", () => {
    expect(find(METACHARACTERS).text).toBe(METACHARACTERS);
    expect(file.title).toBe(`Console ${METACHARACTERS}`);
    expect(file.bookmarks[0]!.children[0]!.title).toBe("Front (1) \\ & <all>");
  });

  it("in several scripts is as wide as measured", async () => {
    const mixed = "Na\u00efve \u0141\u00f3d\u017a \u0395\u03bb\u03bb\u03ac\u03b4\u03b1 \u0414\u0443\u0431 fi 5\u20448";
    const drawn = await paint([text([10, 10], mixed, 5)]);
    expect(drawn.texts[0]!.width).toBeCloseTo(measureText(mixed, 5, "regular"), 2);
    expect(drawn.texts[0]!.text).toBe(mixed);
  });

  it("has a stroke through its zeros, which part marks could be taken for otherwise", async () => {
    const drawn = await writePdf(documentOf(page("one", [text([20, 60], "0", 40), text([60, 60], "O", 40)])));
    const raster = await rasterise(drawn, 1, 100);
    const inks = (from: number, to: number) =>
      darkRuns(raster, 100, "x", 40).filter((run) => run.from > from && run.to < to);
    expect(inks(15, 50)).toHaveLength(3);
    expect(inks(55, 110)).toHaveLength(2);
  });

  it("that the lettering lacks is an error that names every such character", async () => {
    const bad = documentOf(
      page("part-3", [text([0, 10], "\u6f22\u5b57 shelf", 3), group([text([0, 20], "bell\u0007", 3)])]),
      page("part-4", [text([0, 10], "\u2300 12", 3), text([0, 20], "\u6f22\u5b57 shelf", 3)]),
    );
    const error: unknown = await writePdf(bad).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(ProblemsFound);
    const { problems } = error as ProblemsFound;
    expect(problems.map((problem) => problem.found)).toEqual([
      '"\u6f22\u5b57 shelf" on page "part-3" has characters that cannot be lettered: \u6f22 (U+6F22), \u5b57 (U+5B57)',
      '"bell\ufffd" on page "part-3" has characters that cannot be lettered: U+0007',
      '"\u2300 12" on page "part-4" has characters that cannot be lettered: \u2300 (U+2300)',
    ]);
    expect(problems[0]).toMatchObject({
      level: "error",
      kind: "input",
      expected: "letters of Latin, Greek or Cyrillic writing, figures and common signs",
      remedy: "write it in these letters",
    });
  });
});

describe("groups", () => {
  it("move, turn and clip", async () => {
    const shapes = [
      group([line("bar", [0, 0], [40, 0])], { move: [100, 100], turn: 90 }),
      group([line("frame", [0, 5], [100, 5])], { move: [20, 20], clip: { x: 10, y: 0, width: 30, height: 10 } }),
    ];
    const drawn = await paint(shapes);
    const [, end] = ends(drawn.paths[0]!);
    expect(end).toEqual({ x: expect.closeTo(100, 3), y: expect.closeTo(60, 3) });
    const raster = await rasterise(await writePdf(documentOf(page("one", shapes))), 1, 200);
    const [clipped] = darkRuns(raster, 200, "x", 25);
    expect(clipped!.from).toBeCloseTo(30, 0);
    expect(clipped!.to).toBeCloseTo(60, 0);
  });
});

describe("links", () => {
  it("lead to pages by their key, and to addresses spelt in ASCII", () => {
    const [turned, address, second] = file.pages[0]!.links;
    expect(address).toMatchObject({ address: "https://example.org/parts/3?a=(b)&c=%C3%A4", page: null });
    expect(second).toMatchObject({ address: null, page: 2 });
    expect(second).toMatchObject({ x: expect.closeTo(70, 4), y: expect.closeTo(180, 4) });
    expect(second).toMatchObject({ width: expect.closeTo(40, 4), height: expect.closeTo(6, 4) });
    // 40 by 6 at 0, 30 of a group at 30, 150 that is turned by 90: 6 by 40, standing on 150.
    expect(turned).toMatchObject({ page: 2, x: expect.closeTo(60, 4), y: expect.closeTo(110, 4) });
    expect(turned).toMatchObject({ width: expect.closeTo(6, 4), height: expect.closeTo(40, 4) });
  });

  it("to nowhere, or to what would run something, are errors", async () => {
    await expect(paint([link(0, 0, { page: "gone" })])).rejects.toThrow(
      'Internal error: a link leads to page "gone", which is not there',
    );
    await expect(paint([link(0, 0, { address: "javascript:alert(1)" })])).rejects.toThrow(
      'Internal error: "javascript:alert(1)" is no address to link to',
    );
  });
});

describe("the document", () => {
  it("has bookmarks as a tree, each shared parent once, in the order of the pages", () => {
    const leaf = (title: string, to: number) => ({ title, page: to, children: [] });
    expect(file.bookmarks).toEqual([
      { title: "Drawings", page: 1, children: [leaf("Front (1) \\ & <all>", 1), leaf("Side", 2), leaf("Back", 4)] },
      leaf("Sticks", 3),
    ]);
  });

  it("says what it is, dated by the job at noon in Greenwich", () => {
    expect(file).toMatchObject({
      subject: "Drawing set \u2013 revision (A)",
      creator: "Dryfit",
      created: "D:20261120120000Z",
      modified: "D:20261120120000Z",
    });
  });

  it("asks to be printed unscaled, and to show its title", () => {
    expect(file.viewerPreferences).toEqual({ PrintScaling: "None", PickTrayByPDFSize: true, DisplayDocTitle: true });
  });

  it("is refused with a date that is none", async () => {
    await expect(writePdf({ ...documentOf(page("one", [])), date: "20 November" })).rejects.toThrow(
      'Internal error: "20 November" is no date',
    );
  });

  it("is the same, byte for byte, written twice", async () => {
    expect(digest(await writePdf(sampleDocument))).toBe(digest(bytes));
  });

  it("is the same, byte for byte, written by another process in another time zone", () => {
    const script = fileURLToPath(new URL("../support/pages/print-digest.ts", import.meta.url));
    const run = (zone: string) =>
      JSON.parse(
        execFileSync(process.execPath, ["--import", "tsx", script], {
          env: { ...process.env, TZ: zone, NODE_OPTIONS: "" },
          encoding: "utf8",
        }),
      ) as { offset: number; pdf: string; svg: string };
    const [east, west] = [run("Pacific/Auckland"), run("America/Los_Angeles")];
    expect([east.offset, west.offset]).toEqual([-780, 480]);
    expect(east.pdf).toBe(digest(bytes));
    expect(west.pdf).toBe(digest(bytes));
    expect(east.svg).toBe(west.svg);
  }, 60_000);

  it("has an identity that its content gives", async () => {
    const other = await readPdf(await writePdf({ ...sampleDocument, date: "2026-11-21" }));
    expect(file.identity).toMatch(/^[0-9a-f]{32}$/);
    expect(other.identity).not.toBe(file.identity);
  });
});
