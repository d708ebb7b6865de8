/**
 * A shaped edge at full size, from the part's end to its middle, or to where it is straight: the other half is this one turned over. The part's edge runs along the
 * page, its wood above; where one page does not reach, pages are joined as tiles of a stick are.
 *
 *     end |      wood            |
 *         |        ______________| middle
 *         |_______/              |
 *         foot
 */

import { formatLengthWithUnit, isSame, MM_PER_INCH, type Mm, type Unit } from "../../base/length.ts";
import { chordsOf } from "../../base/outline.ts";
import { circleSteps, group, lines, stroke, text } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../set/schema.ts";
import { OVERLAP, type StickPage, stickPage } from "../../set/stick-page.ts";
import { setLines, words } from "../draughting/cell.ts";
import { LEAST_TEXT } from "../draughting/fitting.ts";
import type { FullSizeDraft } from "../draughting/full-size.ts";
import { shapesIn } from "../draughting/shaped.ts";
import { clippedAlong } from "./clipped.ts";
import { joinLetters } from "./stick-words.ts";

const HEAD: Mm = 14; // heading of the page
const FOOT: Mm = 14; // check bars along the page, and what the edge says
const OVER: Mm = 8; // of wood shown over the highest place
const CROSS: Mm = 2.5;
const BIG: Mm = 5;
const NOTE: Mm = 3;

/** `lettered`: how many joins of the document have a letter already. */
export function drawEdgeTemplates(set: DryfitSet, lettered: number): FullSizeDraft[] {
  let joined = lettered;
  const seen = new Set<string>();
  return set.parts.flatMap((part) =>
    shapesIn(part).flatMap((shape) => {
      if (seen.has(part.pattern)) return [];
      seen.add(part.pattern);
      const drafts = drawTemplate(set, part, shape, joined);
      joined += Math.max(0, drafts.length - 1);
      return drafts;
    }),
  );
}

export type Stretch = { from: Mm; to: Mm };

/** Joined where a tape reads a whole figure. */
const JOINED_AT: Record<Unit, Mm> = { mm: 10, in: MM_PER_INCH / 2 };

export function stretchesOf(half: Mm, room: Mm, unit: Unit): Stretch[] {
  const joins: Mm[] = [];
  for (let from = 0; half - from > room; from = joins.at(-1)! - OVERLAP / 2) {
    joins.push(Math.floor((from + room - OVERLAP / 2) / JOINED_AT[unit]) * JOINED_AT[unit]);
  }
  return [null, ...joins].map((join, i) => ({
    from: join === null ? 0 : join - OVERLAP / 2,
    to: joins[i] === undefined ? half : joins[i] + OVERLAP / 2,
  }));
}

function drawTemplate(set: DryfitSet, part: SetPart, shape: SetFeature, lettered: number): FullSizeDraft[] {
  const page = stickPage(set.paper);
  const reach = reachOf(part, shape);
  const name = `Full size: ${faceWords(part, shape.face)} of ${part.name} ${part.mark}`;
  const least = shape.depth + OVER;
  const height = page.short - 2 * page.margin.v - HEAD - FOOT - 2 * NOTE;
  if (least > height) return [];
  const stretches = stretchesOf(reach, page.run.to - page.run.from, set.job.unit);
  return stretches.map((stretch, i) => ({
    key: `edge-${part.mark}-${i + 1}`,
    title: stretches.length === 1 ? name : `${name}, ${i + 1} of ${stretches.length}`,
    bookmark: ["Sticks", name],
    shapes: drawStretch(set, part, shape, page, stretch, {
      before: i === 0 ? null : joinLetters(lettered + i - 1),
      after: i === stretches.length - 1 ? null : joinLetters(lettered + i),
    }),
  }));
}

const STRAIGHT_ON: Mm = 30; // of a straight edge, shown beyond what is shaped

/** From the part's end to its middle, or no farther than the edge is shaped where it is straight across the middle. */
function reachOf(part: SetPart, shape: SetFeature): Mm {
  const half = part.length / 2;
  const chords = chordsOf(shape.outline).slice(1);
  const shaped = chords.flatMap(([l, w], i) => {
    const [next, other] = chords[i + 1] ?? [l, w];
    const isAcross = Math.min(l, next) < half && Math.max(l, next) > half && isSame(w, other);
    return isAcross ? [Math.min(l, next)] : [];
  });
  return Math.min(half, (shaped[0] ?? half) + STRAIGHT_ON);
}

const BEYOND: Mm = 1; // of the edge, past where the page is cut

export type Joins = { before: string | null; after: string | null };

function drawStretch(
  set: DryfitSet,
  part: SetPart,
  shape: SetFeature,
  page: StickPage,
  { from, to }: Stretch,
  { before, after }: Joins,
): Shape[] {
  const { unit } = set.job;
  const half = part.length / 2;
  const reach = reachOf(part, shape);
  const isWhole = isSame(reach, half);
  const edge = page.short - page.margin.v - FOOT - 2 * NOTE;
  const top = edge - shape.depth - OVER;
  const isLow = shape.face.endsWith("0");
  const u = (l: Mm): Mm => page.run.from + l - from;
  const v = (w: Mm): Mm => edge - (isLow ? w : part.width - w);
  const within: [Mm, Mm] = [u(from) - BEYOND, u(to) + BEYOND];
  // The first line of the outline lies on the edge itself, which is cut away.
  const points = chordsOf(shape.outline).map(([l, w]): Point => [u(l), v(w)]);
  const line = [...points.slice(1), points[0]!];
  const curve = line.slice(1).map((point, i): [Point, Point] => [line[i]!, point]);
  const feet: [Point, Point][] = [
    [
      [u(0), edge],
      [u(shape.from), edge],
    ],
    [
      [u(0), top],
      [u(0), edge],
    ],
  ];
  const joins = [
    ...(before === null ? [] : [{ at: from + OVERLAP / 2, letter: before }]),
    ...(after === null ? [] : [{ at: to - OVERLAP / 2, letter: after }]),
  ];
  const rest = isWhole
    ? "Half of it: turn the template over at the middle for the other half."
    : `One end of it: from here the edge runs straight, ${formatLengthWithUnit(shape.depth, unit)} high, to the other end; turn the template over for that.`;
  const said = `${part.name} ${part.mark}: foot ${formatLengthWithUnit(shape.from, unit)} from the ${faceWords(part, "l0")}, ${formatLengthWithUnit(shape.depth, unit)} high at the most. ${rest} Saw outside the line, work to it.`;
  const note = setLines(words(said, NOTE), page.run.to - page.run.from);
  return [
    lines("outline", clippedAlong([...curve, ...feet], within)),
    ...(to >= reach - 1e-6 && !isWhole
      ? [text([u(reach) - 1, top + LEAST_TEXT], "straight on to the other end", LEAST_TEXT, { anchor: "end" })]
      : []),
    ...(to >= half - 1e-6
      ? [
          lines("centre", [
            [
              [u(half), top - 2],
              [u(half), edge + 2],
            ],
          ]),
          text([u(half) - 1, top + LEAST_TEXT], "middle", LEAST_TEXT, { anchor: "end" }),
        ]
      : []),
    ...(from === 0 ? [text([u(0) + 1.5, top + LEAST_TEXT], faceWords(part, "l0"), LEAST_TEXT)] : []),
    ...joins.flatMap(({ at, letter }) =>
      drawJoin(u(at), top, edge, `${letter} ${formatLengthWithUnit(at, unit)}`, at < (from + to) / 2),
    ),
    group(note.shapes, { move: [page.run.from, edge + 3] }),
  ];
}

/** A join line with two crosses to bring over each other, the letter, and how far it is from the part's end. */
export function drawJoin(u: Mm, top: Mm, edge: Mm, said: string, isLow: boolean): Shape[] {
  const marks = [top + 2 * CROSS, edge - 2 * CROSS];
  return [
    lines("thin", [
      [
        [u, top],
        [u, edge],
      ],
      ...marks.map((v): [Point, Point] => [
        [u - CROSS, v],
        [u + CROSS, v],
      ]),
    ]),
    ...marks.map((v) => stroke("thin", circleSteps([u, v], CROSS / 2))),
    text([u, top - 1.5], said, BIG, { weight: "bold", anchor: isLow ? "start" : "end" }),
  ];
}
