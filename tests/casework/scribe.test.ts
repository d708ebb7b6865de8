/** What is left on outer stiles and worktops to be scribed to a wall: told wherever the part is, bought and milled, and in no fit. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { makeSet } from "../../src/build.ts";
import { labelFields } from "../../src/drawings/labels/label-words.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { scribesOf } from "../../src/set/scribe.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { closePage, partPages } from "../support/paper/part-pages.ts";

const file = parse(readFileSync(testFile("worktop-solid"), "utf8"));
const textOf = (walls: object): string => JSON.stringify({ ...file, walls });
const built = (walls: object): DryfitSet =>
  makeSet(readProjectText(textOf(walls), "scribe.json").project, { draft: false, olderSet: null });

const plain = setOf(testFile("worktop-solid"));
const MORE = 12;
const WALLS = { left: "0 mm", right: "0 mm", scribe: { left: "12 mm", back: "12 mm" } };
const partOf = (set: DryfitSet, end: string): SetPart => set.parts.find(({ key }) => key.endsWith(end))!;
const widthOf = (set: DryfitSet, end: string): number =>
  set.pieces.find(({ mark }) => mark === partOf(set, end).mark)!.width;

describe("to be scribed", () => {
  const set = built(WALLS);

  it("are the outer stile and the worktop at that wall alone", () => {
    const told = set.parts.flatMap((part) => scribesOf(set, part).map(({ wall, edge }) => [part.key, wall, edge]));
    const [stile, top] = [partOf(set, "/stile-left").key, partOf(set, "/worktop").key];
    expect(told).toEqual([
      [stile, "left", "w0"],
      [top, "left", "l0"],
      [top, "back", "w1"],
    ]);
  });

  it("their sizes, places and fits are what they were; their pieces are wider by it", () => {
    for (const part of plain.parts) {
      const { length, width, place } = set.parts.find(({ key }) => key === part.key)!;
      expect([length, width, place]).toEqual([part.length, part.width, part.place]);
    }
    expect(dryFit(set).filter(({ level }) => level === "failure")).toEqual([]);
    expect(widthOf(set, "/stile-left") - widthOf(plain, "/stile-left")).toBeCloseTo(MORE, 6);
    expect(widthOf(set, "/stile-right")).toBeCloseTo(widthOf(plain, "/stile-right"), 6);
    const [glued, before] = [set, plain].map(({ worktops }) => worktops[0]!.glued!);
    expect(glued!.trim.ends - before!.trim.ends).toBeGreaterThanOrEqual(MORE - 1e-6);
    expect(glued!.trim.edges).toBeGreaterThanOrEqual(MORE);
  });

  it("said on the label, on the part drawing, which closes, and in a step of its own before the case is anchored", () => {
    const stile = partOf(set, "/stile-left");
    expect(labelFields(set, stile).some(({ text }) => /^leave .* at the left edge to scribe$/.test(text))).toBe(true);
    expect(labelFields(set, partOf(set, "/stile-right")).some(({ text }) => text.includes("scribe"))).toBe(false);
    const notes = partPages(set).map((page) => closePage(set, page));
    expect(notes.flatMap(({ faults }) => faults)).toEqual([]);
    const titles = set.steps.map(({ title }) => title);
    const at = titles.indexOf("Scribe to the wall at the left and the wall behind");
    expect(at).toBeGreaterThan(-1);
    const anchored = titles.findIndex((title) => title.startsWith("Anchor"));
    expect(anchored === -1 || at < anchored).toBe(true);
    expect(set.steps[at]!.cautions.join(" ")).toContain("second person");
  });
});

describe("a worktop of sheet stock", () => {
  const sheet = parse(readFileSync(testFile("worktop-panel"), "utf8"));
  const [top] = sheet.worktops;
  const made = (edges: string[], scribe: object): string =>
    JSON.stringify({
      ...sheet,
      walls: { left: "0 mm", scribe },
      worktops: [{ ...top, edge: undefined, lipping: { ...top.lipping, edges } }],
    });
  const set = (scribe: object): DryfitSet =>
    makeSet(readProjectText(made(["front", "right"], scribe), "scribe.json").project, { draft: false, olderSet: null });

  it("is cut longer and wider by what is left, keeps its printed size, and says so", () => {
    const [one, before] = [set({ left: "12 mm", back: "10 mm" }), set({})];
    const [own, was] = [partOf(one, "/worktop"), partOf(before, "/worktop")];
    expect([own.length, own.width, own.place]).toEqual([was.length, was.width, was.place]);
    const pieceOf = (each: DryfitSet) =>
      each.pieces.find(({ mark, kind }) => mark === partOf(each, "/worktop").mark && kind === "panel")!;
    expect(pieceOf(one).length - pieceOf(before).length).toBeCloseTo(12, 6);
    expect(pieceOf(one).width - pieceOf(before).width).toBeCloseTo(10, 6);
    expect([pieceOf(before).state, pieceOf(one).state]).toEqual(["final", "oversize"]);
    expect(dryFit(one).filter(({ level }) => level === "failure")).toEqual([]);
    expect(labelFields(one, own).filter(({ text }) => /^leave .* to scribe$/.test(text))).toHaveLength(2);
    expect(partPages(one).flatMap((page) => closePage(one, page).faults)).toEqual([]);
    expect(one.steps.map(({ title }) => title)).toContain("Scribe to the wall at the left and the wall behind");
  });

  it("has no lipping where it is scribed", () => {
    const [found, ...more] = problemsIn(made(["front", "left"], { left: "12 mm" }));
    expect(more).toEqual([]);
    expect([found!.where?.path, found!.found]).toEqual([
      "walls.scribe.left",
      "12 mm to scribe at the left, where desk top has a lipping",
    ]);
  });
});

describe("what cannot be scribed is said at its place", () => {
  it.each<[string, object, string]>([
    ["no wall there", { scribe: { left: "10 mm" } }, "where there is no wall"],
    [
      "a wall that it does not reach",
      { left: "80 mm", scribe: { left: "10 mm" } },
      "beyond the cases, and the wall stands",
    ],
  ])("%s", (_, walls, words) => {
    const [found, ...more] = problemsIn(textOf(walls));
    expect(more).toEqual([]);
    expect(found!.where?.path).toBe("walls.scribe.left");
    expect(found!.found).toContain(words);
  });

  it("nothing that is scribed", () => {
    const { worktops: _worktops, ...bare } = file;
    const [one] = bare.cases;
    const { frame: _frame, ...open } = one;
    const [found] = problemsIn(
      JSON.stringify({ ...bare, cases: [open], walls: { left: 0, scribe: { left: "10 mm" } } }),
    );
    expect(found!.found).toContain("nothing there that is scribed");
  });
});
