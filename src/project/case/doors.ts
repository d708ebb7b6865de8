/** The doors of a case as the file describes them: how they are made, how they stand in or over their openings, what they hang on. */
import type { Mm, Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import { BETWEEN, DOOR_GAP, DOOR_OVERLAY, HINGES, KNOB, OPENS } from "../defaults.ts";
import type { Doors, Hinges, Knob } from "../doors.ts";
import { inputProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import type { DoorRole, Role } from "../role.ts";
import type { CaseFile } from "../schema/case.ts";
import { checkMakeKeys, makeOf, strangeKey } from "./door-make.ts";
import type { Reading } from "./joinery.ts";

export type DoorsFile = NonNullable<CaseFile["doors"]>;

const ROLES_OF_DOORS: readonly Role[] = ["doorStile", "doorRail", "doorPanel", "slab"] satisfies DoorRole[];
export const isDoorRole = (role: Role): role is DoorRole => ROLES_OF_DOORS.includes(role);

/** Those that hang on hinges: null where the case has none, or its doors slide. */
export function doorsOf({ doors }: CaseFile, path: string, reading: Reading): Doors | null {
  if (doors === undefined) return null;
  checkKeys(doors, `${path}.doors`, reading);
  // Without hinges it has been reported.
  if (doors.fit === "sliding" || doors.hinges === undefined) return null;
  const { unit } = reading;
  const read = (value: number | string | undefined, usual: Mm): Mm =>
    value === undefined ? usual : lengthOf(value, unit);
  const isInset = doors.fit === "inset";
  const gap = read(doors.gap, DOOR_GAP[unit]);
  return {
    make: makeOf(doors, unit),
    fit: isInset ? { kind: "inset", gap } : { kind: "overlay", overlap: read(doors.overlap, DOOR_OVERLAY[unit]) },
    between: read(doors.between, isInset ? gap : BETWEEN[unit]),
    hinges: hingesOf(doors.hinges, isInset, gap, unit),
    knob: knobOf(doors, unit),
  };
}

/**
 * A butt hinge's pin stands before the face, in the middle of an inset door's gap, or beside an overlay door in the plane that it closes on.
 * A cup hinge has no pin: it carries the door out as it turns, so that this stays within its own outline, as if it turned about its own front corner.
 */
function hingesOf(hinges: NonNullable<DoorsFile["hinges"]>, isInset: boolean, gap: Mm, unit: Unit): Hinges {
  const usual = HINGES[unit];
  const read = (value: number | string | undefined, other: Mm): Mm =>
    value === undefined ? other : lengthOf(value, unit);
  const { kind } = hinges;
  const pin = { beyond: isInset ? gap / 2 : usual.knuckle / 2, before: isInset ? usual.knuckle / 2 : null };
  return {
    kind,
    height: kind === "butt" ? read(hinges.height, usual.butt) : read(hinges.cup, usual.cup),
    fromEnds: read(hinges.fromEnds, usual.fromEnds),
    count: hinges.count ?? null,
    opens: hinges.opens ?? OPENS[kind],
    axis:
      hinges.axis !== undefined
        ? { beyond: lengthOf(hinges.axis.beyond, unit), before: lengthOf(hinges.axis.before, unit) }
        : kind === "cup"
          ? { beyond: 0, before: 0 }
          : pin,
    cup:
      kind === "cup"
        ? {
            fromEdge: read(hinges.cupFromEdge, usual.cupFromEdge),
            depth: read(hinges.cupDepth, usual.cupDepth),
          }
        : null,
  };
}

export function knobOf({ knob }: DoorsFile, unit: Unit): Knob | null {
  if (knob === undefined) return null;
  const read = (value: number | string | undefined, usual: Mm): Mm =>
    value === undefined ? usual : lengthOf(value, unit);
  return {
    height: lengthOf(knob.height, unit),
    fromEdge: read(knob.fromEdge, KNOB[unit].fromEdge),
    projection: read(knob.projection, KNOB[unit].projection),
    diameter: read(knob.diameter, KNOB[unit].diameter),
  };
}

/** What belongs to the other fit or hinge. */
function checkKeys(doors: DoorsFile, path: string, reading: Reading): void {
  const strange = (key: string, has: unknown, to: string): void => strangeKey(key, has, to, path, reading);
  checkMakeKeys(doors, path, reading);
  const fit = `"fit": ${quote(doors.fit)}`;
  if (doors.fit === "sliding") {
    for (const key of ["gap", "between", "hinges"] as const) strange(key, doors[key], fit);
    return;
  }
  for (const key of ["count", "grooves", "pull"] as const) strange(key, doors[key], fit);
  if (doors.fit === "inset") strange("overlap", doors.overlap, fit);
  else strange("gap", doors.gap, fit);
  const { hinges } = doors;
  if (hinges === undefined) {
    const { source, problems } = reading;
    const remedy = 'say what they hang on, like "hinges": { "kind": "butt" }';
    problems.push(inputProblem(source, path, `doors with ${fit} and without "hinges"`, '"hinges"', remedy));
    return;
  }
  if (hinges.kind === "butt") {
    for (const key of ["cup", "cupFromEdge", "cupDepth"] as const) strange(`hinges.${key}`, hinges[key], "butt hinges");
  } else strange("hinges.height", hinges.height, "cup hinges");
}
