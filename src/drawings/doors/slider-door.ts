/** A door that slides in grooves, from the front. */
import type { DryfitSet } from "../../set/schema.ts";
import { markView, NO_MARKS } from "../cases/marking.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned, subtitleOf } from "../draughting/view-title.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { acrossOn, memberRows } from "./door-view.ts";
import { knobMark } from "./doors.ts";
import { doorOf, pullMark, type SetSlider } from "./slider-blocks.ts";

/** Pulled at its left half; null where nothing to pull it by stands in its face. */
function isLeftPulled(set: DryfitSet, door: SetSlider): boolean | null {
  const handle = (door.pull ?? door.knob)?.at;
  return handle === undefined ? null : handle[0] <= doorOf(set, door).size[0] / 2;
}

/** One door from the front: its sizes, its members, where it is pulled. */
export function doorBlock(set: DryfitSet, door: SetSlider, view: View, ratio: number, withMarks: boolean): Block {
  const assembly = doorOf(set, door);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const { across, up } = memberRows(set, assembly, picture);
  const [width] = assembly.size;
  const handle = (door.pull ?? door.knob)?.at;
  const isLeft = isLeftPulled(set, door);
  const sides = [
    drawDimensions("below", 0, across, style),
    drawDimensions("left", 0, up, style),
    ...(handle === undefined
      ? []
      : [
          drawDimensions(
            "right",
            box.width,
            [{ kind: "running", datum: picture.y(0), at: [picture.y(handle[1])] }],
            style,
          ),
          drawDimensions(
            "above",
            box.y,
            [{ kind: "spans", spans: acrossOn(picture, [isLeft ? [0, handle[0]] : [handle[0], width]]) }],
            style,
          ),
        ]),
  ];
  const boxes = sides.flatMap((one) => one.boxes);
  const pull = pullMark(door, picture, ratio);
  const marking = withMarks ? markView(view.seen, picture, [...boxes, ...pull.boxes], box) : NO_MARKS;
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        ...knobMark(door, picture, ratio),
        ...pull.shapes,
        ...sides.flatMap((one) => one.shapes),
        ...marking.shapes,
      ],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    door.assembly,
    subtitleOf("from the front", marking.note),
    box,
  );
}

/** The first of the others that is pulled at its other edge. */
export function mateOf(set: DryfitSet, [first, ...others]: readonly [SetSlider, ...SetSlider[]]): SetSlider | null {
  const isLeft = isLeftPulled(set, first);
  return others.find((one) => isLeft !== null && isLeftPulled(set, one) === !isLeft) ?? null;
}

/** As it stands, without a figure: these stand at the door that it is made like. */
export function mateBlock(set: DryfitSet, door: SetSlider, ratio: number, withMarks: boolean): Block {
  const view = viewOf(solidsOf(set, doorOf(set, door)), FROM_FRONT);
  const picture = drawView(view, ratio);
  const pull = pullMark(door, picture, ratio);
  const marking = withMarks ? markView(view.seen, picture, pull.boxes, picture.box) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...knobMark(door, picture, ratio), ...pull.shapes, ...marking.shapes],
      box: unionOf([picture.box, ...marking.boxes]),
    },
    `${door.assembly}: the same size`,
    subtitleOf(`pulled at its ${isLeftPulled(set, door) ? "left" : "right"} edge`, marking.note),
    picture.box,
  );
}
