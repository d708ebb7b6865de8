import { describe, expect, it } from "vitest";
import { lieOf } from "../../src/drawings/machines/lie.ts";
import { type Pass, passesOf } from "../../src/drawings/machines/passes.ts";
import { drawSettingPicture } from "../../src/drawings/machines/setting-picture.ts";
import { drawSettings } from "../../src/drawings/machines/settings.ts";
import type { Shape } from "../../src/paper/shape.ts";
import type { DryfitSet, Face, SetPart, SetSetting } from "../../src/set/schema.ts";
import { exampleFile, exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { faultsOn, paintedOn } from "../support/pages/page-faults.ts";
import { onPaper, PAPER_NAMES } from "../support/pages/papers.ts";
import { linesOf, parseFigure, printedWithin, type Token, textOf, tokensOf } from "../support/pages/read-figures.ts";
import { type TextBox, textBoxes } from "../support/pages/text-boxes.ts";
import { tellColumns } from "../support/paper/columns.ts";
import { seenOnPage } from "../support/paper/page.ts";

const NAMES = ["three-alike", "stopped-shelves", "rabbeted-back", "bays-in-bays", "example-a-in"];
const SETS = [...exampleSets(), ...NAMES.map((name) => [name, setOf(testFile(name))] as const)];

/** Every column of every page, in the order they are read. */
const columnsIn = (set: DryfitSet): TextBox[][] =>
  drawSettings(set).flatMap(({ shapes }) => {
    const boxes = textBoxes(shapes);
    return tellColumns(seenOnPage({ ...set.paper.drawings, shapes })).map((isIn) => boxes.filter(isIn));
  });

const pagesOf = (set: DryfitSet): Token[][] => columnsIn(set).map(tokensOf);
const linesOfSet = (set: DryfitSet): string[] => pagesOf(set).flatMap((page) => linesOf(page).map(textOf));

/** Ends and edges as the shop calls them, by the way they look in the piece. */
const LOOKS = [
  ["left", "right"],
  ["front", "back"],
  ["bottom", "top"],
] as const;
const NOUNS = { l: "end", w: "edge", t: "face" } as const;

function wordsFor(part: SetPart, face: Face): string {
  if (face[0] === "t" && part.inside !== null) return face === part.inside ? "inside face" : "outside face";
  const direction = outward(part, face);
  const axis = direction.findIndex((one) => one !== 0);
  const word = LOOKS[axis]![direction[axis]! > 0 ? 1 : 0];
  if (face[0] === "t" && axis === 2) return word === "top" ? "upper face" : "lower face";
  return `${word} ${NOUNS[face[0] as "l" | "w" | "t"]}`;
}

/** What is glued on this end or edge once the grooves are cut: its thickness, 0 for none. */
const lippedLater = (part: SetPart, edge: Face): number =>
  part.lippings.find((one) => one.edge === edge && one.lipped === "after")?.thickness ?? 0;

type Vec = [number, number, number];
const AXES = { x: 0, y: 1, z: 2 } as const;

/** The outward direction of a face, in the case. */
function outward(part: SetPart, face: Face): Vec {
  const signed = part.place![face[0] as "l" | "w" | "t"];
  const direction: Vec = [0, 0, 0];
  direction[AXES[signed[1] as "x" | "y" | "z"]] = (signed[0] === "+" ? 1 : -1) * (face[1] === "1" ? 1 : -1);
  return direction;
}

/** Of which kind each line is, by the first pattern that it has; one after another of a kind count once. */
const kindsIn = (lines: readonly string[], kinds: readonly RegExp[]): number[] =>
  lines
    .map((line) => kinds.findIndex((kind) => kind.test(line)))
    .filter((kind) => kind !== -1)
    .filter((kind, i, all) => kind !== all[i - 1]);

/** Of each group those that its rows of sizes carry, each said once over them. */
const sizingCautions = ({ sizing, groups }: DryfitSet): number =>
  groups.reduce(
    (sum, { n }) => sum + new Set(sizing.filter(({ group }) => group === n).map(({ caution }) => caution)).size,
    0,
  );

const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const minus = (a: Vec): Vec => [-a[0], -a[1], -a[2]];

/** The face that goes first, from directions in the case: forward is up x right. */
function firstFace(part: SetPart, up: Vec, right: Vec): Face {
  const forward = cross(up, right);
  return (["l0", "l1", "w0", "w1", "t0", "t1"] as Face[]).find((face) =>
    outward(part, face).every((v, i) => v === forward[i]),
  )!;
}

function expectedFirst(part: SetPart, setting: SetSetting, run: SetSetting["runs"][number]): Face {
  const datum = outward(part, run.datum);
  const cut = outward(part, run.face);
  if (setting.tool === "router") {
    const isBefore = setting.straightedge!.near <= setting.fence;
    return firstFace(part, cut, isBefore ? minus(datum) : datum);
  }
  return firstFace(part, minus(cut), setting.side === "left" ? minus(datum) : datum);
}

describe.each(SETS)("the settings of %s", (_name, set) => {
  it.each(PAPER_NAMES)("on %s name every setting once, with its test, its caution and the figure to set", (paper) => {
    const raw = columnsIn(onPaper(set, paper));
    const pages = raw.map(tokensOf);
    const all = pages.flat();
    const titles = all.flatMap(({ text }) => /^Setting (\d+)$/.exec(text)?.[1] ?? []);
    expect(titles).toEqual(set.settings.map(({ n }) => String(n)));
    // Grooves, holes and hand work stand as the steps have them, group after group.
    const onPage = kindsIn(
      all.map(({ text }) => text),
      [/^Setting \d+$/, /^Drilling \d+/, /^By hand, after/],
    );
    const inSteps = kindsIn(
      set.steps.map(({ title }) => title),
      [
        /^Cut the (grooves|tenons|laps) at the /,
        /^Drill the (rows of )?holes$/,
        /^(By hand: |Cut the mortises |Cut the dovetails$|Rip the mitres|Flatten, trim and shape |Shape )/,
      ],
    );
    expect(onPage).toEqual(inSteps);
    expect(all.filter(({ text }) => text.startsWith("CAUTION"))).toHaveLength(
      set.settings.length + set.drilling.length + sizingCautions(set),
    );
    expect(all.filter(({ text }) => text.startsWith("Test cut."))).toHaveLength(set.settings.length);
    expect(all.filter(({ text }) => text === "Passed")).toHaveLength(set.settings.length);

    const large = pages.flatMap((page) => page.filter(({ size }) => size > 5.9).sort((a, b) => a.y1 - b.y1));
    expect(large).toHaveLength(set.settings.length);
    // Read a metre away: no digit under 5 mm, those of a fraction neither (common practice, no source).
    const isIn = (inner: (typeof raw)[number][number], outer: Token): boolean =>
      inner.x0 > outer.x0 - 0.01 &&
      inner.x1 < outer.x1 + 0.01 &&
      inner.y0 > outer.y0 - 0.01 &&
      inner.y1 < outer.y1 + 0.01;
    const digits = pages.flatMap((page, n) =>
      page.filter((one) => large.includes(one)).flatMap((one) => raw[n]!.filter((box) => isIn(box, one))),
    );
    expect(digits.length).toBeGreaterThanOrEqual(large.length);
    for (const { text, size } of digits) expect(size, text).toBeGreaterThanOrEqual(5);
    set.settings.forEach((setting, i) => {
      const { straightedge, fence } = setting;
      // The straightedge stays where the last pass needs it; the spacer keeps the router off it in the first.
      const wanted =
        straightedge === null
          ? fence
          : straightedge.near <= fence
            ? straightedge.near
            : (straightedge.far ?? straightedge.near);
      const read = parseFigure(large[i]!.text, set.job.unit)!;
      expect(Math.abs(read - wanted)).toBeLessThanOrEqual(printedWithin(large[i]!, set.job.unit));
    });
  });

  it("list every run once: mark, face, datum and what goes first", () => {
    const lines = linesOfSet(onPaper(set, "letter upright"));
    const wanted = set.settings.flatMap((setting) =>
      setting.runs.map((run) => {
        const part = set.parts.find(({ mark }) => mark === run.mark)!;
        const first = expectedFirst(part, setting, run);
        const datum = wordsFor(part, run.datum) + (lippedLater(part, run.datum) > 0 ? " before lipping" : "");
        return [run.mark, part.name, wordsFor(part, run.face), datum, wordsFor(part, first)].join(" ");
      }),
    );
    const starts = [...new Set(wanted)];
    const read = lines.flatMap((line) =>
      starts.filter((start) => ["through", "leave ", "run into "].some((cut) => line.startsWith(`${start} ${cut}`))),
    );
    expect(read.sort()).toEqual(wanted.sort());
  });

  it("say where a run stops, and of no other run", () => {
    const lines = linesOfSet(onPaper(set, "a3"));
    const { unit } = set.job;
    let stopped = 0;
    let open = 0;
    for (const setting of set.settings)
      for (const run of setting.runs) {
        const part = set.parts.find(({ mark }) => mark === run.mark)!;
        const { along, from, to, ends } = part.features[run.feature]!;
        expect([run.from, run.to]).toEqual([from, to]);
        // What a lipping closes is cut through: it is glued on over that end.
        const long = along === "l" ? part.length : part.width;
        const isOpen = [
          lippedLater(part, `${along}0` as Face) === from,
          lippedLater(part, `${along}1` as Face) === long - to,
        ];
        stopped += ends.filter((end, i) => end === "square" && !isOpen[i]).length;
        open += ends.filter((end) => end === "open").length;
      }
    const stops = lines.flatMap(
      (line) => /leave (\S+(?: \d+\/\d+)?) uncut at the (.+? (?:end|edge))/.exec(line)?.[1] ?? [],
    );
    expect(stops).toHaveLength(stopped);
    expect(lines.join(" ").match(/run into the groove for/g) ?? []).toHaveLength(open);
    for (const stop of stops) expect(parseFigure(stop, unit)).toBeGreaterThan(0);
  });

  it("list the work by hand once each", () => {
    const text = linesOfSet(onPaper(set, "a3"));
    const told = set.handWork.map(({ mark, text: work }) => {
      const part = set.parts.find((one) => one.mark === mark)!;
      return { mark, start: `${part.name} ${work.slice(0, 30)}` };
    });
    // Before the name stand the marks of all parts that are worked alike.
    const read = [...new Set(told.map(({ start }) => start))].flatMap((start) =>
      text.flatMap((line) => {
        const marks =
          line.endsWith(start) || line.includes(` ${start}`) ? line.slice(0, line.indexOf(start)).trim() : "";
        return /^[\da-z ]+$/.test(marks) ? marks.split(" ").map((mark) => `${mark} ${start}`) : [];
      }),
    );
    expect(read.sort()).toEqual(told.map(({ mark, start }) => `${mark} ${start}`).sort());
  });
});

type Bounds = { x0: number; y0: number; x1: number; y1: number; fill: number | null };

/** The paths of a picture, each with the room it takes, moved as its group is. */
const pathsIn = (shapes: readonly Shape[], dx = 0, dy = 0): Bounds[] =>
  shapes.flatMap((shape): Bounds[] => {
    if (shape.kind === "group") return pathsIn(shape.shapes, dx + shape.move[0], dy + shape.move[1]);
    if (shape.kind !== "path") return [];
    const points = shape.steps.flatMap((step) => ("at" in step ? [step.at] : []));
    const [xs, ys] = [points.map(([x]) => x + dx), points.map(([, y]) => y + dy)];
    return [{ x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys), fill: shape.fill }];
  });

const JOBS = [...SETS, ...["doors-solid", "drawers-face-frame"].map((name) => [name, setOf(testFile(name))] as const)];

describe.each(JOBS)("each picture of %s agrees with its row's words, left and right parts alike", (_name, set) => {
  it.each([
    [38, 32.5],
    [38, 57],
    [54, 40],
  ])(
    "%d high and %d wide: figures and names clear of what is drawn, each block beyond the part named",
    (high, wide) => {
      for (const setting of set.settings)
        for (const pass of passesOf(set, setting)) {
          const part = set.parts.find(({ mark }) => mark === pass.mark)!;
          const { shapes, height } = drawSettingPicture(setting, part, pass, set.job.unit, { wide, high });
          // The caption may be set in more lines than the narrowest pictures have room for beside their neighbour.
          const room = { x: -3, y: -1, width: wide + 6, height: height + 2 };
          const where = `setting ${setting.n}, part ${part.mark}`;
          expect(faultsOn(paintedOn({ shapes }), room, 2.5), where).toEqual([]);
          const named = textBoxes(shapes).filter(({ text }) => text === "block").length;
          // A block on the part itself, where the words give its place, may have no free wood beside it.
          const beyond = pass.stops.filter(({ block }) => block < 0).length;
          expect(named, where).toBeLessThanOrEqual(pass.stops.length);
          expect(named, where).toBeGreaterThanOrEqual(
            setting.tool === "router" ? beyond : Math.min(1, pass.stops.length),
          );
        }
    },
  );

  it.each([38, 54])("at a height of %d", (high) => {
    const seen = { left: 0, right: 0 };
    for (const setting of set.settings)
      for (const pass of passesOf(set, setting)) {
        const part = set.parts.find(({ mark }) => mark === pass.mark)!;
        const { shapes } = drawSettingPicture(setting, part, pass, set.job.unit, { wide: 50, high });
        const paths = pathsIn(shapes);
        const [box] = paths as [Bounds]; // the part is drawn first, all else over it or beside it
        const band = paths.find(({ fill }) => fill === 0.85)!;
        const texts = textBoxes(shapes);
        const where = `setting ${setting.n}, part ${part.mark}`;
        // Over it: whose it is, and which end goes first, worked out from directions in the piece.
        const first = expectedFirst(part, setting, pass);
        const caption = texts.map(({ text }) => text).join(" ");
        expect(caption, where).toContain(wordsFor(part, first));
        expect(caption, where).toContain(setting.tool === "router" ? "far" : "first");
        // The datum is named on the side that the words give it.
        const isRight =
          setting.tool === "router" ? setting.straightedge!.near > setting.fence : setting.side === "right";
        seen[isRight ? "right" : "left"] += 1;
        const datum = texts.filter(
          ({ text, x0, x1, y0, y1 }) => text === wordsFor(part, pass.datum) && y1 - y0 > x1 - x0,
        );
        expect(datum, where).toHaveLength(1);
        expect((datum[0]!.x0 + datum[0]!.x1) / 2 > (box.x0 + box.x1) / 2, where).toBe(isRight);
        // The cut lies as far from it as the figure says, in the part's own proportion, as far as it can be drawn so narrow.
        const [cross, along] = [
          pass.datum[0],
          ["l", "w", "t"].find((one) => one !== pass.datum[0] && one !== pass.face[0]),
        ];
        const sizeOn = (axis: string | undefined): number =>
          ({ l: part.length, w: part.width, t: part.thickness })[axis as "l" | "w" | "t"];
        const shown = (isRight ? box.x1 - band.x1 : band.x0 - box.x0) / (box.x1 - box.x0);
        const wanted = setting.sacrificial ? 0 : setting.fence / sizeOn(cross);
        expect(Math.abs(shown - wanted), where).toBeLessThan(0.1);
        // It stops short of the end that the row names, seen from the operator.
        const later = (end: 0 | 1): number => lippedLater(part, `${along}${end}` as Face);
        const whole = sizeOn(along) - later(0) - later(1);
        for (const { edge, leave } of pass.stops) {
          const gap = edge === first ? band.y0 - box.y0 : box.y1 - band.y1;
          expect(gap / (box.y1 - box.y0), `${where}, ${edge}`).toBeCloseTo(leave / whole, 2);
        }
        for (const end of [0, 1] as const) {
          const edge = `${along}${end}`;
          if (pass.stops.some((one) => one.edge === edge)) continue;
          const gap = edge === first ? band.y0 - box.y0 : box.y1 - band.y1;
          expect(Math.abs(gap), `${where}, ${edge}`).toBeLessThan(1e-6);
        }
      }
    expect(seen.left + seen.right).toBeGreaterThan(0);
  });
});

const WHOLE = { from: 0, to: 304.8, stopped: false, stops: [], board: false, notes: [] };

describe("how a part lies", () => {
  const set = setOf(testFile("example-a-in"));
  const part = (name: string): SetPart => set.parts.find((one) => one.name === name)!;
  const saw = { ...set.settings[0]!, tool: "table saw", straightedge: null } as SetSetting;
  const lie = (name: string, face: Face, datum: Face, side: "left" | "right" = "right") => {
    const of = part(name);
    const { right, away, datumSide } = lieOf(
      of,
      { ...saw, side },
      { ...WHOLE, mark: of.mark, feature: 0, face, datum },
    );
    return { right, away, datumSide };
  };

  // Worked with a card in the hand: front edge, back edge, inside and bottom written on it.
  it("puts the left side's front edge first with its inside down and its bottom end to the right", () => {
    expect(lie("left side", "t0", "l0")).toEqual({ right: "l0", away: "w0", datumSide: "right" });
  });

  it("puts the right side's back edge first: its mirror image", () => {
    expect(lie("right side", "t1", "l0")).toEqual({ right: "l0", away: "w1", datumSide: "right" });
  });

  it("turns the left side round where the fence stands on the left: its back edge goes first", () => {
    expect(lie("left side", "t0", "l0", "left")).toEqual({ right: "l1", away: "w1", datumSide: "left" });
  });

  it("keeps the straightedge on the router's left, on either side of the groove", () => {
    const of = part("left side");
    const run = { ...WHOLE, mark: of.mark, feature: 0, face: "t0" as const, datum: "l0" as const };
    const router = (near: number): SetSetting => ({
      ...saw,
      tool: "router",
      fence: 300,
      straightedge: { base: 160, ahead: 80, bit: 12, near, far: null, spacer: 0 },
    });
    expect(lieOf(of, router(230), run)).toMatchObject({ up: "t0", right: "l1", datumSide: "left" });
    expect(lieOf(of, router(380), run)).toMatchObject({ up: "t0", right: "l0", datumSide: "right" });
  });
});

describe("the stop block in a picture", () => {
  const set = setOf(exampleFile("ware-bookcase"));
  const setting = set.settings.find(({ runs }) => runs.every(({ stops }) => stops[0]?.edge === "w0"))!;
  const passes = passesOf(set, setting);
  const blockOf = (pass: Pass): { top: number; bottom: number }[] => {
    const part = set.parts.find(({ mark }) => mark === pass.mark)!;
    const { shapes } = drawSettingPicture(setting, part, pass, "mm", { wide: 50, high: 38 });
    return shapes.flatMap((shape) => {
      if (shape.kind !== "path" || shape.fill !== 0.25) return [];
      const ys = shape.steps.flatMap((step) => ("at" in step ? [step.at[1]] : []));
      const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
      return Math.abs(bottom - top - 2) < 1e-6 ? [{ top, bottom }] : [];
    });
  };

  it("is where the cut ends: at the far edge of a part whose front goes first, at the near one of its mate", () => {
    const [left, right] = passes.map((pass) => ({ pass, blocks: blockOf(pass) }));
    for (const { pass, blocks } of [left!, right!]) {
      expect(blocks).toHaveLength(1);
      const part = set.parts.find(({ mark }) => mark === pass.mark)!;
      const isFar = lieOf(part, setting, pass).away === pass.stops[0]!.edge;
      expect(blocks[0]!.bottom < 19).toBe(isFar);
    }
    expect(left!.blocks[0]!.bottom < 19).not.toBe(right!.blocks[0]!.bottom < 19);
  });

  it("is not there where nothing stops", () => {
    expect(blockOf({ ...passes[0]!, stops: [] })).toEqual([]);
  });
});

describe("grooves in one line", () => {
  it("are one pass and one row, whatever they hold", () => {
    const sided = setOf(testFile("stretchers"));
    const [front, rear] = ["front stretcher", "rear stretcher"].map(
      (name) => sided.parts.find((one) => one.name === name)!.mark,
    );
    const setting = sided.settings.find(({ holds }) => holds.includes(front!))!;
    expect(setting.holds).toContain(rear);
    expect(setting.runs).toHaveLength(4);
    // Both rabbets of a side stop where the front one does, 12 short of the front edge.
    for (const { stops } of setting.runs) expect(stops.map(({ edge, leave }) => [edge, leave])).toEqual([["w0", 12]]);
    expect(passesOf(sided, setting).map(({ from, to }) => [from, to])).toEqual([
      [12, 300],
      [12, 300],
    ]);
  });
});
