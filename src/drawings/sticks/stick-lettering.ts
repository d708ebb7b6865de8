/** The lettering of a strip: every figure beside its line, none over another, from the upper long edge down to the lane. */
import { figureOf, formatDecimal, isSame, type Mm } from "../../base/length.ts";
import { fill, group, polygonSteps } from "../../paper/draw.ts";
import type { Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetStick } from "../../set/schema.ts";
import { type Atom, FIGURE, glue, SMALL, setLines, stackBlocks, word } from "../draughting/cell.ts";
import { type Block, type Item, type Placed, placeItem, type Spot } from "../draughting/placing.ts";
import { wayUpFigure, wayUpWord } from "../draughting/way-up.ts";
import { endsAt, endsRow, isHole, lineWord, readingsOf, type StickMark, zeroWords } from "./stick-words.ts";

export type Strip = {
  stick: SetStick;
  from: Mm;
  to: Mm;
  height: Mm;
  /** Where this strip is joined to its neighbours, with the letter both carry. */
  joins: { at: Mm; letter: string; side: "low" | "high" }[];
  /** Said on the strip itself, which soon lies in a shop without its page. */
  name: string[];
};

/** The middle of a strip, where nothing is lettered: walls, ends and crosses only. */
const LANE: Mm = 5;
export const laneOf = (height: Mm): [Mm, Mm] => [(height - LANE) / 2, (height + LANE) / 2];

export const CROSS: Mm = 2.5; // half a cross mark

/** Where a cross mark stands on its join line: over the lane, so that nothing of it lies in the lane. */
export const crossAt = (height: Mm): Mm => laneOf(height)[0] - CROSS;

export const TICK: Mm = 2.6; // lines run out to the long edge unbroken
const OFF: Mm = 0.9; // lettering stands this clear of its line
const STEP: Mm = 0.5; // of places tried for lettering
const BIG: Mm = 5;
const MARK_AIR: Mm = 0.5; // beside the mark in a band

// What a place costs: the least sum wins.
const WRONG_SIDE = 1;
const CROSSED_LINE = 3; // a line broken for lettering can still be read at both edges and in the lane
const PER_MM_DOWN = 0.02;

type Form = { block: Block; cost: number };

const blockOf = (atoms: Atom[]): Block => {
  const glued = glue(atoms);
  if (glued.kind !== "drawn") throw new Error("Internal error: glued atoms are drawn");
  return { width: glued.width, height: glued.up + glued.down, shapes: [group(glued.shapes, { move: [0, glued.up] })] };
};

const stacked = (lines: Atom[][]): Block =>
  stackBlocks(
    lines.map((atoms) => setLines(atoms, blockOf(atoms).width)),
    0.6,
  );

const words = (content: string): Atom => word(content, SMALL);

const partWords = (marks: string[]): string => `${marks.length === 1 ? "part" : "parts"} ${marks.join(", ")}`;

/**
 * The total first, so that nothing pushes it away; where that leaves a figure out, the bands first: of both what leaves out least. A strip
 * that has figures in the columns alone says so before anything else takes the room.
 */
export function letterStrip(set: DryfitSet, strip: Strip, marks: StickMark[]): Placed[] {
  const tries = [false, true].flatMap((isNoted) =>
    ORDERS.map((order) => letterInOrder(set, strip, marks, order, isNoted)),
  );
  const whole = tries.slice(0, ORDERS.length).find(({ left }) => left === 0);
  if (whole !== undefined) return whole.placed;
  return tries.slice(ORDERS.length).reduce((best, one) => (one.left < best.left ? one : best)).placed;
}

const ORDERS = ["total", "bands"] as const;

function letterInOrder(
  set: DryfitSet,
  strip: Strip,
  marks: StickMark[],
  first: (typeof ORDERS)[number],
  isNoted: boolean,
): Lettering {
  const page = new Lettering(strip, marks);
  for (const join of strip.joins) {
    page.put(page.beside(join.at, joinForms(set, join), join.side === "low" ? "high" : "low"));
  }
  if (isSame(strip.from, 0)) page.put(page.beside(0, zeroForms(zeroWords(set, strip.stick)), "high"));
  if (isNoted) page.put(page.anywhere(blockOf([words("more figures: see the columns of figures")])));
  const of = (wanted: StickMark["kind"]): StickMark[] => marks.filter(({ kind }) => kind === wanted);
  const ends = of("end").reverse();
  const letterTotal = (): void => {
    for (const mark of ends.slice(0, 1)) letterEnd(set, page, mark);
  };
  if (first === "total") letterTotal();
  const bands = [...of("groove"), ...of("seat")];
  const bare = bands.filter((mark) => !page.put(page.inBand(mark, bandWord(set, mark))));
  for (const mark of bands) {
    readingsOf(set, strip.stick, mark).forEach(({ near, parts }, i) => {
      const takes = i === 0 && bare.includes(mark) ? `, for ${mark.holds.join(", ")}` : "";
      page.figure(page.beside(mark.at, readingForms(set, near, `${partWords(parts)}${takes}`), "low"));
    });
  }
  if (first === "bands") letterTotal();
  for (const mark of ends.slice(1)) letterEnd(set, page, mark);
  const isBetween = (mark: StickMark): boolean => isHole(set, strip.stick, mark) && !endsRow(set, strip.stick, mark);
  for (const mark of of("line").filter((one) => !isBetween(one))) {
    for (const { near, parts } of readingsOf(set, strip.stick, mark)) {
      const who = `${lineWord(set, strip.stick, mark)}, ${partWords(parts)}`;
      page.figure(page.beside(mark.at, readingForms(set, near, who), "high"));
    }
  }
  for (const mark of of("line").filter(isBetween)) letterBetween(set, page, mark);
  for (const said of strip.name) page.put(page.anywhere(blockOf([words(said)])));
  return page;
}

/** Who stands there; of a frame with the letter of the joint, that goes on both members. */
function bandWord({ joints }: DryfitSet, { holds, parts }: StickMark): string {
  const letters = joints.flatMap(({ entering, receiving, mating }) =>
    mating !== null && holds.includes(entering) && parts.includes(receiving) ? [mating] : [],
  );
  return letters.length === 0 ? holds.join(", ") : `${holds.join(", ")} ${letters.join("/")}`;
}

function letterEnd(set: DryfitSet, page: Lettering, mark: StickMark): void {
  const { stick } = page.strip;
  const { begins, ends } = endsAt(stick, mark);
  if (begins.length > 0 && !isSame(mark.at, 0)) {
    page.figure(page.beside(mark.at, readingForms(set, 0, `end of ${begins.join(", ")}`), "high"));
  }
  for (const [length, names] of lengthsOf(stick, ends)) {
    const isTotal = isSame(mark.at, stick.length) && isSame(length, mark.at);
    const who = `${isTotal ? "total, " : ""}end of ${names.join(", ")}`;
    page.figure(page.beside(mark.at, readingForms(set, length, who), "low"));
  }
}

/**
 * A hole within its row. Where the strip has rows of other parts as well it says whose it is; where all parts count from one end, how far
 * it lies, if there is room. The columns of figures have every hole.
 */
function letterBetween(set: DryfitSet, page: Lettering, mark: StickMark): void {
  const { stick } = page.strip;
  const readings = readingsOf(set, stick, mark);
  const bold = readings.length === 1 ? [wayUpFigure(readings[0]!.near, set.job.unit, FIGURE, "bold")] : [];
  const isMixed = stick.marks.some((one) => isHole(set, stick, one) && one.parts.join() !== mark.parts.join());
  const who = isMixed ? [words(partWords(readings.flatMap(({ parts }) => parts)))] : [];
  const forms: Form[] = [
    { block: blockOf([...bold, ...who]), cost: 0 },
    ...(bold.length > 0 && who.length > 0
      ? [
          { block: stacked([bold, who]), cost: 0.5 },
          { block: blockOf(who), cost: 12 },
        ]
      : []),
  ];
  if (bold.length + who.length > 0) page.put(page.beside(mark.at, forms, "high"));
}

/** Parts that end here, by their own length. */
function lengthsOf(stick: SetStick, marks: string[]): [Mm, string[]][] {
  const byLength: [Mm, string[]][] = [];
  for (const { mark, length } of stick.parts.filter((part) => marks.includes(part.mark))) {
    const same = byLength.find(([other]) => isSame(other, length));
    if (same !== undefined) same[1].push(mark);
    else byLength.push([length, [mark]]);
  }
  return byLength;
}

/** Said in full, in two lines, without its decimal, without its part, small; at last as a star that sends the reader to the columns of figures. */
function readingForms({ job }: DryfitSet, length: Mm, who: string): Form[] {
  const bold = wayUpFigure(length, job.unit, FIGURE, "bold");
  const written = figureOf(length, job.unit);
  const isFraction = written.kind === "fraction" && written.numerator !== 0;
  const twice = isFraction ? [bold, words(formatDecimal(length, job.unit))] : [bold];
  return [
    { block: blockOf([...twice, words(who)]), cost: 0 },
    { block: stacked([twice, [words(who)]]), cost: 0.5 },
    { block: blockOf([bold, words(who)]), cost: 2 },
    { block: stacked([[bold], [words(who)]]), cost: 2.5 },
    { block: blockOf([bold]), cost: 12 },
    { block: blockOf([wayUpFigure(length, job.unit, SMALL, "bold")]), cost: 16 },
    { block: blockOf([word("*", FIGURE, "bold")]), cost: 40 },
  ];
}

function joinForms({ job }: DryfitSet, { letter, at, side }: Strip["joins"][number]): Form[] {
  const big = word(letter, BIG, "bold");
  const running = [wayUpFigure(at, job.unit, FIGURE, "regular"), words(job.unit)];
  return [
    { block: blockOf(side === "low" ? [big, ...running] : [...running, big]), cost: 0 },
    { block: blockOf([big]), cost: 20 },
  ];
}

const zeroForms = (end: string): Form[] => [
  { block: blockOf([word("0", BIG, "bold"), word(`zero end: ${end}`, SMALL, "bold")]), cost: 0 },
  { block: stacked([[word("0", BIG, "bold")], [word(`zero end: ${end}`, SMALL, "bold")]]), cost: 0.5 },
  { block: blockOf([word("0", BIG, "bold"), word("zero end", SMALL, "bold")]), cost: 4 },
  { block: stacked([[word("0", BIG, "bold")], [word("zero end", SMALL, "bold")]]), cost: 6 },
  { block: blockOf([word("0", BIG, "bold")]), cost: 10 },
];

const HEAD: Mm = 1.7;
const HEAD_AIR: Mm = 0.4;

/** A figure that runs over another line, with an arrowhead at its own: it is not read as the other's. */
function pointing(block: Block, to: 1 | -1): Block {
  const width = block.width + HEAD + HEAD_AIR;
  const withHead = (end: 1 | -1): Shape[] => {
    const [tip, foot] = end === 1 ? [width, width - HEAD] : [0, HEAD];
    const middle = Math.min(block.height, FIGURE) / 2;
    const head = fill(
      0,
      polygonSteps([
        [tip, middle],
        [foot, middle - HEAD / 3],
        [foot, middle + HEAD / 3],
      ]),
    );
    return [...(end === 1 ? block.shapes : [group(block.shapes, { move: [HEAD + HEAD_AIR, 0] })]), head];
  };
  // Turned about, its other end is at the line.
  return { width, height: block.height, shapes: withHead(to), turned: withHead(to === 1 ? -1 : 1) };
}

/** The zone being lettered: what stands in it, and which lines run through it. */
class Lettering {
  readonly placed: Placed[];
  /** Figures that found no room. */
  left = 0;
  private readonly lines: Mm[];

  constructor(
    readonly strip: Strip,
    marks: StickMark[],
  ) {
    const { joins, from, height } = strip;
    this.placed = joins.map(({ at }) => ({
      box: { x: at - from - CROSS, y: crossAt(height) - CROSS, width: 2 * CROSS, height: 2 * CROSS },
      block: { width: 2 * CROSS, height: 2 * CROSS, shapes: [] },
    }));
    const walls = marks.flatMap(({ at, width }) => (width === 0 ? [at] : [at, at + width]));
    this.lines = [...walls, ...joins.map(({ at }) => at)].map((at) => at - from);
  }

  put(item: Item): boolean {
    const found = placeItem(item, this.placed);
    if (found !== null) this.placed.push(found);
    return found !== null;
  }

  /** A figure that finds no room, not even as a star, is in the columns of figures; the strip then says so. */
  figure(item: Item): void {
    if (!this.put(item)) this.left += 1;
  }

  /** On either side of the line at `at`, at any height. */
  beside(at: Mm, forms: Form[], side: "low" | "high"): Item {
    const u = at - this.strip.from;
    const [low, high] = side === "low" ? [0, WRONG_SIDE] : [WRONG_SIDE, 0];
    return {
      forms: forms.flatMap(({ block, cost }) => {
        const [toHigh, toLow] = [pointing(block, 1), pointing(block, -1)];
        return [
          {
            block,
            spots: [
              ...this.clear(u - OFF - block.width, block, cost + low),
              ...this.clear(u + OFF, block, cost + high),
            ],
          },
          { block: toHigh, spots: this.crossing(u - OFF - toHigh.width, toHigh, cost + low) },
          { block: toLow, spots: this.crossing(u + OFF, toLow, cost + high) },
        ];
      }),
    };
  }

  /** The mark of what enters, inside the band, between the lines that run through it. */
  inBand(mark: StickMark, said: string): Item {
    const u = mark.at - this.strip.from;
    const forms = [BIG, FIGURE, SMALL].map((size, i) => {
      const bare = blockOf([wayUpWord(said, size, "bold")]);
      // A figure beside it must not be read with it.
      const shapes = [group(bare.shapes, { move: [MARK_AIR, 0] })];
      const block = { ...bare, width: bare.width + 2 * MARK_AIR, shapes };
      const slack = mark.width - block.width - 2 * OFF;
      const steps = slack < 0 ? [] : Array.from({ length: Math.floor(slack / STEP) + 1 }, (_, n) => n * STEP);
      const spots = steps.flatMap((x) => this.clear(u + OFF + x, block, 2 * i + 0.1 * Math.abs(x - slack / 2)));
      return { block, spots };
    });
    return { forms };
  }

  anywhere(block: Block): Item {
    const spots: Spot[] = [];
    const last = this.strip.to - this.strip.from - OFF - block.width;
    for (let x = 4 * OFF; x < last; x += 4) spots.push(...this.clear(x, block, 0));
    return { forms: [{ block, spots }] };
  }

  private crossed(x: Mm, { width }: Block): number {
    return this.lines.filter((u) => u > x - OFF / 2 && u < x + width + OFF / 2).length;
  }

  private clear(x: Mm, block: Block, cost: number): Spot[] {
    return this.crossed(x, block) === 0 ? this.spots(x, block, cost) : [];
  }

  private crossing(x: Mm, block: Block, cost: number): Spot[] {
    return this.crossed(x, block) > 0 ? this.spots(x, block, cost) : [];
  }

  private spots(x: Mm, block: Block, cost: number): Spot[] {
    if (x < OFF || x + block.width > this.strip.to - this.strip.from - OFF) return [];
    const crossing = CROSSED_LINE * this.crossed(x, block);
    const last = laneOf(this.strip.height)[0] - 0.4 - block.height;
    const spots: Spot[] = [];
    for (let y = TICK; y <= last; y += STEP) spots.push({ x, y, cost: cost + crossing + PER_MM_DOWN * y });
    return spots;
  }
}
