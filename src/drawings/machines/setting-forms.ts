/** How what a setting is made of stands together: as low as its column allows, whole as long as that can hold it. */
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetSetting } from "../../set/schema.ts";
import { unspilt } from "../draughting/abreast.ts";
import { setCaution } from "../draughting/caution.ts";
import { type Block, besideBlocks, SMALL, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type FlowGroup, type FlowItem, flowItem, heightOf } from "../draughting/flow.ts";
import type { Earlier } from "../draughting/revised.ts";
import {
  BETWEEN,
  columnOf,
  GAP,
  GRADES,
  type Grade,
  ruled,
  runChanges,
  setAllRuns,
  setHead,
  setMachine,
  setPasses,
  setRest,
  setTitleOf,
  TITLE,
  type Told,
  wasOf,
} from "./setting.ts";
import { PICTURE_WIDTH } from "./setting-picture.ts";
import { setRuns } from "./setting-runs.ts";

const LEAST_HALVES: Mm = 220; // a setting in two halves from here on, one under the other below it
const PICTURE_WIDTHS: readonly Mm[] = [PICTURE_WIDTH.most, 48, 40]; // whichever leaves the words beside it lowest
const LEAST_SAID: Mm = 55; // what is said, beside the pictures: as wide as that, or under them
const GUTTER: Mm = 9;
const BETWEEN_SAID: Mm = 1.8;
const MANY = 4; // parts, worth two tables
const FAMILIAR = 0.9; // the first form, unless another is lower than this share of it

/** What is said of the cut: how it is made in passes, what a part needs beside, the test, the caution. */
const saidOf = (told: Told, width: Mm): Block[] => [
  ...setPasses(told, width),
  ...setRest(told, width),
  setCaution(told.setting.caution, width, SMALL),
];

const beside = (left: Block[], right: Block[], half: Mm): Block =>
  besideBlocks([columnOf(left, half), stackBlocks(right, BETWEEN_SAID)], GUTTER);

/** The machine on the left, the parts, the test and the caution on the right; the router's passes on whichever side makes it lower. */
function inHalves(told: Told, width: Mm): Block {
  const half = (width - GUTTER) / 2;
  const head = setHead(told, half);
  const runs = setAllRuns(told, half);
  const rest = [...setRest(told, half), setCaution(told.setting.caution, half, SMALL)];
  const passes = setPasses(told, half);
  return lowest(
    [beside([head, ...passes], [runs, ...rest], half), beside([head], [runs, ...passes, ...rest], half)],
    1,
  );
}

/** Many pictures in one row right across, the parts and what is said of them in halves under it. */
function underPictures(told: Told, width: Mm): Block {
  const half = (width - GUTTER) / 2;
  return stackBlocks([setHead(told, width), beside([setAllRuns(told, half)], saidOf(told, half), half)], GAP);
}

/** The machine, and beside it what is said. */
const setOver = (told: Told, width: Mm): Block => {
  const half = (width - GUTTER) / 2;
  return beside([setHead(told, half)], saidOf(told, half), half);
};

/** Many pictures right across, and under them what is said, the caution on the left. */
function setOverInRow(told: Told, width: Mm): Block {
  const half = (width - GUTTER) / 2;
  const caution = setCaution(told.setting.caution, half, SMALL);
  const said = beside([caution], [...setPasses(told, half), ...setRest(told, half)], half);
  return stackBlocks([setHead(told, width), said], GAP);
}

/** Many parts right across, under all else: in one table, or in two beside each other. */
const overRows = (told: Told, width: Mm): Block[] =>
  [setOver(told, width), setOverInRow(told, width)].flatMap((over) =>
    [1, ...(told.setting.runs.length < MANY ? [] : [2])].map((tables) =>
      stackBlocks([over, setAllRuns(told, width, tables)], GAP),
    ),
  );

/** What is said beside the pictures, where these leave room for it, and the parts under both. */
const besidePictures = (told: Told, width: Mm): Block[] =>
  PICTURE_WIDTHS.flatMap((widest): Block[] => {
    const machine = setMachine(told, width, widest);
    const room = width - machine.width - GUTTER;
    if (room < LEAST_SAID) return [];
    const over = besideBlocks([machine, columnOf(saidOf(told, room), room)], GUTTER);
    return [stackBlocks([setTitleOf(told, width), over, setAllRuns(told, width)], 2)];
  });

/** The first, unless one that follows is clearly lower. */
const lowest = (blocks: readonly Block[], share: number): Block =>
  blocks.reduce((best, one) => (one.height < share * best.height ? one : best));

/** Of a column's height: under what stands over them, some rows have to find room. */
const MOST_OVER_ROWS = 0.7;

/**
 * The same with its rows free to run on to the next column: all else stands over them, in halves where there is width. Where
 * there is not, the caution comes before the rows, and what is said after them stays with the last.
 */
function setInRows(told: Told, { width, height }: Pick<Rect, "width" | "height">): FlowGroup {
  const { set, setting, was, earlier } = told;
  const again = setLines(words(`Setting ${setting.n} (continued)`, TITLE, "bold"), width);
  const runs = unspilt(setRuns(set, setting, width, runChanges(setting, was, earlier))).map((item, i): FlowItem => {
    const spaced = i === 0 ? { ...item, above: GAP } : item;
    return item.head === null ? spaced : { ...spaced, head: stackBlocks([again, item.head], GAP) };
  });
  if (width >= LEAST_HALVES) {
    const over = ruled(setOver(told, width), width);
    if (over.height <= MOST_OVER_ROWS * height) return [flowItem(over, { above: BETWEEN, keep: true }), ...runs];
  }
  const said = [...setPasses(told, width), ...setRest(told, width)].map(
    (block): FlowItem => flowItem(block, { above: GAP, keep: true }),
  );
  return [
    flowItem(ruled(setHead(told, width), width), { above: BETWEEN, keep: true }),
    flowItem(setCaution(setting.caution, width, SMALL), { above: GAP, keep: true }),
    ...runs.map((item, i): FlowItem => (i === runs.length - 1 ? { ...item, keep: true } : item)),
    ...said.slice(0, -1),
    { ...said.at(-1)!, keep: false },
  ];
}

/** Whole where the column can hold it, in the lowest of its forms; else in rows that run on. */
export function setSetting(
  set: DryfitSet,
  setting: SetSetting,
  { width, height }: Rect,
  earlier: Earlier | null,
  grade: Grade = GRADES[0],
): FlowGroup {
  const told: Told = { set, setting, earlier, was: wasOf(setting, earlier), grade };
  const forms =
    width >= LEAST_HALVES
      ? [inHalves(told, width), underPictures(told, width), ...overRows(told, width)]
      : besidePictures(told, width);
  const inRows = setInRows(told, { width, height });
  if (forms.length === 0) return inRows;
  const block = ruled(lowest(forms, FAMILIAR), width);
  const most = width >= LEAST_HALVES ? height : heightOf(inRows, false);
  return block.height <= most ? [flowItem(block, { above: BETWEEN })] : inRows;
}
