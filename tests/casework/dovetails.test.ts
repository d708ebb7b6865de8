/** Dovetailed drawers: laid out by the stated rule, lengths by the joint, tails and pins filling each other, spoiled and found. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { ProblemsFound } from "../../src/base/problem.ts";
import { drawDrawers } from "../../src/drawings/cases/drawer.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import { readProjectText } from "../../src/project/read.ts";
import { dovetailsOf } from "../../src/set/dovetail.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { plantFaults } from "../support/faults/faults.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { IS_WHOLE, runs, SEED } from "../support/runs.ts";

const NAME = "drawers-dovetailed";
const failures = (set: DryfitSet): string[] =>
  dryFit(set)
    .filter(({ level }) => level === "failure")
    .map(({ text }) => text);

type Change = { drawers?: object; one?: object; job?: object };
function textOf({ drawers, one, job }: Change): string {
  const file = parse(readFileSync(testFile(NAME), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, drawers: { ...first.drawers, ...drawers } }] });
}
const joined = (change: Change): DryfitSet => joinerySet(readProjectText(textOf(change), "dovetails.json").project);

const own = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key === `rack drawer 1/${id}`)!;

describe("laid out by the rule, common practice without a source", () => {
  const set = setOf(testFile(NAME));

  it("half pins and pins 6 mm at the tails' ends, a tail and a pin near three thicknesses of the side, 1 in 8 in beech", () => {
    // By hand: (159.6 - 6) / (3 x 12.2) = 4.2, so four; (159.6 - 6) / 4 = 38.4 from pin to pin; flanks go in 12.2 / 8 = 1.525.
    const [front] = dovetailsOf(own(set, "side-left")).filter(({ end }) => end === "l0");
    expect(front!.tails.map((one) => one.map((at) => Math.round(at * 1e4) / 1e4))).toEqual([
      [6, 38.4],
      [44.4, 76.8],
      [82.8, 115.2],
      [121.2, 153.6],
    ]);
    expect(front!.flare).toBeCloseTo(1.525, 6);
    expect([front!.slope, front!.baseline]).toEqual([8, 12.2]);
  });

  it("front and back run the full width over the sides' thickness, the sides the full depth", () => {
    // Opening 444.7 between sides of 17.65; runners take 1.5 mm a side.
    const [drawer] = set.drawers;
    const width = drawer!.sums.find(({ what }) => what === "width")!.makes;
    for (const id of ["front", "back"]) expect(own(set, id).length).toBeCloseTo(width, 6);
    expect(own(set, "side-left").length).toBeCloseTo(drawer!.slides.length, 6);
    const [sum] = own(set, "front").sums;
    expect(sum!.joints).toEqual([12.2, 12.2]);
  });

  it("slopes 1 in 6 in wood under 550 kg/m3, and as the job says", () => {
    const slopes = (change: Change): number[] => [
      ...new Set(joined(change).parts.flatMap((part) => dovetailsOf(part).map(({ slope }) => slope))),
    ];
    const file = parse(readFileSync(testFile(NAME), "utf8"));
    const pine = { ...file.stock["beech-12mm"], name: "pine", density: 480 };
    expect(slopes({ job: { stock: { ...file.stock, "beech-12mm": pine } } })).toEqual([6]);
    expect(slopes({ drawers: { slope: 7 } })).toEqual([7]);
  });

  it("has a page at full size with every figure of the tails, and a step that leaves the tool to the maker", () => {
    const page = drawSticks(set).find(({ key }) => key === "dovetails-1");
    const text = JSON.stringify(page);
    for (const figure of ["38.4", "44.4", "24.9", "18.9"]) expect(text).toContain(`"${figure}"`);
    expect(text).toContain("slope 1 in 8");
    // The drawer's drawing says where it is, and no more of rabbets.
    const [drawn] = drawDrawers(set);
    const words = textBoxes(drawn!.shapes).map((box) => box.text);
    expect(words.join(" ")).toContain("dovetailed with them, by the layout at full size among the sticks");
    expect(words.join(" ")).not.toContain("rabbet");
    const step = set.steps.find(({ title }) => title === "Cut the dovetails")!;
    expect(step.text.join(" ")).toMatch(/jig .* its maker's manual/);
    expect(step.cautions.join(" ")).toMatch(/behind the chisel's edge/);
    // The hand work has every socket once.
    const told = set.handWork.flatMap(({ mark, features }) => features.map((i) => `${mark} ${i}`));
    const sockets = set.parts.flatMap(({ mark, features }) =>
      features.flatMap(({ kind }, i) => (kind === "socket" ? [`${mark} ${i}`] : [])),
    );
    expect(told.filter((one) => sockets.includes(one)).sort()).toEqual([...sockets].sort());
  });

  it("is put together from the ends: no front is drawn off forwards", () => {
    for (const { assembly, moves } of set.orders.filter(({ assembly: name }) => name.startsWith("rack drawer"))) {
      const sides = set.parts.filter((part) => part.assembly === assembly && part.role === "drawerSide");
      const fronts = set.parts.filter((part) => part.assembly === assembly && /drawer(Front|Back)/.test(part.role));
      for (const { bring, to } of moves)
        for (const { parts, travel } of bring) {
          const meets = (one: readonly SetPart[], marks: readonly string[]): boolean =>
            one.some(({ mark }) => marks.includes(mark));
          const closes = (meets(fronts, parts) && meets(sides, to)) || (meets(sides, parts) && meets(fronts, to));
          if (closes) expect(travel.slice(1)).toEqual([0, 0]);
        }
    }
  });
});

describe("over random drawers", () => {
  const jobs = fc.record({
    unit: fc.constantFrom("mm", "in"),
    side: fc.integer({ min: 90, max: 200 }),
    front: fc.integer({ min: 90, max: 250 }),
    sizes: fc.array(fc.integer({ min: 70, max: 190 }), { minLength: 1, maxLength: 2 }),
    slope: fc.integer({ min: 5, max: 10 }),
    grooves: fc.constantFrom(3, 4),
  });

  it("tails and pins share the corner between them, and every box fits", () => {
    let corners = 0;
    fc.assert(
      fc.property(jobs, ({ unit, side, front, sizes, slope, grooves }) => {
        const made = outcome({
          ...parse(readFileSync(testFile(NAME), "utf8")),
          step: unit === "mm" ? "0.1 mm" : "1/32 in",
        });
        function outcome(file: ReturnType<typeof parse>): DryfitSet | string {
          const stock = (thick: number) => ({
            ...file.stock["beech-12mm"],
            nominal: `${thick} mm`,
            boards: { rough: "32 mm", length: "3000 mm", width: "180 mm" },
            measured: `${thick} mm`,
          });
          file.stock = { ...file.stock, side: stock(side / 10), front: stock(front / 10) };
          const [one] = file.cases;
          const stack = sizes.map((size) => ({ size: `${size} mm` }));
          one.height = 1000;
          one.bays = { rows: [{ drawers: [...stack, {}], size: 500 }, {}] };
          one.drawers = { ...one.drawers, slope, bottom: { grooves } };
          one.drawers.stock = { ...one.drawers.stock, box: "side", front: "front" };
          try {
            return joinerySet(readProjectText(JSON.stringify(file), "random.json").project);
          } catch (error) {
            if (error instanceof ProblemsFound) return error.problems.map(({ found }) => found).join();
            throw error;
          }
        }
        if (typeof made === "string") {
          expect(made).toMatch(/dovetailed: its lowest tail is|it would come out through a pin/);
          return;
        }
        expect(failures(made)).toEqual([]);
        corners += sharesIn(made);
      }),
      { numRuns: runs(100), seed: SEED },
    );
    expect(corners).toBeGreaterThan(runs(100));
  });

  /** Area of a socket's outline, by the sum of its corners' cross products. */
  const areaOf = ({ outline }: SetFeature): number =>
    Math.abs(
      outline.reduce((sum, [u, v], i) => {
        const [p, q] = outline[(i + 1) % outline.length]!;
        return sum + (u * q - p * v) / 2;
      }, 0),
    );

  /** What the side loses and what the front or back loses are together the corner, seen from the side. Gives how many corners there are. */
  function sharesIn(set: DryfitSet): number {
    const corners = set.joints.filter(({ kind }) => kind === "dovetail");
    const sockets = (mark: string, holds: string): SetFeature[] =>
      set.parts
        .find((one) => one.mark === mark)!
        .features.filter((one) => one.kind === "socket" && one.holds === holds);
    for (const { entering, receiving } of corners) {
      const pins = set.parts.find(({ mark }) => mark === entering)!;
      const lost = [...sockets(receiving, entering), ...sockets(entering, receiving)];
      expect(lost.reduce((sum, one) => sum + areaOf(one), 0)).toBeCloseTo(pins.width * pins.thickness, 4);
    }
    return corners.length;
  }
});

describe("spoiled, and found", () => {
  const set = setOf(testFile(NAME));

  it("untouched it is sound", () => expect(failures(set)).toEqual([]));

  it("a socket off, wider, deeper, straight or missing, by mark", () => {
    const faults = plantFaults(set).faults.filter(({ kind }) => kind.startsWith("socket"));
    const kinds = new Map<string, number>();
    const tried = faults.filter(({ kind, set: spoiled, mark }) => {
      const axis = spoiled.parts.find((one) => one.mark === mark)!.role;
      const nth = kinds.get(`${kind} ${axis}`) ?? 0;
      kinds.set(`${kind} ${axis}`, nth + 1);
      return IS_WHOLE || nth === 0;
    });
    expect(new Set(tried.map(({ kind }) => kind)).size).toBe(6);
    const missed = tried.filter(
      ({ set: spoiled, blame }) =>
        !dryFit(spoiled).some(
          ({ id, level, parts }) =>
            level === "failure" && id === "dovetail" && parts.some((mark) => blame.includes(mark)),
        ),
    );
    expect(missed.map(({ kind, mark }) => `${kind}: ${mark}`)).toEqual([]);
  });

  it("says by how much a tail and its socket differ", () => {
    const spoiled = structuredClone(set);
    const front = spoiled.parts.find(({ key }) => key === "rack drawer 1/front")!;
    const socket = front.features.find(({ kind, face }) => kind === "socket" && face === "l0")!;
    socket.outline = socket.outline.map(([w, t]) => [w + 0.5, t]);
    for (const end of socket.box) end[1] += 0.5;
    socket.at += 0.5;
    expect(failures(spoiled)).toContain(
      `The corner of left drawer side ${own(set, "side-left").mark} and drawer front ${front.mark}: tail 1, counted from below, is from 6 mm to 38.4 mm at its end, and its socket 0.5 mm beside it.`,
    );
  });
});

describe("what cannot be", () => {
  const thrown = (change: Change): string => {
    try {
      joined(change);
    } catch (error) {
      return error instanceof ProblemsFound
        ? error.problems.map(({ found, remedy }) => `${found}; ${remedy}`).join("\n")
        : String(error);
    }
    return "";
  };

  it("a groove for the bottom that comes out through a pin", () => {
    expect(thrown({ drawers: { bottom: { up: 7, grooves: 3 } } })).toContain(
      'a groove for the bottom 7 mm to 12.9 mm up, and the lowest tail at the front 7.53 mm to 36.9 mm up at its root: it would come out through a pin of drawer 1 of this bay, counted from the lowest; lay the bottom higher: "up" of 7.53 mm or more',
    );
  });

  it("a slope for other corners", () => {
    expect(problemsIn(textOf({ drawers: { joint: "rabbet", slope: 8 } })).map(({ found }) => found)).toEqual([
      'a "slope" for corners joined by rabbet',
    ]);
  });
});

it("inches: pins of 1/4 in", () => {
  const file = parse(readFileSync(testFile(NAME), "utf8"));
  const stock = structuredClone(file.stock);
  for (const one of Object.values<Record<string, unknown>>(stock))
    for (const key of ["nominal", "measured"]) if (typeof one[key] === "number") one[key] = `${one[key]} mm`;
  for (const key of ["beech", "beech-12mm"]) stock[key].boards = { rough: "27 mm", length: "3000 mm", width: "180 mm" };
  stock["ply-18mm"].measured = "17.6 mm";
  const set = joined({
    job: { unit: "in", stock },
    one: { width: 19, height: 13, depth: 15, bays: { drawers: [{}] } },
    drawers: { front: { fit: "inset", gap: "1/16" } },
  });
  const [dovetail] = dovetailsOf(set.parts.find(({ role }) => role === "drawerSide")!);
  expect(dovetail!.tails[0]![0]).toBeCloseTo(MM_PER_INCH / 4, 6);
  expect(failures(set)).toEqual([]);
});
