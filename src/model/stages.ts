/**
 * What follows from the cases as they stand, stage by stage: each is laid from all that was laid before it, as measured where it was. The exact model and the printed
 * one go through the same stages, the one without a grid, the other on that of the printed figures.
 */
import { asMeasured } from "./as-built.ts";
import { DOORS } from "./doors.ts";
import { DRAWERS } from "./drawers.ts";
import { FRAMES } from "./frame.ts";
import type { AssemblyModel } from "./model.ts";
import type { Ground, Stage } from "./stage.ts";

const STAGES: readonly Stage[] = [FRAMES, DOORS, DRAWERS];

/** The cases, and all that follows from them; `join` makes each of these whole before the next stage looks at it. */
export function layStages(
  cases: readonly AssemblyModel[],
  ground: Ground,
  join: (laid: AssemblyModel, stage: Stage) => AssemblyModel,
): AssemblyModel[] {
  const made = [...cases];
  for (const stage of STAGES) {
    const standing = made.map((one) => asMeasured(one, ground.project.asBuilt));
    made.push(...stage.lay(standing, ground).map((one) => join(one, stage)));
  }
  return made;
}
