/** What a case of the file says of single parts, in millimetres: bottom, top, back, kick, plinth, feet, lippings, pins. */
import type { Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Case, Lipping, Pins } from "../case.ts";
import { BACK_FIT, BACK_GRAIN, BACK_SET_IN, DEEPEST_HOLE, FOOT, KICK_SET_BACK, PINS, STRETCHER } from "../defaults.ts";
import { readMass } from "../file/mass.ts";
import { inputProblem } from "../file/problems.ts";
import { choice, quote } from "../file/words.ts";
import type { CaseFile } from "../schema/case.ts";
import type { Stock } from "../stock.ts";
import type { Reading } from "./joinery.ts";

/** A key that this fit has no use for. */
export function only(
  value: unknown,
  path: string,
  what: string,
  fits: readonly string[],
  { source, problems }: Reading,
): boolean {
  if (value === undefined) return true;
  const key = path.slice(path.lastIndexOf(".") + 1);
  problems.push(
    inputProblem(source, path, `${quote(key)} for ${what}`, `${quote(key)} only with ${choice(fits)}`, "take it out"),
  );
  return false;
}

export function bottomOf(file: CaseFile, path: string, reading: Reading): Case["bottom"] {
  const fit = file.bottom?.fit ?? "between";
  const up = file.bottom?.up;
  if (fit === "under") only(up, `${path}.bottom.up`, 'a bottom that is "under"', ["between"], reading);
  return { fit, up: fit === "under" || up === undefined ? 0 : lengthOf(up, reading.unit) };
}

/** `filler`: measured thickness of the filler strips' stock; with strips it is how far the top panel is down. */
export function topOf(file: CaseFile, path: string, filler: Mm, reading: Reading): Case["top"] {
  const { unit, source, problems } = reading;
  const fit = file.top?.fit ?? "between";
  const { down, width, fillers } = file.top ?? {};
  if (fit !== "stretchers") only(width, `${path}.top.width`, `a top that is ${quote(fit)}`, ["stretchers"], reading);
  if (fit !== "between") {
    only(down, `${path}.top.down`, `a top that is ${quote(fit)}`, ["between"], reading);
    only(fillers, `${path}.top.fillers`, `a top that is ${quote(fit)}`, ["between"], reading);
    const stretcher = fit === "over" ? 0 : width === undefined ? STRETCHER[unit] : lengthOf(width, unit);
    return { fit, down: 0, stretcher, fillers: null };
  }
  if (fillers !== undefined) {
    if (down !== undefined) {
      problems.push(
        inputProblem(
          source,
          `${path}.top.down`,
          '"down" and "fillers" together',
          "one of the two: with filler strips the top panel is as far down as they are thick",
          'take "down" out: how thick the strips are is said by the stock of "filler"',
        ),
      );
    }
    return { fit: "lowered", down: filler, stretcher: 0, fillers: lengthOf(fillers, unit) };
  }
  const lowered = down === undefined ? 0 : lengthOf(down, unit);
  return { fit: lowered > 0 ? "lowered" : "flush", down: lowered, stretcher: 0, fillers: null };
}

export function backOf(file: CaseFile, path: string, reading: Reading): Case["back"] {
  const fit = file.back?.fit ?? BACK_FIT;
  const { setIn, houses, sections, grain } = file.back ?? {};
  const what = `a back that is ${quote(fit)}`;
  if (fit === "none") {
    only(setIn, `${path}.back.setIn`, what, ["captured"], reading);
    only(houses, `${path}.back.houses`, what, ["captured", "rabbeted", "applied"], reading);
    only(sections, `${path}.back.sections`, what, ["captured", "rabbeted", "applied"], reading);
    return { fit };
  }
  const more = { grain: grain ?? BACK_GRAIN, houses: houses ?? false, sections: sections ?? false };
  if (fit === "captured") {
    const { unit } = reading;
    return { fit, setIn: setIn === undefined ? BACK_SET_IN[unit] : lengthOf(setIn, unit), ...more };
  }
  only(setIn, `${path}.back.setIn`, what, ["captured"], reading);
  return { fit, ...more };
}

export function kickOf({ kick }: CaseFile, { unit }: Reading): Case["kick"] {
  if (kick === undefined) return null;
  const setBack = kick.setBack === undefined ? KICK_SET_BACK[unit] : lengthOf(kick.setBack, unit);
  return { fit: kick.fit ?? "between", setBack };
}

export function plinthOf(
  { plinth, kick }: CaseFile,
  path: string,
  { source, unit, problems }: Reading,
): Case["plinth"] {
  if (plinth === undefined) return null;
  if (kick !== undefined) {
    problems.push(
      inputProblem(
        source,
        `${path}.plinth`,
        '"kick" and "plinth" in one case',
        "one of the two",
        "keep the kick, a board between or over the sides, or the plinth, a base of its own",
      ),
    );
  }
  return {
    height: lengthOf(plinth.height, unit),
    setBack: plinth.setBack === undefined ? KICK_SET_BACK[unit] : lengthOf(plinth.setBack, unit),
    inset: plinth.inset === undefined ? 0 : lengthOf(plinth.inset, unit),
  };
}

/** `side`: thickness of the sides, which a foot stands beside where the bottom lies between them. */
export function feetOf(file: CaseFile, path: string, side: Mm, { source, unit, problems }: Reading): Case["feet"] {
  const { feet, kick, plinth, bottom } = file;
  if (feet === undefined) return null;
  const other = kick !== undefined ? "kick" : plinth !== undefined ? "plinth" : null;
  if (other !== null) {
    problems.push(
      inputProblem(
        source,
        `${path}.feet`,
        `"${other}" and "feet" under one case`,
        "one of the two",
        `keep the feet, or leave them out and keep the ${other}`,
      ),
    );
  }
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const usual = FOOT[unit];
  const diameter = feet.diameter === undefined ? usual.diameter : mm(feet.diameter);
  const within = (bottom?.fit === "under" ? 0 : side) + usual.beside + diameter / 2;
  const fromEnds = feet.fromEnds === undefined ? within : mm(feet.fromEnds);
  const { hole, range, rating } = feet;
  return {
    height: mm(feet.height),
    diameter,
    fromEnds,
    fromEdges: feet.fromEdges === undefined ? fromEnds : mm(feet.fromEdges),
    hole: hole === undefined ? usual.hole : { diameter: mm(hole.diameter), depth: mm(hole.depth) },
    range: range === undefined ? null : { down: mm(range.down), up: mm(range.up) },
    rating: rating === undefined ? null : readMass(rating)!,
  };
}

export function lippingsOf(file: CaseFile, path: string, { source, unit, problems }: Reading): Lipping[] {
  const lipped = new Set<string>();
  return (file.lippings ?? []).map(({ name, kind, thickness, lipped: when, parts }, i) => {
    parts.forEach((role, j) => {
      if (lipped.has(role)) {
        problems.push(
          inputProblem(
            source,
            `${path}.lippings[${i}].parts[${j}]`,
            `a second lipping on ${quote(role)}`,
            "one lipping for each part",
            "take the part out of one of the two",
          ),
        );
      }
      lipped.add(role);
    });
    return { name, kind, thickness: lengthOf(thickness, unit), lipped: when ?? "after", roles: [...parts] };
  });
}

/** `drilled`: stock of the parts that take the holes. A depth that the file leaves out is less in thinner parts. */
export function pinsOf({ pins }: CaseFile, drilled: readonly Stock[], { unit }: Reading): Pins {
  const isDeep = drilled.some(({ thickness }) => PINS[unit].depth > DEEPEST_HOLE * thickness);
  const depth = isDeep ? Math.min(...drilled.map(({ nominal }) => nominal / 2)) : PINS[unit].depth;
  const usual = { ...PINS[unit], depth };
  const pick = (key: keyof Pins): Mm => {
    const value = pins?.[key];
    return value === undefined ? usual[key] : lengthOf(value, unit);
  };
  return {
    diameter: pick("diameter"),
    depth: pick("depth"),
    pitch: pick("pitch"),
    fromFront: pick("fromFront"),
    fromBack: pick("fromBack"),
    margin: pick("margin"),
    clearance: pick("clearance"),
  };
}
