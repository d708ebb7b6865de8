/** Sensitivity: the figures that change when a stock measures otherwise, for a calliper reading at the yard and a pencil. */
import { isSame, MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";
import { ProblemsFound } from "../base/problem.ts";
import { deriveModel } from "../model/derive.ts";
import type { Model } from "../model/model.ts";
import { roundModel } from "../printed/round.ts";
import { checkCases } from "../project/case-check.ts";
import type { Case, Project, Stock } from "../project/project.ts";
import { axisOfFace, faceWords, thirdAxis } from "../set/facing.ts";
import type { SetPart, SetSensitivity } from "../set/schema.ts";
import { localFeature, sizeOf } from "./local.ts";
import type { Marks } from "./parts.ts";

/** Panels measure nominal or up to a sixteenth of an inch less (3/4 in: 0.703 to 0.750, often 11/16; WOOD magazine): in 64ths, or fifths of a millimetre. */
const FINER: Record<Unit, Mm> = { in: MM_PER_INCH / 64, mm: 0.2 };
const COLUMNS = 5;

/** Likely measured thicknesses, the thinnest first. */
export const likelyThicknesses = ({ nominal }: Pick<Stock, "nominal">, unit: Unit): Mm[] =>
  Array.from({ length: COLUMNS }, (_, i) => nominal - (COLUMNS - 1 - i) * FINER[unit]);

export function planSensitivity(project: Project, marks: Marks, parts: readonly SetPart[]): SetSensitivity[] {
  return project.stock.map((stock) => {
    const thicknesses = likelyThicknesses(stock, project.unit);
    const figures = thicknesses.map((thickness) => figuresWith(project, stock.id, thickness, marks, parts));
    const impossible = thicknesses.filter((_, i) => figures[i] === null);
    return { stock: stock.id, thicknesses, impossible, rows: gather(figures) };
  });
}

/** One printed figure of one part; `key` is the same at every thickness. */
type Figure = { key: string; mark: string; what: string; value: Mm };

/** Every printed length, width and wall with a stock of this thickness; null where the piece could not be made of it. */
function figuresWith(
  project: Project,
  stock: string,
  thickness: Mm,
  marks: Marks,
  parts: readonly SetPart[],
): Figure[] | null {
  const changed: Project = {
    ...project,
    stock: project.stock.map((one) =>
      one.id === stock ? { ...one, thickness, thickest: thickness, readings: [thickness] } : one,
    ),
    cases: project.cases.map((design) => setDownBy(design, stock, thickness)),
  };
  if (checkCases(changed).length > 0) return null;
  try {
    return figuresOf(roundModel(deriveModel(changed), changed), marks, parts);
  } catch (error) {
    if (error instanceof ProblemsFound) return null;
    throw error;
  }
}

/** A top panel under filler strips is set down by their thickness. */
const setDownBy = (design: Case, stock: string, thickness: Mm): Case =>
  design.top.fillers !== null && design.stock.filler === stock
    ? { ...design, top: { ...design.top, down: thickness } }
    : design;

function figuresOf(model: Model, marks: Marks, parts: readonly SetPart[]): Figure[] {
  const byKey = new Map(parts.map((part) => [part.key, part]));
  return model.cases.flatMap((one) =>
    one.parts.flatMap((part): Figure[] => {
      const mark = marks.get(part.key)!;
      const [length, width] = sizeOf(part);
      const walls = part.features.flatMap((feature): Figure[] => {
        if (feature.kind !== "groove" && feature.kind !== "rabbet") return [];
        const { at, holds, face, along } = localFeature(part, feature, (key) => marks.get(key)!, "");
        const from = faceWords(byKey.get(part.key)!, `${thirdAxis(axisOfFace(face), along)}0`);
        const what = `${from} to the groove for ${holds}`;
        return [{ key: `${mark} ${face} ${holds}`, mark, what, value: at }];
      });
      return [
        { key: `${mark} length`, mark, what: "length", value: length },
        { key: `${mark} width`, mark, what: "width", value: width },
        ...walls,
      ];
    }),
  );
}

/** Figures that are not the same throughout, those of several parts in one row where they agree throughout. */
function gather(columns: readonly (Figure[] | null)[]): SetSensitivity["rows"] {
  const rows: SetSensitivity["rows"] = [];
  const first = columns.find((column) => column !== null) ?? [];
  const tables = columns.map((column) => (column === null ? null : new Map(column.map((one) => [one.key, one.value]))));
  for (const { key, mark, what } of first) {
    const values = tables.map((table) => table?.get(key) ?? null);
    const known = values.filter((value): value is Mm => value !== null);
    if (known.every((value) => Math.abs(value - known[0]!) < SAME)) continue;
    const same = rows.find((row) => row.what === what && row.values.every((value, i) => agree(value, values[i]!)));
    if (same === undefined) rows.push({ marks: [mark], what, values });
    else same.marks.push(mark);
  }
  return rows;
}

const agree = (a: Mm | null, b: Mm | null): boolean => (a === null || b === null ? a === b : isSame(a, b));
