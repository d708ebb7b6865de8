import { describe, expect, it } from "vitest";
import { datumMark } from "../../src/drawings/draughting/datum-mark.ts";
import { facesToDraw, type Lie, type OnPaper } from "../../src/drawings/parts/part-axes.ts";
import { namesOf, patternsOf } from "../../src/drawings/parts/part-caption.ts";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import { rowsOf } from "../../src/drawings/parts/part-rows.ts";
import { drawFace, faceViews } from "../../src/drawings/parts/part-view.ts";
import { solidOf } from "../../src/drawings/solids/solid.ts";
import type { PathShape, Point, Shape } from "../../src/paper/shape.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { linesOf, parseFigure, printedWithin, textOf, tokensOf } from "../support/pages/read-figures.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { untoldOnDrawings } from "../support/paper/shared-drawings.ts";

const wordsOf = (shapes: readonly Shape[]): string =>
  linesOf(tokensOf(textBoxes(shapes)))
    .map(textOf)
    .join("\n");

const partOf = (set: DryfitSet, mark: string): SetPart => set.parts.find((part) => part.mark === mark)!;

const showsLength = (shapes: readonly Shape[], set: DryfitSet, length: number): boolean =>
  tokensOf(textBoxes(shapes)).some((token) => {
    const value = parseFigure(token.text, set.job.unit);
    return value !== null && Math.abs(value - length) <= printedWithin(token, set.job.unit);
  });

const LIES: readonly Lie[] = ["lying", "standing"];

const SMALL_SETS = [
  "example-a-in",
  "example-a-mm",
  "example-b",
  "shelves-opposite",
  "stopped-shelves",
  "rabbeted-back",
  "three-alike",
  "kick",
  "divider-on-shelf",
  "butt-screws",
  "butt-dowels",
  "tongue",
  "housing-back",
  "lipping-strip",
  "shared-side",
  "loose-shelves-each-side",
  "fillers",
];
const allSets = (): (readonly [string, DryfitSet])[] => [
  ...exampleSets(),
  ...SMALL_SETS.map((name) => [name, setOf(testFile(name))] as const),
];

describe("part drawings", () => {
  it("draw each pattern once, with all its marks", () => {
    for (const [, set] of allSets()) {
      const patterns = patternsOf(set);
      expect(patterns.map(({ part }) => part.pattern).sort()).toEqual(
        [...new Set(set.parts.map(({ pattern }) => pattern))].sort(),
      );
      const drafts = drawParts(set);
      const marks = drafts.flatMap(({ key }) => key.replace("part-", "").split("-"));
      expect(marks.sort()).toEqual(patterns.map(({ marks: [first] }) => first).sort());
      // Names are the only lettering of their size, in the order they were set, whatever line they stand on.
      const headings = drafts
        .flatMap(({ shapes }) => textBoxes(shapes).filter(({ size }) => size === 5))
        .map(({ text }) => text);
      const wanted = patterns.map((pattern) => `${pattern.marks.join(", ")} ${namesOf(set, pattern)}`);
      for (const heading of wanted) expect(` ${headings.join(" ")} `.split(` ${heading} `), heading).toHaveLength(2);
    }
  });

  it("tell what each of the parts that share one holds, and its mating marks", () => {
    const sets = [...allSets(), ["frame", setOf(testFile("frame-stub-tenons"))] as const];
    for (const [name, set] of sets) expect(untoldOnDrawings(set), name).toEqual([]);
    const shared = exampleSets().map(([, set]) => patternsOf(set).filter(({ marks }) => marks.length > 1).length);
    expect(Math.max(...shared)).toBeGreaterThan(3);
  });

  it("measure holes from the ends and edges that they are drilled from, wherever the settings give the axis a datum", () => {
    const paper: OnPaper = { lie: "lying", l: (value) => value, w: (value) => value };
    let measured = 0;
    for (const [name, set] of allSets())
      for (const { rows } of set.drilling)
        for (const { mark, face, datum, first, edge, distance } of rows) {
          const part = partOf(set, mark);
          if (face !== "t0" && face !== "t1") continue;
          const { along, across, datums } = rowsOf(set, part, face, paper);
          for (const [from, far] of [[datum, first] as const, [edge, distance] as const]) {
            const settings = set.settings.flatMap(({ runs }) =>
              runs.filter((run) => run.mark === mark && run.face === face),
            );
            if (!settings.some((run) => run.datum[0] === from[0])) continue;
            const size = from[0] === "l" ? part.length : part.width;
            const later = part.lippings.find((one) => one.edge === from && one.lipped === "after")?.thickness ?? 0;
            const zero = from[1] === "0" ? later : size - later;
            const place = from[1] === "0" ? zero + far : zero - far;
            const isThere = (from[0] === "l" ? along : across).some(
              (row) =>
                row.kind === "running" &&
                Math.abs(row.datum - zero) < 1e-6 &&
                row.at.some((at) => Math.abs(at - place) < 1e-6),
            );
            expect(isThere, `${name} ${mark}: ${far} from ${from}`).toBe(true);
            expect(datums).toContain(from);
            measured += 1;
          }
        }
    expect(measured).toBeGreaterThan(10);
  });

  it("stand a datum's triangle on wood, not over what was cut out of its edge", () => {
    for (const [name, set] of allSets())
      for (const part of set.parts.filter(({ features }) => features.some(({ kind }) => /shape|notch/.test(kind)))) {
        const [ratio, high] = [1 / 8, part.width / 8];
        const paper: OnPaper = { lie: "lying", l: (value) => value * ratio, w: (value) => value * ratio - high };
        const box = { x: 0, y: -high, width: part.length * ratio, height: high };
        for (const face of facesToDraw(part))
          for (const datum of rowsOf(set, part, face, paper).datums) {
            const { steps } = datumMark(datum, part, paper, box) as PathShape;
            const [a, b, tip] = steps.flatMap((step) => ("at" in step ? [step.at] : [])) as [Point, Point, Point];
            // From the base's middle into the part, by a tenth of a millimetre of the piece.
            const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
            const out = Math.hypot(tip[0] - x, tip[1] - y);
            const [l, w] = [
              (x - ((tip[0] - x) / out) * 0.0125) / ratio,
              (y - ((tip[1] - y) / out) * 0.0125 + high) / ratio,
            ];
            const isWood = solidOf(part).some(([lo, hi]) => lo[0] <= l && l <= hi[0] && lo[1] <= w && w <= hi[1]);
            expect(isWood, `${name} ${part.mark}: ${datum}`).toBe(true);
          }
      }
  });

  it("name parts alike by all their names, what those end in once", () => {
    const set = setOf(testFile("plinth"));
    const names = patternsOf(set).map((pattern) => namesOf(set, pattern));
    expect(names).toEqual(
      expect.arrayContaining(["front, rear of the plinth", "left end, right end, rib of the plinth"]),
    );
    expect(names).toContain("divider");
  });

  it("print every setting's fence figure on the face of every part it is run at", () => {
    for (const [name, set] of allSets()) {
      for (const setting of set.settings) {
        for (const { mark, feature, face } of setting.runs) {
          const part = partOf(set, mark);
          if (part.features[feature]!.kind === "notch") continue;
          // In an edge it is told in words, from the face that goes to the fence.
          if (face !== "t0" && face !== "t1") continue;
          for (const lie of LIES) {
            const drawn = drawFace(set, faceViews(part, face as "t0" | "t1", lie), 1 / 8);
            expect(showsLength(drawn.shapes, set, setting.fence), `${name} ${setting.n}: ${mark} ${lie}`).toBe(true);
          }
        }
      }
    }
  });

  it("print each part's length and width on its view, and every stop from the same datum", () => {
    for (const [name, set] of allSets()) {
      for (const part of set.parts) {
        for (const face of facesToDraw(part)) {
          const { shapes } = drawFace(set, faceViews(part, face, "lying"), 1 / 8);
          const lengths = [part.length, part.width];
          for (const { kind, ends, face: cut, along, from, to } of part.features) {
            if (kind === "notch") continue; // told in words: tests/drawings/closure.test.ts
            if (cut !== face || kind === "hole") continue; // holes: tests/casework/fastening.test.ts
            const size = along === "l" ? part.length : part.width;
            // From the edge as it is when the groove is cut: a lipping may still be to come at either.
            const [low, high] = [`${along}0`, `${along}1`].map(
              (edge) => part.lippings.find((one) => one.edge === edge && one.lipped === "after")?.thickness ?? 0,
            );
            const stops = [...(ends[0] === "square" ? [from] : []), ...(ends[1] === "square" ? [to] : [])];
            for (const stop of stops) {
              if (Math.min(Math.abs(stop - low!), Math.abs(stop - (size - high!))) < 1e-6) continue; // there it is through
              const shown = showsLength(shapes, set, stop - low!) || showsLength(shapes, set, size - high! - stop);
              expect(shown, `${name} ${part.mark} stop ${stop}`).toBe(true);
            }
          }
          for (const length of lengths) expect(showsLength(shapes, set, length), `${name} ${part.mark}`).toBe(true);
        }
      }
    }
  });

  it("run example A's figures from the bottom end: 2, 15 1/4 and 28 1/2 on the left, no shelf on the right", () => {
    const set = setOf(testFile("example-a-in"));
    const sides = set.parts.filter(({ role }) => role === "side");
    const along = (part: SetPart): string => {
      const face = part.inside as "t0" | "t1";
      return wordsOf(drawFace(set, faceViews(part, face, "lying"), 1 / 8).shapes).split("\n")[0]!;
    };
    expect(sides.map(({ hand }) => hand)).toEqual(["left", "right"]);
    expect(along(sides[0]!)).toBe("0 2 15 1/4 28 1/2 ( 30 )");
    expect(along(sides[1]!)).toBe("0 2 28 1/2 ( 30 )");
  });

  it("draw a left and a right side as one, mirror images of each other with the back edges together", () => {
    const set = setOf(exampleFile("ware-bookcase"));
    const [pair] = drawParts(set);
    expect(pair!.name).toBe("Parts 1 and 2");
    expect(wordsOf(pair!.shapes)).toContain("1 left side make 1, left hand, L");
    expect(wordsOf(pair!.shapes)).toContain("2 right side make 1, right hand, R");
    const [left, right] = ["1", "2"].map((mark) => partOf(set, mark));
    for (const lie of LIES) {
      const picture = (part: SetPart) => faceViews(part, part.inside as "t0" | "t1", lie).view;
      const [a, b] = [picture(left!), picture(right!)];
      const flip = (value: number): string => value.toFixed(4).replace("-0.0000", "0.0000");
      const segments = (view: typeof a, turn: number): string[] => {
        const { u0, u1, v0, v1 } = view.bounds;
        return view.segments
          .flatMap(({ a: p, b: q }) => {
            const ends = [p, q].map(([u, v]) =>
              lie === "lying"
                ? `${flip(u - u0)} ${flip(turn > 0 ? v - v0 : v1 - v)}`
                : `${flip(turn > 0 ? u - u0 : u1 - u)} ${flip(v - v0)}`,
            );
            return [ends.sort().join(" to ")];
          })
          .sort();
      };
      expect(segments(b, -1)).toEqual(segments(a, 1));
    }
    // Lying, the left one is above: its front edge is its upper line, and the right one's its lower line.
    const boxes = textBoxes(pair!.shapes);
    const at = (text: string): number => boxes.find((box) => box.text === text)!.y0;
    expect(at("1 L, inside face")).toBeLessThan(at("2 R, inside face"));
    const fronts = boxes.filter(({ text }) => text === "front edge").map(({ y0 }) => y0);
    expect(fronts).toHaveLength(2);
    expect(Math.min(...fronts)).toBeLessThan(at("1 L, inside face"));
    expect(Math.max(...fronts)).toBeGreaterThan(at("2 R, inside face"));
  });

  it("draw both faces of a divider that carries grooves in both, and say which is which", () => {
    const set = setOf(testFile("shelves-opposite"));
    const divider = set.parts.find(({ role }) => role === "divider")!;
    expect(facesToDraw(divider)).toEqual(["t0", "t1"]);
    const words = drawParts(set)
      .map(({ shapes }) => wordsOf(shapes))
      .join("\n");
    expect(words).toContain(`${divider.mark} left face`);
    expect(words).toContain(`${divider.mark} right face`);
  });

  it("name hand and face on the wood itself, on two lines where the bays are narrow", () => {
    const whole = setOf(exampleFile("glaze-console"));
    const set = { ...whole, paper: { ...whole.paper, drawings: { name: "Letter", width: 279.4, height: 215.9 } } };
    const texts = textBoxes(drawParts(set)[0]!.shapes).map(({ text }) => text);
    expect(texts).toContain("1 L, inside face");
    expect(texts).toContain("2 R");
    expect(texts).toContain("inside face");
  });

  it("say each groove's width, depth and stop in words", () => {
    const set = setOf(exampleFile("ware-bookcase"));
    const words = drawParts(set)
      .map(({ shapes }) => wordsOf(shapes))
      .join("\n");
    expect(words).toContain("3, 4, 5, 6, 7 and 8: groove, 17.8 wide, 6 deep, stopped short of the front edge");
    expect(words).toMatch(
      /9: groove along the length, 5\.8 wide, 6 deep, (stopped short of the top end|at the top end into the groove of 4)/,
    );
    expect(words).toContain("Notch 80 along, 40 across: bottom end at the front edge (toe space of the kick)");
    expect(words).toContain("Measured from the front edge and the bottom end.");
  });

  it("letter every figure on a view 3.5 mm high: they are read at the saw", () => {
    for (const [, set] of exampleSets()) {
      for (const part of set.parts) {
        const { shapes } = drawFace(set, faceViews(part, facesToDraw(part)[0]!, "lying"), 1 / 8);
        const figures = tokensOf(textBoxes(shapes)).filter(({ text }) => parseFigure(text, set.job.unit) !== null);
        expect(Math.min(...figures.map(({ size }) => size))).toBeCloseTo(3.5, 6);
      }
    }
  });

  it("refuse paper that no scale makes large enough, and name the part", () => {
    const set = setOf(exampleFile("glaze-console"));
    const tiny = { ...set, paper: { ...set.paper, drawings: { name: "card", width: 120, height: 90 } } };
    expect(() => drawParts(tiny)).toThrow(
      "  error: part 1, which does not fit the paper for drawings, card, with its dimensions\n  expected: parts that fit at some scale\n  try: choose larger paper for drawings",
    );
  });
});
