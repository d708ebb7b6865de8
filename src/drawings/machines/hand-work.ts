/** What is done by hand after the grooves of a group, part by part. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { BREAK, FIGURE, glue, setLines, tick, word, words } from "../draughting/cell.ts";
import { type FlowGroup, flowItem, loosely } from "../draughting/flow.ts";
import { type Row, setTable } from "../draughting/table.ts";
import { BETWEEN, GAP, ruled, TITLE } from "./setting.ts";

export function handWorkGroups(set: DryfitSet, { parts }: SetGroup, width: Mm): FlowGroup[] {
  const own = set.handWork.filter(({ mark }) => parts.includes(mark));
  if (own.length === 0) return [];
  const title = setLines(
    [
      ...words("By hand, after every groove of the part", TITLE, "bold"),
      BREAK,
      ...words("A notched edge is no datum any more: all settings that need it come first."),
    ],
    width,
  );
  const rows = [...own]
    .sort((a, b) => byMark(a.mark, b.mark) || a.features[0]! - b.features[0]!)
    .map((work): Row => {
      const part = partOf(set, work.mark);
      return { cells: [[glue([tick(), word(work.mark, FIGURE, "bold")])], words(part.name), words(work.text)] };
    });
  const table = setTable([{ head: "Part" }, { head: "Name" }, { head: "Work", grow: 1 }], rows, width);
  return loosely([
    flowItem(ruled(title, width), { above: BETWEEN, keep: true }),
    ...table.map((item, i) => (i === 0 ? { ...item, above: GAP } : item)),
  ]);
}
