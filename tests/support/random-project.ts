/** Random checked projects: every fit of top and back, every edge, both units, several steps, nested bays, thin and thick readings. */
import fc from "fast-check";
import type { Box } from "../../src/base/geometry.ts";
import { MM_PER_INCH, type Mm, type Unit } from "../../src/base/length.ts";
import { layCarcase } from "../../src/model/carcase.ts";
import { checkBays } from "../../src/project/bays-check.ts";
import type { Bay, BaySize, Case, Project, Role, Stock, Tooling } from "../../src/project/project.ts";
import { ROLES } from "../../src/project/project.ts";

const TOOLING: Tooling = {
  saw: { kerf: 3.2, bladeRadius: 127, rip: 700, sled: 700, dado: { least: 6, most: 21, radius: 100 } },
  router: {
    baseHalf: 76.2,
    bits: [
      { name: "3 mm", diameter: 3, reach: 12 },
      { name: "6 mm", diameter: 6, reach: 20 },
      { name: "12 mm", diameter: 12, reach: 30 },
    ],
  },
};

const STEPS: readonly Mm[] = [0.1, 0.5, MM_PER_INCH / 64, MM_PER_INCH / 32, MM_PER_INCH / 16];

function stockOf(id: string, nominal: Mm, readings: Mm[]): Stock {
  return {
    id,
    name: `${id} plywood`,
    nominal,
    thickness: readings.reduce((sum, one) => sum + one, 0) / readings.length,
    thickest: Math.max(...readings),
    readings,
    sheet: { length: 3050, width: 1525 },
    trim: 5,
    grain: false,
    goodFaces: 2,
    density: 680,
    price: null,
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
    ? { kind: "open", path, name: null, size }
    : {
        kind: shape.kind,
        path,
        name: null,
        size,
        bays: shape.bays.map((bay, i) => bayOf(bay, `${path}.${shape.kind}[${i}]`, { share: shape.sizes[i]! })),
      };

const edge = fc.constantFrom("shows" as const, "covered" as const);
const grain = fc.constantFrom("upright" as const, "level" as const);

const back: fc.Arbitrary<Case["back"]> = fc.oneof(
  fc.record({ fit: fc.constant("captured" as const), setIn: fc.integer({ min: 8, max: 25 }), grain }),
  fc.record({ fit: fc.constant("rabbeted" as const), grain }),
  fc.record({ fit: fc.constant("applied" as const), grain }),
  fc.constant({ fit: "none" as const }),
);

const design = (unit: Unit): fc.Arbitrary<Case> =>
  fc
    .record({
      width: fc.integer({ min: 500, max: 1500 }),
      height: fc.integer({ min: 500, max: 2000 }),
      depth: fc.integer({ min: 200, max: 600 }),
      front: edge,
      rear: edge,
      upper: edge,
      flush: fc.boolean(),
      up: fc.oneof(fc.constant(0), fc.integer({ min: 20, max: 120 })),
      down: fc.integer({ min: 12, max: 40 }),
      kick: fc.option(fc.integer({ min: 20, max: 60 }), { nil: null }),
      back,
      depthRule: fc.constantFrom(null, { cut: 6 }, { leave: 10 }),
      allowance: fc.integer({ min: 0, max: 3 }).map((tenths) => tenths / 10),
      slip: fc.integer({ min: 0, max: 12 }).map((tenths) => tenths / 10),
      tree,
      quantity: fc.integer({ min: 1, max: 2 }),
    })
    .map((one): Case => {
      const { unit: _unit, ...rest } = { ...one, unit };
      const kicked = rest.kick !== null && rest.up >= 40 ? { setBack: rest.kick } : null;
      return {
        path: "cases[0]",
        name: "case",
        quantity: rest.quantity,
        at: [0, 0, 0],
        width: rest.width,
        height: rest.height,
        depth: rest.depth,
        stock: Object.fromEntries(ROLES.map((role) => [role, role === "back" ? "thin" : "thick"])) as Record<
          Role,
          string
        >,
        joinery: {
          depth: rest.depthRule,
          depthPath: "joinery.depth",
          backDepth: null,
          allowance: rest.allowance,
          slip: rest.slip,
          setBack: 12,
        },
        edges: { front: rest.front, back: rest.rear, top: rest.upper, bottom: "covered" },
        bottom: { up: rest.up },
        top: rest.flush ? { fit: "flush", down: 0 } : { fit: "lowered", down: rest.down },
        back: rest.back,
        kick: kicked,
        bays: bayOf(rest.tree, "cases[0].bays", { share: 1 }),
      };
    });

export const randomProject: fc.Arbitrary<Project> = fc
  .record({
    unit: fc.constantFrom("in" as const, "mm" as const),
    step: fc.constantFrom(...STEPS),
    thick: readings(18),
    thin: readings(6),
  })
  .chain(({ unit, step, thick, thin }) =>
    design(unit).map(
      (one): Project => ({
        file: "random.json",
        name: "random",
        job: {
          number: "R-1",
          title: "Random case",
          client: null,
          drawnBy: null,
          date: "2026-11-20",
          revision: "A",
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
          },
          print: { x: 1, y: 1 },
        },
        cases: [one],
        lines: {},
      }),
    ),
  )
  // Bays that do not add up never come past the reader; a bay under 40 mm is nobody's furniture.
  .filter((project) =>
    project.cases.every((one) => checkBays(project, one).length === 0 && leastBay(project, one) >= 40),
  );

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
