/** Worktops: laid, screwed down and glued up as stated, over random cases too. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { areaOf } from "../../src/base/outline.ts";
import { hasFailed } from "../../src/build.ts";
import type { DryfitSet, SetFeature, SetPart, SetWorktop } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { runs, SEED } from "../support/runs.ts";
import { built, failures, file, inch, partOf, slotsOf, topOf, whole } from "../support/worktops/worktop-jobs.ts";

describe("a solid worktop", () => {
  const set = setOf(testFile("worktop-solid"));
  const top = topOf(set);

  it("lies on the case, stands out beyond the face frame, and fits", () => {
    expect(hasFailed(set)).toBe(false);
    const { place, size } = set.assemblies.find(({ kind }) => kind === "worktop")!;
    // The frame is 48 1/4 wide and stands 3/4 before the case, which is 22 deep.
    expect(size.map((mm) => mm / MM_PER_INCH)).toEqual([50.25, 23.5, 1]);
    expect(place.at.map((mm) => (mm / MM_PER_INCH).toFixed(6))).toEqual(["-1.125000", "-1.500000", "33.000000"]);
  });

  it("is glued up from boards no wider than the jointer, which add up with what is trimmed", () => {
    const { boards, width, trim } = top.glued!;
    expect(boards.map(({ piece }) => piece)).toEqual(["20a", "20b", "20c", "20d", "20e"]);
    expect(boards.reduce((sum, board) => sum + board.width, 0)).toBeCloseTo(width, 9);
    expect(width - 2 * trim.edges).toBeCloseTo(inch(23.5), 9);
    expect(boards.map(({ heart }) => heart)).toEqual(["down", "up", "down", "up", "down"]);
    const rough = set.pieces.filter(({ mark, kind }) => mark === top.mark && kind === "board");
    for (const piece of rough) {
      expect(piece.width).toBeLessThanOrEqual(inch(6));
      expect(piece.length).toBeCloseTo(top.glued!.length + inch(0.5), 9);
      expect(piece.thickness).toBeCloseTo(inch(1.25), 9);
    }
  });

  it("has slots as long as the wood moves over each one's own distance, through panel and strip alike", () => {
    const { at } = top.screws.find(({ front }) => front === 0)!;
    for (const screw of top.screws) {
      const distance = screw.at[1] - at[1];
      // Sugar maple, flat-sawn, from 8 % to 12 and to 6.
      const [grows, shrinks] = [distance * 0.00353 * 4, distance * 0.00353 * 2];
      expect(screw.rear - grows).toBeGreaterThanOrEqual(-1e-9);
      expect(screw.rear - grows).toBeLessThan(set.job.step);
      expect(screw.front - shrinks).toBeGreaterThanOrEqual(-1e-9);
      expect(screw.front - shrinks).toBeLessThan(set.job.step);
      expect(screw.through.length).toBe(2);
    }
    const [strip, panel] = ["10", "4"];
    const lengths = (mark: string): string[] => slotsOf(set, mark).map(({ from, to }) => (to - from).toFixed(6));
    for (const length of lengths(strip)) expect(lengths(panel)).toContain(length);
  });

  it("makes the magazine's slot: 10 in, 0.0026, 6 points, a 3/16 screw: 0.344 in", () => {
    // Fine step, so that rounding adds less than 1/64; the line and the slot 10 in apart.
    const alder = { name: "red alder", tangential: 0.0026, radial: 0.0015, source: "WOOD" };
    const made = built(
      "worktop-solid",
      {},
      {},
      {
        moisture: { made: 6, driest: 6, wettest: 12 },
        step: "0.1 mm",
        stock: { ...file("worktop-solid").stock, "maple-5q": { measured: 1, species: alder } },
      },
    );
    const { screws, screw, line } = topOf(made);
    for (const { at, front, rear } of screws) {
      const exact = screw.diameter + (at[1] - line) * 0.0026 * 6;
      expect(Math.abs(screw.diameter + front + rear - exact)).toBeLessThan(0.1);
    }
    expect(3 / 16 + 10 * 0.0026 * 6).toBeCloseTo(0.344, 3);
  });

  it("has slots twice as long, the screw in the middle, where it is not known how moist it is made", () => {
    const { screws, line } = topOf(built("worktop-solid", {}, {}, { moisture: { driest: 6, wettest: 12 } }));
    for (const { at, front, rear } of screws) {
      expect(front).toBe(rear);
      const all = (at[1] - line) * 0.00353 * 6;
      expect(front - all).toBeGreaterThanOrEqual(-1e-9);
      expect(front - all).toBeLessThan(inch(1 / 32));
    }
  });

  it("moves to the front where it is fixed at the back, and less where it is quarter-sawn", () => {
    const back = topOf(built("worktop-solid", { fixed: "back" }));
    const still = back.screws.filter(({ front, rear }) => front + rear === 0);
    expect(new Set(still.map(({ at }) => at[1]))).toEqual(new Set([Math.max(...back.screws.map(({ at }) => at[1]))]));
    for (const { front, rear } of back.screws) expect(front).toBeGreaterThanOrEqual(rear);
    const quarter = topOf(built("worktop-solid", { sawn: "quarter" }));
    expect(quarter.moves.wider).toBeCloseTo((top.moves.wider * 0.00165) / 0.00353, 6);
    expect(quarter.glued!.boards.map(({ heart }) => heart)).toEqual(Array(5).fill(null));
  });

  it("takes screws that hold it and stay under its face", () => {
    const through = partOf(set, "9").thickness + partOf(set, "4").thickness;
    const tip = top.screw.length - through;
    expect(tip).toBeGreaterThan(8);
    expect(tip).toBeLessThan(inch(1) - 5);
    const line = set.purchase.find(({ what }) => what.startsWith("Screws, pan head"))!;
    expect(line.quantity).toBe(top.screws.length);
  });
});

describe("a worktop of plywood", () => {
  const set = setOf(testFile("worktop-panel"));

  it("lies over both cases, keeps its size, and is cut smaller by its lippings", () => {
    expect(hasFailed(set)).toBe(false);
    const top = topOf(set);
    expect(top.over).toEqual(["stand 1", "stand 2"]);
    expect(top.screws.every(({ front, rear }) => front + rear === 0)).toBe(true);
    const part = partOf(set, top.mark);
    expect([part.length, part.width, part.cut.length, part.cut.width]).toEqual([1240, 520, 1224, 512]);
    // The front strip covers the ends of those at the ends.
    expect(part.lippings.map(({ edge, from, to }) => [edge, from, to])).toEqual([
      ["w0", 0, 1240],
      ["l0", 8, 520],
      ["l1", 8, 520],
    ]);
  });
});

describe("its moulded edges", () => {
  const moulded = (shape: string): SetFeature[] => {
    const set = built("worktop-solid", { edge: { shape, radius: "6 mm", edges: ["front", "left", "right"] } });
    expect(failures(set)).toEqual([]);
    return partOf(set, topOf(set).mark).features.filter(({ kind }) => kind === "edge");
  };

  // Geometry: a square less a quarter of a circle; a triangle; an ogee is the same turned about its middle, half of its square.
  it.each([
    ["roundover", 6, 36 - 9 * Math.PI],
    ["chamfer", 6, 18],
    ["ogee", 12, 72],
  ])("%s: each a prism along its whole edge, as deep as the bit takes", (shape, takes, area) => {
    const edges = moulded(shape);
    expect(edges.map(({ face }) => face).sort()).toEqual(["l0", "l1", "w0"]);
    for (const { outline, depth, width, axis, along, ends, reason } of edges) {
      expect(areaOf(outline)).toBeCloseTo(area, 4);
      expect([depth, width]).toEqual([expect.closeTo(takes, 6), expect.closeTo(takes, 6)]);
      expect([axis, ends, reason]).toEqual([along, ["through", "through"], shape]);
    }
  });

  it("are on the hand work of its part and on the buying list, and lighten it", () => {
    const plain = whole("worktop-solid", { edge: undefined });
    const set = whole("worktop-solid", { edge: { shape: "ogee", radius: "6 mm", edges: ["front"] } });
    const { mark, length, mass, material } = partOf(set, topOf(set).mark);
    const { density } = set.stock.find(({ id }) => id === material)!;
    expect(partOf(plain, mark).mass - mass).toBeCloseTo((72 * length * density) / 1e9, 5);
    expect(set.handWork.filter((one) => one.mark === mark).map(({ text }) => text)[0]).toContain("ogee bit, radius");
    const bits = ({ purchase }: DryfitSet): string[] =>
      purchase.filter(({ unit }) => unit === "bit").map(({ what }) => what);
    expect([bits(plain), bits(set)]).toEqual([[], ["Router bit, ogee, with a bearing"]]);
  });

  it("are found where their outline is not their box's", () => {
    const set = structuredClone(built("worktop-solid", { edge: { shape: "chamfer", radius: "6 mm" } }));
    const edge = partOf(set, topOf(set).mark).features.find(({ kind }) => kind === "edge")!;
    edge.outline[2] = [edge.outline[2]![0], edge.outline[2]![1] + 1];
    expect(failures(set).length).toBeGreaterThan(0);
  });

  it.each<[string, (top: SetWorktop, part: SetPart) => void]>([
    [
      "of another radius",
      (top) => {
        top.edge!.radius += 1;
      },
    ],
    [
      "of another shape",
      (top) => {
        top.edge!.shape = "roundover";
      },
    ],
    [
      "at another edge",
      (top) => {
        top.edge!.edges = ["back"];
      },
    ],
    [
      "left out",
      (_, part) => {
        part.features = part.features.filter(({ kind }) => kind !== "edge");
      },
    ],
    [
      "cut, and not said",
      (top) => {
        top.edge = null;
      },
    ],
  ])("are found where they are said otherwise: %s", (_, spoil) => {
    const set = structuredClone(built("worktop-solid", { edge: { shape: "chamfer", radius: "6 mm" } }));
    expect(failures(set)).toEqual([]);
    spoil(topOf(set), partOf(set, topOf(set).mark));
    expect(failures(set)).toContain("worktop");
  });
});
describe("over random cases", () => {
  const top = fc.oneof(
    fc.constant({}),
    fc.constant({ fit: "stretchers" }),
    fc.constant({ fit: "over" }),
    fc.integer({ min: 50, max: 90 }).map((fillers) => ({ fillers: `${fillers} mm` })),
  );
  /** By hand: the outer strips lie inside the case's sides, the others over the middles of dividers, all 0.705 in thick. */
  const betweenStrips = (width: number, strips: number, columns: number): number => {
    if (strips === 0) return Number.POSITIVE_INFINITY;
    const thick = inch(0.705);
    const bay = (inch(width) - (columns + 1) * thick) / columns;
    const outer = columns === 1 ? bay - 2 * strips : bay - strips - (strips - thick) / 2;
    return columns < 3 ? outer : Math.min(outer, bay - strips + thick);
  };

  it("fits, and every slot lets its screw travel", () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 16, max: 46 }),
          depth: fc.integer({ min: 12, max: 26 }),
          front: fc.integer({ min: 0, max: 16 }),
          framed: fc.boolean(),
          fixed: fc.constantFrom("front", "back"),
          made: fc.option(fc.integer({ min: 5, max: 13 }), { nil: undefined }),
          top,
          columns: fc.integer({ min: 1, max: 3 }),
        }),
        ({ width, depth, front, framed, fixed, made, top: fit, columns }) => {
          const asked = [
            "worktop-solid",
            { overhang: { front: front / 8 }, fixed },
            {
              width,
              depth,
              top: fit,
              frame: framed ? file("worktop-solid").cases[0]!.frame : undefined,
              bays: columns === 1 ? {} : { columns: Array.from({ length: columns }, () => ({})) },
            },
            { moisture: { made, driest: 6, wettest: 11 } },
          ] as const;
          const strips = "fillers" in fit ? Number.parseInt(fit.fillers, 10) : 0;
          if (betweenStrips(width, strips, columns) < 10) {
            expect(() => built(...asked)).toThrow(/two of which (lie|lap by)/);
            return;
          }
          const set = built(...asked);
          const checks = [...dryFit(set), ...set.checks];
          expect(checks.filter(({ level }) => level === "failure").map(({ text }) => text)).toEqual([]);
          const { screws, line } = topOf(set);
          const still = screws.filter(({ front: a, rear: b }) => a + b === 0).map(({ at }) => at[1]);
          expect(new Set(still)).toEqual(new Set([line]));
        },
      ),
      { numRuns: runs(40), seed: SEED },
    );
  });
});
