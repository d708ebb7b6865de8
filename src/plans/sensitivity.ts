/** Sensitivity: the figures that change when a stock measures otherwise, for a calliper reading at the yard and a pencil. */
import { isSame, type Mm, SAME } from "../base/length.ts";
import { ProblemsFound } from "../base/problem.ts";
import { deriveModel } from "../model/derive.ts";
import type { AssemblyModel, Model } from "../model/model.ts";
import { roundModel } from "../printed/round.ts";
import type { Case } from "../project/case.ts";
import { checkCases } from "../project/checks/case.ts";
import type { AsBuilt, Project } from "../project/project.ts";
import type { SetPart, SetSensitivity } from "../set/schema.ts";
import { likelyThicknesses, TICK } from "./likely-thicknesses.ts";
import { localFeature, sizeOf } from "./local.ts";
import type { Marks } from "./parts.ts";
import { type Figure, printedFigures } from "./printed-figures.ts";

/** The job as it is drawn: what the figures of other thicknesses are held against. */
type Drawn = {
  byKey: ReadonlyMap<string, SetPart>;
  marks: Marks;
  designs: ReadonlyMap<string, Case["path"]>; // of each assembly, by its name
};
type Column = { thickness: Mm; printed: Figure[] | null; exact: Figure[] | null };
const NONE = { printed: null, exact: null };

export function planSensitivity(
  project: Project,
  { printed, marks }: { printed: Model; marks: Marks },
  parts: readonly SetPart[],
): SetSensitivity[] {
  const drawn: Drawn = {
    byKey: new Map(parts.map((part) => [part.key, part])),
    marks,
    // Whatever follows from a case belongs to its design: doors, drawers and frames as well as the carcase.
    designs: new Map(printed.assemblies.map(({ name, design }) => [name, design.path])),
  };
  return project.stock.map((stock) => {
    const concerned = concernedBy(project, stock.id, drawn);
    const asDrawn = { thickness: stock.thickness, printed: figuresDrawn(concerned, drawn), exact: null };
    const others = likelyThicknesses(stock, project.unit).flatMap((thickness, i): Column[] =>
      isSame(thickness, stock.thickness)
        ? []
        : [{ thickness, ...figuresWith(concerned, stock.id, thickness, drawn, i % 2 === 0) }],
    );
    const columns = [asDrawn, ...others].sort((a, b) => a.thickness - b.thickness);
    return {
      stock: stock.id,
      thicknesses: columns.map(({ thickness }) => thickness),
      impossible: columns.filter((column) => column.printed === null).map(({ thickness }) => thickness),
      tick: TICK[project.unit],
      rows: gather(asDrawn.printed, columns, TICK[project.unit]),
    };
  });
}

/** The job with only those cases that have parts of this stock, or that share a side or a worktop with one that has. */
function concernedBy(project: Project, stock: string, { byKey, designs }: Drawn): Project {
  const made = new Set(
    [...byKey.values()].filter(({ material }) => material === stock).map(({ assembly }) => designs.get(assembly)),
  );
  const names = new Set(project.cases.filter(({ path }) => made.has(path)).map(({ name }) => name));
  const together = [
    ...project.cases.flatMap(({ name, shares }) => (shares === null ? [] : [[name, shares.left]])),
    ...project.worktops.map(({ over }) => over),
    ...project.cases.flatMap(({ frame }) => (frame?.over == null ? [] : [frame.over])),
  ];
  for (let before = -1; before < names.size; ) {
    before = names.size;
    for (const group of together) {
      if (group.some((name) => names.has(name))) for (const name of group) names.add(name);
    }
  }
  const cases = project.cases.filter(({ name }) => names.has(name));
  return {
    ...project,
    cases,
    asBuilt: project.asBuilt.filter((one) => cases.some(({ path }) => path === designs.get(assemblyOf(one)))),
    finishes: [], // they change no size, and may be on parts of the cases left out
  };
}

/** The cases that a design makes: each of its quantity. */
const instancesOf = ({ name, quantity }: Case): string[] =>
  quantity === 1 ? [name] : Array.from({ length: quantity }, (_, i) => `${name} ${i + 1}`);

/** "box 1/bay 2": the opening of an assembly, or the whole of it. */
const assemblyOf = ({ name }: AsBuilt): string => name.split("/")[0]!;

/** One does for all alike, unless a worktop lies over them, one frame goes before them or any was measured as it was built. */
const standsForAll = (design: Case, { worktops, asBuilt }: Project, { designs }: Drawn): boolean =>
  design.quantity > 1 &&
  design.frame?.over == null &&
  !worktops.some(({ over }) => over.includes(design.name)) &&
  !asBuilt.some((one) => designs.get(assemblyOf(one)) === design.path);

const figuresDrawn = ({ cases }: Project, { byKey, designs }: Drawn): Figure[] =>
  [...byKey.values()]
    .filter(({ assembly }) => cases.some(({ path }) => path === designs.get(assembly)))
    .flatMap((part) => printedFigures(part, part));

/** Every figure with a stock of this thickness, as it would be printed and before it is rounded; none where the piece could not be made of it. */
function figuresWith(
  project: Project,
  stock: string,
  thickness: Mm,
  drawn: Drawn,
  withExact: boolean, // the outer two and the middle one tell how evenly a figure changes
): Pick<Column, "printed" | "exact"> {
  const changed: Project = {
    ...project,
    stock: project.stock.map((one) =>
      one.id === stock ? { ...one, thickness, thickest: thickness, readings: [thickness] } : one,
    ),
    cases: project.cases.map((design) => ({
      ...setDownBy(design, stock, thickness),
      quantity: standsForAll(design, project, drawn) ? 1 : design.quantity,
    })),
  };
  if (checkCases(changed).length > 0) return NONE;
  const figuresOf = (model: Model): Figure[] =>
    model.assemblies.flatMap((one) => {
      const design = project.cases.find(({ path }) => path === one.design.path)!;
      const names = standsForAll(design, project, drawn) ? instancesOf(design) : [design.name];
      return names.flatMap((name) => figuresOfInstance(one, name, drawn));
    });
  try {
    const exact = deriveModel(changed);
    return { printed: figuresOf(roundModel(exact, changed)), exact: withExact ? figuresOf(exact) : null };
  } catch (error) {
    if (error instanceof ProblemsFound) return NONE;
    throw error;
  }
}

/** A top panel under filler strips is set down by their thickness. */
const setDownBy = (design: Case, stock: string, thickness: Mm): Case =>
  design.top.fillers !== null && design.stock.filler === stock
    ? { ...design, top: { ...design.top, down: thickness } }
    : design;

/** The figures of one of several alike, by its own parts' marks; of parts that are drawn, for no others have a mark. */
function figuresOfInstance(one: AssemblyModel, name: string, { byKey, marks }: Drawn): Figure[] {
  const own = one.design.name;
  // Of whatever belongs to the case; a worktop, or the side of the case beside it, has its own name in every instance.
  const keyOf = (key: string): string => {
    const fresh = `${name}${key.slice(own.length)}`;
    return key.startsWith(own) && byKey.has(fresh) ? fresh : key;
  };
  const markOf = (key: string): string => marks.get(keyOf(key))!;
  return one.parts.flatMap((part) => {
    const drawn = byKey.get(keyOf(part.key));
    if (drawn === undefined) return [];
    const [length, width, thickness] = sizeOf(part);
    const features = part.features.map((feature) => localFeature(part, feature, markOf, ""));
    return printedFigures(drawn, { length, width, thickness, features });
  });
}

/** Figures that are not the same throughout, in the order of the parts; those of several parts in one row where they agree throughout. */
function gather(drawn: readonly Figure[], columns: readonly Column[], tick: Mm): SetSensitivity["rows"] {
  const rows: SetSensitivity["rows"] = [];
  const printed = columns.map((column) => tableOf(column.printed));
  const exact = columns.map((column) => ({ thickness: column.thickness, table: tableOf(column.exact) }));
  for (const { key, mark, what: words, value } of drawn) {
    const values = printed.map((table) => table?.get(key) ?? null);
    if (values.every((one) => one === null || isSame(one, value))) continue;
    const what = words();
    const each = changeOver(
      exact.flatMap(({ thickness, table }) => {
        const at = table?.get(key);
        return at === undefined ? [] : [{ thickness, at }];
      }),
      tick,
    );
    const same = rows.find(
      (row) => row.what === what && agree(row.each, each) && row.values.every((one, i) => agree(one, values[i]!)),
    );
    if (same === undefined) rows.push({ marks: [mark], what, values, each });
    else if (!same.marks.includes(mark)) same.marks.push(mark);
  }
  return rows;
}

const tableOf = (figures: readonly Figure[] | null): Map<string, Mm> | null =>
  figures === null ? null : new Map(figures.map(({ key, value }) => [key, value]));

const agree = (a: Mm | null, b: Mm | null): boolean => (a === null || b === null ? a === b : isSame(a, b));

/** What a figure gains for each tick of thickness, before rounding; null where it does not change evenly, as where a depth is cut down to a third. */
function changeOver(points: readonly { thickness: Mm; at: Mm }[], tick: Mm): Mm | null {
  const slopes = points.slice(1).map(({ thickness, at }, i) => {
    const before = points[i]!;
    return ((at - before.at) / (thickness - before.thickness)) * tick;
  });
  const [first] = slopes;
  return first !== undefined && slopes.every((one) => Math.abs(one - first) < SAME) ? first : null;
}
