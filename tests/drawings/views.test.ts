import { describe, expect, it } from "vitest";
import type { Box } from "../../src/base/geometry.ts";
import { areaOf as areaOfOutline } from "../../src/base/outline.ts";
import { groupsOf } from "../../src/drawings/cases/case-group.ts";
import { drawCases, viewsOf } from "../../src/drawings/cases/case-views.ts";
import { cutsOf } from "../../src/drawings/cases/cutting.ts";
import { frontOf } from "../../src/drawings/cases/elevation.ts";
import { wholeOf } from "../../src/drawings/cases/whole.ts";
import type { Draft } from "../../src/drawings/draughting/draft.ts";
import { hatch } from "../../src/drawings/draughting/hatch.ts";
import { drawCover } from "../../src/drawings/lists/cover.ts";
import { setIndex } from "../../src/drawings/lists/drawing-index.ts";
import type { Edge } from "../../src/drawings/solids/edge.ts";
import { skinOf } from "../../src/drawings/solids/hidden-line-skin.ts";
import { drawPictorial } from "../../src/drawings/solids/pictorial.ts";
import { moveSolid, type Solid, solidOf, solidsOf, subtractBoxes } from "../../src/drawings/solids/solid.ts";
import {
  FROM_ABOVE,
  FROM_FRONT,
  FROM_RIGHT,
  type Patch,
  type Segment,
  type View,
  viewOf,
} from "../../src/drawings/solids/view.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { parseFigure, printedWithin, tokensOf } from "../support/pages/read-figures.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const box = (lo: [number, number, number], hi: [number, number, number]): Box => [lo, hi];
const volume = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, [lo, hi]) => sum + (hi[0] - lo[0]) * (hi[1] - lo[1]) * (hi[2] - lo[2]), 0);
const lengthOf = ({ a, b }: Segment): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
const inkOf = (view: View): number => view.segments.reduce((sum, segment) => sum + lengthOf(segment), 0);
const areaOf = (patches: readonly Patch[]): number =>
  patches.reduce((sum, { u0, u1, v0, v1 }) => sum + (u1 - u0) * (v1 - v0), 0);
const seenArea = (view: View, mark: string): number => areaOf(view.seen.get(mark) ?? []);

describe("a blank less its features", () => {
  it("loses just the volume of the groove", () => {
    const left = subtractBoxes(box([0, 0, 0], [100, 50, 18]), [box([20, 0, 9], [38, 50, 18])]);
    expect(volume(left)).toBeCloseTo(100 * 50 * 18 - 18 * 50 * 9, 6);
  });

  it("counts what two grooves share once", () => {
    const grooves = [box([20, 0, 9], [38, 50, 18]), box([0, 30, 12], [100, 36, 18])];
    const left = subtractBoxes(box([0, 0, 0], [100, 50, 18]), grooves);
    expect(volume(left)).toBeCloseTo(100 * 50 * 18 - 18 * 50 * 9 - 100 * 6 * 6 + 18 * 6 * 6, 6);
  });

  it("is the mass of the part over its density, for every part of the examples", () => {
    for (const [name, set] of exampleSets()) {
      for (const part of set.parts) {
        const { density } = set.stock.find(({ id }) => id === part.material)!;
        const of = (...kinds: string[]) => part.features.filter(({ kind }) => kinds.includes(kind));
        const holes = of("hole").reduce((sum, { width, depth }) => sum + (Math.PI / 4) * width ** 2 * depth, 0);
        // Drawn where they are seen: as wide as the cutter, and round at both ends.
        const routed = of("slot", "mortise").reduce(
          (sum, { width, from, to, depth }) => sum + (width * (to - from - width) + (Math.PI / 4) * width ** 2) * depth,
          0,
        );
        // Drawn square: half of its box is sawn off.
        const mitred = of("mitre").reduce((sum, { width, depth }) => sum + (width * depth * part.length) / 2, 0);
        // A moulded edge is drawn on the worktop's own section.
        const moulded = of("edge").reduce(
          (sum, { outline, from, to }) => sum + areaOfOutline(outline) * (to - from),
          0,
        );
        const shaped = of("shape").reduce((sum, { outline }) => sum + areaOfOutline(outline) * part.thickness, 0);
        const boxes = solidOf({ ...part, features: part.features.filter(({ kind }) => kind !== "shape") });
        const wood = volume(boxes) - holes - routed - mitred - moulded - shaped;
        expect((wood / 1e9) * density, `${name}, part ${part.mark}`).toBeCloseTo(part.mass, 3);
      }
    }
  });

  it("has a shaped edge as levels inside its outline, which leave no more than a twelfth of the slopes", () => {
    const shaped = exampleSets().flatMap(([, set]) =>
      set.parts.filter(({ features }) => features.some(({ kind }) => kind === "shape")),
    );
    expect(shaped.length).toBeGreaterThan(0);
    for (const part of shaped) {
      const shapes = part.features.filter(({ kind }) => kind === "shape");
      const outlines = shapes.reduce((sum, { outline }) => sum + areaOfOutline(outline) * part.thickness, 0);
      const square = solidOf({ ...part, features: part.features.filter(({ kind }) => kind !== "shape") });
      const left = outlines - (volume(square) - volume(solidOf(part)));
      expect(left).toBeGreaterThanOrEqual(-1e-3);
      expect(left).toBeLessThanOrEqual((volume(shapes.map(({ box }) => box)) - outlines) / 12 + 1e-3);
    }
  });
});

describe("hidden lines", () => {
  const front: Solid = { mark: "1", boxes: [box([0, 0, 0], [10, 1, 10])] };
  const behind: Solid = { mark: "2", boxes: [box([5, 5, 5], [15, 6, 15])] };

  it("are gone: what stands in front covers what lies behind", () => {
    const view = viewOf([behind, front], FROM_FRONT);
    expect(seenArea(view, "1")).toBe(100);
    expect(seenArea(view, "2")).toBe(100 - 25);
    // The whole of the first, and of the second what sticks out: twice 5 + 10.
    expect(inkOf(view)).toBe(40 + 30);
  });

  it("draw a slope that is made of levels as one surface, whose levels would print as a black bar", () => {
    const set = setOf(testFile("frame-on-feet"));
    const solid = set.assemblies
      .flatMap((assembly) => solidsOf(set, assembly))
      .find(({ smooth }) => smooth !== undefined && smooth > 0.1)!;
    const { smooth, stairs, ...plain } = solid;
    // Cut through its middle: the slope at its far end is seen behind the cut.
    const middle = plain.boxes.reduce((sum, [lo, hi]) => Math.max(sum, lo[0], hi[0]), 0) / 2;
    const levels = viewOf([plain], FROM_RIGHT, -middle).segments.length;
    expect(smooth).toBeGreaterThan(0);
    expect(levels).toBeGreaterThan(20);
    expect(viewOf([solid], FROM_RIGHT, -middle).segments.length).toBeLessThan(levels / 2);
    expect(inkOf(viewOf([solid], FROM_FRONT))).toBeCloseTo(inkOf(viewOf([plain], FROM_FRONT)), 9);
    const steps = plain.boxes.length;
    const levelLines = (one: Solid): number =>
      segmentsOf(drawPictorial([one], 1).shapes).filter(({ y0, y1 }) => Math.abs(y1 - y0) < 1e-6).length;
    expect(levelLines(plain)).toBeGreaterThan(steps - 2);
    expect(levelLines(solid)).toBeLessThan(12);
    // In the pictures, wherever it is moved, a slope is one line for all its levels.
    const edges = ({ boxes, stairs: some }: Solid) => skinOf(boxes, some).edges;
    const moved = moveSolid(solid, ([x, y, z]) => [7 - y, z, x]);
    const isSlanting = ({ ends: [a, b] }: Edge): boolean =>
      a.filter((value, i) => Math.abs(value - b[i]!) > 1e-3).length > 1;
    expect(stairs!.length).toBeGreaterThan(0);
    expect(steps).toBeGreaterThan(20);
    expect(edges(plain).length).toBeGreaterThan(4 * steps);
    for (const one of [solid, moved]) {
      expect(edges(one).length).toBeLessThan(steps);
      expect(edges(one).filter(isSlanting).length).toBe(2 * stairs!.length);
    }
  });

  it("are the other part's, seen from behind by turning the depth about", () => {
    const view = viewOf([behind, front], { u: "-x", v: "+z", away: "-y" });
    expect(seenArea(view, "2")).toBe(100);
    expect(seenArea(view, "1")).toBe(75);
  });

  it("leave a joint between two flush parts, and none inside one part of several boxes", () => {
    const [left, right] = [box([0, 0, 0], [5, 1, 10]), box([5, 0, 0], [10, 1, 10])];
    const two = viewOf(
      [
        { mark: "1", boxes: [left] },
        { mark: "2", boxes: [right] },
      ],
      FROM_FRONT,
    );
    const one = viewOf([{ mark: "1", boxes: [left, right] }], FROM_FRONT);
    expect(inkOf(two)).toBe(50);
    expect(inkOf(one)).toBe(40);
  });

  it("show a step in one part as a line", () => {
    const stepped: Solid = { mark: "1", boxes: [box([0, 0, 0], [5, 1, 10]), box([5, 0.5, 0], [10, 1, 10])] };
    expect(inkOf(viewOf([stepped], FROM_FRONT))).toBe(50);
  });

  it("mirror with the piece", () => {
    for (const [, set] of exampleSets()) {
      const solids = solidsOf(set, set.assemblies[0]!);
      const mirrored = solids.map(({ mark, boxes }) => ({
        mark,
        boxes: boxes.map(([lo, hi]) => box([-hi[0], lo[1], lo[2]], [-lo[0], hi[1], hi[2]])),
      }));
      const [plain, turned] = [viewOf(solids, FROM_FRONT), viewOf(mirrored, FROM_FRONT)];
      expect(inkOf(turned)).toBeCloseTo(inkOf(plain), 4);
      for (const mark of plain.seen.keys()) expect(seenArea(turned, mark)).toBeCloseTo(seenArea(plain, mark), 4);
    }
  });

  it("leave every point of the outline to one part: areas add up to the case's own", () => {
    for (const [, set] of exampleSets()) {
      // A drawer's front stands out beside its box.
      for (const assembly of set.assemblies.filter(({ kind }) => kind === "case")) {
        const [x, y] = assembly.size;
        const plan = viewOf(solidsOf(set, assembly), FROM_ABOVE);
        const total = [...plan.seen.values()].reduce((sum, patches) => sum + areaOf(patches), 0);
        expect(total).toBeLessThanOrEqual(x * y + 1e-3);
        expect(total).toBeGreaterThan(0.97 * x * y);
      }
    }
  });
});

describe("a section", () => {
  it("hatches what the plane goes through and leaves out what is before it", () => {
    const solids: Solid[] = [
      { mark: "1", boxes: [box([0, 0, 0], [10, 4, 10])] },
      { mark: "2", boxes: [box([0, 6, 0], [10, 9, 10])] },
    ];
    const view = viewOf(solids, FROM_FRONT, 5);
    expect([...view.cut.keys()]).toEqual([]);
    expect([...view.seen.keys()]).toEqual(["2"]);
    expect([...viewOf(solids, FROM_FRONT, 7).cut.keys()]).toEqual(["2"]);
  });

  it("cuts each part of a case by as much as the boxes say", () => {
    for (const [, set] of exampleSets()) {
      const assembly = set.assemblies[0]!;
      const solids = solidsOf(set, assembly);
      const { x } = cutsOf(set, assembly).upright;
      const view = viewOf(solids, FROM_RIGHT, -x);
      for (const { mark, boxes } of solids) {
        const crossed = boxes.filter(([lo, hi]) => lo[0] < x && x < hi[0]);
        const area = crossed.reduce((sum, [lo, hi]) => sum + (hi[1] - lo[1]) * (hi[2] - lo[2]), 0);
        expect(areaOf(view.cut.get(mark) ?? [])).toBeCloseTo(area, 4);
      }
    }
  });
});

describe("hatching", () => {
  it("stays inside its rectangle and carries on into the next", () => {
    const left = { x: 3, y: 2, width: 7, height: 5 };
    const right = { ...left, x: 10 };
    const whole = { ...left, width: 14 };
    const run = (boxes: (typeof left)[]): number =>
      segmentsOf([hatch(boxes, "rising", 1.4)]).reduce((sum, s) => sum + Math.hypot(s.x1 - s.x0, s.y1 - s.y0), 0);
    for (const slope of ["rising", "falling"] as const) {
      for (const { x0, y0, x1, y1 } of segmentsOf([hatch([left], slope, 1.4)])) {
        expect(Math.min(x0, x1)).toBeGreaterThanOrEqual(3 - 1e-9);
        expect(Math.max(x0, x1)).toBeLessThanOrEqual(10 + 1e-9);
        expect(Math.min(y0, y1)).toBeGreaterThanOrEqual(2 - 1e-9);
        expect(Math.max(y0, y1)).toBeLessThanOrEqual(7 + 1e-9);
        expect(Math.abs(x1 - x0)).toBeCloseTo(Math.abs(y1 - y0), 9);
      }
    }
    expect(run([left, right])).toBeCloseTo(run([whole]), 6);
    // Lines 1.4 apart cover a rectangle with one millimetre of line to 1.4 square millimetres, but for its rim.
    expect(run([{ x: 0, y: 0, width: 100, height: 100 }]) / (10000 / 1.4)).toBeCloseTo(1, 1);
  });
});

describe("the picture on the cover", () => {
  it("has the front in its true shape and the depth at half, on a slant of 30 degrees", () => {
    const solid: Solid = { mark: "1", boxes: [box([0, 0, 0], [40, 20, 30])] };
    const { width, height } = drawPictorial([solid], 0.5).box;
    expect(width).toBeCloseTo(0.5 * (40 + 10 * Math.cos(Math.PI / 6)), 9);
    expect(height).toBeCloseTo(0.5 * (30 + 10 * Math.sin(Math.PI / 6)), 9);
  });

  it("paints the far box before the near one, whatever order they come in", () => {
    const far: Solid = { mark: "far", boxes: [box([0, 50, 0], [10, 60, 10])] };
    const near: Solid = { mark: "near", boxes: [box([5, 0, 5], [15, 10, 15])] };
    const across: Solid = { mark: "across", boxes: [box([0, 20, 0], [20, 30, 20])] };
    expect(drawPictorial([near, far, across], 1).shapes).toEqual(drawPictorial([across, near, far], 1).shapes);
  });
});

/** Every figure on a drawing as a length, with what printing may have left off. */
const figuresOn = (draft: Draft, set: DryfitSet): { value: number; within: number }[] =>
  tokensOf(textBoxes(draft.shapes)).flatMap((token) => {
    const value = parseFigure(token.text, set.job.unit);
    return value === null ? [] : [{ value, within: printedWithin(token, set.job.unit) }];
  });

const shows = (draft: Draft, set: DryfitSet, length: number): boolean =>
  figuresOn(draft, set).some(({ value, within }) => Math.abs(value - length) <= within);

/** Pictures of one piece are told apart by where each is seen from. */
function eachPictureOnce(drafts: readonly Draft[]): void {
  const titles = drafts
    .flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text))
    .filter((text) => /^(As it stands|Taken apart)/.test(text));
  expect(titles.length).toBeGreaterThan(0);
  expect(new Set(titles).size).toBe(titles.length);
}

describe("views on the drawings", () => {
  it("show a case as it stands with every part that belongs to it, or say what is left out", () => {
    for (const [, set] of [...exampleSets(), ["shared side", setOf(testFile("shared-side"))] as const]) {
      for (const { drawn } of groupsOf(set, "case")) {
        const { solids, without } = wholeOf(set, [drawn]);
        const own = set.parts.filter((part) => part.case === drawn.name && part.place !== null);
        const kindOf = (part: SetPart): string => set.assemblies.find(({ name }) => name === part.assembly)!.kind;
        const missing = own.filter(({ mark }) => !solids.some((solid) => solid.mark === mark));
        for (const part of missing)
          expect(
            without.map((one) => one.split(" ").at(-1)),
            `${part.mark} ${part.name}`,
          ).toContain(kindOf(part));
        const marks = solids.map(({ mark }) => mark);
        expect(new Set(marks).size).toBe(marks.length);
      }
    }
  });

  it("give example A's bays 16 7/8 wide, 12 1/2 and 25 3/4 high, 36 by 30 over all", () => {
    const set = setOf(testFile("example-a-in"));
    const [front] = drawCases(set);
    const texts = tokensOf(textBoxes(front!.shapes)).map(({ text }) => text);
    expect(texts.filter((text) => text === "16 7/8")).toHaveLength(2);
    expect(texts.filter((text) => text === "12 1/2")).toHaveLength(2);
    for (const text of ["25 3/4", "36", "30", "2", "Front view"]) expect(texts).toContain(text);
  });

  it("show every clear size of every bay, and the case over all", () => {
    for (const [, set] of exampleSets()) {
      const groups = groupsOf(set, "case");
      const drafts = drawCases(set);
      const fronts = drafts.filter(({ key }) => key.startsWith("front-view"));
      if (groups.length === 1) eachPictureOnce(drafts);
      expect(fronts).toHaveLength(groups.length);
      groups.forEach(({ drawn }, i) => {
        const lengths = [
          drawn.size[0],
          drawn.size[2],
          ...set.openings.filter((o) => o.case === drawn.name).flatMap((o) => [o.width, o.height]),
        ];
        for (const length of lengths) expect(shows(fronts[i]!, set, length), `${drawn.name}: ${length}`).toBe(true);
      });
    }
  });

  it("mark every part that shows from the front, once", () => {
    for (const [, set] of exampleSets()) {
      for (const { drawn } of groupsOf(set, "case")) {
        const seen = [...viewOf(solidsOf(set, drawn), FROM_FRONT).seen.keys()].sort();
        const marks = frontOf(set, drawn)
          .draw(1 / 10, true)
          .shapes.flatMap((shape) => textsIn(shape))
          .filter(({ bold }) => bold);
        expect(
          marks
            .map(({ text }) => text)
            .filter((text) => /^\d+$/.test(text))
            .sort(),
        ).toEqual(seen);
      }
    }
  });

  it("find room for every mark at an eighth of the size, of a stile in a crowded corner too", () => {
    const set = setOf(exampleFile("glaze-console"));
    const said = groupsOf(set, "case")
      .flatMap(({ drawn }) => viewsOf(set, drawn))
      .flatMap(({ draw }) => textBoxes(draw(1 / 8, true).shapes).map(({ text }) => text));
    expect(said).toContain("22");
    expect(said.filter((text) => text.includes("no room"))).toEqual([]);
  });

  it("have their title under the middle of the case, whatever is dimensioned at its left", () => {
    for (const [, set] of exampleSets()) {
      for (const { drawn } of groupsOf(set, "case")) {
        const { shapes } = frontOf(set, drawn).draw(1 / 10, false);
        const [title] = shapes.filter((shape) => shape.kind === "text" && shape.text === "Front view");
        expect(title).toMatchObject({
          anchor: "middle",
          at: [expect.closeTo(drawn.size[0] / 20, 2), expect.anything()],
        });
      }
    }
  });

  it("draw cases that are alike once, and say how many and which marks the others carry", () => {
    const set = setOf(exampleFile("wedging-pair"));
    const groups = groupsOf(set, "case");
    expect(groups.map(({ drawn, others }) => [drawn.name, others.map(({ assembly }) => assembly.name)])).toEqual([
      ["wedging stand", []],
      ["clay locker 1", ["clay locker 2"]],
    ]);
    for (const { drawn, other } of groups[1]!.others[0]!.marks) {
      const [a, b] = [drawn, other].map((mark) => set.parts.find((part) => part.mark === mark)!);
      expect([b!.pattern, b!.place, b!.case]).toEqual([a!.pattern, a!.place, "clay locker 2"]);
    }
    const front = drawCases(set).find(({ key }) => key === "front-view-2")!;
    const words = textBoxes(front.shapes).map(({ text }) => text);
    expect(words.join(" ")).toContain("Make 2. Marks in clay locker 2:");
  });
});

function textsIn(shape: Draft["shapes"][number]): { text: string; bold: boolean }[] {
  if (shape.kind === "group") return shape.shapes.flatMap(textsIn);
  return shape.kind === "text" ? [{ text: shape.text, bold: shape.weight === "bold" }] : [];
}

describe("the cover", () => {
  it("breaks no word in its list of drawings, however many columns it would take", () => {
    const names = ["Sideboard drawer 1", "Front view with doors", "Parts 14, 15, 23 and 39", "Purchase"];
    const index = Array.from({ length: 60 }, (_, i) => ({
      name: names[i % 4]!,
      n: i + 70,
      last: i + 70,
      key: `k${i}`,
    }));
    for (const width of [62, 80, 95, 120]) {
      const told = textBoxes(setIndex(index, width, 100).block.shapes).flatMap(({ text }) => text.split(" "));
      const known = new Set(
        [...names, "Drawings", "The list goes on on the next drawing."].flatMap((one) => one.split(" ")),
      );
      expect(told.filter((one) => !/^\d+$/.test(one) && !known.has(one))).toEqual([]);
    }
  });

  it("lists every drawing with its number, each a link to it", () => {
    const set = setOf(exampleFile("glaze-console"));
    const index = Array.from({ length: 14 }, (_, i) => ({
      name: `Drawing ${i}`,
      n: i + 2,
      last: i + 2,
      key: `key-${i}`,
    }));
    const cover = drawCover(set, index)[0]!;
    const links = cover.shapes.flatMap(function find(shape): string[] {
      if (shape.kind === "group") return shape.shapes.flatMap(find);
      return shape.kind === "link" && "page" in shape.to ? [shape.to.page] : [];
    });
    expect(links).toEqual(index.map(({ key }) => key));
    const words = textBoxes(cover.shapes).map(({ text }) => text);
    for (const { n } of index) expect(words).toContain(String(n));
  });

  it("gives failures first, then warnings, as many as there is room for, and counts the rest", () => {
    const set = setOf(exampleFile("glaze-console"));
    const check = (level: "failure" | "warning", n: number) => ({
      id: `c${n}`,
      level,
      parts: [],
      text: `${level} ${n}.`,
      rule: null,
      change: null,
    });
    const few = { ...set, checks: [check("warning", 1), check("failure", 2)] };
    const text = textBoxes(drawCover(few, [])[0]!.shapes)
      .map((one) => one.text)
      .join(" ");
    expect(text).toContain("1 failure, 1 warning, 0 passed.");
    expect(text.indexOf("failure 2.")).toBeLessThan(text.indexOf("warning 1."));
    const many = { ...set, checks: Array.from({ length: 60 }, (_, i) => check("warning", i)) };
    const crowded = textBoxes(drawCover(many, [])[0]!.shapes)
      .map((one) => one.text)
      .join(" ");
    expect(crowded).toMatch(/\d+ more: see the drawing of the checks\./);
  });

  it("says to anchor what is 686 mm high or over three times its depth, and nothing else", () => {
    const set = setOf(exampleFile("glaze-console"));
    const words = (size: [number, number, number]): string =>
      textBoxes(drawCover({ ...set, assemblies: [{ ...set.assemblies[0]!, size }] }, [])[0]!.shapes)
        .map(({ text }) => text)
        .join(" ");
    expect(words([500, 400, 686])).toContain("Anchor to the wall");
    expect(words([500, 400, 685])).not.toContain("Anchor to the wall");
    expect(words([500, 200, 601])).toContain("Anchor to the wall");
    expect(words([500, 200, 600])).not.toContain("Anchor to the wall");
  });
});
