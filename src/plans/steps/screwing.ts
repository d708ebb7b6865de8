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
  const [edged, faced] = [screwed.filter(({ flat }) => !flat), screwed.filter(({ flat }) => flat)];
  const [edges, faces] = [rowsOf(edged), rowsOf(faced)];
  const spacing = (own: readonly Screwed[]): string =>
    own.every(({ placed }) => placed) ? "" : `, a screw about every ${formatLengthWithUnit(SCREW_SPACING[unit], unit)}`;
  const row = ({ through, into, length }: ScrewedRow, intoWhat: string): string =>
    `through ${listOf(through, byMark)} into ${intoWhat}${listOf(into, byMark)}, ${formatLengthWithUnit(length, unit)} long`;
  const placed = placesInWords(screwed, input, byMark);
  const pinned = pinnedBacks(own, byMark, unit);
  return [
    ...(faces.length === 0
      ? []
      : [
          `Screw strips on while the glue is wet: ${faces.map((one) => row(one, "")).join("; ")}${spacing(faced)}; no longer, or their points come out.`,
        ]),
    ...(edges.length === 0
      ? []
      : [
          `When the glue has set, screw ${edges.map((one) => row(one, "the edges of ")).join("; ")}${spacing(edged)}; mark the middle of each edge on the outside face first, and drill.`,
        ]),
    ...placed,
    ...(pinned.length === 0
      ? []
      : [
          `${capital(listOf([...new Set(pinned.map(({ part }) => part.mark))], byMark))}, in rabbets: with the diagonals equal, pin all round, ${listInWords([...new Set(pinned.map(({ length }) => formatLengthWithUnit(length, unit)))])} pins slanting outwards.`,
        ]),
  ];
}

/** Part by part that is drilled through: its drawing has the places, or they are told here. Pilots and countersinks: common practice, no source. */
function placesInWords(screwed: readonly Screwed[], { unit }: StepsInput, byMark: ByMark): string[] {
  const show = (lengths: readonly Mm[]): string =>
    `${listInWords(lengths.map((length) => formatLength(length, unit)))} ${unit}`;
  const drawn = screwed.filter(({ placed, row }) => placed && row === null);
  const told = screwed.flatMap(({ through, into, row }) =>
    row === null
      ? []
      : [
          `Screws through ${listOf([through.mark], byMark)} into ${listOf([into.mark], byMark)}: ${show(row.positions)} from the ${faceWords(through, row.from)}, on a line ${show([row.in])} from the ${faceWords(through, row.edge)}.`,
        ],
  );
  if (drawn.length + told.length === 0) return [];
  return [
    ...[...new Set(drawn.map(({ through }) => through))].map((through) => {
      const own = drawn.filter((one) => one.through === through);
      const counts = [...new Set(own.map(({ count }) => count))].map((count) => {
        const into = own.filter((one) => one.count === count).map((one) => one.into.mark);
        return `${count} into ${into.length === 1 ? "" : "each of "}${listOf(into, byMark)}`;
      });
      return `Screws through ${listOf([through.mark], byMark)} go where its part drawing has a cross: ${counts.join("; ")}.`;
    }),
    ...told,
    "Drill the first part as wide as the screw's shank and countersink it until the head lies just under the face; the second as wide as the core of its thread.",
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
