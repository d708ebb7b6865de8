/** Boards of solid wood: laid out as a saw can follow, every rough piece once, named when none gives them. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { planBoards } from "../../src/plans/sheets/index.ts";
import type { SetSheet, SetStock } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { stockOf } from "../support/jobs/reference-jobs.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";

const boardStock = (length: number, width: number): SetStock => ({
  ...stockOf(2440, 1220, 6, true),
  id: "ash",
  name: "ash",
  sheet: null,
  boards: { rough: 26, length, width, spare: 0.25, dressed: false },
});

/** The checker knows the names of a sheet's pieces, and keeps no offcut as narrow as a board's. */
const faultsOf = (boards: readonly SetSheet[], wanted: Parameters<typeof checkLayout>[1]): string[] =>
  checkLayout(JSON.parse(JSON.stringify(boards).replaceAll(/"B(\d)/g, '"S$1')) as SetSheet[], wanted).filter(
    (text) => !text.includes("too small to keep"),
  );

const wantedIn = (pieces: { id: string; mark: string; stock: string; length: number; width: number }[]) =>
  pieces.map(({ id, mark, stock, length, width }) => ({ id, mark, stock, length, width, mayTurn: false }));

describe("board layouts", () => {
  it("of a worktop and a frame hold every rough piece once, inside its board, a kerf apart, cut edge to edge", () => {
    const set = setOf(testFile("worktop-solid"));
    const pieces = set.pieces.filter(({ kind }) => kind === "board");
    expect(pieces.length).toBe(11);
    expect(faultsOf(set.boards, wantedIn(pieces))).toEqual([]);
    for (const { stock, length, width } of set.boards) {
      const { boards } = set.stock.find(({ id }) => id === stock)!;
      expect([length, width]).toEqual([boards!.length, boards!.width]);
    }
  });

  it("with a piece left out, cut twice, off its board or on another are found", () => {
    const set = setOf(testFile("worktop-solid"));
    const told = (spoil: (boards: SetSheet[]) => void): string[] => {
      const copy = structuredClone(set) as typeof set;
      spoil(copy.boards);
      return dryFit(copy).flatMap(({ id, level }) => (level === "failure" ? [id] : []));
    };
    expect(told(() => {})).toEqual([]);
    expect(told(([first]) => void first!.parts.pop())).toContain("layout");
    expect(told(([first]) => void first!.parts.push(first!.parts[0]!))).toContain("layout");
    expect(
      told(([first]) => {
        first!.parts[0]!.y += first!.width;
      }),
    ).toContain("layout");
    expect(
      told(([first]) => {
        const [a, b] = first!.parts;
        [a!.x, a!.y] = [b!.x, b!.y];
      }),
    ).toContain("layout");
  });

  it("are as few as can be: 8 members of a width and length that fit four to a board", () => {
    const pieces = Array.from({ length: 8 }, (_, i) => ({
      id: String(i),
      mark: String(i),
      stock: "ash",
      length: 600,
      width: 70,
    }));
    // Two rips of 70 in 150, two lengths of 600 in 1250.
    const { sheets } = planBoards({ pieces, stock: [boardStock(1250, 150)], kerf: 3, unit: "mm" });
    expect(sheets.length).toBe(2);
    expect(sheets[0]!.boundText).toBe("2 boards: proved the least; 1 cannot hold them");
    expect(faultsOf(sheets, wantedIn(pieces))).toEqual([]);
    expect(sheets.flatMap(({ cuts }) => cuts).every(({ piece }) => piece.startsWith("B"))).toBe(true);
  });

  it("name a piece that no board gives, and what would", () => {
    const pieces = [{ id: "1", mark: "1", stock: "ash", length: 2600, width: 70 }];
    const { problems } = planBoards({ pieces, stock: [boardStock(2500, 150)], kerf: 3, unit: "mm" });
    expect(problems.map(({ text }) => text)).toEqual([
      "part 1 is 2600 mm x 70 mm; a board of ash gives 2500 mm x 150 mm inside its trim",
    ]);
    expect(problems[0]!.remedy).toContain("a stock with boards of at least 2600 mm x 70 mm");
  });
});
