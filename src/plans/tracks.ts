/** Tracks as the set lists them. */

import type { TrackModel } from "../model/doors/track-model.ts";
import type { Model } from "../model/model.ts";
import type { SetTrack } from "../set/schema.ts";
import { type Marks, markIn } from "./parts.ts";

export const planTracks = ({ assemblies }: Model, marks: Marks): SetTrack[] =>
  assemblies.flatMap(({ track }) => (track === null ? [] : [trackOf(track, marks)]));

function trackOf({ asked, ...track }: TrackModel, marks: Marks): SetTrack {
  const { bar, bolts, stops, hangers, guide, knob } = asked;
  const meets = (key: string | null): string | null => (key === null ? null : markIn(marks, key));
  return {
    case: track.case,
    on: track.on,
    at: [...track.at],
    length: track.length,
    needed: track.needed,
    tracks: asked.tracks,
    bar: { ...bar },
    bolts: {
      diameter: bolts.diameter,
      length: bar.standOff + bar.thickness + bolts.into,
      into: bolts.into,
      spacing: bolts.spacing,
      at: track.bolts.map(({ at, part }) => ({ at, mark: meets(part) })),
    },
    stops: { ...stops, at: [...track.stops] },
    hangers: { ...hangers, holes: [...hangers.holes] },
    guides: {
      ...guide,
      at: track.guides.map(({ track: on, at, part }) => ({ track: on, at, mark: meets(part) })),
    },
    knob: knob === null ? null : { diameter: knob.diameter, projection: knob.projection },
    passing: asked.layout.kind === "by-passing",
    overlap: asked.overlap,
    beyond: asked.beyond,
    above: asked.above,
    below: asked.below,
    reach: { ...asked.reach },
    between: asked.between,
    openings: track.openings.map(({ name, x, z, front }) => ({
      name,
      at: [x[0], front, z[0]],
      width: x[1] - x[0],
      height: z[1] - z[0],
    })),
    doors: track.doors.map(({ name, track: on, covers, closed, from, to, hangers: middles, knobs, horns }) => ({
      assembly: name,
      track: on,
      covers: covers === null ? [] : Array.from({ length: covers[1] - covers[0] + 1 }, (_, i) => covers[0] + i),
      closed,
      from,
      to,
      hangers: [...middles],
      knobs: knobs.map(([x, z]): [number, number] => [x, z]),
      horns,
    })),
    together: track.together.map(({ open, at }) => ({ open: [...open], at: [...at] })),
    clear: { ...track.clear },
  };
}
