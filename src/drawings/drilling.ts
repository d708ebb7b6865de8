/** Drilling: for each bit and stop the rows of holes that it drills, with the scrap test and the caution. */
import type { Unit } from "../base/length.ts";
import { axisOfFace, faceWords } from "../set/facing.ts";
import type { DryfitSet, SetDrilling, SetPart } from "../set/schema.ts";
import { setCaution } from "./caution.ts";
import { type Atom, FIGURE, figureTwice, setLines, tick, word, words } from "./cell.ts";
import type { Draft } from "./draft.ts";
import { type FlowGroup, flow, flowItem } from "./flow.ts";
import { drawingSpace } from "./frame.ts";
import { numberDrafts } from "./numbered.ts";
import { type Column, type Row, setTable } from "./table.ts";

const BETWEEN = 8;

const COLUMNS: readonly Column[] = [
  { head: "" },
  { head: "Part" },
  { head: "Into", most: 60 },
  { head: "First hole from" },
  { head: "Distance" },
  { head: "Then" },
  { head: "In from" },
  { head: "Distance" },
  { head: "Row", grow: 1 },
];

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function rowOf(row: SetDrilling["rows"][number], parts: readonly SetPart[], unit: Unit): Row {
  const part = parts.find(({ mark }) => mark === row.mark)!;
  const then: Atom[] =
    row.count === 1 ? words("no more") : [word(`${row.count - 1} x`, FIGURE), ...figureTwice(row.pitch, unit)];
  return {
    cells: [
      [tick()],
      [word(row.mark, FIGURE, "bold"), ...words(part.name)],
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
function noteOf(part: SetPart, row: SetDrilling["rows"][number]): string {
  const later = part.lippings.some(
    ({ edge, lipped }) => lipped === "after" && (edge === row.edge || edge === row.datum),
  );
  const before = later ? " Measured before lipping." : "";
  const kind = axisOfFace(row.face) === "t" ? `${row.count} holes` : `${row.count} holes, into the end`;
  return `${kind}.${before}`;
}

export function drawDrilling(set: DryfitSet): Draft[] {
  const space = drawingSpace(set);
  const { unit } = set.job;
  const groups = set.drilling.flatMap((one, i): FlowGroup[] => {
    const head: Atom[] = [
      word(`${one.n}`, 5, "bold"),
      ...words("holes of", FIGURE),
      ...figureTwice(one.diameter, unit, FIGURE, "bold"),
      ...words("for", FIGURE),
      ...words(`${one.holds},`, FIGURE),
      ...figureTwice(one.depth, unit, FIGURE, "bold"),
      ...words("deep", FIGURE),
    ];
    const table = setTable(
      COLUMNS,
      one.rows.map((row) => rowOf(row, set.parts, unit)),
      space.width,
    );
    return [
      [
        flowItem(setLines(head, space.width), { above: i === 0 ? 0 : BETWEEN, keep: true }),
        flowItem(setLines(words(capital(one.test)), space.width), { above: 2, keep: true }),
        flowItem(setCaution(one.caution, space.width), { above: 2, keep: true }),
        ...table.map((item, n) => (n === 0 ? { ...item, above: 3 } : item)),
      ],
    ];
  });
  if (groups.length === 0) return [];
  return numberDrafts(
    "drilling",
    "Drilling",
    flow(groups, () => [space]),
  );
}
