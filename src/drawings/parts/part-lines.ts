/** Lines drawn on a part's face for what is fixed there: a slide, with its screws. Nothing is cut. */
import type { Box } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { lines } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import { edgeThen, faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetLine, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { type Atom, figure, TEXT, words } from "../draughting/cell.ts";

const SCREW: Mm = 1.1; // each arm of a screw's cross

/** Along its whole length, with a cross at each screw. `spot`: a place on the part, along and across, on paper. */
export function drawLine({ along, at, from, to, points }: SetLine, spot: (l: Mm, w: Mm) => Point): Shape[] {
  const on = (place: Mm): Point => (along === "l" ? spot(place, at) : spot(at, place));
  return [
    lines("centre", [[on(from), on(to)]]),
    ...points.map((place) => {
      const [x, y] = on(place);
      return lines("thin", [
        [
          [x - SCREW, y - SCREW],
          [x + SCREW, y + SCREW],
        ],
        [
          [x - SCREW, y + SCREW],
          [x + SCREW, y - SCREW],
        ],
      ]);
    }),
  ];
}

/** What it takes of the face. */
export const lineBox = ({ along, at, from, to }: SetLine): Box =>
  along === "l"
    ? [
        [from, at, 0],
        [to, at, 0],
      ]
    : [
        [at, from, 0],
        [at, to, 0],
      ];

/** Lines that begin, end and are screwed alike, wherever they lie across the face. */
type Alike = { line: SetLine; at: { at: Mm; holds: string[] }[] };

function alike(part: SetPart): Alike[] {
  const heaps: Alike[] = [];
  const text = ({ face, along, from, to, points, what }: SetLine): string =>
    [face, along, whatOf(what), ...[from, to, ...points].map((one) => one.toFixed(4))].join(" ");
  for (const line of part.lines) {
    const known = heaps.find((heap) => text(heap.line) === text(line));
    const place = { at: line.at, holds: line.holds };
    if (known === undefined) heaps.push({ line, at: [place] });
    else known.at.push(place);
  }
  for (const { at } of heaps) at.sort((a, b) => a.at - b.at);
  return heaps;
}

/** "middle of the slide of bench drawer 1" without the drawer, which its mark tells. */
const whatOf = (what: string): string => what.slice(0, what.lastIndexOf(" of "));

/**
 * "6 and 12: lines on the left face, middle of the slide, from 20.7 to 420.7 from the front edge; 3 screws each, or where
 * the slide itself has its holes": how high they lie, and where the screws go, is on the view.
 */
export const lineAtoms = (set: DryfitSet, part: SetPart): Atom[][] =>
  alike(part).map(({ line, at }) => {
    const { unit } = set.job;
    const marks = [...new Set(at.flatMap(({ holds }) => holds))].sort(byMark);
    return [
      ...words(`${listInWords(marks)}:`, TEXT, "bold"),
      ...words(
        `${at.length === 1 ? "line" : "lines"} on the ${faceWords(part, line.face)}, ${whatOf(line.what)}, from`,
      ),
      figure(line.from, unit),
      ...words("to"),
      figure(line.to, unit),
      ...words(`from the ${edgeThen(part, `${line.along}0`)}; ${line.points.length} screws`),
      ...words(`${at.length === 1 ? "" : "each, "}or where the slide itself has its holes`),
    ];
  });

/** Places to dimension: where lines lie across, and their screws along. */
export const linePlaces = (part: SetPart, face: SetLine["face"]): Record<"l" | "w", Mm[]> => {
  const own = part.lines.filter((line) => line.face === face);
  const places: Record<"l" | "w", Mm[]> = { l: [], w: [] };
  for (const { along, at, points } of own) {
    if (along === "t") continue;
    places[along === "l" ? "w" : "l"].push(at);
    places[along].push(...points.filter((point) => !places[along].some((other) => isSame(other, point))));
  }
  return places;
};
