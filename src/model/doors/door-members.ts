/** What a door is made of, however it hangs or slides: a slab, or stiles and rails round a loose panel. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { movementOf } from "../../base/moisture.ts";
import { LEAST_CLEAR, PANEL_CLEARANCE, SOLID_CLEARANCE } from "../../project/defaults.ts";
import type { DoorMake, FramedDoor } from "../../project/door-make.ts";
import type { Project } from "../../project/project.ts";
import type { Stock } from "../../project/stock.ts";
import { PLAIN, stockOf } from "../cases/carcase.ts";
import type { Grid } from "../grid.ts";
import type { AssemblyModel, Frame, Part } from "../model.ts";
import type { Ground } from "../stage.ts";
import { panelSetIn } from "./door-sizes.ts";

const UPRIGHT: Frame = { l: "+z", w: "+x", t: "+y" };
/** Every member with its front face at the same end of its thickness: so all are grooved with that face to the fence. */
const LEVEL: Frame = { l: "+x", w: "-z", t: "+y" };

/** `path`: of the bay in the project file; `one`: the case. */
export type Shell = { name: string; path: string; one: AssemblyModel; make: DoorMake; size: Vec };

/** At butt size, in the door's own coordinates. */
export function layMembers({ name, path, one, make, size }: Shell, { project, stock, grid }: Ground): Part[] {
  const [width, thickness, height] = size;
  const part = (
    role: "doorStile" | "doorRail" | "doorPanel" | "slab",
    id: string,
    called: string,
    frame: Frame,
    [x, y, z]: [[Mm, Mm], [Mm, Mm], [Mm, Mm]],
  ): Part => ({
    ...PLAIN,
    key: `${name}/${id}`,
    path,
    name: called,
    role,
    stock: one.design.stock[role],
    frame,
    box: [
      [x[0], y[0], z[0]],
      [x[1], y[1], z[1]],
    ],
    inside: "+y",
    show: ["-y"],
  });
  const through: [Mm, Mm] = [0, thickness];
  if (make.kind === "slab") {
    const frame = make.grain === "upright" ? UPRIGHT : LEVEL;
    return [part("slab", "slab", "slab", frame, [[0, width], through, [0, height]])];
  }
  const [stile, top, bottom] = [make.stile, make.topRail, make.bottomRail].map(grid.place) as [Mm, Mm, Mm];
  const panel = stockOf(stock, one.design.stock.doorPanel);
  const inner: [Mm, Mm] = [stile, width - stile];
  const mids = midRailsIn([bottom, height - top], make, grid);
  const edges = [bottom, ...mids.flat(), height - top];
  const open = Array.from({ length: mids.length + 1 }, (_, i): [Mm, Mm] => [edges[2 * i]!, edges[2 * i + 1]!]);
  const sunk = grid.place(panelSetIn(stockOf(stock, one.design.stock.doorStile), panel));
  return [
    part("doorStile", "stile-left", "left door stile", UPRIGHT, [[0, stile], through, [0, height]]),
    part("doorStile", "stile-right", "right door stile", UPRIGHT, [[width - stile, width], through, [0, height]]),
    part("doorRail", "rail-top", "top door rail", LEVEL, [inner, through, [height - top, height]]),
    part("doorRail", "rail-bottom", "bottom door rail", LEVEL, [inner, through, [0, bottom]]),
    ...mids.map((z, i) => part("doorRail", `rail-${i + 1}`, "mid door rail", LEVEL, [inner, through, z])),
    ...open.map((z, i) => ({
      ...part("doorPanel", mids.length === 0 ? "panel" : `panel-${i + 1}`, "door panel", UPRIGHT, [
        inner,
        [sunk, sunk + panel.thickness],
        z,
      ]),
      slips: slipsOf(make, panel, width - 2 * stile + 2 * make.stick, project),
    })),
  ];
}

/** Lower and upper edges of the mid rails, from the lowest up: where the job has their middles, or so that the panels between are of one height. */
function midRailsIn([low, high]: readonly [Mm, Mm], { midRails }: FramedDoor, grid: Grid): [Mm, Mm][] {
  const wide = midRails.map(({ width }) => grid.place(width));
  const clear = (high - low - wide.reduce((sum, width) => sum + width, 0)) / (midRails.length + 1);
  let under = low;
  return midRails.map(({ up }, i): [Mm, Mm] => {
    const from = grid.place(up === null ? under + clear : up - wide[i]! / 2);
    under = up === null ? under + clear + wide[i]! : from + wide[i]!;
    return [from, from + wide[i]!];
  });
}

/**
 * Half the clearance at each side: along the grain as of plywood. Across it solid wood has at least 1/4 in, or as much as it grows from the
 * moisture it is made at, or the driest where that is not known, to the wettest (Wood Handbook 2010, chapter 13; flat-sawn).
 */
function slipsOf({ clearance }: FramedDoor, { solid, species }: Stock, width: Mm, project: Project): { l: Mm; w: Mm } {
  const { unit, moisture } = project;
  const along = clearance !== null && !solid ? clearance : PANEL_CLEARANCE[unit];
  const grows = movementOf(width, species?.tangential ?? 0, moisture.wettest - (moisture.made ?? moisture.driest));
  const usual = solid ? Math.max(SOLID_CLEARANCE[unit], grows) : PANEL_CLEARANCE[unit];
  return { l: along / 2, w: (clearance ?? usual) / 2 };
}

/** Clear of its members, the smaller way; null where that is enough for a panel, or for a slab to be a door. */
export function crampedBy({
  parts,
  size,
}: Pick<AssemblyModel, "parts" | "size">): { of: "panel" | "slab"; clear: Mm } | null {
  const panels = parts.filter(({ role }) => role === "doorPanel");
  const sides =
    panels.length === 0
      ? [size[0], size[2]]
      : panels.flatMap(({ box }) => [box[1][0] - box[0][0], box[1][2] - box[0][2]]);
  const clear = Math.min(...sides);
  return clear < LEAST_CLEAR ? { of: panels.length === 0 ? "slab" : "panel", clear } : null;
}
