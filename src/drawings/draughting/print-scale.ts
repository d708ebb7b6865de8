/** A page scaled about its centre, to undo what a printer was measured to do; x and y differ, so groups are dissolved first. */
import type { PathStep, Point, Shape } from "../../paper/shape.ts";

type Scale = { x: number; y: number };
type Turned = { move: Point; turn: number };

/** Turns anticlockwise as seen on paper, where y points down. */
function turnPoint([x, y]: Point, degrees: number): Point {
  const quarter = ((degrees % 360) + 360) % 360;
  if (quarter === 0) return [x, y];
  if (quarter === 90) return [y, -x]; // exact: a quarter turn must not blur a full-size wall
  if (quarter === 180) return [-x, -y];
  if (quarter === 270) return [-y, x];
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [x * c + y * s, y * c - x * s];
}

function mapSteps(steps: PathStep[], map: (point: Point) => Point): PathStep[] {
  return steps.map((step): PathStep => {
    if (step.to === "close") return step;
    if (step.to === "curve") return { to: "curve", c1: map(step.c1), c2: map(step.c2), at: map(step.at) };
    return { to: step.to, at: map(step.at) };
  });
}

function mapShape(shape: Shape, around: Turned[], centre: Point, scale: Scale): Shape[] {
  const map = (point: Point): Point => {
    const [x, y] = around.reduceRight<Point>((p, { move, turn }) => {
      const turned = turnPoint(p, turn);
      return [turned[0] + move[0], turned[1] + move[1]];
    }, point);
    return [centre[0] + scale.x * (x - centre[0]), centre[1] + scale.y * (y - centre[1])];
  };
  if (shape.kind === "group") {
    if (shape.clip !== null) throw new Error("a page drawn at full size holds no clipped group");
    const inner = [...around, { move: shape.move, turn: shape.turn }];
    return shape.shapes.flatMap((child) => mapShape(child, inner, centre, scale));
  }
  if (shape.kind === "path") return [{ ...shape, steps: mapSteps(shape.steps, map) }];
  if (shape.kind === "text") {
    const turn = around.reduce((sum, group) => sum + group.turn, shape.turn);
    return [{ ...shape, at: map(shape.at), turn, size: shape.size * Math.min(scale.x, scale.y) }];
  }
  throw new Error("a page drawn at full size holds no link");
}

/** Said on every page that is corrected; nothing where none is. */
export const correctionInWords = ({ x, y }: Scale): string =>
  x === 1 && y === 1 ? "" : `, corrected for a printer that prints x at ${plain(x)} and y at ${plain(y)}`;

const plain = (scale: number): number => Number(scale.toFixed(4));

export function scalePage(shapes: Shape[], centre: Point, scale: Scale): Shape[] {
  if (scale.x === 1 && scale.y === 1) return shapes;
  return shapes.flatMap((shape) => mapShape(shape, [], centre, scale));
}
