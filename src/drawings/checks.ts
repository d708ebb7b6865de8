/** What was checked and found, the worst first. */
import type { DryfitSet, SetCheck } from "../set/schema.ts";
import { byMark } from "../set/words.ts";
import { type Atom, setLines, tick, word, words } from "./cell.ts";
import type { Draft } from "./draft.ts";
import { flow, flowItem } from "./flow.ts";
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
  { head: "Check" },
  { head: "Parts", most: 44 },
  { head: "Found", grow: 1 },
  { head: "Seen" },
];

function countWords(set: DryfitSet): string {
  const counts = LEVELS.map(({ level }) => set.checks.filter((check) => check.level === level).length);
  const [failures, warnings, notes, passed] = counts as [number, number, number, number];
  const many = (n: number, one: string): string => `${n} ${one}${n === 1 ? "" : "s"}`;
  return `${many(failures, "failure")}, ${many(warnings, "warning")}, ${many(notes, "note")}, ${passed} passed.`;
}

export function drawChecks(set: DryfitSet): Draft[] {
  const space = drawingSpace(set);
  const rows = LEVELS.flatMap(({ level, word: name, weight }) =>
    set.checks
      .filter((check) => check.level === level)
      .map(
        (check): Row => ({
          cells: [
            [word(name, undefined, weight)],
            words(check.id.replaceAll("-", " ")),
            words([...check.parts].sort(byMark).join(", "), undefined, "bold"),
            words(check.text),
            level === "ok" ? [] : [tick()],
          ],
        }),
      ),
  );
  const summary: Atom[] = words(countWords(set), 3.5, "bold");
  const table = setTable(COLUMNS, rows, space.width);
  return numberDrafts(
    "checks",
    "Checks",
    flow(
      [
        [
          flowItem(setLines(summary, space.width), { keep: true }),
          ...table.map((item, i) => (i === 0 ? { ...item, above: 3 } : item)),
        ],
      ],
      () => [space],
    ),
  );
}
