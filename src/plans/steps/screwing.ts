/** The screws and pins of a glue-up in words: through what, into what, how long, and where. */
import { formatLength, formatLengthWithUnit, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import { pinnedBacks, SCREW_SPACING, type Screwed, screwsOf } from "../screws.ts";
import { type ByMark, capital, namesOf, type StepsInput } from "./step.ts";

/** What the joints of one assembly take screws or pins for. */
export function screwing(marks: readonly string[], input: StepsInput, byMark: ByMark): string[] {
  const { joints, unit } = input;
  const own = joints.filter(({ entering }) => marks.includes(entering));
  const screwed = own.flatMap((joint) => screwsOf(joint, byMark, unit) ?? []);
  const inWords = (rows: readonly ScrewedRow[], isEdge: boolean): string =>
    rows.map((row) => rowInWords(row, isEdge, { unit, byMark })).join("; ");
  const faces = rowsOf(screwed.filter(({ flat }) => flat));
  const edges = rowsOf(screwed.filter(({ flat, placed }) => !flat && placed));
  const spaced = rowsOf(screwed.filter(({ flat, placed }) => !flat && !placed));
  const pinned = pinnedBacks(own, byMark, unit);
  return [
    ...(faces.length === 0
      ? []
      : [`While the glue is wet, screw ${inWords(faces, false)}: longer, and their points come out.`]),
    // Nothing else presses these while the glue sets.
    ...(edges.length === 0 ? [] : [`While the glue is wet, screw ${inWords(edges, true)}.`]),
    ...(spaced.length === 0
      ? []
      : [
          `When the glue has set, screw ${inWords(spaced, true)}; mark the middle of each edge on the outside face first, and drill.`,
        ]),
    ...placesInWords(screwed, unit, byMark),
    ...(pinned.length === 0
      ? []
      : [
          `${capital(namesOf([...new Set(pinned.map(({ part }) => part.mark))], byMark))}, in rabbets: with the diagonals equal, pin all round, ${listInWords([...new Set(pinned.map(({ length }) => formatLengthWithUnit(length, unit)))])} pins slanting outwards.`,
        ]),
  ];
}

/** Where those go that no drawing has. */
function placesInWords(screwed: readonly Screwed[], unit: Unit, byMark: ByMark): string[] {
  const show = (lengths: readonly Mm[]): string =>
    `${listInWords(lengths.map((length) => formatLength(length, unit)))} ${unit}`;
  return screwed.flatMap(({ through, into, row }) =>
    row === null
      ? []
      : [
          `Screws through ${namesOf([through.mark], byMark)} into ${namesOf([into.mark], byMark)}: ${show(row.positions)} from the ${faceWords(through, row.from)}, on a line ${show([row.in])} from the ${faceWords(through, row.edge)}.`,
        ],
  );
}

/** Pilots and countersinks: common practice, no source. */
const SECOND = "Into the second part, the two clamped together, drill as wide as the core of the thread.";

const firstInWords = (screwed: readonly Screwed[]): string =>
  `right through, as wide as the shank${screwed.some(isCrossed) ? ", from the face that has the crosses" : ""}; countersink where the heads come, until they lie just under the face`;

/** What is drilled while every face can be reached, of the joints whose entering parts these are. */
export function drillingForScrews(marks: readonly string[], { joints, unit }: StepsInput, byMark: ByMark): string[] {
  const own = joints.filter(({ entering }) => marks.includes(entering));
  const placed = own.flatMap((joint) => screwsOf(joint, byMark, unit) ?? []).filter((one) => one.placed);
  if (placed.length === 0) return [];
  const through = [...new Set(placed.map((one) => one.through.mark))];
  return [
    `First drill ${namesOf(through, byMark)} for ${through.length === 1 ? "its" : "their"} screws: ${firstInWords(placed)}. ${SECOND}`,
  ];
}

/** Without glue: what goes through, where, and how it is drilled, of the joints whose entering parts these are. */
export function screwPlaces(marks: readonly string[], { joints, unit }: StepsInput, byMark: ByMark): string[] {
  const own = joints.filter(({ entering }) => marks.includes(entering));
  const screwed = own.flatMap((joint) => screwsOf(joint, byMark, unit) ?? []);
  return [
    ...rowsOf(screwed).map((row) => `Screws go ${rowInWords(row, false, { unit, byMark })}.`),
    ...placesInWords(screwed, unit, byMark),
    `Drill for them ${firstInWords(screwed)}. ${SECOND}`,
  ];
}

/** Its part's drawing has a cross for each. */
const isCrossed = ({ placed, row }: Screwed): boolean => placed && row === null;

type ScrewedRow = {
  through: string[];
  into: { mark: string; count: number }[];
  length: Mm;
  places: "crossed" | "told" | "spaced";
};

/** "through sides 1 and 2, where their drawings have a cross, 3 each into the edges of shelves 4 and 5, 45 mm long". */
function rowInWords(
  { through, into, length, places }: ScrewedRow,
  isEdge: boolean,
  { unit, byMark }: { unit: Unit; byMark: ByMark },
): string {
  const [edge, edges] = isEdge ? ["the edge of ", "the edges of "] : ["", ""];
  const where =
    places === "crossed" ? `, where ${through.length === 1 ? "its drawing has" : "their drawings have"} a cross,` : "";
  const each = [...new Set(into.map(({ count }) => count))].map((count) => {
    const own = into.filter((one) => one.count === count).map(({ mark }) => mark);
    const much = places === "spaced" ? "" : own.length === 1 ? `${count} ` : `${count} each `;
    return `${much}into ${own.length === 1 ? edge : edges}${namesOf(own, byMark)}`;
  });
  const spacing = places === "spaced" ? `, a screw about every ${formatLengthWithUnit(SCREW_SPACING[unit], unit)}` : "";
  return `through ${namesOf(through, byMark)}${where} ${each.join(", and ")}, ${formatLengthWithUnit(length, unit)} long${spacing}`;
}

/** By what they go through; what goes alike into the same parts in one. */
function rowsOf(screwed: readonly Screwed[]): ScrewedRow[] {
  const rows: ScrewedRow[] = [];
  for (const { mark } of new Set(screwed.map(({ through }) => through))) {
    const own = new Map<string, Screwed[]>();
    for (const one of screwed) {
      if (one.through.mark !== mark) continue;
      const key = `${one.length} ${placesOf(one)}`;
      own.set(key, [...(own.get(key) ?? []), one]);
    }
    for (const alike of own.values()) {
      const into = alike.map((one) => ({ mark: one.into.mark, count: one.count }));
      const { length } = alike[0]!;
      const places = placesOf(alike[0]!);
      const same = rows.find(
        (row) => row.length === length && row.places === places && JSON.stringify(row.into) === JSON.stringify(into),
      );
      if (same) same.through.push(mark);
      else rows.push({ through: [mark], into, length, places });
    }
  }
  return rows;
}

const placesOf = (one: Screwed): ScrewedRow["places"] => (isCrossed(one) ? "crossed" : one.placed ? "told" : "spaced");
