/**
 * An assembly as it was measured. Its parts are cut and keep their sizes; where they came to stand is what counts for all that is made after
 * them. Only the faces that bound its openings are moved, and only as far as was measured.
 */
import type { AxisIndex, Box, Vec } from "../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../base/length.ts";
import type { Problem } from "../base/problem.ts";
import { listInWords } from "../base/words.ts";
import { AGREE } from "../project/defaults.ts";
import { type AsBuilt, type Project, whereIn } from "../project/project.ts";
import { framedRows } from "./frames/framed.ts";
import type { AssemblyModel, Opening, Part } from "./model.ts";

type Way = { axis: AxisIndex; size: "width" | "height"; low: "left" | "below"; high: "right" | "above" };

const WAYS: readonly Way[] = [
  { axis: 0, size: "width", low: "left", high: "right" },
  { axis: 2, size: "height", low: "below", high: "above" },
];

/** Two measures that place one member differently, so far apart. */
type Clash = { path: string; size: Way["size"]; by: Mm };

/** How far each member came to stand from where it was meant, along one way. */
type Shifts = { by: ReadonlyMap<string, Mm>; size: Mm; clashes: Clash[] };

function asMeasured(one: AssemblyModel, measured: readonly AsBuilt[]): AssemblyModel {
  const [across, up] = WAYS.map((way) => shiftsOf(one, measured, way)) as [Shifts, Shifts];
  const move = (part: Part): Part => ({
    ...part,
    box: moved(part.box, [across.by.get(part.key) ?? 0, 0, up.by.get(part.key) ?? 0]),
  });
  return { ...one, parts: one.parts.map(move), size: [across.size, one.size[1], up.size] };
}

/** Everything as measured; what stands right of a case that came out wider, behind one frame with it, stands so much farther right. */
export function standingAsMeasured(made: readonly AssemblyModel[], measured: readonly AsBuilt[]): AssemblyModel[] {
  const standing = made.map((one) => asMeasured(one, measured));
  const right = new Map<string, Mm>();
  for (const row of framedRows(made)) {
    let by = 0;
    for (const { name, size } of row) {
      right.set(name, by);
      by += standing.find((one) => one.name === name)!.size[0] - size[0];
    }
  }
  return standing.map((one) => {
    const [x, y, z] = one.at;
    return { ...one, at: [x + (right.get(one.name) ?? 0), y, z] };
  });
}

const moved = (box: Box, by: Vec): Box => box.map((corner) => corner.map((at, i) => at + by[i]!)) as unknown as Box;

function shiftsOf(one: AssemblyModel, measured: readonly AsBuilt[], { axis, size, low, high }: Way): Shifts {
  const whole = measured.find(({ name }) => name === one.name);
  const over = whole?.[size] ?? null;
  const by = new Map<string, Mm>();
  const clashes: Clash[] = [];
  // What bounds an opening from beyond, and none from before, stands at the far end and moves with it.
  const last = new Set(one.openings.map((opening) => opening[high]));
  for (const opening of one.openings) last.delete(opening[low]);
  if (over !== null) for (const key of last) by.set(key, over - one.size[axis]);

  const boxOf = (key: string): Box => [...one.parts, ...one.borrowed].find((part) => part.key === key)!.box;
  const from = (opening: Opening): Mm => boxOf(opening[low])[1][axis];
  for (const opening of [...one.openings].sort((a, b) => from(a) - from(b))) {
    const own = measured.find(({ name }) => name === `${one.name}/${opening.name}`);
    const clear = own?.[size] ?? null;
    if (clear === null) continue;
    const to = (by.get(opening[low]) ?? 0) + clear - (boxOf(opening[high])[0][axis] - from(opening));
    const before = by.get(opening[high]);
    if (before === undefined) by.set(opening[high], to);
    else if (Math.abs(before - to) > AGREE + SAME) clashes.push({ path: own!.path, size, by: to - before });
  }
  const end = Math.max(0, ...[...last].map((key) => Math.abs(by.get(key) ?? 0)));
  const moved = [...last].map((key) => by.get(key) ?? 0).find((shift) => Math.abs(shift) === end) ?? 0;
  return { by, size: over ?? one.size[axis] + moved, clashes };
}

/** Names that nothing in the job has, and measures that contradict each other. */
export function asBuiltFaults(project: Project, assemblies: readonly AssemblyModel[]): Problem[] {
  const { asBuilt, unit } = project;
  const known = assemblies.flatMap(({ name, openings }) => [name, ...openings.map((each) => `${name}/${each.name}`)]);
  const unknown = asBuilt
    .filter(({ name }) => !known.includes(name))
    .map(
      ({ path, name }): Problem => ({
        level: "error",
        kind: "input",
        where: whereIn(project, path),
        found: `"${name}", which nothing in this job is called`,
        expected: `one of ${listInWords(known.map((one) => `"${one}"`))}`,
        remedy: "take a name from the list",
      }),
    );
  const clashes = assemblies.flatMap((one) => WAYS.flatMap((way) => shiftsOf(one, asBuilt, way).clashes));
  return [
    ...unknown,
    ...clashes.map(
      ({ path, size, by }): Problem => ({
        level: "error",
        kind: "input",
        where: whereIn(project, path),
        found: `a measured ${size} that is ${formatLengthWithUnit(Math.abs(by), unit)} ${by > 0 ? "more" : "less"} than the other measures leave here`,
        expected: `measures that agree within ${formatLengthWithUnit(AGREE, unit)}`,
        remedy: "measure again, openings and the whole from the same end",
      }),
    ),
  ];
}
