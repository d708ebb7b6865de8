/** The clear space inside a case: between its sides, from the bottom to the top panel or the stretchers, and before its back. */
import { type Mm, SAME } from "../../base/length.ts";
import type { Case } from "../case.ts";
import type { Role } from "../role.ts";
import type { Stock } from "../stock.ts";

export type ThicknessOf = (role: Role) => Mm;

export function stockIn(design: Case, stock: readonly Stock[], role: Role): Stock {
  const found = stock.find(({ id }) => id === design.stock[role]);
  if (found === undefined) throw new Error(`Stock ${design.stock[role]} was looked up before, and is not in the list`);
  return found;
}

export const thicknessIn =
  (design: Case, stock: readonly Stock[]): ThicknessOf =>
  (role) =>
    stockIn(design, stock, role).thickness;

/** Front edge of the sides to the front face of the back, or to the rear where there is none. */
export function clearDepth(design: Case, thickness: ThicknessOf): Mm {
  switch (design.back.fit) {
    case "captured":
      return design.depth - design.back.setIn - thickness("back");
    case "rabbeted":
    case "applied":
      return design.depth - thickness("back");
    case "none":
      return design.depth;
  }
}

/** Where a face frame begins, from the case's lower end: at the floor, or where the toe space ends; down over a base that does not stand back. */
export function frameFoot({ kick, bottom, plinth }: Pick<Case, "kick" | "bottom" | "plinth">): Mm {
  if (plinth !== null) return plinth.setBack < SAME ? -plinth.height : 0;
  return kick === null ? 0 : bottom.up;
}

/** How far its frame stands out at the left and the right: at a return by the thickness of that. */
export function overhangsOf({ frame }: Pick<Case, "frame">, thickness: ThicknessOf): [left: Mm, right: Mm] {
  if (frame === null) return [0, 0];
  const at = (side: "left" | "right"): Mm =>
    frame.returns?.sides.includes(side) === true ? thickness("return") : frame.overhang;
  return [at("left"), at("right")];
}

/** Whether its frame goes down to where the case, or the base under it, stands. */
export const isFrameDown = ({ kick, plinth }: Pick<Case, "kick" | "plinth">): boolean =>
  plinth === null ? kick === null : plinth.setBack < SAME;

/** What closes the case above. */
export const ceilingRole = ({ top }: Case): "top" | "stretcher" => (top.fit === "stretchers" ? "stretcher" : "top");

export const clearInside = (design: Case, thickness: ThicknessOf): { width: Mm; height: Mm; depth: Mm } => ({
  // A shared side belongs to the case beside it, whose outer face is where this one begins.
  width: design.width - (design.shares === null ? 2 : 1) * thickness("side"),
  height: design.height - design.bottom.up - thickness("bottom") - design.top.down - thickness(ceilingRole(design)),
  depth: clearDepth(design, thickness),
});
