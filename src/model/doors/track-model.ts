/** What the model knows of a track and of the doors on it, beside their parts. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Track } from "../../project/track.ts";

/** Left edges along the track's line; `from` and `to` with the others on its track pushed out of the way. */
export type Sliding = { track: 1 | 2; covers: [number, number] | null; width: Mm; closed: Mm; from: Mm; to: Mm };

/** Bays that can be clear at once, and the left edge of each door then. */
export type Together = { open: number[]; at: Mm[] };

/** Lengths along the track are from its left end; it lies before the face that it is bolted to, as high as its own middle. */
export type TrackModel = {
  case: string;
  on: string; // the assembly that it is bolted to
  asked: Track;
  at: Vec; // in the room: the left end, the face, the middle of its height
  length: Mm;
  needed: Mm; // by the way of its doors
  bolts: { at: Mm; part: string | null }[]; // key of what its middle is in; null: nothing
  stops: [Mm, Mm]; // middles
  guides: { track: 1 | 2; at: Mm; part: string | null }[];
  under: Mm; // the doors' lower edge, in the room
  openings: { name: string; x: [Mm, Mm]; z: [Mm, Mm]; front: Mm }[]; // in the room
  doors: TrackDoorModel[];
  together: Together[];
  clear: { left: Mm; right: Mm }; // widest way at that end, with all doors pushed to the other
};

/** `hangers`: middles of the straps from its left edge; `knobs`: x and z in the assembly. */
export type TrackDoorModel = Sliding & { name: string; hangers: [Mm, Mm]; knobs: [Mm, Mm][]; horns: Mm };
