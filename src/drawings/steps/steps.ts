/** The order of work: a block for each step, its cautions set apart, its moves pictured, its figures to be written beside their targets. */
import type { Mm, Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { line } from "../../paper/draw.ts";
import type { DryfitSet, SetMove, SetStep } from "../../set/schema.ts";
import { byMark, countedInWords } from "../../set/words.ts";
import { setCaution } from "../draughting/caution.ts";
import {
  type Atom,
  type Block,
  besideBlocks,
  FIGURE,
  figure,
  figureTwice,
  glue,
  placeBlock,
  SMALL,
  setLines,
  stackBlocks,
  tick,
  word,
  words,
  writeIn,
} from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { columnsOf, type FlowGroup, type FlowItem, flowEvenly, flowItem, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Row, setTable } from "../draughting/table.ts";
import { drawMoves } from "./move-picture.ts";
import type { PagesOf } from "./shown-on.ts";

const NUMBER: Mm = 5;
const TITLE: Mm = 3.5;
const INDENT: Mm = 11; // the number and the tick box stand in the margin
const LEAST_COLUMN: Mm = 112; // some sixty letters a line
const GUTTER: Mm = 9;
const BETWEEN: Mm = 5;
const GAP: Mm = 1.8;
const RULE_ABOVE: Mm = 3;
const WRITE: Mm = 16;
const PICTURE: Mm = 44; // a picture of a move: at least so wide,
const PICTURE_HEIGHT: Mm = 54; // and about so high, so that whole rows fill a column
const BETWEEN_PICTURES: Mm = 3;
const NO_BLOCK: Block = { width: 0, height: 0, baseline: 0, shapes: [] };

const indented = (block: Block, width: Mm): Block => ({
  ...block,
  width,
  shapes: [placeBlock(block, [INDENT, 0])],
});

function setTitle(step: SetStep, width: Mm): Block {
  const number = setLines([word(String(step.n), NUMBER, "bold")], INDENT);
  const title = setLines([...words(step.title, TITLE, "bold"), tick()], width - INDENT);
  const baseline = RULE_ABOVE + Math.max(number.baseline, title.baseline);
  return {
    width,
    height: baseline + Math.max(number.height - number.baseline, title.height - title.baseline),
    baseline,
    shapes: [
      line("outline", [0, 0], [width, 0]),
      placeBlock(number, [0, baseline - number.baseline]),
      placeBlock(title, [INDENT, baseline - title.baseline]),
    ],
  };
}

/** "All 24 parts" rather than every mark where it is every part. */
function scope(set: DryfitSet, step: SetStep): Atom[] {
  const marks = [...step.parts].sort(byMark);
  const parts =
    marks.length === 0
      ? []
      : marks.length === set.parts.length
        ? words(`All ${marks.length} parts.`)
        : [...words(marks.length === 1 ? "Part" : "Parts"), ...words(`${marks.join(", ")}.`, undefined, "bold")];
  const settings =
    step.settings.length === 0
      ? []
      : [
          ...words(step.settings.length === 1 ? "Setting" : "Settings"),
          ...words(`${step.settings.join(", ")}.`, undefined, "bold"),
        ];
  const needs =
    step.needs.length === 0
      ? []
      : words(`After step${step.needs.length === 1 ? "" : "s"} ${listInWords(step.needs.map(String))}.`);
  return [...parts, ...settings, ...needs];
}

/** "Drawings: cut list 24 to 27, sheet layouts 28 to 31, story sticks." */
function shown({ drawings }: SetStep, pagesOf: PagesOf): Atom[] {
  if (drawings.length === 0) return [];
  const named = drawings.map((noun) => {
    const runs = pagesOf(noun).map(([first, last]) => (first === last ? `${first}` : `${first} to ${last}`));
    return runs.length === 0 ? noun : `${noun} ${listInWords(runs)}`;
  });
  return [...words("Drawings:", undefined, "bold"), ...words(`${named.join(", ")}.`)];
}

/** A size with its unit. */
const sized = (length: Mm, unit: Unit): Atom => glue([figure(length, unit), word(unit)]);

/** "(3/16 \u00d7 2 in)". */
function sizesInBrackets(sizes: readonly Mm[], unit: Unit): Atom[] {
  if (sizes.length === 0) return [];
  const figures = sizes.flatMap((size, i) => [...(i === 0 ? [] : [word("\u00d7")]), figure(size, unit)]);
  return [glue([glue([word("("), figures[0]!], 0), ...figures.slice(1), word(`${unit})`)])];
}

/** The last of the atoms with a sign close behind it. */
const closed = (atoms: readonly Atom[], sign: string): Atom[] => [
  ...atoms.slice(0, -1),
  glue([atoms.at(-1)!, word(sign)], 0),
];

/** What has to lie ready: what is bought, clamps, cauls. */
function ready({ clamps, hardware }: SetStep, unit: Unit): Atom[] {
  const things: Atom[][] = [
    ...hardware.map((one) => [...words(countedInWords(one)), ...sizesInBrackets(one.sizes, unit)]),
    ...(clamps === null
      ? []
      : [
          [
            ...words(`${clamps.count} ${clamps.count === 1 ? "clamp that opens" : "clamps that open"}`),
            sized(clamps.opens, unit),
          ],
          ...clamps.cauls.map(({ count, length }) => [
            ...words(`${count} ${count === 1 ? "caul" : "cauls"} of`),
            sized(length, unit),
          ]),
        ]),
  ];
  if (things.length === 0) return [];
  const ended = things.flatMap((thing, i) => closed(thing, i === things.length - 1 ? "." : ";"));
  return [...words("Have ready:", undefined, "bold"), ...ended];
}

function boxRows(step: SetStep, unit: Unit): Row[] {
  return step.boxes.map((box) => ({
    cells: [
      words(box.label),
      box.target === null ? words("\u2013") : figureTwice(box.target, unit, FIGURE, "bold"),
      [glue([writeIn(WRITE), writeIn(WRITE)])],
    ],
  }));
}

const keyOf = (move: { assembly: string; n: number }): string => `${move.n} ${move.assembly}`;

/** The moves that this step is the first to make, pictured side by side; where a step before made them, it is named. */
function pictures(set: DryfitSet, step: SetStep, width: Mm, room: Mm): Block[] {
  const before = new Map<string, number>();
  for (const { n, moves } of set.steps) {
    if (n < step.n) for (const move of moves) if (!before.has(keyOf(move))) before.set(keyOf(move), n);
  }
  const count = Math.max(1, Math.floor((width + BETWEEN_PICTURES) / (PICTURE + BETWEEN_PICTURES)));
  const rowsInColumn = Math.max(1, Math.round(room / PICTURE_HEIGHT));
  const most = (room - SMALL - GAP) / rowsInColumn - GAP; // under the head of a column
  const each = (width - (count - 1) * BETWEEN_PICTURES) / count;
  const drawn = set.orders.flatMap((order) => {
    const own = (move: SetMove): string => keyOf({ assembly: order.assembly, n: move.n });
    const wanted = new Map(step.moves.map((one) => [keyOf(one), one.spacers]));
    const moves = order.moves.flatMap((move) => {
      const spacers = wanted.get(own(move));
      return spacers === undefined || before.has(own(move)) ? [] : [{ move, spacers }];
    });
    return drawMoves(set, order, moves, each, most);
  });
  const rows = Array.from({ length: Math.ceil(drawn.length / count) }, (_, i) =>
    besideBlocks(drawn.slice(i * count, (i + 1) * count), BETWEEN_PICTURES),
  );
  const steps = [...new Set(step.moves.flatMap((move) => before.get(keyOf(move)) ?? []))];
  const elsewhere =
    steps.length === 0
      ? []
      : [
          setLines(
            words(`Pictures of these moves: step${steps.length === 1 ? "" : "s"} ${listInWords(steps.map(String))}.`),
            width,
          ),
        ];
  return [...rows, ...elsewhere];
}

function setStep(set: DryfitSet, step: SetStep, width: Mm, room: Mm, pagesOf: PagesOf): FlowGroup {
  const inner = width - INDENT;
  const again = setLines(words(`${step.n} (continued)`, SMALL), width);
  const put = (block: Block, options: Partial<FlowItem> = {}): FlowItem =>
    flowItem(indented(block, width), { above: GAP, head: stackBlocks([again, NO_BLOCK], GAP), ...options });
  const about = scope(set, step);
  const boxes =
    step.boxes.length === 0
      ? []
      : setTable(
          [{ head: "Measure", grow: 1 }, { head: "Target" }, { head: "Found" }],
          boxRows(step, set.job.unit),
          inner,
        ).map((item, i) => ({
          ...item,
          block: indented(item.block, width),
          head: stackBlocks([again, item.head === null ? NO_BLOCK : indented(item.head, width)], GAP),
          above: i === 0 ? GAP : item.above,
        }));
  return [
    flowItem(setTitle(step, width), { above: BETWEEN, keep: true }),
    ...[about, shown(step, pagesOf), ready(step, set.job.unit)]
      .filter((line) => line.length > 0)
      .map((line) => put(setLines(line, inner), { keep: true })),
    // Before the work, not after it.
    ...step.cautions.map((caution) => put(setCaution(caution, inner), { keep: true })),
    ...(step.now.length === 0
      ? []
      : [put(setLines([...words("Easier now than later:", undefined, "bold"), ...words(step.now.join(" "))], inner))]),
    ...step.text.map((paragraph) => put(setLines(words(paragraph), inner))),
    ...pictures(set, step, inner, room).map((block) => put(block)),
    ...boxes,
  ];
}

export function drawSteps(set: DryfitSet, pagesOf: PagesOf = () => []): Draft[] {
  if (set.steps.length === 0) return [];
  const space = drawingSpace(set);
  const columns = columnsOf(space, Math.max(1, Math.floor((space.width + GUTTER) / (LEAST_COLUMN + GUTTER))), GUTTER);
  const { width, height } = columns[0]!;
  return numberDrafts(
    "steps",
    "Steps",
    flowEvenly(
      set.steps.flatMap((step) => loosely(setStep(set, step, width, height, pagesOf))),
      () => columns,
    ),
  );
}
