/** What is done by hand after the grooves and holes of a group, part by part. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { BREAK, FIGURE, glue, setLines, stackBlocks, TEXT, tick, word, words } from "../draughting/cell.ts";
import { type FlowGroup, flowItem, loosely } from "../draughting/flow.ts";
import { type Row, setTable } from "../draughting/table.ts";
import { BETWEEN, GAP, ruled, TITLE } from "./setting.ts";

const PARTS: Mm = 62; // some six boxes with their marks

export function handWorkGroups(set: DryfitSet, { parts }: SetGroup, width: Mm): FlowGroup[] {
  const own = set.handWork.filter(({ mark }) => parts.includes(mark));
  if (own.length === 0) return [];
  const title = setLines(
    [
      ...words("By hand, after every groove of the part", TITLE, "bold"),
      BREAK,
      ...words("A notched edge is no datum any more: all settings and holes that need it come first."),
    ],
    width,
  );
  const rows = alike(set, own).map(
    ({ name, text, marks }): Row => ({
      cells: [marks.map((mark) => glue([tick(), word(mark, FIGURE, "bold")])), words(name), words(text)],
    }),
  );
  const table = setTable([{ head: "Part", most: PARTS }, { head: "Name" }, { head: "Work", grow: 1 }], rows, width);
  const again = setLines(words("By hand (continued)", TEXT, "bold"), width);
  return loosely([
    flowItem(ruled(title, width), { above: BETWEEN, keep: true }),
    ...table.map((item, i) => ({
      ...item,
      above: i === 0 ? GAP : item.above,
      head: item.head === null ? null : stackBlocks([again, item.head], GAP),
    })),
  ]);
}

type Alike = { name: string; text: string; marks: string[] };

/** In the order of the first part of each; parts that are worked alike stand in one row, each with its box. */
function alike(set: DryfitSet, own: readonly DryfitSet["handWork"][number][]): Alike[] {
  const rows: Alike[] = [];
  const inOrder = [...own].sort((a, b) => byMark(a.mark, b.mark) || a.features[0]! - b.features[0]!);
  for (const { mark, text } of inOrder) {
    const { name } = partOf(set, mark);
    const row = rows.find((one) => one.name === name && one.text === text && !one.marks.includes(mark));
    if (row === undefined) rows.push({ name, text, marks: [mark] });
    else row.marks.push(mark);
  }
  return rows;
}
