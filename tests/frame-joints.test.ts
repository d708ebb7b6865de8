/** Joints of a face frame: their sizes against published rules, both halves of each against each other, what cannot be made. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../src/base/length.ts";
import { makeSet } from "../src/build.ts";
import { looseTenon, tenonLength, tenonPlaces, tenonThickness } from "../src/project/frame-joints.ts";
import { readProjectText } from "../src/project/read.ts";
import type { DryfitSet, SetFeature, SetPart } from "../src/set/schema.ts";
import { setOf, testFile } from "./support/examples.ts";
import { problemsIn } from "./support/project-file.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;

const textOf = (project: string, frame: Record<string, unknown>): string => {
  const job = parse(readFileSync(testFile(project), "utf8"));
  const [one] = job.cases;
  return JSON.stringify({ ...job, cases: [{ ...one, frame: { ...one.frame, ...frame } }] });
};
const built = (project: string, frame: Record<string, unknown>): DryfitSet =>
  makeSet(readProjectText(textOf(project, frame), "frame.json").project, { draft: false, olderSet: null });
const said = (project: string, frame: Record<string, unknown>): string[] =>
  problemsIn(textOf(project, frame)).map(({ where, found }) => `${where?.path}: ${found}`);

const part = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key.endsWith(`/${id}`))!;
const marked = (set: DryfitSet, mark: string): SetPart => set.parts.find((one) => one.mark === mark)!;

describe("loose tenons", () => {
  // "About 1/3 the total thickness of the tenoned workpiece, 1/2 to 2/3 as long as the width of the mortised one"; a stile and rail
  // of 3/4 x 2 in: mortise 1/4 wide and 1 to 1 3/8 deep, the tenon 1/16 short of it (WOOD magazine, Rule of thumb for mortise-and-tenon size).
  it("are sized as the magazine's example", () => {
    const none = { thickness: null, width: null, length: null };
    const tenon = looseTenon({ thickness: inch(3 / 4), width: inch(2), behind: inch(2) }, none, "in");
    expect(tenon.thickness).toBeCloseTo(inch(1 / 4), 9);
    expect(tenon.depth).toBeGreaterThanOrEqual(inch(1) - 1e-9);
    expect(tenon.depth).toBeLessThanOrEqual(inch(11 / 8));
    expect(tenon.depth - tenonLength(tenon, tenon.depth) / 2).toBeCloseTo(inch(1 / 16), 9);
  });

  // "A 3/4 in board should have 1/4 in tenons"; of 7/8 in either 1/4 or 5/16 (Popular Woodworking, Tenon preview).
  it("are as thick as some bit, nearest to a third", () => {
    expect(tenonThickness(inch(3 / 4), "in")).toBeCloseTo(inch(1 / 4), 9);
    expect([inch(1 / 4), inch(5 / 16)]).toContain(tenonThickness(inch(7 / 8), "in"));
    expect(tenonThickness(18, "mm")).toBe(6);
    expect(tenonThickness(24, "mm")).toBe(8);
  });

  // No wider than five times its thickness; a rail wider than 75 mm has two (a home-improvement reference, Rules for dimensions).
  it("are two where a rail is wide", () => {
    const none = { thickness: null, width: null, length: null };
    for (const width of [30, 45, 60, 76, 90, 120, 260]) {
      const tenon = looseTenon({ thickness: 20, width, behind: 45 }, none, "mm");
      expect(tenon.width).toBeLessThanOrEqual(5 * tenon.thickness);
      const places = tenonPlaces(width, tenon);
      if (width > 75) expect(places.length).toBeGreaterThanOrEqual(2);
      // Alike from both edges, and clear of them and of each other.
      expect(places.map((at) => width - at).reverse()).toEqual(places.map((at) => expect.closeTo(at, 9)));
      expect(places[0]! - tenon.width / 2).toBeGreaterThanOrEqual(Math.min(10, width / 4) - 1e-9);
      for (const [i, at] of places.slice(1).entries()) expect(at - places[i]! - tenon.width).toBeGreaterThanOrEqual(10);
    }
  });

  const set = setOf(testFile("frame-loose-tenons"));
  const mortises = (one: SetPart, holds: string): SetFeature[] =>
    one.features.filter((feature) => feature.kind === "mortise" && feature.holds === holds);
  const joints = set.joints.filter(({ fasteners }) => fasteners?.kind === "tenon");

  it("go into both members alike: one of a joint tight, the others slotted in the one that receives", () => {
    expect(joints.length).toBe(10); // four ends of rails on stiles, two of the mid stile, four of mid rails
    for (const { entering, receiving, fasteners } of joints) {
      const [end, edge] = [
        mortises(marked(set, entering), receiving),
        mortises(marked(set, receiving), entering),
      ] as const;
      const { thickness, width, length, slack } = fasteners!.tenon!;
      expect(end.length).toBe(fasteners!.positions.length);
      expect(edge.length).toBe(end.length);
      expect(end.every(({ from, to }) => Math.abs(to - from - width) < 1e-6)).toBe(true);
      const longer = edge.map(({ from, to }) => to - from - width).sort((a, b) => a - b);
      expect(longer[0]).toBeCloseTo(0, 6);
      for (const more of longer.slice(1)) expect(more).toBeCloseTo(slack, 6);
      for (const one of [...end, ...edge]) expect(one.width).toBeCloseTo(thickness, 6);
      expect(end[0]!.depth + edge[0]!.depth - length).toBeGreaterThanOrEqual(2 - 1e-6); // 1 mm free beyond either end
    }
  });

  it("of two rails back to back in a mid stile leave a third of it between them", () => {
    const mid = part(set, "stile-1");
    const depths = mid.features
      .filter(({ kind, face }) => kind === "mortise" && face[0] === "w")
      .map((one) => one.depth);
    expect(depths.length).toBe(2);
    expect(depths[0]! + depths[1]!).toBeLessThanOrEqual((2 / 3) * mid.width + 1e-6);
  });

  it("come to the buying list, as many as the joints have", () => {
    const lines = set.purchase.filter(({ what }) => what.startsWith("Loose tenons"));
    expect(lines.reduce((sum, { quantity }) => sum + quantity, 0)).toBe(
      joints.reduce((sum, { fasteners }) => sum + fasteners!.positions.length, 0),
    );
  });

  it("take their size from the job", () => {
    const given = built("frame-loose-tenons", { tenon: { thickness: 8, width: 20, length: 40 } });
    const tenons = given.joints.flatMap(({ fasteners }) => fasteners?.tenon ?? []);
    for (const { thickness, width, length } of tenons) expect([thickness, width, length]).toEqual([8, 20, 40]);
  });

  it.each<[string, Record<string, unknown>, string]>([
    [
      "too thick",
      { tenon: { thickness: 12 } },
      'cases[0].frame.tenon.thickness: tenons 12 mm thick in the frame of "case", which is 20 mm thick',
    ],
    [
      "too wide",
      { tenon: { width: 40 } },
      'cases[0].frame.tenon.width: tenons 40 mm wide in the frame of "case", whose narrowest member is 45 mm',
    ],
    [
      "too long",
      { tenon: { length: 70 } },
      'cases[0].frame.tenon.length: tenons 70 mm long in the frame of "case", half of them in members 45 mm wide',
    ],
    [
      "in a member too narrow",
      { midRail: 10 },
      'cases[0].frame.joint: tenons 5 mm wide and 6 mm thick in the frame of "case", whose narrowest member is 10 mm',
    ],
    [
      "with dowels",
      { joint: "dowels", tenon: { length: 40 } },
      'cases[0].frame.tenon: "tenon" for a frame with dowels',
    ],
  ])("%s are told at their place", (_, frame, words) => {
    expect(said("frame-loose-tenons", frame)).toContain(words);
  });
});
