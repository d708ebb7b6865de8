/** A part's own axes on paper: lying, its length runs to the right; standing, it runs up. */
import type { Box, SignedAxis } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import type { Rect } from "../paper/shape.ts";
import type { SetFeature, SetPart } from "../set/schema.ts";
import type { Picture } from "./picture.ts";
import type { Direction } from "./view.ts";

export type Lie = "lying" | "standing";
export type BroadFace = "t0" | "t1";

/** Each view of a part in its own axes, l as x, w as y and t as z. */
export const FACE_VIEWS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "+x", v: "+y", away: "-z" }, t0: { u: "+x", v: "-y", away: "+z" } },
  standing: { t1: { u: "-y", v: "+x", away: "-z" }, t0: { u: "+y", v: "+x", away: "+z" } },
};

export const featuresOn = (part: SetPart, face: BroadFace): SetFeature[] =>
  part.features.filter((feature) => feature.kind !== "notch" && feature.face === face);

/** The broad faces to draw: every one that carries a groove; the inside, or the upper one of two, where none does. */
export function facesToDraw(part: SetPart): BroadFace[] {
  const cut = (["t0", "t1"] as const).filter((face) => featuresOn(part, face).length > 0);
  if (cut.length > 0) return cut;
  return [part.inside === "t0" ? "t0" : "t1"];
}

export const flat = (axis: SignedAxis, at: Mm): number => (axis[0] === "+" ? at : -at);

/** Where a place along the length, or across the width, comes to lie on paper: an x or a y, as the part lies. */
export type OnPaper = { l: (at: Mm) => Mm; w: (at: Mm) => Mm; lie: Lie };

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
