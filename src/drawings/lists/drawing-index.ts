/** The list of drawings, each a link to it: on the cover as far as there is room, then on drawings of its own. */
import type { Mm } from "../../base/length.ts";
import { measureText } from "../../paper/lettering.ts";
import { type Block, besideBlocks, placeBlock, setLines, stackBlocks, TEXT, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { type FlowItem, flowItem } from "../draughting/flow.ts";

/** `n` to `last`: a list on several drawings is one entry. */
export type IndexEntry = { name: string; n: number; last: number; key: string };

/** Drafts as entries, the first of them drawing `from`. */
export function indexEntries(drafts: readonly Draft[], from: number): IndexEntry[] {
  const entries: IndexEntry[] = [];
  drafts.forEach(({ name, key, bookmark }, i) => {
    const n = from + i;
    const [list] = bookmark;
    const isOfList = bookmark.length > 1 && name.startsWith(`${list} `) && / \d+ of \d+$/.test(name);
    const before = entries.at(-1);
    if (isOfList && before !== undefined && before.name === list) before.last = n;
    else entries.push({ name: isOfList ? list! : name, n, last: n, key });
  });
  return entries;
}

const HEADING: Mm = 3.5;
const GAP: Mm = 1.2;
export const COLUMN_AIR: Mm = 8;
const NUMBER_WIDTH: Mm = 8;
const RANGE_WIDTH: Mm = 14;
const NUMBER_AIR: Mm = 2; // at least, between a number and a name
const MOST_COLUMNS = 3;

const headingOf = (content: string, width: Mm): Block => setLines(words(content, HEADING, "bold"), width);

const numbersOf = ({ n, last }: IndexEntry): string => (n === last ? String(n) : `${n}\u2013${last}`);

/** Room for the longest of the numbers, so that the names stand in line. */
const numberWidth = (index: readonly IndexEntry[]): Mm =>
  Math.max(
    index.some(({ n, last }) => n !== last) ? RANGE_WIDTH : NUMBER_WIDTH,
    ...index.map((entry) => measureText(numbersOf(entry), TEXT, "bold") + NUMBER_AIR),
  );

function rowOf(entry: IndexEntry, width: Mm, numbers: Mm): Block {
  const number = setLines(words(numbersOf(entry), TEXT, "bold"), numbers);
  const block = setLines(words(entry.name), width - numbers);
  return {
    width,
    height: block.height,
    baseline: block.baseline,
    shapes: [
      placeBlock(number, [0, 0]),
      placeBlock(block, [numbers, 0]),
      { kind: "link", box: { x: 0, y: 0, width, height: block.height }, to: { page: entry.key } },
    ],
  };
}

const columnOf = (columns: number, width: Mm): Mm => (width - COLUMN_AIR * (columns - 1)) / columns;

/** So many that no word of a name is broken in its column. */
function mostColumns(index: readonly IndexEntry[], width: Mm): number {
  const least =
    numberWidth(index) +
    Math.max(0, ...index.flatMap(({ name }) => name.split(" ")).map((one) => measureText(one, TEXT, "regular")));
  let columns = 1;
  while (columns < MOST_COLUMNS && columnOf(columns + 1, width) >= least) columns++;
  return columns;
}

function inColumns(index: readonly IndexEntry[], columns: number, width: Mm, after: readonly Block[]): Block {
  const columnWidth = columnOf(columns, width);
  const rows = index.map((entry) => rowOf(entry, columnWidth, numberWidth(index)));
  const perColumn = Math.ceil(rows.length / columns);
  const stacks = Array.from({ length: columns }, (_, i) => rows.slice(i * perColumn, (i + 1) * perColumn))
    .filter((some) => some.length > 0)
    .map((some) => stackBlocks(some, GAP));
  return stackBlocks([headingOf("Drawings", width), besideBlocks(stacks, COLUMN_AIR), ...after], GAP * 1.5);
}

/** In as few columns as the height allows; what it does not allow is `left`. */
export function setIndex(
  index: readonly IndexEntry[],
  width: Mm,
  room: Mm,
): { block: Block; left: readonly IndexEntry[] } {
  const most = mostColumns(index, width);
  for (let columns = 1; columns <= most; columns++) {
    const block = inColumns(index, columns, width, []);
    if (block.height <= room) return { block, left: [] };
  }
  const after = [setLines(words("The list goes on on the next drawing."), width)];
  let [fits, least, over] = [null as Block | null, 0, index.length]; // so many fit, so many do not
  while (over - least > 1) {
    const n = Math.floor((least + over) / 2);
    const block = inColumns(index.slice(0, n), most, width, after);
    if (block.height <= room) [fits, least] = [block, n];
    else over = n;
  }
  if (fits !== null) return { block: fits, left: index.slice(least) };
  const wholly = setLines(words("The list is on the next drawing."), width);
  return { block: stackBlocks([headingOf("Drawings", width), wholly], GAP * 1.5), left: index };
}

/** What is left of the list, to be poured into columns. */
export function indexItems(left: readonly IndexEntry[], width: Mm): FlowItem[] {
  if (left.length === 0) return [];
  return [
    flowItem(headingOf("Drawings", width), { keep: true }),
    ...left.map((entry, i) => flowItem(rowOf(entry, width, numberWidth(left)), { above: i === 0 ? GAP * 1.5 : GAP })),
  ];
}
