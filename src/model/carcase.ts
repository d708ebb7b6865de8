/** Every part of a case put down at its butt size: no joint yet. */
import type { Vec } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { clearDepth } from "../project/clear-inside.ts";
import type { Case, Role, Stock } from "../project/project.ts";
import { layBays } from "./bays.ts";
import type { Direction, Frame, Opening, Part, PlainNotch } from "./model.ts";

const STANDING: Frame = { l: "+z", w: "+y", t: "-x" };
const LYING: Frame = { l: "+x", w: "+y", t: "+z" };
const FACING_UPRIGHT: Frame = { l: "+z", w: "+x", t: "+y" };
const FACING_LEVEL: Frame = { l: "+x", w: "+z", t: "-y" };

export type StockTable = ReadonlyMap<string, Stock>;

export const stockOf = (stock: StockTable, id: string): Stock => {
  const found = stock.get(id);
  if (!found) throw new Error(`Stock ${id} was checked by the reader and is now missing`);
  return found;
};

export type Carcase = { parts: Part[]; openings: Opening[] };

export function layCarcase(design: Case, prefix: string, stock: StockTable): Carcase {
  const { width, height, depth } = design;
  const thick = (role: Role): Mm => stockOf(stock, design.stock[role]).thickness;
  const inner = clearDepth(design, thick);
  // An applied back lies behind the other parts, inside the case's depth.
  const rear = design.back.fit === "applied" ? inner : depth;
  const floor = design.bottom.up;
  const ceiling = height - design.top.down - thick("top");
  const left = thick("side");
  const right = width - thick("side");

  const part = (
    role: Role,
    id: string,
    name: string,
    frame: Frame,
    lo: Vec,
    hi: Vec,
    more: Partial<Part> = {},
  ): Part => ({
    key: `${prefix}/${id}`,
    path: design.path,
    name,
    role,
    stock: design.stock[role],
    frame,
    box: [lo, hi],
    inside: null,
    show: [],
    edges: edgesThatShow(design, role),
    notches: [],
    features: [],
    ...more,
  });

  const kickNotch: PlainNotch[] = design.kick
    ? [{ end: "-z", edge: "-y", depth: floor, width: design.kick.setBack, reason: "toe space of the kick" }]
    : [];
  const goodOneSide = (role: Role, face: Direction): Direction[] =>
    stockOf(stock, design.stock[role]).goodFaces === 1 ? [face] : [];

  const parts: Part[] = [
    part("side", "side-left", "left side", STANDING, [0, 0, 0], [left, rear, height], {
      inside: "+x",
      show: goodOneSide("side", "-x"),
      notches: kickNotch,
    }),
    part("side", "side-right", "right side", STANDING, [right, 0, 0], [width, rear, height], {
      inside: "-x",
      show: goodOneSide("side", "+x"),
      notches: kickNotch,
    }),
    part("bottom", "bottom", "bottom", LYING, [left, 0, floor], [right, rear, floor + thick("bottom")], {
      inside: "+z",
      show: goodOneSide("bottom", "+z"),
    }),
    part("top", "top", "top panel", LYING, [left, 0, ceiling], [right, rear, ceiling + thick("top")], {
      inside: "-z",
      show: goodOneSide("top", design.top.fit === "flush" ? "+z" : "-z"),
    }),
  ];

  const bays = layBays(design.bays, {
    space: { x: [left, right], z: [floor + thick("bottom"), ceiling] },
    around: {
      left: `${prefix}/side-left`,
      right: `${prefix}/side-right`,
      below: `${prefix}/bottom`,
      above: `${prefix}/top`,
    },
    prefix,
    divider: thick("divider"),
    shelf: thick("shelf"),
    depth: inner,
  });
  for (const { role, id, name, path, lo, hi } of bays.members) {
    const frame = role === "divider" ? STANDING : LYING;
    const show = role === "shelf" ? goodOneSide("shelf", "+z") : [];
    parts.push(part(role, id, name, frame, lo, hi, { path, show }));
  }

  if (design.back.fit !== "none") {
    const applied = design.back.fit === "applied";
    const frame = design.back.grain === "upright" ? FACING_UPRIGHT : FACING_LEVEL;
    const lo: Vec = applied ? [0, inner, floor] : [left, inner, floor + thick("bottom")];
    const hi: Vec = applied ? [width, depth, height - design.top.down] : [right, inner + thick("back"), ceiling];
    parts.push(
      part("back", "back", "back", frame, lo, hi, { inside: "-y", show: goodOneSide("back", "-y"), edges: [] }),
    );
  }
  if (design.kick) {
    const { setBack } = design.kick;
    parts.push(
      part("kick", "kick", "kick", FACING_LEVEL, [left, setBack, 0], [right, setBack + thick("kick"), floor], {
        show: goodOneSide("kick", "-y"),
        edges: [],
      }),
    );
  }
  return { parts, openings: bays.openings };
}

/** Which edges of a part show, from what the job says of the case's edges. An end that enters another part never shows. */
function edgesThatShow(design: Case, role: Role): Direction[] {
  const shown: Direction[] = [];
  if (design.edges.front === "shows") shown.push("-y");
  // A back in a rabbet or applied takes the rear edges; shelves and dividers end against the back where there is one.
  const { fit } = design.back;
  const outer = role === "side" || role === "bottom" || role === "top";
  if (design.edges.back === "shows" && (fit === "none" || (fit === "captured" && outer))) shown.push("+y");
  if (role === "side" && design.edges.top === "shows") shown.push("+z");
  if (role === "side" && design.edges.bottom === "shows") shown.push("-z");
  return shown;
}
