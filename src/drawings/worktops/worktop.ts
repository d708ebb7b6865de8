/**
 * A worktop on one drawing: from above with its boards and the triangle that brings them back in order, from below with every screw, its
 * slots line by line, and the shape of its edge at full size.
 */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import {
  circleSteps,
  fill,
  group,
  line,
  lines,
  polygonSteps,
  rect,
  slotSteps,
  stroke,
  text,
} from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetWorktop } from "../../set/schema.ts";
import { partOf, stockOf } from "../../set/words.ts";
import { type Block, fitBlocks, unionOf } from "../draughting/block.ts";
import { type Atom, figure, SMALL, setLines, stackBlocks, TEXT, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { LEAST_TEXT } from "../draughting/fitting.ts";
import { type FlowGroup, flow } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { VIEW_FIGURE } from "../draughting/picture.ts";
import { type Column, setTable, type Row as TableRow } from "../draughting/table.ts";
import { captioned } from "../draughting/view-title.ts";
import { edgeSection } from "./edge-section.ts";
import { drawSlots, slotTable } from "./slots.ts";

const LETTER: Mm = 3.5; // a board's name
const AIR: Mm = 4;
const NOTE_GAP: Mm = 1.2;
const DOT: Mm = 0.9; // radius of a screw without play
const ARROW: Mm = 2.6; // each way, of a screw that travels
const HEAD: Mm = 0.9;

export const drawWorktops = (set: DryfitSet): Draft[] =>
  set.worktops.flatMap((top) => [drawAbove(set, top), ...drawBelow(set, top)]);

const nameIn = (set: DryfitSet, { assembly }: SetWorktop): string =>
  set.worktops.length === 1 ? "Worktop" : `Worktop: ${assembly}`;

/** Boards, lippings and size from above; how it is glued up, and the shape of its edge. */
function drawAbove(set: DryfitSet, top: SetWorktop): Draft {
  const space = drawingSpace(set);
  const section = edgeSection(set, top);
  const wide = section === null ? space.width : space.width - section.box.width - AIR;
  const note = stackBlocks(
    notesOf(set, top).map((atoms) => setLines(atoms, wide)),
    NOTE_GAP,
  );
  const below = Math.max(note.height, section === null ? 0 : section.box.height);
  const room: Rect = { ...space, height: space.height - below - AIR };
  const { shapes, scale } = fitBlocks(set.job.unit, room, (ratio) => [fromAbove(set, top, ratio)]);
  const lower = space.y + space.height - below;
  const name = nameIn(set, top);
  return {
    key: `worktop-${top.mark}`,
    name,
    bookmark: ["Worktops", name],
    scale: scale.name,
    projected: true,
    shapes: [
      ...shapes,
      group(note.shapes, { move: [space.x, lower] }),
      ...(section === null
        ? []
        : [
            group(section.shapes, {
              move: [space.x + space.width - section.box.width - section.box.x, lower - section.box.y],
            }),
          ]),
    ],
  };
}

/** Every screw from below, its slot line by line, and where each slot is marked out on its part: beside the view as long as that is no smaller for it. */
function drawBelow(set: DryfitSet, top: SetWorktop): Draft[] {
  const space = drawingSpace(set);
  const heightOf = (table: FlowGroup): Mm => table.reduce((sum, { block, above }) => sum + block.height + above, 0);
  const screws = setTable(COLUMNS, rowsOf(set, top), space.width);
  const slots = slotTable(set, top, space.width);
  const note = stackBlocks(
    fixingNotes(set, top).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const own = heightOf(screws) + AIR + note.height;
  const viewOver = (below: Mm) =>
    fitBlocks(set.job.unit, { ...space, height: space.height - below - AIR }, (ratio) => [fromBelow(set, top, ratio)]);
  const alone = viewOver(own);
  const each = setLines(words("Marked out on each part, from its own edge and end:", TEXT, "bold"), space.width);
  const head = each.height + NOTE_GAP;
  const whole = own + AIR + head + heightOf(slots);
  const both = whole > space.height / 2 ? null : viewOver(whole);
  const isOne = both !== null && both.scale.name === alone.scale.name;
  const lower = space.y + space.height - (isOne ? whole : own);
  const tableAt = (table: FlowGroup, y: Mm): Shape[] =>
    flow([table], () => [{ x: space.x, y, width: space.width, height: heightOf(table) + 1 }])[0] ?? [];
  const noted = lower + heightOf(screws) + AIR;
  const name = `${nameIn(set, top)}, from below`;
  const view: Draft = {
    key: `worktop-${top.mark}-below`,
    name,
    bookmark: ["Worktops", name],
    scale: alone.scale.name,
    projected: true,
    shapes: [
      ...(isOne ? both : alone).shapes,
      ...tableAt(screws, lower),
      group(note.shapes, { move: [space.x, noted] }),
      ...(isOne
        ? [
            group(each.shapes, { move: [space.x, noted + note.height + AIR] }),
            ...tableAt(slots, noted + note.height + AIR + head),
          ]
        : []),
    ],
  };
  return isOne ? [view] : [view, ...drawSlots(set, top)];
}

/** From above: x to the right, the front edge below. */
function fromAbove(set: DryfitSet, top: SetWorktop, ratio: number): Block {
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
        ...grain(box),
        ...below.shapes,
        ...left.shapes,
      ],
      box: unionOf([box, ...below.boxes, ...left.boxes]),
    },
    `${capital(top.assembly)}, from above`,
    boards.length > 1
      ? "front edge below; the triangle is drawn across the boards before the glue"
      : "front edge below",
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

/** A double arrow along the grain, at the right. */
function grain({ width, height }: Rect): Shape[] {
  const [from, to, y] = [width * 0.86, width * 0.98, height / 2];
  return [
    line("thin", [from, y], [to, y]),
    ...arrowHead([from, y], [-1, 0]),
    ...arrowHead([to, y], [1, 0]),
    text([(from + to) / 2, y - 1.2], "grain", SMALL, { anchor: "middle" }),
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
function fromBelow(set: DryfitSet, top: SetWorktop, ratio: number): Block {
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

const COLUMNS: Column[] = [
  { head: "From the front edge", firm: true },
  { head: "Screws" },
  { head: "Through", grow: 1 },
  { head: "From the left end", grow: 2 },
  { head: "Slot, length", firm: true },
  { head: "Screw in it, from its front end", firm: true },
];

/** Line by line from the front: screws with the same play stand together. */
function rowsOf(set: DryfitSet, { screws, screw }: SetWorktop): TableRow[] {
  const { unit } = set.job;
  const rows = new Map<string, Screw[]>();
  const keyOf = ({ at, through }: Screw): string =>
    `${at[1].toFixed(4)} ${through.map((mark) => partOf(set, mark).role).join(" ")}`;
  for (const one of [...screws].sort((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]))
    rows.set(keyOf(one), [...(rows.get(keyOf(one)) ?? []), one]);
  return [...rows.values()].map((row): TableRow => {
    const [{ at, front, rear }] = row as [Screw];
    const isFree = front + rear > SAME;
    const through = [...new Set(row.flatMap((one) => one.through))].map((mark) => `${partOf(set, mark).name} ${mark}`);
    return {
      cells: [
        [figure(at[1], unit, LETTER, "bold")],
        words(String(row.length)),
        words(listInWords(through)),
        figuresInWords(
          row.map((one) => one.at[0]),
          unit,
        ),
        isFree ? [figure(screw.diameter + front + rear, unit, LETTER, "bold")] : words("round, no play"),
        isFree ? [figure(screw.diameter / 2 + front, unit)] : words("\u2013"),
      ],
    };
  });
}

function notesOf(set: DryfitSet, top: SetWorktop): Atom[][] {
  const { unit } = set.job;
  const part = partOf(set, top.mark);
  const stock = stockOf(set, part.material);
  const { glued } = top;
  const length = (mm: Mm): string => formatLengthWithUnit(mm, unit);
  const notes: Atom[][] = [
    [...words(`${stock.name},`, TEXT, "bold"), figure(part.thickness, unit), ...words("thick.")],
  ];
  if (glued !== null) {
    const [first] = glued.boards;
    notes.push(
      words(
        `Glued up ${length(glued.width)} wide, ${length(glued.length)} long: ${glued.boards.length} boards of ${length(first!.width)} as jointed. Trimmed: ${length(glued.trim.edges)} off front and back, ${length(glued.trim.ends)} off each end. ${glued.clamps} clamps, above and below by turns.`,
      ),
    );
    if (glued.sawn === "flat")
      notes.push(
        words("Heart up and down by turns keeps the whole flat; the better face goes up where a board has only one."),
      );
  }
  return notes;
}

/** The screws, and how far the wood moves on them. */
function fixingNotes(set: DryfitSet, { screw, moves, fixed, glued, mark }: SetWorktop): Atom[][] {
  const { unit, moisture } = set.job;
  const length = (mm: Mm): string => formatLengthWithUnit(mm, unit);
  return [
    words(
      `Screws ${length(screw.diameter)} x ${length(screw.length)}, a washer under each head; slots across the grain, alike in every part they go through. No glue.`,
    ),
    ...(glued === null
      ? []
      : [words(movesInWords(moves, fixed, moisture, stockOf(set, partOf(set, mark).material), unit))]),
  ];
}

function movesInWords(
  { wider, narrower }: SetWorktop["moves"],
  fixed: SetWorktop["fixed"],
  { made, driest, wettest }: DryfitSet["job"]["moisture"],
  { species }: DryfitSet["stock"][number],
  unit: Unit,
): string {
  const points = (value: number): string => `${Math.round(value * 10) / 10} %`;
  const from = made === null ? "whatever it is made at" : `made at ${points(made)}`;
  const length = (mm: Mm): string => formatLengthWithUnit(mm, unit);
  return `Moves, ${from}, between ${points(driest)} and ${points(wettest)} of moisture: ${length(wider)} wider, ${length(narrower)} narrower, to the ${fixed === "front" ? "back" : "front"} (${species?.name ?? ""}; ${species?.source ?? ""}). Leave as much free at a wall.`;
}
