/** Cases from the front with their doors closed. */
import { type Place, toInner, toOuter } from "../../base/geometry.ts";
import { isSame } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetDoor } from "../../set/schema.ts";
import { behindFrame, frameBefore } from "../../set/standing.ts";
import { isAlone, nameOfCase, standingSolids } from "../cases/case-group.ts";
import { asItStands } from "../cases/exploded.ts";
import { markView, NO_MARKS, withAbove } from "../cases/marking.ts";
import { wholeOf } from "../cases/whole.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare } from "../draughting/filled.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { draftViews } from "../draughting/several.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { captioned } from "../draughting/view-title.ts";
import { moveSolid, type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { rowsOf, type Span } from "./door-view.ts";

/** Cases that one frame goes before, seen as one; in the axes of the first. */
type CaseRow = readonly [SetAssembly, ...SetAssembly[]];

const isBefore = (row: CaseRow, door: SetDoor): boolean => row.some(({ name }) => name === door.case);

/** The cases with their frame and their doors closed. */
function closedSolids(set: DryfitSet, row: CaseRow): Solid[] {
  const own = row[0].place as Place;
  const doors = set.assemblies.filter(({ name }) =>
    set.doors.some((door) => door.assembly === name && isBefore(row, door)),
  );
  const hung = doors.flatMap((door) =>
    solidsOf(set, door).map((solid) => moveSolid(solid, (spot) => toInner(own, toOuter(door.place as Place, spot)))),
  );
  const beside = row
    .slice(1)
    .flatMap((other) =>
      standingSolids(set, other, "own").map((solid) =>
        moveSolid(solid, (spot) => toInner(own, toOuter(other.place as Place, spot))),
      ),
    );
  return [...standingSolids(set, row[0], "any"), ...beside, ...hung];
}

/** Each door's own extent along one axis of its case. */
function extents(set: DryfitSet, row: CaseRow, axis: 0 | 2): Span[] {
  const [one] = row;
  const spans = set.doors
    .filter((door) => isBefore(row, door))
    .map(({ assembly }): Span => {
      const { place, size } = set.assemblies.find(({ name }) => name === assembly)!;
      const from = place.at[axis] - one.place.at[axis];
      return [from, from + size[axis]];
    });
  return spans.filter(([a, b], i) => spans.findIndex((other) => isSame(other[0], a) && isSame(other[1], b)) === i);
}

function closedBlock(set: DryfitSet, row: CaseRow, view: View, ratio: number, withMarks: boolean): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const below = rowsOf(extents(set, row, 0)).map(
    (spans): Row => ({ kind: "spans", spans: spans.map(([a, b]) => [picture.x(a), picture.x(b)]) }),
  );
  const left = rowsOf(extents(set, row, 2)).map(
    (spans): Row => ({ kind: "spans", spans: spans.map(([a, b]) => [picture.y(b), picture.y(a)]) }),
  );
  const dimensions = [drawDimensions("below", 0, below, style), drawDimensions("left", 0, left, style)];
  const boxes = dimensions.flatMap((each) => each.boxes);
  // Every other part has its mark where it is seen better.
  const isOfDoor = (mark: string): boolean =>
    set.parts.some((part) => part.mark === mark && set.doors.some(({ assembly }) => assembly === part.assembly));
  const seen = new Map([...view.seen].filter(([mark]) => isOfDoor(mark)));
  const marking = withMarks ? markView(seen, picture, boxes, withAbove(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((each) => each.shapes), ...marking.shapes],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    row.length === 1
      ? nameOfCase(set, "Front view, doors closed", row[0])
      : `Front view, doors closed, ${listInWords(row.map(({ name }) => name))}`,
    marking.note,
    box,
  );
}

/** All cases that have doors, on one drawing where they have room there. */
export function drawClosed(set: DryfitSet): Movable[] {
  const cases = set.assemblies.filter((one) => one.kind === "case" && set.doors.some((door) => door.case === one.name));
  if (cases.length === 0) return [];
  const rows = cases.map((one): CaseRow => {
    const frame = frameBefore(one, set.assemblies);
    const behind = frame === null ? [one] : behindFrame(frame, set.assemblies);
    return behind as [SetAssembly, ...SetAssembly[]];
  });
  const views = rows
    .filter(([first], i) => rows.findIndex(([other]) => other === first) === i)
    .map((row) => ({ row, view: viewOf(closedSolids(set, row), FROM_FRONT) }));
  const names = listInWords(cases.map(({ name }) => name));
  const name = isAlone(set) ? "Front view with doors" : `Front view with doors, ${names}`;
  return movable(drawingSpace(set), (space) => drawViews(set, views, name, space));
}

type ClosedView = { row: CaseRow; view: View };

function drawViews(set: DryfitSet, views: readonly ClosedView[], name: string, space: Rect): Draft[] {
  const { unit } = set.job;
  const drafts = (beside: readonly Block[]): Draft[] =>
    draftViews({ unit, space, note: null, key: "front-view-with-doors", name }, (ratio, withMarks) => [
      ...views.map(({ row, view }) => closedBlock(set, row, view, ratio, withMarks)),
      ...beside,
    ]);
  const bare = drafts([]);
  const [one, ...others] = bare;
  if (others.length > 0 || filledShare(one!.shapes, space) > SPARSE) return bare;
  // A drawing nearly blank shows the piece as it stands beside its view, as large as leaves the view its scale.
  const picture = asItStands(wholeOf(set, views[0]!.row), "front left");
  for (const [share, high] of HIGH.flatMap((part) => SHARES.map((wide) => [wide, part] as const))) {
    const room = { x: 0, y: 0, width: share * space.width, height: high * space.height };
    const tried = picture.isLarge(picture.ratioIn(room)) ? drafts([{ shapes: picture.draw(room), box: room }]) : bare;
    if (tried !== bare && tried.length === 1 && tried[0]!.scale === one!.scale) return tried;
  }
  return bare;
}

const SPARSE = 0.4; // of a drawing
const SHARES = [0.5, 0.4, 0.3, 0.2]; // of its width
const HIGH = [0.5, 0.9]; // and of its height, for what is higher than wide
