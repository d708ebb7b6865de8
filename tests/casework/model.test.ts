/** Arrangements of a case, each a small project with one idea. */
import { describe, expect, it } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { makeSet } from "../../src/build.ts";
import { deriveModel } from "../../src/model/derive.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleFile, setOf as setOfFile, testFile } from "../support/jobs/examples.ts";
import { printed, readText } from "../support/jobs/project-file.ts";

/** A case of 18 mm stock measured at exactly 18, joints 9 deep, no allowance and no slip, so that every figure can be done in the head. */
const jobOf = (box: object, more: object = {}): string =>
  JSON.stringify({
    job: { number: "T-1", title: "Test", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: { "ply-18mm": { measured: 18 }, "ply-6mm": { measured: 6 } },
    joinery: { allowance: 0, slip: 0 },
    cases: [
      {
        name: "box",
        width: 836,
        height: 736,
        depth: 300,
        stock: { all: "ply-18mm", back: "ply-6mm" },
        edges: { front: "covered" },
        ...box,
      },
    ],
    ...more,
  });

const setOf = (box: object, more: object = {}): DryfitSet =>
  makeSet(readText(jobOf(box, more)).project, { draft: false, olderSet: null });

const parts = (set: DryfitSet, role: string): SetPart[] => set.parts.filter((part) => part.role === role);
const groove = (part: SetPart, holds: string) =>
  part.features.find((feature) => feature.holds === holds && feature.kind !== "notch")!;
const failures = (set: DryfitSet): string[] =>
  set.checks.filter(({ level }) => level === "failure").map(({ text }) => text);

describe("shelves either side of a divider", () => {
  it("at one height share the web: a third each", () => {
    const set = setOf({ bays: { columns: [{ rows: [{ size: 300 }, {}] }, { rows: [{ size: 300 }, {}] }] } });
    const divider = parts(set, "divider")[0]!;
    expect(divider.features.map(({ depth }) => depth)).toEqual([6, 6]);
    // Clear bay (800 - 18) / 2 = 391; 9 into the side, 6 into the divider.
    expect(parts(set, "shelf").map(({ length }) => length)).toEqual([406, 406]);
    expect(set.checks.filter(({ id }) => id === "web-thirds")).toHaveLength(1);
    expect(failures(set)).toEqual([]);
  });

  it("passing within half a thickness share it too, further apart they do not", () => {
    const at = (gap: number): number[] =>
      parts(
        setOf({ bays: { columns: [{ rows: [{ size: 300 }, {}] }, { rows: [{ size: 318 + gap }, {}] }] } }),
        "divider",
      )[0]!.features.map(({ depth }) => depth);
    expect(at(8.9)).toEqual([6, 6]);
    expect(at(9.1)).toEqual([9, 9]);
  });
});

describe("a stopped groove", () => {
  const set = setOf({ edges: { front: "shows" }, bays: { rows: [{ size: 300 }, {}] } });
  const [left] = parts(set, "side");
  const [shelf] = parts(set, "shelf");

  it("stops 12 mm short of the edge that shows and runs through at the back", () => {
    const { from, to, ends } = groove(left!, shelf!.mark);
    expect([from, to]).toEqual([12, 300]);
    expect(ends).toEqual(["square", "through"]);
  });

  it("is closed by a notch as deep as the joint at both front corners of what enters", () => {
    const notches = shelf!.features.filter(({ kind }) => kind === "notch");
    expect(notches.map(({ face, at, width, depth }) => [face, at, width, depth])).toEqual([
      ["l0", 0, 12, 9],
      ["l1", 0, 12, 9],
    ]);
  });

  it("gives the sides a hand", () => {
    expect(parts(set, "side").map(({ hand }) => hand)).toEqual(["left", "right"]);
    expect(failures(set)).toEqual([]);
  });
});

describe("hand", () => {
  it("a side with through grooves alone, the same from either end and either edge, has none", () => {
    const set = setOf({ back: { fit: "none" } });
    // Bottom at the foot, top flush: a rabbet at each end, alike.
    expect(parts(set, "side").map(({ hand }) => hand)).toEqual([null, null]);
  });

  it("nor where the back's groove only has to change ends: one side upside down is the other", () => {
    expect(parts(setOf({}), "side").map(({ hand }) => hand)).toEqual([null, null]);
  });

  it("is given, however little tells them apart, where the job has the mirror image too and the two are not one part", () => {
    // The bottom's rabbet has the fit allowance, the top's runs out at the end: turned upside down a side differs by 0.1.
    const set = setOfFile(testFile("plinth"));
    const sides = parts(set, "side");
    expect(sides.map(({ hand }) => hand)).toEqual(["left", "right"]);
    expect(sides[0]!.pattern).not.toBe(sides[1]!.pattern);
    expect(failures(set)).toEqual([]);
  });

  it("is not given to bottom and top panel, each the other's image in a mirror that lies level: both would have the same", () => {
    // Their grooves lie 0.2 mm off the middle, which is less than rounding leaves.
    const set = setOfFile(exampleFile("glaze-console"));
    expect([...parts(set, "bottom"), ...parts(set, "top")].map(({ hand }) => hand)).toEqual([null, null]);
    expect(failures(set)).toEqual([]);
  });

  it("a groove for the back gives one where the ends differ", () => {
    expect(parts(setOf({ bottom: { up: 60 } }), "side").map(({ hand }) => hand)).toEqual(["left", "right"]);
  });
});

describe("the back", () => {
  it("ends its groove in the top panel's, with nothing to square there", () => {
    const set = setOfFile(exampleFile("ware-bookcase"));
    const [top] = parts(set, "top");
    for (const side of parts(set, "side")) {
      const groove = side.features.find(({ along }) => along === "l")!;
      const across = side.features.find(({ holds }) => holds === top!.mark)!;
      expect(groove.ends).toEqual(["through", "open"]);
      expect(groove.to).toBeGreaterThan(across.at);
      expect(groove.to).toBeLessThan(across.at + across.width);
    }
  });

  it("in rabbets is pinned, and only in grooves loose", () => {
    const fixings = (file: string): string[] => {
      const set = setOfFile(testFile(file));
      const [back] = parts(set, "back");
      return [...new Set(set.joints.filter(({ entering }) => entering === back!.mark).map((joint) => joint.fixings))];
    };
    expect(fixings("rabbeted-back")).toEqual(["panel pins"]);
    expect(fixings("housing-back")).toEqual(["loose in its groove"]);
  });

  it("in grooves is held on four sides", () => {
    const set = setOf({ back: { fit: "captured", setIn: 12 } });
    const [back] = parts(set, "back");
    expect([back!.length, back!.width]).toEqual([736 - 36 + 12, 836 - 36 + 12]);
    expect(set.joints.filter(({ entering }) => entering === back!.mark).map(({ fit }) => fit)).toEqual([
      "slip",
      "slip",
      "slip",
      "slip",
    ]);
  });

  it("in rabbets lies flush with the rear edges", () => {
    const set = setOf({ back: { fit: "rabbeted" } });
    const [back] = parts(set, "back");
    const rabbet = groove(parts(set, "side")[0]!, back!.mark);
    expect([rabbet.kind, rabbet.at, rabbet.width]).toEqual(["rabbet", 294, 6]);
    expect(failures(set)).toEqual([]);
  });

  it("applied covers the rear edges, within the case's depth", () => {
    const set = setOf({ back: { fit: "applied" } });
    expect(parts(set, "side").map(({ width }) => width)).toEqual([294, 294]);
    expect(parts(set, "back")[0]!.width).toBe(836);
    expect(failures(set)).toEqual([]);
  });

  it("of level grain has its length across the case", () => {
    const [back] = parts(setOf({ back: { fit: "captured", setIn: 12, grain: "level" } }), "back");
    expect([back!.length, back!.width]).toEqual([812, 712]);
  });
});

describe("the kick", () => {
  const set = setOf({ bottom: { up: 80 }, kick: { setBack: 40 } });

  it("stands between the sides, set back, as high as the bottom is up", () => {
    const [kick] = parts(set, "kick");
    expect([kick!.length, kick!.width, kick!.place!.at]).toEqual([800, 80, [18, 58, 0]]);
  });

  it("notches both sides, and the notches are hand work", () => {
    for (const side of parts(set, "side")) {
      const notch = side.features.find(({ kind }) => kind === "notch")!;
      expect([notch.face, notch.at, notch.width, notch.depth]).toEqual(["l0", 0, 40, 80]);
    }
    expect(set.handWork).toHaveLength(2);
    expect(failures(set)).toEqual([]);
  });
});

describe("quantity", () => {
  it("makes each case twice, with marks of their own, alike part for part", () => {
    const set = setOf({ quantity: 2 });
    expect(set.assemblies.map(({ name }) => name)).toEqual(["box 1", "box 2"]);
    expect(new Set(set.parts.map(({ mark }) => mark)).size).toBe(10);
    for (const part of set.parts) expect(part.same.length).toBeGreaterThanOrEqual(1);
  });
});

it("a part under 12 mm houses nothing unless the job says how deep", () => {
  const thin = { stock: { all: "ply-9mm", back: "ply-6mm" } };
  const shop = {
    stock: {
      "ply-9mm": { name: "9 mm plywood", nominal: 9, measured: 9, sheet: { length: 2440, width: 1220 } },
      "ply-6mm": { measured: 6 },
    },
  };
  let message = "";
  try {
    deriveModel(readText(jobOf(thin, shop)).project);
  } catch (error) {
    if (!(error instanceof ProblemsFound)) throw error;
    message = printed(error.problems);
  }
  expect(message).toContain('error: the left side of "box" is 9 mm thick and would have to house another part');
  expect(message).toContain("expected: a part of 12 mm or more where grooves are cut");
  expect(failures(setOf(thin, { ...shop, joinery: { depth: 3, allowance: 0, slip: 0 } }))).toEqual([]);
});

it("given an older set, surviving keys keep their marks and new ones take numbers never used", () => {
  const bays = (count: number): object => ({ bays: { rows: Array.from({ length: count }, () => ({})) } });
  const older = setOf(bays(3));
  const newer = makeSet(readText(jobOf(bays(4))).project, { draft: false, olderSet: older });
  const markOf = (set: DryfitSet, key: string): string => set.parts.find((part) => part.key === key)!.mark;
  for (const { key } of older.parts) expect(markOf(newer, key)).toBe(markOf(older, key));
  expect(markOf(newer, "box/shelf-3")).toBe(String(older.lastMark + 1));
  const again = makeSet(readText(jobOf(bays(3))).project, { draft: false, olderSet: newer });
  const last = makeSet(readText(jobOf(bays(4))).project, { draft: false, olderSet: again });
  expect(markOf(last, "box/shelf-3")).toBe(String(newer.lastMark + 1));
});
