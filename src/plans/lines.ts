/** Lines drawn on a part's faces, where something is fixed that is no part: slides of drawers. */
import { type AxisIndex, toInner, type Vec } from "../base/geometry.ts";
import type { SlideLine } from "../model/drawers/drawer.ts";
import type { AssemblyModel, Part } from "../model/model.ts";
import type { SetLine } from "../set/schema.ts";
import { faceTowards, LOCAL, localIndex, placeOf } from "./local.ts";

/** Those of every assembly that ask for one on this part of `home`; in the part's own axes. */
export function linesOn(
  part: Part,
  home: AssemblyModel,
  assemblies: readonly AssemblyModel[],
  marks: ReadonlyMap<string, string>,
): SetLine[] {
  return assemblies.flatMap((one) => {
    const sides = one.parts.filter(({ role }) => role === "drawerSide");
    return (one.drawer?.lines ?? []).flatMap((line, i) =>
      line.part === part.key ? [localLine(part, home, one, line, marks.get(sides[i]!.key)!)] : [],
    );
  });
}

const UNDER = { "side-mounted": "middle of the slide", undermount: "underside of the box, which lies on the slide" };

function localLine(
  part: Part,
  home: AssemblyModel,
  { name, design }: AssemblyModel,
  line: SlideLine,
  side: string,
): SetLine {
  const place = placeOf(part);
  const [x, y, z] = home.at;
  const local = (axis: AxisIndex, room: Vec): number =>
    toInner(place, [room[0] - x, room[1] - y, room[2] - z])[localIndex(place, axis)];
  const along = (at: number): number => local(1, [0, at, 0]);
  const [from, to] = line.y.map(along).sort((a, b) => a - b) as [number, number];
  const kind = design.drawers?.slides.kind ?? "side-mounted";
  const what = kind === "wooden runners" ? "upper face of the runner" : UNDER[kind];
  return {
    // Slides run along the broad faces of what stands upright.
    face: faceTowards(place, line.face) as SetLine["face"],
    along: LOCAL[localIndex(place, 1)]!,
    at: local(2, [0, 0, line.z]),
    from,
    to,
    points: line.screws.map(along).sort((a, b) => a - b),
    holds: [side],
    what: `${what} of ${name}`,
  };
}
