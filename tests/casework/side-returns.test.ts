/** Side returns of a face frame: the corner worked out by hand, what the dry fit finds of it, what cannot be made. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { behindAll, type Slant } from "../../src/audit/solids/slants.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { makeSet } from "../../src/build.ts";
import { drawFaceFrames } from "../../src/drawings/cases/face-frame.ts";
import { labelFields } from "../../src/drawings/labels/label-words.ts";
import { drawFrameCorners } from "../../src/drawings/sticks/frame-corner.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { readProjectText } from "../../src/project/read.ts";
import { matingWords } from "../../src/set/mating.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;
const wordsOn = ({ shapes }: { shapes: Shape[] }): string[] => textBoxes(shapes).map(({ text }) => text);
type Change = Record<string, unknown>;
const textOf = (frame: Change, more: Change = {}, job: Change = {}): string => {
  const file = parse(readFileSync(testFile("frame-loose-tenons"), "utf8"));
  const [one] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...one, ...more, frame: { ...one.frame, ...frame } }] });
};
const built = (frame: Change, more?: Change): DryfitSet =>
  makeSet(readProjectText(textOf(frame, more), "frame.json").project, { draft: false, olderSet: null });
const failed = (set: DryfitSet): string[] =>
  set.checks.filter(({ level }) => level === "failure").map(({ id, text }) => `${id}: ${text}`);
const part = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key.endsWith(`/${id}`))!;
const said = (frame: Change, more?: Change): string[] =>
  problemsIn(textOf(frame, more)).map(({ where, found }) => `${where?.path}: ${found}`);
const told = (set: DryfitSet): string[] =>
  dryFit(set)
    .filter(({ level }) => level === "failure")
    .map(({ id }) => id);

/** The set with one part's own figures changed. */
const changed = (set: DryfitSet, mark: string, change: (one: SetPart) => SetPart): DryfitSet => ({
  ...set,
  parts: set.parts.map((one) => (one.mark === mark ? change(one) : one)),
});
const movedBy =
  (by: readonly [number, number, number]) =>
  (one: SetPart): SetPart => ({
    ...one,
    place: { ...one.place!, at: one.place!.at.map((at, i) => at + by[i]!) as [number, number, number] },
  });

describe("the corner", () => {
  // A frame of 20 before a case of 900: with a return of 20 at both ends it is 940 wide, its rails 940 - 2 x 45 = 850; a return 60 wide to
  // its point begins 20 before the case and reaches 40 along its side; a strip fills the 360 that are left of 400. Worked out by hand.
  it("is a frame wider by two thicknesses, and a return shorter by the one it is mitred in", () => {
    const set = built({ stile: 50, returns: { width: 60, strip: 70 } });
    expect(failed(set)).toEqual([]);
    expect(set.assemblies.find(({ kind }) => kind === "frame")!.size[0]).toBeCloseTo(940, 9);
    expect(part(set, "rail-top").length).toBeCloseTo(840, 9);
    const strip = part(set, "strip");
    expect([strip.length, strip.width, strip.thickness]).toEqual([360, 70, 20]);
    const upright = part(set, "return");
    expect([upright.width, upright.thickness]).toEqual([60, 20]);
    expect(upright.length).toBeCloseTo(part(set, "stile-left").length, 9);
    expect(set.returns.map(({ proud }) => proud)).toEqual([0, 0]);
    // Half a square of 20 x 20 is sawn off along its length.
    const [mitre] = upright.features;
    expect(mitre!.kind).toBe("mitre");
    expect(upright.mass).toBeCloseTo(((60 * 20 - 200) * upright.length * 690) / 1e9, 9);
  });

  it("has the edge of the stile before a butted return, whose stock may be another", () => {
    const set = built({ returns: { width: 60, fit: "butted", sides: ["right"] }, overhang: 5 });
    expect(failed(set)).toEqual([]);
    expect(set.parts.filter(({ features }) => features.some(({ kind }) => kind === "mitre"))).toEqual([]);
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    expect([frame.place.at[0], frame.size[0]]).toEqual([-5, 925]);
    // The corner at full size is the one with the return, and both carry its letter.
    const [told] = set.returns;
    const corner = drawFrameCorners(set, { x: 0, y: 0, width: 280, height: 180 }).flatMap(wordsOn).join(" ");
    expect(corner).toContain(
      `Stile ${part(set, "stile-right").mark}, rail ${part(set, "rail-top").mark} and side ${told!.against}, return ${told!.mark} (letter ${told!.mating})`,
    );
    expect(matingWords(set, part(set, "stile-right"))[0]).toContain(`${told!.mating} inside face`);
    expect(matingWords(set, part(set, "return"))).toEqual([`joints: ${told!.mating} front edge`]);
  });

  it("closes where the thickness is no whole step: the frame stands out by what rounding leaves", () => {
    const set = makeSet(
      readProjectText(
        textOf({ stile: 50, returns: { width: 60 } }, {}, { step: 1 }).replace('"measured":20', '"measured":19.3'),
        "f.json",
      ).project,
      { draft: false, olderSet: null },
    );
    expect(failed(set)).toEqual([]);
    for (const { proud } of set.returns) expect(proud).toBeCloseTo((939 - 900 - 38.6) / 2, 9);
  });

  it("has the console's on both ends, at three quarters of an inch", () => {
    const set = setOf(exampleFile("glaze-console"));
    expect(set.returns.map(({ side, fit }) => `${side} ${fit}`)).toEqual(["left mitred", "right mitred"]);
    const pictured = drawFaceFrames(set).flatMap(wordsOn);
    for (const { mating, side, stile, mark } of set.returns) {
      // On the stile, and in the list under the view.
      expect(pictured).toContain(mating);
      expect(pictured.join(" ")).toContain(`letter ${mating} on both`);
      const [own, other] = [stile, mark].map((one) => set.parts.find((each) => each.mark === one)!);
      expect(
        labelFields(set, own!)
          .map(({ text }) => text)
          .join(),
      ).toContain(`${mating} ${side} edge`);
      expect(
        labelFields(set, other!)
          .map(({ text }) => text)
          .join(),
      ).toContain(`${mating} front edge`);
    }
    expect(set.assemblies.find(({ kind }) => kind === "frame")!.size[0]).toBeCloseTo(inch(73.5), 6);
    for (const { mark } of set.returns) {
      const work = set.handWork.find((one) => one.mark === mark)!.text;
      expect(work).toContain("at 45°");
      expect(work).toContain("The blade tilts away from the fence");
      expect(work).toContain("Test on two scraps");
    }
  });
});

describe("wood behind a slanting plane", () => {
  const box = [
    [0, 0, 0],
    [10, 10, 100],
  ] as const;
  const half: Slant = { normal: [Math.SQRT1_2, -Math.SQRT1_2, 0], reach: 0 };

  it("is half a box cut from corner to corner, and nothing where the other half is cut off as well", () => {
    expect(behindAll(box, [half])!.volume).toBeCloseTo(5000, 6);
    expect(behindAll(box, [half, { normal: [-Math.SQRT1_2, Math.SQRT1_2, 0], reach: 0 }])).toBeNull();
  });

  // Two planes 0.5 apart about the diagonal of 10 x 10: 100 less two triangles of legs 10 - 0.25 x sqrt 2.
  it("is told by its own volume where two slopes overlap", () => {
    const leg = 10 - 0.25 * Math.SQRT2;
    const both = behindAll(box, [
      { ...half, reach: 0.25 },
      { normal: [-Math.SQRT1_2, Math.SQRT1_2, 0], reach: 0.25 },
    ])!;
    expect(both.volume).toBeCloseTo((100 - leg ** 2) * 100, 6);
  });
});

describe("the dry fit finds", () => {
  const set = built({ stile: 50, returns: { width: 60, strip: 70 } });
  const [left] = set.returns;

  it("nothing in what is as it should be", () => {
    expect(told(set)).toEqual([]);
  });

  it("a return two steps back from its mitre, or into it", () => {
    expect(told(changed(set, left!.mark, movedBy([0, 0.2, 0])))).toContain("return");
    expect(told(changed(set, left!.mark, movedBy([0, -0.2, 0])))).toEqual(
      expect.arrayContaining(["return", "overlap"]),
    );
  });

  it("a return or a strip off its side, and one that is too low", () => {
    expect(told(changed(set, left!.mark, movedBy([-0.3, 0, 0])))).toContain("return");
    expect(told(changed(set, left!.strip!, movedBy([-0.3, 0, 0])))).toContain("return");
    expect(told(changed(set, left!.mark, movedBy([0, 0, -0.3])))).toContain("return");
  });

  it("a mitre on the wrong face, one at another angle, and one that is missing", () => {
    const flipped = changed(set, left!.mark, (one) => ({
      ...one,
      features: one.features.map((feature) => ({
        ...feature,
        outline: feature.outline.map(([w, t]) => [w, one.thickness - t] as [number, number]),
      })),
    }));
    expect(told(flipped)).toContain("return");
    const steep = changed(set, left!.mark, (one) => ({
      ...one,
      features: one.features.map((feature) => ({
        ...feature,
        outline: feature.outline.map(([w, t]) => [w + (w < one.width ? -2 : 0), t] as [number, number]),
      })),
    }));
    expect(told(steep)).toEqual(expect.arrayContaining(["feature", "return"]));
    expect(
      told(
        changed(set, left!.stile, (one) => ({ ...one, features: one.features.filter(({ kind }) => kind !== "mitre") })),
      ),
    ).toEqual(expect.arrayContaining(["return", "overlap"]));
  });
});

describe("returns that cannot be made are refused", () => {
  const at = "cases[0].frame";
  it("by thickness, width, the stile's wood and the joint", () => {
    expect(said({ stile: 40, returns: { width: 60 } })).toContain(
      `${at}.stile: mitred stiles 40 mm wide on "case", of which the mitre takes 20 mm and the loose tenons go 24 mm in`,
    );
    expect(said({ stile: 50, returns: { width: 22 } })).toContain(
      `${at}.returns.width: a return 22 mm wide on "case", of which the mitre takes 20 mm`,
    );
    expect(said({ stile: 50, returns: { width: 500, fit: "butted" } })).toContain(
      `${at}.returns.width: a return that reaches 500 mm along the sides of "case", which are 400 mm deep`,
    );
    expect(said({ stile: 50, joint: "half laps", returns: { width: 60 } })).toContain(
      `${at}.joint: half laps through to the outer edges of the stiles of "case", which are mitred`,
    );
  });

  it("by stock, by what stands beside, by the strip, and where an overhang means nothing", () => {
    expect(said({ stile: 50, returns: { width: 60, stock: "ply" } })).toContain(
      `${at}.returns.stock: side returns of 18 mm plywood, which comes in sheets`,
    );
    expect(said({ stile: 50, returns: { width: 60 } }, { quantity: 2 })).toContain(
      `${at}.returns: side returns on 2 cases "case", which stand beside each other`,
    );
    expect(said({ stile: 50, returns: { width: 60, strip: 156 } })).toContain(
      `${at}.returns.strip: a strip 156 mm wide glued along the side of "case"`,
    );
    const walls = { walls: { left: 0, scribe: { left: 6 } } };
    expect(problemsIn(textOf({ stile: 50, returns: { width: 60 } }, {}, walls)).map(({ found }) => found)).toContain(
      "6 mm to scribe at the left, where a face frame goes round the end of its case",
    );
    expect(said({ stile: 50, overhang: 4, returns: { width: 60 } })).toContain(
      `${at}.overhang: an overhang of a frame with returns at both ends, which stands out by their thickness`,
    );
  });
});
