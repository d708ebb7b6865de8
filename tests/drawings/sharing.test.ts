/** Drawings that would stay nearly blank share one, each under its name and its scale (ISO 5455, clause 5.3). */
import { describe, expect, it } from "vitest";
import type { Draft } from "../../src/drawings/draughting/draft.ts";
import { type Movable, movable, shareSparse } from "../../src/drawings/draughting/sharing.ts";
import { pagesAmong } from "../../src/drawings/steps/shown-on.ts";
import { rect } from "../../src/paper/draw.ts";
import type { Rect } from "../../src/paper/shape.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";

const SPACE: Rect = { x: 20, y: 10, width: 380, height: 250 }; // an A3 drawing lying

/** A view so wide and high in the piece, at the largest of these scales that its room holds. */
function view(key: string, name: string, [width, height]: [number, number], scales = [5, 10, 20]): Movable[] {
  return movable(SPACE, (room) => {
    const by = scales.find((one) => width / one <= room.width && height / one <= room.height);
    if (by === undefined) return [];
    const shapes = [rect("outline", { x: room.x, y: room.y, width: width / by, height: height / by })];
    return [{ key, name, bookmark: ["Views", name], scale: `1:${by}`, projected: true, shapes }];
  });
}

const wordsOn = ({ shapes }: Draft): string =>
  textBoxes(shapes)
    .map(({ text }) => text)
    .join(" ");

describe("drawings that share one", () => {
  const doors = view("door-1", "Door 1", [800, 800]);
  const fronts = view("drawer-fronts", "Drawer fronts", [700, 900]);
  const frame = view("face-frame", "Face frame", [1800, 1100]);

  it("are those that would stay nearly blank: each at its scale, under its name, clear of the other", () => {
    const [shared, ...others] = shareSparse([...doors, ...fronts], SPACE);
    expect(others).toEqual([]);
    expect(shared).toMatchObject({
      key: "door-1",
      also: ["drawer-fronts"],
      name: "Door 1; Drawer fronts",
      scale: "1:5",
    });
    expect(wordsOn(shared!)).toBe("Door 1, 1:5 Drawer fronts, 1:5");
    expect(overlapping(textBoxes(shared!.shapes))).toEqual([]);
  });

  it("are found by the steps under either name", () => {
    const drafts = shareSparse([...doors, ...fronts], SPACE);
    const pages = pagesAmong(drafts, 7);
    expect([pages("doors"), pages("drawers"), pages("face frame")]).toEqual([[[7, 7]], [[7, 7]], []]);
  });

  it("are joined to a full one where neither is drawn smaller than half its scale, the smaller scale told", () => {
    const [shared, ...others] = shareSparse([...frame, ...doors], SPACE);
    expect(others).toEqual([]);
    const scales = [...wordsOn(shared!).matchAll(/1:(\d+)/g)].map(([, by]) => Number(by));
    expect(scales).toHaveLength(2);
    for (const by of scales) expect(by).toBeLessThanOrEqual(10);
    expect(shared!.scale).toBe(`1:${scales[0]}`);
  });

  it("stay apart where they are full enough, or have no room beside any other", () => {
    expect(shareSparse([...frame, ...frame], SPACE).map(({ key }) => key)).toEqual(["face-frame", "face-frame"]);
    const long = view("track-1", "Track", [1900, 60], [5]);
    const high = view("door-2", "Door 2", [200, 1240], [5]);
    expect(shareSparse([...long, ...high], SPACE).map(({ key }) => key)).toEqual(["track-1", "door-2"]);
  });

  it("may be more than two", () => {
    const small = ["a", "b", "c"].flatMap((key) => view(`door-${key}`, `Door ${key}`, [400, 500]));
    const drafts = shareSparse(small, SPACE);
    expect(drafts.flatMap(({ key, also = [] }) => [key, ...also]).sort()).toEqual(["door-a", "door-b", "door-c"]);
    expect(drafts).toHaveLength(1);
  });
});
