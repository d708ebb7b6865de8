/** The checks on wood, stock and tools: webs, cross-grain joints, reach, look-alikes, standards; and how they stand on paper. */
import { describe, expect, it } from "vitest";
import { lengthOf } from "../../src/base/parse-length.ts";
import { typeset } from "../../src/drawings/draughting/typeset.ts";
import { drawChecks } from "../../src/drawings/lists/checks.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { checkAlike } from "../../src/plans/checks/alike.ts";
import { checkCrossGrain } from "../../src/plans/checks/cross-grain.ts";
import { checkLayouts, planChecks } from "../../src/plans/checks/index.ts";
import type { CheckInput } from "../../src/plans/checks/input.ts";
import { checkReadings } from "../../src/plans/checks/readings.ts";
import { checkTools } from "../../src/plans/checks/tools.ts";
import { checkThirds, checkWebs } from "../../src/plans/checks/web.ts";
import { readShop } from "../../src/project/shop/shop.ts";
import { looksAlike } from "../../src/set/hand.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import birch from "../reference/panel-thickness-birch.json" with { type: "json" };
import structural from "../reference/panel-thickness-ps1.json" with { type: "json" };
import tolerances from "../reference/panel-tolerances.json" with { type: "json" };
import moisture from "../reference/wood-dimensional-change.json" with { type: "json" };
import { byId, caseJob, checkInputOf } from "../support/jobs/check-input.ts";
import { EXAMPLES, exampleFile, projectOf, setOf, testFile } from "../support/jobs/examples.ts";

const INCH = 25.4;

/** The same input with one part's features as given. */
function withFeatures(input: CheckInput, mark: string, features: SetFeature[]): CheckInput {
  return { ...input, parts: input.parts.map((part) => (part.mark === mark ? { ...part, features } : part)) };
}

describe("webs", () => {
  const input = checkInputOf(caseJob([600, 800, 300], { bays: { rows: [{}, {}] } }));
  const side = input.parts.find(({ role }) => role === "side")!;
  const groove = side.features.find(({ along, kind }) => along === "w" && kind === "groove")!;
  const shelf = groove.holds!;
  /** A groove across the side, its lower wall at `at`. */
  const across = (at: number, depth: number, more: Partial<SetFeature> = {}): SetFeature => ({
    ...groove,
    at,
    depth,
    box: [
      [at, groove.from, groove.face === "t0" ? 0 : side.thickness - depth],
      [at + groove.width, groove.to, groove.face === "t0" ? depth : side.thickness],
    ],
    ...more,
  });
  const opposite = (at: number, depth: number, more: Partial<SetFeature> = {}): SetFeature => ({
    ...across(at, depth, more),
    face: groove.face === "t0" ? "t1" : "t0",
  });
  const found = (features: SetFeature[]): string[] =>
    byId(checkWebs(withFeatures(input, side.mark, features)), "web", "warning").map(({ text }) => text);
  const third = 17.6 / 3;

  it("of a sound case are told by the thinnest", () => {
    const [check, ...rest] = checkWebs(input);
    expect(rest).toEqual([]);
    const least = Math.min(
      ...input.parts.flatMap((part) =>
        part.features
          .filter(({ face, kind }) => face.startsWith("t") && kind !== "notch")
          .map(({ depth }) => (part.thickness - depth) / part.thickness),
      ),
    );
    expect(check!.text).toContain(`${Math.round(100 * least)} % of the thickness`);
  });

  it("under a groove are at least a third", () => {
    expect(found([across(300, 17.6 - third - 0.01)])).toEqual([]);
    expect(found([across(300, 17.6 - third + 0.1)])).toEqual([
      `Left side ${side.mark} keeps 5.77 mm under the groove for ${shelf}; a third would be 5.87 mm.`,
    ]);
  });

  it("between grooves back to back count both depths, wherever they overlap or pass close by", () => {
    const half = 17.6 / 2;
    expect(found([across(300, third), opposite(300, third)])).toEqual([]);
    expect(found([across(300, third), opposite(300, third + 0.1)])[0]).toContain(
      `keeps 5.77 mm between the groove for ${shelf} and the groove for ${shelf} on its two faces (5.87 mm and 5.97 mm deep of 17.6 mm)`,
    );
    const beyond = 300 + groove.width + half;
    expect(found([across(300, 8), opposite(beyond - 0.1, 8)])).toHaveLength(1);
    expect(found([across(300, 8), opposite(beyond + 0.1, 8)])).toEqual([]);
    // Two that go right through each other leave nothing, not a web below nothing.
    expect(found([across(300, 9), opposite(300, 9)])[0]).toContain("keeps nothing between");
  });

  it("between holes and what stands behind them count the same", () => {
    const hole = (at: number, depth: number): SetFeature => {
      const one = opposite(at, depth, { kind: "hole", holds: null, row: "R1" });
      return {
        ...one,
        width: 5,
        from: 37,
        to: 42,
        box: [
          [at, 37, one.box[0][2]],
          [at + 5, 42, one.box[1][2]],
        ],
      };
    };
    expect(found([across(300, 8), hole(305, 3)])).toEqual([]);
    expect(found([across(300, 8), hole(305, 8)])[0]).toContain("between the groove for");
    expect(found([across(300, 8), hole(305, 8)])[0]).toContain("and a row of holes on its two faces");
  });

  it("beside a groove are at least half a thickness, to the next groove and to the end", () => {
    const next = 300 + groove.width;
    expect(found([across(300, 8), across(next + 8.4, 8)])).toEqual([]);
    expect(found([across(300, 8), across(next + 8.2, 8)])[0]).toContain("has only 8.2 mm of wood between");
    expect(found([across(8.2, 8)])[0]).toContain("and its own end, where half its thickness is 8.8 mm");
    expect(found([across(8.4, 8)])).toEqual([]);
    // Beside each other in height only: they run past each other without meeting.
    expect(found([across(300, 8, { from: 0, to: 100 }), across(next + 2, 8, { from: 150, to: 290 })])).toEqual([]);
  });

  it("are not asked of a corner left open for a lipping, or of a notch", () => {
    expect(found([across(300, 17, { kind: "notch" }), across(400, 17, { lipping: true })])).toEqual([]);
  });

  it("count no corner where a tongue's shoulder meets the groove for a back, but how thick the tongue is", () => {
    const shoulder = (depth: number): SetFeature => opposite(0, depth, { kind: "shoulder", at: 0 });
    expect(found([across(12, 6), shoulder(8.8)])).toEqual([]);
    expect(found([across(30, 6), shoulder(12)])[0]).toContain("keeps 5.6 mm under the shoulder of its tongue");
  });

  it("shared out as thirds are told, with the marks of both parts", () => {
    const pair = checkInputOf(
      caseJob([900, 800, 300], { bays: { columns: [{ rows: [{}, {}] }, { rows: [{}, {}] }] } }),
    );
    const [check] = checkThirds(pair);
    const divider = pair.parts.find(({ role }) => role === "divider")!;
    const shelves = pair.parts.filter(({ role }) => role === "shelf").map(({ mark }) => mark);
    expect(check!.parts).toEqual([divider.mark, ...shelves]);
    expect(check!.text).toContain(
      `Back to back in divider ${divider.mark} stand ${shelves.join(" and ")}: each goes 5.8 mm deep`,
    );
    expect(byId(checkWebs(pair), "web", "warning")).toEqual([]);
  });
});

describe("cross-grain joints", () => {
  const rows = { bays: { rows: [{}, {}] } };
  const solid = {
    stock: {
      "ply-18mm": { measured: 17.6 },
      "ply-6mm": { measured: 5.7 },
      board: {
        name: "Edge-glued board",
        nominal: 18,
        measured: 17.8,
        sheet: { length: 2400, width: 600 },
        solid: true,
        density: 500,
      },
    },
  };

  it("of plywood alone there are none, and the check says what it looked at", () => {
    const [check, ...rest] = checkCrossGrain(checkInputOf(caseJob([600, 800, 300], rows)));
    expect(rest).toEqual([]);
    expect([check!.level, check!.text]).toEqual(["ok", expect.stringContaining("every part is plywood")]);
  });

  it("of a solid shelf housed in plywood sides are found, with width and movement", () => {
    const input = checkInputOf(
      caseJob([600, 800, 300], { ...rows, stock: { all: "ply-18mm", back: "ply-6mm", shelf: "board" } }, solid),
    );
    const shelf = input.parts.find(({ role }) => role === "shelf")!;
    const found = checkCrossGrain(input);
    expect(found.map(({ level, parts }) => [level, ...parts])).toEqual(
      input.parts.filter(({ role }) => role === "side").map(({ mark }) => ["warning", shelf.mark, mark]),
    );
    // Width by the coefficient and four points of moisture.
    expect(found[0]!.text).toContain(
      `over ${shelf.width} mm: it moves about ${(shelf.width * 0.003 * 4).toFixed(2).replace(/0$/, "")} mm`,
    );
  });

  it("of solid sides, shelf, bottom and top there are none: all move from front to back alike", () => {
    const input = checkInputOf(caseJob([600, 800, 300], { ...rows, stock: { all: "board", back: "ply-6mm" } }, solid));
    expect(checkCrossGrain(input).map(({ level }) => level)).toEqual(["ok"]);
    // A back that is screwed on holds them still.
    const applied = checkInputOf(
      caseJob([600, 800, 300], { ...rows, back: { fit: "applied" }, stock: { all: "board", back: "ply-6mm" } }, solid),
    );
    expect(
      checkCrossGrain(applied).some(
        ({ level, text }) => level === "warning" && text.includes("fixed across its grain to back"),
      ),
    ).toBe(false);
  });

  it("of narrow strips are no harm, and of a kick as wide as a hand are", () => {
    const kick = (up: number): string[] =>
      checkCrossGrain(
        checkInputOf(
          caseJob(
            [600, 800, 300],
            { bottom: { up }, kick: {}, stock: { all: "ply-18mm", back: "ply-6mm", kick: "board" } },
            solid,
          ),
        ),
      ).map(({ level }) => level);
    expect([kick(70), new Set(kick(100))]).toEqual([["ok"], new Set(["warning"])]);
  });

  it("reckon with a coefficient between those of cabinet woods", () => {
    const cabinet = ["Ash, white", "Birch, yellow", "Cherry, black", "Maple, sugar", "Walnut, black"];
    const flat = moisture.rows.filter(({ species }) => cabinet.includes(species)).map(({ CT }) => CT);
    expect(Math.min(...flat)).toBeLessThan(0.003);
    expect(Math.max(...flat)).toBeGreaterThan(0.003);
    expect(flat.reduce((sum, one) => sum + one, 0) / flat.length).toBeCloseTo(0.003, 4);
  });
});

describe("tools", () => {
  const input = checkInputOf(caseJob([600, 800, 300], { bottom: { up: 60 }, kick: {} }));
  const with_ = (saw: Partial<CheckInput["tooling"]["saw"]>): CheckInput => ({
    ...input,
    tooling: { ...input.tooling, saw: { ...input.tooling.saw, ...saw } },
  });
  const ids = (one: CheckInput): string[] => checkTools(one).map(({ id, level }) => `${id} ${level}`);
  const kick = input.parts.find(({ role }) => role === "kick")!;

  it("that reach all say so", () => {
    expect(ids(with_({ sled: 900 }))).toEqual(["tool-reach ok"]);
    expect(checkTools(with_({ sled: 900 }))[0]!.text).toContain(
      "Every part can be ripped at the fence and squared on the sled.",
    );
  });

  it("name what is too narrow, too wide or too long for them, to the tenth of a millimetre", () => {
    expect(ids(with_({ sled: 900, narrowest: kick.width }))).toEqual(["tool-reach ok"]);
    const [narrow] = checkTools(with_({ sled: 900, narrowest: kick.width + 0.1 }));
    expect([narrow!.id, narrow!.level, narrow!.parts]).toEqual(["tool-narrow", "warning", [kick.mark]]);
    const widest = Math.max(...input.parts.map(({ cut }) => Math.min(cut.length, cut.width)));
    expect(ids(with_({ sled: 900, rip: widest - 0.1 }))).toContain("tool-wide note");
    expect(ids(with_({ sled: 900, rip: widest }))).not.toContain("tool-wide note");
    const longest = Math.max(...input.parts.map(({ cut }) => Math.max(cut.length, cut.width)));
    expect(ids(with_({ sled: longest - 0.1 }))).toContain("tool-long note");
    expect(ids(with_({ sled: longest }))).not.toContain("tool-long note");
  });

  it("that a setting asks too much of fail it", () => {
    const covered = checkInputOf(caseJob([600, 800, 300], { edges: { front: "covered" } }));
    const saw = covered.settings.find(({ tool }) => tool === "table saw")!;
    const router = input.settings.find(({ tool }) => tool === "router")!;
    const edit = (settings: CheckInput["settings"]): string =>
      byId(checkTools({ ...input, settings }), "tool-reach", "failure")
        .map(({ text }) => text)
        .join();
    expect(edit(input.settings)).toBe("");
    const { rip, sled, dado } = input.tooling.saw;
    expect(edit([{ ...saw, carrier: "fence", fence: rip + 1 }])).toContain("and it reaches 762 mm");
    expect(edit([{ ...saw, width: dado.most + 0.1 }])).toContain("the grooving cutter is set from");
    expect(edit([{ ...router, depth: 33 }])).toContain("33 mm deep");
    expect(edit([{ ...router, cutter: "spoon bit" }])).toContain("no bit of the shop is called spoon bit");
    const { ripOther, stop } = input.tooling.saw;
    expect(edit([{ ...saw, carrier: "fence", fence: ripOther }])).toBe("");
    expect(edit([{ ...saw, carrier: "fence", side: "left", fence: ripOther }])).toBe("");
    expect(edit([{ ...saw, carrier: "fence", side: "left", fence: ripOther + 1 }])).toContain(
      "and it reaches 304.8 mm",
    );
    expect(edit([{ ...saw, carrier: "sled", fence: stop }])).toBe("");
    expect(edit([{ ...saw, carrier: "sled", fence: stop + 1 }])).toContain("stop at 915.4 mm, and it reaches 914.4 mm");
    const deep = input.tooling.saw.sledDepth;
    const wide = { ...input, parts: input.parts.map((part) => ({ ...part, width: deep + 1 })) };
    expect(
      byId(checkTools({ ...wide, settings: [{ ...saw, carrier: "sled" }] }), "tool-reach", "failure")[0]!.text,
    ).toContain("a part 610.6 mm wide along the cut, and the sled carries 609.6 mm");
    const long = {
      ...input,
      parts: input.parts.map((part) => ({ ...part, length: sled + 1, width: sled + 1 })),
      settings: [{ ...saw, carrier: "sled" as const }],
    };
    expect(byId(checkTools(long), "tool-reach", "failure")[0]!.text).toContain("and the sled carries 1219.2 mm");
  });

  it("say which glued-up boards are wider than planer and jointer take", () => {
    const solid = { ...input, stock: input.stock.map((one) => ({ ...one, solid: true })) };
    const at = (planer: number, jointer: number): string[] =>
      checkTools({ ...solid, tooling: { ...input.tooling, planer, jointer } })
        .filter(({ id }) => id === "tool-planer" || id === "tool-jointer")
        .map(({ id, level }) => `${id} ${level}`);
    const widest = Math.max(...input.parts.map(({ width }) => width));
    expect(at(widest, widest)).toEqual([]);
    expect(at(widest - 0.1, widest)).toEqual(["tool-planer note"]);
    expect(at(widest, widest - 0.1)).toEqual(["tool-jointer note"]);
    expect(checkTools(input).some(({ id }) => id === "tool-planer")).toBe(false);
  });

  it("are held against the rips of the layouts, not against trims and crosscuts", () => {
    const set = setOf(exampleFile(EXAMPLES[1]));
    const { tooling } = input;
    const at = (rip: number) =>
      byId(checkLayouts({ ...set, unit: "mm", tooling: { ...tooling, saw: { ...tooling.saw, rip } } }), "layout-reach");
    const rips = set.sheets[0]!.cuts.filter(
      ({ across, piece, makes }) =>
        across === "y" && piece === "S1" && !(makes.includes("waste") && makes.includes(piece)),
    );
    const farthest = Math.max(...rips.map(({ fence }) => fence));
    expect(at(farthest).some(({ text }) => text.includes("sheet 1"))).toBe(false);
    const numbers = rips.filter(({ fence }) => fence > farthest - 1).map(({ n }) => n);
    expect(at(farthest - 1)[0]!.text).toMatch(new RegExp(`^Rips? ${numbers.join(", ")} of sheet 1`));
  });
});

describe("look-alikes", () => {
  const shape = (length: number, width: number, features: SetFeature[] = []): SetPart => ({
    ...setOf(testFile("plain-box")).parts[0]!,
    length,
    width,
    features,
  });

  it("are alike but for less than a quarter inch in either size, and not the same", () => {
    const alike = (length: number, width: number): boolean => looksAlike(shape(600, 300), shape(length, width));
    expect([alike(606.3, 300), alike(600, 293.7), alike(606.4, 300), alike(600, 293.6)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(alike(600, 300)).toBe(false);
  });

  it("say what tells them apart, and that parts made alike are none", () => {
    const checks = checkAlike(
      checkInputOf(caseJob([600, 800, 300], { bays: { rows: [{ size: 200 }, { size: 150 }, {}] } })),
    );
    const sides = checks.find(({ text }) => text.startsWith("Left side"))!;
    expect(sides.text).toMatch(/2 is the mirror image of 1\./);
    const shelves = checks.find(({ text }) => text.includes("shelf"))!;
    // Bottom and top panel run to the rear, the shelves to the back.
    expect(shelves).toBeUndefined();
    const same = checkAlike(
      checkInputOf(caseJob([600, 800, 300], { bays: { rows: [{}, {}, { columns: [{}, {}] }] } })),
    ).map(({ text }) => text);
    expect(same.some((text) => /Made alike, and either will do/.test(text))).toBe(false);
  });

  it("are named with the difference in size", () => {
    const set = setOf(exampleFile("wedging-pair"));
    const texts = byId(set.checks, "look-alike").map(({ text }) => text);
    const [text] = texts.filter((one) => one.includes("narrower"));
    const [, mark, by, than] = /(\d+) is ([\d.]+) mm narrower than (\d+)/.exec(text!)!;
    const width = (of: string): number => set.parts.find((part) => part.mark === of)!.width;
    expect(width(than!) - width(mark!)).toBeCloseTo(Number(by), 2);
    expect(text).toMatch(/Made alike, and either will do: (\d+, )*\d+ and \d+/);
  });

  it("of a job without any are said to be none", () => {
    const input = checkInputOf(caseJob([600, 800, 300]));
    const none = { ...input, parts: input.parts.map((part) => ({ ...part, alike: [] })) };
    expect(checkAlike(none).map(({ level }) => level)).toEqual(["ok"]);
  });
});

describe("readings", () => {
  const { entries } = readShop("shared").stock;

  it("are held against the limits of the standards", () => {
    const sanded = tolerances.rows.find(({ standard }) => standard.startsWith("EN 315"))!;
    expect(sanded.rule).toBe("+(0.2 + 0.03 t) / -(0.4 + 0.03 t) mm");
    const under = tolerances.rows.find(({ standard }) => standard.startsWith("hardwood plywood"))!;
    expect(under.rule).toContain("-3/64 in");
    for (const [id, { nominal, limits, boards }] of Object.entries(entries)) {
      if (boards !== undefined) continue;
      const t = lengthOf(nominal!, "mm");
      const [least, most] = [lengthOf(limits!.least, "mm"), lengthOf(limits!.most, "mm")];
      if (id.startsWith("birch")) {
        const row = birch.rows.find(({ nominal_mm }) => nominal_mm === t)!;
        expect([id, least, most]).toEqual([id, row.min_mm, row.max_mm]);
      } else if (id.endsWith("mm")) {
        expect([least, most]).toEqual([expect.closeTo(t - 0.4 - 0.03 * t, 6), expect.closeTo(t + 0.2 + 0.03 * t, 6)]);
      } else {
        const row = structural.rows.find(
          ({ performance_category }) => lengthOf(`${performance_category} in`, "mm") === t,
        )!;
        expect([least / INCH, most / INCH]).toEqual([
          expect.closeTo(t / INCH - 3 / 64, 3),
          expect.closeTo(row.max_in, 3),
        ]);
        expect(least).toBeLessThan(row.min_in * INCH);
      }
    }
  });

  it("outside are noted with the standard's name, inside are not", () => {
    const read = (measured: number[]) =>
      byId(
        checkReadings(
          checkInputOf(
            caseJob([600, 800, 300], {}, { stock: { "ply-18mm": { measured }, "ply-6mm": { measured: 5.7 } } }),
          ),
        ),
        "stock-standard",
      );
    expect(read([17.1, 17.06, 18.74])).toEqual([]);
    const [check] = read([17.05, 17.6]);
    expect([check!.level, check!.text]).toEqual([
      "note",
      "18 mm plywood was measured at 17.05 mm; its standard allows 17.06 to 18.74 mm.",
    ]);
    expect(check!.rule).toContain("EN 315:2000");
  });

  it("are not held against the standard of another thickness, or of a stock of the job's own", () => {
    const own = caseJob(
      [600, 800, 300],
      {},
      { stock: { "ply-18mm": { nominal: 20, measured: 19.6 }, "ply-6mm": { measured: 5.7 } } },
    );
    const input = checkInputOf(own);
    expect(input.stock[0]).toMatchObject({ limits: null, stiffness: { along: 6550 } });
    expect(byId(checkReadings(input), "stock-standard")).toEqual([]);
  });
});

describe("on paper", () => {
  it.each(EXAMPLES)("every check of %s says its rule, and every one that is not passed what to change", (name) => {
    const input = checkInputOf(projectOf(exampleFile(name)));
    for (const { id, level, text, rule, change } of planChecks(input)) {
      expect([id, text.length > 0, rule === null]).toEqual([id, true, false]);
      expect([id, change === null]).toEqual([id, level === "ok"]);
      expect(`${text} ${rule} ${change}`).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it.each(["A4", "Letter", "A3"])(
    "a rule stands once, on %s, and each row gives its number and what to change",
    (paper) => {
      const set = setOf(exampleFile(EXAMPLES[0]));
      const drawn = drawChecks(onPaper(set, paper))
        .flatMap(({ shapes }) => wordsIn(shapes))
        .join(" ");
      const told = ["failure", "warning", "note", "ok"].flatMap((level) =>
        set.checks.filter((check) => check.level === level),
      );
      const rules = [...new Set(told.flatMap(({ rule }) => rule ?? []))];
      expect(rules.length).toBeGreaterThan(8);
      rules.forEach((rule, i) => {
        expect([rule, drawn.split(`${i + 1} ${typeset(rule)}`).length - 1]).toEqual([rule, 1]);
      });
      for (const { text, change, rule } of told) {
        const number = rule === null ? "" : ` ${rules.indexOf(rule) + 1}`;
        expect(drawn).toContain(typeset(`${text}${change === null ? "" : ` ${change}`}${number}`));
      }
    },
  );
});

/** Every line of text in the order it is drawn in. */
const wordsIn = (shapes: readonly Shape[]): string[] =>
  shapes.flatMap((shape) =>
    shape.kind === "text" ? [shape.text] : shape.kind === "group" ? wordsIn(shape.shapes) : [],
  );

function onPaper(set: DryfitSet, name: string): DryfitSet {
  const [short, long] = { A4: [210, 297], A3: [297, 420], Letter: [8.5 * INCH, 11 * INCH] }[name]!;
  return { ...set, paper: { ...set.paper, drawings: { name, width: long!, height: short! } } };
}
