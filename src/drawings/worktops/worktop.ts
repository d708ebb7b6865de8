/**
 * A worktop: from above with its boards, from below with every screw, its slots line by line, and the shape of its edge at full size; on one
 * drawing where the paper is high enough for both views.
 */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { group } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetWorktop } from "../../set/schema.ts";
import { partOf, stockOf } from "../../set/words.ts";
import { arrange, type Block, fitAllOrNone, noRoomFor, placeBlock } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, TEXT, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { filledShare } from "../draughting/filled.ts";
import { type FlowGroup, flow } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { type Scale, scalesOf } from "../draughting/scale.ts";
import { type Column, setTable, type Row as TableRow } from "../draughting/table.ts";
import { edgeSection } from "./edge-section.ts";
import { drawSlots, slotTable } from "./slots.ts";
import { fromAbove, fromBelow } from "./worktop-views.ts";

const LETTER: Mm = 3.5; // what is marked out
const AIR: Mm = 4;
const NOTE_GAP: Mm = 1.2;
const SMALLER = 0.45; // of its scale alone: as small a view may be to spare a drawing that would stay nearly blank
const SPARSE = 1 / 3;

/** What stands under a view, from its upper left corner. */
type Foot = { height: Mm; shapes: Shape[] };
type Fitted = { shapes: Shape[]; scale: Scale };

export const drawWorktops = (set: DryfitSet): Draft[] =>
  set.worktops.flatMap((top) => {
    const above = drawAbove(set, top);
    const least = filledShare(above.draft.shapes, drawingSpace(set)) < SPARSE ? SMALLER : 1;
    const both = drawBoth(set, top, above.scale, least);
    return both === null ? [above.draft, ...drawBelow(set, top)] : [both];
  });

const nameIn = (set: DryfitSet, { assembly }: SetWorktop): string =>
  set.worktops.length === 1 ? "Worktop" : `Worktop: ${assembly}`;

/** How it is glued up, and the shape of its edge. */
function footOfAbove(set: DryfitSet, top: SetWorktop, space: Rect): Foot {
  const section = edgeSection(set, top);
  const wide = section === null ? space.width : space.width - section.box.width - AIR;
  const note = stackBlocks(
    notesOf(set, top).map((atoms) => setLines(atoms, wide)),
    NOTE_GAP,
  );
  return {
    height: Math.max(note.height, section === null ? 0 : section.box.height),
    shapes: [...note.shapes, ...(section === null ? [] : [placeBlock(section, [space.width - section.box.width, 0])])],
  };
}

/** Screws line by line and what is said of them; then, unless they have a drawing of their own, where each slot is marked out on its part. */
function footOfBelow(set: DryfitSet, top: SetWorktop, space: Rect, withSlots: boolean): Foot {
  const { width } = space;
  const heightOf = (table: FlowGroup): Mm => table.reduce((sum, { block, above }) => sum + block.height + above, 0);
  const shapes: Shape[] = [];
  let y = 0;
  const put = (table: FlowGroup): void => {
    const room: Rect = { x: 0, y, width, height: heightOf(table) + 1 };
    shapes.push(...(flow([table], () => [room])[0] ?? []));
    y += heightOf(table);
  };
  const say = (atoms: Atom[][]): void => {
    const note = stackBlocks(
      atoms.map((one) => setLines(one, width)),
      NOTE_GAP,
    );
    shapes.push(group(note.shapes, { move: [0, y] }));
    y += note.height;
  };
  put(setTable(COLUMNS, rowsOf(set, top), width));
  y += AIR;
  say(fixingNotes(set, top));
  if (withSlots) {
    y += AIR;
    say([words("Marked out on each part, from its own edge and end:", TEXT, "bold")]);
    y += NOTE_GAP;
    put(slotTable(set, top, width));
  }
  return { height: y, shapes };
}

/** A view as large as it goes over its foot; null where it goes at no scale. */
const viewOver = (unit: Unit, space: Rect, { height }: Foot, draw: (ratio: number) => Block): Fitted | null =>
  fitAllOrNone(unit, { ...space, height: space.height - height - AIR }, (ratio) => [draw(ratio)], arrange);

const footAt = ({ shapes }: Foot, space: Rect, y: Mm): Shape => group(shapes, { move: [space.x, y] });

const draftOf = (set: DryfitSet, top: SetWorktop, scale: Scale, shapes: Shape[], from = ""): Draft => {
  const name = `${nameIn(set, top)}${from === "" ? "" : `, from ${from}`}`;
  const key = `worktop-${top.mark}${from === "" ? "" : `-${from}`}`;
  return { key, name, bookmark: ["Worktops", name], scale: scale.name, projected: true, shapes };
};

/** Boards, lippings and size from above. */
function drawAbove(set: DryfitSet, top: SetWorktop): { draft: Draft; scale: Scale } {
  const space = drawingSpace(set);
  const foot = footOfAbove(set, top, space);
  const view = viewOver(set.job.unit, space, foot, (ratio) => fromAbove(set, top, ratio));
  if (view === null) throw noRoomFor(space);
  const shapes = [...view.shapes, footAt(foot, space, space.y + space.height - foot.height)];
  return { draft: draftOf(set, top, view.scale, shapes), scale: view.scale };
}

/** Every screw from below, with where each slot is marked out as long as the view is not much smaller for it. */
function drawBelow(set: DryfitSet, top: SetWorktop): Draft[] {
  const space = drawingSpace(set);
  const [own, whole] = [footOfBelow(set, top, space, false), footOfBelow(set, top, space, true)];
  const over = (foot: Foot) => viewOver(set.job.unit, space, foot, (ratio) => fromBelow(set, top, ratio));
  const [alone, both] = [over(own), over(whole)];
  if (alone === null) throw noRoomFor(space);
  const isOne = both !== null && both.scale.ratio >= SMALLER * alone.scale.ratio;
  const [view, foot] = isOne ? [both, whole] : [alone, own];
  const shapes = [...view.shapes, footAt(foot, space, space.y + space.height - foot.height)];
  const draft = draftOf(set, top, view.scale, shapes, "below");
  return isOne ? [draft] : [draft, ...drawSlots(set, top)];
}

/** All on one drawing, each view over what is said of it; null where the views would be smaller than that share of the scale. */
function drawBoth(set: DryfitSet, top: SetWorktop, { ratio }: Scale, least: number): Draft | null {
  const space = drawingSpace(set);
  const feet = [footOfAbove(set, top, space), footOfBelow(set, top, space, true)] as const;
  for (const scale of scalesOf(set.job.unit).filter((one) => one.ratio <= ratio && one.ratio >= least * ratio)) {
    const views = [fromAbove(set, top, scale.ratio), fromBelow(set, top, scale.ratio)] as const;
    const needed = [...feet.map(({ height }) => height), ...views.map(({ box }) => box.height)];
    const spare = space.height - needed.reduce((sum, one) => sum + one, 0) - 3 * AIR;
    if (spare < 0 || views.some(({ box }) => box.width > space.width)) continue;
    let y = space.y;
    const shapes = views.flatMap((view, i): Shape[] => {
      const at = y + spare / 4;
      y = at + view.box.height + AIR + spare / 4;
      const foot = footAt(feet[i]!, space, y);
      y += feet[i]!.height + AIR;
      return [placeBlock(view, [space.x + (space.width - view.box.width) / 2, at]), foot];
    });
    return draftOf(set, top, scale, shapes);
  }
  return null;
}

const COLUMNS: Column[] = [
  { head: "From the front edge", firm: true },
  { head: "Screws" },
  { head: "Through", grow: 1 },
  { head: "From the left end", grow: 2 },
  { head: "Slot, length", firm: true },
  { head: "Screw in it, from its front end", firm: true },
];

type Screw = SetWorktop["screws"][number];

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
