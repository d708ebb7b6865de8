/** The small picture on a label: the part seen on its grooved face, and the edges and ends that go against fence or stop. */
import type { Mm } from "../../base/length.ts";
import { fill, lines, polygonSteps, rect, rectSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { drawShaped, shapesIn } from "../draughting/shaped.ts";

const THIS_FACE = 0.2;
const OTHER_FACE = 0.75; // grooves on the face turned away
const LEAST_BAND: Mm = 0.5; // a groove narrower than this on the label would vanish in print
const ARROW: Mm = 1.4;

/** The face to look at: the inside, or the one with more cut into it. */
export function seenFace(part: SetPart): "t0" | "t1" {
  if (part.inside === "t0" || part.inside === "t1") return part.inside;
  const count = (face: Face): number => part.features.filter((feature) => feature.face === face).length;
  return count("t0") > count("t1") ? "t0" : "t1";
}

/** The part's length runs level; from t0 the width runs down the paper, from t1 up it, so that mirrored parts look mirrored. */
export function drawPartPicture(set: DryfitSet, part: SetPart, box: Rect): Shape[] {
  const inner: Rect = {
    x: box.x + ARROW,
    y: box.y + ARROW,
    width: box.width - 2 * ARROW,
    height: box.height - 2 * ARROW,
  };
  const scale = Math.min(inner.width / part.length, inner.height / part.width);
  const [length, width] = [part.length * scale, part.width * scale];
  const face = seenFace(part);
  const left = inner.x + (inner.width - length) / 2;
  const top = inner.y + (inner.height - width) / 2;
  const at = (l: Mm, w: Mm): Point => [left + l * scale, top + (face === "t0" ? w : part.width - w) * scale];
  const rectOf = ({ box: [lo, hi] }: SetFeature): Rect => {
    const [a, b] = [at(lo[0], lo[1]), at(hi[0], hi[1])];
    return {
      x: Math.min(a[0], b[0]),
      y: Math.min(a[1], b[1]),
      width: Math.abs(b[0] - a[0]),
      height: Math.abs(b[1] - a[1]),
    };
  };
  const cut = part.features.filter(
    ({ kind }) => kind !== "notch" && kind !== "shape" && kind !== "edge" && kind !== "mitre",
  );
  const onOther = cut.filter((feature) => feature.face !== face);
  const onThis = cut.filter((feature) => feature.face === face);
  const blank: Rect = { x: left, y: top, width: length, height: width };
  return [
    ...bands(onOther.map(rectOf), blank, OTHER_FACE),
    ...bands(onThis.map(rectOf), blank, THIS_FACE),
    rect("bar", blank),
    ...part.features.filter(({ kind }) => kind === "notch").flatMap((notch) => drawNotch(rectOf(notch), blank)),
    ...shapesIn(part).flatMap((shape) => drawShaped(shape, at, "bar")),
    ...drawDatums(set, part, blank, face),
  ];
}

function bands(boxes: Rect[], blank: Rect, grey: number): Shape[] {
  if (boxes.length === 0) return [];
  return [
    fill(
      grey,
      boxes.flatMap((box) => rectSteps(widened(box, blank))),
    ),
  ];
}

/** At least so wide that it prints, and still inside the part. */
function widened(box: Rect, blank: Rect): Rect {
  const grow = (at: Mm, size: Mm, from: Mm, room: Mm): [Mm, Mm] => {
    if (size >= LEAST_BAND) return [at, size];
    return [Math.max(from, Math.min(at - (LEAST_BAND - size) / 2, from + room - LEAST_BAND)), LEAST_BAND];
  };
  const [x, width] = grow(box.x, box.width, blank.x, blank.width);
  const [y, height] = grow(box.y, box.height, blank.y, blank.height);
  return { x, y, width, height };
}

/** What is gone from a corner: the outline there is painted out and drawn again inside it. */
function drawNotch(box: Rect, blank: Rect): Shape[] {
  if (Math.min(box.width, box.height) < LEAST_BAND) return []; // no more than a dot at this size
  const isAt = (a: Mm, b: Mm): boolean => Math.abs(a - b) < 1e-3;
  const [x1, y1] = [box.x + box.width, box.y + box.height];
  const [atLeft, atRight] = [isAt(box.x, blank.x), isAt(x1, blank.x + blank.width)];
  const [atTop, atEnd] = [isAt(box.y, blank.y), isAt(y1, blank.y + blank.height)];
  const OUT = 0.3; // covers the outline's own width
  const inner: [Point, Point][] = [];
  if (!atLeft)
    inner.push([
      [box.x, box.y],
      [box.x, y1],
    ]);
  if (!atRight)
    inner.push([
      [x1, box.y],
      [x1, y1],
    ]);
  if (!atTop)
    inner.push([
      [box.x, box.y],
      [x1, box.y],
    ]);
  if (!atEnd)
    inner.push([
      [box.x, y1],
      [x1, y1],
    ]);
  const cover: Rect = {
    x: box.x - (atLeft ? OUT : 0),
    y: box.y - (atTop ? OUT : 0),
    width: box.width + (atLeft ? OUT : 0) + (atRight ? OUT : 0),
    height: box.height + (atTop ? OUT : 0) + (atEnd ? OUT : 0),
  };
  return [fill(1, rectSteps(cover)), lines("bar", inner)];
}

/** A solid triangle against every edge or end that a setting takes as its datum. */
function drawDatums(set: DryfitSet, part: SetPart, blank: Rect, face: "t0" | "t1"): Shape[] {
  const datums = new Set(
    set.settings.flatMap(({ runs }) => runs.filter(({ mark }) => mark === part.mark).map(({ datum }) => datum)),
  );
  const middle: Point = [blank.x + blank.width / 2, blank.y + blank.height / 2];
  const shapes: Shape[] = [];
  for (const datum of datums) {
    const high = datum[1] === "1";
    if (datum[0] === "l")
      shapes.push(arrowAt([blank.x + (high ? blank.width : 0), middle[1]], high ? [1, 0] : [-1, 0]));
    if (datum[0] === "w") {
      const isDown = high === (face === "t0");
      shapes.push(arrowAt([middle[0], blank.y + (isDown ? blank.height : 0)], isDown ? [0, 1] : [0, -1]));
    }
  }
  return shapes;
}

/** Its tip on the edge, its foot away from it in direction `out`. */
function arrowAt([x, y]: Point, [u, v]: Point): Shape {
  const half = ARROW * 0.45;
  const [fx, fy] = [x + u * ARROW * 0.9, y + v * ARROW * 0.9];
  return fill(
    0,
    polygonSteps([
      [x, y],
      [fx - v * half, fy + u * half],
      [fx + v * half, fy - u * half],
    ]),
  );
}
