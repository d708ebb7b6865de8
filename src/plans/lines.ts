/** Lines drawn on a part's faces, where something is fixed that is no part: slides of drawers, the bar of a track. */
import { type AxisIndex, toInner, type Vec } from "../base/geometry.ts";
import type { TrackModel } from "../model/doors/track-model.ts";
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
    const slides = (one.drawer?.lines ?? []).flatMap((line, i) =>
      line.part === part.key ? [localLine(part, home, one, line, marks.get(sides[i]!.key)!)] : [],
    );
    return [...slides, ...(one.track === null ? [] : boltLine(part, home, one.track))];
  });
}

/** From room to a part's own axes. */
function inPart(part: Part, { at }: AssemblyModel, room: Vec): Vec {
  return toInner(placeOf(part), [room[0] - at[0], room[1] - at[1], room[2] - at[2]]);
}

/** The bolts that enter this part in its front, at the middle of the bar's height; from the first to the last. */
function boltLine(part: Part, home: AssemblyModel, { case: name, at, bolts, asked }: TrackModel): SetLine[] {
  const own = bolts.filter((bolt) => bolt.part === part.key);
  if (own.length === 0) return [];
  const place = placeOf(part);
  const run = localIndex(place, 0);
  const points = own.map((bolt) => inPart(part, home, [at[0] + bolt.at, at[1], at[2]])[run]).sort((a, b) => a - b);
  return [
    {
      face: faceTowards(place, "-y"),
      along: LOCAL[run]!,
      at: inPart(part, home, at)[localIndex(place, 2)],
      from: points[0]!,
      to: points.at(-1)!,
      points,
      bolt: { diameter: asked.bolts.diameter, into: asked.bolts.into },
      holds: [],
      what: `the track in front of ${name}`,
    },
  ];
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
  const local = (axis: AxisIndex, room: Vec): number => inPart(part, home, room)[localIndex(place, axis)];
  const along = (at: number): number => local(1, [0, at, 0]);
  const [from, to] = line.y.map(along).sort((a, b) => a - b) as [number, number];
  const kind = design.drawers?.slides.kind ?? "side-mounted";
  const what = kind === "wooden runners" ? "upper face of the runner" : UNDER[kind];
  return {
    // Slides run along the broad faces of what stands upright.
    face: faceTowards(place, line.face),
    along: LOCAL[localIndex(place, 1)]!,
    at: local(2, [0, 0, line.z]),
    from,
    to,
    points: line.screws.map(along).sort((a, b) => a - b),
    bolt: null,
    holds: [side],
    what: `${what} of ${name}`,
  };
}
