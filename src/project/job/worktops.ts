/** Worktops of the file as worktops of the project: millimetres, every default filled in. */
import type { Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Reading } from "../case/joinery.ts";
import { WORKTOP_EDGES, WORKTOP_OVERHANG, WORKTOP_SCREW } from "../defaults.ts";
import type { WorktopFile } from "../schema/worktop.ts";
import type { Worktop } from "../worktop.ts";

export const worktopsOf = (files: readonly WorktopFile[] | undefined, { unit }: Pick<Reading, "unit">): Worktop[] =>
  (files ?? []).map((file, i): Worktop => {
    const mm = (value: number | string): Mm => lengthOf(value, unit);
    const overhang = (side: keyof Worktop["overhang"]): Mm => {
      const given = file.overhang?.[side];
      return given === undefined ? WORKTOP_OVERHANG[unit][side] : mm(given);
    };
    const { edge, lipping, screws } = file;
    return {
      path: `worktops[${i}]`,
      name: file.name ?? (i === 0 ? "worktop" : `worktop ${i + 1}`),
      over: [...file.over],
      stock: file.stock,
      overhang: {
        front: overhang("front"),
        back: overhang("back"),
        left: overhang("left"),
        right: overhang("right"),
      },
      boards: file.boards ?? null,
      sawn: file.sawn ?? "flat",
      lipping:
        lipping === undefined
          ? null
          : {
              name: lipping.name,
              thickness: mm(lipping.thickness),
              edges: [...new Set(lipping.edges ?? WORKTOP_EDGES)],
            },
      edge:
        edge === undefined
          ? null
          : { shape: edge.shape, radius: mm(edge.radius), edges: [...new Set(edge.edges ?? WORKTOP_EDGES)] },
      fixed: file.fixed ?? "front",
      screw: {
        diameter: screws?.diameter === undefined ? WORKTOP_SCREW[unit] : mm(screws.diameter),
        length: screws?.length === undefined ? null : mm(screws.length),
      },
    };
  });
