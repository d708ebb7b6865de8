/** One face frame before several cases: its members worked out by hand, what the dry fit finds of it, measures, what cannot be made. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { drawFrameCorners } from "../../src/drawings/sticks/frame-corner.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

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
