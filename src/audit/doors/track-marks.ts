/** A track's bolts as they are marked on the parts that they enter: each where the track has it, and none beside. */
import type { Vec } from "../../base/geometry.ts";
import type { DryfitSet, SetCheck, SetTrack } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { drawnLine } from "../solids/drawn-line.ts";
import type { Solid } from "../solids/solid.ts";
import { amount, failureOf, nameOf } from "../words.ts";

export function checkBoltMarks(
  { job, assemblies, tracks }: DryfitSet,
  track: SetTrack,
  solids: readonly Solid[],
): SetCheck[] {
  const marked = solids.flatMap((solid) =>
    solid.part.lines.flatMap((line) =>
      line.bolt === null
        ? []
        : line.points.map((point) => ({
            part: solid.part,
            bolt: line.bolt!,
            at: drawnLine(solid, line, [point, point], assemblies)[0],
          })),
    ),
  );
  const roomOf = (one: SetTrack, along: number): Vec => [one.at[0] + along, one.at[1], one.at[2]];
  const isAt = (a: Vec, b: Vec): boolean => a.every((place, i) => Math.abs(place - b[i]!) <= TOUCH);
  const { bolts } = track;
  const missing = bolts.at.flatMap(({ at, mark }, i): SetCheck[] => {
    const owner = solids.find(({ part }) => part.mark === mark)?.part;
    if (owner === undefined) return []; // in no wood: told as that
    const found = marked.find((one) => one.part === owner && isAt(one.at, roomOf(track, at)));
    if (
      found !== undefined &&
      Math.abs(found.bolt.diameter - bolts.diameter) <= TOUCH &&
      Math.abs(found.bolt.into - bolts.into) <= TOUCH
    )
      return [];
    return [
      failureOf(
        "track-bolt",
        [owner.mark],
        `Bolt ${i + 1} of the track in front of ${track.case}, ${amount(at, job)} from its left end, is ${found === undefined ? "not marked there" : "marked as another bolt"} on ${nameOf(owner)}. Change: the line on the part.`,
      ),
    ];
  });
  // One set of marks for all tracks: what belongs to none is told once, with the first.
  if (track !== tracks[0]) return missing;
  const stray = marked.filter(
    ({ at }) => !tracks.some((one) => one.bolts.at.some((bolt) => isAt(at, roomOf(one, bolt.at)))),
  );
  return [
    ...missing,
    ...stray.map(({ part }) =>
      failureOf(
        "track-bolt",
        [part.mark],
        `${nameOf(part)} has a bolt of a track marked where no track has one. Change: the line on the part.`,
      ),
    ),
  ];
}
