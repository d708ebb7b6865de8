/** Face frames of the file as frames of the project, each for all the cases that it goes before. */
import type { Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import { OVERHANG } from "../defaults.ts";
import type { FaceFrame, FrameTenon, LowerEdge, SideReturns } from "../face-frame.ts";
import { nearest } from "../file/nearest.ts";
import { inputProblem } from "../file/problems.ts";
import { choice, quote } from "../file/words.ts";
import type { FrameFile } from "../schema/frame.ts";
import type { ProjectFile } from "../schema/project.ts";
import { only } from "./case-parts.ts";
import type { Reading } from "./joinery.ts";

/** The frame before a case, as the file has it and as the project does. */
export type Framed = { file: FrameFile; frame: FaceFrame };

/** By the case's name: its own frame, or one told with another case. */
export function framesOf({ cases }: ProjectFile, reading: Reading): Map<string, Framed> {
  const framed = new Map<string, Framed>();
  const known = cases.map(({ name }) => name);
  cases.forEach(({ name, frame: file }, i) => {
    if (file === undefined) return;
    const path = `cases[${i}].frame`;
    const told: Framed = { file, frame: frameOf(file, path, reading) };
    const fault = (at: string, found: string, expected: string, remedy: string): void => {
      reading.problems.push(inputProblem(reading.source, `${path}${at}`, found, expected, remedy));
    };
    const over = file.over ?? [name];
    if (!over.includes(name))
      fault(
        ".over",
        `a face frame of ${quote(name)} that goes before other cases alone`,
        quote(name),
        "name it as well",
      );
    if (over.length === 1 && file.over !== undefined && (cases[i]!.quantity ?? 1) === 1)
      fault(
        ".over",
        "a face frame over one case",
        "two or more, beside each other",
        'name the others, or take "over" out',
      );
    over.forEach((one, j) => {
      const at = file.over === undefined ? "" : `.over[${j}]`;
      if (!known.includes(one)) {
        const near = nearest(one, known);
        const remedy = near === null ? "name a case of the job" : `did you mean ${quote(near)}?`;
        fault(at, `there is no case ${quote(one)}`, choice(known), remedy);
      } else if (framed.has(one) && known.indexOf(one) === known.lastIndexOf(one)) {
        fault(at, `a second face frame before ${quote(one)}`, "one frame before each case", "name it once");
      } else framed.set(one, told);
    });
  });
  return framed;
}

/** `path`: of the frame itself. */
function frameOf(frame: FrameFile, path: string, reading: Reading): FaceFrame {
  const { unit } = reading;
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const stile = mm(frame.stile);
  const omitted = new Set(frame.omit);
  const midStile = frame.midStile === undefined ? stile : mm(frame.midStile);
  if (frame.over === undefined) only(frame.jointStile, `${path}.jointStile`, "a frame of one case", ["over"], reading);
  return {
    path,
    over: frame.over ?? null,
    overhang: frame.overhang === undefined ? OVERHANG[unit] : mm(frame.overhang),
    stile,
    midStile,
    jointStile: frame.jointStile === undefined ? midStile : mm(frame.jointStile),
    topRail: frame.topRail === undefined ? null : mm(frame.topRail),
    midRail: omitted.has("midRail") ? null : frame.midRail === undefined ? stile : mm(frame.midRail),
    midRailAt: frame.midRailAt ?? "flush",
    bottomRail: omitted.has("bottomRail") ? null : frame.bottomRail === undefined ? "to the end" : mm(frame.bottomRail),
    joint: frame.joint ?? "dowels",
    tenon: tenonOf(frame, path, reading),
    lower: lowerOf(frame.lower, `${path}.lower`, reading),
    returns: returnsOf(frame, path, reading),
  };
}

function returnsOf(
  { returns, overhang }: FrameFile,
  path: string,
  { source, unit, problems }: Reading,
): SideReturns | null {
  if (returns === undefined) return null;
  const { width, fit, strip } = returns;
  const sides = (["left", "right"] as const).filter((side) => returns.sides?.includes(side) ?? true);
  if (overhang !== undefined && sides.length === 2)
    problems.push(
      inputProblem(
        source,
        `${path}.overhang`,
        "an overhang of a frame with returns at both ends, which stands out by their thickness",
        'no "overhang"',
        'take it out, or name one end in "sides"',
      ),
    );
  return {
    sides,
    width: lengthOf(width, unit),
    fit: fit ?? "mitred",
    strip: strip === undefined ? null : lengthOf(strip, unit),
  };
}

function tenonOf({ tenon, joint }: FrameFile, path: string, reading: Reading): FrameTenon {
  const pick = (value: number | string | undefined): Mm | null =>
    value === undefined ? null : lengthOf(value, reading.unit);
  const what = `a frame with ${joint ?? "dowels"}`;
  if (joint !== "loose tenons" && joint !== "stub tenons")
    only(tenon, `${path}.tenon`, what, ["loose tenons", "stub tenons"], reading);
  else if (joint === "stub tenons") only(tenon?.width, `${path}.tenon.width`, what, ["loose tenons"], reading);
  return { thickness: pick(tenon?.thickness), width: pick(tenon?.width), length: pick(tenon?.length) };
}

function lowerOf(lower: FrameFile["lower"], path: string, reading: Reading): LowerEdge | null {
  if (lower === undefined) return null;
  const { form, foot, rise, relief } = lower;
  const { unit } = reading;
  if (form === "arch") only(relief, `${path}.relief`, "an arch", ["feet"], reading);
  return {
    form,
    foot: lengthOf(foot, unit),
    rise: lengthOf(rise, unit),
    relief: relief === undefined ? 0 : lengthOf(relief, unit),
  };
}
