/** The whole set of drawings in its order, numbered; then the pages at full size. */
import type { Page } from "../paper/shape.ts";
import type { DryfitSet } from "../set/schema.ts";
import { drawRows } from "./cases/case-row.ts";
import { drawCases } from "./cases/case-views.ts";
import { drawDrawers } from "./cases/drawer.ts";
import { drawDrawerFronts } from "./cases/drawer-fronts.ts";
import { drawFaceFrames } from "./cases/face-frame.ts";
import { drawDoors } from "./doors/doors.ts";
import { drawSliders } from "./doors/sliders.ts";
import type { Draft } from "./draughting/draft.ts";
import { drawingSpace, framePages } from "./draughting/frame.ts";
import { shareSparse } from "./draughting/sharing.ts";
import { drawLabels } from "./labels/labels.ts";
import { drawChecks } from "./lists/checks.ts";
import { drawCover } from "./lists/cover.ts";
import { drawCutList } from "./lists/cut-list.ts";
import { indexEntries } from "./lists/drawing-index.ts";
import { drawPurchase } from "./lists/purchase.ts";
import { drawSensitivity } from "./lists/sensitivity.ts";
import { drawSettings } from "./machines/settings.ts";
import { drawParts } from "./parts/part-drawing.ts";
import { drawBoardLayouts, drawSheetLayouts } from "./sheets/sheet-layout.ts";
import { pagesAmong } from "./steps/shown-on.ts";
import { drawSteps } from "./steps/steps.ts";
import { drawLongSticks, drawRollSticks } from "./sticks/long-sticks.ts";
import { drawSticks } from "./sticks/sticks.ts";
import { drawWorktops } from "./worktops/worktop.ts";

export type Bundle = { drawings: Page[]; sticks: Page[]; longSticks: Page[]; rollSticks: Page[]; labels: Page[] };

/**
 * The order of work at the bench: what it is, what to buy, how to break it down, where the fence goes, each part, how it
 * goes together. `older`: the set whose figures this one's are laid beside, so that what changed stands in clouds.
 */
export function drawDrawings(set: DryfitSet, older: DryfitSet | null = null): Page[] {
  const space = drawingSpace(set);
  const fronts = [
    ...drawFaceFrames(set),
    ...drawDoors(set),
    ...drawSliders(set),
    ...drawDrawerFronts(set),
    ...drawDrawers(set),
  ];
  const before = [
    ...drawRows(set),
    ...drawCases(set),
    ...shareSparse(fronts, space),
    ...drawWorktops(set),
    ...drawPurchase(set),
    ...drawSensitivity(set),
    ...drawCutList(set, older),
    ...shareSparse([...drawSheetLayouts(set), ...drawBoardLayouts(set)], space),
    ...drawSettings(set, older),
    ...drawParts(set, older),
  ];
  // The cover's list of drawings says how many drawings it takes itself: that moves on what a step refers to.
  const draftsAfter = (covers: number): Draft[] => [
    ...before,
    ...drawSteps(set, pagesAmong(before, covers + 1)),
    ...drawChecks(set),
  ];
  const first = draftsAfter(1);
  const covers = drawCover(set, indexEntries(first, 2)).length;
  const drafts = covers === 1 ? first : draftsAfter(covers);
  const index = indexEntries(drafts, 2); // the cover is drawing 1, and moves them on where it takes more
  return framePages(set, [...drawCover(set, index), ...drafts]);
}

/** The drawings, and what is printed at full size. */
export const drawBundle = (set: DryfitSet, older: DryfitSet | null = null): Bundle => ({
  drawings: drawDrawings(set, older),
  sticks: drawSticks(set),
  longSticks: drawLongSticks(set),
  rollSticks: drawRollSticks(set),
  labels: drawLabels(set),
});
