/** The doors of a case that slide in grooves, as the file describes them. */
import type { Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import { PULL, SLIDER_GROOVES, SLIDER_OVERLAP } from "../defaults.ts";
import type { Pull, SliderGrooves, Sliders } from "../doors.ts";
import type { CaseFile } from "../schema/case.ts";
import { makeOf } from "./door-make.ts";
import { knobOf } from "./doors.ts";
import type { Reading } from "./joinery.ts";

/** Null where the case has no doors, or they hang on hinges. Keys that do not belong have been reported with those of hinged doors. */
export function slidersOf({ doors }: CaseFile, { unit }: Reading): Sliders | null {
  if (doors?.fit !== "sliding") return null;
  const read = (value: number | string | undefined, usual: Mm): Mm =>
    value === undefined ? usual : lengthOf(value, unit);
  const { pull, grooves } = doors;
  const usual = SLIDER_GROOVES[unit];
  const depths = Object.entries(usual) as [keyof SliderGrooves, Mm][];
  return {
    make: makeOf(doors, unit),
    count: doors.count ?? 2,
    overlap: read(doors.overlap, SLIDER_OVERLAP[unit]),
    grooves: Object.fromEntries(depths.map(([key, least]) => [key, read(grooves?.[key], least)])) as SliderGrooves,
    knob: knobOf(doors, unit),
    pull: pull === undefined ? null : pullOf(pull, read, PULL[unit]),
  };
}

type PullFile = NonNullable<NonNullable<CaseFile["doors"]>["pull"]>;
type Read = (value: number | string | undefined, usual: Mm) => Mm;

const pullOf = (pull: PullFile, read: Read, usual: Omit<Pull, "height">): Pull => ({
  fromEdge: read(pull.fromEdge, usual.fromEdge),
  height: read(pull.height, 0),
  diameter: read(pull.diameter, usual.diameter),
  depth: read(pull.depth, usual.depth),
});
