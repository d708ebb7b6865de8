/** Jobs with drawers, to be changed and looked at. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { expect } from "vitest";
import { MM_PER_INCH } from "../../../src/base/length.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet, SetDrawer, SetPart } from "../../../src/set/schema.ts";
import { testFile } from "../jobs/examples.ts";
import { proved } from "../jobs/outcome.ts";

export const inch = (inches: number): number => inches * MM_PER_INCH;

export type File = { unit: string; cases: { drawers: Record<string, unknown>; bays: unknown }[] } & Record<
  string,
  unknown
>;
export const file = (name: string): File => parse(readFileSync(testFile(name), "utf8"));

/** A small project with something of its case, or of its drawers, changed. */
export function textOf(name: string, change: Record<string, unknown>, drawers: Record<string, unknown> = {}): string {
  const job = file(name);
  const [one] = job.cases;
  return JSON.stringify({ ...job, cases: [{ ...one, drawers: { ...one!.drawers, ...drawers }, ...change }] });
}
export const built = (text: string): DryfitSet => proved(readProjectText(text, "drawers.json").project);

export const part = (set: DryfitSet, drawer: SetDrawer, role: SetPart["role"]): SetPart =>
  set.parts.find((one) => one.assembly === drawer.assembly && one.role === role)!;
export const made = (drawer: SetDrawer, what: string): number => drawer.sums.find((sum) => sum.what === what)!.makes;

/** A box of this opening: sides of no thickness to speak of leave the opening as it is asked for. */
export function boxIn(opening: number, drawers: Record<string, unknown>, side = 0.5): DryfitSet {
  const stock = (thick: number) => ({
    name: "panel",
    nominal: thick,
    measured: thick,
    sheet: { length: 96, width: 48 },
  });
  return built(
    JSON.stringify({
      job: { number: "T", title: "T", date: "2026-11-20", revision: "A" },
      unit: "in",
      step: "1/64",
      stock: { case: { ...stock(0.75), goodFaces: 2 }, box: stock(side), thin: stock(0.25) },
      cases: [
        {
          name: "case",
          width: opening + 1.5,
          height: 10,
          depth: 20,
          stock: { all: "case", back: "thin" },
          drawers: {
            stock: { box: "box", bottom: "thin", face: "case" },
            slides: { kind: "side-mounted" },
            front: { fit: "inset" },
            ...drawers,
          },
          bays: { drawers: [{}] },
        },
      ],
    }),
  );
}
export const SMALL = ["drawers-side-mounted", "drawers-face-frame", "drawers-undermount", "drawers-runners"] as const;

/** From the solids of the set, as a maker would measure them. */
export function holds(set: DryfitSet): void {
  const { step } = set.job;
  for (const drawer of set.drawers) {
    const { sums, free, front, slides } = drawer;
    for (const { whole, less, makes } of sums)
      expect(less.reduce((left, { size }) => left - size, whole)).toBeCloseTo(makes, 6);
    const [left, right] = drawer.opening.x;
    const [side, other] = set.parts.filter(
      ({ assembly, role }) => assembly === drawer.assembly && role === "drawerSide",
    ) as [SetPart, SetPart];
    const outside = other.place!.at[0] + other.thickness - side.place!.at[0];
    expect(made(drawer, "width")).toBeCloseTo(outside, 6);
    expect(free.left + outside + free.right).toBeCloseTo(right - left, 6);
    if (slides.kind !== "undermount") {
      for (const play of [free.left, free.right]) {
        expect(play).toBeGreaterThan(slides.clearance - 1e-6);
        expect(play).toBeLessThan(slides.clearance + 2 * step);
      }
    }
    expect(free.behind).toBeGreaterThan(slides.rear - 1e-6);
    const face = part(set, drawer, "drawerFace");
    if (front.fit === "inset") expect(right - left - face.length).toBeLessThan(2 * front.gap + inch(1) + 2 * step);
    expect(Math.min(...Object.values(free))).toBeGreaterThan(-1e-6);
  }
  // A stack adds up to its opening.
  for (const lowest of set.drawers.filter(({ place }) => place === 1)) {
    const height = lowest.sums.find(({ what }) => what === "height")!;
    const taken = height.less.reduce((sum, { size }) => sum + size, 0) + height.makes;
    expect(taken).toBeCloseTo(lowest.opening.z[1] - lowest.opening.z[0], 6);
  }
}
