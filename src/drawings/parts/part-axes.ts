/** A part's own axes on paper: lying, its length runs to the right; standing, it runs up. */
import type { Box, SignedAxis } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import { fasteningsOf } from "../../set/fastening.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../set/schema.ts";
import type { Picture } from "../draughting/picture.ts";
import type { Direction } from "../solids/view.ts";

export type Lie = "lying" | "standing";
export type BroadFace = "t0" | "t1";

/** Each view of a part in its own axes, l as x, w as y and t as z. */
export const FACE_VIEWS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "+x", v: "+y", away: "-z" }, t0: { u: "+x", v: "-y", away: "+z" } },
  standing: { t1: { u: "-y", v: "+x", away: "-z" }, t0: { u: "+y", v: "+x", away: "+z" } },
};

const NO_CHANNELS: readonly SetFeature["kind"][] = [
  "notch",
  "socket",
  "hole",
  "mortise",
  "stub mortise",
  "slot",
  "shape",
  "edge",
  "mitre",
];
/** What a cutter runs along: neither sawn out at a corner or an edge, nor drilled or mortised. */
export const isChannel = ({ kind }: SetFeature): boolean => !NO_CHANNELS.includes(kind);

export const featuresOn = (part: SetPart, face: BroadFace): SetFeature[] =>
  part.features.filter((feature) => isChannel(feature) && feature.face === face);

export const holesOn = (part: SetPart, face: BroadFace): SetFeature[] =>
  part.features.filter((feature) => feature.kind === "hole" && feature.face === face);

/** Slots go right through: they are seen in either face. */
export const slotsOf = (part: SetPart): SetFeature[] => part.features.filter(({ kind }) => kind === "slot");

/** Holes drilled, and mortises cut, into an end or an edge: seen in a face only as hidden lines. */
export const endHoles = (part: SetPart): SetFeature[] =>
  part.features.filter(({ kind, face }) => ["hole", "mortise", "stub mortise"].includes(kind) && face[0] !== "t");

/** The broad faces to draw: every one that carries a groove or holes, or is `used` otherwise; the inside, or the upper one of two, where none does. */
export function facesToDraw(part: SetPart, used: readonly BroadFace[] = []): BroadFace[] {
  const cut = (["t0", "t1"] as const).filter(
    (face) => used.includes(face) || featuresOn(part, face).length + holesOn(part, face).length > 0,
  );
  if (cut.length > 0) return cut;
  return [part.inside === "t0" ? "t0" : "t1"];
}

/** The broad faces to draw: those with grooves or holes, and those to which something is fastened. */
export const facesOf = (set: DryfitSet, part: SetPart): BroadFace[] =>
  facesToDraw(
    part,
    [...fasteningsOf(set, part), ...part.lines].flatMap(({ face }) => (face === "t0" || face === "t1" ? [face] : [])),
  );

export const flat = (axis: SignedAxis, at: Mm): number => (axis[0] === "+" ? at : -at);

/** Where a place along the length, or across the width, comes to lie on paper: an x or a y, as the part lies. */
export type OnPaper = { l: (at: Mm) => Mm; w: (at: Mm) => Mm; lie: Lie };

/** In the part's own measure: a place on paper is the place on the part. */
export const OWN: OnPaper = { lie: "lying", l: (at) => at, w: (at) => at };

export function axesOnPaper(picture: Picture, direction: Direction): OnPaper {
  const isLying = direction.u === "+x";
  return isLying
    ? { lie: "lying", l: (at) => picture.x(at), w: (at) => picture.y(flat(direction.v, at)) }
    : { lie: "standing", l: (at) => picture.y(at), w: (at) => picture.x(flat(direction.u, at)) };
}

export function rectOnPaper(box: Box, paper: OnPaper): Rect {
  const l = [paper.l(box[0][0]), paper.l(box[1][0])] as const;
  const w = [paper.w(box[0][1]), paper.w(box[1][1])] as const;
  const [xs, ys] = paper.lie === "lying" ? [l, w] : [w, l];
  return {
    x: Math.min(...xs),
    y: Math.min(...ys),
    width: Math.abs(xs[1] - xs[0]),
    height: Math.abs(ys[1] - ys[0]),
  };
}
