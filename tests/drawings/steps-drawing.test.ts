import { describe, expect, it } from "vitest";
import type { Draft } from "../../src/drawings/draughting/draft.ts";
import { drawMoves } from "../../src/drawings/steps/move-picture.ts";
import { drawSteps } from "../../src/drawings/steps/steps.ts";
import type { PathShape, Shape } from "../../src/paper/shape.ts";
import type { DryfitSet, SetMove } from "../../src/set/schema.ts";
import { exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

type Spacers = DryfitSet["steps"][number]["moves"][number]["spacers"];
type Brought = { parts: string[]; travel: [number, number, number] };

/** A set whose only order is this one, all of its moves in one step. */
function withMoves(set: DryfitSet, moves: { bring: Brought[]; to: string[]; slides?: boolean }[]): DryfitSet {
  const assembly = set.assemblies[0]!.name;
  const full = moves.map((move, i): SetMove => ({ n: i + 1, slides: false, held: 2, group: 1, ...move }));
  const step = {
    n: 1,
    title: "Dry-fit",
    needs: [],
    parts: [],
    settings: [],
    drawings: [],
    hardware: [],
    clamps: null,
    now: [],
    text: [],
    cautions: [],
    boxes: [],
  };
  return {
    ...set,
    orders: [{ assembly, finished: [], moves: full, holds: 2, proved: true, glueUps: [], locked: null }],
    steps: [{ ...step, moves: full.map(({ n }) => ({ assembly, n, spacers: [] })) }],
  };
}

/** The order that is told for worked example A: divider, shelf, back, top, then each side. */
function exampleA(): DryfitSet {
  const set = setOf(testFile("example-a-in"));
  const mark = (role: string): string => set.parts.find((part) => part.role === role)!.mark;
  const [left, right] = set.parts.filter(({ role }) => role === "side").map((part) => part.mark) as [string, string];
  const [bottom, top, divider, shelf, back] = ["bottom", "top", "divider", "shelf", "back"].map(mark) as [
    string,
    string,
    string,
    string,
    string,
  ];
  return withMoves(set, [
    { bring: [{ parts: [divider], travel: [0, 0, -1] }], to: [bottom] },
    { bring: [{ parts: [shelf], travel: [1, 0, 0] }], to: [divider] },
    { bring: [{ parts: [back], travel: [0, 0, -1] }], to: [bottom], slides: true },
    { bring: [{ parts: [top], travel: [0, 0, -1] }], to: [divider, back] },
    { bring: [{ parts: [left], travel: [1, 0, 0] }], to: [bottom, shelf, top, back] },
    { bring: [{ parts: [right], travel: [-1, 0, 0] }], to: [bottom, top, back] },
  ]);
}

/** Every path, in the order drawn. */
const pathsOf = (shapes: readonly Shape[]): PathShape[] =>
  shapes.flatMap((shape) => (shape.kind === "group" ? pathsOf(shape.shapes) : shape.kind === "path" ? [shape] : []));

/** The ways the arrows point: black figures of seven corners, from the tail's middle to the tip. */
const arrowsIn = (drafts: readonly Draft[]): [number, number][] =>
  pathsOf(drafts.flatMap(({ shapes }) => shapes)).flatMap(({ fill, steps }): [number, number][] => {
    const points = steps.flatMap((step) => (step.to === "move" || step.to === "line" ? [step.at] : []));
    if (fill !== 0 || points.length !== 7) return [];
    const tip = points[3]!;
    const [dx, dy] = [tip[0] - (points[0]![0] + points[6]![0]) / 2, tip[1] - (points[0]![1] + points[6]![1]) / 2];
    const long = Math.hypot(dx, dy);
    return [[dx / long, dy / long]];
  });

const wordsIn = (drafts: readonly Draft[]): string[] =>
  drafts.flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));

/** The texts between the number of one picture and that of the next: balloons' marks and the way it is looked at. */
function textsOfPicture(all: readonly string[], n: number): string[] {
  const heads = all.flatMap((text, i) => (/^from (front|behind) (left|right)/.test(text) ? [i] : []));
  return all.slice(heads[n - 1]!, heads[n] === undefined ? undefined : heads[n]! - 1);
}

describe("the pictures of moves on the steps", () => {
  it("has one for each move of worked example A, with an arrow the way it goes", () => {
    const drafts = drawSteps(exampleA());
    const arrows = arrowsIn(drafts);
    expect(arrows).toHaveLength(6);
    const cos30 = Math.sqrt(3) / 2;
    // Down on paper is down; left and right run at 30 degrees, whichever corner it is looked at from.
    for (const n of [0, 2, 3]) expect(arrows[n]![1]).toBeCloseTo(1, 9);
    for (const [n, right] of [
      [1, 1],
      [4, 1],
      [5, -1],
    ] as const) {
      expect(arrows[n]![0]).toBeCloseTo(right * cos30, 9);
      expect(Math.abs(arrows[n]![1])).toBeCloseTo(0.5, 9);
    }
  });

  it("names in each what is brought and what it joins, by a balloon or as not marked", () => {
    const set = exampleA();
    const all = wordsIn(drawSteps(set));
    for (const move of set.orders[0]!.moves) {
      const texts = textsOfPicture(all, move.n).join(" ");
      for (const mark of [...move.bring.flatMap(({ parts }) => parts), ...move.to]) {
        expect(texts.split(/[ ,()]+/), `move ${move.n}`).toContain(mark);
      }
    }
  });

  it("draws the spacers that a part stands on meanwhile", () => {
    const set = exampleA();
    const [step] = set.steps;
    const shelf = set.orders[0]!.moves[1]!;
    const spacer: Spacers = [
      [
        [40, 40, 70],
        [60, 80, 380],
      ],
    ];
    const withSpacer = {
      ...set,
      steps: [{ ...step!, moves: step!.moves.map((one) => (one.n === shelf.n ? { ...one, spacers: spacer } : one)) }],
    };
    const lines = (one: DryfitSet): number =>
      pathsOf(drawSteps(one).flatMap(({ shapes }) => shapes)).reduce((sum, { steps }) => sum + steps.length, 0);
    expect(lines(withSpacer)).toBeGreaterThan(lines(set));
  });

  it("looks from behind at what comes from behind", () => {
    const set = setOf(testFile("applied-back"));
    const back = set.parts.find(({ role }) => role === "back")!.mark;
    const to = set.parts.filter(({ role }) => role === "side").map(({ mark }) => mark);
    const texts = wordsIn(drawSteps(withMoves(set, [{ bring: [{ parts: [back], travel: [0, -1, 0] }], to }])));
    expect(texts.some((text) => text.startsWith("from behind"))).toBe(true);
  });

  it("keeps together what earlier moves joined", () => {
    const set = exampleA();
    const [first, second] = [set.orders[0]!.moves[0]!, set.orders[0]!.moves[1]!];
    // The shelf is brought to the divider, then the bottom from below: the shelf is there in the second picture too.
    const shelf = second.bring[0]!.parts[0]!;
    const [divider] = first.bring[0]!.parts as [string];
    const drafts = drawSteps(
      withMoves(set, [
        { bring: [{ parts: [shelf], travel: [1, 0, 0] }], to: [divider] },
        { bring: [{ parts: [divider], travel: [0, 0, -1] }], to: first.to },
      ]),
    );
    expect(textsOfPicture(wordsIn(drafts), 2)).toEqual(expect.arrayContaining([shelf, divider, first.to[0]]));
  });

  it("shows a move once, and names the step that shows it after that", () => {
    const set = exampleA();
    const [step] = set.steps;
    const twice = { ...set, steps: [step!, { ...step!, n: 2 }] };
    expect(arrowsIn(drawSteps(twice))).toHaveLength(6);
    expect(wordsIn(drawSteps(twice)).join(" ")).toContain("Pictures of these moves: step 1.");
  });

  it("brings two bodies at once each by its own arrow", () => {
    const set = exampleA();
    const { moves } = set.orders[0]!;
    const both = [...moves[4]!.bring, ...moves[5]!.bring] as Brought[];
    const arrows = arrowsIn(drawSteps(withMoves(set, [{ bring: both, to: moves[4]!.to }])));
    expect(arrows.map(([x]) => Math.sign(x)).sort()).toEqual([-1, 1]);
  });

  it("draws the relief of a rail as it slopes, not as the box that holds it", () => {
    const set = setOf(exampleFile("tile-sideboard"));
    const shaped = set.parts.find(({ features }) => features.some(({ kind }) => kind === "shape"))!;
    const order = set.orders.find(({ assembly }) => assembly === shaped.assembly)!;
    const move = order.moves.find(({ bring, to }) =>
      [...to, ...bring.flatMap(({ parts }) => parts)].includes(shaped.mark),
    )!;
    const lines = drawMoves(set, order, [{ move, spacers: [] }], 80, 80).flatMap(({ shapes }) => segmentsOf(shapes));
    // Isometric: along the length 30 degrees down or up, upright as it is (ISO 5456-3, from memory).
    const { outline } = shaped.features.find(({ kind }) => kind === "shape")!;
    const spots = outline.map(([l, w]) => [l, w] as [number, number]);
    const slopes = spots
      .map(([l, w], i) => [spots[(i + 1) % spots.length]![0] - l, spots[(i + 1) % spots.length]![1] - w] as const)
      .filter(([dl, dw]) => Math.abs(dl) > 1 && Math.abs(dw) > 1);
    expect(slopes).toHaveLength(2);
    const turnOf = (x: number, y: number): number => ((Math.atan2(y, x) * 180) / Math.PI + 180) % 180;
    const drawn = lines.map(({ x0, y0, x1, y1 }) => turnOf(x1 - x0, y1 - y0));
    const isSeen = ([dl, dw]: readonly [number, number]): boolean =>
      [1, -1].some((side) => {
        const turn = turnOf(dl * Math.cos(Math.PI / 6), side * dl * Math.sin(Math.PI / 6) - dw);
        return drawn.some((one) => Math.abs(one - turn) < 0.5);
      });
    expect(slopes.filter(isSeen)).toHaveLength(2);
  });

  it("brings an applied drawer front on from the front", () => {
    for (const [, set] of exampleSets()) {
      const fronts = set.parts.filter(({ role }) => role === "drawerFace").map(({ mark }) => mark);
      const brought = set.orders.flatMap(({ moves }) => moves.flatMap(({ bring }) => bring));
      const on = brought.filter(({ parts }) => parts.some((mark) => fronts.includes(mark)));
      expect(on).toHaveLength(fronts.length);
      for (const { travel } of on) expect(travel).toEqual([0, 1, 0]);
    }
  });

  it("draws the same each time", () => {
    expect(drawSteps(exampleA())).toEqual(drawSteps(exampleA()));
  });
});
