/** What two pages say of one thing: the cut list, the part drawings and the stock as measured. */

import type { CutList, ListedPart } from "./cut-list.ts";
import { ROUNDED, roundedBy } from "./figure.ts";
import { isGlued } from "./part/fixed.ts";
import type { ReadPart } from "./part/part.ts";
import { asLettered } from "./prose.ts";
import type { MeasuredStock } from "./stock-table.ts";

export function agreementFaults(
  list: CutList,
  stocks: readonly MeasuredStock[],
  parts: readonly ReadPart[],
  unit: "mm" | "in",
): string[] {
  const drawn = parts.flatMap((read) => read.caption.marks.map((mark) => ({ mark, read })));
  const listed = list.parts.flatMap((part) => part.marks.map((mark) => ({ mark, part })));
  const marks = [...new Set([...drawn, ...listed].map(({ mark }) => mark))];
  return [
    ...marks.flatMap((mark) => {
      const own = drawn.filter((one) => one.mark === mark);
      const rows = listed.filter((one) => one.mark === mark);
      if (own.length !== 1 || rows.length !== 1)
        return [`${mark} is drawn ${own.length} times and listed ${rows.length} times`];
      return partFaults(mark, own[0]!.read, rows[0]!.part, unit);
    }),
    ...list.stocks.flatMap((stock) => {
      const own = stocks.find(({ name }) => name === stock.name);
      if (own === undefined) return [`${stock.name} is not measured`];
      return own.nominal === stock.nominal && own.mean === stock.measured
        ? []
        : [`${stock.name} is ${stock.nominal}, measured ${stock.measured}, and ${own.nominal}, measured ${own.mean}`];
    }),
    ...stocks.flatMap((stock) => stockFaults(stock, unit)),
    ...parts.flatMap((read) => fixedFaults(read, parts, unit)),
  ];
}

/** What is fixed by its edge has its screws in the middle of that: half its thickness from its near face. Of what lies flat its own drawing says where its row is. */
function fixedFaults(read: ReadPart, parts: readonly ReadPart[], unit: "mm" | "in"): string[] {
  const { caption, notes, fixed, names } = read;
  return notes.flatMap((note) => {
    if (note.kind !== "fixed" || isGlued(note) || (note.lines !== null && !note.isTabled)) return [];
    return note.marks.flatMap((mark, i) => {
      const other = parts.find((one) => one.caption.marks.includes(mark));
      const found = fixed.filter((one) => one.mark === mark);
      if (other === undefined || found.length === 0)
        return [`part ${caption.marks}: where ${mark} is fixed is not drawn`];
      const { length, width, thickness } = other.caption;
      // What is only glued may lie flat.
      const wide = note.screws === null && !note.how.includes("dowels") ? [thickness, width, length] : [thickness];
      return found.flatMap(({ axis, at }) => {
        const size = axis === "l" ? caption.length : caption.width;
        const from = names[`${axis}1`] === note.edge ? size - at : at;
        // It may have no more than what is left beside it.
        const near = note.near[i]!;
        const room = note.isFar ? near : size - near;
        const wanted = wide.map((one) => near + ((note.isFar ? -1 : 1) * Math.min(one, room)) / 2);
        return wanted.some((one) => Math.abs(from - one) <= 1.5 * ROUNDED[unit])
          ? []
          : [`part ${caption.marks}: the line for ${mark} is ${from} from the ${note.edge}, and not ${wanted}`];
      });
    });
  });
}

/** Lengths follow the mean of the readings, grooves the thickest. */
function stockFaults({ name, readings, mean, thickest }: MeasuredStock, unit: "mm" | "in"): string[] {
  if (readings.length === 0) return [];
  const average = readings.reduce((sum, one) => sum + one, 0) / readings.length;
  return [
    ...(Math.abs(average - mean) <= 2 * ROUNDED[unit] ? [] : [`${name}: ${mean} is not the mean of ${readings}`]),
    ...(Math.max(...readings) === thickest ? [] : [`${name}: ${thickest} is not the thickest of ${readings}`]),
  ];
}

function partFaults(mark: string, read: ReadPart, row: ListedPart, unit: "mm" | "in"): string[] {
  const { caption } = read;
  const faults: string[] = [];
  const same = (what: string, a: unknown, b: unknown): void => {
    if (a !== b) faults.push(`part ${mark}: ${what} ${a} on its drawing, ${b} on the cut list`);
  };
  same("length", caption.length, row.length);
  same("width", caption.width, row.width);
  same("thickness", caption.thickness, row.thickness);
  same("hand", caption.hand, row.hand);
  same("stock", asLettered(caption.stock), row.stock);
  same("grain", caption.grain, row.grain);
  const panel = read.notes.find((note) => note.kind === "panel");
  if (panel?.kind === "panel") {
    same("panel length", panel.length.value, row.panel?.length);
    same("panel width", panel.width.value, row.panel?.width);
  }
  const lippings = read.notes.filter((note) => note.kind === "lipping");
  for (const one of row.lippings) {
    const known = lippings.some(({ thickness, length }) => thickness === one.thickness && length.value === one.length);
    // Put on, it is as wide as the part is thick.
    if (!known || one.width !== row.thickness) faults.push(`part ${mark}: the lipping ${one.id} is told otherwise`);
  }
  return [...faults, ...sumFaults(mark, read, row, unit)];
}

/** What stands beside the clear size in a sum is what each end has in its groove: the depth less the gap. */
function sumFaults(mark: string, { notes }: ReadPart, { sums }: ListedPart, unit: "mm" | "in"): string[] {
  const seats = notes
    .filter((note) => note.kind === "seats")
    .filter(({ marks }) => marks === null || marks.includes(mark))
    .flatMap((note) =>
      note.seats.flatMap((seat) =>
        seat.ends.map(({ end }) => ({
          end,
          in: seat.depth - seat.gap,
          within: ROUNDED[unit] + roundedBy(seat.depth, unit),
        })),
      ),
    );
  return sums.flatMap(({ axis, terms }) => {
    const held = seats.filter(({ end }) => end.endsWith(axis === "l" ? "end" : "edge"));
    const own = [
      ...held,
      // Halved, it lies over the other by the width of the lap.
      ...notes.flatMap((note) => (note.kind === "lap" ? [{ in: note.width.value, within: ROUNDED[unit] }] : [])),
      // Dovetailed, it ends in tails as long as their baseline stands from the end.
      ...notes.flatMap((note) => (note.kind === "dovetail" ? [{ in: note.baseline, within: ROUNDED[unit] }] : [])),
    ];
    const isSame = (seat: { in: number; within: number }, term: number): boolean =>
      Math.abs(seat.in - term) <= seat.within;
    const ends = terms.slice(1);
    return [
      ...ends
        .filter((term) => !own.some((one) => isSame(one, term)))
        .map((term) => `part ${mark}: ${term} of its sum is in no groove (${own.map((one) => one.in)})`),
      ...held
        .filter((one) => !ends.some((term) => isSame(one, term)))
        .map((one) => `part ${mark}: ${one.in} is in a groove, and not in its sum (${ends})`),
    ];
  });
}
