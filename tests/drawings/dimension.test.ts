import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Unit } from "../../src/base/length.ts";
import { meets } from "../../src/drawings/draughting/block.ts";
import { breakLines, clipToBox } from "../../src/drawings/draughting/clip.ts";
import { type Dimensions, drawDimensions, type Row, type Side } from "../../src/drawings/draughting/dimension.ts";
import { drawDimensionsRound } from "../../src/drawings/draughting/round-view.ts";
import { largestScale, scalesOf } from "../../src/drawings/draughting/scale.ts";
import { spread, stackStretches } from "../../src/drawings/draughting/stretch.ts";
import { PENS } from "../../src/paper/pen.ts";
import { segmentsOf, struck } from "../support/pages/lines.ts";
import { linesOf, parseFigure, printedWithin, tokensOf } from "../support/pages/read-figures.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";

const reference = (name: string): { [key: string]: unknown } =>
  JSON.parse(readFileSync(new URL(`../reference/${name}.json`, import.meta.url), "utf8"));

const SIDES: readonly Side[] = ["above", "below", "left", "right"];
const style = (unit: Unit, ratio: number) => ({ unit, ratio, size: 3.5 });

/** Every figure that can be read off a layout, in mm. */
const figuresOf = ({ shapes }: Dimensions, unit: Unit): { value: number; within: number }[] =>
  tokensOf(textBoxes(shapes)).map((token) => ({
    value: parseFigure(token.text, unit)!,
    within: printedWithin(token, unit),
  }));

const holdsFigure = (figures: { value: number; within: number }[], length: number): boolean =>
  figures.some(({ value, within }) => Math.abs(value - length) <= within);

/** Ascending points on paper whose distances are whole sixteenths, or tenths of a millimetre, of the piece. */
const pointsOf = (unit: Unit, ratio: number, steps: readonly number[]): number[] => {
  const step = unit === "in" ? 25.4 / 16 : 0.1;
  let at = 0;
  return [0, ...steps.map((n) => (at += n * step * ratio))];
};

const cases = fc.record({
  unit: fc.constantFrom<Unit>("in", "mm"),
  side: fc.constantFrom(...SIDES),
  ratio: fc.constantFrom(1 / 4, 1 / 8, 1 / 10, 1 / 24),
  steps: fc.array(fc.integer({ min: 1, max: 900 }), { minLength: 1, maxLength: 9 }),
});

describe("dimension figures", () => {
  it("say the distance of the two points they stand between, divided by the scale", () => {
    fc.assert(
      fc.property(cases, ({ unit, side, ratio, steps }) => {
        const points = pointsOf(unit, ratio, steps);
        const spans = points.slice(1).map((point, i) => [points[i]!, point] as const);
        const figures = figuresOf(drawDimensions(side, 0, [{ kind: "spans", spans }], style(unit, ratio)), unit);
        expect(figures).toHaveLength(spans.length);
        for (const [a, b] of spans) expect(holdsFigure(figures, (b - a) / ratio)).toBe(true);
      }),
    );
  });

  it("have no line of a row farther out run at them from both sides, as if they stood between dashes", () => {
    for (const side of SIDES) {
      for (const narrow of [1, 1.8, 3]) {
        for (const isAtEnd of [true, false]) {
          // On paper: a wide stretch, and a narrow one at the end where the outer row begins too.
          const [from, to] = isAtEnd ? [60 - narrow, 60] : [0, narrow];
          const wide = isAtEnd ? ([0, from] as const) : ([to, 60] as const);
          const rows: Row[] = [
            { kind: "spans", spans: [wide, [from, to]] },
            { kind: "spans", spans: [[0, 60]] },
          ];
          const laid = drawDimensions(side, 0, rows, style("mm", 1));
          const figure = textBoxes(laid.shapes).find(({ text }) => text === String(narrow))!;
          const isLevel = side === "above" || side === "below";
          const [low, high] = isLevel ? [figure.x0, figure.x1] : [figure.y0, figure.y1];
          for (const end of [0, 60]) {
            expect(low > end + 0.5 || high < end - 0.5, `${side} ${narrow} ${isAtEnd}: ${end}`).toBe(true);
          }
        }
      }
    }
  });

  it("run from the datum, which is 0, whichever end it is", () => {
    fc.assert(
      fc.property(cases, fc.boolean(), ({ unit, side, ratio, steps }, fromEnd) => {
        const points = pointsOf(unit, ratio, steps);
        const datum = fromEnd ? points.at(-1)! : 0;
        const at = points.filter((point) => point !== datum);
        const laid = drawDimensions(side, 0, [{ kind: "running", datum, at }], style(unit, ratio));
        const figures = figuresOf(laid, unit);
        expect(figures).toHaveLength(points.length);
        for (const point of points) expect(holdsFigure(figures, Math.abs(point - datum) / ratio)).toBe(true);
      }),
    );
  });

  it("stand in the order of their points", () => {
    const at = [10, 11, 12, 13, 60];
    const row: Row = { kind: "running", datum: 0, at };
    const figures = tokensOf(textBoxes(drawDimensions("above", 0, [row], style("mm", 0.1)).shapes));
    expect(linesOf(figures).map((line) => line.map(({ text }) => text))).toEqual([
      ["0", "100", "110", "120", "130", "600"],
    ]);
  });

  it("meet neither each other nor any line, however narrow the spans", () => {
    fc.assert(
      fc.property(cases, ({ unit, side, ratio, steps }) => {
        const points = pointsOf(unit, ratio, steps);
        const spans = points.slice(1).map((point, i) => [points[i]!, point] as const);
        const rows: Row[] = [
          { kind: "spans", spans },
          { kind: "running", datum: 0, at: points.slice(1) },
          { kind: "letters", letters: points.map((at, i) => ({ at, text: String(i) })) },
          { kind: "spans", spans: [[0, points.at(-1)!]] },
        ];
        const { shapes } = drawDimensions(side, 0, rows, style(unit, ratio));
        const boxes = textBoxes(shapes);
        expect(overlapping(boxes)).toEqual([]);
        expect(struck(boxes, segmentsOf(shapes))).toEqual([]);
      }),
    );
  });

  it("take the space they say: nothing stands nearer than the outline or beyond the depth", () => {
    fc.assert(
      fc.property(cases, ({ unit, ratio, steps }) => {
        const points = pointsOf(unit, ratio, steps);
        const rows: Row[] = [{ kind: "running", datum: 0, at: points.slice(1) }];
        const { shapes, depth } = drawDimensions("above", 0, rows, style(unit, ratio), 4);
        for (const { y0, y1 } of textBoxes(shapes)) {
          expect(y1).toBeLessThanOrEqual(-4);
          expect(y0).toBeGreaterThanOrEqual(-depth - 1e-9);
        }
      }),
    );
  });

  it("mirror: from the other side, every figure is the same", () => {
    fc.assert(
      fc.property(cases, ({ unit, ratio, steps }) => {
        const points = pointsOf(unit, ratio, steps);
        const spans = points.slice(1).map((point, i) => [points[i]!, point] as const);
        const mirrored = spans.map(([a, b]) => [-b, -a] as const);
        const read = (some: typeof spans): number[] =>
          figuresOf(drawDimensions("above", 0, [{ kind: "spans", spans: some }], style(unit, ratio)), unit)
            .map(({ value }) => value)
            .sort((a, b) => a - b);
        expect(read(mirrored)).toEqual(read(spans));
      }),
    );
  });
});

describe("dimensions round a view", () => {
  it("keep clear of each other at the corners, however many figures crowd there", () => {
    const places = (extent: number) =>
      fc.uniqueArray(fc.integer({ min: 1, max: extent }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(
        places(60),
        places(60),
        fc.constantFrom("above" as const, "below" as const),
        fc.constantFrom("left" as const, "right" as const),
        fc.constantFrom<Unit>("mm", "in"),
        (across, up, level, upright, unit) => {
          const [width, height] = [Math.max(...across), Math.max(...up)];
          const running = (at: readonly number[]): Row[] => [
            { kind: "running", datum: 0, at: at.toSorted((a, b) => a - b) },
          ];
          const round = drawDimensionsRound(
            [
              { side: level, edge: level === "above" ? 0 : height, rows: running(across) },
              { side: upright, edge: upright === "left" ? 0 : width, rows: running(up) },
            ],
            style(unit, 1 / 20),
          );
          const [one, other] = round.map(({ boxes }) => boxes);
          expect(one!.filter((box) => other!.some((beside) => meets(box, beside)))).toEqual([]);
        },
      ),
      { seed: 20261130, numRuns: 200 },
    );
  });
});

describe("spread", () => {
  it("leaves what does not touch where it wants to be", () => {
    expect(
      spread(
        [
          { at: 0, extent: 4 },
          { at: 10, extent: 4 },
        ],
        1,
      ),
    ).toEqual([0, 10]);
  });

  it("moves two that touch apart by as little as they need, each by half", () => {
    expect(
      spread(
        [
          { at: 0, extent: 4 },
          { at: 3, extent: 4 },
        ],
        1,
      ),
    ).toEqual([-1, 4]);
  });

  it("keeps order and gap for any wishes", () => {
    const wishes = fc.array(
      fc.record({ at: fc.integer({ min: 0, max: 100 }), extent: fc.integer({ min: 1, max: 15 }) }),
      {
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(wishes, (wanted) => {
        const places = spread(wanted, 1.5);
        const order = wanted.map((_, i) => i).sort((a, b) => places[a]! - places[b]!);
        order.slice(1).forEach((b, i) => {
          const a = order[i]!;
          const air = places[b]! - wanted[b]!.extent / 2 - (places[a]! + wanted[a]!.extent / 2);
          expect(air).toBeGreaterThanOrEqual(1.5 - 1e-9);
          expect(wanted[a]!.at).toBeLessThanOrEqual(wanted[b]!.at);
        });
      }),
    );
  });
});

describe("lines broken for a text", () => {
  it("lose just the stretch that would run through it", () => {
    const [left, right] = breakLines(
      [
        [
          [0, 5],
          [20, 5],
        ],
      ],
      [{ x: 8, y: 3, width: 4, height: 4 }],
    );
    expect(left![0]).toEqual([0, 5]);
    expect(left![1][0]).toBeCloseTo(7.5, 9);
    expect(right![0][0]).toBeCloseTo(12.5, 9);
    expect(right![1]).toEqual([20, 5]);
  });

  it("are whole where they only touch its corner", () => {
    expect(clipToBox([0, 0], [10, 10], { x: 10, y: 0, width: 5, height: 5 })).toBeNull();
  });
});

describe("stretches stacked in rows", () => {
  it("never overlap in a row, the shortest first", () => {
    expect(
      stackStretches([
        [0, 80],
        [0, 12],
        [90, 100],
      ]),
    ).toEqual([
      [
        [90, 100],
        [0, 12],
      ],
      [[0, 80]],
    ]);
  });
});

describe("scales", () => {
  const iso = reference("drawing-scales-iso5455") as {
    rows: { kind: string; ratios: string[] }[];
    inch_scales: { rows: string[] };
  };

  it("in mm are full size and the reductions of ISO 5455", () => {
    const allowed = iso.rows.filter(({ kind }) => kind !== "enlargement").flatMap(({ ratios }) => ratios);
    const ours = scalesOf("mm").map(({ name }) => name);
    expect(allowed.slice(0, ours.length)).toEqual(ours);
    for (const { name, ratio } of scalesOf("mm")) expect(ratio).toBeCloseTo(1 / Number(name.split(":")[1]), 12);
  });

  it("in inches are the reference series, and each name says its ratio", () => {
    const denominators = iso.inch_scales.rows.map((row) => Number(/1:(\d+)/.exec(row)![1]));
    const ours = scalesOf("in");
    expect(ours.slice(0, denominators.length).map(({ ratio }) => 1 / ratio)).toEqual(denominators);
    for (const { name, ratio } of ours.slice(1)) {
      const [, whole, over, under] = /^(?:(\d+) ?)??(?:(\d+)\/(\d+))?" = 1'-0"$/.exec(name)!;
      const inches = Number(whole ?? 0) + (over === undefined ? 0 : Number(over) / Number(under));
      expect(inches / 12).toBeCloseTo(ratio, 12);
    }
  });

  it("are the largest that fit: one step larger would not", () => {
    const sizes = fc.record({
      unit: fc.constantFrom<Unit>("in", "mm"),
      width: fc.integer({ min: 20, max: 9000 }),
      height: fc.integer({ min: 20, max: 9000 }),
    });
    fc.assert(
      fc.property(sizes, ({ unit, width, height }) => {
        const { ratio } = largestScale(unit, (scale) =>
          width * scale.ratio <= 200 && height * scale.ratio <= 150 ? scale : null,
        )!;
        expect(width * ratio <= 200 && height * ratio <= 150).toBe(true);
        const larger = scalesOf(unit)
          .filter((scale) => scale.ratio > ratio)
          .at(-1);
        if (larger) expect(width * larger.ratio > 200 || height * larger.ratio > 150).toBe(true);
      }),
    );
  });
});

describe("pens", () => {
  it("are of the ISO 128 series", () => {
    const { rows } = reference("line-widths-iso128") as { rows: { group: string; widths?: number[] }[] };
    const series = rows.find(({ group }) => group === "series")!.widths!;
    for (const { width } of Object.values(PENS)) expect(series).toContain(width);
  });
});
