/** What stock there is: offcuts of the rack before anything is bought, the cheapest of several sizes, no more than are to be had. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkLayouts } from "../../src/audit/plans/layouts.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { checkLift } from "../../src/plans/checks/lift.ts";
import { boundOf } from "../../src/plans/layout/bound.ts";
import type { LayoutItem, LayoutSheet } from "../../src/plans/layout/engine.ts";
import { bedOf, findLayout, findLayouts } from "../../src/plans/layout/search.ts";
import type { LayoutInput, LayoutPiece } from "../../src/plans/sheets/index.ts";
import { planBoards, planSheets } from "../../src/plans/sheets/index.ts";
import { rackText } from "../../src/plans/sheets/rack.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { SetSheet, SetStock } from "../../src/set/schema.ts";
import { projectOf, setOf, testFile } from "../support/jobs/examples.ts";
import { stockOf } from "../support/jobs/reference-jobs.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";
import { checkTrees } from "../support/layouts/tree-checker.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { runs } from "../support/runs.ts";

const copies = (count: number, length: number, width: number): LayoutPiece[] =>
  Array.from({ length: count }, (_, i) => ({ id: `${i + 1}`, mark: `${i + 1}`, stock: "ply", length, width }));

const jobOf = (pieces: LayoutPiece[], stock: Partial<SetStock>): LayoutInput => ({
  pieces,
  stock: [{ ...stockOf(1000, 600, 10, true), ...stock }],
  kerf: 4,
  unit: "mm",
});

/** Checked as it would be sawn; which sheets or offcuts it takes, and how many parts lie on each. */
function laid(input: LayoutInput): string[] {
  const { sheets, problems } = planSheets(input);
  expect(problems).toEqual([]);
  expect(
    checkLayout(
      sheets,
      input.pieces.map((piece) => ({ ...piece, mayTurn: false })),
    ),
  ).toEqual([]);
  return sheets.map(
    ({ offcut, length, width, parts }) => `${offcut ?? "bought"} ${length} x ${width}: ${parts.length}`,
  );
}

const words = ({ sheets }: { sheets: SetSheet[] }): string => sheets[0]!.boundText;

describe("offcuts of the rack", () => {
  const offcuts = [
    { label: "R1", length: 450, width: 210, defects: [] },
    { label: "R2", length: 300, width: 150, defects: [] },
  ];

  it("are used before a sheet is bought, and not trimmed again", () => {
    // 400 x 200 from 450 x 210: two cuts. R2 is too short.
    const input = jobOf(copies(1, 400, 200), { offcuts });
    expect(laid(input)).toEqual(["R1 450 x 210: 1"]);
    const plan = planSheets(input);
    expect(words(plan)).toBe("0 sheets to buy: 1 offcut holds them");
    expect(plan.sheets[0]!.trim).toBe(0);
    expect(plan.sheets[0]!.cuts).toHaveLength(2);
  });

  it("save a sheet", () => {
    // By hand: 980 x 580 inside the trim hold two columns of 400 and two rows of 200, 204 + 204 + 172 left: four. The fifth is on R1.
    expect(laid(jobOf(copies(5, 400, 200), {}))).toHaveLength(2);
    const input = jobOf(copies(5, 400, 200), { offcuts });
    expect(laid(input)).toEqual(["R1 450 x 210: 1", "bought 1000 x 600: 4"]);
    expect(words(planSheets(input))).toBe("1 sheet beside 1 offcut of the rack");
  });

  it("that hold nothing stay in the rack", () => {
    expect(laid(jobOf(copies(1, 700, 200), { offcuts }))).toEqual(["bought 1000 x 600: 1"]);
  });

  it("of boards are boards of their own length and width", () => {
    const ash: SetStock = {
      ...stockOf(2440, 1220, 0, true),
      sheet: null,
      boards: { rough: 26, length: 2000, width: 100, spare: 0, dressed: false },
      offcuts: [{ label: "short", length: 900, width: 130, defects: [] }],
    };
    const pieces = copies(3, 850, 90);
    const { sheets, problems } = planBoards({ ...jobOf(pieces, {}), stock: [ash] });
    expect(problems).toEqual([]);
    expect(sheets.map(({ offcut, length, width, parts }) => [offcut, length, width, parts.length])).toEqual([
      ["short", 900, 130, 1],
      [null, 2000, 100, 2],
    ]);
  });

  it("never make the bound more than what is found, nor lower it by more than they are", () => {
    const size = fc.record({
      length: fc.integer({ min: 5, max: 95 }),
      width: fc.integer({ min: 5, max: 47 }),
      turn: fc.boolean(),
    });
    const offcut = fc.record({ length: fc.integer({ min: 20, max: 96 }), width: fc.integer({ min: 10, max: 48 }) });
    const sheet: LayoutSheet = { length: 96, width: 48 };
    fc.assert(
      fc.property(
        fc.array(size, { minLength: 1, maxLength: 14 }),
        fc.array(offcut, { minLength: 1, maxLength: 3 }),
        (parts, rack) => {
          const items = parts.map((part): LayoutItem => ({ ...part, copies: 1 }));
          const least = boundOf(items, sheet, 0, rack).least;
          const free = rack.map(bedOf);
          const job = { items, bed: bedOf(sheet), free, options: { depth: 3, most: 99, least } };
          const trees = findLayouts(job, { trials: 200_000, seed: 1 });
          expect(checkTrees(trees, items, null, [...rack, ...trees.slice(rack.length).map(() => sheet)])).toEqual([]);
          expect(trees.length - rack.length).toBeGreaterThanOrEqual(least);
          expect(least).toBeGreaterThanOrEqual(boundOf(items, sheet).least - rack.length);
          expect(least).toBeLessThanOrEqual(boundOf(items, sheet).least);
        },
      ),
      { seed: 20261130, numRuns: runs(150) },
    );
  });
});

describe("defects of an offcut or a board", () => {
  const flawed = (length: number, defects: [number, number][]): SetStock["offcuts"] => [
    { label: "B1", length, width: 210, defects: defects.map(([from, to]) => ({ from, to })) },
  ];
  const cutsOf = ({ sheets }: { sheets: SetSheet[] }): unknown[] =>
    sheets[0]!.cuts.map(({ piece, makes, at, fence }) => [piece, makes, at, fence]);

  it("are cut out first, and the parts lie between them", () => {
    // By hand, with a blade of 4: clear from 0 to 420, and from 500 to 1000.
    const input = jobOf(copies(2, 400, 210), { offcuts: flawed(1000, [[420, 500]]) });
    expect(laid(input)).toEqual(["B1 1000 x 210: 2"]);
    expect(cutsOf(planSheets(input))).toEqual([
      ["S1", ["S1.1", "S1"], 420, 420],
      ["S1", ["waste", "S1.2"], 496, 72],
      ["S1.1", ["1", "waste"], 400, 400],
      ["S1.2", ["2", "waste"], 900, 400],
    ]);
  });

  it("no wider than the blade are taken by one cut, and those at an end by one", () => {
    const split = jobOf(copies(2, 400, 210), { offcuts: flawed(804, [[401, 403]]) });
    expect(laid(split)).toEqual(["B1 804 x 210: 1", "bought 1000 x 600: 1"]); // from 405 on, 399 are left
    const narrow = jobOf(copies(2, 400, 210), { offcuts: flawed(805, [[401, 403]]) });
    expect(laid(narrow)).toEqual(["B1 805 x 210: 2"]);
    const ends = jobOf(copies(1, 400, 210), {
      offcuts: flawed(500, [
        [0, 60],
        [460, 500],
      ]),
    });
    expect(laid(ends)).toEqual(["B1 500 x 210: 1"]);
    expect(cutsOf(planSheets(ends))).toEqual([
      ["S1", ["waste", "S1"], 56, 56],
      ["S1", ["1", "waste"], 460, 400],
    ]);
  });

  it("never lie in a part or in what is kept, wherever they are", () => {
    const defect = fc.record({ from: fc.integer({ min: 0, max: 1900 }), size: fc.integer({ min: 1, max: 90 }) });
    const board = fc.record({
      length: fc.integer({ min: 300, max: 2000 }),
      defects: fc.array(defect, { maxLength: 4 }),
    });
    const part = fc.record({ length: fc.integer({ min: 60, max: 700 }), width: fc.integer({ min: 30, max: 200 }) });
    fc.assert(
      fc.property(
        fc.array(board, { minLength: 1, maxLength: 3 }),
        fc.array(part, { minLength: 1, maxLength: 9 }),
        (boards, parts) => {
          const offcuts = boards.map(({ length, defects }, i) => ({
            ...{ label: `B${i}`, length, width: 210 },
            defects: clearOfEachOther(defects, length),
          }));
          const pieces = parts.map((one, i) => ({ id: `${i}`, mark: `${i}`, stock: "ply", ...one }));
          const input = { ...jobOf(pieces, { offcuts }), effort: "quick" as const };
          const { sheets, problems } = planSheets(input);
          expect(problems).toEqual([]);
          expect(
            checkLayout(
              sheets,
              pieces.map((piece) => ({ ...piece, mayTurn: false })),
            ),
          ).toEqual([]);
          for (const sheet of sheets) {
            const own = offcuts.find(({ label }) => label === sheet.offcut)?.defects ?? [];
            expect(sheet.defects.map(({ x, length }) => ({ from: x, to: x + length }))).toEqual(own);
            for (const { x, length } of sheet.offcuts)
              expect(own.filter(({ from, to }) => from < x + length && x < to)).toEqual([]);
          }
        },
      ),
      { seed: 20261130, numRuns: runs(200) },
    );
  });

  /** Those that the board has, and that do not touch an earlier one. */
  function clearOfEachOther(
    list: readonly { from: number; size: number }[],
    length: number,
  ): { from: number; to: number }[] {
    const kept: { from: number; to: number }[] = [];
    for (const { from, size } of list.toSorted((a, b) => a.from - b.from)) {
      const to = from + size;
      if (to <= length && !kept.some((one) => from < one.to)) kept.push({ from, to });
    }
    return kept;
  }

  it("are told on the page", () => {
    const set = setOf(testFile("rack"));
    const said = drawBundle(set).drawings.flatMap((page) => textBoxes(page.shapes).map(({ text }) => text));
    expect(said.join(" ")).toContain("Hatched both ways: defects, at 30 to 55");
    expect(said.join(" ")).toContain("from the labelled end, which lies at the left. Crosscut beside them first.");
  });

  it("and a part over one are found", () => {
    const set = structuredClone(setOf(testFile("rack")));
    expect(checkLayouts(set)).toEqual([]);
    const flawed = set.sheets.find(({ defects }) => defects.length > 0)!;
    flawed.parts[0]!.x -= 10;
    expect(checkLayouts(set).map(({ text }) => text)).toEqual([
      `Piece ${flawed.parts[0]!.id} takes in a defect of sheet ${flawed.n}.`,
    ]);
  });
});

describe("several sizes of sheet", () => {
  const small = { length: 600, width: 500, price: 20, count: null };

  it("the cheapest are taken", () => {
    const one = copies(1, 500, 400);
    expect(laid(jobOf(one, { price: 50, sizes: [small] }))).toEqual(["bought 600 x 500: 1"]);
    expect(laid(jobOf(one, { price: 15, sizes: [small] }))).toEqual(["bought 1000 x 600: 1"]);
    expect(words(planSheets(jobOf(one, { price: 50, sizes: [small] })))).toBe("1 sheet: the cheapest found of 2 sizes");
  });

  it("are mixed where that is cheaper still", () => {
    // Four of 450 x 250 go on a large sheet at 50, one on a small one at 20: five cost 70, not 100 on two of either or more.
    const input = jobOf(copies(5, 450, 250), { price: 50, sizes: [{ ...small, length: 480, width: 280 }] });
    expect(laid(input).toSorted()).toEqual(["bought 1000 x 600: 4", "bought 480 x 280: 1"]);
  });

  it("of which few are to be had, no more are taken", () => {
    const sizes = [{ ...small, price: 1, count: 1 }];
    expect(
      laid(jobOf(copies(3, 500, 400), { price: 50, sizes })).filter((text) => text.includes("600 x 500")),
    ).toHaveLength(1);
  });
});

describe("too few sheets", () => {
  it("each part without one is named, with what would hold it", () => {
    const { problems } = planSheets(jobOf(copies(5, 400, 200), { count: 1 }));
    expect(problems.map(({ text, expected, remedy }) => `${text} | ${expected} | ${remedy}`)).toEqual([
      "part 5, 400 mm x 200 mm, finds no room: 1 sheet of Plywood 18 is to be had, the layout found takes 2, and no layout fewer than 2 | parts that the sheet to be had hold | 1 more of its sheets, or an offcut of at least 400 mm x 200 mm; or another stock for some parts; or let parts lie against the grain",
    ]);
  });
});

describe("a layout", () => {
  const items: LayoutItem[] = [3, 4, 5, 6, 7].map((n) => ({ length: 90 * n, width: 40 * n, copies: n, turn: false }));
  const sheet = { length: 1000, width: 600 };
  const options = { trials: 300_000, depth: 3, most: 99, least: 1 };

  it("is the same for the same seed, byte for byte", () => {
    const of = (seed: number): string => JSON.stringify(findLayout(items, sheet, { ...options, seed }));
    expect(of(4)).toBe(of(4));
    expect(new Set([1, 2, 3, 4, 5, 6].map(of)).size).toBeGreaterThan(1);
  });

  it("is whole at whatever round the clock ends it", () => {
    for (let last = 0; last < 7; last++) {
      let asked = 0;
      const trees = findLayout(items, sheet, { ...options, seed: 1, isLate: () => asked++ >= last });
      expect(checkTrees(trees, items, sheet)).toEqual([]);
    }
  });
});

describe("a sheet too heavy for one person", () => {
  // 18 mm of 600 kg/m3, 17.6 by calliper: 980 x 580 inside the trim weigh 6.0 kg. Six strips of 90 and their kerfs, 560 of 580.
  const input = jobOf(copies(6, 980, 90), {});
  const firstCut = (lift: number | null): string => {
    const { sheets } = planSheets({ ...input, lift });
    expect(
      checkLayout(
        sheets,
        input.pieces.map((piece) => ({ ...piece, mayTurn: false })),
      ),
    ).toEqual([]);
    const { piece, makes, fence } = sheets[0]!.cuts[4]!;
    return `${piece} at ${fence}: ${makes.join(" + ")}`;
  };

  it("is cut into two pieces first, strip by strip only after that", () => {
    // By hand: three strips and the two kerfs between them, 278; beyond the cut 298 stay, the waste of 20 with them.
    expect(firstCut(null)).toMatch(/^S1 at 90: /);
    expect(firstCut(6.1)).toMatch(/^S1 at 90: /);
    expect(firstCut(5.9)).toBe("S1 at 278: S1.1 + S1.2");
  });

  it("is named where even the first cut leaves too much", () => {
    const { tooling } = projectOf(testFile("rack"));
    const levels = (lift: number): string[] => {
      const { sheets } = planSheets({ ...input, lift });
      return checkLift({ sheets, stock: [...input.stock], tooling: { ...tooling, lift }, unit: "mm" }).map(
        ({ level, text }) => `${level}: ${text}`,
      );
    };
    expect(levels(3.2)).toEqual(["ok: The first cut after the skims leaves pieces that one person handles."]);
    expect(levels(3)).toEqual([
      "note: The first cut after the skims leaves more than one person handles: 3.1 kg of sheet 1.",
    ]);
  });
});

describe("the least offcut worth keeping", () => {
  it("is what the job says", () => {
    // Beside 700 x 570 there stay 980 - 704 = 276 by 580.
    const kept = (keep: { length: number; width: number } | null): number =>
      planSheets({ ...jobOf(copies(1, 700, 570), {}), keep }).sheets[0]!.offcuts.length;
    expect(kept(null)).toBe(1);
    expect(kept({ length: 600, width: 100 })).toBe(0);
    expect(kept({ length: 500, width: 270 })).toBe(1);
    expect(kept({ length: 500, width: 280 })).toBe(0);
  });
});

describe("a job with a rack", () => {
  it("fetches what it uses, buys the rest, and says so", () => {
    const set = setOf(testFile("rack"));
    const used = set.sheets.flatMap(({ offcut }) => offcut ?? []);
    expect(used).toEqual(["shelf 3", "by the door"]);
    const lines = set.purchase.filter(({ unit }) => ["sheet", "offcut"].includes(unit));
    expect(lines.map(({ what, quantity, note }) => `${what}: ${quantity}; ${note}`)).toEqual([
      "18 mm plywood: 1; 1 sheet beside 1 offcut of the rack: the cheapest found of 2 sizes; parts take 38 %; 40.00 each",
      '18 mm plywood, from the rack: 1; not to buy: "shelf 3"; measure each before the rest is bought',
      '6 mm plywood, from the rack: 1; not to buy: "by the door"; measure each before the rest is bought',
    ]);
    expect(set.layout).toMatchObject({ seed: 7, effort: "quick", keep: null, repeatable: true });
  });
});

describe("the rack after a job", () => {
  const set = setOf(testFile("rack"));

  it("holds what is left of it and what is kept, as large as it is at the most, each with a label", () => {
    const kept = set.sheets.flatMap(({ offcuts }) => offcuts);
    expect(set.rack.map(({ id, label }) => `${id ?? "there"}: ${label}`)).toEqual([
      "there: shelf 4",
      ...kept.map(({ id }) => `${id}: T ${id}`),
    ]);
    for (const { id, length, width, text, spot } of set.rack) {
      const offcut = kept.find((one) => one.id === id);
      if (offcut === undefined) continue;
      expect(offcut.length - length).toBeGreaterThanOrEqual(-1e-6);
      expect(offcut.length - length).toBeLessThan(0.1);
      expect(offcut.width - width).toBeLessThan(0.1);
      expect(text).toBe(`dryfit 1, offcut T ${id}, ${length} x ${width} mm, stock ply-18mm`);
      expect(spot).not.toBeNull();
    }
    // After the labels of the parts, no two in one place.
    const spots = [...set.labels, ...set.rack].flatMap(({ spot }) => (spot === null ? [] : [JSON.stringify(spot)]));
    expect(new Set(spots).size).toBe(set.labels.length + kept.length);
  });

  it("is what the next job takes from it", () => {
    const next = JSON.parse(rackText(set)) as { stock: Record<string, object> };
    const { unit, job, stock, cases } = JSON.parse(
      readFileSync(testFile("rack"), "utf8").replace(/^\/\/.*$/gm, ""),
    ) as Record<string, Record<string, object>>;
    const both = Object.fromEntries(
      Object.entries(stock!).map(([id, own]) => [id, { ...own, offcuts: [], ...next.stock[id] }]),
    );
    const { project } = readProjectText(JSON.stringify({ job, unit, stock: both, cases }), "next.json");
    const ply = project.stock.find(({ id }) => id === "ply-18mm")!;
    expect(ply.offcuts).toEqual(
      set.rack.map(({ label, length, width, defects }) => ({ label, length, width, defects })),
    );
  });
});
