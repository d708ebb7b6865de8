/** One stage of what follows from the cases: frames, doors, drawers, worktops. */
import type { Problem } from "../base/problem.ts";
import type { Project } from "../project/project.ts";
import type { StockTable } from "./cases/carcase.ts";
import type { Grid } from "./grid.ts";
import type { AssemblyModel } from "./model.ts";

export type Ground = { project: Project; stock: StockTable; grid: Grid };

/** `heeds`: whether it follows what was measured on the piece. `lay`: assemblies at butt size, not yet joined; `made`: what stands, as it was printed, for whatever is cut into it. `faults`: why one of them, as laid, cannot be made. */
export type Stage = {
  heeds: "as built" | "as printed";
  lay: (standing: readonly AssemblyModel[], ground: Ground, made: readonly AssemblyModel[]) => AssemblyModel[];
  faults: (laid: AssemblyModel, project: Project) => Problem[];
};
