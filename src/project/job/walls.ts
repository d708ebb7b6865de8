/** The walls round the place where a job will stand, and which cases pass the skirting of the one behind by notches in their sides. */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Case } from "../case.ts";
import { SKIRTING_CLEARANCE } from "../defaults.ts";
import type { Walls } from "../project.ts";
import type { ProjectFile } from "../schema/project.ts";

export function wallsOf({ walls, unit }: Pick<ProjectFile, "walls" | "unit">): Walls {
  const mm = (length: number | string): Mm => lengthOf(length, unit);
  const orNone = (clear: number | string | undefined): Mm | null => (clear === undefined ? null : mm(clear));
  const back = walls?.back;
  return {
    left: orNone(walls?.left),
    right: orNone(walls?.right),
    scribe: {
      left: orNone(walls?.scribe?.left) ?? 0,
      right: orNone(walls?.scribe?.right) ?? 0,
      back: orNone(walls?.scribe?.back) ?? 0,
    },
    back:
      back === undefined
        ? null
        : {
            skirting: { height: mm(back.skirting.height), thickness: mm(back.skirting.thickness) },
            clearance: back.clearance === undefined ? SKIRTING_CLEARANCE[unit] : mm(back.clearance),
            pass: back.pass ?? "notch",
          },
  };
}

/** The wall stands behind the rearmost cases. Those of them that stand lower than the skirting is high are notched over it. */
export function notchedOver(cases: readonly Case[], { back }: Walls): Case[] {
  if (back?.pass !== "notch") return [...cases];
  const rear = ({ at, depth }: Case): Mm => at[1] + depth;
  const wall = Math.max(...cases.map(rear));
  const { skirting, clearance } = back;
  return cases.map((design) => {
    const height = skirting.height + clearance - design.at[2];
    return isSame(rear(design), wall) && height > SAME
      ? { ...design, skirting: { height, depth: skirting.thickness + clearance } }
      : design;
  });
}
