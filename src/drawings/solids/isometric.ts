/**
 * An isometric drawing of parts, each where it stands or moved out of its place, with hidden lines taken out. What is
 * moved has the heavier outline.
 */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { lines } from "../../paper/draw.ts";
import type { Pen } from "../../paper/pen.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { type Line, withoutSpecks } from "../draughting/clip.ts";
import { gridOf, type LineGrid } from "../draughting/line-grid.ts";
import { curtainOf, type Eye, isContour, looksAt, project } from "./hidden-line.ts";
import { type Facet, type Skin, skinOf } from "./hidden-line-skin.ts";
import type { Solid } from "./solid.ts";

/** A part as its skin, made once however often it is drawn. */
export type Body = { mark: string; skin: Skin; shift: Vec; isMoved: boolean };

export const bodyOf = ({ mark, boxes, stairs }: Solid, shift: Vec = [0, 0, 0], isMoved = false): Body => ({
  mark,
  skin: skinOf(boxes, stairs),
  shift,
  isMoved,
});

export const FRONT_RIGHT: Eye = { x: 1, y: -1 };
export const FRONT_LEFT: Eye = { x: -1, y: -1 };
export const BACK_RIGHT: Eye = { x: 1, y: 1 };
export const BACK_LEFT: Eye = { x: -1, y: 1 };

const SPECK: Mm = 0.05; // on paper: what is left of a line where surfaces meet
const SAME_LINE: Mm = 0.04; // on paper: two lines as close as this print as one

const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const between = (a: Vec, b: Vec, f: number): Vec => [
  a[0] + (b[0] - a[0]) * f,
  a[1] + (b[1] - a[1]) * f,
  a[2] + (b[2] - a[2]) * f,
];
const shifted = ({ axis, out, corners }: Facet, shift: Vec): Facet => ({
  axis,
  out,
  corners: [add(corners[0], shift), add(corners[1], shift)],
});

/** `contour`: those of the visible lines at which the part ends before what lies behind it. */
export type Drawn = { mark: string; isMoved: boolean; visible: Line[]; contour: Line[]; hidden: Line[] };

/** What shows of a part, on paper: small squares, the largest where there is most room around. */
type Patches = ReadonlyMap<string, readonly Rect[]>;

export type Isometric = { drawn: Drawn[]; box: Rect; patches: (marks: readonly string[]) => Patches };

/** The rectangle that bodies take on paper at full size, the origin projected to 0, 0. */
export function isometricBox(bodies: readonly Body[], eye: Eye): Rect {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { skin, shift } of bodies) {
    for (const edge of skin.edges) {
      for (const end of edge.ends) {
        const [x, y] = project(eye, add(end, shift));
        [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
      }
    }
  }
  return { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
}

/** Bodies at a scale (paper millimetres to one of the piece's); `drawn` in the order given. */
export function isometric(bodies: readonly Body[], eye: Eye, ratio: number): Isometric {
  const placed = bodies.map((body) => ({
    ...body,
    facets: body.skin.facets.map((facet) => shifted(facet, body.shift)),
  }));
  const curtain = curtainOf(
    eye,
    placed.flatMap(({ facets }) => facets),
  );
  const onPaper = (spot: Vec): Point => {
    const [x, y] = project(eye, spot);
    return [x * ratio, y * ratio];
  };
  const drawn = placed.map(({ mark, skin, shift, isMoved }): Drawn => {
    const visible: Line[] = [];
    const contour: Line[] = [];
    const hidden: Line[] = [];
    for (const edge of skin.edges) {
      const [a, b] = [add(edge.ends[0], shift), add(edge.ends[1], shift)];
      const ends = isContour(eye, edge);
      const long = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) * ratio; // true to length along every axis
      let last = 0;
      const put = (all: Line[], f: number, g: number): void => {
        if ((g - f) * long >= SPECK) all.push([onPaper(between(a, b, f)), onPaper(between(a, b, g))]);
      };
      for (const [f, g] of curtain.seen(a, b)) {
        put(hidden, last, f);
        put(visible, f, g);
        if (ends) put(contour, f, g);
        last = g;
      }
      put(hidden, last, 1);
    }
    return { mark, isMoved, visible, contour, hidden };
  });
  const whole = isometricBox(bodies, eye);
  return {
    drawn,
    box: { x: whole.x * ratio, y: whole.y * ratio, width: whole.width * ratio, height: whole.height * ratio },
    patches: (marks) => {
      const drawnLines = gridOf(drawn.flatMap(({ visible }) => visible));
      return new Map(
        placed
          .filter(({ mark }) => marks.includes(mark))
          .flatMap(({ mark, facets }) => {
            const spots = facets.filter((facet) => looksAt(eye, facet)).flatMap(spotsOn);
            const all = spots.filter((spot) => curtain.isSeen(spot)).map((spot) => patchAt(onPaper(spot), drawnLines));
            const roomy = all.filter(({ width }) => width >= LEAST_PATCH);
            // A narrow part is marked all the same: better a dot on its edge than no mark.
            const found = roomy.length > 0 ? roomy : all;
            return found.length === 0 ? [] : [[mark, found] as const];
          }),
      );
    },
  };
}

const LEAST_PATCH: Mm = 0.35; // a dot in less would lie on a line
const MOST_PATCH: Mm = 40; // to the nearest line: more room makes no better place
const SHARES = [0.12, 0.31, 0.5, 0.69, 0.88];

/** Spots spread over a face, none on its boundary. */
function spotsOn({ corners: [lo, hi], axis }: Facet): Vec[] {
  const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
  return SHARES.flatMap((s) =>
    SHARES.map((t): Vec => {
      const share = (i: number): number => (i === u ? s : i === v ? t : 0);
      return [0, 1, 2].map((i) => lo[i]! + (hi[i]! - lo[i]!) * share(i)) as unknown as Vec;
    }),
  );
}

/** A square about a spot, half as wide as the way to the nearest line: a dot in it is on the part, and on no line. */
function patchAt(spot: Point, all: LineGrid): Rect {
  const room = all.distance(spot, MOST_PATCH) / 2;
  return { x: spot[0] - room / 2, y: spot[1] - room / 2, width: room, height: room };
}

/** Lines that lie on each other, or so close that they print as one, made one: an edge in its groove is drawn once. */
export function joinLines(all: readonly Line[]): Line[] {
  type Row = { line: Line; offset: number; stretches: [number, number][]; angle: number };
  const rows: Row[] = [];
  const byAngle = new Map<string, Map<number, Row>>();
  for (const [a, b] of all) {
    const isUpright = Math.abs(b[0] - a[0]) < 1e-9;
    const slope = isUpright ? 0 : (b[1] - a[1]) / (b[0] - a[0]);
    const offset = isUpright ? a[0] : a[1] - slope * a[0];
    const i = isUpright ? 1 : 0;
    const key = isUpright ? "upright" : slope.toFixed(3);
    const known = byAngle.get(key) ?? new Map<number, Row>();
    byAngle.set(key, known);
    const slot = Math.round(offset / SAME_LINE);
    const row = [slot, slot - 1, slot + 1]
      .map((n) => known.get(n))
      .find((one) => one !== undefined && Math.abs(one.offset - offset) < SAME_LINE);
    const stretch: [number, number] = [Math.min(a[i], b[i]), Math.max(a[i], b[i])];
    if (row === undefined) {
      const made: Row = { line: [a, b], offset, stretches: [stretch], angle: isUpright ? Number.NaN : slope };
      known.set(slot, made);
      rows.push(made);
    } else row.stretches.push(stretch);
  }
  return rows.flatMap(({ offset, stretches, angle }) => {
    const on = (value: number): Point => (Number.isNaN(angle) ? [offset, value] : [value, offset + angle * value]);
    const joined: [number, number][] = [];
    for (const [from, to] of stretches.sort((p, q) => p[0] - q[0])) {
      const last = joined.at(-1);
      if (last !== undefined && from <= last[1] + SPECK) last[1] = Math.max(last[1], to);
      else joined.push([from, to]);
    }
    return joined.map(([from, to]): Line => [on(from), on(to)]);
  });
}

const STANDING: Pen = "thin";
const MOVED: Pen = "outline";

/** The drawing's shapes: every visible edge, the contours of what is moved heavier; hidden edges dashed where they are asked for. */
export function isometricShapes(drawn: readonly Drawn[], withHidden = false): Shape[] {
  const hidden = withHidden ? drawn.flatMap((one) => one.hidden) : [];
  return [
    lines("hidden", withoutSpecks(joinLines(hidden))),
    lines(STANDING, withoutSpecks(joinLines(drawn.flatMap(({ visible }) => visible)))),
    lines(MOVED, withoutSpecks(joinLines(drawn.flatMap(({ isMoved, contour }) => (isMoved ? contour : []))))),
  ].filter((shape) => shape.steps.length > 0);
}

/** Lengths of all that shows. */
export const inkOf = (all: readonly Line[]): Mm =>
  all.reduce((sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0);
