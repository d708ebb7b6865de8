/** The clear size of every bay, as far as the bays around it add up. */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { Bay, BaySize } from "../bay.ts";
import type { Case } from "../case.ts";
import { clearInside, type ThicknessOf } from "./clear-inside.ts";

export type Division = { sizes: Mm[] } | { over: Mm }; // over: too much, or too little below zero

/** Clear sizes of sibling bays: the stated ones as stated, the rest by share of what is left. */
export function divide(space: Mm, between: Mm, bays: readonly { size: BaySize }[]): Division {
  const left = bays.reduce(
    (rest, { size }) => rest - ("clear" in size ? size.clear : 0),
    space - between * (bays.length - 1),
  );
  const shares = bays.reduce((sum, { size }) => sum + ("share" in size ? size.share : 0), 0);
  if (shares === 0 ? !isSame(left, 0) : left < SAME) return { over: -left };
  return { sizes: bays.map(({ size }) => ("clear" in size ? size.clear : (left * size.share) / shares)) };
}

/** From and to, from the case's left or lower outside; null where the bays around do not add up. */
export type Clear = { x: readonly [Mm, Mm] | null; z: readonly [Mm, Mm] | null };

/** Calls back for every bay, outermost first; `division` is how it is divided, null where it is not or its own size is not known. */
export function eachBay(
  design: Case,
  thickness: ThicknessOf,
  visit: (bay: Bay, clear: Clear, division: Division | null) => void,
): void {
  const walk = (bay: Bay, clear: Clear): void => {
    if (bay.kind === "open") {
      visit(bay, clear, null);
      return;
    }
    const axis = bay.kind === "columns" ? "x" : "z";
    const between = thickness(bay.kind === "columns" ? "divider" : "shelf");
    const run = clear[axis];
    const division = run === null ? null : divide(run[1] - run[0], between, bay.bays);
    visit(bay, clear, division);
    let from = run?.[0] ?? 0;
    bay.bays.forEach((child, i) => {
      const size = division !== null && "sizes" in division ? division.sizes[i]! : null;
      walk(child, { ...clear, [axis]: size === null ? null : [from, from + size] });
      from += (size ?? 0) + between;
    });
  };
  const { width, height } = clearInside(design, thickness);
  const left = design.shares === null ? thickness("side") : 0;
  const floor = design.bottom.up + thickness("bottom");
  walk(design.bays, { x: [left, left + width], z: [floor, floor + height] });
}
