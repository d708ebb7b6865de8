/** The settings read back from their pages: the figure to set, the cutter's width and depth, every part that is run, and where its cut stops. */
import { ROUNDED, roundedBy, saidBy } from "./figure.ts";
import { titleTop } from "./outline.ts";
import type { SeenPage } from "./page.ts";
import { proseOf, textOfProse } from "./prose.ts";
import { type Row, type Table, tablesWith, textOfCell } from "./table.ts";

type Word = SeenPage["words"][number];

export type Operation = "groove" | "rabbet" | "shoulder" | "lap";
/** What is left uncut at an end or edge; `into`: as far as the groove for that part. */
export type ReadStop = { end: string; leave: number; into: string | null };
/** A block at an end or edge lets the cut come so near to it. */
export type ReadBlock = { end: string; leaves: number };
export type ReadRun = { mark: string; face: string; datum: string; far: string; stops: ReadStop[] };
export type ReadSetting = {
  n: number;
  operation: Operation;
  width: number;
  depth: number;
  /** From the datum to the wall nearer to it; `inner`: to the far wall of what begins at the datum itself. */
  fence: number;
  inner: boolean;
  holds: string[];
  runs: ReadRun[];
  blocks: ReadBlock[];
  faults: string[];
};

const FIRSTS = ["To the fence", "To the stop", "Datum"];
const HEADS = FIRSTS.map((datum) =>
  datum === "Datum"
    ? ["Part", "Name", "Face up", datum, "Far end", "Cut"]
    : ["Part", "Name", "Face down", datum, "Goes first", "Cut"],
);

const TITLE = 4.5; // the height of a setting's name
const GROUP = 5.5; // that of a group of them
const isTitle = ({ bold, size }: Word): boolean => bold && size > TITLE - 0.05 && size < GROUP + 0.05;

/** Over a picture stands whose it is. */
const isMark = ({ bold, size, text }: Word): boolean => bold && size < TITLE && /^\d+$/.test(text);

/** Between two groups of settings stands what must be done before the next. */
const isGate = ({ bold, text }: Word): boolean => bold && /^Gate\b/.test(text);

type Region = { n: number; words: Word[]; tables: Table[] };

/** What stands between one title and the next. */
function regionsOf(page: SeenPage, bottom: number): Region[] {
  const titles = page.words.filter((one) => isTitle(one) || isGate(one)).sort((a, b) => a.y1 - b.y1);
  const tables = HEADS.flatMap((heads) => tablesWith(page, heads));
  return titles.flatMap((title, i): Region[] => {
    const n = /^Setting (\d+)/.exec(title.text)?.[1];
    if (n === undefined) return [];
    const [from, to] = [title.y0 - 3, (titles[i + 1]?.y0 ?? bottom + 3) - 3];
    const own = tables.filter(({ y0 }) => y0 > from && y0 < to);
    const isInTable = ({ x0, x1, y1 }: Word): boolean =>
      own.some((one) => x0 > one.x0 - 0.1 && x1 < one.x1 + 0.1 && y1 > one.y0 && y1 < one.y1);
    const words = page.words.filter((one) => one.y1 > from && one.y1 < to && !isInTable(one) && !isMark(one));
    return [{ n: Number(n), words, tables: own }];
  });
}

const F = "<([^>]+)>";
const figure = (text: string): number => {
  const value = saidBy(text);
  if (value === null) throw new Error(`no figure: ${text}`);
  return value;
};

/** "through", "leave 15 uncut at the front edge", "run into the groove for 4, which begins 32.5 from the top end, not past its far wall". */
function stopsIn(text: string): ReadStop[] {
  if (text === "through") return [];
  const all = [
    ...text.matchAll(
      /leave ([\d ./]+?) uncut at the (\w+ (?:end|edge)(?: before lipping)?)|run into the groove for (\d+), which begins ([\d ./]+?) from the (\w+ (?:end|edge)(?: before lipping)?), not past its far wall/g,
    ),
  ];
  if (all.map(([one]) => one).join(" ") !== text) throw new Error(`not read: ${text}`);
  return all.map(([, leave, end, into, by, from]) => ({
    end: (end ?? from)!,
    leave: figure((leave ?? by)!),
    into: into ?? null,
  }));
}

const runOf = (row: Row): ReadRun => {
  if ("heading" in row) throw new Error(`not a run: ${row.heading}`);
  const [mark, , face, datum, far, cut] = row.cells.map(textOfCell) as [string, string, string, string, string, string];
  return { mark: mark.match(/\d+/)![0], face, datum, far, stops: stopsIn(cut) };
};

/** A figure and, where it is a fraction, the same as a decimal. */
const TWICE = `${F}(?: ([\\d.]+)(?![\\d.]))?`;

/** What a setting says in words, each sentence taken out as it is read. */
class Words {
  readonly faults: string[] = [];
  #rest: string;

  constructor(
    readonly n: number,
    readonly within: number,
    said: string,
  ) {
    this.#rest = said;
  }

  maybe(pattern: string): RegExpExecArray | null {
    const match = new RegExp(pattern).exec(this.#rest);
    if (match !== null) this.#rest = this.#rest.replace(match[0], " ¶ ");
    return match;
  }

  take(what: string, pattern: string): RegExpExecArray {
    const match = this.maybe(pattern);
    if (match === null) throw new Error(`setting ${this.n} has no ${what}: ${this.#rest}`);
    return match;
  }

  twice(value: string, again: string | undefined): number {
    const read = figure(value);
    if (again !== undefined) this.same(read, Number(again), "the same");
    return read;
  }

  /** `rounded`: what the rounding of its terms adds to its own. */
  same(value: number, other: number, what: string, rounded = 0): void {
    if (Math.abs(value - other) > this.within + rounded) this.faults.push(`${value} is not ${what}, ${other}`);
  }

  /** Figures that are left stand in the pictures: each says again what is said in words. */
  onlyAgain(known: readonly number[]): void {
    for (const [, text] of this.#rest.matchAll(new RegExp(F, "g")))
      if (!known.some((one) => Math.abs(one - figure(text!)) <= this.within))
        this.faults.push(`${text} in its picture is said nowhere`);
  }
}

/** The riding side of the router's base and its leading edge, from the bit's middle; `most`: how deep one plunge may be, where any is told. */
type Base = { half: number; ahead: number; most: number };

const BOXED = 5.5; // the figure to set is lettered larger than any other
const isBoxed = ({ size, text }: Word): boolean => size > BOXED && saidBy(text) !== null;

const TO = "datum to the edge|end to the shoulder|to the \\w+'s inner";

/** The figure in its box, and the decimal that stands close beside or under it where it is a fraction. */
function boxIn(n: number, words: readonly Word[]): { figure: string; again: string | undefined } {
  const boxed = words.filter(isBoxed);
  if (boxed.length !== 1) throw new Error(`setting ${n} has ${boxed.length} figures in boxes`);
  const [{ text, x1, y1 }] = boxed as [Word];
  const again = words.find(
    (word) => /^\d+\.\d{3}$/.test(word.text) && Math.abs(word.y1 - y1) < 0.1 && word.x0 > x1 && word.x0 < x1 + 4,
  );
  return { figure: text, again: again?.text };
}

function readSetting(n: number, regions: readonly Region[], unit: "mm" | "in", base: Base | null): ReadSetting {
  const all = regions.flatMap(({ words }) => words);
  const said = new Words(
    n,
    ROUNDED[unit],
    regions.flatMap(({ words }) => proseOf(words.filter((word) => !isBoxed(word))).map(textOfProse)).join(" ¶ "),
  );
  const cut = said.take("cutter", `(Groove|Rabbet|Shoulder|Lap) ${F} wide, ${F} deep(?: for (\\d+(?:, \\d+)*))?`);
  const [width, depth] = [figure(cut[2]!), figure(cut[3]!)];
  const box = boxIn(n, all);
  const guide = said.twice(box.figure, box.again);
  const kind = said.take("guide", "\\b(FENCE|STOP|STRAIGHTEDGE)\\b")[1];
  let [fence, inner] = [guide, said.maybe(TO) !== null];
  const known = [guide, width, depth];
  const blocks: ReadBlock[] = [];
  const runs = regions.flatMap(({ tables }) => tables.flatMap(({ rows }) => rows.map(runOf)));
  if (kind === "STRAIGHTEDGE") {
    const wall = said.take(
      "wall",
      `Reckoned for a bit ${F}: measure it\\. (Near|Inner) wall of the \\w+ ${TWICE} from the datum\\.`,
    );
    fence = said.twice(wall[3]!, wall[4]);
    inner = wall[2] === "Inner";
    known.push(fence);
    const rounded = roundedBy(width, unit);
    const at = { bit: figure(wall[1]!), guide, fence, inner, width, depth, rounded };
    blocks.push(...checkStraightedge(said, at, runs, base));
  }
  const low = inner ? 0 : fence;
  said.onlyAgain([...known, low, low + width, ...runs.flatMap(({ stops }) => stops.map(({ leave }) => leave))]);
  return {
    n,
    operation: cut[1]!.toLowerCase() as Operation,
    width,
    depth,
    fence,
    inner,
    holds: cut[4]?.split(", ") ?? [],
    runs,
    blocks,
    faults: said.faults.map((fault) => `setting ${n}: ${fault}`),
  };
}

/**
 * Straightedge from the wall on its side: half the base less half the bit; the pass against the other wall is as much farther as the
 * groove is wider than the bit (trade.md, formula 1). A block at a stop stands the base's leading edge less half the bit outside
 * where the cut ends.
 */
function checkStraightedge(
  said: Words,
  at: { bit: number; guide: number; fence: number; inner: boolean; width: number; depth: number; rounded: number },
  runs: readonly ReadRun[],
  base: Base | null,
): ReadBlock[] {
  if (base === null) throw new Error(`setting ${said.n}: for what base?`);
  const [low, high] = at.inner ? [0, at.fence] : [at.fence, at.fence + at.width];
  const off = base.half - at.bit / 2;
  const [before, beyond] = [low - off, high + off];
  const isBefore = Math.abs(at.guide - before) < Math.abs(at.guide - beyond);
  said.same(at.guide, isBefore ? before : beyond, "the straightedge's place", isBefore ? 0 : at.rounded);
  const passes = said.maybe(
    `First pass with a (?:shim|spacer) ${F} wide against the straightedge, which guides at ${F},`,
  );
  if (passes !== null) {
    const wider = at.width - at.bit;
    said.same(figure(passes[1]!), wider, "as much as the groove is wider than the bit", at.rounded);
    said.same(
      figure(passes[2]!),
      isBefore ? before + wider : beyond - wider,
      "the first pass",
      isBefore ? at.rounded : 0,
    );
  }
  const steps = said.maybe(`Plunge in (\\d+) steps: ((?:${F}[,.] ?)+)`);
  const depths = [...(steps?.[2] ?? "").matchAll(new RegExp(F, "g"))].map(([, text]) => figure(text!));
  const wanted = plunges(at.depth, base.most);
  if (steps !== null ? Number(steps[1]) !== wanted.length || depths.length !== wanted.length : wanted.length > 1)
    said.faults.push(`plunged to ${depths}, and not to ${wanted}`);
  depths.forEach((depth, i) => void said.same(depth, wanted[i]!, "a plunge"));
  const blocks: ReadBlock[] = [];
  for (let block = said.maybe(BLOCK); block !== null; block = said.maybe(BLOCK)) {
    const stands = figure(block[1]!) * (block[2] === "outside" ? 1 : -1);
    const end = block[3]!;
    const leaves = base.ahead - at.bit / 2 - stands;
    blocks.push({ end, leaves });
    const stops = runs.flatMap(({ stops }) => stops.filter((one) => one.end === end));
    // Into a groove that crosses, the cut may go on as far as that is wide: where that is the part drawing says.
    if (!stops.some(({ into, leave }) => into !== null || Math.abs(leave - leaves) <= said.within))
      said.faults.push(`a block ${stands} off the ${end} leaves ${leaves}`);
  }
  for (const { end, leave, into } of runs.flatMap(({ stops }) => stops))
    if (into === null && !blocks.some((one) => one.end === end && Math.abs(leave - one.leaves) <= said.within))
      said.faults.push(`no block leaves ${leave} at the ${end}`);
  return blocks;
}

/** Step by step as deep as one plunge may be, the last as deep as the groove. */
function plunges(depth: number, most: number): number[] {
  const count = Math.max(1, Math.ceil(depth / most - 1e-3));
  return Array.from({ length: count }, (_, i) => (i === count - 1 ? depth : (i + 1) * most));
}

const BLOCK = `Block ${F} (outside|inside) the (\\w+ (?:end|edge)(?: before lipping)?):`;

const BASE = `Reckoned for a base whose riding side is ${F} from the bit's middle, its leading edge ${F}:(?:.*? One plunge takes ${F} at most)?`;

function baseOn(pages: readonly SeenPage[]): Base | null {
  const all = pages.flatMap(({ words }) => proseOf(words).map(textOfProse));
  const match = all.map((text) => new RegExp(BASE).exec(text)).find((one) => one !== null);
  return match === undefined || match === null
    ? null
    : {
        half: figure(match[1]!),
        ahead: figure(match[2]!),
        most: match[3] === undefined ? Number.POSITIVE_INFINITY : figure(match[3]),
      };
}

/** `columns`: of the pages, each as a page of its own. */
export function readSettings(columns: readonly SeenPage[], unit: "mm" | "in"): ReadSetting[] {
  const regions = columns.flatMap((column) => regionsOf(column, titleTop(column)));
  const base = baseOn(columns);
  return [...new Set(regions.map(({ n }) => n))].map((n) =>
    readSetting(
      n,
      regions.filter((one) => one.n === n),
      unit,
      base,
    ),
  );
}
