/** A base of framing lumber behind a frame that goes down to the floor: sizes as the standard has them, cut to length alone, bought by the run. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { hasFailed } from "../../src/build.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;

describe("framing lumber of the shop", () => {
  // American Softwood Lumber Standard PS 20 (NIST), minimum dressed sizes, dry.
  const { rows } = JSON.parse(
    readFileSync(new URL("../reference/lumber-softwood-dressed.json", import.meta.url), "utf8"),
  ) as { rows: { item: string; nominal_in: string; dry_in: string }[] };
  const dry = (item: string, nominal: string): string =>
    rows.find((row) => row.item === item && row.nominal_in === nominal)!.dry_in;

  it.each([
    ["lumber-2x4", "2", "4"],
    ["lumber-2x6", "2", "6"],
  ])("%s is as thick and wide as the standard dresses it", (id, thick, wide) => {
    const stock = parse(readFileSync(new URL("../../shared/stock.json", import.meta.url), "utf8")).stock[id];
    const thickness = `${dry("dimension thickness", thick)} in`;
    expect([stock.nominal, stock.boards.rough, stock.boards.width]).toEqual([
      thickness,
      thickness,
      `${dry("width", wide)} in`,
    ]);
  });
});

describe("a base of lumber", () => {
  const set = setOf(testFile("base-of-lumber"));
  const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
  const base = set.assemblies.find(({ kind }) => kind === "base")!;
  const own = set.parts.filter(({ assembly }) => assembly === base.name);

  it("carries the case, and the frame hides it down to the floor", () => {
    expect(hasFailed(set)).toBe(false);
    expect(base.size[2]).toBeCloseTo(inch(3.5), 6);
    expect(frame.place.at[2]).toBeCloseTo(base.place.at[2], 6);
    expect(frame.size[2]).toBeCloseTo(inch(30 + 3.5), 6);
    expect(frame.size[0]).toBeGreaterThanOrEqual(base.size[0]);
  });

  it("is cut to length from lumber as wide as it is high, and bought in whole lengths, as many as are laid out and a quarter more than it takes", () => {
    for (const { mark, length } of own) {
      const piece = set.pieces.find((one) => one.mark === mark)!;
      expect([piece.kind, piece.state, piece.width, piece.thickness]).toEqual([
        "board",
        "oversize",
        expect.closeTo(inch(3.5), 6),
        expect.closeTo(inch(1.5), 6),
      ]);
      expect(piece.length).toBeGreaterThan(length);
    }
    const takes = own.reduce((sum, { mark }) => sum + set.pieces.find((one) => one.mark === mark)!.length, 0);
    const line = set.purchase.find(({ what }) => what.startsWith("framing lumber"))!;
    const { boards } = set.stock.find(
      ({ id }) => id === set.parts.find(({ mark }) => mark === own[0]!.mark)!.material,
    )!;
    const laid = set.boards.filter(({ stock, offcut }) => stock.startsWith("lumber") && offcut === null).length;
    expect(line.unit).toBe(line.quantity === 1 ? "length" : "lengths");
    expect(line.quantity).toBe(Math.max(laid, Math.ceil((takes * 1.25) / boards!.length)));
    expect(line.note).toContain(`${((line.quantity * boards!.length) / inch(12)).toFixed(1)} ft bought`);
    const screws = set.purchase.filter(({ what }) => what.startsWith("Screws for the edge"));
    expect(screws, "nothing of plywood is screwed here").toEqual([]);
  });

  it("has its own step, with the cuts of sheets left to sheets", () => {
    const marks = own.map(({ mark }) => mark);
    expect(set.steps.find(({ title }) => title === "Cut the framing lumber, 2 x 4")!.parts).toEqual(marks);
    const sheets = set.steps.find(({ title }) => title.startsWith("Break down the sheets"))!;
    expect(sheets.parts.filter((mark) => marks.includes(mark))).toEqual([]);
  });
});

describe("what cannot be a base is said at its place", () => {
  const said = (plinth: string, height: string): string[] => {
    const job = parse(readFileSync(testFile("base-of-lumber"), "utf8"));
    const [one] = job.cases;
    const cases = [{ ...one, stock: { ...one.stock, plinth }, plinth: { height, setBack: 0 } }];
    return problemsIn(JSON.stringify({ ...job, cases })).map(({ where, found }) => `${where?.path}: ${found}`);
  };

  it("boards in the rough, and lumber too narrow", () => {
    expect(said("maple", "3 1/2")).toEqual(["cases[0].stock.plinth: a plinth of maple, 4/4, boards in the rough"]);
    expect(said("lumber-2x4", "4 1/2")).toEqual([
      'cases[0].plinth.height: a plinth 4 1/2 in high under "case", of lumber 3 1/2 in wide',
    ]);
  });
});
