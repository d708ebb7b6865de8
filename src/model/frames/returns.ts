/**
 * Side returns: the face frame goes on round an end of its case, an upright on the side's outer face behind the outer stile. Each end has an
 * assembly of its own, glued on piece by piece to frame and case as these stand.
 *
 *      mitred            butted          seen from above, the left front corner of the case
 *
 *     return  side      return  side
 *      |   |  |  |       |   |  |  |
 *      |   |  |  |       |___|__|  |
 *      |  /---+--+       |      +--+     the outer stile covers the return's edge,
 *      | /  stile        |  stile        or is mitred with it
 *      |/__________      |__________
 */
import type { Mm } from "../../base/length.ts";
import type { SideReturns } from "../../project/face-frame.ts";
import { PLAIN, stockOf } from "../cases/carcase.ts";
import { type AssemblyModel, BARE, type Direction, type Frame, type Part } from "../model.ts";
import type { Ground, Stage } from "../stage.ts";
import { framedRows, frameOn } from "./framed.ts";

export type Side = "left" | "right";

export const returnName = (ofCase: string, side: Side): string => `${ofCase} ${side} return`;

const UPRIGHT: Record<Side, Frame> = {
  left: { l: "+z", w: "-y", t: "+x" },
  right: { l: "+z", w: "+y", t: "-x" },
};
const LEVEL: Record<Side, Frame> = {
  left: { l: "-y", w: "+z", t: "-x" },
  right: { l: "+y", w: "+z", t: "+x" },
};
const OUTWARDS: Record<Side, Direction> = { left: "-x", right: "+x" };

export const RETURNS: Stage = {
  heeds: "as built",
  lay: (standing, ground) => framedRows(standing).flatMap((row) => layReturns(row, standing, ground)),
  faults: () => [],
};

/** The case at that end of what the frame goes before. */
export const endOf = (row: readonly AssemblyModel[], side: Side): AssemblyModel =>
  side === "left" ? row[0]! : row.at(-1)!;

function layReturns(
  row: readonly AssemblyModel[],
  standing: readonly AssemblyModel[],
  ground: Ground,
): AssemblyModel[] {
  const returns = row[0]!.design.frame?.returns ?? null;
  if (returns === null) return [];
  const frame = frameOn(row[0]!, standing)!;
  return returns.sides.map((side) => layReturn(side, returns, endOf(row, side), frame, ground));
}

function layReturn(
  side: Side,
  { width, fit, strip }: SideReturns,
  one: AssemblyModel,
  frame: AssemblyModel,
  { stock, grid }: Ground,
): AssemblyModel {
  const name = returnName(one.name, side);
  const { thickness } = stockOf(stock, one.design.stock.return);
  const overhang = overhangAt(side, one, frame);
  // A frame a little wider than its case and two returns stands out before them, to be planed flush; a mitred return goes back as far.
  const front = fit === "mitred" ? frame.at[1] + overhang - thickness : one.at[1];
  const at = [side === "left" ? one.at[0] - thickness : one.at[0] + one.size[0], front, frame.at[2]] as const;
  const wide = grid.place(width);
  const deep = grid.end(one.at[1] + one.size[1] - front - wide);
  const part: Omit<Part, "key" | "name" | "role" | "stock" | "frame" | "box"> = {
    ...PLAIN,
    path: `${one.design.frame!.path}.returns`,
    inside: side === "left" ? "+x" : "-x",
    show: [OUTWARDS[side]],
  };
  const height = frame.size[2];
  const parts: Part[] = [
    {
      ...part,
      key: `${name}/return`,
      name: `${side} return`,
      role: "return",
      stock: one.design.stock.return,
      frame: UPRIGHT[side],
      box: [
        [0, 0, 0],
        [thickness, wide, height],
      ],
      mitre: fit === "mitred" ? { edge: "-y", shorter: side === "left" ? "+x" : "-x" } : null,
    },
  ];
  if (strip !== null)
    parts.push({
      ...part,
      key: `${name}/strip`,
      name: `${side} return strip`,
      role: "returnStrip",
      stock: one.design.stock.returnStrip,
      frame: LEVEL[side],
      box: [
        [0, wide, 0],
        [thickness, wide + deep, grid.place(strip)],
      ],
    });
  const depth = strip === null ? wide : wide + deep;
  return {
    ...BARE,
    name,
    kind: "return",
    design: one.design,
    at,
    size: [thickness, depth, height],
    parts,
  };
}

/** How far the frame stands out beyond its case there. */
const overhangAt = (side: Side, one: AssemblyModel, frame: AssemblyModel): Mm =>
  side === "left" ? one.at[0] - frame.at[0] : frame.at[0] + frame.size[0] - one.at[0] - one.size[0];
