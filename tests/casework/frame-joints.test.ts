/** Joints of a face frame: their sizes against published rules, both halves of each against each other, what cannot be made. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { formatDecimal, MM_PER_INCH } from "../../src/base/length.ts";
import { makeSet } from "../../src/build.ts";
import { drawFaceFrames } from "../../src/drawings/cases/face-frame.ts";
import { labelFields } from "../../src/drawings/labels/label-words.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { looseTenon, tenonLength, tenonPlaces, tenonThickness } from "../../src/project/frame-joints.ts";
import { readProjectText } from "../../src/project/read.ts";
import { matingWords } from "../../src/set/mating.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;

type Change = Record<string, unknown>;
const textOf = (project: string, frame: Change, more: Change = {}): string => {
  const job = parse(readFileSync(testFile(project), "utf8"));
  const [one] = job.cases;
  return JSON.stringify({ ...job, cases: [{ ...one, ...more, frame: { ...one.frame, ...frame } }] });
};
const built = (project: string, frame: Change, more?: Change): DryfitSet =>
  makeSet(readProjectText(textOf(project, frame, more), "frame.json").project, { draft: false, olderSet: null });
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

describe("dowels", () => {
  // A jig stands on one face of both members: drilled from faces that look opposite ways, whatever a thickness is out comes to stand in the front.
  it("are drilled from the front face of every member, as far from it on both sides of a joint", () => {
    const set = built("frame-loose-tenons", { joint: "dowels" });
    const rows = set.drilling.flatMap((one) => one.rows).filter(({ edge }) => edge[0] === "t");
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) {
      const member = marked(set, row.mark);
      const { place, thickness } = member;
      const hole = boxIn(member, member.features[row.features[0]!]!.box);
      expect(place!.t).toBe(row.edge === "t0" ? "+y" : "-y");
      const front = Math.min(...whole(member).map((corner) => corner[1]!));
      expect(row.distance, row.mark).toBeCloseTo((hole[0][1]! + hole[1][1]!) / 2 - front, 6);
      expect(Math.abs(hole[0][1]! + hole[1][1]! - 2 * front)).toBeLessThan(2 * thickness);
    }
    expect(new Set(rows.map(({ distance }) => distance.toFixed(4))).size).toBe(1);
  });
});

/** Box of a feature or a whole part in its frame. */
function boxIn(one: SetPart, box: readonly (readonly number[])[]): [number[], number[]] {
  const lo = [...one.place!.at];
  const hi = [...one.place!.at];
  (["l", "w", "t"] as const).forEach((letter, i) => {
    const axis = "xyz".indexOf(one.place![letter][1]!);
    const [from, to] = [box[0]![i]!, box[1]![i]!];
    lo[axis] = one.place!.at[axis]! + (one.place![letter][0] === "+" ? from : -to);
    hi[axis] = one.place!.at[axis]! + (one.place![letter][0] === "+" ? to : -from);
  });
  return [lo, hi];
}
const whole = (one: SetPart): [number[], number[]] =>
  boxIn(one, [
    [0, 0, 0],
    [one.length, one.width, one.thickness],
  ]);

describe("stub tenons", () => {
  const set = setOf(testFile("frame-stub-tenons"));
  const tenons = set.joints.filter(
    ({ kind, receiving }) => kind === "tongue" && marked(set, receiving).role !== "side",
  );

  // A rail is as long as from stile to stile and both tenons: 11 3/4 = 16 - 2 x 2 1/2 + 2 x 3/8 (woodworkers' forum, worked example).
  it("lengthen the rail: 16 wide, stiles 2 1/2, tenons 3/8: 11 3/4", () => {
    const frame = { joint: "stub tenons", stile: "2 1/2", overhang: 0, topRail: undefined, tenon: { length: "3/8" } };
    const narrow = built("frame-half-laps", frame, { width: 16, bays: {} });
    expect(part(narrow, "rail-top").length).toBeCloseTo(inch(11.75), 6);
  });

  it("tell the length from shoulder to shoulder beside the length that is cut", () => {
    const rail = part(set, "rail-top");
    const [sum] = rail.sums.filter(({ axis }) => axis === "l");
    expect(sum).toMatchObject({ joints: [10, 10], total: rail.length });
    expect(sum!.between).toBeCloseTo(rail.length - 20, 6);
    const stiles = ["stile-left", "stile-right"].map((id) => whole(part(set, id)));
    expect(sum!.between).toBeCloseTo(stiles[1]![0][0]! - stiles[0]![1][0]!, 6);
  });

  it("stand in mortises as long as what enters is wide, open at the frame's own ends alone", () => {
    expect(tenons.length).toBe(6);
    for (const { entering, receiving } of tenons) {
      const [rail, stile] = [marked(set, entering), marked(set, receiving)];
      const [mortise] = stile.features.filter(({ kind, holds }) => kind === "stub mortise" && holds === entering);
      expect(mortise!.to - mortise!.from).toBeCloseTo(rail.width, 6);
      mortise!.ends.forEach((end, i) => {
        const atEnd = Math.abs(i === 0 ? mortise!.from : stile.length - mortise!.to) < 1e-6;
        expect(end).toBe(atEnd ? "through" : "square");
      });
      // A third of the thickness, in the middle within a step of the thickest that was measured.
      const [lo, hi] = boxIn(stile, mortise!.box);
      expect(Math.abs((lo[1]! + hi[1]!) / 2 - stile.thickness / 2)).toBeLessThan(2 * set.job.step);
    }
  });

  it("have their shoulders at the saw and their mortises by hand, when the case stands", () => {
    const own = set.settings.filter(({ operation }) => operation === "shoulder");
    expect(own.every(({ tool, carrier }) => tool === "table saw" && carrier === "sled")).toBe(true);
    const runs = own.flatMap(({ runs: all }) => all);
    expect(runs.length).toBe(2 * tenons.length); // both faces of each
    const worked = set.handWork.flatMap(({ mark, features }) =>
      features.map((i) => marked(set, mark).features[i]!.kind),
    );
    expect(worked.filter((kind) => kind === "stub mortise").length).toBe(tenons.length);
    const order = set.steps.map(({ title }) => title);
    expect(order.indexOf("Cut the tenons at the table saw")).toBeGreaterThan(order.indexOf("Glue up case"));
    expect(order.indexOf("Cut the mortises for the stub tenons")).toBeGreaterThan(
      order.indexOf("Cut the tenons at the table saw"),
    );
  });

  it.each<[string, Record<string, unknown>, string]>([
    [
      "too long for a narrow stile",
      { tenon: { length: 30 } },
      'cases[0].frame.tenon.length: stub tenons 30 mm long in the frame of "case", whose narrowest member that takes one is 45 mm wide',
    ],
    [
      "of a width of their own",
      { tenon: { width: 30 } },
      'cases[0].frame.tenon.width: "width" for a frame with stub tenons',
    ],
  ])("%s are told at their place", (_, frame, words) => {
    expect(said("frame-stub-tenons", frame)).toContain(words);
  });
});

describe("half laps", () => {
  const set = setOf(testFile("frame-half-laps"));
  const laps = set.joints.filter(({ kind }) => kind === "lap");

  // "Measure from the ends a distance equal to the width of one board", and cut to half the thickness (This Old House, half-lap joints).
  it("reach over the whole width of the other, half the thickness from each", () => {
    expect(laps.length).toBe(8);
    for (const { entering, receiving, depth } of laps) {
      const [one, other] = [marked(set, entering), marked(set, receiving)];
      expect(depth).toBeCloseTo(other.width, 6);
      const [front] = one.features.filter(({ kind, holds }) => kind === "lap" && holds === receiving);
      const [rear] = other.features.filter(({ kind, holds }) => kind === "lap" && holds === entering);
      expect(front!.depth + rear!.depth).toBeCloseTo(one.thickness, 6);
      expect(Math.abs(front!.depth - one.thickness / 2)).toBeLessThan(set.job.step);
      // They are the same place in the frame, the one before the other.
      const [before, behind] = [boxIn(one, front!.box), boxIn(other, rear!.box)];
      for (const axis of [0, 2])
        for (const end of [0, 1] as const) expect(before[end][axis]).toBeCloseTo(behind[end][axis]!, 6);
      expect(before[1][1]).toBeCloseTo(behind[0][1]!, 6);
      expect(before[0][1]).toBeCloseTo(0, 6);
    }
  });

  it("make rails as long as the frame is wide", () => {
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    expect(part(set, "rail-top").length).toBeCloseTo(frame.size[0]!, 6);
    expect(part(set, "stile-1").length).toBeCloseTo(frame.size[2]!, 6);
  });

  it("are cut on the sled, pass beside pass where they are wider than the cutter", () => {
    const most = inch(13 / 16); // of the shop's grooving set
    const own = set.settings.filter(({ operation }) => operation === "lap");
    expect(own.flatMap(({ runs }) => runs).length).toBe(2 * laps.length);
    for (const { carrier, cutter, width } of own) {
      expect(carrier).toBe("sled");
      const passes = Number(/, (\d) passes/.exec(cutter)?.[1] ?? 1);
      expect(passes * most).toBeGreaterThanOrEqual(width - 1e-6);
      expect((passes - 1) * most).toBeLessThan(width);
    }
  });

  it("from both sides of one stile at one height are refused, and say what else", () => {
    const text = textOf("frame-loose-tenons", { joint: "half laps" });
    expect(() => makeSet(readProjectText(text, "frame.json").project, { draft: false, olderSet: null })).toThrow(
      /half laps of two rails on one mid stile of "case", from both sides at one height/,
    );
  });
});

const lettered = (pages: readonly { shapes: Shape[] }[]): string[] =>
  pages.flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));

describe("mating marks", () => {
  const set = setOf(testFile("frame-loose-tenons"));
  const joints = set.joints.filter(({ mating }) => mating !== null);

  it("are a letter for each joint of the frame, and for nothing else", () => {
    const members = set.parts.filter(({ role }) => role === "stile" || role === "rail").map(({ mark }) => mark);
    expect(joints).toEqual(set.joints.filter(({ entering }) => members.includes(entering)));
    const letters = joints.map(({ mating }) => mating!);
    expect(new Set(letters).size).toBe(letters.length);
    expect(letters.join("")).not.toMatch(/[IOQ]/);
  });

  it("stand on drawing, labels, stick and part drawings of both members", () => {
    const frame = lettered(drawFaceFrames(set));
    for (const { mating, entering, receiving } of joints) {
      // Once in the list under the view, and on both members.
      expect(frame.filter((said) => said === mating).length, `${mating} on the frame`).toBeGreaterThanOrEqual(2);
      for (const mark of [entering, receiving]) {
        const said = matingWords(set, marked(set, mark)).join(" ");
        expect(said, `${mating} of ${mark}`).toMatch(new RegExp(`[ :,]${mating} (left|right|top|bottom) (end|edge)`));
        expect(labelFields(set, marked(set, mark)).map(({ text }) => text)).toContain(said);
      }
    }
    const bands = lettered(drawSticks(set)).flatMap((said) => {
      const [, marks, letters] = /^([\d, ]+) ([A-Z/]+)$/.exec(said) ?? [];
      return marks === undefined ? [] : [{ marks: marks.split(", "), letters: letters!.split("/") }];
    });
    for (const { mating, entering } of joints)
      expect(
        bands.some(({ marks, letters }) => marks.includes(entering) && letters.includes(mating!)),
        `${mating} of ${entering}`,
      ).toBe(true);
  });
});

describe("the corner at full size", () => {
  it.each(["face-frame", "frame-loose-tenons", "frame-stub-tenons", "frame-half-laps"])(
    "tells of %s how far it stands out, the side as measured, and how far the stile laps inside",
    (name) => {
      const set = setOf(testFile(name));
      const pages = drawSticks(set).filter(({ key }) => key.startsWith("frame-corner"));
      expect(pages.length).toBeGreaterThan(0);
      const said = lettered(pages);
      const { unit } = set.job;
      const side = set.parts.find(({ role }) => role === "side")!;
      const stile = part(set, "stile-left");
      const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
      const over = set.assemblies.find(({ kind }) => kind === "case")!.place.at[0] - frame.place.at[0];
      const inside = stile.width - over - side.thickness;
      const decimals = [side.thickness, inside].map((length) => formatDecimal(length, unit));
      for (const figure of unit === "mm" ? [...decimals, formatDecimal(over, unit)] : decimals)
        expect(said).toContain(figure);
      const joint = set.joints.find(({ entering }) => entering === part(set, "rail-top").mark)!;
      expect(said.join(" ")).toContain(`cut level at joint ${joint.mating}`);
    },
  );
});
