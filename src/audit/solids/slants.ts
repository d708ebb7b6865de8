/**
 * Wood behind a slanting plane: a mitred part is its boxes less what lies beyond its planes. A box cut by planes is kept as the polygons of its
 * faces, so that what two parts share is judged by the wood itself, and not by the boxes around it.
 */

import type { Place } from "../../base/geometry.ts";
import { AXES, type Box, type Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetFeature } from "../../set/schema.ts";
import { TOUCH } from "./boxes.ts";

/** The wood lies where `normal` times a point is at most `reach`; the normal is one long. */
export type Slant = { normal: Vec; reach: Mm };

const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** A point of the placed frame, in the frame around. */
function placed(place: Place, local: Vec): Vec {
  const out: [number, number, number] = [...place.at];
  [place.l, place.w, place.t].forEach((signed, i) => {
    out["xyz".indexOf(signed[1]!) as 0 | 1 | 2] += (signed[0] === "+" ? 1 : -1) * local[i as 0 | 1 | 2];
  });
  return out;
}

/** The plane of a mitre along l: from the outline's first corner to its second, the third is what is sawn off. Null where these make no corner. */
export function slantOf({ kind, axis, outline }: SetFeature, place: Place): Slant | null {
  if (kind !== "mitre" || axis !== "l" || outline.length !== 3) return null;
  const [point, heel, waste] = outline as [[number, number], [number, number], [number, number]];
  const along = [heel[0] - point[0], heel[1] - point[1]] as const;
  const long = Math.hypot(...along);
  if (long <= TOUCH) return null;
  const off = [along[1] / long, -along[0] / long] as const;
  const isOut = off[0] * (waste[0] - point[0]) + off[1] * (waste[1] - point[1]) > 0;
  const sign = isOut ? 1 : -1;
  const on = placed(place, [0, point[0], point[1]]);
  const tip = placed(place, [0, point[0] + sign * off[0], point[1] + sign * off[1]]);
  const normal = minus(tip, on);
  return { normal, reach: dot(normal, on) };
}

/** The same plane after a move that takes each point to another, such as into the room. */
export function movedSlant({ normal, reach }: Slant, move: (point: Vec) => Vec): Slant {
  const on: Vec = [normal[0] * reach, normal[1] * reach, normal[2] * reach];
  const turned = minus(move([on[0] + normal[0], on[1] + normal[1], on[2] + normal[2]]), move(on));
  return { normal: turned, reach: dot(turned, move(on)) };
}

/** From one plane out to the other, where they face each other; null where they do not. */
export function between(one: Slant, other: Slant): Mm | null {
  if (Math.abs(dot(one.normal, other.normal) + 1) > 1e-9) return null;
  return -other.reach - one.reach;
}

type Polygon = Vec[];

function facesOf([lo, hi]: Box): Polygon[] {
  const at = (i: number, j: number, k: number): Vec => [(i ? hi : lo)[0], (j ? hi : lo)[1], (k ? hi : lo)[2]];
  return [
    [at(0, 0, 0), at(0, 0, 1), at(0, 1, 1), at(0, 1, 0)],
    [at(1, 0, 0), at(1, 1, 0), at(1, 1, 1), at(1, 0, 1)],
    [at(0, 0, 0), at(1, 0, 0), at(1, 0, 1), at(0, 0, 1)],
    [at(0, 1, 0), at(0, 1, 1), at(1, 1, 1), at(1, 1, 0)],
    [at(0, 0, 0), at(0, 1, 0), at(1, 1, 0), at(1, 0, 0)],
    [at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), at(0, 1, 1)],
  ];
}

/** What is left of a convex body behind a plane: each face cut, and the cut itself closed with a face of its own. */
function cutBehind(faces: readonly Polygon[], { normal, reach }: Slant): Polygon[] {
  const rim: Vec[] = [];
  const kept = faces.flatMap((face): Polygon[] => {
    const left: Vec[] = [];
    face.forEach((here, i) => {
      const next = face[(i + 1) % face.length]!;
      const [a, b] = [dot(normal, here) - reach, dot(normal, next) - reach];
      if (a <= 0) left.push(here);
      if (a < 0 !== b < 0 && a !== b) {
        const share = a / (a - b);
        const met: Vec = [0, 1, 2].map((k) => here[k]! + share * (next[k]! - here[k]!)) as unknown as Vec;
        if (a !== 0) left.push(met);
        rim.push(met);
      }
    });
    return left.length < 3 ? [] : [left];
  });
  if (kept.length === 0 || rim.length < 3) return kept;
  return [...kept, around(rim, normal)];
}

/** Points of a plane in their order round it, seen from outside. */
function around(points: readonly Vec[], normal: Vec): Polygon {
  const middle: Vec = [0, 1, 2].map((k) => points.reduce((sum, p) => sum + p[k]!, 0) / points.length) as unknown as Vec;
  const u = minus(points.find((p) => Math.hypot(...minus(p, middle)) > 0) ?? middle, middle);
  const v = cross(normal, u);
  const angle = (p: Vec): number => Math.atan2(dot(minus(p, middle), v), dot(minus(p, middle), u));
  return [...points].sort((a, b) => angle(a) - angle(b));
}

/** Volume inside faces that are told anticlockwise from outside, by the tetrahedra to one point. */
const volumeIn = (faces: readonly Polygon[]): number =>
  faces.reduce(
    (sum, face) => sum + face.slice(2).reduce((part, p, i) => part + dot(face[0]!, cross(face[i + 1]!, p)) / 6, 0),
    0,
  );

/** What lies in a box and behind every plane: its volume and the least box around it; null where that is thinner than a touch. */
export function behindAll(box: Box, slants: readonly Slant[]): { box: Box; volume: number } | null {
  const cut = (by: Mm): Polygon[] =>
    slants.reduce((faces, { normal, reach }) => cutBehind(faces, { normal, reach: reach - by }), facesOf(box));
  if (volumeIn(cut(TOUCH)) <= TOUCH ** 3) return null;
  const faces = cut(0);
  const corners = faces.flat();
  const end = (pick: (...all: number[]) => number): Vec =>
    AXES.map((axis) => pick(...corners.map((p) => p[axis]))) as unknown as Vec;
  return { box: [end(Math.min), end(Math.max)], volume: volumeIn(faces) };
}
