/** How doors are made, as the file says it of doors on hinges and on a track alike. */
import type { Mm, Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import { STICK } from "../defaults.ts";
import type { DoorMake } from "../door-make.ts";
import { inputProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import type { DoorMakeFile as MakeFile } from "../schema/door-make.ts";
import type { Reading } from "./joinery.ts";

export function makeOf(doors: MakeFile, unit: Unit): DoorMake {
  if (doors.kind === "slab") return { kind: "slab", grain: doors.grain ?? "upright" };
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  // A width that is missing has been reported.
  const stile = mm(doors.stile ?? 1);
  const topRail = doors.topRail === undefined ? stile : mm(doors.topRail);
  const midRails = (doors.midRails ?? []).map(({ up, width }) => ({
    up: up === undefined ? null : mm(up),
    width: width === undefined ? topRail : mm(width),
  }));
  return {
    kind: "frame and panel",
    stile,
    topRail,
    bottomRail: doors.bottomRail === undefined ? stile : mm(doors.bottomRail),
    midRails: midRails.sort((a, b) => (a.up ?? 0) - (b.up ?? 0)),
    stick: doors.stickDepth === undefined ? STICK[unit] : mm(doors.stickDepth),
    clearance: doors.panel?.clearance === undefined ? null : mm(doors.panel.clearance),
    horns: doors.horns === undefined ? 0 : mm(doors.horns),
  };
}

/** A key that says nothing here: `to` is what it would have to belong to. */
export function strangeKey(key: string, has: unknown, to: string, path: string, { source, problems }: Reading): void {
  if (has === undefined) return;
  problems.push(
    inputProblem(
      source,
      `${path}.${key}`,
      `${quote(key.split(".").at(-1)!)} with ${to}`,
      "keys that say something here",
      "take it out",
    ),
  );
}

/** What belongs to the other kind of door, and what this one cannot do without. */
export function checkMakeKeys(doors: MakeFile, path: string, reading: Reading): void {
  const { source, problems } = reading;
  const missing = (key: string, has: unknown, remedy: string): void => {
    if (has !== undefined) return;
    problems.push(inputProblem(source, path, `doors of frame and panel without ${quote(key)}`, quote(key), remedy));
  };
  if (doors.kind === "slab") {
    for (const key of ["stile", "topRail", "bottomRail", "midRails", "stickDepth", "panel", "horns"] as const)
      strangeKey(key, doors[key], 'doors of kind "slab"', path, reading);
  } else {
    strangeKey("grain", doors.grain, 'doors of kind "frame and panel"', path, reading);
    missing("stile", doors.stile, 'give the width of the stiles, like "stile": 2.25');
    const placed = (doors.midRails ?? []).filter(({ up }) => up !== undefined).length;
    if (placed > 0 && placed < doors.midRails!.length)
      problems.push(
        inputProblem(
          source,
          `${path}.midRails`,
          `mid rails of which ${placed} of ${doors.midRails!.length} say how far up they are`,
          '"up" in each of them, or in none',
          'give the others "up" as well, or leave it out for panels of one height',
        ),
      );
    missing("panel", doors.panel, 'give what the panel is cut from, like "panel": { "stock": "quarter-ply" }');
  }
}
