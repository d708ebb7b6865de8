/** The gates of a group: what must be true before its first cut, with the figures as built to be written in, and that all is at size before its first groove. */
import type { Mm, Unit } from "../../base/length.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import { abreast, GUTTER } from "../draughting/abreast.ts";
import { type Atom, FIGURE, figureTwice, glue, setLines, tick, word, words, writeIn } from "../draughting/cell.ts";
import { type FlowGroup, flowItem } from "../draughting/flow.ts";
import { setTable } from "../draughting/table.ts";
import { ruled } from "./setting.ts";

const NAME: Mm = 5.5;
const BETWEEN: Mm = 8;
const GAP: Mm = 2.2;
const WRITE: Mm = 22;
const HALVES: Mm = 220; // boxes in two tables from here on
const MOST: Mm = 150; // a wider table puts the box far from its label

const gate = (text: string, passed: string): Atom[] => [
  word("Gate.", FIGURE, "bold"),
  ...words(text, FIGURE),
  glue([word(passed, FIGURE, "bold"), tick()]),
];

/** Its name, what must be true before it is begun, and the figures measured on what stands. */
export function groupHead(
  { job }: Pick<DryfitSet, "job">,
  { title, gate: { text, boxes } }: SetGroup,
  width: Mm,
): FlowGroup {
  const name = setLines(words(title, NAME, "bold"), width);
  const table = boxes.length === 0 ? [] : setBoxes(boxes, job.unit, width);
  return [
    flowItem(ruled(name, width), { above: BETWEEN, keep: true }),
    flowItem(setLines(gate(text, "True"), width), { above: GAP, keep: true }),
    ...table.map((item, i) => ({ ...item, above: i === 0 ? GAP : item.above, keep: true })),
  ];
}

/** Where there is width for it, in two tables beside each other. */
function setBoxes(boxes: SetGroup["gate"]["boxes"], unit: Unit, width: Mm): FlowGroup {
  const table = (some: typeof boxes, wide: Mm): FlowGroup =>
    setTable(
      [{ head: "Measure", grow: 1 }, { head: "Reckoned with" }, { head: "As built" }],
      some.map(({ label, target }) => ({
        cells: [words(label), figureTwice(target, unit, FIGURE, "bold"), [writeIn(WRITE)]],
      })),
      wide,
    );
  if (width < HALVES || boxes.length < 4) return table(boxes, Math.min(width, MOST));
  const wide = Math.min(MOST, (width - GUTTER) / 2);
  const half = Math.ceil(boxes.length / 2);
  return abreast([table(boxes.slice(0, half), wide), table(boxes.slice(half), wide)], wide);
}

/** Before a group's first groove. */
export const gateOf = ({ title }: SetGroup, first: number, width: Mm): FlowGroup => [
  flowItem(
    setLines(
      gate(
        `${title}: every part at its final length and width, ticked on the cut list, before setting ${first}.`,
        "All at size",
      ),
      width,
    ),
    { above: BETWEEN, keep: true },
  ),
];
