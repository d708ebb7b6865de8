/** The front of a case whose doors slide in grooves: closed, and with the doors pushed to either end. */
import { type Place, toInner, toOuter } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetSliders } from "../../set/schema.ts";
import { keyOfCase, nameOfCase, standingSolids } from "../cases/case-group.ts";
import { markView, NO_MARKS, withAbove } from "../cases/marking.ts";
import { arrange, type Block, fitAll, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { captioned } from "../draughting/view-title.ts";
import { moveSolid, type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { rowsOf, type Span } from "./door-view.ts";
import { doorOf, pullMark, rowOf, type SetSlider } from "./slider-blocks.ts";

/** Where the doors are: closed, or each groove's own pushed together at one end. */
type Pushed = "closed" | "left" | "right";

/** How far a door then stands to the right of where it stands closed. */
function shiftOf(set: DryfitSet, told: SetSliders, door: SetSlider, pushed: Pushed): Mm {
  if (pushed === "closed") return 0;
  const own = told.doors.filter(({ track }) => track === door.track);
  const { place, size } = doorOf(set, door);
  const i = own.indexOf(door);
  const { at, width } = told.opening;
  const to = pushed === "left" ? at[0] + i * size[0] : at[0] + width - (own.length - i) * size[0];
  return to - place.at[0];
}

function solidsWith(set: DryfitSet, one: SetAssembly, pushed: Pushed): Solid[] {
  const own = one.place as Place;
  const doors = set.sliders
    .filter((told) => told.case === one.name)
    .flatMap((told) =>
      told.doors.flatMap((door) => {
        const { place } = doorOf(set, door);
        const [x, y, z] = place.at;
        const moved = { ...place, at: [x + shiftOf(set, told, door, pushed), y, z] } as Place;
        return solidsOf(set, doorOf(set, door)).map((solid) =>
          moveSolid(solid, (spot) => toInner(own, toOuter(moved, spot))),
        );
      }),
    );
  return [...standingSolids(set, one, "any"), ...doors];
}

/** Each door's extent, or what is open of each bay, along the front. */
function spansOf(set: DryfitSet, one: SetAssembly, pushed: Pushed): Span[] {
  const x = one.place.at[0];
  const told = set.sliders.filter((each) => each.case === one.name);
  const spans = told.flatMap((each): Span[] => {
    const { at, width } = each.opening;
    if (pushed === "closed")
      return each.doors.map((door) => {
        const { place, size } = doorOf(set, door);
        return [place.at[0] - x, place.at[0] - x + size[0]];
      });
    const taken = Math.max(
      ...([0, 1] as const).map((track) =>
        each.doors.filter((door) => door.track === track).reduce((sum, door) => sum + doorOf(set, door).size[0], 0),
      ),
    );
    return [pushed === "left" ? [at[0] + taken - x, at[0] + width - x] : [at[0] - x, at[0] + width - taken - x]];
  });
  return spans.filter(([a, b], i) => spans.findIndex((other) => isSame(other[0], a) && isSame(other[1], b)) === i);
}

const TITLES: Record<Pushed, string> = {
  closed: "Closed",
  left: "All doors at the left",
  right: "All doors at the right",
};

function frontBlock(
  set: DryfitSet,
  one: SetAssembly,
  { view, pushed, ratio, withMarks }: PushedView & { ratio: number; withMarks: boolean },
): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const rows = rowsOf(spansOf(set, one, pushed)).map(
    (spans): Row => ({ kind: "spans", spans: spans.map(([a, b]) => [picture.x(a), picture.x(b)]) }),
  );
  const dimensions = drawDimensions("below", 0, rows, style);
  const sliding = new Set(set.sliders.flatMap((told) => told.doors.map(({ assembly }) => assembly)));
  const isOfDoor = (mark: string): boolean =>
    set.parts.some((part) => part.mark === mark && sliding.has(part.assembly));
  const seen = new Map([...view.seen].filter(([mark]) => isOfDoor(mark)));
  const pulls = pullsOf(set, one, picture, { pushed, ratio });
  const taken = [...dimensions.boxes, ...pulls.flatMap(({ boxes }) => boxes)];
  const marking = withMarks ? markView(seen, picture, taken, withAbove(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...pulls.flatMap((pull) => pull.shapes), ...dimensions.shapes, ...marking.shapes],
      box: unionOf([box, ...dimensions.boxes, ...marking.boxes]),
    },
    TITLES[pushed],
    pushed === "closed" ? marking.note : "the figure: what is open",
    box,
  );
}

export function drawFront(set: DryfitSet, one: SetAssembly): Movable[] {
  const views = (["closed", "left", "right"] as const).map((pushed) => ({
    pushed,
    view: viewOf(solidsWith(set, one, pushed), FROM_FRONT),
  }));
  return movable(drawingSpace(set), (space) => [drawPushed(set, one, views, space)]);
}

type PushedView = { pushed: Pushed; view: View };

function drawPushed(set: DryfitSet, one: SetAssembly, views: readonly PushedView[], space: Rect): Draft {
  const { shapes, scale } = fitAll(
    set.job.unit,
    space,
    (ratio, withMarks) => views.map(({ pushed, view }) => frontBlock(set, one, { view, pushed, ratio, withMarks })),
    // In one line, or the two that are open beside each other under the one that is closed.
    (blocks, room) => {
      const [closed, ...open] = blocks as [Block, ...Block[]];
      return arrange(blocks, room) ?? arrange([closed, rowOf(open)], room);
    },
  );
  const name = nameOfCase(set, "Front views with sliding doors", one);
  return {
    key: keyOfCase(set, "front-views-with-sliding-doors", one),
    name,
    bookmark: ["Views", name],
    scale: scale.name,
    projected: true,
    shapes,
  };
}

/** Those that are seen: a door that stands behind another is pulled by its edge. */
const pullsOf = (
  set: DryfitSet,
  one: SetAssembly,
  picture: Picture,
  { pushed, ratio }: { pushed: Pushed; ratio: number },
): ReturnType<typeof pullMark>[] =>
  set.sliders
    .filter((told) => told.case === one.name)
    .flatMap((told) =>
      told.doors
        .filter(({ track }) => pushed === "closed" || track === 0)
        .map((door) => {
          const [x, , z] = doorOf(set, door).place.at;
          const [along, up] = door.pull?.at ?? [0, 0];
          const left = x + shiftOf(set, told, door, pushed) - one.place.at[0];
          return pullMark(door, picture, ratio, [left + along, z - one.place.at[2] + up]);
        }),
    );
