import { describe, expect, it } from "vitest";
import { formatLength } from "../../src/base/length.ts";
import { scalesOf } from "../../src/drawings/draughting/scale.ts";
import { drawSheetDiagram } from "../../src/drawings/sheets/sheet-diagram.ts";
import { drawSheetLayouts } from "../../src/drawings/sheets/sheet-layout.ts";
import { alikeSheets, piecesOf } from "../../src/drawings/sheets/sheet-pieces.ts";
import { standing } from "../../src/drawings/sheets/sheet-standing.ts";
import type { PathShape, Point, Rect, Shape } from "../../src/paper/shape.ts";
import { planSheets } from "../../src/plans/sheets/index.ts";
import type { DryfitSet, SetSheet } from "../../src/set/schema.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { numbersOf } from "../support/machines/waiting.ts";
import { onPaper, PAPER_NAMES, type PaperName } from "../support/pages/papers.ts";
import { linesOf, parseFigure, printedWithin, textOf, tokensOf } from "../support/pages/read-figures.ts";
import { overlapping, type TextBox, textBoxes } from "../support/pages/text-boxes.ts";

const SETS = [...exampleSets(), ...["three-alike", "two-stocks"].map((name) => [name, setOf(testFile(name))] as const)];

/** Every path with its points on the page; diagrams are moved, never turned. */
function pathsOf(shapes: readonly Shape[], [dx, dy]: Point = [0, 0]): { path: PathShape; points: Point[] }[] {
  return shapes.flatMap((shape): { path: PathShape; points: Point[] }[] => {
    if (shape.kind === "group") {
      return shape.turn === 0 ? pathsOf(shape.shapes, [dx + shape.move[0], dy + shape.move[1]]) : [];
    }
    if (shape.kind !== "path") return [];
    const points = shape.steps.flatMap((step): Point[] =>
      step.to === "close" ? [] : [[step.at[0] + dx, step.at[1] + dy]],
    );
    return [{ path: shape, points }];
  });
}

const boxOf = (points: readonly Point[]): Rect => {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
};

const rectsOf = (shapes: readonly Shape[]): Rect[] =>
  pathsOf(shapes)
    .filter(({ path, points }) => path.pen === "outline" && points.length === 4)
    .map(({ points }) => boxOf(points));

type Held = { box: Rect; ratio: number; stands: boolean };

/** The sheet's own outline: the one of its size at a scale, lying or, turned a quarter to the left, standing. */
function sheetAt(shapes: readonly Shape[], sheet: SetSheet, ratio: number): Held {
  const outline = (length: number, width: number): Rect | undefined =>
    rectsOf(shapes).find(
      (one) => Math.abs(one.width - length * ratio) < 1e-6 && Math.abs(one.height - width * ratio) < 1e-6,
    );
  const lying = outline(sheet.length, sheet.width);
  return { box: lying ?? outline(sheet.width, sheet.length)!, ratio, stands: lying === undefined };
}

const SCALES = [...scalesOf("mm"), ...scalesOf("in")];

/** The same at the scale that is lettered: one of the standard series. */
const sheetOn = (shapes: readonly Shape[], sheet: SetSheet, scale: string): Held =>
  sheetAt(shapes, sheet, SCALES.find(({ name }) => name === scale)!.ratio);

/** Where a piece of the sheet lies on the page: x from the left and y from below, or, standing, x from below and y from the right. */
const onPage = ({ box, ratio, stands }: Held, at: { x: number; y: number }, alongX: number, alongY: number): Rect =>
  stands
    ? {
        x: box.x + box.width - (at.y + alongY) * ratio,
        y: box.y + box.height - (at.x + alongX) * ratio,
        width: alongY * ratio,
        height: alongX * ratio,
      }
    : {
        x: box.x + at.x * ratio,
        y: box.y + box.height - (at.y + alongY) * ratio,
        width: alongX * ratio,
        height: alongY * ratio,
      };

const firstDrawings = (set: DryfitSet) => drawSheetLayouts(set).filter(({ scale }) => scale !== null);

/** Parts from a hand's breadth down to a lath, whole lengths and short ends of them. */
const NARROW_PIECES = [90, 64, 40, 24, 12, 6].flatMap((width, i) =>
  [2300, 700, 280, 280, 60].map((length, j) => ({ id: `${i * 5 + j + 1}`, mark: `${i * 5 + j + 1}`, length, width })),
);

it("asks for larger paper where a sheet, however small, leaves no room for its cuts", () => {
  const set = setOf(testFile("three-alike"));
  const card = { ...set, paper: { ...set.paper, drawings: { name: "card", width: 120, height: 120 } } };
  expect(() => drawSheetLayouts(card)).toThrow(
    /error: Sheet layout 1.*, whose diagram leaves no room .*\n.*\n {2}try: choose larger paper for drawings$/,
  );
});

describe("narrow parts", () => {
  const set = setOf(testFile("three-alike"));
  const stock = { ...set.stock[0]!, grain: true, trim: 6, sheet: { length: 2440, width: 1220 } };
  const pieces = NARROW_PIECES.map((piece) => ({ ...piece, stock: stock.id }));
  const { sheets } = planSheets({ pieces, stock: [stock], kerf: 3, unit: "mm" });
  const [sheet] = sheets as [SetSheet];

  it.each([12, 18, 24])(
    "at 1:%i carry their marks in themselves or at the end of a leader, and every cut a number",
    (n) => {
      expect(sheets).toHaveLength(1);
      const lettering = { unit: "mm", stock, idsOf: (i: number) => [sheet.parts[i]!.id] } as const;
      const { block, without } = drawSheetDiagram(sheet, 1 / n, lettering);
      const boxes = textBoxes(block.shapes);
      expect(overlapping(boxes)).toEqual([]);
      expect(without).toEqual([]);
      expect(Math.min(...boxes.map(({ size }) => size))).toBeGreaterThan(2.5 - 1e-6);
      expect(boxes.every(({ x0, x1, y0, y1 }) => x0 >= 0 && x1 <= block.width && y0 >= 0 && y1 <= block.height)).toBe(
        true,
      );
      const on = sheetAt(block.shapes, sheet, 1 / n);
      const leaders = leadersOn(block.shapes);
      const marks = boxes.filter(({ x0, y0 }) => !isNumber(block.shapes, x0, y0));
      for (const part of sheet.parts) {
        const own = onPage(on, part, part.turned ? part.width : part.length, part.turned ? part.length : part.width);
        const lettered = marks.filter(({ text }) => text === part.id);
        expect(reaches(lettered, own, leaders), `mark ${part.id}`).toBe(true);
      }
      for (const cut of sheet.cuts) {
        const at = cut.at + sheet.kerf / 2;
        const onCut = ([x, y]: Point): boolean => {
          const along = cut.across === "x" ? (on.box.y + on.box.height - y) / on.ratio : (x - on.box.x) / on.ratio;
          const across = cut.across === "x" ? (x - on.box.x) / on.ratio : (on.box.y + on.box.height - y) / on.ratio;
          return Math.abs(across - at) < 1e-6 && along > cut.from - 1e-6 && along < cut.to + 1e-6;
        };
        const numbers = boxes.filter(({ text, x0, y0 }) => text === String(cut.n) && isNumber(block.shapes, x0, y0));
        expect(numbers, `cut ${cut.n}`).toHaveLength(1);
        const [number] = numbers as [(typeof numbers)[0]];
        const middle: Point = [(number.x0 + number.x1) / 2, (number.y0 + number.y1) / 2];
        const isLed = leaders.some(
          ({ points: [a, b] }) => onCut(a!) && Math.hypot(b![0] - middle[0], b![1] - middle[1]) < 1e-6,
        );
        expect(isLed, `cut ${cut.n}`).toBe(true);
      }
    },
  );
});

type Leader = ReturnType<typeof pathsOf>[number];

const leadersOn = (shapes: readonly Shape[]): Leader[] =>
  pathsOf(shapes).filter(({ path, points }) => path.pen === "thin" && points.length === 2);

/** Whether one of the texts stands in a part, or is led to it. */
const reaches = (lettered: readonly TextBox[], own: Rect, leaders: readonly Leader[]): boolean => {
  const isIn = ([x, y]: Point): boolean => x > own.x && x < own.x + own.width && y > own.y && y < own.y + own.height;
  return lettered.some(
    (box) =>
      (isIn([box.x0, box.y0]) && isIn([box.x1, box.y1])) ||
      leaders.some(({ points }) => points.some(isIn) && points.some((point) => touches(box, point))),
  );
};

const touches = (box: TextBox, [x, y]: Point): boolean =>
  x > box.x0 - 1 && x < box.x1 + 1 && y > box.y0 - 1.5 && y < box.y1 + 1.5;

/** Whether a text that begins here stands in a circle, as the numbers of cuts do. */
const isNumber = (shapes: readonly Shape[], x0: number, y0: number): boolean =>
  pathsOf(shapes).some(({ path, points }) => {
    if (path.pen !== "bar") return false;
    const { x, y, width, height } = boxOf(points);
    return x0 > x - 0.1 && x0 < x + width && y0 > y - 0.1 && y0 < y + height;
  });

describe("thirty sheets cut alike", () => {
  const set = setOf(testFile("three-alike"));
  const [first] = set.sheets as [SetSheet];
  const many = Array.from({ length: 30 }, (_, n) => {
    const rename = (id: string): string => (first.parts.some((part) => part.id === id) ? `${n}00${id}` : id);
    return {
      ...first,
      n: n + 1,
      parts: first.parts.map((part) => ({ ...part, id: rename(part.id) })),
      cuts: first.cuts.map((cut) => ({ ...cut, makes: cut.makes.map(rename) })),
    };
  });

  it.each(PAPER_NAMES)("on %s letter the first mark and how many more, and list every mark in the table", (paper) => {
    const pages = drawSheetLayouts({ ...onPaper(set, paper), sheets: many });
    const boxes = pages.map(({ shapes }) => textBoxes(shapes));
    for (const page of boxes) expect(overlapping(page)).toEqual([]);
    const said = boxes.flat().map(({ text }) => text);
    expect(said.join(" ")).toContain('"5 + 2": part 5 on the first sheet');
    for (const { id } of first.parts) {
      expect(
        said.some((text) => text === `000${id} + 29` || text === `000${id}`),
        id,
      ).toBe(true);
    }
    const listed = new Set(said.flatMap((text) => text.split(" ")));
    for (const { id } of many.flatMap(({ parts }) => parts)) expect(listed.has(id), id).toBe(true);
  });

  it("are lettered as far as there is room, and what is not is named under them", () => {
    const small = { ...first, parts: first.parts.map((part) => ({ ...part, length: 4, width: 4 })) };
    const { without, outside } = drawSheetDiagram({ ...small, offcuts: [] }, 1 / 200, {
      unit: "mm",
      stock: set.stock[0]!,
      idsOf: (i) => ["0".repeat(400), `${"0".repeat(300)}${i}`],
    });
    expect([without.length, outside]).toEqual([small.parts.length, small.parts.length]);
  });
});

describe.each(SETS)("the sheet layouts of %s", (_name, set) => {
  const groups = alikeSheets(set.sheets);

  it.each(PAPER_NAMES)(
    "on %s show each part to a standard scale with its mark inside it, or at the end of a leader",
    (paper: PaperName) => {
      const drafts = firstDrawings(onPaper(set, paper));
      expect(drafts).toHaveLength(groups.length);
      drafts.forEach(({ shapes, scale }, i) => {
        const [sheet] = groups[i] as [SetSheet];
        const on = sheetOn(shapes, sheet, scale!);
        const rects = rectsOf(shapes);
        const boxes = textBoxes(shapes);
        for (const part of sheet.parts) {
          const own = part.turned
            ? onPage(on, part, part.width, part.length)
            : onPage(on, part, part.length, part.width);
          const isDrawn = rects.some((rect) =>
            (["x", "y", "width", "height"] as const).every((key) => Math.abs(rect[key] - own[key]) < 1e-6),
          );
          expect(isDrawn, `part ${part.id} at its place`).toBe(true);
          const lettered = boxes.filter(({ text }) => text.split(" / ").includes(part.id));
          expect(reaches(lettered, own, leadersOn(shapes)), `mark ${part.id} in its part or led to it`).toBe(true);
        }
      });
    },
  );

  it("say of each cut that comes later which gate it waits for, and of no other", () => {
    for (const sheet of set.sheets) {
      const pages = drawSheetLayouts({ ...onPaper(set, "a3"), sheets: [sheet] });
      const said = pages.flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text)).join(" ");
      const told = [...said.matchAll(/not before the gate of "([^"]+)": ([^.]+)\./gi)].map(([, title, what]) => {
        const [, numbers] = /\bcuts? ([^;]+?), what they/.exec(what!) ?? [];
        const all = /any cut of this sheet/.test(what!) ? sheet.cuts.map(({ n }) => n) : numbersOf(numbers ?? "");
        return { title, cuts: all, trimmed: numbersOf(/the trimming of ([^;]+), with/.exec(what!)?.[1] ?? "") };
      });
      const due = set.groups
        .filter(({ n }) => n > 1)
        .map(({ n, title, parts }) => {
          const rows = set.sizing.filter(({ group }) => group === n);
          const cuts = rows.flatMap((row) =>
            row.cuts.filter((one) => one.sheet === sheet.n).flatMap((one) => one.cuts),
          );
          const trims = new Set(rows.flatMap(({ trim, rips, crosscuts }) => (trim ? [...rips, ...crosscuts] : [])));
          const trimmed = sheet.parts.filter(({ mark }) => parts.includes(mark) && trims.has(mark));
          return { title, cuts: cuts.sort((a, b) => a - b), trimmed: trimmed.map(({ mark }) => Number(mark)) };
        })
        .filter(({ cuts, trimmed }) => cuts.length + trimmed.length > 0);
      expect(told).toEqual(due);
    }
  });

  it("number every cut once, with fence, edge and what it makes", () => {
    const { unit } = set.job;
    const edges = { x0: "left", x1: "right", y0: "lower", y1: "upper" };
    groups.forEach((alike) => {
      const [sheet] = alike as [SetSheet];
      const pages = drawSheetLayouts({ ...onPaper(set, "a3"), sheets: alike });
      const rows = pages
        .flatMap(({ shapes }) => linesOf(tokensOf(textBoxes(shapes))))
        .flatMap((line) => {
          const at = line.findIndex(({ text }) => Object.values(edges).includes(text));
          return at === -1
            ? []
            : [
                line.slice(
                  Math.max(
                    0,
                    line.findIndex(
                      ({ size, text }) =>
                        Math.abs(size - 3.5) < 1e-6 && /^\d+$/.test(text) && line.indexOf(line[at]!) > 0,
                    ),
                  ),
                ),
              ];
        });
      for (const cut of sheet.cuts) {
        const found = rows.filter((row) => {
          const n = row.findIndex(
            ({ text, size }, i) =>
              text === String(cut.n) && Math.abs(size - 3.5) < 1e-6 && row[i + 1]?.text === cut.piece,
          );
          return n !== -1;
        });
        expect(found, `cut ${cut.n}`).toHaveLength(1);
        const row = found[0]!;
        const n = row.findIndex(({ text }, i) => text === String(cut.n) && row[i + 1]?.text === cut.piece);
        const fence = row[n + 2]!;
        expect(Math.abs(parseFigure(fence.text, unit)! - cut.fence)).toBeLessThanOrEqual(printedWithin(fence, unit));
        const rest = textOf(row.slice(n + 3)).replace(/^\d+\.\d{3} /, "");
        expect(rest.startsWith(`${edges[cut.reference]} ${cut.makes.join(" + ")}`), rest).toBe(true);
      }
    });
  });

  it("name what is kept by the job's number too, as the rack will", () => {
    firstDrawings(onPaper(set, "letter")).forEach(({ shapes }, i) => {
      const [sheet] = groups[i] as [SetSheet];
      const texts = textBoxes(shapes).map(({ text }) => text);
      for (const { id } of sheet.offcuts) expect(texts).toContain(`${set.job.number} ${id}`);
      // As large as its label says, to the last figure.
      const kept = set.rack.filter((piece) => sheet.offcuts.some(({ id }) => id === piece.id));
      const sizes = kept.flatMap(({ length, width }) => [length, width]);
      if (set.job.unit === "mm")
        expect(texts).toEqual(expect.arrayContaining(sizes.map((size) => formatLength(size, "mm"))));
    });
  });

  it("hatch nothing that is kept", () => {
    firstDrawings(onPaper(set, "letter")).forEach(({ shapes, scale }, i) => {
      const [sheet] = groups[i] as [SetSheet];
      const on = sheetOn(shapes, sheet, scale!);
      const kept = [
        ...sheet.parts.map((part) =>
          part.turned ? onPage(on, part, part.width, part.length) : onPage(on, part, part.length, part.width),
        ),
        ...sheet.offcuts.map((offcut) => onPage(on, offcut, offcut.length, offcut.width)),
      ];
      const slants = pathsOf(shapes)
        .filter(({ path }) => path.pen === "hatch")
        .flatMap(({ points }) =>
          points.flatMap((point, n): [Point, Point][] => (n % 2 === 0 ? [[point, points[n + 1]!]] : [])),
        );
      expect(slants.length).toBeGreaterThan(0);
      for (const [a, b] of slants) {
        const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
        expect(kept.some((box) => x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height)).toBe(
          false,
        );
      }
    });
  });
});

describe("the pieces of a sheet", () => {
  it("each lie within the piece they are cut from, and hold the parts that are cut from them", () => {
    for (const [, set] of SETS)
      for (const sheet of set.sheets) {
        const pieces = piecesOf(sheet);
        for (const cut of sheet.cuts) {
          const piece = pieces.find(({ name }) => name === cut.piece);
          if (piece === undefined) continue; // the sheet itself
          const [low, high] = cut.across === "x" ? [piece.x, piece.x + piece.length] : [piece.y, piece.y + piece.width];
          expect(cut.at > low && cut.at < high, `cut ${cut.n} within ${cut.piece}`).toBe(true);
          const [from, to] = cut.across === "x" ? [piece.y, piece.y + piece.width] : [piece.x, piece.x + piece.length];
          expect(cut.from).toBeCloseTo(from, 6);
          expect(cut.to).toBeCloseTo(to, 6);
        }
      }
  });
});

describe("a sheet that stands", () => {
  it("has each fence still measured from the edge that is named, on the piece as it is drawn", () => {
    for (const sheet of SETS.flatMap(([, set]) => set.sheets)) {
      const stood = standing(sheet);
      const pieces = piecesOf(stood);
      for (const cut of stood.cuts) {
        const piece = pieces.findLast(({ name }) => name === cut.piece);
        const first = stood.cuts.find((one) => one.piece === cut.piece);
        if (piece === undefined || first !== cut) continue; // later cuts find less of their piece
        const [low, high] = cut.across === "x" ? [piece.x, piece.x + piece.length] : [piece.y, piece.y + piece.width];
        const isLow = cut.reference.endsWith("0");
        expect(isLow ? cut.at - low : high - cut.at - stood.kerf).toBeCloseTo(cut.fence, 6);
        expect(cut.reference[0]).toBe(cut.across);
      }
    }
  });

  it("is said to, and keeps its mark's place, its grain upright", () => {
    const set = onPaper(setOf(testFile("two-stocks")), "a4 upright");
    const big = set.sheets.map((sheet) => ({ ...sheet, length: 3050, width: 1525 }));
    const stock = set.stock.map((one) => ({ ...one, grain: true }));
    const { shapes } = firstDrawings({ ...set, stock, sheets: big })[0]!;
    const said = textBoxes(shapes).map(({ text }) => text);
    expect(said.join(" ")).toContain("Sheet drawn standing: its length is upright.");
    expect(said).toContain("grain");
    expect(sheetAt(shapes, big[0]!, 1 / 20).stands).toBe(true);
  });
});

describe("sheets cut alike", () => {
  const set = setOf(testFile("two-stocks"));
  const [sheet] = set.sheets as [SetSheet];
  const renamed = (n: number): SetSheet => {
    const name = (id: string): string =>
      id.replace(/^S\d+/, `S${n}`).replace(/^(\d+)$/, (mark) => String(Number(mark) + 100));
    return {
      ...sheet,
      n,
      parts: sheet.parts.map((part) => ({ ...part, id: name(part.id), mark: name(part.mark) })),
      cuts: sheet.cuts.map((cut) => ({ ...cut, piece: name(cut.piece), makes: cut.makes.map(name) })),
      offcuts: sheet.offcuts.map((offcut) => ({ ...offcut, id: name(offcut.id) })),
    };
  };
  const twice: DryfitSet = {
    ...set,
    parts: [...set.parts, ...set.parts.map((part) => ({ ...part, mark: String(Number(part.mark) + 100) }))],
    sheets: [sheet, renamed(9)],
  };

  it("are drawn once, with the marks of both", () => {
    const drafts = firstDrawings(onPaper(twice, "a3"));
    expect(drafts.map(({ name }) => name)).toEqual(["Sheet layout 1 and 9"]);
    const texts = textBoxes(drafts[0]!.shapes).map(({ text }) => text);
    for (const { id } of sheet.parts) expect(texts).toContain(`${id} / ${Number(id) + 100}`);
    const text = linesOf(tokensOf(textBoxes(drafts[0]!.shapes))).map(textOf);
    expect(text.join("\n")).toContain("Sheets 1 and 9, cut alike:");
    expect(text.join(" ")).toContain("On the other sheets read S9 for S1.");
  });

  it("are not taken for each other when one cut differs", () => {
    const other = { ...renamed(9), kerf: sheet.kerf + 0.1 };
    expect(alikeSheets([sheet, other])).toHaveLength(2);
    expect(alikeSheets([sheet, renamed(9)])).toHaveLength(1);
  });
});
