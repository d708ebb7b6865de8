/** The job's layouts, in millimetres, defaults filled in. */
import { lengthOf } from "../../base/parse-length.ts";
import { LAYOUT } from "../defaults.ts";
import type { Layout } from "../layout.ts";
import type { ProjectFile } from "../schema/project.ts";

export function layoutOf({ layout = {}, unit }: Pick<ProjectFile, "layout" | "unit">): Layout {
  const { keep, grain = [], together = [], oversize = [], early } = layout;
  return {
    seed: layout.seed ?? LAYOUT.seed,
    effort: layout.effort ?? LAYOUT.effort,
    levels: layout.levels ?? null,
    first: layout.first ?? null,
    keep: keep === undefined ? null : { length: lengthOf(keep.length, unit), width: lengthOf(keep.width, unit) },
    grain: grain.map((one, i) => ({ ...one, path: `layout.grain[${i}].parts` })),
    together: together.map(({ parts, must }, i) => ({
      path: `layout.together[${i}].parts`,
      parts,
      must: must ?? LAYOUT.togetherMust,
    })),
    oversize: oversize.map(({ parts, length, width }, i) => ({
      path: `layout.oversize[${i}].parts`,
      parts,
      length: lengthOf(length ?? 0, unit),
      width: lengthOf(width ?? 0, unit),
    })),
    early: early === undefined ? null : { path: "layout.early", parts: early },
  };
}
