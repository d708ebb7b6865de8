/** What is easier on a case's parts while they lie flat than in the case that stands. */
import { listInWords } from "../../base/words.ts";
import type { SetAssembly, SetPart } from "../../set/schema.ts";
import type { StepsInput } from "./step.ts";

export function whileOpen({ name }: SetAssembly, input: StepsInput): string[] {
  const { parts, drawers, doors, joints, assemblies, worktops } = input;
  const own = parts.filter(({ assembly }) => assembly === name);
  const marksOf = (some: readonly SetPart[]): string => listInWords(some.map(({ mark }) => mark));
  const lined = own.filter(({ lines }) => lines.length > 0);
  const runs = drawers.some((one) => one.case === name && one.slides.kind === "wooden runners");
  const cups = doors.filter((one) => one.case === name && one.hinges.kind === "cup");
  const pinned = new Set(joints.filter(({ kind }) => kind === "pin").map(({ receiving }) => receiving));
  const rows = own.filter(({ mark }) => pinned.has(mark));
  const framed = assemblies.some(({ kind }) => kind === "frame");
  const wide = own.filter(({ role, thickness }) => role === "stretcher" || (role === "back" && thickness > 11));
  const under = worktops.filter(({ over }) => over.includes(name));
  return [
    ...(lined.length === 0
      ? []
      : [
          `Knife the lines of the ${runs ? "runners" : "slides"} on ${marksOf(lined)} from the story stick, and drill the first screw hole of each.`,
        ]),
    ...(cups.length === 0 || framed
      ? []
      : [
          `Set out the plates of the hinges of ${listInWords(cups.map(({ assembly }) => assembly))} and drill for them.`,
        ]),
    ...(rows.length === 0 ? [] : [`Try a pin in each row of ${marksOf(rows)}.`]),
    ...(wide.length === 0
      ? []
      : [`Drill the holes for fixings to the wall through ${marksOf(wide)}, where it is tall.`]),
    ...(under.length === 0 ? [] : ["See that a screwdriver reaches every slot for the worktop's screws."]),
  ];
}
