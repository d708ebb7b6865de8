/** First and third angle as ISO 5456-2 has them: where views stand about the front, and the symbol that says so. */
import { describe, expect, it } from "vitest";
import { drawCases } from "../../src/drawings/cases/case-views.ts";
import type { Block } from "../../src/drawings/draughting/block.ts";
import { framePages } from "../../src/drawings/draughting/frame.ts";
import { arrangeViews, type ProjectedView, type Projection } from "../../src/drawings/draughting/projection.ts";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import type { Page } from "../../src/paper/shape.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { seenOnPage } from "../support/paper/page.ts";
import { closePage } from "../support/paper/part-pages.ts";

const plain = setOf(testFile("two-rows"));
const drawnIn = (projection: Projection): DryfitSet => ({
  ...plain,
  job: { ...plain.job, projection },
});

const room = { x: 10, y: 10, width: 400, height: 300 };
/** A view 60 wide whose lettering reaches 12 beyond its left edge, about its own lower left corner. */
const block = (height: number): Block => ({ shapes: [], box: { x: -12, y: -height, width: 80, height: height + 15 } });
const views: ProjectedView[] = [
  { stands: "front", block: block(90) },
  { stands: "above", block: block(40) },
  { stands: "right", block: block(90) },
];

/** Where each view's lower left corner comes to stand. */
const cornersIn = (projection: Projection): readonly { x: number; y: number }[] => {
  const { boxes } = arrangeViews(views, room, projection)!;
  const corners = boxes.map((box) => ({ x: box.x + 12, y: box.y + box.height - 15, isPlan: box.height < 60 }));
  const plan = corners.find(({ isPlan }) => isPlan)!;
  const front = corners.find((one) => !one.isPlan && Math.abs(one.x - plan.x) < 1e-9)!;
  const side = corners.find((one) => one !== plan && one !== front)!;
  expect(side.y).toBeCloseTo(front.y, 9);
  return [front, plan, side];
};

/** The symbol's two circles, which no other circle of the title block is like, and its cone. */
function symbolOn(page: Page): { circles: number; narrow: number; wide: number } {
  const seen = seenOnPage(page);
  const rounds = seen.rounds.filter(({ middle }) => middle[1] > page.height - 35);
  expect(rounds.map(({ radius }) => radius).sort()).toEqual([1.5, 3]);
  const [{ middle }] = rounds as [(typeof rounds)[number]];
  const ends = seen.strokes.filter(({ from, to }) => {
    const long = Math.abs(to[1] - from[1]);
    return Math.abs(from[0] - to[0]) < 1e-6 && Math.abs((from[1] + to[1]) / 2 - middle[1]) < 1e-6 && long < 6.1;
  });
  const at = (long: number): number =>
    ends.find(({ from, to }) => Math.abs(Math.abs(to[1] - from[1]) - long) < 1e-6)!.from[0];
  return { circles: middle[0], narrow: at(3), wide: at(6) };
}

describe("projection", () => {
  it("in third angle has the plan over the front and the right side at its right; the symbol's round view at the left", () => {
    const [front, above, side] = cornersIn("third");
    expect(above!.y).toBeLessThan(front!.y - 90);
    expect(side!.x).toBeGreaterThan(front!.x + 60);
    const set = drawnIn("third");
    const pages = framePages(set, drawCases(set));
    const { circles, narrow, wide } = symbolOn(pages[0]!);
    expect([circles, narrow, wide]).toEqual([circles, narrow, wide].toSorted((a, b) => a - b));
  });

  it("in first angle has the plan under the front and the right side at its left; the symbol's round view at the right", () => {
    const [front, above, side] = cornersIn("first");
    expect(above!.y).toBeGreaterThan(front!.y + 40);
    expect(side!.x).toBeLessThan(front!.x - 60);
    const set = drawnIn("first");
    const pages = framePages(set, drawCases(set));
    const { circles, narrow, wide } = symbolOn(pages[0]!);
    expect([narrow, wide, circles]).toEqual([circles, narrow, wide].toSorted((a, b) => a - b));
  });

  it("turns the sections of a part round, and leaves it told as before", () => {
    const set = drawnIn("first");
    const pages = framePages(set, drawParts(set)).map(seenOnPage);
    expect(pages.flatMap((page) => closePage(set, page).faults)).toEqual([]);
    expect(pages).not.toEqual(framePages(drawnIn("third"), drawParts(drawnIn("third"))).map(seenOnPage));
  });
});
