/** Lines drawn on a part's face for what is fixed there: a slide with its screws, a track's bolts. Nothing is cut. */
import type { Box } from "../../base/geometry.ts";
import { isSame, type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { lines } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import { axisOfFace, edgeThen, faceWords, sizeAlong, thirdAxis } from "../../set/facing.ts";
import type { DryfitSet, SetLine, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { type Atom, figure, TEXT, words } from "../draughting/cell.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import type { BroadFace } from "./part-axes.ts";

const SCREW: Mm = 1.1; // each arm of a screw's cross

/** Along its whole length, with a cross at each screw. `spot`: a place on the part, along and across, on paper. */
export function drawLine(line: SetLine, spot: (l: Mm, w: Mm) => Point): Shape[] {
  const { along, at, from, to, points } = line;
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
  for (const line of part.lines.filter(({ bolt }) => bolt === null)) {
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

/**
 * "Bolts of the track in front of console: 6 on the front face, 31 from the lower edge, at 51 and 406 from the left end; each 8
 * thick goes in 38".
 */
export const boltAtoms = (set: DryfitSet, part: SetPart): Atom[][] =>
  part.lines.flatMap(({ face, along, at, points, bolt, what }) => {
    if (bolt === null) return [];
    const { unit } = set.job;
    const into = axisOfFace(face);
    const through = bolt.into > sizeAlong(part, into) + SAME;
    return [
      [
        ...words(`Bolts of ${what}:`, TEXT, "bold"),
        ...words(`${points.length} on the ${faceWords(part, face)},`),
        figure(at, unit),
        ...words(`from the ${faceWords(part, `${thirdAxis(along, into)}0`)}, at`),
        ...figuresInWords(points, unit),
        ...words(`from the ${edgeThen(part, `${along}0`)}; each`),
        figure(bolt.diameter, unit),
        ...words("thick goes in"),
        figure(bolt.into, unit),
        ...(through ? words("from there, into what lies behind too: drill on when the parts are together") : []),
      ],
    ];
  });

/** Bolts into an edge or an end, as long as the part lets them be: seen in a face only as hidden lines. */
export const edgeBolts = (part: SetPart): Box[] =>
  part.lines.flatMap(({ face, along, at, points, bolt }): Box[] => {
    const into = axisOfFace(face);
    if (bolt === null || into === "t") return [];
    const size = sizeAlong(part, into);
    const deep = Math.min(bolt.into, size);
    const half = bolt.diameter / 2;
    return points.map((point) => {
      const range = (axis: "l" | "w" | "t"): [Mm, Mm] => {
        if (axis === into) return face[1] === "0" ? [0, deep] : [size - deep, size];
        return axis === along ? [point - half, point + half] : [at - half, at + half];
      };
      const [l, w, t] = [range("l"), range("w"), range("t")];
      return [
        [l[0], w[0], t[0]],
        [l[1], w[1], t[1]],
      ];
    });
  });

/** Places to dimension: where lines lie across, and their screws along; of bolts into an edge, which every face shows, where they stand along it. */
export const linePlaces = (part: SetPart, face: BroadFace, isFirst: boolean): Record<"l" | "w", Mm[]> => {
  const own = part.lines.filter((line) => line.face === face || (isFirst && axisOfFace(line.face) !== "t"));
  const places: Record<"l" | "w", Mm[]> = { l: [], w: [] };
  for (const { face: on, along, at, points } of own) {
    if (along === "t") continue;
    if (axisOfFace(on) === "t") places[along === "l" ? "w" : "l"].push(at);
    places[along].push(...points.filter((point) => !places[along].some((other) => isSame(other, point))));
  }
  return places;
};
