/** Slots and holes for a worktop's screws, part by part, by the middles of their round ends: what is marked out on each. */
import { type Mm, SAME } from "../../base/length.ts";
import { edgeThen } from "../../set/facing.ts";
import type { DryfitSet, SetFeature, SetPart, SetWorktop } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { FIGURE, figure, tick, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Column, drawTable, type Row } from "../draughting/table.ts";

const COLUMNS: Column[] = [
  { head: "" },
  { head: "Count" },
  { head: "Bit", firm: true },
  { head: "Ends drilled at", grow: 1 },
  { head: "from the" },
  { head: "Middles at", grow: 2 },
  { head: "from the" },
];

export function drawSlots(set: DryfitSet, { mark, screws, assembly }: SetWorktop): Draft[] {
  const marks = [...new Set(screws.flatMap(({ through }) => through))];
  const rows = marks.flatMap((one) => rowsOf(set, partOf(set, one), mark));
  const name = set.worktops.length === 1 ? "Slots for the worktop" : `Slots for ${assembly}`;
  return numberDrafts(`worktop-${mark}-slots`, name, drawTable(COLUMNS, rows, drawingSpace(set)));
}

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
