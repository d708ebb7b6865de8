/** Walks data and its schema together: which keys an object may have, which values are lengths, which name a stock. */
import { z } from "zod";
import { type LengthKind, lengthKinds, stockIds } from "../schema/fields.ts";
import type { Path } from "./words.ts";

type Schema = z.core.$ZodType;

const isRecord = (data: unknown): data is Record<string, unknown> =>
  typeof data === "object" && data !== null && !Array.isArray(data);

/** The schema behind "optional", and of a choice the one that this kind of data belongs to. */
function plain(schema: Schema, data: unknown): Schema {
  if (schema instanceof z.ZodOptional) return plain(schema.def.innerType, data);
  if (schema instanceof z.ZodUnion && lengthKinds.get(schema) === undefined) {
    const fitting = schema.def.options.find((option) => {
      const inner = plain(option, data);
      if (inner instanceof z.ZodObject || inner instanceof z.ZodRecord) return isRecord(data);
      if (inner instanceof z.ZodArray || inner instanceof z.ZodTuple) return Array.isArray(data);
      return typeof data !== "object";
    });
    return fitting === undefined ? schema : plain(fitting, data);
  }
  return schema;
}

/** The schema of one entry; null where the schema knows no such entry. */
function entrySchema(schema: Schema, step: string | number): Schema | null {
  if (schema instanceof z.ZodObject) return Object.hasOwn(schema.shape, step) ? schema.shape[step]! : null;
  if (schema instanceof z.ZodRecord) return schema.def.valueType;
  if (schema instanceof z.ZodArray) return schema.def.element;
  if (schema instanceof z.ZodTuple) return schema.def.items[Number(step)] ?? null;
  return null;
}

const entryOf = (data: unknown, step: string | number): unknown =>
  typeof data === "object" && data !== null && Object.hasOwn(data, step)
    ? (data as Record<string | number, unknown>)[step]
    : undefined;

export const valueAt = (data: unknown, path: Path): unknown => path.reduce<unknown>(entryOf, data);

/** Keys that the object at this path may have. */
export function keysAt(schema: Schema, data: unknown, path: Path): string[] {
  let at: Schema | null = plain(schema, data);
  let value = data;
  for (const step of path) {
    value = entryOf(value, step);
    const entry: Schema | null = at === null ? null : entrySchema(at, step);
    at = entry === null ? null : plain(entry, value);
  }
  return at instanceof z.ZodObject ? Object.keys(at.shape) : [];
}

/** Calls back for every value that the schema takes for a length and that is text or a number, in the file's order. */
export const eachLength = (
  schema: Schema,
  data: unknown,
  visit: (path: Path, value: number | string, kind: LengthKind) => void,
): void =>
  eachMarked(lengthKinds, schema, data, (path, value, kind) => {
    if (typeof value === "string" || typeof value === "number") visit(path, value, kind);
  });

/** The same for every value that names a stock, where it is text. */
export const eachStockId = (schema: Schema, data: unknown, visit: (path: Path, id: string) => void): void =>
  eachMarked(stockIds, schema, data, (path, value) => {
    if (typeof value === "string") visit(path, value);
  });

/** Every value whose field is in a registry. */
function eachMarked<Meta extends object>(
  registry: z.core.$ZodRegistry<Meta>,
  schema: Schema,
  data: unknown,
  visit: (path: Path, value: unknown, meta: Meta) => void,
  path: Path = [],
): void {
  const at = plain(schema, data);
  const meta = registry.get(at) as Meta | undefined;
  if (meta !== undefined) {
    visit(path, data, meta);
    return;
  }
  if (typeof data !== "object" || data === null) return;
  const steps = Array.isArray(data) ? data.map((_, i) => i) : Object.keys(data);
  for (const step of steps) {
    const entry = entrySchema(at, step);
    if (entry !== null) eachMarked(registry, entry, entryOf(data, step), visit, [...path, step]);
  }
}
