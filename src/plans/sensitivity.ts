/** Sensitivity: the figures that change when a stock measures otherwise, for a calliper reading at the yard and a pencil. */
import { isSame, type Mm, SAME } from "../base/length.ts";
import { ProblemsFound } from "../base/problem.ts";
import { deriveModel } from "../model/derive.ts";
import type { AssemblyModel, Model } from "../model/model.ts";
import { roundModel } from "../printed/round.ts";
import type { Case } from "../project/case.ts";
import { checkCases } from "../project/checks/case.ts";
import type { Project } from "../project/project.ts";
import type { SetPart, SetSensitivity } from "../set/schema.ts";
import { likelyThicknesses, TICK } from "./likely-thicknesses.ts";
import { localFeature, sizeOf } from "./local.ts";
import type { Marks } from "./parts.ts";
import { type Figure, printedFigures } from "./printed-figures.ts";

export function planSensitivity(project: Project, marks: Marks, parts: readonly SetPart[]): SetSensitivity[] {
  const drawnParts: DrawnParts = { byKey: new Map(parts.map((part) => [part.key, part])), marks };
  return project.stock.map((stock) => {
    const concerned = concernedBy(project, stock.id, parts);
    const drawn = { thickness: stock.thickness, printed: figuresDrawn(concerned, parts), exact: null };
    const others = likelyThicknesses(stock, project.unit).flatMap((thickness, i): Column[] =>
      isSame(thickness, stock.thickness)
        ? []
        : [{ thickness, ...figuresWith(concerned, stock.id, thickness, drawnParts, i % 2 === 0) }],
    );
    const columns = [drawn, ...others].sort((a, b) => a.thickness - b.thickness);
    return {
      stock: stock.id,
      thicknesses: columns.map(({ thickness }) => thickness),
      impossible: columns.filter(({ printed }) => printed === null).map(({ thickness }) => thickness),
      tick: TICK[project.unit],
      rows: gather(drawn.printed, columns, TICK[project.unit]),
    };
  });
}

type DrawnParts = { byKey: ReadonlyMap<string, SetPart>; marks: Marks };
type Column = { thickness: Mm; printed: Figure[] | null; exact: Figure[] | null };
const NONE = { printed: null, exact: null };

/** The job with only those cases whose parts are of this stock, or that share a side with one; one of each kind, for the others are like it. */
function concernedBy(project: Project, stock: string, parts: readonly SetPart[]): Project {
  const made = new Set(parts.filter(({ material }) => material === stock).map(({ key }) => key));
  const names = new Set(
    project.cases.filter((design) => [...made].some((key) => isOf(design, key))).map(({ name }) => name),
  );
  for (let before = -1; before < names.size; ) {
    before = names.size;
    for (const { name, shares } of project.cases) {
      if (shares === null || names.has(name) === names.has(shares.left)) continue;
      names.add(name).add(shares.left);
    }
  }
  return { ...project, cases: project.cases.filter(({ name }) => names.has(name)) };
}

/** The assemblies that a design makes: each of its quantity, and the bases under them. */
const instancesOf = ({ name, quantity }: Case): string[] =>
  quantity === 1 ? [name] : Array.from({ length: quantity }, (_, i) => `${name} ${i + 1}`);

const isOf = (design: Case, key: string): boolean => instancesOf(design).some((name) => ownKey(key, name) !== null);

/** What a key says after the name of its case, where it is a part of that, of the base under it or of the frame before it. */
const ownKey = (key: string, name: string): string | null =>
  ["/", " plinth/", " frame/"].some((after) => key.startsWith(`${name}${after}`)) ? key.slice(name.length) : null;

const figuresDrawn = ({ cases }: Project, parts: readonly SetPart[]): Figure[] =>
  parts.filter(({ key }) => cases.some((design) => isOf(design, key))).flatMap((part) => printedFigures(part, part));

/** Every figure with a stock of this thickness, as it would be printed and before it is rounded; none where the piece could not be made of it. */
function figuresWith(
  project: Project,
  stock: string,
  thickness: Mm,
  drawn: DrawnParts,
  withExact: boolean, // the outer two and the middle one tell how evenly a figure changes
): Pick<Column, "printed" | "exact"> {
  const changed: Project = {
    ...project,
    stock: project.stock.map((one) =>
      one.id === stock ? { ...one, thickness, thickest: thickness, readings: [thickness] } : one,
    ),
    cases: project.cases.map((design) => ({ ...setDownBy(design, stock, thickness), quantity: 1 })),
  };
  if (checkCases(changed).length > 0) return NONE;
  const figuresOf = (model: Model): Figure[] =>
    model.assemblies.flatMap((one) => {
      const design = project.cases.find(({ path }) => path === one.design.path)!;
      return instancesOf(design).flatMap((name) => figuresOfInstance(one, name, drawn));
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

/** The figures of one of several alike, by its own parts' marks. */
function figuresOfInstance(one: AssemblyModel, name: string, { byKey, marks }: DrawnParts): Figure[] {
  const own = one.design.name;
  // Of whatever belongs to the case; a worktop, or the side of the case beside it, has its own name in every instance.
  const keyOf = (key: string): string => {
    const fresh = `${name}${key.slice(own.length)}`;
    return key.startsWith(own) && byKey.has(fresh) ? fresh : key;
  };
  const markOf = (key: string): string => marks.get(keyOf(key))!;
  return one.parts.flatMap((part) => {
    const [length, width] = sizeOf(part);
    const features = part.features.map((feature) => localFeature(part, feature, markOf, ""));
    return printedFigures(byKey.get(keyOf(part.key))!, { length, width, features });
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
