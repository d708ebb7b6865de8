/** What a case of the file says of doors on a track, in millimetres, with what holds where it says nothing. */
import type { Mm, Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import { listInWords } from "../../base/words.ts";
import { KNOB } from "../defaults.ts";
import { readMass } from "../file/mass.ts";
import { inputProblem } from "../file/problems.ts";
import type { CaseFile } from "../schema/case.ts";
import type { TrackFile } from "../schema/track.ts";
import type { Track } from "../track.ts";
import {
  HANGER_HOLES,
  TRACK_BAR,
  TRACK_BETWEEN,
  TRACK_BOLTS,
  TRACK_GUIDE,
  TRACK_HANGERS,
  TRACK_OVERLAP,
  TRACK_STOPS,
} from "../track-defaults.ts";
import { checkMakeKeys, makeOf, strangeKey } from "./door-make.ts";
import type { Reading } from "./joinery.ts";

type Written = number | string | undefined;

export function trackOf({ track, frame }: CaseFile, path: string, reading: Reading): Track | null {
  if (track === undefined) return null;
  const { unit } = reading;
  const at = `${path}.track`;
  checkMakeKeys(track, at, reading);
  const read = (value: Written, usual: Mm): Mm => (value === undefined ? usual : lengthOf(value, unit));
  const isPassing = typeof track.doors === "number";
  checkCovers(track, at, reading);
  if (!isPassing) strangeKey("beyond", track.beyond, "doors that each cover their bays", at, reading);
  const tracks = track.tracks ?? (isPassing || usesSecond(track) ? 2 : 1);
  if (tracks === 1) strangeKey("bar.apart", track.bar?.apart, "one track", at, reading);
  const overlap = read(track.overlap, TRACK_OVERLAP[unit]);
  return {
    path: at,
    make: makeOf(track, unit),
    layout: layoutOf(track, at),
    tracks,
    overlap,
    beyond: read(track.beyond, 0),
    above: read(track.above, TRACK_OVERLAP[unit]),
    below: read(track.below, TRACK_OVERLAP[unit]),
    between: read(track.between, TRACK_BETWEEN[unit]),
    reach: { left: read(track.reach?.left, 0), right: read(track.reach?.right, 0) },
    on: track.on ?? (frame === undefined ? "top" : "frame"),
    length: track.length === undefined ? null : lengthOf(track.length, unit),
    ...hardwareOf(track, unit),
    knob: knobOf(track, unit),
  };
}

const usesSecond = ({ doors }: TrackFile): boolean =>
  typeof doors !== "number" && doors.some((door) => door.track === 2);

/** A door stands before bays that are beside each other. */
function checkCovers({ doors }: TrackFile, at: string, { source, problems }: Reading): void {
  if (typeof doors === "number") return;
  doors.forEach(({ covers }, i) => {
    const sorted = [...covers].sort((a, b) => a - b);
    if (sorted.every((bay, n) => n === 0 || bay === sorted[n - 1]! + 1)) return;
    problems.push(
      inputProblem(
        source,
        `${at}.doors[${i}].covers`,
        `a door before bays ${listInWords(covers.map(String))}`,
        "bays beside each other, each once",
        `write [${Array.from({ length: sorted.at(-1)! - sorted[0]! + 1 }, (_, n) => sorted[0]! + n).join(", ")}], or leave some out`,
      ),
    );
  });
}

const layoutOf = ({ doors }: TrackFile, at: string): Track["layout"] =>
  typeof doors === "number"
    ? { kind: "by-passing", count: doors }
    : {
        kind: "bays",
        doors: doors.map(({ covers, track }, i) => ({
          path: `${at}.doors[${i}]`,
          covers: [Math.min(...covers) - 1, Math.max(...covers) - 1],
          track: track ?? 1,
        })),
      };

function hardwareOf(track: TrackFile, unit: Unit): Pick<Track, "bar" | "bolts" | "hangers" | "stops" | "guide"> {
  const { bar, bolts, hangers, stops, guide } = track;
  const read = (value: Written, usual: Record<Unit, Mm>): Mm =>
    value === undefined ? usual[unit] : lengthOf(value, unit);
  return {
    bar: {
      height: read(bar?.height, TRACK_BAR.height),
      thickness: read(bar?.thickness, TRACK_BAR.thickness),
      standOff: read(bar?.standOff, TRACK_BAR.standOff),
      apart: read(bar?.apart, TRACK_BAR.apart),
    },
    bolts: {
      diameter: read(bolts?.diameter, TRACK_BOLTS.diameter),
      into: read(bolts?.into, TRACK_BOLTS.into),
      spacing: read(bolts?.spacing, TRACK_BOLTS.spacing),
      fromEnd: read(bolts?.fromEnd, TRACK_BOLTS.fromEnd),
    },
    hangers: {
      rating: readMass(hangers.rating)!,
      width: read(hangers.width, TRACK_HANGERS.width),
      fromEdge: read(hangers.fromEdge, TRACK_HANGERS.fromEdge),
      drop: read(hangers.drop, TRACK_HANGERS.drop),
      above: read(hangers.above, TRACK_HANGERS.above),
      projection: read(hangers.projection, TRACK_HANGERS.projection),
      lift: read(hangers.lift, TRACK_HANGERS.lift),
      hole: read(hangers.hole, TRACK_HANGERS.hole),
      holes: (hangers.holes?.map((one) => lengthOf(one, unit)) ?? [...HANGER_HOLES[unit]]).sort((a, b) => a - b),
    },
    stops: {
      fromEnd: read(stops?.fromEnd, TRACK_STOPS.fromEnd),
      bumper: read(stops?.bumper, TRACK_STOPS.bumper),
    },
    guide: {
      height: read(guide?.height, TRACK_GUIDE.height),
      width: read(guide?.width, TRACK_GUIDE.width),
      cheek: read(guide?.cheek, TRACK_GUIDE.cheek),
      reach: read(guide?.reach, TRACK_GUIDE.reach),
    },
  };
}

function knobOf({ knob }: TrackFile, unit: Unit): Track["knob"] {
  if (knob === undefined) return null;
  const read = (value: Written, usual: Mm): Mm => (value === undefined ? usual : lengthOf(value, unit));
  const side = knob.side ?? "left";
  return {
    height: lengthOf(knob.height, unit),
    sides: side === "both" ? ["left", "right"] : [side],
    fromEdge: read(knob.fromEdge, KNOB[unit].fromEdge),
    projection: read(knob.projection, KNOB[unit].projection),
    diameter: read(knob.diameter, KNOB[unit].diameter),
  };
}
