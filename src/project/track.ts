/** Doors that hang from a flat track before a case: millimetres, every default filled in. */
import type { Mm } from "../base/length.ts";
import type { DoorMake } from "./door-make.ts";

/** What the track is bolted to. */
export type TrackBacking = "frame" | "top" | "worktop";

export type Track = {
  path: string; // "cases[0].track"
  make: DoorMake;
  /** Each before its own bays; or so many, each before the next by turns, that together close the whole front. */
  layout: { kind: "bays"; doors: TrackDoor[] } | { kind: "by-passing"; count: number };
  tracks: 1 | 2; // 1 next to the case, 2 before it
  overlap: Mm; // over each side of the bays that a door covers; by-passing: of one door over the next
  beyond: Mm; // by-passing: over the outer edges of the front
  above: Mm; // over the openings' upper edge
  below: Mm;
  between: Mm; // two doors on one track, at least
  reach: { left: Mm; right: Mm }; // of the doors' way, beyond the outermost bays
  on: TrackBacking;
  length: Mm | null; // as it is bought; null: as the doors' way needs
  bar: { height: Mm; thickness: Mm; standOff: Mm; apart: Mm };
  bolts: { diameter: Mm; into: Mm; spacing: Mm; fromEnd: Mm };
  hangers: Hangers;
  stops: { fromEnd: Mm; bumper: Mm };
  guide: { height: Mm; width: Mm; cheek: Mm; reach: Mm };
  knob: { height: Mm; sides: ("left" | "right")[]; fromEdge: Mm; projection: Mm; diameter: Mm } | null;
};

/** `covers`: the first and the last of its bays, from 0 at the left. */
export type TrackDoor = { path: string; covers: [number, number]; track: 1 | 2 };

/** Two straps with a wheel each, on every door. */
export type Hangers = {
  rating: number; // kg that one carries
  width: Mm;
  fromEdge: Mm; // the door's edge to the near edge of the strap
  drop: Mm; // the door's upper edge up to the track's lower edge
  above: Mm; // the track's upper edge up to the hanger's top
  projection: Mm; // before the door's face
  lift: Mm; // to go over the track
  hole: Mm; // diameter
  holes: Mm[]; // the door's upper edge to the middles
};
