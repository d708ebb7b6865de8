/** Slots and holes for a worktop's screws, part by part, by the middles of their round ends: what is marked out on each. */
import { type Mm, SAME } from "../../base/length.ts";
import { edgeThen } from "../../set/facing.ts";
import type { DryfitSet, SetFeature, SetPart, SetWorktop } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { FIGURE, figure, tick, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import type { FlowGroup } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Column, drawTable, type Row, setTable } from "../draughting/table.ts";

const COLUMNS: Column[] = [
  { head: "" },
  { head: "Count" },
  { head: "Bit", firm: true },
  { head: "Ends drilled at", grow: 1 },
  { head: "from the" },
  { head: "Middles at", grow: 2 },
  { head: "from the" },
];

/** The table, as wide as this, under its heads. */
export const slotTable = (set: DryfitSet, top: SetWorktop, width: Mm): FlowGroup =>
  setTable(COLUMNS, slotRows(set, top), width);

/** On drawings of its own. */
export function drawSlots(set: DryfitSet, top: SetWorktop): Draft[] {
  const name = set.worktops.length === 1 ? "Slots for the worktop" : `Slots for ${top.assembly}`;
  return numberDrafts(`worktop-${top.mark}-slots`, name, drawTable(COLUMNS, slotRows(set, top), drawingSpace(set)));
}

const slotRows = (set: DryfitSet, { mark, screws }: SetWorktop): Row[] =>
  [...new Set(screws.flatMap(({ through }) => through))].flatMap((one) => rowsOf(set, partOf(set, one), mark));

/** Slots that begin and end alike are one row. */
function rowsOf(set: DryfitSet, part: SetPart, holds: string): Row[] {
  const { unit } = set.job;
  const alike = new Map<string, SetFeature[]>();
  for (const slot of part.features.filter((one) => one.kind === "slot" && one.holds === holds)) {
    const key = `${slot.along} ${slot.from.toFixed(4)} ${slot.to.toFixed(4)}`;
    alike.set(key, [...(alike.get(key) ?? []), slot]);
  }
  return [
    { heading: words(`${part.name} ${part.mark}`, FIGURE, "bold") },
    ...[...alike.values()].map((slots): Row => {
      const [{ along, from, to, width }] = slots as [SetFeature];
      const ends: Mm[] = to - from - width < SAME ? [from + width / 2] : [from + width / 2, to - width / 2];
      return {
        cells: [
          [tick()],
          words(`${slots.length} ${ends.length === 1 ? "round" : slots.length === 1 ? "slot" : "slots"}`),
          [figure(width, unit)],
          figuresInWords(ends, unit),
          words(edgeThen(part, `${along}0`)),
          figuresInWords(
            slots.map((slot) => slot.at + width / 2).sort((a, b) => a - b),
            unit,
          ),
          words(edgeThen(part, along === "l" ? "w0" : "l0")),
        ],
      };
    }),
  ];
}
