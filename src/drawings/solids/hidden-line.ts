/**
 * Hidden lines in an isometric projection, exactly: each edge is clipped against each face in front of it, depth being
 * linear along both. Faces lie in a grid of buckets, so that an edge meets only those near it on paper.
 */
import type { AxisIndex, Vec } from "../../base/geometry.ts";
import type { Point } from "../../paper/shape.ts";
import { freeStretches } from "../draughting/stretch.ts";
import type { Edge } from "./edge.ts";
import type { Facet } from "./hidden-line-skin.ts";

/** Where the viewer stands, always above: 1 is right, or behind; -1 is left, or in front. */
export type Eye = { x: 1 | -1; y: 1 | -1 };

const COS_30 = Math.cos(Math.PI / 6);
const SIN_30 = 0.5;

/** ISO 5456-3, isometric axonometry: three axes at 120 degrees on paper, all at one scale. y runs down, as on paper. */
export const project = (eye: Eye, [x, y, z]: Vec): Point => [
  (eye.x * y - eye.y * x) * COS_30,
  (eye.x * x + eye.y * y) * SIN_30 - z,
];

/** Larger is nearer. */
const nearness = (eye: Eye, [x, y, z]: Vec): number => eye.x * x + eye.y * y + z;

export const looksAt = (eye: Eye, { axis, out }: Facet): boolean => out === [eye.x, eye.y, 1][axis];

/** Where a part ends before what lies behind it: one of the two faces that meet looks at the viewer, the other away. */
export const isContour = (eye: Eye, { outs }: Edge): boolean =>
  outs !== null && outs.filter(({ axis, out }) => out === [eye.x, eye.y, 1][axis]).length === 1;

const TOUCH = 1e-4; // faces take in their own boundary
const IN_FRONT = 1e-3; // nearer by less is the same surface
const BUCKETS = 64;

/** A face on paper: a corner and two sides, with the nearness of each. */
type Screen = {
  at: Point;
  p: Point;
  q: Point;
  near: number;
  nearP: number;
  nearQ: number;
  determinant: number;
  slackS: number;
  slackT: number;
};

/** A side of a face, along one axis. */
const sideOf = (i: AxisIndex, long: number): Vec => [i === 0 ? long : 0, i === 1 ? long : 0, i === 2 ? long : 0];

function screenOf(eye: Eye, { axis, corners: [lo, hi] }: Facet): Screen {
  const [u, v] = [((axis + 1) % 3) as AxisIndex, ((axis + 2) % 3) as AxisIndex];
  const [alongU, alongV] = [sideOf(u, hi[u] - lo[u]), sideOf(v, hi[v] - lo[v])];
  const [p, q] = [project(eye, alongU), project(eye, alongV)];
  return {
    at: project(eye, lo),
    p,
    q,
    near: nearness(eye, lo),
    nearP: nearness(eye, alongU),
    nearQ: nearness(eye, alongV),
    determinant: p[0] * q[1] - p[1] * q[0],
    slackS: TOUCH / (hi[u] - lo[u]),
    slackT: TOUCH / (hi[v] - lo[v]),
  };
}

/** Narrows a stretch, given as fractions of a line, to where a linear value from `start` to `end` is above nought. */
function keep(stretch: [number, number], start: number, end: number): boolean {
  if (start <= 0 && end <= 0) return false;
  if (start < 0) stretch[0] = Math.max(stretch[0], start / (start - end));
  else if (end < 0) stretch[1] = Math.min(stretch[1], start / (start - end));
  return stretch[0] < stretch[1];
}

/** Where the line from a (nearness na) to b (nb) lies on the face and behind it, as fractions of the line; null nowhere. */
function coveredBy(face: Screen, a: Point, na: number, b: Point, nb: number): readonly [number, number] | null {
  const { p, q, determinant, slackS, slackT } = face;
  const [ax, ay, bx, by] = [a[0] - face.at[0], a[1] - face.at[1], b[0] - face.at[0], b[1] - face.at[1]];
  // Along the face's two sides, as shares of them.
  const [sa, sb] = [(ax * q[1] - ay * q[0]) / determinant, (bx * q[1] - by * q[0]) / determinant];
  const [ta, tb] = [(ay * p[0] - ax * p[1]) / determinant, (by * p[0] - bx * p[1]) / determinant];
  const stretch: [number, number] = [0, 1];
  return keep(stretch, sa + slackS, sb + slackS) &&
    keep(stretch, 1 + slackS - sa, 1 + slackS - sb) &&
    keep(stretch, ta + slackT, tb + slackT) &&
    keep(stretch, 1 + slackT - ta, 1 + slackT - tb) &&
    keep(
      stretch,
      face.near + sa * face.nearP + ta * face.nearQ - na - IN_FRONT,
      face.near + sb * face.nearP + tb * face.nearQ - nb - IN_FRONT,
    )
    ? stretch
    : null;
}

/** From where to where a face reaches on paper. */
const spanOf = ({ at, p, q }: Screen, i: 0 | 1): [number, number] => [
  at[i] + Math.min(0, p[i]) + Math.min(0, q[i]) - TOUCH,
  at[i] + Math.max(0, p[i]) + Math.max(0, q[i]) + TOUCH,
];

/** What stands before what: made once for a picture. */
type Curtain = {
  /** The stretches of an edge that show, as fractions of it. */
  seen: (from: Vec, to: Vec) => [number, number][];
  isSeen: (spot: Vec) => boolean;
};

export function curtainOf(eye: Eye, facets: readonly Facet[]): Curtain {
  const faces = facets.filter((facet) => looksAt(eye, facet)).map((facet) => screenOf(eye, facet));
  const spans = faces.map((face) => [spanOf(face, 0), spanOf(face, 1)] as const);
  const least = ([0, 1] as const).map((i) => spans.reduce((m, span) => Math.min(m, span[i][0]), Infinity));
  const most = ([0, 1] as const).map((i) => spans.reduce((m, span) => Math.max(m, span[i][1]), -Infinity));
  const bucketOf = (i: 0 | 1, value: number): number =>
    Math.max(0, Math.min(BUCKETS - 1, Math.floor(((value - least[i]!) / (most[i]! - least[i]!)) * BUCKETS)));
  const buckets: number[][] = Array.from({ length: BUCKETS * BUCKETS }, () => []);
  spans.forEach(([xs, ys], n) => {
    for (let i = bucketOf(0, xs[0]); i <= bucketOf(0, xs[1]); i++)
      for (let j = bucketOf(1, ys[0]); j <= bucketOf(1, ys[1]); j++) buckets[i * BUCKETS + j]!.push(n);
  });
  const asked = new Uint32Array(faces.length);
  let question = 0;
  /** Each face in the buckets that a line runs through, once. */
  function forEachNear(a: Point, b: Point, look: (face: Screen) => void): void {
    question++;
    const [left, right] = a[0] <= b[0] ? [a, b] : [b, a];
    const run = right[0] - left[0];
    const slope = run < TOUCH ? null : (right[1] - left[1]) / run;
    const column = (most[0]! - least[0]!) / BUCKETS;
    for (let i = bucketOf(0, left[0] - TOUCH); i <= bucketOf(0, right[0] + TOUCH); i++) {
      // Its heights where it runs through this column.
      const from = Math.max(0, Math.min(run, least[0]! + i * column - TOUCH - left[0]));
      const to = Math.max(0, Math.min(run, least[0]! + (i + 1) * column + TOUCH - left[0]));
      const [y0, y1] = slope === null ? [a[1], b[1]] : [left[1] + slope * from, left[1] + slope * to];
      for (let j = bucketOf(1, Math.min(y0, y1) - TOUCH); j <= bucketOf(1, Math.max(y0, y1) + TOUCH); j++) {
        for (const n of buckets[i * BUCKETS + j]!) {
          if (asked[n] === question) continue;
          asked[n] = question;
          look(faces[n]!);
        }
      }
    }
  }
  return {
    seen: (from, to) => {
      const [a, b] = [project(eye, from), project(eye, to)];
      const [na, nb] = [nearness(eye, from), nearness(eye, to)];
      const covered: (readonly [number, number])[] = [];
      forEachNear(a, b, (face) => {
        const stretch = coveredBy(face, a, na, b, nb);
        if (stretch !== null) covered.push(stretch);
      });
      return freeStretches(0, 1, covered);
    },
    isSeen: (spot) => {
      const [at, near] = [project(eye, spot), nearness(eye, spot)];
      let seen = true;
      forEachNear(at, at, (face) => {
        if (coveredBy(face, at, near, at, near) !== null) seen = false;
      });
      return seen;
    },
  };
}
