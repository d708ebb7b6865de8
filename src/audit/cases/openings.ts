/** The bays: clear, closed on four sides, and with the diagonal that proves them square. */
import type { AxisIndex, Box, Vec } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetOpening } from "../../set/schema.ts";
import { around, sharedBox, sharedBoxes, TOUCH } from "../solids/boxes.ts";
import type { Solid } from "../solids/solid.ts";
import { amount, failure, nameOf, partsOf, where } from "../words.ts";

function boxOfOpening({ at, width, depth, height }: SetOpening, origin: Vec): Box {
  const [x, y, z] = [at[0] + origin[0], at[1] + origin[1], at[2] + origin[2]];
  return [
    [x, y, z],
    [x + width, y + depth, z + height],
  ];
}

const SIDES: readonly { words: string; axis: AxisIndex; high: boolean }[] = [
  { words: "left", axis: 0, high: false },
  { words: "right", axis: 0, high: true },
  { words: "below", axis: 2, high: false },
  { words: "above", axis: 2, high: true },
];

/** The space outside one side of a bay, so thick. */
function sliceOutside(box: Box, axis: AxisIndex, high: boolean, thickness: Mm): Box {
  const lo: [number, number, number] = [...box[0]];
  const hi: [number, number, number] = [...box[1]];
  lo[axis] = high ? box[1][axis] : box[0][axis] - thickness;
  hi[axis] = high ? box[1][axis] + thickness : box[0][axis];
  return [lo, hi];
}

export function checkOpenings(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const { job } = set;
  return set.openings.flatMap((opening) => {
    const assembly = set.assemblies.find((each) => each.name === opening.case);
    if (!assembly)
      return failure(
        "bays",
        [],
        `${opening.name} is in no case of the set: ${opening.case}. Change: the name of its case.`,
      );
    const standing = solids.find(({ assembly: own }) => own.name === assembly.name)?.assembly;
    const { name, origin } = standing ?? { name: assembly.name, origin: [0, 0, 0] as const };
    const box = boxOfOpening(opening, origin);
    // A loose shelf stands in its bay and may be taken out: the bay is clear without it.
    const members = solids.filter(
      ({ assembly: own, part }) =>
        (own.name === assembly.name || assembly.borrows.includes(part.mark)) && part.role !== "looseShelf",
    );
    const intruders = members.filter((solid) => solid.cells.some((cell) => sharedBox(cell, box)));
    const checks: SetCheck[] = [];
    if (intruders.length > 0) {
      const inside = around(intruders.flatMap((solid) => sharedBoxes(solid.cells, [box])));
      checks.push(
        failure(
          "bays",
          partsOf(intruders),
          `${opening.name} is not clear: ${intruders.map((solid) => nameOf(solid.part)).join(", ")} stands in it, ${where(inside, { name, origin }, job)}. Change: move the part, or make the bay smaller.`,
        ),
      );
    }
    for (const { words, axis, high } of SIDES) {
      const nearest = nearestBeyond(box, axis, high, members);
      if (nearest && nearest.gap < TOUCH) continue;
      const slice = sliceOutside(box, axis, high, 0);
      checks.push(
        failure(
          "bays",
          nearest ? [nearest.solid.part] : [],
          `${opening.name} is not closed ${words}: ${nearest ? `${nameOf(nearest.solid.part)} is ${amount(nearest.gap, job)} away` : "no part stands there"}, ${where(slice, { name, origin }, job)}. Change: the bay's size, or the part's place.`,
        ),
      );
    }
    const diagonal = Math.hypot(opening.width, opening.height);
    if (!isSame(opening.diagonal, diagonal)) {
      checks.push(
        failure(
          "bays",
          [],
          `The diagonal of ${opening.name} is given as ${amount(opening.diagonal, job)}; ${amount(opening.width, job)} x ${amount(opening.height, job)} make it ${amount(diagonal, job)}. Change: the diagonal.`,
        ),
      );
    }
    return checks;
  });
}

/** The part that closes a side of a bay after all, farther out; what begins inside the bay is no such part. */
function nearestBeyond(
  box: Box,
  axis: AxisIndex,
  high: boolean,
  solids: readonly Solid[],
): { solid: Solid; gap: Mm } | null {
  let nearest: { solid: Solid; gap: Mm } | null = null;
  for (const solid of solids) {
    for (const cell of solid.hull) {
      const gap = high ? cell[0][axis] - box[1][axis] : box[0][axis] - cell[1][axis];
      if (gap < -TOUCH || (nearest && gap >= nearest.gap)) continue;
      if (sharedBox(cell, sliceOutside(box, axis, high, gap + 1))) nearest = { solid, gap };
    }
  }
  return nearest;
}

/** The case's own diagonal, measured over its outer corners. */
export function checkDiagonals(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const { job } = set;
  return set.assemblies.flatMap((assembly) => [...overCorners(assembly, solids, job), ...sumOfSquares(assembly, job)]);
}

function sumOfSquares(assembly: DryfitSet["assemblies"][number], job: DryfitSet["job"]): SetCheck[] {
  const { outside, width, height } = assembly.diagonals;
  const diagonal = Math.hypot(width, height);
  if (isSame(outside, diagonal)) return [];
  return [
    failure(
      "bays",
      [],
      `The outside diagonal of ${assembly.name} is given as ${amount(outside, job)}; ${amount(width, job)} x ${amount(height, job)} make it ${amount(diagonal, job)}. Change: the diagonal.`,
    ),
  ];
}

const SHELL: readonly string[] = ["side", "bottom", "top", "stile", "rail", "drawerSide"];

/** The corners that the tape goes over: of the outside, and of the front edges, which begin above a toe space; of a base or a worktop, lying, seen from above. */
function overCorners(
  assembly: DryfitSet["assemblies"][number],
  solids: readonly Solid[],
  job: DryfitSet["job"],
): SetCheck[] {
  const own = solids.filter(({ part }) => part.assembly === assembly.name || assembly.borrows.includes(part.mark));
  // Lying, they are measured from above: a base over all, a drawer over its box.
  const isDrawer = assembly.kind === "drawer";
  const isBase = assembly.kind === "base" || assembly.kind === "worktop" || isDrawer;
  const isWhole = isBase && !isDrawer;
  const shell = own.filter(({ part }) => isWhole || SHELL.includes(part.role)).flatMap(({ cells }) => cells);
  if (shell.length === 0) return [];
  const reach = (boxes: readonly Box[], axis: AxisIndex): Mm => around(boxes)[1][axis] - around(boxes)[0][axis];
  const first = around(shell)[0][1];
  const front = shell.filter((cell) => cell[0][1] < first + TOUCH);
  const { diagonals } = assembly;
  const up: AxisIndex = isBase ? 1 : 2;
  const width = isDrawer ? reach(shell, 0) : assembly.size[0];
  const wanted: [string, Mm, Mm][] = [
    ["width", diagonals.width, width],
    ["height", diagonals.height, reach(shell, up)],
    ["front diagonal", diagonals.front, Math.hypot(width, reach(isBase ? shell : front, up))],
  ];
  return wanted
    .filter(([, told, found]) => Math.abs(told - found) > TOUCH)
    .map(([what, told, found]) =>
      failure(
        "bays",
        [],
        `The ${what} that the diagonals of ${assembly.name} are reckoned with is given as ${amount(told, job)}; its parts make it ${amount(found, job)}. Change: the figure.`,
      ),
    );
}
