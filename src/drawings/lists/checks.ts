/** What was checked and found, the worst first. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { type Block, besideBlocks, SMALL, setLines, TEXT, tick, word, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { type FlowItem, flowEvenly, flowItem, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";

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
  { head: "Check", firm: true },
  { head: "Parts", most: 30 },
  { head: "Found", grow: 3 },
  { head: "To change", grow: 2 },
  { head: "Rule", align: "end" },
  { head: "Seen" },
];

/** What passed asks for nothing, and rules are looked up by their number: both stand small, in columns as wide as the paper has room for. */
const COLUMN_AIR: Mm = 8;
const LEAST_COLUMN: Mm = 95;
const ROW_AIR: Mm = 1.2;
const NUMBER: Mm = 6; // a rule's number, beside its text or before it

const columnsIn = (width: Mm): number => Math.max(1, Math.floor((width + COLUMN_AIR) / (LEAST_COLUMN + COLUMN_AIR)));

/** Blocks in rows of as many as there are columns, a heading over them that comes again where they run on. */
function inColumns(heading: string, width: Mm, draw: ((width: Mm) => Block)[]): FlowItem[] {
  if (draw.length === 0) return [];
  const columns = columnsIn(width);
  const each = (width - COLUMN_AIR * (columns - 1)) / columns;
  const head = (content: string): Block => {
    const block = setLines(words(content, TEXT, "bold"), width);
    return { ...block, height: block.height + ROW_AIR };
  };
  const again = head(`${heading} (continued)`);
  const rows = Array.from({ length: Math.ceil(draw.length / columns) }, (_, i) => {
    const blocks = draw.slice(i * columns, (i + 1) * columns).map((one) => ({ ...one(each), width: each }));
    return flowItem(besideBlocks(blocks, COLUMN_AIR), { above: ROW_AIR, head: again });
  });
  return [flowItem(head(heading), { above: GROUP_AIR, keep: true }), { ...rows[0]!, above: 0 }, ...rows.slice(1)];
}

/** "web  6, 9  The thinnest is ...   12": what passed, with the number of its rule. */
const passedBlock =
  (check: SetCheck, number: string) =>
  (width: Mm): Block => {
    const marks = [...check.parts].sort(byMark).join(", ");
    const text = setLines(
      [...words(`${nameOf(check)}:`, SMALL, "bold"), ...words(marks, SMALL, "bold"), ...words(check.text, SMALL)],
      width - NUMBER,
    );
    return besideBlocks([{ ...text, width: width - NUMBER }, setLines(words(number, SMALL), NUMBER, "end")], 0);
  };

/** A rule serves many checks: it stands once, under the tables, and its number in the row. */
const ruleBlock =
  (rule: string, number: number) =>
  (width: Mm): Block =>
    besideBlocks(
      [
        { ...setLines([word(`${number}`, SMALL, "bold")], NUMBER), width: NUMBER },
        setLines(words(rule, SMALL), width - NUMBER),
      ],
      0,
    );

const GROUP_AIR: Mm = 5;

const nameOf = ({ id }: SetCheck): string => id.replaceAll("-", " ");

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

/** Failures and warnings are to be read standing; notes stand smaller. */
const sizeOf = (level: Level): Mm => (level === "note" ? SMALL : TEXT);

export function drawChecks(set: DryfitSet): Draft[] {
  const space = drawingSpace(set);
  const rules = rulesOf(set);
  const numberOf = ({ rule }: SetCheck): string => (rule === null ? "" : `${rules.indexOf(rule) + 1}`);
  const told = LEVELS.filter(({ level }) => level !== "ok").flatMap(({ level, word: result, weight }) =>
    set.checks
      .filter((check) => check.level === level)
      .map((check): Row => {
        const size = sizeOf(level);
        const number = numberOf(check);
        return {
          cells: [
            [word(result, size, weight)],
            words(nameOf(check), size),
            words([...check.parts].sort(byMark).join(", "), size, "bold"),
            words(check.text, size),
            words(check.change ?? "", size),
            number === "" ? [] : [word(number, size)],
            [tick()],
          ],
        };
      }),
  );
  const passed = set.checks.filter(({ level }) => level === "ok");
  const summary = flowItem(setLines(words(countWords(set), 3.5, "bold"), space.width), { keep: true });
  const table = told.length === 0 ? [] : setTable(COLUMNS, told, space.width);
  const items = [
    summary,
    ...table.map((item, i) => (i === 0 ? { ...item, above: 3 } : item)),
    ...inColumns(
      "Passed",
      space.width,
      passed.map((check) => passedBlock(check, numberOf(check))),
    ),
    ...inColumns(
      "What was asked, and who says so",
      space.width,
      rules.map((rule, i) => ruleBlock(rule, i + 1)),
    ),
  ];
  return numberDrafts(
    "checks",
    "Checks",
    flowEvenly(loosely(items), () => [space]),
  );
}
