/** Sections of a part beside its face: along the length where grooves run across it, across it where they run along. */
import type { Mm } from "../../base/length.ts";
import { fill, group, lines, polygonSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { SetPart } from "../../set/schema.ts";
import { mostWidth, setLines, words } from "../draughting/cell.ts";
import type { Side } from "../draughting/dimension.ts";
import { drawView, type Picture } from "../draughting/picture.ts";
import type { Projection } from "../draughting/projection.ts";
import { mitresIn } from "../draughting/shaped.ts";
import { freeStretches } from "../draughting/stretch.ts";
import { solidOf } from "../solids/solid.ts";
import { type Direction, type View, viewOf } from "../solids/view.ts";
import { type BroadFace, flat, isChannel, type Lie } from "./part-axes.ts";

const STRIP_AIR: Mm = 2;
/** Under a view's name: wider than what parts the name from its view, or it reads as the title of the section. */
const NAME_AIR: Mm = 4;

/** The section beside the face whose upper (or left) line is the face looked at, as third angle has it. */
const LENGTH_SECTIONS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "+x", v: "+z", away: "+y" }, t0: { u: "+x", v: "-z", away: "-y" } },
  standing: { t1: { u: "-z", v: "+x", away: "+y" }, t0: { u: "+z", v: "+x", away: "-y" } },
};
const ACROSS_SECTIONS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "-z", v: "+y", away: "-x" }, t0: { u: "+z", v: "-y", away: "-x" } },
  standing: { t1: { u: "-y", v: "+z", away: "+x" }, t0: { u: "+y", v: "-z", away: "+x" } },
};

/** In first angle the view from the other side stands there: its lower (or right) line is the face looked at. */
const inFirstAngle = ({ u, v, away }: Direction, isBelow: boolean): Direction => {
  const turned = (axis: Direction["u"]): Direction["u"] =>
    `${axis[0] === "+" ? "-" : "+"}${axis[1] as "x" | "y" | "z"}`;
  return { u: isBelow ? u : turned(u), v: isBelow ? turned(v) : v, away: turned(away) };
};

/** `across`: cut across the length, so that a mitred edge is seen as it is. */
export type Section = { view: View; isBelow: boolean; part: SetPart; across: Direction | null };

export function sectionsOf(part: SetPart, face: BroadFace, lie: Lie, projection: Projection): Section[] {
  const solids = [{ mark: part.mark, boxes: solidOf(part) }];
  const section = (directions: Record<Lie, Record<BroadFace, Direction>>, cutAt: Mm, isBelow: boolean): Section => {
    const third = directions[lie][face];
    const direction = projection === "third" ? third : inFirstAngle(third, isBelow);
    const across = directions === ACROSS_SECTIONS ? direction : null;
    return { view: viewOf(solids, direction, flat(direction.away, cutAt)), isBelow, part, across };
  };
  const cut = part.features.filter(isChannel);
  return [
    ...(cut.some((f) => f.along === "w") ? [section(LENGTH_SECTIONS, clearOf(part, "l"), lie === "lying")] : []),
    ...(cut.some((f) => f.along === "l") || mitresIn(part).length > 0
      ? [section(ACROSS_SECTIONS, clearOf(part, "w"), lie === "standing")]
      : []),
  ];
}

/** The sections outside the dimensions of their side; `isNamed`: with the view's name over the one below, which then has a title of its own. */
export function drawStrips(
  sections: readonly Section[],
  ratio: number,
  box: Rect,
  depthOn: (side: Side) => Mm,
  isNamed: boolean,
): { shapes: Shape[]; boxes: Rect[] } {
  const strips = sections.map(({ view, isBelow, part, across }) => {
    const cut = drawView(view, ratio);
    const strip = across === null ? cut : { ...cut, shapes: [...cut.shapes, ...drawMitred(part, across, cut)] };
    const air = isNamed ? NAME_AIR : STRIP_AIR;
    const at: Point = isBelow
      ? [0, box.y + box.height + depthOn("below") + air + strip.box.height]
      : [box.width + depthOn("right") + STRIP_AIR, 0];
    const titled = isBelow && isNamed ? titleUnder(at, across) : { shapes: [], boxes: [] };
    return {
      shapes: [group(strip.shapes, { move: at }), ...titled.shapes],
      boxes: [
        { x: at[0], y: at[1] - strip.box.height, width: strip.box.width, height: strip.box.height },
        ...titled.boxes,
      ],
    };
  });
  return { shapes: strips.flatMap(({ shapes }) => shapes), boxes: strips.flatMap(({ boxes }) => boxes) };
}

const TITLE_AIR: Mm = 1.5;

function titleUnder([x, y]: Point, across: Direction | null): { shapes: Shape[]; boxes: Rect[] } {
  const atoms = words(across === null ? "section along the length" : "section across");
  const title = setLines(atoms, mostWidth(atoms));
  const at: Point = [x, y + TITLE_AIR];
  return {
    shapes: [group(title.shapes, { move: at })],
    boxes: [{ x: at[0], y: at[1], width: title.width, height: title.height }],
  };
}

/** Each mitre of a part that is cut across: the corner away, its slope drawn. The outline goes from the point to the heel. */
function drawMitred(part: SetPart, { u, v }: Direction, picture: Picture): Shape[] {
  return mitresIn(part).flatMap(({ outline }) => {
    const at = ([w, t]: readonly [Mm, Mm, ...unknown[]]): Point => {
      const along = (axis: Direction["u"]): number => flat(axis, axis[1] === "y" ? w : t);
      return [picture.x(along(u)), picture.y(along(v))];
    };
    const [point, heel, waste] = outline.map((one) => at(one as [Mm, Mm])) as [Point, Point, Point];
    return [fill(1, polygonSteps(beyond([point, heel, waste]))), lines("outline", [[point, heel]])];
  });
}

/** A little over the two legs at the waste's corner, so that no line of these is left. */
function beyond([point, heel, [x, y]]: [Point, Point, Point]): Point[] {
  const over = (one: number, other: number): number => Math.sign(one - other) * LEG;
  const [dx, dy] = [over(2 * x, point[0] + heel[0]), over(2 * y, point[1] + heel[1])];
  const out = ([a, b]: Point): Point => [near(a, x) ? a + dx : a, near(b, y) ? b + dy : b];
  return [point, heel, out(heel), [x + dx, y + dy], out(point)];
}
const LEG: Mm = 0.6;
const near = (a: Mm, b: Mm): boolean => Math.abs(a - b) < 1e-6;

/** A place to cut where no groove along (for a cut along the length) or across it lies: the middle of the widest free stretch. */
export function clearOf(part: SetPart, along: "l" | "w"): Mm {
  const i = along === "l" ? 1 : 0;
  const size = along === "l" ? part.width : part.length;
  const taken = part.features
    .filter(
      (f) =>
        f.kind !== "hole" &&
        f.kind !== "mortise" &&
        f.kind !== "slot" &&
        f.kind !== "edge" &&
        (f.kind === "notch" || f.along === along),
    )
    .map((f) => [f.box[0][i], f.box[1][i]] as const);
  return middleOfWidest(freeStretches(0, size, taken));
}

const middleOfWidest = (free: readonly [Mm, Mm][]): Mm => {
  const [a, b] = free.reduce((best, one) => (one[1] - one[0] > best[1] - best[0] ? one : best));
  return (a + b) / 2;
};
