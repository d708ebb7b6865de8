/** The settings read back from their pages: the figure to set, the cutter's width and depth, every part that is run, and where its cut stops. */
import { saidBy } from "./figure.ts";
import type { SeenPage } from "./page.ts";
import { proseOf, textOfProse } from "./prose.ts";
import { type Row, type Table, tablesWith, textOfCell } from "./table.ts";

type Word = SeenPage["words"][number];

export type Operation = "groove" | "rabbet" | "shoulder" | "lap";
/** What is left uncut at an end or edge; `into`: as far as the groove for that part. */
export type ReadStop = { end: string; leave: number; into: string | null };
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
  faults: string[];
};

const FIRSTS = ["To the fence", "To the stop", "Datum"];
const HEADS = FIRSTS.map((datum) =>
  datum === "Datum"
    ? ["Part", "Name", "Face up", datum, "Far end", "Cut"]
    : ["Part", "Name", "Face down", datum, "Goes first", "Cut"],
);

const TITLE = 4.5; // the height of a setting's name
const isTitle = ({ bold, size }: Word): boolean => bold && Math.abs(size - TITLE) < 0.05;

const LAST_DIGIT = { mm: 0.0101, in: 0.00101 };

type Region = { n: number; words: Word[]; tables: Table[] };

/** What stands between one title and the next. */
function regionsOf(page: SeenPage, bottom: number): Region[] {
  const titles = page.words.filter(isTitle).sort((a, b) => a.y1 - b.y1);
  const tables = HEADS.flatMap((heads) => tablesWith(page, heads));
  return titles.flatMap((title, i): Region[] => {
    const n = /^Setting (\d+)/.exec(title.text)?.[1];
    if (n === undefined) return [];
    const [from, to] = [title.y0 - 3, (titles[i + 1]?.y0 ?? bottom + 3) - 3];
    const own = tables.filter(({ y0 }) => y0 > from && y0 < to);
    const isInTable = ({ x0, x1, y1 }: Word): boolean =>
      own.some((one) => x0 > one.x0 - 0.1 && x1 < one.x1 + 0.1 && y1 > one.y0 && y1 < one.y1);
    const words = page.words.filter((one) => one.y1 > from && one.y1 < to && !isInTable(one));
    return [{ n: Number(n), words, tables: own }];
  });
}

const F = "<([^>]+)>";
const figure = (text: string): number => {
  const value = saidBy(text);
  if (value === null) throw new Error(`no figure: ${text}`);
  return value;
};

/** "through", "leave 15 uncut at the front edge", "run into the groove for 4, 32.5 from the top end, not beyond it". */
function stopsIn(text: string): ReadStop[] {
  if (text === "through") return [];
  const all = [
    ...text.matchAll(
      /leave ([\d ./]+?) uncut at the (\w+ (?:end|edge)(?: before lipping)?)|run into the groove for (\d+), ([\d ./]+?) from the (\w+ (?:end|edge)(?: before lipping)?), not beyond it/g,
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

function readSetting(n: number, regions: readonly Region[], unit: "mm" | "in"): ReadSetting {
  const within = LAST_DIGIT[unit];
  const said = regions.flatMap(({ words }) => proseOf(words).map(textOfProse)).join(" ¶ ");
  const faults: string[] = [];
  const twice = (value: string, again: string | undefined): number => {
    const read = figure(value);
    if (again !== undefined && Math.abs(read - Number(again)) > within) faults.push(`${value} is not ${again}`);
    return read;
  };
  const match = (pattern: string): RegExpExecArray | null => new RegExp(pattern).exec(said);
  const cut = match(`(Groove|Rabbet|Shoulder|Lap) ${F} wide, ${F} deep(?: for (\\d+(?:, \\d+)*))?`);
  if (cut === null) throw new Error(`setting ${n} has no cutter: ${said}`);
  const [, operation, width, depth, holds] = cut;
  const set = match(
    `(FENCE|STOP|STRAIGHTEDGE) ${TWICE}(?: (datum to the edge|end to the shoulder|to the \\w+'s inner))?`,
  );
  if (set === null) throw new Error(`setting ${n} has no figure: ${said}`);
  const guide = twice(set[2]!, set[3]);
  let [fence, inner] = [guide, set[4] !== undefined];
  if (set[1] === "STRAIGHTEDGE") {
    const wall = match(
      `Reckoned for a bit ${F}: measure it\\. (Near|Inner) wall of the \\w+ ${TWICE} from the datum\\.`,
    );
    if (wall === null) throw new Error(`setting ${n} has no wall: ${said}`);
    fence = twice(wall[3]!, wall[4]);
    inner = wall[2] === "Inner";
  }
  return {
    n,
    operation: operation!.toLowerCase() as Operation,
    width: figure(width!),
    depth: figure(depth!),
    fence,
    inner,
    holds: holds?.split(", ") ?? [],
    runs: regions.flatMap(({ tables }) => tables.flatMap(({ rows }) => rows.map(runOf))),
    faults: faults.map((fault) => `setting ${n}: ${fault}`),
  };
}

export function readSettings(pages: readonly SeenPage[], unit: "mm" | "in"): ReadSetting[] {
  const regions = pages.flatMap((page) => regionsOf(page, page.height));
  return [...new Set(regions.map(({ n }) => n))].map((n) =>
    readSetting(
      n,
      regions.filter((one) => one.n === n),
      unit,
    ),
  );
}
