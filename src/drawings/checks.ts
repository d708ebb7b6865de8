/** What was checked and found, the worst first. */
import type { DryfitSet, SetCheck } from "../set/schema.ts";
import { byMark } from "../set/words.ts";
import { type Atom, setLines, tick, word, words } from "./cell.ts";
import type { Draft } from "./draft.ts";
import { flow, flowItem, loosely } from "./flow.ts";
import { drawingSpace } from "./frame.ts";
import { numberDrafts } from "./numbered.ts";
import { type Column, type Row, setTable } from "./table.ts";

type Level = SetCheck["level"];

/** The order on paper, and the word in the first column. */
const LEVELS: readonly { level: Level; word: string; weight: "regular" | "bold" }[] = [
  { level: "failure", word: "FAILURE", weight: "bold" },
  { level: "warning", word: "Warning", weight: "bold" },
  { level: "note", word: "Note", weight: "regular" },
  { level: "ok", word: "OK", weight: "regular" },
];

const COLUMNS: readonly Column[] = [
  { head: "Result" },
  { head: "Check", most: 17 },
  { head: "Parts", most: 26 },
  { head: "Found", grow: 3 },
  { head: "To change", most: 66, grow: 1 },
  { head: "Rule", align: "end" },
  { head: "Seen" },
];

/** What passed asks for nothing: a line each, where it fits. */
const PASSED_COLUMNS: readonly Column[] = [
  { head: "Passed", firm: true },
  { head: "Parts", most: 26 },
  { head: "Found", grow: 1 },
  { head: "Rule", align: "end" },
];

/** A rule serves many checks: it stands once, under the tables, and its number in the row. */
const RULE_COLUMNS: readonly Column[] = [
  { head: "Rule", align: "end" },
  { head: "What was asked, and who says so", grow: 1 },
];

function countWords(set: DryfitSet): string {
  const counts = LEVELS.map(({ level }) => set.checks.filter((check) => check.level === level).length);
  const [failures, warnings, notes, passed] = counts as [number, number, number, number];
  const many = (n: number, one: string): string => `${n} ${one}${n === 1 ? "" : "s"}`;
  return `${many(failures, "failure")}, ${many(warnings, "warning")}, ${many(notes, "note")}, ${passed} passed.`;
}

/** In the order in which the rows bring them. */
function rulesOf(set: DryfitSet): string[] {
  const shown = LEVELS.flatMap(({ level }) => set.checks.filter((check) => check.level === level));
  return [...new Set(shown.flatMap(({ rule }) => (rule === null ? [] : [rule])))];
}

export function drawChecks(set: DryfitSet): Draft[] {
  const space = drawingSpace(set);
  const rules = rulesOf(set);
  const rule = ({ rule: one }: SetCheck): Atom[] => (one === null ? [] : [word(`${rules.indexOf(one) + 1}`)]);
  const name = ({ id }: SetCheck): Atom[] => words(id.replaceAll("-", " "));
  const parts = (check: SetCheck): Atom[] => words([...check.parts].sort(byMark).join(", "), undefined, "bold");
  const told = LEVELS.filter(({ level }) => level !== "ok").flatMap(({ level, word: result, weight }) =>
    set.checks
      .filter((check) => check.level === level)
      .map(
        (check): Row => ({
          cells: [
            [word(result, undefined, weight)],
            name(check),
            parts(check),
            words(check.text),
            words(check.change ?? ""),
            rule(check),
            [tick()],
          ],
        }),
      ),
  );
  const passed = set.checks
    .filter(({ level }) => level === "ok")
    .map((check): Row => ({ cells: [name(check), parts(check), words(check.text), rule(check)] }));
  const sources = rules.map((one, i): Row => ({ cells: [[word(`${i + 1}`)], words(one)] }));
  const tables = [
    { columns: COLUMNS, rows: told },
    { columns: PASSED_COLUMNS, rows: passed },
    { columns: RULE_COLUMNS, rows: sources },
  ].filter(({ rows }) => rows.length > 0);
  const groups = tables.flatMap(({ columns, rows }, n) => {
    const [head, ...rest] = setTable(columns, rows, space.width);
    return loosely([{ ...head!, above: n === 0 ? 3 : 7 }, ...rest]);
  });
  const summary = flowItem(setLines(words(countWords(set), 3.5, "bold"), space.width), { keep: true });
  return numberDrafts(
    "checks",
    "Checks",
    flow(loosely([summary, ...groups.flat()]), () => [space]),
  );
}
