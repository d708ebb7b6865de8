/** Which edges are left wide, to be scribed to a wall: those of a frame's outer stile, or of a worktop, that come nearest to it. */
import { axesOf, axisOf, boxToOuter, type Place, signOf } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { LOCAL_AXES } from "./facing.ts";
import type { DryfitSet, Face, SetPart } from "./schema.ts";

export type Scribed = Pick<DryfitSet, "assemblies" | "worktops"> & { job: Pick<DryfitSet["job"], "walls"> };

/** Wood beyond the printed size at an edge; no fit reckons with it, for it is planed away where the wall stands nearest. */
export type Scribe = { edge: Face; allowance: Mm; wall: "left" | "right" | "back" };

const WALLS = {
  left: { axis: 0, sign: -1 },
  right: { axis: 0, sign: 1 },
  back: { axis: 1, sign: 1 },
} as const;

/** What stays on, at the ends or at the edges. */
export const scribedAlong = (axis: "l" | "w", set: Scribed, part: SetPart): Mm =>
  scribesOf(set, part)
    .filter(({ edge }) => edge.startsWith(axis))
    .reduce((sum, { allowance }) => sum + allowance, 0);

export function scribesOf(set: Scribed, part: SetPart): Scribe[] {
  const { scribe } = set.job.walls;
  const own = set.assemblies.find(({ name }) => name === part.assembly);
  const place = part.place;
  if (own === undefined || place === null) return [];
  const isTop = set.worktops.some(({ mark }) => mark === part.mark);
  const isStile = own.kind === "frame" && part.role === "stile";
  if (!isTop && !isStile) return [];
  return (["left", "right", "back"] as const).flatMap((wall): Scribe[] => {
    const { axis, sign } = WALLS[wall];
    const allowance = scribe[wall];
    if (allowance < SAME || (wall === "back" && !isTop)) return [];
    const reach = set.assemblies
      .filter(({ kind }) => kind === own.kind)
      .map((one) => sign * (one.place.at[axis] + (sign > 0 ? one.size[axis] : 0)));
    const box = boxToOuter(place as Place, [
      [0, 0, 0],
      [part.length, part.width, part.thickness],
    ]);
    const far = sign * (own.place.at[axis] + box[sign > 0 ? 1 : 0][axis]);
    if (far < Math.max(...reach) - SAME) return [];
    const axes = axesOf(place as Place);
    const local = axes.findIndex((one) => axisOf(one) === axis);
    const edge = `${LOCAL_AXES[local]!}${signOf(axes[local]!) === sign ? "1" : "0"}` as Face;
    return [{ edge, allowance, wall }];
  });
}
