/** Words on a part's face, where the wood is free of lines: what the face is, which way the grain runs, which edge is which. */
import type { Mm } from "../../base/length.ts";
import { line, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { faceWords } from "../../set/facing.ts";
import type { Face, SetPart } from "../../set/schema.ts";
import { grow, meets } from "../draughting/block.ts";
import { arrow, type Side } from "../draughting/dimension.ts";
import { LEAST_TEXT, LINE_SPACING } from "../draughting/fitting.ts";
import type { BroadFace, Lie } from "./part-axes.ts";

const FACE_TEXT: Mm = 2.8;
const GRAIN_LENGTH: Mm = 12;
const WORD_AIR: Mm = 1.5;
const LINE = 1.36; // capitals and descenders, in capital heights
const CLEAR: Mm = 0.8; // between words and any line

type Words = { width: Mm; height: Mm; draw: (corner: Point) => Shape[] };

/** Finds free places on a face and remembers what it has put there. */
function freeFace(box: Rect, taken: readonly Rect[]): (words: Words, xs: readonly Mm[], ys: readonly Mm[]) => Shape[] {
  const placed: Rect[] = [];
  const inner = grow(box, -CLEAR);
  const isFree = (r: Rect): boolean =>
    r.x >= inner.x &&
    r.y >= inner.y &&
    r.x + r.width <= inner.x + inner.width &&
    r.y + r.height <= inner.y + inner.height &&
    !taken.some((t) => meets(grow(r, CLEAR), t)) &&
    !placed.some((p) => meets(grow(r, 1), p));
  return (words, xs, ys) => {
    for (const y of ys) {
      for (const x of xs) {
        const r = { x, y, width: words.width, height: words.height };
        if (!isFree(r)) continue;
        placed.push(r);
        return words.draw([x, y]);
      }
    }
    return [];
  };
}

/** The mark, the hand and the face's name: on one line, or on two where the wood between the grooves is narrow. */
function faceForms(part: SetPart, face: BroadFace): (Words & { rows: string[] })[] {
  const hand = part.hand === null ? "" : ` ${part.hand === "left" ? "L" : "R"}`;
  const name = faceWords(part, face);
  return [[`${part.mark}${hand === "" ? "" : `${hand},`} ${name}`], [`${part.mark}${hand}`, name]].map((rows) => ({
    rows,
    width: Math.max(...rows.map((row) => measureText(row, FACE_TEXT, "bold"))),
    height: FACE_TEXT * (LINE + (rows.length - 1) * LINE_SPACING),
    draw: ([x, y]) =>
      rows.map((row, i) => text([x, y + FACE_TEXT * (1 + i * LINE_SPACING)], row, FACE_TEXT, { weight: "bold" })),
  }));
}

const doubleArrow = (a: Point, b: Point): Shape[] => [line("thin", a, b), arrow(a, b), arrow(b, a)];

function grainWords(lie: Lie): Words {
  const label = measureText("grain", LEAST_TEXT, "regular");
  if (lie === "lying") {
    return {
      width: GRAIN_LENGTH + WORD_AIR + label,
      height: LEAST_TEXT * LINE,
      draw: ([x, y]) => [
        ...doubleArrow([x, y + LEAST_TEXT / 2], [x + GRAIN_LENGTH, y + LEAST_TEXT / 2]),
        text([x + GRAIN_LENGTH + WORD_AIR, y + LEAST_TEXT], "grain", LEAST_TEXT),
      ],
    };
  }
  return {
    width: label,
    height: GRAIN_LENGTH + WORD_AIR + LEAST_TEXT * LINE,
    draw: ([x, y]) => [
      ...doubleArrow([x + label / 2, y], [x + label / 2, y + GRAIN_LENGTH]),
      text([x, y + GRAIN_LENGTH + WORD_AIR + LEAST_TEXT], "grain", LEAST_TEXT),
    ],
  };
}

const level = (content: string): Words => ({
  width: measureText(content, LEAST_TEXT, "regular"),
  height: LEAST_TEXT * LINE,
  draw: ([x, y]) => [text([x, y + LEAST_TEXT], content, LEAST_TEXT)],
});

/** Read from the right, as upright lettering is. */
const upright = (content: string): Words => ({
  width: LEAST_TEXT * LINE,
  height: measureText(content, LEAST_TEXT, "regular"),
  draw: ([x, y]) => [
    text([x + LEAST_TEXT, y + measureText(content, LEAST_TEXT, "regular")], content, LEAST_TEXT, { turn: 90 }),
  ],
});

const EDGE_AIR: Mm = 1.2;

/** `lipped`: how far, on paper, a lipping reaches in from an edge. `homeless`: what finds no free wood, in words. */
export function letterFace(
  part: SetPart,
  face: BroadFace,
  lie: Lie,
  box: Rect,
  taken: readonly Rect[],
  lipped: Partial<Record<Face, Mm>>,
): { shapes: Shape[]; homeless: string | null } {
  const put = freeFace(box, taken);
  const xs = (words: Words): Mm[] => outwards(box.x, box.x + box.width - words.width);
  const ys = (words: Words): Mm[] => outwards(box.y, box.y + box.height - words.height);
  const middle = box.y + box.height / 2;
  const near = (words: Words, at: Mm): Mm[] => ys(words).sort((a, b) => Math.abs(a - at) - Math.abs(b - at));
  const shapes: Shape[] = [];
  for (const name of faceForms(part, face)) {
    if (shapes.length === 0) shapes.push(...put(name, xs(name), near(name, middle - 4)));
  }
  const isNamed = shapes.length > 0;
  const named: Face[] = [];
  if (part.grain === "length") {
    const grain = grainWords(lie);
    shapes.push(...put(grain, xs(grain), near(grain, middle + 2)));
  }
  for (const edge of edgesOf(face, lie)) {
    const isLevel = edge.side === "above" || edge.side === "below";
    const words = (isLevel ? level : upright)(faceWords(part, edge.face));
    const inwards = EDGE_AIR + (lipped[edge.face] ?? 0);
    const before = shapes.length;
    // Where two names could not stand one over the other, one alone would be as near to either edge.
    if (2 * (inwards + (isLevel ? words.height : words.width)) > (isLevel ? box.height : box.width)) continue;
    switch (edge.side) {
      case "above":
        shapes.push(...put(words, xs(words), [box.y + inwards]));
        break;
      case "below":
        shapes.push(...put(words, xs(words), [box.y + box.height - inwards - words.height]));
        break;
      case "left":
        shapes.push(...put(words, [box.x + inwards], ys(words)));
        break;
      case "right":
        shapes.push(...put(words, [box.x + box.width - inwards - words.width], ys(words)));
        break;
    }
    if (shapes.length > before) named.push(edge.face);
  }
  return { shapes, homeless: homelessWords(part, face, lie, isNamed, taken.length === 0 ? null : named) };
}

const AT_SIDE: Record<Side, string> = { above: "above", below: "below", left: "at the left", right: "at the right" };

/**
 * The face's name where the wood has no room for it, and, of what is worked on, one end and one edge where none could be
 * named: "4 outside face; front edge below".
 */
function homelessWords(
  part: SetPart,
  face: BroadFace,
  lie: Lie,
  isNamed: boolean,
  named: readonly Face[] | null,
): string | null {
  const sides = (["l", "w"] as const).flatMap((axis) => {
    if (named === null || named.some((one) => one[0] === axis)) return [];
    const { face: first, side } = edgesOf(face, lie).find((one) => one.face === `${axis}0`)!;
    return [`${faceWords(part, first)} ${AT_SIDE[side]}`];
  });
  if (isNamed && sides.length === 0) return null;
  const [label] = faceForms(part, face)[0]!.rows;
  return [label, ...sides].join("; ");
}

/** Places between two limits, the middle one first. */
function outwards(from: Mm, to: Mm): Mm[] {
  const middle = (from + to) / 2;
  const steps = Math.max(0, Math.floor((to - from) / 2));
  return [middle, ...Array.from({ length: steps }, (_, k) => [middle - (k + 1), middle + (k + 1)]).flat()];
}

function edgesOf(face: BroadFace, lie: Lie): { face: Face; side: Side }[] {
  const isFar = face === "t1";
  return lie === "lying"
    ? [
        { face: "w0", side: isFar ? "below" : "above" },
        { face: "w1", side: isFar ? "above" : "below" },
        { face: "l0", side: "left" },
        { face: "l1", side: "right" },
      ]
    : [
        { face: "w0", side: isFar ? "right" : "left" },
        { face: "w1", side: isFar ? "left" : "right" },
        { face: "l0", side: "below" },
        { face: "l1", side: "above" },
      ];
}
