/** Doors: each an assembly of its own before or in an opening of the front, as that came to stand. */
import type { Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { doorBays } from "../../project/case/bays.ts";
import { LEAST_CLEAR } from "../../project/defaults.ts";
import type { Doors } from "../../project/doors.ts";
import { type Project, whereIn } from "../../project/project.ts";
import { stockOf } from "../cases/carcase.ts";
import { type FrontOpening, frontOpening } from "../front-openings.ts";
import type { Grid } from "../grid.ts";
import { type AssemblyModel, BARE, type Bore, type Door, type Hardware, type Part, type Travel } from "../model.ts";
import type { Ground, Stage } from "../stage.ts";
import { crampedBy, layMembers } from "./door-members.ts";
import { hingeMiddles, hingesFor, type Leaf, leavesIn } from "./door-sizes.ts";

/** The doors of the cases as these, and the frames before them, stand. */
export const DOORS: Stage = {
  heeds: "as built",
  lay: (standing, ground) => standing.flatMap((one) => layDoors(one, standing, ground)),
  faults: cramped,
};

function layDoors(one: AssemblyModel, standing: readonly AssemblyModel[], ground: Ground): AssemblyModel[] {
  const { doors } = one.design;
  if (one.kind !== "case" || doors === null) return [];
  const leaves = doorBays(one.design.bays).flatMap((bay) => {
    const opening = frontOpening(bay.path, one, standing);
    if (opening === null) return [];
    const pair = leavesIn(opening, bay.door === "pair", doors, ground.grid);
    return pair.map((leaf) => ({
      path: bay.path,
      opening,
      leaf: bay.door === "right" ? { ...leaf, side: "right" as const } : leaf,
      isPair: pair.length > 1,
    }));
  });
  return leaves.map(({ path, opening, leaf, isPair }, i) => {
    const other = isPair ? `${one.name} door ${leaf.side === "left" ? i + 2 : i}` : null;
    return layDoor({ name: `${one.name} door ${i + 1}`, other, path, one, opening, leaf, doors }, ground);
  });
}

type Asked = {
  name: string;
  other: string | null;
  path: string;
  one: AssemblyModel;
  opening: FrontOpening;
  leaf: Leaf;
  doors: Doors;
};

/** Parts at butt size, on the grid of the door's own corner. */
function layDoor(
  { name, other, path, one, opening, leaf, doors }: Asked,
  { project, stock, grid }: Ground,
): AssemblyModel {
  const { design } = one;
  const { fit, hinges, knob, make } = doors;
  const { thickness } = stockOf(stock, make.kind === "slab" ? design.stock.slab : design.stock.doorStile);
  const size: Vec = [leaf.x[1] - leaf.x[0], thickness, leaf.z[1] - leaf.z[0]];
  const front = fit.kind === "inset" ? opening.front : opening.front - thickness;
  const count = hinges.count ?? hingesFor(size[2]);
  const isLeft = leaf.side === "left";
  const middles = hingeMiddles(size[2], hinges.fromEnds, count, grid);
  const atKnob = knob === null ? 0 : grid.place(knob.fromEdge);
  const door: Door = {
    case: one.name,
    opening: { x: [...opening.x], z: [...opening.z], front: opening.front },
    fit: fit.kind,
    side: leaf.side,
    edges: leaf.edges,
    least: fit.kind === "inset" ? fit.gap : fit.overlap,
    between: doors.between,
    meets: other,
    hinges: {
      kind: hinges.kind,
      height: hinges.height,
      middles,
      counted: hinges.count === null ? "by height" : "given",
      fromEdge: hinges.cup === null ? null : grid.place(hinges.cup.fromEdge),
    },
    knob:
      knob === null
        ? null
        : {
            at: [isLeft ? size[0] - atKnob : atKnob, grid.place(knob.height)],
            diameter: knob.diameter,
            projection: knob.projection,
          },
    stick: make.kind === "slab" ? null : grid.end(make.stick),
    horns: make.kind === "slab" ? 0 : grid.atLeast(make.horns),
  };
  const laid: AssemblyModel = {
    ...BARE,
    name,
    kind: "door",
    design,
    at: [leaf.x[0], front, leaf.z[0]],
    size,
    parts: layMembers({ name, path, one, make, size }, { project, stock, grid }),
    travel: travelOf(doors, leaf.side, size),
    door,
  };
  return withHinges(laid, doors, door, grid);
}

/** Turns about the line of its hinges, forwards. */
function travelOf({ hinges }: Doors, side: Leaf["side"], [width, thickness]: Vec): Travel {
  const { beyond, before } = hinges.axis;
  const x = side === "left" ? -beyond : width + beyond;
  const range: readonly [number, number] = side === "left" ? [-hinges.opens, 0] : [0, hinges.opens];
  return { kind: "swing", pivot: [x, before === null ? thickness : -before, 0], range };
}

/** Its hinges, the holes that cups need, and its knob. */
function withHinges(laid: AssemblyModel, { hinges }: Doors, door: Door, grid: Grid): AssemblyModel {
  const { middles, kind, height } = door.hinges;
  const isLeft = door.side === "left";
  const carries = laid.parts.find(({ role, key }) => role === "slab" || key.endsWith(`/stile-${door.side}`))!;
  const handle = laid.parts.find(
    ({ role, key }) => role === "slab" || key.endsWith(`/stile-${isLeft ? "right" : "left"}`),
  )!;
  const hardware: Hardware[] = [
    {
      kind: "hinge",
      what: kind === "butt" ? "butt hinge" : "cup hinge",
      sizes: [height],
      count: middles.length,
      unit: "hinges",
      parts: [carries.key],
      where: `on the ${door.side} edge of`,
      of: laid.name,
    },
    ...(door.knob === null
      ? []
      : [
          {
            kind: "knob" as const,
            what: "knob",
            sizes: [door.knob.diameter],
            count: 1,
            unit: "knobs",
            parts: [handle.key],
            where: "on",
            of: laid.name,
          },
        ]),
  ];
  if (hinges.cup === null) return { ...laid, hardware };
  const { fromEdge, depth } = hinges.cup;
  const x = isLeft ? grid.place(fromEdge) : laid.size[0] - grid.place(fromEdge);
  const bore: Bore = {
    row: "hinge cups",
    face: "+y",
    diameter: height,
    depth: grid.end(depth),
    middles: middles.map((z) => [x, z]),
    reason: "for a hinge's cup",
  };
  const bored = (part: Part): Part => (part === carries ? { ...part, bores: [bore] } : part);
  return { ...laid, hardware, parts: laid.parts.map(bored) };
}

/** Members so wide that they leave no panel between them, or hinges that would stand in each other's way. */
function cramped({ parts, door, size, design, name }: AssemblyModel, project: Project): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const where = whereIn(project, `${design.path}.doors`);
  const problems: Problem[] = [];
  const add = (found: string, expected: string, remedy: string): void => {
    problems.push({ level: "error", kind: "design", where, found, expected, remedy });
  };
  const little = crampedBy({ parts, size });
  if (little !== null) {
    const isSlab = little.of === "slab";
    add(
      isSlab
        ? `"${name}", ${show(Math.max(0, size[0]))} wide and ${show(Math.max(0, size[2]))} high`
        : `"${name}", ${show(size[0])} wide and ${show(size[2])} high, whose stiles and rails leave ${show(Math.max(0, little.clear))} for its panel`,
      `at least ${show(LEAST_CLEAR)}`,
      isSlab ? "make the bay larger, or the gap less" : "make stiles and rails narrower, or the bay larger",
    );
  }
  const { middles, height } = door!.hinges;
  const apart = Math.min(...middles.slice(1).map((z, i) => z - middles[i]!));
  if (apart < 2 * height)
    add(
      `"${name}", ${show(size[2])} high, with ${middles.length} hinges of ${show(height)} whose middles are ${show(Math.max(0, apart))} apart`,
      `at least ${show(2 * height)}`,
      'make "fromEnds" less, or choose fewer or smaller hinges',
    );
  return problems;
}
