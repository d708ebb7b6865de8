/** The first pass: is a file of the right shape, and can every length in it be read? Every fault becomes a problem with its place. */
import type { z } from "zod";
import type { Unit } from "../../base/length.ts";
import { parseLength } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import { type LengthKind, saidBy } from "../schema/fields.ts";
import { nearest } from "./nearest.ts";
import { atKey, inputProblem } from "./problems.ts";
import type { Source } from "./source.ts";
import { eachLength, keysAt, valueAt } from "./walk.ts";
import { choice, type Path, pathText, quote, valueText } from "./words.ts";

type Schema = z.core.$ZodType;
type Issue = z.core.$ZodIssue;

/** `missing`: path of a key that is not there; `meant`: path that a misspelt key was probably meant for. */
type Fault = { problem: Problem; missing: string | null; meant: string | null };

const MOST = 100_000; // 100 m: nothing in a shop is longer, and arithmetic beyond it loses hundredths

function unknownKey(source: Source, schema: Schema, path: Path, key: string): Fault {
  const known = keysAt(schema, source.data, path);
  const near = nearest(key, known);
  const problem = atKey(
    source,
    [...path, key],
    `there is no key ${quote(key)} here`,
    known.length === 0 ? "no keys" : choice(known),
    near === null ? "take it out" : `did you mean ${quote(near)}?`,
  );
  return { problem, missing: null, meant: near === null ? null : pathText([...path, near]) };
}

/** Of a choice, the branch that the data was meant for: the one whose faults lie further in. */
function meantBranch(issue: z.core.$ZodIssueInvalidUnion): Issue[] | null {
  const inner = issue.errors.filter((branch) =>
    branch.every((fault) => fault.path.length > 0 || fault.code !== "invalid_type"),
  );
  return inner.length === 1 && inner[0]!.length > 0 ? inner[0]! : null;
}

function explain(source: Source, schema: Schema, issue: Issue, around: Path): Fault[] {
  const path = [...around, ...issue.path] as Path;
  if (issue.code === "unrecognized_keys") return issue.keys.map((key) => unknownKey(source, schema, path, key));
  if (issue.code === "invalid_union") {
    const branch = meantBranch(issue);
    if (branch !== null) return branch.flatMap((inner) => explain(source, schema, inner, path));
  }
  const key = String(path.at(-1) ?? "");
  if (issue.code === "invalid_key") {
    const { expected, remedy } = sentences(issue.issues[0] ?? issue);
    return [
      { problem: atKey(source, path, `found the id ${quote(key)}`, expected, remedy), missing: null, meant: null },
    ];
  }
  const { expected, remedy } = sentences(issue);
  const value = valueAt(source.data, path);
  if (value === undefined) {
    const problem = inputProblem(source, path, `${quote(key)} is missing`, expected, `add ${quote(key)}`);
    return [{ problem, missing: pathText(path), meant: null }];
  }
  const problem = inputProblem(source, path, `found ${valueText(value)}`, expected, remedy);
  return [{ problem, missing: null, meant: null }];
}

/** The field's own words, or plain ones for a shape that needs none of its own. */
function sentences(issue: Issue): { expected: string; remedy: string } {
  const said = saidBy(issue.message);
  if (said !== null) return said;
  if (issue.code !== "invalid_type") return { expected: issue.message, remedy: "change it" };
  const kind = issue.expected === "object" || issue.expected === "record" ? "an object { }" : `a ${issue.expected}`;
  return { expected: kind, remedy: `put ${kind} here` };
}

const A_LENGTH = 'a length, such as 30, "30 1/4" or "762 mm"';

function checkLength(source: Source, path: Path, value: number | string, { least }: LengthKind, unit: Unit): Problem[] {
  const parsed = parseLength(value, unit);
  const problem = (expected: string, remedy: string): Problem[] => [
    inputProblem(source, path, `found ${valueText(value)}`, expected, remedy),
  ];
  if (!parsed.ok) return problem(A_LENGTH, parsed.remedy);
  if (least !== "any" && parsed.mm < 0) {
    const expected = least === "zero" ? "a length of zero or more" : "a length above zero";
    return problem(expected, "give the size itself, without a minus sign");
  }
  if (least === "above zero" && parsed.mm === 0) return problem("a length above zero", "give the size itself");
  if (Math.abs(parsed.mm) > MOST) return problem("a length of at most 100 m", "check the unit");
  return [];
}

export type Checked<T> = { data: T | null; problems: Problem[] };

/** The data in its checked type, or null where its shape is wrong; problems either way, the file's own included. */
export function checkShape<S extends z.ZodType>(source: Source, schema: S, unit: Unit | null): Checked<z.infer<S>> {
  const parsed = schema.safeParse(source.data);
  const faults = parsed.success ? [] : parsed.error.issues.flatMap((issue) => explain(source, schema, issue, []));
  // "heigth" for "height" is one slip: that "height" is missing goes without saying.
  const meant = new Set(faults.flatMap((fault) => fault.meant ?? []));
  const shape = faults.filter(({ missing }) => missing === null || !meant.has(missing)).map(({ problem }) => problem);
  const lengths: Problem[] = [];
  eachLength(schema, source.data, (path, value, kind) => {
    // Without a unit that can be read there is a problem already; inches take every way of writing.
    lengths.push(...checkLength(source, path, value, kind, unit ?? "in"));
  });
  return { data: parsed.success ? parsed.data : null, problems: [...source.problems, ...shape, ...lengths] };
}
