/** One face frame before several cases: its members worked out by hand, what the dry fit finds of it, measures, what cannot be made. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { drawFrameCorners } from "../../src/drawings/sticks/frame-corner.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { runs, SEED } from "../support/runs.ts";

type Change = Record<string, unknown>;
const STOCK = {
  ply: { name: "plywood", nominal: 18, measured: 18, sheet: { length: 2440, width: 1220 }, goodFaces: 2 },
  thin: { name: "thin plywood", nominal: 6, measured: 6, sheet: { length: 2440, width: 1220 } },
  ash: { name: "ash", nominal: 20, measured: 20, density: 680, boards: { rough: 26, length: 2440, width: 180 } },
};
const DOORS = { kind: "slab", stock: "ply", fit: "inset", hinges: { kind: "butt" } };
const DRAWERS = {
  stock: { box: "ply", bottom: "thin", face: "ash" },
  slides: { kind: "side-mounted", rating: "25 kg" },
  front: { fit: "inset" },
};
const FRAME = { over: ["left", "right"], stock: "ash", stile: 50, midStile: 38, jointStile: 60, topRail: 45 };

const caseOf = (name: string, width: number, depth: number, more: Change): Change => ({
  name,
  width,
  height: 780,
  depth,
  stock: { all: "ply", back: "thin" },
  bottom: { up: 80 },
  doors: DOORS,
  ...more,
});
const textOf = ({ frame = {}, left = {}, right = {}, job = {} }: Record<string, Change> = {}): string =>
  JSON.stringify({
    job: { number: "T", title: "Frame over two cases", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: STOCK,
    cases: [
      caseOf("left", 640, 420, {
        frame: { ...FRAME, ...frame },
        drawers: DRAWERS,
        bays: {
          columns: [
            { name: "planes", door: "left" },
            { name: "chisels", drawers: [{}, {}] },
          ],
        },
        ...left,
      }),
      caseOf("right", 460, 320, {
        bays: { rows: [{ name: "books", size: 330, door: "pair" }, { name: "plans" }] },
        ...right,
      }),
    ],
    ...job,
  });

function built(changes?: Parameters<typeof textOf>[0]): DryfitSet {
  const outcome = outcomeOf(textOf(changes));
  if (outcome.kind === "refused") throw new Error(outcome.problems.map(({ found }) => found).join("; "));
  expect(outcome.failures.map(({ id, text }) => `${id}: ${text}`)).toEqual([]);
  return outcome.set;
}
const said = (changes: Parameters<typeof textOf>[0]): string[] =>
  problemsIn(textOf(changes)).map(({ where, found }) => `${where?.path}: ${found}`);
const part = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key.endsWith(`frame/${id}`))!;
const opening = (set: DryfitSet, name: string): [number, number, number] => {
  const one = set.openings.find((each) => each.case === "left and right frame" && each.name === name)!;
  return [one.at[0], one.width, one.height];
};
const told = (set: DryfitSet): string[] =>
  dryFit(set)
    .filter(({ level }) => level === "failure")
    .map(({ id }) => id);

describe("the members", () => {
  // Cases of 640 and 460 with sides of 18, 3 of overhang at each end: 1106 wide. The joint is at 640, 643 from the frame's end: a stile of
  // 60 over it from 613 to 673. The left case's divider stands in the middle of 36..604 of the frame's own: 18 thick at 311 to 329 of the
  // case, so the mid stile of 38 from 304 to 342. The rails are 1106 - 2 x 50 = 1006 long; the bottom rail ends at 80 + 18. By hand.
  it("are rails that run past the joint, and a stile over it between them", () => {
    const set = built();
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    expect([frame.name, frame.place.at, frame.size]).toEqual(["left and right frame", [-3, -20, 0], [1106, 20, 780]]);
    expect([part(set, "rail-top").length, part(set, "rail-bottom").length]).toEqual([1006, 1006]);
    const joint = part(set, "right/stile-joint");
    expect([joint.place!.at[0], joint.width, joint.length]).toEqual([613, 60, 780 - 45 - 98]);
    expect(part(set, "left/stile-1").place!.at[0]).toBe(304);
    expect(part(set, "right/rail-1").length).toBe(1056 - 673);
    expect(opening(set, "planes of left")).toEqual([50, 254, 637]);
    expect(opening(set, "chisels of left")).toEqual([342, 271, 637]);
    expect(opening(set, "books of right")[1]).toBe(383);
  });

  it("have doors and drawers of every case in their own openings", () => {
    const set = built();
    expect(set.doors.map(({ assembly, opening: { at, width } }) => [assembly, at[0], width])).toEqual([
      ["left door 1", 47, 254],
      ["right door 1", 670, 383],
      ["right door 2", 670, 383],
    ]);
    expect(set.drawers.map(({ opening: { x } }) => x)).toEqual([
      [339, 610],
      [339, 610],
    ]);
  });

  it("cover the one side that two cases share", () => {
    const set = built({ frame: { jointStile: 30 }, right: { shares: { left: "left" } } });
    // The shared side stands from 622 to 640: its middle, at 631, is 634 from the frame's end.
    expect(part(set, "right/stile-joint").place!.at[0]).toBe(619);
  });

  it("go on round the two outer ends, each as its own case is deep", () => {
    const set = built({
      frame: { joint: "loose tenons", returns: { width: 60, strip: 40 }, lower: { form: "feet", foot: 120, rise: 40 } },
    });
    expect(set.returns.map(({ side, case: home }) => [side, home])).toEqual([
      ["left", "left"],
      ["right", "right"],
    ]);
    const strips = set.returns.map(({ strip }) => set.parts.find(({ mark }) => mark === strip)!.length);
    expect(strips).toEqual([420 - 40, 320 - 40]);
    expect(part(set, "rail-bottom").features.find(({ kind }) => kind === "shape")).toBeDefined();
    // Both corners are alike, and the stile over the joint has a picture of its own.
    const words = drawFrameCorners(set, { x: 0, y: 0, width: 400, height: 260 }).flatMap(({ shapes }) =>
      textBoxes(shapes).map(({ text }) => text),
    );
    const [left, right] = ["left/side-right", "right/side-left"].map(
      (key) => set.parts.find((one) => one.key === key)!,
    );
    expect(words.join(" ")).toContain(`over sides ${left!.mark} and ${right!.mark}`);
  });

  it("are of one frame for all of a quantity", () => {
    const set = setOf(exampleFile("wedging-pair"));
    const frame = set.assemblies.filter(({ kind }) => kind === "frame");
    expect(frame.map(({ name, size }) => [name, size[0]])).toEqual([["clay locker frame", 800]]);
    // Two lockers of 400: the stile of 50 over their joint stands at 375 to 425.
    expect(part(set, "clay locker 2/stile-joint").place!.at[0]).toBe(375);
    expect(set.doors.map(({ opening: { at, width } }) => [at[0], width])).toEqual([
      [740, 335],
      [740, 335],
      [1125, 335],
      [1125, 335],
    ]);
  });
});

describe("the work", () => {
  it("joins the cases before the frame is measured for, and tells all that it is glued to", () => {
    const set = setOf(exampleFile("wedging-pair"));
    const titles = set.steps.map(({ title }) => title);
    const order = [
      "Join clay locker 2 to clay locker 1",
      "Mill the members of clay locker frame",
      "Glue clay locker frame to clay locker 1 and clay locker 2",
      "Fasten clay locker 1 to wedging stand",
    ].map((title) => titles.indexOf(title));
    expect(order).not.toContain(-1);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    const mill = set.steps.find(({ title }) => title.startsWith("Mill"))!;
    expect(mill.boxes.at(-1)).toEqual({ label: "joined, width over all at the front", target: 800 });
  });
});

describe("the dry fit", () => {
  it("finds a stile that leaves the joint, and a frame that is too narrow", () => {
    const set = built();
    const move = (key: string, by: number): DryfitSet => ({
      ...set,
      parts: set.parts.map((one) =>
        one.key.endsWith(key)
          ? { ...one, place: { ...one.place!, at: [one.place!.at[0] + by, one.place!.at[1], one.place!.at[2]] } }
          : one,
      ),
    });
    // The stile laps 12 beyond either side: 13 to the right, and a millimetre of the left case's side shows.
    const moved = move("right/stile-joint", 13);
    expect(dryFit(moved).find(({ id }) => id === "frame-cover")!.text).toMatch(
      /^The front edge of .* shows by 1 mm beside a stile of left and right frame/,
    );
    const wide = {
      ...set,
      assemblies: set.assemblies.map((one) =>
        one.kind === "frame" ? { ...one, size: [1100, 20, 780] as [number, number, number] } : one,
      ),
    };
    expect(told(wide)).toContain("frame");
  });

  it("follows cases measured wider: what stands right of one stands so much farther right", () => {
    const set = built({ job: { asBuilt: { left: { width: 642 }, right: { width: 459 } } } });
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    expect(frame.size[0]).toBe(642 + 459 + 6);
    // The joint is now at 642: 645 - 30.
    expect(part(set, "right/stile-joint").place!.at[0]).toBe(615);
    expect(set.doors.find(({ case: home }) => home === "right")!.opening.at[0]).toBe(672);
  });
});

describe("what cannot be made", () => {
  it("is said with where, what and how much", () => {
    expect(said({ frame: { over: ["left", "rigth"] } })).toEqual(['cases[0].frame.over[1]: there is no case "rigth"']);
    expect(said({ frame: { over: ["right"] } })[0]).toBe(
      'cases[0].frame.over: a face frame of "left" that goes before other cases alone',
    );
    expect(said({ frame: { over: ["left"] } })).toEqual(["cases[0].frame.over: a face frame over one case"]);
    expect(said({ right: { frame: { stock: "ash", stile: 50 } } })).toEqual([
      'cases[1].frame: a second face frame before "right"',
    ]);
    expect(said({ frame: { jointStile: 35 } })).toEqual([
      'cases[0].frame.jointStile: a stile 35 mm wide before the joint of "left" and "right", whose sides take 36 mm',
    ]);
    expect(said({ right: { at: [640, 20, 0] } })).toEqual([
      'cases[0].frame.over: front edges of "right" 20 mm behind or before those of "left", under one face frame',
    ]);
    expect(said({ right: { at: [650, 0, 0] } })).toEqual([
      'cases[0].frame.over: "left" and "right", 10 mm apart, under one face frame',
    ]);
    expect(said({ right: { bottom: { up: 90 } } })).toEqual([
      'cases[0].frame.over: bottoms of "right" 10 mm above or below those of "left", under one face frame',
    ]);
    expect(said({ right: { height: 700 } })[0]).toBe(
      'cases[0].frame.over: upper ends of "right" 80 mm above or below those of "left", under one face frame',
    );
    expect(said({ frame: { over: undefined, jointStile: undefined }, right: { shares: { left: "left" } } })).toContain(
      'cases[0].frame: a face frame before "left", which shares a side with "right"',
    );
    expect(said({ frame: { over: undefined } })).toEqual([
      'cases[0].frame.jointStile: "jointStile" for a frame of one case',
    ]);
  });
});

/** Two to four cases with sides of their own or shared, divided or not, with doors and drawers: widths in half millimetres and sixteenths. */
const randomRow = fc
  .record({
    unit: fc.constantFrom("mm", "in"),
    frame: fc.record({
      stile: fc.constantFrom(45, 60),
      midStile: fc.constantFrom(30, 38),
      jointStile: fc.constantFrom(40, 62),
      overhang: fc.constantFrom(0, 3, 5.5),
      joint: fc.constantFrom("dowels", "loose tenons", "stub tenons", "pocket screws"),
    }),
    cases: fc.array(
      fc.record({
        width: fc.integer({ min: 900, max: 1600 }).map((halves) => halves / 2),
        shares: fc.boolean(),
        inside: fc.constantFrom(
          { name: "whole", door: "left" },
          {
            columns: [{ name: "a", door: "right" }, { name: "b" }],
          },
          { rows: [{ name: "low", size: 380, door: "left" }, { name: "high" }] },
          { drawers: [{}, { share: 2 }] },
        ),
      }),
      { minLength: 2, maxLength: 4 },
    ),
  })
  .map(({ unit, frame, cases }) => {
    const names = cases.map((_, i) => `case ${i + 1}`);
    const file = JSON.parse(textOf()) as { cases: Change[]; stock: Change };
    const text = {
      ...file,
      cases: cases.map(({ width, shares, inside }, i) => ({
        ...caseOf(
          names[i]!,
          width,
          400,
          "drawers" in inside ? { doors: undefined, drawers: DRAWERS, bays: inside } : { bays: inside },
        ),
        ...(i === 0 ? { frame: { over: names, stock: "ash", topRail: 45, ...frame } } : {}),
        ...(shares && i > 0 ? { shares: { left: names[i - 1]! } } : {}),
      })),
    };
    // In inches every figure is a whole number of sixteenths, and the step a thirty-second.
    const inches = (value: unknown, key = ""): unknown =>
      typeof value === "number" && !["share", "density", "goodFaces"].includes(key)
        ? Math.round((value / 25.4) * 16) / 16
        : Array.isArray(value)
          ? value.map((one) => inches(one, key))
          : typeof value === "object" && value !== null
            ? Object.fromEntries(Object.entries(value).map(([name, one]) => [name, inches(one, name)]))
            : value;
    return JSON.stringify(unit === "mm" ? text : { ...(inches(text) as Change), unit: "in", step: "1/32" });
  });

it("of random cases add up to the frame, and each opening lies before its own bay", () => {
  let made = 0;
  for (const text of fc.sample(randomRow, { numRuns: runs(80), seed: SEED })) {
    const outcome = outcomeOf(text);
    if (outcome.kind === "refused") {
      // A bay too narrow for slides or doors, or a stile that does not cover both sides, is no fault of the frame's.
      for (const { found } of outcome.problems)
        expect(found, text).toMatch(/wide|leave|no slides|deep|tenons|stiles that lap|from boards/);
      continue;
    }
    made++;
    const { set } = outcome;
    expect(
      outcome.failures.map(({ text: words }) => words),
      text,
    ).toEqual([]);
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    const members = set.parts.filter(({ assembly }) => assembly === frame.name);
    const outer = members.filter(({ key }) => /stile-(left|right)$/.test(key));
    const rail = members.find(({ key }) => key.endsWith("/rail-top"))!;
    // A stub tenon is wood of the rail's own, beyond what is between the stiles.
    const isStub = set.joints.some(({ entering, kind }) => entering === rail.mark && kind === "tongue");
    const clear = frame.size[0] - outer[0]!.width - outer[1]!.width;
    if (isStub) expect(rail.length).toBeGreaterThan(clear);
    else expect(rail.length).toBeCloseTo(clear, 6);
    const first = set.assemblies.find(({ name }) => name === "case 1")!;
    const cases = set.assemblies.filter(({ kind }) => kind === "case");
    expect(frame.size[0] - 2 * (first.place.at[0] - frame.place.at[0])).toBeCloseTo(
      cases.at(-1)!.place.at[0] + cases.at(-1)!.size[0] - first.place.at[0],
      1,
    );
    for (const one of set.openings.filter((each) => each.case === frame.name)) {
      const [, bay, home] = /^(.+) of (case \d)$/.exec(one.name)!;
      const behind = set.assemblies.find(({ name }) => name === home)!;
      const own = set.openings.filter(
        (each) => each.case === home && (each.name === bay || bay!.startsWith("opening")),
      );
      const from = Math.min(...own.map(({ at }) => at[0])) + behind.place.at[0];
      const to = Math.max(...own.map(({ at, width }) => at[0] + width)) + behind.place.at[0];
      const at = one.at[0] + frame.place.at[0];
      expect(at, text).toBeGreaterThan(from - set.job.step - 1e-6);
      expect(at + one.width, text).toBeLessThan(to + set.job.step + 1e-6);
    }
  }
  expect(made).toBeGreaterThan(runs(80) / 4);
});
