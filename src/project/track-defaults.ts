/** What holds of a track and its hangers where the job says nothing; every figure gives way to the hardware as it is measured. */
import type { Mm, Unit } from "../base/length.ts";
import { inches } from "./defaults.ts";

type ByUnit = Record<Unit, Mm>;
const both = (inch: number, mm: Mm): ByUnit => ({ in: inches(inch), mm });

/** Furniture 3/4 to 1 in, doors of rooms 1 1/2 to 2 in (trade magazines). */
export const TRACK_OVERLAP = both(3 / 4, 20);
/** Two doors on one track knock at each other's edges otherwise (common practice, no source). */
export const TRACK_BETWEEN = both(1 / 8, 3);

/** A light flat bar, on spacers as long as a door of 3/4 in needs behind it (common practice, no source). */
export const TRACK_BAR = {
  height: both(3 / 2, 40),
  thickness: both(1 / 4, 6),
  standOff: both(1, 25),
  apart: both(5 / 2, 65),
};

/** Common practice, no source. */
export const TRACK_BOLTS = {
  diameter: both(5 / 16, 8),
  into: both(5 / 8, 16),
  spacing: both(16, 400),
  fromEnd: both(3, 75),
};

/** A light strap hanger, its wheel on the bar's upper edge (common practice, no source). */
export const TRACK_HANGERS = {
  width: both(5 / 4, 32),
  fromEdge: both(1 / 2, 12),
  drop: both(3 / 8, 10),
  above: both(7 / 4, 45),
  projection: both(3 / 8, 10),
  lift: both(3 / 8, 10),
  hole: both(1 / 4, 6),
};
export const HANGER_HOLES: Record<Unit, Mm[]> = { in: [inches(1), inches(5 / 2)], mm: [25, 65] };

/** Bumper of 5/8 in (door hardware makers' planning sheets: half of 5/8 and of 1 1/4 in stand in the worked examples). */
export const TRACK_STOPS = { fromEnd: both(1, 25), bumper: both(5 / 8, 16) };

/** Common practice, no source. */
export const TRACK_GUIDE = {
  height: both(1, 25),
  width: both(3 / 2, 40),
  cheek: both(1 / 8, 3),
  reach: both(1 / 2, 12),
};

/** Between a door's back and what it passes, and under it: a door sways (common practice, no source; trade magazines: about 1/2 in below a room's door). */
export const TRACK_CLEAR: Mm = 2;
export const TRACK_BELOW: Mm = inches(1 / 4);
/** The middle of a lag screw stands one and a half diameters in from an edge (National Design Specification for Wood Construction 2018, table 12.5.1C; from memory). */
export const BOLT_EDGE = 1.5;
