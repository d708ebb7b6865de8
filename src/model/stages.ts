/**
 * What follows from the cases as they stand, stage by stage: each is laid from all that was laid before it, as measured where it was. The exact model and the printed
 * one go through the same stages, the one without a grid, the other on that of the printed figures.
 */
import { standingAsMeasured } from "./as-built.ts";
import { DOORS } from "./doors/doors.ts";
import { SLIDERS } from "./doors/sliders.ts";
import { TRACKS } from "./doors/track.ts";
import { DRAWERS } from "./drawers/drawers.ts";
import { FRAMES } from "./frames/frame.ts";
import { RETURNS } from "./frames/returns.ts";
import type { AssemblyModel, Part } from "./model.ts";
import type { Ground, Stage } from "./stage.ts";
import { WORKTOPS } from "./worktops/worktop.ts";

const STAGES: readonly Stage[] = [FRAMES, RETURNS, DOORS, SLIDERS, DRAWERS, WORKTOPS, TRACKS];

/** The cases, and all that follows from them; `join` makes each of these whole before the next stage looks at it. */
export function layStages(
  cases: readonly AssemblyModel[],
  ground: Ground,
  join: (laid: AssemblyModel, stage: Stage) => AssemblyModel,
): AssemblyModel[] {
  let made = [...cases];
  for (const stage of STAGES) {
    const standing = stage.heeds === "as built" ? standingAsMeasured(made, ground.project.asBuilt) : made;
    const laid = stage.lay(standing, ground, made).map((one) => join(one, stage));
    made = [...made.map((one) => cutInto(one, laid)), ...laid];
  }
  return made;
}

/** What those laid after it take out of its parts. */
function cutInto(one: AssemblyModel, laid: readonly AssemblyModel[]): AssemblyModel {
  const cuts = laid.flatMap((later) => later.cuts);
  const into = (part: Part): Part => {
    const own = cuts.filter((cut) => cut.part === part.key).map(({ feature }) => feature);
    return own.length === 0 ? part : { ...part, features: [...part.features, ...own] };
  };
  return cuts.length === 0 ? one : { ...one, parts: one.parts.map(into) };
}
