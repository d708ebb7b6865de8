/** What doors that stand inside a case leave to the loose shelves behind them. */
import type { Mm } from "../../base/length.ts";
import type { Bay } from "../bay.ts";
import type { Case } from "../case.ts";
import type { Stock } from "../stock.ts";
import type { ThicknessOf } from "./clear-inside.ts";
import { thicknessIn } from "./clear-inside.ts";

/** How deep from the case's front edge the doors before a bay stand in it: inset ones, or ones in grooves; 0 where none does. `path`: of the bay; a door may be before one that it is part of. */
export function frontTaken(design: Case, path: string, stock: readonly Stock[]): Mm {
  const thickness = thicknessIn(design, stock);
  return Math.max(0, ...doorsOver(design.bays, path).map((door) => takenBy(door, design, thickness, stock)));
}

function takenBy(door: NonNullable<Bay["door"]>, design: Case, thickness: ThicknessOf, stock: readonly Stock[]): Mm {
  const { doors, sliders, frame } = design;
  if (door !== "sliding") {
    if (doors?.fit.kind !== "inset") return 0;
    return thickness(doors.make.kind === "slab" ? "slab" : "doorStile") - (frame === null ? 0 : thickness("stile"));
  }
  if (sliders === null) return 0;
  const { setIn, play, apart } = sliders.grooves;
  const id = design.stock[sliders.make.kind === "slab" ? "slab" : "doorStile"];
  return setIn + 2 * (stock.find((one) => one.id === id)!.thickest + play) + apart;
}

/** Doors before the bay at this path, or before one that it is part of. */
function doorsOver(bay: Bay, path: string): NonNullable<Bay["door"]>[] {
  const isOn = path === bay.path || (path.startsWith(bay.path) && /^[.[]/.test(path.slice(bay.path.length)));
  if (!isOn) return [];
  return [
    ...(bay.door === null ? [] : [bay.door]),
    ...(bay.kind === "open" ? [] : bay.bays.flatMap((child) => doorsOver(child, path))),
  ];
}
