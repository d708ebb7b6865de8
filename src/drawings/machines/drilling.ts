/** Drilling: for each bit and stop the rows of holes that it drills, with the scrap test and the caution. */
import type { Unit } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import { axisOfFace, faceWords, isDrilledThrough } from "../../set/facing.ts";
import type { DryfitSet, SetDrilling, SetGroup, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { boreFigure } from "../draughting/bore.ts";
import { setCaution } from "../draughting/caution.ts";
import { type Atom, FIGURE, figureTwice, setLines, tick, word, words } from "../draughting/cell.ts";
import { type FlowGroup, flowItem } from "../draughting/flow.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";
import { BETWEEN, ruled, TITLE } from "./setting.ts";

const COLUMNS: readonly Column[] = [
  { head: "", most: 24 },
  { head: "Parts", most: 50 },
  { head: "Into", most: 60 },
  { head: "First hole from" },
  { head: "Distance" },
  { head: "Then" },
  { head: "In from" },
  { head: "Distance" },
  { head: "Row", grow: 1 },
];

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

type HoleRow = SetDrilling["rows"][number];

/** What a row tells but for its part: rows that agree in it are drilled alike, and stand in one line. */
const asTold = (row: HoleRow, part: SetPart): string =>
  JSON.stringify([
    [row.face, row.datum, row.edge].map((face) => faceWords(part, face)),
    [row.first, row.pitch, row.count, row.distance].map((figureOf) => figureOf.toFixed(4)),
    noteOf(part, row),
  ]);

/** `rows`: the same on every part. */
function rowOf(rows: readonly HoleRow[], parts: readonly SetPart[], unit: Unit): Row {
  const [row] = rows as [HoleRow];
  const part = parts.find(({ mark }) => mark === row.mark)!;
  const then: Atom[] =
    row.count === 1 ? words("no more") : [word(`${row.count - 1} \u00d7`, FIGURE), ...figureTwice(row.pitch, unit)];
  return {
    cells: [
      rows.map(() => tick()),
      words(
        rows
          .map(({ mark }) => mark)
          .sort(byMark)
          .join(", "),
        FIGURE,
        "bold",
      ),
      words(faceWords(part, row.face)),
      words(faceWords(part, row.datum)),
      figureTwice(row.first, unit, FIGURE, "bold"),
      then,
      words(faceWords(part, row.edge)),
      figureTwice(row.distance, unit, FIGURE, "bold"),
      words(noteOf(part, row)),
    ],
  };
}

/** Which edge is meant where a lipping is still to come. */
function noteOf(part: SetPart, row: HoleRow): string {
  const later = part.lippings.some(
    ({ edge, lipped }) => lipped === "after" && (edge === row.edge || edge === row.datum),
  );
  const before = later ? " Measured before lipping." : "";
  const kind = `${row.count} ${row.count === 1 ? "hole" : "holes"}${axisOfFace(row.face) === "t" ? "" : row.face[0] === "l" ? ", into the end" : ", into the edge"}`;
  return `${kind}.${before}`;
}

/** Right through every part that they are drilled into. */
const isThrough = ({ depth, rows }: SetDrilling, parts: readonly SetPart[]): boolean =>
  rows.every(({ mark, face }) => isDrilledThrough(parts.find((part) => part.mark === mark)!, face, depth));

function gathered(rows: readonly HoleRow[], parts: readonly SetPart[]): HoleRow[][] {
  const heaps = new Map<string, HoleRow[]>();
  for (const row of rows) {
    const key = asTold(row, parts.find(({ mark }) => mark === row.mark)!);
    heaps.set(key, [...(heaps.get(key) ?? []), row]);
  }
  return [...heaps.values()];
}

export function drillingGroups(set: DryfitSet, group: SetGroup, { width }: Rect): FlowGroup[] {
  const { unit } = set.job;
  const own = set.drilling.filter((one) => one.group === group.n);
  return own.map((one, i): FlowGroup => {
    const title = setLines(
      [
        ...words(`Drilling ${one.n}`, TITLE, "bold"),
        ...(i === 0 ? words("After the grooves, from the ends and edges that are told.") : []),
      ],
      width,
    );
    const head: Atom[] = [
      ...words("Holes of", FIGURE),
      ...boreFigure(one.diameter, unit, true),
      ...words("for", FIGURE),
      ...words(`${one.holds},`, FIGURE),
      ...(isThrough(one, set.parts)
        ? words("right through", FIGURE)
        : [...figureTwice(one.depth, unit, FIGURE, "bold"), ...words("deep", FIGURE)]),
    ];
    const table = setTable(
      COLUMNS,
      gathered(one.rows, set.parts).map((rows) => rowOf(rows, set.parts, unit)),
      width,
    );
    return [
      flowItem(ruled(title, width), { above: BETWEEN, keep: true }),
      flowItem(setLines(head, width), { above: 2, keep: true }),
      flowItem(setLines(words(capital(one.test)), width), { above: 2, keep: true }),
      flowItem(setCaution(one.caution, width), { above: 2, keep: true }),
      ...table.map((item, n) => (n === 0 ? { ...item, above: 3 } : item)),
    ];
  });
}
