/** The text of a project or shop file as data, with the place of every value and key: what a message needs to point at it. */
import { readFileSync, statSync } from "node:fs";
import { createScanner, type Node, type ParseError, parseTree } from "jsonc-parser";
import { type Problem, ProblemsFound } from "../../base/problem.ts";
import { faultOf, isLastWord, TRAILING_COMMA } from "./syntax.ts";
import { type Path, pathText, quote } from "./words.ts";

export type Place = { line: number; column: number };

export type Source = {
  file: string;
  data: unknown;
  /** "cases[0].width" -> where the value stands. */
  lines: Record<string, Place>;
  /** "cases[0].width" -> where its key stands. */
  keys: Record<string, Place>;
  problems: Problem[];
};

const MOST_BYTES = 1_000_000; // a large real project is some tens of kilobytes
const MOST_LEVELS = 40; // nesting: a bay in a bay takes two, and twenty bays deep is no furniture

const unreadable = (found: string, expected: string, remedy: string): ProblemsFound =>
  new ProblemsFound([{ level: "error", kind: "input", where: null, found, expected, remedy }]);

const codeOf = (error: unknown): string =>
  error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : "";

function readText(file: string): string {
  try {
    const stat = statSync(file);
    if (stat.isDirectory())
      throw unreadable(`${quote(file)} is a folder`, "a project file", "name the .json file inside it");
    if (stat.size > MOST_BYTES) {
      throw unreadable(
        `${quote(file)} is ${(stat.size / 1e6).toFixed(1)} MB`,
        `a file of at most ${MOST_BYTES / 1e6} MB`,
        "check that this is a project file; a real one is some kilobytes",
      );
    }
    return new TextDecoder("utf-8", { fatal: true }).decode(readFileSync(file));
  } catch (error) {
    if (error instanceof ProblemsFound) throw error;
    if (error instanceof TypeError) {
      throw unreadable(`${quote(file)} is not text in UTF-8`, "a plain text file", "save it as UTF-8 in a text editor");
    }
    const code = codeOf(error);
    if (code === "ENOENT" || code === "ENOTDIR") {
      throw unreadable(`there is no file ${quote(file)}`, "a project file", "check the name and the folder you are in");
    }
    if (code === "EACCES" || code === "EPERM") {
      throw unreadable(`${quote(file)} may not be read`, "a file you may read", "change its permissions");
    }
    throw error;
  }
}

/** Offsets to line and column, both from 1. */
function placesIn(text: string): (offset: number) => Place {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\r|\n/g)) starts.push(match.index + match[0].length);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - starts[low]! + 1 };
  };
}

type Scan = { tooDeep: number | null; trailingCommas: number[] };

/** One pass over the tokens before parsing: nesting that a recursive parser would choke on, and commas before a closing bracket. */
function scan(text: string): Scan {
  const scanner = createScanner(text, true);
  const trailingCommas: number[] = [];
  let depth = 0;
  let comma: number | null = null;
  for (scanner.scan(); scanner.getTokenLength() > 0; scanner.scan()) {
    const offset = scanner.getTokenOffset();
    const first = text[offset]!; // text in quotes begins with its quote
    if (first === "{" || first === "[") depth++;
    if (first === "}" || first === "]") {
      depth--;
      if (comma !== null) trailingCommas.push(comma);
    }
    if (depth > MOST_LEVELS) return { tooDeep: offset, trailingCommas };
    comma = first === "," ? offset : null;
  }
  return { tooDeep: null, trailingCommas };
}

/** The file as data. Syntax that cannot be read past is thrown; what can (a trailing comma, a key given twice) comes back with the data. */
export const readSource = (file: string): Source => sourceOf(readText(file), file);

/** The same from text; `file` is what messages call it. */
export function sourceOf(text: string, file: string): Source {
  const placeOf = placesIn(text);
  const problems: Problem[] = [];
  const add = (offset: number, path: string, found: string, expected: string, remedy: string): void => {
    problems.push({
      level: "error",
      kind: "input",
      where: { file, ...placeOf(offset), path },
      found,
      expected,
      remedy,
    });
  };

  const { tooDeep, trailingCommas } = scan(text);
  if (tooDeep !== null) {
    add(
      tooDeep,
      "",
      `brackets nested more than ${MOST_LEVELS} deep`,
      `at most ${MOST_LEVELS} levels`,
      "check that this is a project file; divide bays with fewer levels",
    );
    throw new ProblemsFound(problems);
  }
  for (const offset of trailingCommas)
    add(offset, "", TRAILING_COMMA.found, TRAILING_COMMA.expected, TRAILING_COMMA.remedy);

  const errors: ParseError[] = [];
  const tree = parseTree(text, errors, { allowTrailingComma: true });
  if (errors.length > 0 || tree === undefined) {
    const told = new Set<number>(); // one slip of the pen often makes a parser complain several times on its line
    for (const error of errors) {
      const { line } = placeOf(error.offset);
      if (told.has(line)) continue;
      told.add(line);
      const end = error.offset + error.length;
      const fault = faultOf(error.error, {
        before: text.slice(0, error.offset),
        text: text.slice(error.offset, end),
        after: text.slice(end),
      });
      add(error.offset, "", fault.found, fault.expected, fault.remedy);
      if (isLastWord(error.error)) break;
    }
    throw new ProblemsFound(inFileOrder(problems));
  }

  // Without a prototype: a key may be called "constructor".
  const lines: Record<string, Place> = Object.create(null);
  const keys: Record<string, Place> = Object.create(null);
  const read = (node: Node, path: Path): unknown => {
    lines[pathText(path)] = placeOf(node.offset);
    if (node.type === "array") return (node.children ?? []).map((child, i) => read(child, [...path, i]));
    if (node.type !== "object") return node.value;
    const entries = new Map<string, unknown>();
    for (const property of node.children ?? []) {
      const [key, value] = property.children ?? [];
      if (key === undefined || value === undefined) continue;
      const name = String(key.value);
      const at = [...path, name];
      if (name === "__proto__") {
        // Legal text, but libraries drop such a key without a word.
        add(
          key.offset,
          pathText(at),
          `the key ${quote(name)} has a meaning of its own in programs`,
          "another name",
          "take it out",
        );
        continue;
      }
      if (entries.has(name)) {
        const first = keys[pathText(at)]!;
        add(
          key.offset,
          pathText(at),
          `the key ${quote(name)} stands here for the second time`,
          "each key once",
          `take out this one, or the one in line ${first.line}`,
        );
        continue;
      }
      keys[pathText(at)] = placeOf(key.offset);
      entries.set(name, read(value, at));
    }
    return Object.fromEntries(entries);
  };
  return { file, data: read(tree, []), lines, keys, problems };
}

/** As a reader meets them, top to bottom; what has no place comes first. */
export const inFileOrder = (problems: Problem[]): Problem[] =>
  [...problems].sort(
    (a, b) => (a.where?.line ?? 0) - (b.where?.line ?? 0) || (a.where?.column ?? 0) - (b.where?.column ?? 0),
  );
