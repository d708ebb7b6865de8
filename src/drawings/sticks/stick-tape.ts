/** The same numbers as the sticks carry, in columns for a tape: from each part's own end. */
import { formatLengthWithUnit } from "../../base/length.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetStick } from "../../set/schema.ts";
import { type Atom, figure, figureTwice, word, words } from "../draughting/cell.ts";
import { columnsOf, flow } from "../draughting/flow.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";
import { lineWord, readingsOf, type StickMark } from "./stick-words.ts";

const COLUMNS: Column[] = [
  { head: "What", grow: 1 },
  { head: "In parts" },
  { head: "Near wall" },
  { head: "Far wall" },
];

const GAP = 8;

/** One page of shapes after another, two columns a page. */
export function drawTape(set: DryfitSet, space: Rect): Shape[][] {
  const columns = columnsOf(space, space.width > 200 ? 2 : 1, GAP);
  const width = columns[0]!.width;
  return flow(
    set.sticks.map((stick) =>
      setTable(COLUMNS, rowsOf(set, stick), width).map((item, i) => (i === 0 ? { ...item, above: GAP } : item)),
    ),
    () => columns,
  );
}

function rowsOf(set: DryfitSet, stick: SetStick): Row[] {
  const { unit } = set.job;
  const pages = [...new Set(stick.tiles.map(({ page }) => page))].map((page) => `S-${page}`).join(", ");
  const where = pages === "" ? "as it is" : pages;
  return [
    { heading: words(`${stick.name}, ${formatLengthWithUnit(stick.length, unit)} (${where})`, undefined, "bold") },
    ...stick.marks.flatMap((mark) =>
      mark.kind === "end"
        ? endRows(set, stick, mark)
        : readingsOf(set, stick, mark).map((reading): Row => {
            const what = mark.kind === "line" ? lineWord(set, stick, mark) : mark.kind;
            return {
              cells: [
                words(mark.holds.length === 0 ? what : `${what} for ${mark.holds.join(", ")}`),
                words(reading.parts.join(", ")),
                figureTwice(reading.near, unit),
                mark.width === 0 ? [] : figureTwice(reading.far, unit),
              ],
            };
          }),
    ),
  ];
}

/** A part's far end is its length; its near end is where its figures begin. */
function endRows(set: DryfitSet, stick: SetStick, mark: StickMark): Row[] {
  const { unit } = set.job;
  return readingsOf(set, stick, mark).map(({ near, parts }): Row => {
    const where: Atom[] = near < 1e-6 && mark.at > 1e-6 ? [figure(mark.at, unit), word("from the zero end")] : [];
    return {
      cells: [
        [word(where.length > 0 ? "end," : "end"), ...where],
        words(parts.join(", ")),
        figureTwice(near, unit),
        [],
      ],
    };
  });
}
