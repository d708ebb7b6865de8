/** Whether a sheet is ripped before it is crosscut, or the other way round. */
import type { Axis, Tree } from "./tree.ts";

/** Along that axis where it is cut along both; a row of parts as wide as the sheet, or as long, is cut along the other alone. */
export const beginsWith = (tree: Tree, first: Axis): boolean =>
  tree.kind !== "cut" || tree.across === first || tree.children.every(({ kind }) => kind !== "cut");
