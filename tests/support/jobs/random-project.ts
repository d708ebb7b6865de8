/** Random checked projects: every fit of top and back, every edge, both units, several steps, nested bays, thin and thick readings. */
import fc from "fast-check";
import type { Box } from "../../../src/base/geometry.ts";
import { MM_PER_INCH, type Mm } from "../../../src/base/length.ts";
import { layCarcase } from "../../../src/model/cases/carcase.ts";
import type { Bay, BaySize } from "../../../src/project/bay.ts";
import type { Case } from "../../../src/project/case.ts";
import { checkCases } from "../../../src/project/checks/case.ts";
import { PINS, SHELF_LOAD } from "../../../src/project/defaults.ts";
import { layoutOf } from "../../../src/project/job/layout.ts";
import type { Project } from "../../../src/project/project.ts";
import type { Role } from "../../../src/project/role.ts";
import { ROLES } from "../../../src/project/role.ts";
import type { Stock } from "../../../src/project/stock.ts";
import type { Tooling } from "../../../src/project/tooling.ts";

const TOOLING: Tooling = {
  saw: {
    kerf: 3.2,
    bladeRadius: 127,
    rip: 700,
    ripOther: 300,
    narrowest: 50,
    sled: 700,
    sledDepth: 600,
    stop: 700,
    stopped: "router",
    dado: { least: 6, most: 21, radius: 100 },
  },
  router: {
    baseHalf: 76.2,
    baseAhead: 76.2,
    plunge: 6,
    bits: [
      { name: "3 mm", diameter: 3, reach: 12 },
      { name: "6 mm", diameter: 6, reach: 20 },
      { name: "12 mm", diameter: 12, reach: 30 },
    ],
  },
  lift: null,
  throat: 100,
  planer: 330,
  jointer: 150,
};

const STEPS: readonly Mm[] = [0.1, 0.3, 0.5, 1, MM_PER_INCH / 64, MM_PER_INCH / 32, MM_PER_INCH / 16];

function stockOf(id: string, nominal: Mm, readings: Mm[]): Stock {
  return {
    id,
    name: `${id} plywood`,
    nominal,
    thickness: readings.reduce((sum, one) => sum + one, 0) / readings.length,
    thickest: Math.max(...readings),
    readings,
    sheet: { length: 3050, width: 1525 },
    boards: null,
    trim: 5,
    grain: false,
    goodFaces: 2,
    density: 680,
    stiffness: { along: 9000, across: 6000, source: "made up" },
    solid: false,
    species: null,
    limits: null,
    price: null,
    count: null,
    sizes: [],
    offcuts: [],
  };
}

/** Readings in hundredths under nominal: whole numbers, so that a failing case shrinks to something a person can read. */
const readings = (nominal: Mm): fc.Arbitrary<Mm[]> =>
  fc
    .array(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 3 })
    .map((list) => list.map((under) => nominal - under / 100));

type Shape = { kind: "open" } | { kind: "columns" | "rows"; sizes: number[]; bays: Shape[] };

const { tree } = fc.letrec<{ tree: Shape }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 3, depthSize: "small", withCrossShrink: true },
    fc.constant<Shape>({ kind: "open" }),
    fc
      .tuple(
        fc.constantFrom("columns" as const, "rows" as const),
        fc.array(fc.tuple(fc.integer({ min: 1, max: 3 }), tie("tree")), { minLength: 2, maxLength: 3 }),
      )
      .map(([kind, list]): Shape => ({ kind, sizes: list.map(([size]) => size), bays: list.map(([, bay]) => bay) })),
  ),
}));

const bayOf = (shape: Shape, path: string, size: BaySize): Bay =>
  shape.kind === "open"
    ? { kind: "open", path, name: null, door: null, size, loose: 0, drawers: [] }
    : {
        kind: shape.kind,
        path,
        name: null,
        door: null,
        size,
        bays: shape.bays.map((bay, i) => bayOf(bay, `${path}.${shape.kind}[${i}]`, { share: shape.sizes[i]! })),
      };

const tenths = (count: number): Mm => count / 10;

const edge = fc.constantFrom("shows" as const, "covered" as const);
const grain = fc.constantFrom("upright" as const, "level" as const);

const plainBack = { grain, houses: fc.constant(false), sections: fc.constant(false) };

const back: fc.Arbitrary<Case["back"]> = fc.oneof(
  fc.record({ fit: fc.constant("captured" as const), setIn: fc.integer({ min: 3, max: 25 }), ...plainBack }),
  fc.record({ fit: fc.constant("rabbeted" as const), ...plainBack }),
  fc.record({ fit: fc.constant("applied" as const), ...plainBack }),
  fc.constant({ fit: "none" as const }),
);

const design: fc.Arbitrary<Case> = fc
  .record({
    width: fc.integer({ min: 500, max: 1500 }),
    height: fc.integer({ min: 500, max: 2000 }),
    depth: fc.integer({ min: 200, max: 600 }),
    edges: fc.record({ front: edge, back: edge, top: edge, bottom: edge }),
    flush: fc.boolean(),
    up: fc.oneof(fc.constant(0), fc.integer({ min: 3, max: 120 })),
    down: fc.integer({ min: 3, max: 40 }),
    kick: fc.option(fc.integer({ min: 3, max: 60 }), { nil: null }),
    back,
    depthRule: fc.constantFrom(null, { cut: 6 }, { leave: 10 }),
    backDepth: fc.option(fc.integer({ min: 20, max: 90 }).map(tenths), { nil: null }),
    allowance: fc.integer({ min: 0, max: 3 }).map(tenths),
    slip: fc.integer({ min: 0, max: 12 }).map(tenths),
    setBack: fc.integer({ min: 8, max: 30 }),
    tree,
    quantity: fc.integer({ min: 1, max: 2 }),
  })
  .map(
    (one): Case => ({
      path: "cases[0]",
      name: "case",
      quantity: one.quantity,
      at: [0, 0, 0],
      width: one.width,
      height: one.height,
      depth: one.depth,
      stock: Object.fromEntries(ROLES.map((role) => [role, role === "back" ? "thin" : "thick"])) as Record<
        Role,
        string
      >,
      joinery: {
        depth: one.depthRule,
        depthPath: "joinery.depth",
        backDepth: one.backDepth,
        allowance: one.allowance,
        slip: one.slip,
        setBack: one.setBack,
      },
      edges: one.edges,
      joints: [],
      lippings: [],
      pins: PINS.mm,
      bottom: { fit: "between", up: one.up },
      top: { fit: one.flush ? "flush" : "lowered", down: one.flush ? 0 : one.down, stretcher: 0, fillers: null },
      back: one.back,
      kick: one.kick !== null && one.up > 0 ? { fit: "between", setBack: one.kick } : null,
      skirting: null,
      feet: null,
      plinth: null,
      frame: null,
      drawers: null,
      doors: null,
      sliders: null,
      track: null,
      shares: null,
      finished: [],
      shelfLoad: SHELF_LOAD,
      bays: bayOf(one.tree, "cases[0].bays", { share: 1 }),
    }),
  );

/** A case of its own beside the first. */
const besides = (first: Case, second: Case): Case => ({
  ...second,
  path: "cases[1]",
  name: "case beside",
  at: [first.quantity * first.width, 0, 0],
  joinery: { ...second.joinery, depthPath: "cases[1].joinery.depth" },
  bays: movedTo("cases[1].bays", second.bays),
});

const movedTo = (path: string, bay: Bay): Bay =>
  bay.kind === "open"
    ? { ...bay, path }
    : { ...bay, path, bays: bay.bays.map((child, i) => movedTo(`${path}.${bay.kind}[${i}]`, child)) };

export const randomProject: fc.Arbitrary<Project> = fc
  .record({
    unit: fc.constantFrom("in" as const, "mm" as const),
    step: fc.constantFrom(...STEPS),
    thick: readings(18),
    thin: readings(6),
    first: design,
    second: fc.option(design, { nil: null, freq: 3 }),
  })
  .map(
    ({ unit, step, thick, thin, first, second }): Project => ({
      file: "random.json",
      name: "random",
      layout: layoutOf({ layout: { effort: "quick" }, unit }),
      asBuilt: [],
      walls: { left: null, right: null, back: null, scribe: { left: 0, right: 0, back: 0 } },
      floorOut: null,
      finishes: [],
      job: {
        number: "R-1",
        title: "Random case",
        client: null,
        drawnBy: null,
        projection: "third",
        date: "2026-11-20",
        revision: "A",
        revisions: [],
        address: null,
        notes: [],
      },
      unit,
      step,
      stock: [stockOf("thick", 18, thick), stockOf("thin", 6, thin)],
      tooling: TOOLING,
      paper: {
        drawings: { name: "A4", width: 297, height: 210 },
        sticks: { name: "A4", width: 297, height: 210 },
        labels: {
          name: "A4 3 x 8",
          page: { name: "A4", width: 210, height: 297 },
          columns: 3,
          rows: 8,
          label: { width: 63.5, height: 33.9 },
          left: 7.21,
          top: 12.9,
          pitch: { x: 66.04, y: 33.9 },
          cutLines: false,
          start: 1,
          dpi: null,
          print: { x: 1, y: 1 },
        },
        print: { x: 1, y: 1 },
        roll: { x: 1, y: 1 },
      },
      cases: second === null ? [first] : [first, besides(first, second)],
      worktops: [],
      doorway: null,
      glue: null,
      moisture: { made: null, driest: 6, wettest: 12 },
      lines: {},
    }),
  )
  // What the reader refuses never comes further; a bay under 40 mm is nobody's furniture.
  .filter((project) => checkCases(project).length === 0 && project.cases.every((one) => leastBay(project, one) >= 40));

function leastBay(project: Project, one: Case): Mm {
  const stock = new Map(project.stock.map((entry) => [entry.id, entry]));
  const { parts, openings } = layCarcase(one, one.name, stock);
  const box = (key: string): Box => parts.find((part) => part.key === key)!.box;
  return Math.min(
    ...openings.flatMap(({ left, right, below, above }) => [
      box(right)[0][0] - box(left)[1][0],
      box(above)[0][2] - box(below)[1][2],
    ]),
  );
}
