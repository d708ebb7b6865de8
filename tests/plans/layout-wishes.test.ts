/** What a job asks of its layouts beyond the fewest sheets: strips cut in one, grain as a wish, cuts to begin with, parts wanted early. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { ProblemsFound } from "../../src/base/problem.ts";
import { planSet } from "../../src/plans/set.ts";
import { type LayoutInput, type LayoutPiece, planSheets } from "../../src/plans/sheets/index.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { projectOf, setOf, testFile } from "../support/jobs/examples.ts";
import { stockOf } from "../support/jobs/reference-jobs.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";

const piece = (id: string, length: number, width: number, more: Partial<LayoutPiece> = {}): LayoutPiece => ({
  ...{ id, mark: id, stock: "ply", length, width },
  ...more,
});

/** On sheets of 1000 x 600, no kerf, no trim; checked as it would be sawn. Which pieces lie on each sheet, and which wishes are kept. */
function laid(pieces: LayoutPiece[], more: Partial<LayoutInput> = {}): { sheets: string[]; wishes: string[] } {
  const stock = [stockOf(1000, 600, 0, true)];
  const { sheets, problems, wishes } = planSheets({ pieces, stock, kerf: 0, unit: "mm", effort: "quick", ...more });
  expect(problems).toEqual([]);
  const wanted = pieces.map((one) => ({ ...one, mayTurn: (one.grain ?? "along") !== "along" }));
  expect(checkLayout(sheets, wanted)).toEqual([]);
  return {
    sheets: sheets.map(({ parts }) =>
      parts
        .map(({ id, turned }) => (turned ? `${id} across` : id))
        .toSorted()
        .join(", "),
    ),
    wishes: wishes.map(({ kind, kept, pieces: ids }) => `${kind} ${ids.join(" ")}: ${kept ? "kept" : "lost"}`),
  };
}

describe("pieces that stay together", () => {
  // Side by side the two make room for the third; end to end they leave a strip that it does not fit.
  const pieces = [piece("1", 500, 300), piece("2", 500, 300), piece("3", 500, 600)];
  const strip = (run: "x" | "y", must: boolean) => ({ together: [{ marks: ["1", "2"], run, must }] });

  it("do where that costs nothing", () => {
    expect(laid(pieces, strip("y", false))).toEqual({ sheets: ["1, 2, 3"], wishes: ["together 1 2: kept"] });
  });

  it("do not as a wish where that would take another sheet", () => {
    expect(laid(pieces, strip("x", false))).toEqual({ sheets: ["1, 2, 3"], wishes: ["together 1 2: lost"] });
  });

  it("do all the same where they must", () => {
    const { sheets, wishes } = laid(pieces, strip("x", true));
    expect(sheets).toHaveLength(2);
    expect(wishes).toEqual(["together 1 2: kept"]);
  });

  it("are named each where no sheet holds their strip", () => {
    const long = [piece("1", 700, 300), piece("2", 700, 300)];
    const input: LayoutInput = { pieces: long, stock: [stockOf(1000, 600, 10, true)], kerf: 4, unit: "mm" };
    const { problems } = planSheets({ ...input, ...strip("x", true) });
    expect(problems.map(({ mark, text, remedy }) => `${mark}: ${text}; ${remedy}`)).toEqual(
      ["1", "2"].map(
        (mark) =>
          `${mark}: part ${mark} is to come from one strip with ${mark === "1" ? "2" : "1"}, kerfs included 1404 mm x 300 mm; a sheet of Plywood 18 gives 980 mm x 580 mm inside its trim; a strip of fewer parts; or leave "must" out; or a stock with sheets of at least 1424 mm x 320 mm`,
      ),
    );
  });

  it("are as many as the fewest sheets allow", () => {
    // Two strips end to end would fill a sheet beside nothing; one of them leaves room for the rest.
    const more = [...pieces, piece("4", 1000, 300), piece("5", 500, 300), piece("6", 500, 300)];
    const together = [
      ["1", "2"],
      ["5", "6"],
    ].map((marks) => ({ marks, run: "x" as const, must: false }));
    const { sheets, wishes } = laid(more, { together });
    expect(sheets).toHaveLength(2);
    expect(wishes.filter((text) => text.endsWith("kept"))).toHaveLength(1);
  });
});

describe("a grain that is wished for", () => {
  const beside = piece("1", 1000, 300);
  const across = (grain: "along" | "wish" | "any"): LayoutPiece[] => [beside, piece("2", 300, 500, { grain })];

  it("gives way where it would take another sheet", () => {
    expect(laid(across("along")).sheets).toHaveLength(2);
    expect(laid(across("any"))).toEqual({ sheets: ["1, 2 across"], wishes: [] });
    expect(laid(across("wish"))).toEqual({ sheets: ["1, 2 across"], wishes: ["grain 2: lost"] });
  });

  it("is kept where there is room", () => {
    const { wishes } = laid([piece("1", 700, 300), piece("2", 300, 500, { grain: "wish" })]);
    expect(wishes).toEqual(["grain 2: kept"]);
  });
});

describe("parts wanted early", () => {
  it("come from the first sheets, as few as hold them", () => {
    // Beside each large part there is room for two small ones.
    const pieces = [
      ...["1", "2", "3"].map((id) => piece(id, 600, 500)),
      ...["4", "5", "6", "7"].map((id, i) => piece(id, 390, 290 - 10 * (i % 2), { early: i % 2 === 0 })),
    ];
    const { sheets, wishes } = laid(pieces);
    expect(sheets).toHaveLength(3);
    expect(sheets[0]).toMatch(/^[123], 4, 6$/);
    expect(wishes).toEqual(["early 4 6: kept"]);
  });
});

describe("cuts to begin with", () => {
  const { pieces, stock } = {
    pieces: ["1", "2", "3", "4"].map((id) => piece(id, 480, 280)),
    stock: stockOf(1000, 600, 5, true),
  };
  /** What each sheet is divided by, once its four edges are trimmed. */
  const begun = (first: "x" | "y"): string[] =>
    planSheets({ pieces, stock: [stock], kerf: 3, unit: "mm", first }).sheets.map(({ cuts }) => cuts[4]!.across);

  it("are those that are asked for", () => {
    expect(begun("y")).toEqual(["y"]);
    expect(begun("x")).toEqual(["x"]);
  });

  it("give way where they would take another sheet", () => {
    // The first is as wide as the sheet: no rip passes it.
    const wide = [piece("1", 600, 600), piece("2", 400, 300), piece("3", 400, 300)];
    expect(laid(wide, { first: "x" })).toEqual({ sheets: ["1, 2, 3"], wishes: ["first 1 2 3: kept"] });
    expect(laid(wide, { first: "y" })).toEqual({ sheets: ["1, 2, 3"], wishes: ["first 1 2 3: lost"] });
  });

  it("are kept by sheets that are cut along the other axis alone", () => {
    expect(laid([piece("1", 500, 600), piece("2", 400, 600)], { first: "y" }).wishes).toEqual(["first 1 2: kept"]);
  });

  it("are found out where they are told wrongly", () => {
    const set = setOf(testFile("strips"));
    const beginOf = ({ cuts, trim }: (typeof set.sheets)[number]): string => cuts[trim > 0 ? 4 : 0]!.across;
    const all = set.sheets.filter(({ stock: id }) => id === "ply-18mm");
    const sheets = all.filter((one) => beginOf(one) === beginOf(all[0]!));
    const ids = sheets.flatMap(({ parts }) => parts.map(({ id }) => id));
    const begins = sheets.map(beginOf);
    const [does, doesNot] = begins[0] === "y" ? (["rip", "crosscut"] as const) : (["crosscut", "rip"] as const);
    const told = (first: "rip" | "crosscut", kept: boolean): string[] => {
      const wishes = [...set.layout.wishes, { kind: "first" as const, pieces: ids, run: null, kept }];
      const failed = dryFit({ ...set, layout: { ...set.layout, first, wishes } });
      return failed.flatMap(({ level, text }) => (level === "failure" ? [text.split(". ")[0]!] : []));
    };
    expect(told(does, true)).toEqual([]);
    expect(told(does, false)).toEqual([expect.stringMatching(/^No sheet is told to begin with/)]);
    expect(told(doesNot, true)).toEqual([expect.stringMatching(/^Every sheet is told to begin with/)]);
    expect(told(doesNot, false)).toEqual([]);
  });
});

describe("levels of cutting", () => {
  it("are no more than are asked for, be the offcut smaller", () => {
    // Two small parts in a stack beside the large one leave half the sheet; without a third turn of the sheet they cannot lie so.
    const pieces = [piece("1", 600, 300), piece("2", 400, 150), piece("3", 400, 150)];
    const largest = (levels: number): string => {
      const { sheets } = planSheets({ pieces, stock: [stockOf(1000, 600, 0, true)], kerf: 0, unit: "mm", levels });
      const [first] = sheets[0]!.offcuts.toSorted((a, b) => b.length * b.width - a.length * a.width);
      return `${first!.length} x ${first!.width}`;
    };
    expect(largest(3)).toBe("1000 x 300");
    expect(["600 x 300", "1000 x 150"]).toContain(largest(2));
  });
});

describe("a job with strips", () => {
  const set = setOf(testFile("strips"));
  const found = (change: (copy: DryfitSet) => void): string[] => {
    const copy = structuredClone(set);
    change(copy);
    return dryFit(copy).flatMap(({ id, level, text }) => (level === "failure" ? [`${id}: ${text.split(".")[0]}`] : []));
  };
  const wish = ({ layout }: DryfitSet, kind: string) => layout.wishes.filter((one) => one.kind === kind);
  const lying = ({ sheets }: DryfitSet, id: string) =>
    sheets.flatMap(({ parts }) => parts).find((part) => part.id === id)!;

  it("cuts doors side by side, the left one where the sheet's left end is turned down, and faces as they hang", () => {
    const byKey = (text: string): string => set.parts.find(({ key }) => key.includes(text))!.mark;
    expect(wish(set, "together").map(({ pieces }) => pieces)).toEqual([
      [byKey("door 2/slab"), byKey("door 1/slab")],
      [byKey("drawer 1/face"), byKey("drawer 2/face"), byKey("drawer 3/face")],
    ]);
    expect(set.layout.wishes.every(({ kept }) => kept)).toBe(true);
    expect(found(() => undefined)).toEqual([]);
  });

  it("is found out where a strip lies in another order, apart or on two sheets", () => {
    const [, faces] = wish(set, "together").map(({ pieces }) => pieces);
    const [a, b, c] = faces as [string, string, string];
    const reversed = found((copy) => {
      wish(copy, "together")[1]!.pieces.reverse();
    });
    expect(reversed[0]).toMatch(/do not lie in line/);
    expect(
      found((copy) => {
        const [low, next] = [lying(copy, a), lying(copy, b)];
        [low.id, low.mark, next.id, next.mark] = [next.id, next.mark, low.id, low.mark];
        wish(copy, "together")[1]!.pieces = [b, a, c];
        [low.width, next.width] = [next.width, low.width];
        next.y = low.y + low.width + copy.sheets[0]!.kerf;
      }).some((text) => /in another order than they stand in/.test(text)),
    ).toBe(true);
    const shifted = found((copy) => {
      lying(copy, c).y += 1;
    });
    expect(shifted).toContainEqual(expect.stringMatching(/do not lie in line/));
  });

  it("is found out where a piece lies across a grain that it must keep, or is told wrongly", () => {
    const upright = set.pieces.find(({ grain, mark }) => grain === "along" && lying(set, mark) !== undefined)!;
    const turned = found((copy) => {
      lying(copy, upright.id).turned = true;
    });
    expect(turned).toContainEqual(expect.stringMatching(new RegExp(`Piece ${upright.id} lies across the grain`)));
    const told = found((copy) => {
      wish(copy, "grain")[0]!.kept = false;
    });
    expect(told).toContainEqual(expect.stringMatching(/is told to lie across the grain, and lies along it/));
  });
});

describe("panels cut with something over", () => {
  const set = setOf(testFile("strips"));
  const slabs = set.parts.filter(({ role }) => role === "slab");

  it("lie on the sheet as large as that, and are trimmed at one setting each way once it is cut", () => {
    for (const { mark, cut } of slabs) {
      const laidOut = set.sheets.flatMap(({ parts }) => parts).find((part) => part.mark === mark)!;
      expect([laidOut.length - cut.length, laidOut.width - cut.width]).toEqual([
        expect.closeTo(10, 6),
        expect.closeTo(6, 6),
      ]);
    }
    const trims = set.sizing.filter(({ trim }) => trim);
    const marks = slabs.map(({ mark }) => mark);
    expect(trims.map(({ rips, crosscuts, fence }) => ({ rips, crosscuts, fence }))).toEqual(
      expect.arrayContaining([
        { rips: marks, crosscuts: [], fence: slabs[0]!.cut.width },
        { rips: [], crosscuts: marks, fence: slabs[0]!.cut.length },
      ]),
    );
    expect(set.sizing.findIndex(({ trim, group }) => trim && group === trims[0]!.group)).toBeGreaterThan(
      set.sizing.findLastIndex(({ trim, group }) => !trim && group === trims[0]!.group),
    );
  });

  it("are found out where their trimming is left out or told at another size", () => {
    for (const change of [
      (copy: DryfitSet) =>
        void copy.sizing.splice(
          copy.sizing.findIndex(({ trim }) => trim),
          1,
        ),
      (copy: DryfitSet) => {
        copy.sizing.find(({ trim }) => trim)!.fence += 1;
      },
    ]) {
      const copy = structuredClone(set);
      change(copy);
      expect(dryFit(copy).filter(({ id, level }) => id === "sizing" && level === "failure")).toHaveLength(2);
    }
  });
});

describe("a job that asks for what it has not", () => {
  const asked = (layout: object): string[] => {
    const project = projectOf(testFile("strips"));
    try {
      planSet({ ...project, layout: { ...project.layout, ...layout } }, { draft: false, olderSet: null });
      return [];
    } catch (error) {
      if (!(error instanceof ProblemsFound)) throw error;
      return error.problems.map(({ found: text, remedy }) => `${text}; ${remedy}`);
    }
  };
  const strip = (...parts: string[]) => ({ together: [{ path: "layout.together[0].parts", parts, must: false }] });

  it("is told which part, and what is near", () => {
    expect(asked(strip("slap"))).toEqual(['there is no part "slap" in this job; did you mean "slab"?']);
    expect(asked(strip("divider"))).toEqual(["one part alone; name the parts beside it"]);
    expect(asked(strip("slab", "drawerFront"))).toEqual([
      'parts of "ply-18mm" and "ply-12mm" in one strip; a strip for each stock',
    ]);
    expect(asked(strip("slab", "shelf", "top"))).toEqual([
      'there is no part "shelf" in this job; look its key up in set.json',
      "parts whose grain runs in different directions in one strip; a strip for each direction",
    ]);
  });
});
