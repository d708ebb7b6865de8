/** Sections of a part beside its face: along the length where grooves run across it, across it where they run along. */
import type { Mm } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { SetPart } from "../../set/schema.ts";
import type { Side } from "../draughting/dimension.ts";
import { drawView } from "../draughting/picture.ts";
import { freeStretches } from "../draughting/stretch.ts";
import { solidOf } from "../solids/solid.ts";
import { type Direction, type View, viewOf } from "../solids/view.ts";
import { type BroadFace, flat, isChannel, type Lie } from "./part-axes.ts";

const STRIP_AIR: Mm = 2;

/** The section beside the face whose upper (or left) line is the face looked at, as third angle has it. */
const LENGTH_SECTIONS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "+x", v: "+z", away: "+y" }, t0: { u: "+x", v: "-z", away: "-y" } },
  standing: { t1: { u: "-z", v: "+x", away: "+y" }, t0: { u: "+z", v: "+x", away: "-y" } },
};
const ACROSS_SECTIONS: Record<Lie, Record<BroadFace, Direction>> = {
  lying: { t1: { u: "-z", v: "+y", away: "-x" }, t0: { u: "+z", v: "-y", away: "-x" } },
  standing: { t1: { u: "-y", v: "+z", away: "+x" }, t0: { u: "+y", v: "-z", away: "+x" } },
};

export type Section = { view: View; isBelow: boolean };

export function sectionsOf(part: SetPart, face: BroadFace, lie: Lie): Section[] {
  const solids = [{ mark: part.mark, boxes: solidOf(part) }];
  const section = (directions: Record<Lie, Record<BroadFace, Direction>>, cutAt: Mm, isBelow: boolean): Section => {
    const direction = directions[lie][face];
    return { view: viewOf(solids, direction, flat(direction.away, cutAt)), isBelow };
  };
  const cut = part.features.filter(isChannel);
  return [
    ...(cut.some((f) => f.along === "w") ? [section(LENGTH_SECTIONS, clearOf(part, "l"), lie === "lying")] : []),
    ...(cut.some((f) => f.along === "l") ? [section(ACROSS_SECTIONS, clearOf(part, "w"), lie === "standing")] : []),
  ];
}

/** The sections outside the dimensions of their side. */
export function drawStrips(
  sections: readonly Section[],
  ratio: number,
  box: Rect,
  depthOn: (side: Side) => Mm,
): { shapes: Shape[]; boxes: Rect[] } {
  const strips = sections.map(({ view, isBelow }) => {
    const strip = drawView(view, ratio);
    const at: Point = isBelow
      ? [0, box.y + box.height + depthOn("below") + STRIP_AIR + strip.box.height]
      : [box.width + depthOn("right") + STRIP_AIR, 0];
    return {
      shape: group(strip.shapes, { move: at }),
      box: { x: at[0], y: at[1] - strip.box.height, width: strip.box.width, height: strip.box.height },
    };
  });
  return { shapes: strips.map((strip) => strip.shape), boxes: strips.map((strip) => strip.box) };
}

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
