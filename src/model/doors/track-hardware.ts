/** What is bought for doors on a track, and the holes that the hangers' bolts go through. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Track } from "../../project/track.ts";
import type { Grid } from "../grid.ts";
import type { Bore, Hardware, Part } from "../model.ts";
import type { TrackModel } from "./track-model.ts";

const SIDES = ["left", "right"] as const;
type Side = (typeof SIDES)[number];

/** The stile at one side; a slab is at both. */
const memberAt = (parts: readonly Part[], side: Side): Part =>
  parts.find(({ role, key }) => role === "slab" || key.endsWith(`/stile-${side}`))!;

/** Middles of the two straps from a door's left edge. */
export const hangerMiddles = ({ hangers }: Pick<Track, "hangers">, width: Mm, grid: Grid): Record<Side, Mm> => {
  const at = grid.place(hangers.fromEdge + hangers.width / 2);
  return { left: at, right: width - at };
};

/** Right through, from the front face, under each other in the middle of each strap. */
export function hangersOn(parts: readonly Part[], [width, thickness, height]: Vec, track: Track, grid: Grid): Part[] {
  const { hangers } = track;
  const middles = hangerMiddles(track, width, grid);
  const boreAt = (side: Side): Bore => ({
    row: `${side} hanger holes`,
    face: "-y",
    diameter: hangers.hole,
    depth: thickness,
    middles: hangers.holes.map((down) => [middles[side], height - grid.place(down)]),
    reason: "for a hanger's bolt",
  });
  return parts.map((part) => {
    const own = SIDES.filter((side) => memberAt(parts, side) === part).map(boreAt);
    return own.length === 0 ? part : { ...part, bores: [...part.bores, ...own] };
  });
}

/** A door's own, and with the first of them that of the whole track. */
export function hardwareOf(track: TrackModel, i: number, parts: readonly Part[]): Hardware[] {
  const { asked, doors } = track;
  const { hangers, knob } = asked;
  const { name } = doors[i]!;
  const carriers = [...new Set(SIDES.map((side) => memberAt(parts, side).key))];
  return [
    ...(i === 0 ? trackItself(track) : []),
    {
      kind: "hangers",
      what: "track hangers with their through bolts",
      sizes: [hangers.width, hangers.hole],
      count: 2,
      unit: "hangers",
      parts: carriers,
      where: "for",
      of: name,
    },
    ...(knob === null
      ? []
      : [
          {
            kind: "knob" as const,
            what: "knob",
            sizes: [knob.diameter],
            count: knob.sides.length,
            unit: "knobs",
            parts: knob.sides.map((side) => memberAt(parts, side).key),
            where: "on",
            of: name,
          },
        ]),
  ];
}

function trackItself({ asked, length, bolts, guides, case: home, on }: TrackModel): Hardware[] {
  const { bar, tracks, stops, guide } = asked;
  const into = (all: readonly { part: string | null }[]): string[] => [
    ...new Set(all.flatMap(({ part }) => part ?? [])),
  ];
  const backing = into(bolts);
  return [
    {
      kind: "track",
      what: "flat track",
      sizes: [length, bar.height, bar.thickness],
      count: tracks,
      unit: tracks === 1 ? "track" : "tracks",
      parts: backing,
      where: "drilled as its drawing says, in front of",
      of: home,
      on,
    },
    {
      kind: "track bolts",
      what: tracks === 1 ? "track bolts with spacers" : "track bolts with brackets for two tracks",
      sizes: [bar.standOff + bar.thickness + asked.bolts.into, asked.bolts.diameter],
      count: bolts.length,
      unit: "bolts",
      parts: backing,
      where: "hold the track in front of",
      of: home,
      on,
    },
    {
      kind: "track stops",
      what: "track stops with bumpers",
      sizes: [stops.bumper],
      count: 2 * tracks,
      unit: "stops",
      parts: [],
      where: "at the ends of the track in front of",
      of: home,
      on,
    },
    {
      kind: "door guides",
      what: "door guides",
      sizes: [guide.width, guide.height],
      count: guides.length,
      unit: "guides",
      parts: into(guides),
      where: "below the doors of",
      of: home,
      on,
    },
  ];
}
