/** Every page of a set, looked at: what is wrong with it, told with its name. */
import { drawDrawings } from "../../../src/drawings/bundle.ts";
import { drawingSpace } from "../../../src/drawings/draughting/frame.ts";
import { drawSticks } from "../../../src/drawings/sticks/sticks.ts";
import type { Page } from "../../../src/paper/shape.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { faultsOn, filledShare, paintedOn } from "./page-faults.ts";

const LEAST_TEXT = 2.5;
const LEAST_FILLED = 1 / 3;
const EDGE = 10; // of the paper, outside the frame
const HALF_FRAME = 0.35;
const UNPRINTED = 3; // of the paper, on sticks

/** Lists run on from drawing to drawing: their last one, or their only one, is as full as it comes. */
const LIST = /^(cover|purchase|thickness|cut-list|settings|steps|checks)(-(\d+))?$/;
const CONTINUED_SHEET = /^((?:sheet|board)-layout-\d+)-(\d+)$/;

function isLastOfList(page: Page, pages: readonly Page[]): boolean {
  const next = pages[pages.indexOf(page) + 1]?.key ?? "";
  const list = LIST.exec(page.key);
  if (list !== null && page.key !== "cover") return LIST.exec(next)?.[1] !== list[1];
  const sheet = CONTINUED_SHEET.exec(page.key);
  return sheet !== null && CONTINUED_SHEET.exec(next)?.[1] !== sheet[1];
}

const told = (kind: string, page: Page, faults: readonly string[]): string[] =>
  faults.map((fault) => `${kind} ${page.label}, ${page.title}: ${fault}`);

/** Each as "drawing 9, Sheet layout 1: text over text: 3 / 12". */
export function faultsOfDrawings(set: DryfitSet, older: DryfitSet | null = null): string[] {
  const drawings = drawDrawings(set, older);
  const space = drawingSpace(set);
  return drawings.flatMap((page) => {
    const edge = EDGE - HALF_FRAME;
    const frame = { x: edge, y: edge, width: page.width - 2 * edge, height: page.height - 2 * edge };
    const filled = filledShare(page, space);
    const blank =
      filled < LEAST_FILLED && !isLastOfList(page, drawings) ? [`only ${(100 * filled).toFixed(0)} % filled`] : [];
    return told("drawing", page, [
      ...faultsOn(paintedOn(page), frame, LEAST_TEXT, !/^(sheet|board)-layout/.test(page.key)),
      ...blank,
    ]);
  });
}

/** Of the stick pages, whose paper is not the drawings'. Labels, read from a hand's breadth, go by rules of their own. */
export const faultsOfSticks = (set: DryfitSet): string[] =>
  drawSticks(set).flatMap((page) => {
    const paper = {
      x: UNPRINTED,
      y: UNPRINTED,
      width: page.width - 2 * UNPRINTED,
      height: page.height - 2 * UNPRINTED,
    };
    return told("stick page", page, faultsOn(paintedOn(page), paper, LEAST_TEXT));
  });

export const faultsOfPages = (set: DryfitSet, older: DryfitSet | null = null): string[] => [
  ...faultsOfDrawings(set, older),
  ...faultsOfSticks(set),
];
