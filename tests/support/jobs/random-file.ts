/**
 * Random project files, as a maker would write them: every base, back, top, joint and stop, both units, several steps, nested bays, one
 * case or two. They go through the reader like any other file. Most can be made; those that cannot must be refused for a known reason.
 */
import fc from "fast-check";
import { MM_PER_INCH, type Mm, type Unit } from "../../../src/base/length.ts";

type Json = string | number | boolean | null | Json[] | { [key: string]: Json | undefined };
type Data = { [key: string]: Json | undefined };

/** A length as it stands in the file: whole millimetres, or whole sixteenths of an inch near them. */
const lengthIn =
  (unit: Unit) =>
  (mm: Mm): number =>
    unit === "mm" ? mm : Math.max(1, Math.round((mm / MM_PER_INCH) * 16)) / 16;

/** The same figure for a file in the other unit: spelt with its own unit, so that nothing is converted by hand. */
export function inOtherUnit(file: Data): Data {
  const unit = file.unit as Unit;
  const spell = (value: Json | undefined, key: string): Json | undefined => {
    if (typeof value === "number") return COUNTS.has(key) ? value : `${value} ${unit}`;
    if (Array.isArray(value)) return value.map((one) => spell(one, key)!);
    if (typeof value === "object" && value !== null) return spellAll(value as Data);
    return value;
  };
  const spellAll = (data: Data): Data => Object.fromEntries(Object.entries(data).map(([k, v]) => [k, spell(v, k)]));
  return { ...spellAll(file), unit: unit === "mm" ? "in" : "mm" };
}

/** Numbers that are no lengths. */
const COUNTS = new Set(["loose", "share", "goodFaces", "density", "quantity"]);

const STEPS = ["0.1 mm", "0.5 mm", "1/64 in", "1/32 in", "1/16 in"];

const tree = (depth: number): fc.Arbitrary<Data> =>
  depth === 0
    ? leaf
    : fc.oneof(
        { weight: 3, arbitrary: leaf },
        {
          weight: 4,
          arbitrary: fc
            .tuple(
              fc.constantFrom("columns", "rows"),
              fc.array(fc.tuple(fc.integer({ min: 2, max: 4 }), tree(depth - 1)), { minLength: 2, maxLength: 3 }),
            )
            .map(([kind, list]): Data => ({ [kind]: list.map(([share, bay]) => ({ ...bay, share })) })),
        },
      );

const leaf: fc.Arbitrary<Data> = fc.oneof(
  { weight: 5, arbitrary: fc.constant({}) },
  { weight: 1, arbitrary: fc.constantFrom(1, 1, 1, 2).map((loose) => ({ loose })) },
);

/** Given in one of so many. */
const maybe = <T>(arbitrary: fc.Arbitrary<T>, oneIn: number): fc.Arbitrary<T | undefined> =>
  fc.oneof({ weight: oneIn - 1, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary });

const edge = fc.constantFrom("shows", "covered");

/** One joint in place of the table's, for a pair of roles that most cases have. */
const jointChoice = (size: (mm: Mm) => number): fc.Arbitrary<Data> =>
  fc
    .record({
      pair: fc.constantFrom(["bottom", "side"], ["top", "side"], ["shelf", "side"], ["divider", "bottom"]),
      joint: fc.oneof(
        fc.record({ kind: fc.constant("housed"), depth: fc.integer({ min: 4, max: 8 }).map(size) }),
        fc.record({ kind: fc.constant("housed"), leave: fc.integer({ min: 10, max: 13 }).map(size) }),
        fc.record({ kind: fc.constant("tongue"), tongue: maybe(fc.integer({ min: 6, max: 10 }).map(size), 2) }),
        fc.record({ kind: fc.constant("butt"), fixing: fc.constantFrom("glue", "screws", "dowels") }),
      ),
    })
    .map(({ pair, joint }): Data => ({ entering: pair[0]!, receiving: pair[1]!, ...joint }));

const base = (size: (mm: Mm) => number): fc.Arbitrary<Data> => {
  const height = fc.integer({ min: 50, max: 120 }).map(size);
  const setBack = fc.integer({ min: 30, max: 60 }).map(size);
  return fc.oneof(
    { weight: 3, arbitrary: fc.constant({}) },
    { weight: 2, arbitrary: height.map((up): Data => ({ bottom: { up } })) },
    {
      weight: 2,
      arbitrary: fc
        .tuple(height, setBack, fc.constantFrom("between", "applied"))
        .map(([up, toe, fit]): Data => ({ bottom: { up }, kick: { fit, setBack: toe } })),
    },
    {
      weight: 2,
      arbitrary: fc
        .tuple(height, setBack, fc.integer({ min: 5, max: 20 }).map(size))
        .map(([high, toe, inset]): Data => ({ plinth: { height: high, setBack: toe, inset } })),
    },
    { weight: 2, arbitrary: fc.constant({ bottom: { fit: "under" } }) },
  );
};

const top = (size: (mm: Mm) => number): fc.Arbitrary<Data> =>
  fc.oneof(
    { weight: 3, arbitrary: fc.constant({}) },
    { weight: 2, arbitrary: fc.integer({ min: 15, max: 40 }).map((down): Data => ({ top: { down: size(down) } })) },
    { weight: 2, arbitrary: fc.constant({ top: { fit: "over" } }) },
    {
      weight: 1,
      arbitrary: fc
        .integer({ min: 60, max: 90 })
        .map((width): Data => ({ top: { fit: "stretchers", width: size(width) } })),
    },
    {
      weight: 1,
      arbitrary: fc.integer({ min: 40, max: 70 }).map((fillers): Data => ({ top: { fillers: size(fillers) } })),
    },
  );

const back = (size: (mm: Mm) => number): fc.Arbitrary<Data> =>
  fc
    .record({
      fit: fc.constantFrom("captured", "captured", "rabbeted", "applied", "none"),
      setIn: fc.integer({ min: 12, max: 25 }).map(size),
      grain: fc.constantFrom("upright", "level"),
      houses: fc.boolean(),
      sections: fc.boolean(),
    })
    .map(({ fit, setIn, grain, houses, sections }): Data => {
      if (fit === "none") return { fit };
      return { fit, grain, ...(fit === "captured" ? { setIn } : {}), ...(houses ? { houses } : {}), sections };
    });

const lipping = (size: (mm: Mm) => number): fc.Arbitrary<Data> =>
  fc.record({
    name: fc.constantFrom("ash strip", "veneer band"),
    kind: fc.constantFrom("strip", "band"),
    thickness: fc.integer({ min: 2, max: 10 }).map(size),
    lipped: fc.constantFrom("before", "after"),
    parts: fc.constantFrom(["shelf"], ["side", "bottom", "top", "divider", "shelf"], ["side", "top"]),
  });

const caseData = (unit: Unit): fc.Arbitrary<Data> => {
  const size = lengthIn(unit);
  return fc
    .record({
      width: fc.integer({ min: 600, max: 1500 }).map(size),
      height: fc.integer({ min: 600, max: 2000 }).map(size),
      depth: fc.integer({ min: 250, max: 600 }).map(size),
      base: base(size),
      top: top(size),
      back: back(size),
      edges: fc.record({ front: edge, back: edge, top: edge, bottom: edge }),
      lippings: maybe(lipping(size), 3),
      joints: fc.array(jointChoice(size), { maxLength: 2 }),
      tree: tree(2),
      finished: maybe(fc.constantFrom<string[]>(["side", "bottom"], ["divider", "shelf"]), 8),
      pins: fc.record({
        diameter: fc.integer({ min: 5, max: 6 }).map(size),
        depth: fc.integer({ min: 8, max: 10 }).map(size),
        pitch: fc.integer({ min: 25, max: 38 }).map(size),
        fromFront: fc.integer({ min: 30, max: 45 }).map(size),
        fromBack: fc.integer({ min: 30, max: 45 }).map(size),
        margin: fc.integer({ min: 40, max: 60 }).map(size),
        clearance: fc.constantFrom(1, 2).map(size),
      }),
    })
    .map((one): Data => {
      // A section needs a column, a lipping an edge that shows; the rest is left to the reader's judgement.
      const columns = "columns" in one.tree;
      const { sections, ...plainBack } = one.back;
      const fillers =
        one.top.top !== undefined && typeof one.top.top === "object" && "fillers" in (one.top.top as Data);
      return {
        name: "case",
        width: one.width,
        height: one.height,
        depth: one.depth,
        stock: { all: "thick", back: plainBack.houses === true ? "thick" : "thin" },
        ...one.base,
        ...one.top,
        // Panels that meet behind a divider cannot house it as well.
        back:
          columns && sections === true && (plainBack.fit === "captured" || plainBack.houses !== true)
            ? { ...plainBack, sections: true }
            : plainBack,
        edges: {
          ...one.edges,
          ...(one.lippings === undefined ? {} : { front: "shows" }),
          ...(fillers ? { top: "covered" } : {}),
        },
        ...(one.lippings === undefined ? {} : { lippings: [one.lippings] }),
        joints: one.joints.filter((joint) => fitsCase(joint, one.tree, one.top.top as Data | undefined, one.base)),
        ...(hasLoose(one.tree) ? { pins: one.pins } : {}),
        ...(one.finished === undefined || !one.finished.every((role) => hasRole(role, one.tree))
          ? {}
          : { finished: [one.finished] }),
        bays: one.tree,
      };
    });
};

const bays = (tree: Data): Data[] =>
  ((tree.columns ?? tree.rows ?? []) as Data[]).flatMap((bay) => [bay, ...bays(bay)]);
const hasLoose = (tree: Data): boolean => [tree, ...bays(tree)].some((bay) => bay.loose !== undefined);
const hasKind = (tree: Data, kind: "columns" | "rows"): boolean => [tree, ...bays(tree)].some((bay) => kind in bay);
const hasRole = (role: string, tree: Data): boolean =>
  role === "divider" ? hasKind(tree, "columns") : role === "shelf" ? hasKind(tree, "rows") : true;

/** Only pairs that meet in the case: a choice for parts that it does not have is a mistake of its own, planted elsewhere. */
function fitsCase(joint: Data, tree: Data, top: Data | undefined, base: Data): boolean {
  const isUnder = (base.bottom as Data | undefined)?.fit === "under";
  switch (joint.entering) {
    case "bottom":
      return !isUnder;
    case "top":
      return top === undefined || "down" in top || "fillers" in top;
    case "shelf":
      return "rows" in tree; // a shelf from side to side or to a divider, at least one meets a side
    default:
      return "columns" in tree;
  }
}

const readings = (nominal: Mm): fc.Arbitrary<number[]> =>
  fc
    .array(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 3 })
    .map((list) => list.map((under) => (nominal * 100 - under) / 100));

/** How a second case stands to the first. */
type Beside = "none" | "beside" | "shared" | "on top";

export type RandomFile = { data: Data; text: string };

export const randomFile: fc.Arbitrary<RandomFile> = fc
  .constantFrom<Unit>("in", "mm")
  .chain((unit) => {
    const size = lengthIn(unit);
    return fc.record({
      unit: fc.constant(unit),
      step: fc.constantFrom(...STEPS),
      thick: readings(18),
      thin: readings(6),
      depthRule: fc.oneof(
        fc.constant({}),
        fc.integer({ min: 5, max: 8 }).map((depth) => ({ depth: size(depth) })),
        fc.integer({ min: 10, max: 12 }).map((leave) => ({ leave: size(leave) })),
      ),
      backDepth: fc.integer({ min: 5, max: 8 }).map(size),
      setBack: fc.integer({ min: 10, max: 25 }).map(size),
      first: caseData(unit),
      second: caseData(unit),
      beside: fc.constantFrom<Beside>("none", "none", "none", "beside", "shared", "on top"),
      quantity: fc.constantFrom(1, 1, 2),
    });
  })
  .map(({ unit, step, thick, thin, depthRule, backDepth, setBack, first, second, beside, quantity }): RandomFile => {
    const mm = (value: Mm): string => `${value} mm`;
    const stock = (name: string, nominal: Mm, measured: number[]): Data => ({
      name,
      nominal: mm(nominal),
      measured: measured.map(mm),
      sheet: { length: mm(3050), width: mm(1525) },
      trim: mm(5),
      grain: false,
      goodFaces: 2,
    });
    const data: Data = {
      job: { number: "R-1", title: "Random case", date: "2026-11-20", revision: "A" },
      unit,
      step,
      stock: { thick: stock("thick plywood", 18, thick), thin: stock("thin plywood", 6, thin) },
      // Every figure whose default depends on the unit is given, so that a file means the same in both.
      joinery: { ...depthRule, backDepth, setBack, allowance: mm(0.1), slip: mm(0.8) },
      cases: casesOf(first, second, beside, quantity),
    };
    return { data, text: JSON.stringify(data, null, 1) };
  });

function casesOf(first: Data, second: Data, beside: Beside, quantity: number): Data[] {
  const rest: Data = { ...second, name: "second" };
  switch (beside) {
    case "none":
      return [quantity === 1 ? first : { ...first, quantity }];
    case "beside":
      return [first, rest];
    case "shared": {
      // One floor, one front, one height and depth: the shared side is there wherever the second case enters it.
      const { plinth: _plinth, ...standing } = rest;
      const { plinth: _own, ...lender } = first;
      const between = (one: Data): Data =>
        (one.top as Data | undefined)?.fit === "over" ? { ...one, top: undefined } : one;
      // Behind an applied back a side is less deep: a neighbour with another back would not reach it.
      const { sections: _sections, ...back } = first.back as Data;
      const bottom = { up: (lender.bottom as Data | undefined)?.up ?? 0 };
      return [
        { ...between(lender), bottom, kick: undefined },
        {
          ...between(standing),
          bottom,
          kick: undefined,
          height: first.height,
          depth: first.depth,
          back,
          stock: first.stock,
          shares: { left: "case" },
        },
      ].map(({ kick: _kick, ...one }) => one);
    }
    case "on top": {
      const { plinth: _plinth, ...upper } = rest;
      const plinth = (first.plinth as Data | undefined)?.height;
      const floor = typeof plinth === "number" ? plinth : 0;
      return [first, { ...upper, at: [0, 0, (first.height as number) + floor] }];
    }
  }
}
