/** A worktop from above with its boards and the triangle that brings them back in order, and from below with every screw. */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import { circleSteps, fill, line, lines, polygonSteps, rect, slotSteps, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetWorktop } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { SMALL } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import { LEAST_TEXT } from "../draughting/fitting.ts";
import { VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";

const LETTER: Mm = 3.5; // a board's name
const DOT: Mm = 0.9; // radius of a screw without play
const ARROW: Mm = 2.6; // each way, of a screw that travels
const HEAD: Mm = 0.9;

/** From above: x to the right, the front edge below. */
export function fromAbove(set: DryfitSet, top: SetWorktop, ratio: number): Block {
  const part = partOf(set, top.mark);
  const { unit } = set.job;
  const box: Rect = { x: 0, y: 0, width: part.length * ratio, height: part.width * ratio };
  const y = (at: Mm): Mm => box.height - at * ratio;
  const style: DimensionStyle = { unit, ratio, size: VIEW_FIGURE };
  const boards = top.glued?.boards ?? [];
  const joints = boards.slice(1).map(({ from }) => from);
  const below = drawDimensions("below", box.height, [{ kind: "spans", spans: [[0, box.width]] }], style);
  const rows: Row[] = [{ kind: "spans", spans: [[y(part.width), y(0)]] }];
  const left = drawDimensions("left", 0, rows, style);
  const lettered = boards.flatMap(({ piece, width, heart, from }): Shape[] => {
    const middle = (y(Math.max(0, from)) + y(Math.min(part.width, from + width))) / 2;
    const turned = heart === null ? "" : `, heart ${heart}`;
    const size = Math.max(LEAST_TEXT, Math.min(LETTER, (width * ratio) / 2));
    // Clear of the triangle; what a board is jointed to stands in the notes as well.
    const told = [`${piece}: ${formatLengthWithUnit(width, unit)} jointed${turned}`, `${piece}${turned}`, piece].find(
      (one) => measureText(one, size, "bold") <= box.width * TRIANGLE_FROM - 4,
    );
    return told === undefined ? [] : [text([2, middle + size / 2], told, size, { weight: "bold" })];
  });
  return captioned(
    {
      shapes: [
        ...(boards.length > 1 ? triangle(box) : []),
        rect("outline", box),
        lines(
          "thin",
          joints.map((at): [Point, Point] => [
            [0, y(at)],
            [box.width, y(at)],
          ]),
        ),
        ...lippingLines(set, top, box, ratio),
        ...lettered,
        ...grain(box, boardAtMiddle(box, joints.map(y))),
        ...below.shapes,
        ...left.shapes,
      ],
      box: unionOf([box, ...below.boxes, ...left.boxes]),
    },
    `${capital(top.assembly)}, from above`,
    boards.length > 1
      ? "front edge below; the triangle is drawn across the boards before the glue"
      : "front edge below",
    box,
  );
}

const TRIANGLE_FROM = 0.58; // of the worktop's length

const capital = (name: string): string => `${name.charAt(0).toUpperCase()}${name.slice(1)}`;

/** Its point at the back, as wide as half the panel at the front: two slanting lines that meet every joint. */
function triangle({ width, height }: Rect): Shape[] {
  const [left, right, tip] = [width * TRIANGLE_FROM, width * 0.82, width * 0.7];
  return [
    stroke(
      "bar",
      polygonSteps([
        [left, height - 0.4],
        [right, height - 0.4],
        [tip, 0.4],
      ]),
    ),
  ];
}

function lippingLines(set: DryfitSet, top: SetWorktop, { width, height }: Rect, ratio: number): Shape[] {
  const segments = partOf(set, top.mark).lippings.map(({ edge, thickness, from, to }): [Point, Point] => {
    const off = thickness * ratio;
    if (edge[0] === "w") {
      const at = edge === "w0" ? height - off : off;
      return [
        [from * ratio, at],
        [to * ratio, at],
      ];
    }
    const at = edge === "l0" ? off : width - off;
    return [
      [at, height - from * ratio],
      [at, height - to * ratio],
    ];
  });
  return [lines("thin", segments)];
}

/** From glue line to glue line: the board at the middle of the worktop, or the one before the line there. */
function boardAtMiddle({ height }: Rect, joints: readonly Mm[]): readonly [Mm, Mm] {
  const edges = [0, ...[...joints].sort((a, b) => a - b), height];
  const from = edges.findLastIndex((edge) => edge < height / 2 - SAME);
  return [edges[from]!, edges[from + 1]!];
}

const GRAIN_AIR: Mm = 1.2; // between the arrow and its word
const BOARD_AIR: Mm = 1; // between these and a glue line

/** A double arrow along the grain, at the right, its word over it; before it where the board is too narrow on paper. */
function grain({ width }: Rect, [top, bottom]: readonly [Mm, Mm]): Shape[] {
  const [left, to, middle] = [width * 0.86, width * 0.98, (top + bottom) / 2];
  const high = SMALL + GRAIN_AIR + HEAD;
  const isOver = high + 2 * BOARD_AIR <= bottom - top;
  const y = isOver ? middle + high / 2 - HEAD / 2 : middle;
  const from = isOver ? left : left + measureText("grain", SMALL, "regular") + GRAIN_AIR;
  return [
    line("thin", [from, y], [to, y]),
    ...arrowHead([from, y], [-1, 0]),
    ...arrowHead([to, y], [1, 0]),
    isOver
      ? text([(from + to) / 2, y - GRAIN_AIR], "grain", SMALL, { anchor: "middle" })
      : text([left, y + SMALL / 2], "grain", SMALL),
  ];
}

/** A filled head with its point so far in a direction. */
function arrowHead([x, y]: Point, [u, v]: Point): Shape[] {
  const [back, half] = [2 * HEAD, HEAD * 0.7];
  return [
    fill(
      0,
      polygonSteps([
        [x, y],
        [x - u * back - v * half, y - v * back + u * half],
        [x - u * back + v * half, y - v * back - u * half],
      ]),
    ),
  ];
}

/** From below, turned over about its front edge: x to the right as from above, the front edge above. */
export function fromBelow(set: DryfitSet, top: SetWorktop, ratio: number): Block {
  const part = partOf(set, top.mark);
  const box: Rect = { x: 0, y: 0, width: part.length * ratio, height: part.width * ratio };
  const at = ([x, y]: readonly [Mm, Mm]): Point => [x * ratio, y * ratio];
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const distinct = (values: Mm[]): Mm[] =>
    [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || value - all[i - 1]! > SAME);
  const across = distinct(top.screws.map((screw) => screw.at[0])).map((x) => x * ratio);
  const back = distinct(top.screws.map((screw) => screw.at[1])).map((y) => y * ratio);
  const above = drawDimensions("above", 0, [{ kind: "running", datum: 0, at: across }], style);
  const left = drawDimensions("left", 0, [{ kind: "running", datum: 0, at: back }], style);
  const home = set.assemblies.find(({ name }) => name === top.assembly)!;
  const cases = top.over.map((name): Rect => {
    const { place, size } = set.assemblies.find((one) => one.name === name)!;
    return {
      x: (place.at[0]! - home.place.at[0]!) * ratio,
      y: (place.at[1]! - home.place.at[1]!) * ratio,
      width: size[0]! * ratio,
      height: size[1]! * ratio,
    };
  });
  const fixedAt = top.line * ratio;
  const moves = top.moves.wider + top.moves.narrower > SAME;
  return captioned(
    {
      shapes: [
        rect("outline", box),
        ...cases.map((one) => rect("neighbour", one)),
        ...(moves ? [line("centre", [0, fixedAt], [box.width, fixedAt])] : []),
        ...top.screws.flatMap((screw) => drawScrew(at(screw.at), screw, top.screw.diameter * ratio, ratio)),
        ...above.shapes,
        ...left.shapes,
      ],
      box: unionOf([box, ...above.boxes, ...left.boxes]),
    },
    `${capital(top.assembly)}, from below`,
    moves
      ? "front edge above, left end left: the broken line is fixed, arrows show where a slot lets its screw travel"
      : "front edge above, left end left",
    box,
  );
}

type Screw = SetWorktop["screws"][number];

function drawScrew([x, y]: Point, { front, rear }: Screw, diameter: Mm, ratio: number): Shape[] {
  const radius = Math.max(DOT, diameter / 2);
  if (front + rear < SAME) return [fill(0, circleSteps([x, y], DOT))];
  const slot: Rect = {
    x: x - radius,
    y: y - front * ratio - radius,
    width: 2 * radius,
    height: (front + rear) * ratio + 2 * radius,
  };
  const [up, down] = [slot.y - ARROW, slot.y + slot.height + ARROW];
  return [
    stroke("outline", slotSteps(slot)),
    line("thin", [x, slot.y], [x, up]),
    line("thin", [x, slot.y + slot.height], [x, down]),
    ...arrowHead([x, up], [0, -1]),
    ...arrowHead([x, down], [0, 1]),
  ];
}
