/** The whole set of drawings in its order, numbered; then the pages at full size. */
import type { Page } from "../paper/shape.ts";
import type { DryfitSet } from "../set/schema.ts";
import { drawChecks } from "./checks.ts";
import { drawCover } from "./cover.ts";
import { drawCutList } from "./cut-list.ts";
import { drawDrilling } from "./drilling.ts";
import { drawElevations } from "./elevation.ts";
import { framePages } from "./frame.ts";
import { drawLabels } from "./labels.ts";
import { drawParts } from "./part-drawing.ts";
import { drawPurchase } from "./purchase.ts";
import { drawSections } from "./section.ts";
import { drawSensitivity } from "./sensitivity.ts";
import { drawSettings } from "./settings.ts";
import { drawSheetLayouts } from "./sheet-layout.ts";
import { drawSteps } from "./steps.ts";
import { drawLongSticks, drawSticks } from "./sticks.ts";

export type Bundle = { drawings: Page[]; sticks: Page[]; longSticks: Page[]; labels: Page[] };

/** The order of work at the bench: what it is, what to buy, how to break it down, where the fence goes, each part, how it goes together. */
export function drawBundle(set: DryfitSet): Bundle {
  const drafts = [
    ...drawElevations(set),
    ...drawSections(set),
    ...drawPurchase(set),
    ...drawSensitivity(set),
    ...drawCutList(set),
    ...drawSheetLayouts(set),
    ...drawSettings(set),
    ...drawDrilling(set),
    ...drawParts(set),
    ...drawSteps(set),
    ...drawChecks(set),
  ];
  const index = drafts.map(({ name, key }, i) => ({ name, key, n: i + 2 })); // the cover is drawing 1
  return {
    drawings: framePages(set, [drawCover(set, index), ...drafts]),
    sticks: drawSticks(set),
    longSticks: drawLongSticks(set),
    labels: drawLabels(set),
  };
}
