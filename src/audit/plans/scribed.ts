/** What stays on a part beyond its printed size, to be planed to the wall: reckoned from where it stands in the room. */
import { AXES, axesOf, axisOf, boxToOuter, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";

const WALLS = [
  { wall: "left", axis: 0, end: 0 },
  { wall: "right", axis: 0, end: 1 },
  { wall: "back", axis: 1, end: 1 },
] as const;

/** Over both ends, and over both edges, of a worktop or a frame's stile: left where no other worktop or frame comes nearer to the wall. */
export function scribedOn(part: SetPart, { assemblies, worktops, job }: DryfitSet): { l: Mm; w: Mm } {
  const left = { l: 0, w: 0 };
  const own = assemblies.find(({ name }) => name === part.assembly);
  const isTop = worktops.some(({ mark }) => mark === part.mark);
  if (own === undefined || part.place === null || !(isTop || (own.kind === "frame" && part.role === "stile")))
    return left;
  const axes = axesOf(part.place as Place);
  const box = boxToOuter(part.place as Place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);
  for (const { wall, axis, end } of WALLS) {
    if (wall === "back" && !isTop) continue;
    const way = end === 1 ? 1 : -1;
    const nearest = assemblies
      .filter(({ kind }) => kind === own.kind)
      .map((one) => way * (one.place.at[axis] + (end === 1 ? one.size[axis] : 0)));
    if (way * (own.place.at[axis] + box[end][axis]) < Math.max(...nearest) - TOUCH) continue;
    const along = AXES.find((one) => axisOf(axes[one]!) === axis)!;
    if (along < 2) left[along === 0 ? "l" : "w"] += job.walls.scribe[wall];
  }
  return left;
}
