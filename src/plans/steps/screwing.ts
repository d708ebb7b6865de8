/** The screws and pins of a glue-up in words: through what, into what, how long, and where. */
import { formatLength, formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import type { SetPart } from "../../set/schema.ts";
import { pinnedBacks, SCREW_SPACING, type Screwed, screwsOf } from "../screws.ts";
import { type ByMark, capital, listOf, type StepsInput } from "./step.ts";

/** What the joints of one assembly take screws or pins for, once the glue has set. */
export function screwing(marks: readonly string[], input: StepsInput, byMark: ByMark): string[] {
  const { joints, unit } = input;
  const own = joints.filter(({ entering }) => marks.includes(entering));
  const screwed = own.flatMap((joint) => screwsOf(joint, byMark, unit) ?? []);
  const spacing = formatLengthWithUnit(SCREW_SPACING[unit], unit);
  const edges = rowsOf(screwed.filter(({ flat }) => !flat));
  const faces = rowsOf(screwed.filter(({ flat }) => flat));
  const row = ({ through, into, length }: ScrewedRow, intoWhat: string): string =>
    `through ${listOf(through, byMark)} into ${intoWhat}${listOf(into, byMark)}, ${formatLengthWithUnit(length, unit)} long`;
  const placed = placesInWords(screwed, input, byMark);
  const pinned = pinnedBacks(own, byMark, unit);
  return [
    ...(faces.length === 0
      ? []
      : [
          `Screw strips on while the glue is wet: ${faces.map((one) => row(one, "")).join("; ")}, one about every ${spacing}; no longer, or their points come out.`,
        ]),
    ...(edges.length === 0
      ? []
      : [
          `When the glue has set, screw ${edges.map((one) => row(one, "the edges of ")).join("; ")}, a screw about every ${spacing}; mark the middle of each edge on the outside face first, and drill.`,
        ]),
    ...placed,
    ...(pinned.length === 0
      ? []
      : [
          `${capital(listOf([...new Set(pinned.map(({ part }) => part.mark))], byMark))}, in rabbets: with the diagonals equal, pin all round, ${listInWords([...new Set(pinned.map(({ length }) => formatLengthWithUnit(length, unit)))])} pins slanting outwards.`,
        ]),
  ];
}

/** Part by part that is drilled through, where on it the screws go that no drawing places. Pilots and countersinks: common practice, no source. */
function placesInWords(screwed: readonly Screwed[], { unit }: StepsInput, byMark: ByMark): string[] {
  const show = (lengths: readonly Mm[]): string =>
    `${listInWords(lengths.map((length) => formatLength(length, unit)))} ${unit}`;
  const throughs = [...new Set(screwed.flatMap(({ through, row }) => (row === null ? [] : [through])))];
  const told = throughs.map((through) => {
    const rows = new Map<string, string[]>();
    for (const { through: one, into, row } of screwed) {
      if (one !== through || row === null) continue;
      const where = `${show(row.positions)} from the ${faceWords(through, row.from)}`;
      rows.set(where, [
        ...(rows.get(where) ?? []),
        `${into.name} ${into.mark}, on a line ${show([row.in])} from the ${faceWords(through, row.edge)}`,
      ]);
    }
    return `Screws on ${listOf([through.mark], byMark)}: ${[...rows].map(([where, into]) => `${where} (${into.join("; ")})`).join("; ")}.`;
  });
  if (told.length === 0) return [];
  return [
    ...told,
    "There each screw has wood all round it, clear of grooves, notches and other parts. Drill the first part as wide as the screw's shank and countersink it until the head lies just under the face; the second as wide as the core of its thread.",
  ];
}

/** The same of the joints whose entering parts these are. */
export function screwPlaces(marks: readonly string[], input: StepsInput, byMark: ByMark): string[] {
  const own = input.joints.filter(({ entering }) => marks.includes(entering));
  return placesInWords(
    own.flatMap((joint) => screwsOf(joint, byMark, input.unit) ?? []),
    input,
    byMark,
  );
}

type ScrewedRow = { through: string[]; into: string[]; length: Mm };

/** By what they go through; what goes into the same parts in one. */
function rowsOf(screwed: readonly { through: SetPart; into: SetPart; length: Mm }[]): ScrewedRow[] {
  const rows: ScrewedRow[] = [];
  for (const { mark } of new Set(screwed.map(({ through }) => through))) {
    const own = screwed.filter(({ through }) => through.mark === mark);
    for (const length of new Set(own.map((one) => one.length))) {
      const into = own.filter((one) => one.length === length).map((one) => one.into.mark);
      const same = rows.find((row) => row.length === length && row.into.join() === into.join());
      if (same) same.through.push(mark);
      else rows.push({ through: [mark], into, length });
    }
  }
  return rows;
}
