/** The wall behind: how the pieces pass its skirting, and what is left open or stands out at the wall. */
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Walls } from "../../project/project.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { checkOf, nameOf, PRACTICE, shown } from "./input.ts";

type Input = Pick<DryfitSet, "assemblies" | "parts" | "worktops"> & { walls: Walls; unit: Unit };

const RULE = `a piece passes the skirting by notches in its sides, or stands off the wall by it (${PRACTICE})`;

export function checkWall({ walls, assemblies, parts, worktops, unit }: Input): SetCheck[] {
  const { back } = walls;
  if (back === null) return [];
  const show = (length: Mm): string => shown(length, unit);
  const cases = assemblies.filter(({ kind }) => kind === "case");
  const rear = Math.max(...cases.map(({ place, size }) => place.at[1] + size[1]));
  const { skirting, pass, clearance } = back;
  const wall = pass === "notch" ? rear : rear + skirting.thickness;
  const sizes = `${show(skirting.height)} high and ${show(skirting.thickness)} thick`;
  const notched = parts.filter(
    ({ role, width, features }) =>
      role === "side" &&
      features.some(({ kind, box }) => kind === "notch" && box[0][0] < SAME && box[1][1] > width - SAME),
  );
  const passes =
    pass === "stand off"
      ? `All stands ${show(skirting.thickness)} off the wall, by the thickness of its skirting: pack behind each wall fixing by as much.`
      : notched.length === 0
        ? "No side stands before it."
        : `${listInWords(notched.map(nameOf))} ${notched.length === 1 ? "is" : "are"} notched over it with ${show(clearance)} to spare. Measure it where the piece will stand before the notches are sawn.`;
  return [
    checkOf(
      "skirting",
      "note",
      notched.map(({ mark }) => mark),
      {
        text: `The skirting of the wall behind is ${sizes}. ${passes}`,
        rule: RULE,
        change: null,
      },
    ),
    ...worktops.flatMap((worktop): SetCheck[] => {
      const { place, size } = assemblies.find(({ name }) => name === worktop.assembly)!;
      const past = place.at[1] + size[1] - wall;
      if (Math.abs(past) < SAME) return [];
      return [
        checkOf("skirting", past > 0 ? "warning" : "note", [worktop.mark], {
          text: `${worktop.assembly} ${past > 0 ? `reaches ${show(past)} into the wall behind` : `ends ${show(-past)} before the wall behind`}.`,
          rule: RULE,
          change: past > 0 ? `an overhang at the back that is ${show(past)} less` : null,
        }),
      ];
    }),
  ];
}
