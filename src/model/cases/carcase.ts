/** Every part of a case put down at its butt size: no joint yet. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Case } from "../../project/case.ts";
import { clearDepth } from "../../project/checks/clear-inside.ts";
import { frontTaken } from "../../project/checks/front-taken.ts";
import type { Role } from "../../project/role.ts";
import type { Stock } from "../../project/stock.ts";
import type { Direction, Frame, Opening, Part, PinRow, PlainNotch } from "../model.ts";
import { layBays } from "./bays.ts";
import { boresForFeet } from "./feet.ts";
import { layFillers } from "./fillers.ts";
import { layPins } from "./pins.ts";

const STANDING: Frame = { l: "+z", w: "+y", t: "-x" };
const LYING: Frame = { l: "+x", w: "+y", t: "+z" };
const FACING_UPRIGHT: Frame = { l: "+z", w: "+x", t: "+y" };
export const FACING_LEVEL: Frame = { l: "+x", w: "+z", t: "-y" };

export type StockTable = ReadonlyMap<string, Stock>;

export const stockOf = (stock: StockTable, id: string): Stock => {
  const found = stock.get(id);
  if (!found) throw new Error(`Stock ${id} was checked by the reader and is now missing`);
  return found;
};

export type Carcase = { parts: Part[]; openings: Opening[]; pinRows: PinRow[] };

/** What a part is when nothing more is said of it. */
export const PLAIN: Pick<
  Part,
  | "inside"
  | "show"
  | "edges"
  | "lippings"
  | "notches"
  | "shape"
  | "mitre"
  | "profile"
  | "standsOn"
  | "slips"
  | "bores"
  | "features"
> = {
  inside: null,
  show: [],
  edges: [],
  lippings: [],
  notches: [],
  shape: null,
  profile: null,
  mitre: null,
  standsOn: null,
  slips: null,
  bores: [],
  features: [],
};

/** `borrowedSide`: key of the side of another case that stands in for this one's left side. */
export function layCarcase(
  design: Case,
  prefix: string,
  stock: StockTable,
  borrowedSide: string | null = null,
): Carcase {
  const { width, height, depth } = design;
  const thick = (role: Role): Mm => stockOf(stock, design.stock[role]).thickness;
  const inner = clearDepth(design, thick);
  // An applied back lies behind the other parts, inside the case's depth.
  const rear = design.back.fit === "applied" ? inner : depth;
  const isUnder = design.bottom.fit === "under";
  const isOver = design.top.fit === "over";
  const hasTop = design.top.fit !== "stretchers";
  const floor = design.bottom.up;
  const ceiling = height - design.top.down - thick(hasTop ? "top" : "stretcher");
  const left = borrowedSide === null ? thick("side") : 0;
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
    ...PLAIN,
    key: `${prefix}/${id}`,
    path: design.path,
    name,
    role,
    stock: design.stock[role],
    frame,
    box: [lo, hi],
    edges: edgesThatShow(design, role),
    lippings: design.lippings
      .filter(({ roles }) => roles.includes(role))
      .map(({ name: strip, thickness, lipped }) => ({ edge: "-y", name: strip, thickness, lipped })),
    ...more,
  });
  const goodOneSide = (role: Role, face: Direction): Direction[] =>
    stockOf(stock, design.stock[role]).goodFaces === 1 ? [face] : [];

  const notches = [...toeNotches(design, `${prefix}/kick`, thick("kick")), ...skirtingNotches(design)];
  const foot = isUnder ? floor + thick("bottom") : 0;
  const head = isOver ? ceiling : height;
  const parts: Part[] = [];
  if (borrowedSide === null) {
    parts.push(
      part("side", "side-left", "left side", STANDING, [0, 0, foot], [left, rear, head], {
        inside: "+x",
        show: goodOneSide("side", "-x"),
        notches,
      }),
    );
  }
  parts.push(
    part("side", "side-right", "right side", STANDING, [right, 0, foot], [width, rear, head], {
      inside: "-x",
      show: goodOneSide("side", "+x"),
      notches,
    }),
    part(
      "bottom",
      "bottom",
      "bottom",
      LYING,
      [isUnder ? 0 : left, 0, floor],
      [isUnder ? width : right, rear, floor + thick("bottom")],
      { inside: "+z", show: goodOneSide("bottom", "+z"), bores: boresForFeet(design) },
    ),
  );
  if (hasTop) {
    parts.push(
      part(
        "top",
        "top",
        "top panel",
        LYING,
        [isOver ? 0 : left, 0, ceiling],
        [isOver ? width : right, rear, ceiling + thick("top")],
        { inside: "-z", show: goodOneSide("top", design.top.fit === "lowered" ? "-z" : "+z") },
      ),
    );
  } else {
    const { stretcher } = design.top;
    const lie = (id: string, name: string, from: Mm, to: Mm, edges: Direction[]): Part =>
      part("stretcher", id, name, LYING, [left, from, ceiling], [right, to, height], { inside: "-z", edges });
    const front = edgesThatShow(design, "stretcher");
    parts.push(
      lie("stretcher-front", "front stretcher", 0, stretcher, front),
      lie("stretcher-rear", "rear stretcher", inner - stretcher, inner, []),
    );
  }

  const bays = layBays(design.bays, {
    space: { x: [left, right], z: [floor + thick("bottom"), ceiling] },
    around: {
      left: borrowedSide ?? `${prefix}/side-left`,
      right: `${prefix}/side-right`,
      below: `${prefix}/bottom`,
      above: `${prefix}/${hasTop ? "top" : "stretcher-front"}`,
    },
    prefix,
    divider: thick("divider"),
    shelf: thick("shelf"),
    depth: inner,
    // The dividers between back panels in grooves hold these, and so run to the rear.
    fullDepth: design.back.fit === "captured" && design.back.sections ? rear : inner,
  });
  for (const { role, id, name, path, lo, hi } of bays.members) {
    const frame = role === "divider" ? STANDING : LYING;
    const show = role === "shelf" ? goodOneSide("shelf", "+z") : [];
    parts.push(part(role, id, name, frame, lo, hi, { path, show }));
  }

  const { back } = design;
  if (back.fit !== "none") {
    const applied = back.fit === "applied";
    const frame = back.grain === "upright" ? FACING_UPRIGHT : FACING_LEVEL;
    const outer = applied ? [0, width] : [left, right];
    const low = applied ? floor : floor + thick("bottom");
    // Laid on, it covers the rear of filler strips as well.
    const covered = design.top.fillers === null ? height - design.top.down : height;
    const high = !hasTop ? height : applied ? covered : ceiling;
    const spans = back.sections ? sectionsOf(bays.columns, outer[0]!, outer[1]!, back.fit) : [outer];
    spans.forEach(([from, to], i) => {
      const lo: Vec = [from!, inner, low];
      const hi: Vec = [to!, applied ? depth : inner + thick("back"), high];
      const one = spans.length === 1;
      const name = one ? "back" : `back ${letterOf(i)}`;
      parts.push(
        part("back", one ? "back" : `back-${i + 1}`, name, frame, lo, hi, {
          inside: "-y",
          show: goodOneSide("back", "-y"),
          edges: [],
        }),
      );
    });
  }
  if (design.kick) {
    const { setBack, fit } = design.kick;
    const [from, to] = fit === "applied" ? [0, width] : [left, right];
    parts.push(
      part("kick", "kick", "kick", FACING_LEVEL, [from, setBack, 0], [to, setBack + thick("kick"), floor], {
        show: goodOneSide("kick", "-y"),
        edges: [],
      }),
    );
  }
  if (design.top.fillers !== null) {
    const dividers = parts.filter(({ role, box }) => role === "divider" && box[1][2] > ceiling - 1e-6);
    for (const strip of layFillers(
      { left, right, rear, below: height - design.top.down, above: height },
      dividers,
      design.top.fillers,
    )) {
      parts.push(part("filler", strip.id, strip.name, strip.frame, strip.lo, strip.hi, { edges: [] }));
    }
  }
  const pinRows: PinRow[] = [];
  for (const bay of bays.pinned) {
    const { rows, shelves } = layPins(
      { ...bay, front: frontTaken(design, bay.path, [...stock.values()]) },
      design.pins,
      thick("looseShelf"),
      prefix,
    );
    pinRows.push(...rows);
    for (const { id, lo, hi, standsOn } of shelves) {
      parts.push(
        part("looseShelf", id, "loose shelf", LYING, lo, hi, {
          path: bay.path,
          show: goodOneSide("looseShelf", "+z"),
          edges: [],
          standsOn,
        }),
      );
    }
  }
  return { parts, openings: bays.openings, pinRows };
}

/** An applied kick covers the edges of the notch, so that its own face stands where the toe space ends. */
function toeNotches(design: Case, kick: string, thickness: Mm): PlainNotch[] {
  if (design.kick === null) return [];
  const isApplied = design.kick.fit === "applied";
  return [
    {
      end: "-z",
      edge: "-y",
      depth: design.bottom.up,
      width: design.kick.setBack + (isApplied ? thickness : 0),
      against: isApplied ? kick : null,
      reason: isApplied ? "toe space and kick" : "toe space of the kick",
    },
  ];
}

/** Over the skirting of the wall behind. */
const skirtingNotches = ({ skirting }: Case): PlainNotch[] =>
  skirting === null
    ? []
    : [
        {
          end: "-z",
          edge: "+y",
          depth: skirting.height,
          width: skirting.depth,
          against: null,
          reason: "skirting of the wall",
        },
      ];

/** A letter, for a number would run into the part's mark: A to Z, then AA. */
const letterOf = (i: number): string =>
  `${i < 26 ? "" : letterOf(Math.floor(i / 26) - 1)}${String.fromCharCode(65 + (i % 26))}`;

/** Panels of a back in sections: in grooves from divider to divider, otherwise they meet on the middle of each divider's rear edge. */
function sectionsOf(
  columns: readonly (readonly [Mm, Mm])[],
  from: Mm,
  to: Mm,
  fit: "captured" | "rabbeted" | "applied",
): [Mm, Mm][] {
  const clear = columns.map(([a, b]): [Mm, Mm] => [a, b]);
  if (fit === "captured") return clear;
  return clear.map(([a, b], i) => [
    i === 0 ? from : (clear[i - 1]![1] + a) / 2,
    i === clear.length - 1 ? to : (b + clear[i + 1]![0]) / 2,
  ]);
}

/** Which edges of a part show, from what the job says of the case's edges. An end that enters another part never shows. */
function edgesThatShow(design: Case, role: Role): Direction[] {
  const shown: Direction[] = [];
  if (design.edges.front === "shows") shown.push("-y");
  // A back in a rabbet or applied takes the rear edges; shelves and dividers end against the back where there is one.
  const { fit } = design.back;
  const outer = role === "side" || role === "bottom" || role === "top";
  if (design.edges.back === "shows" && (fit === "none" || (fit === "captured" && outer))) shown.push("+y");
  if (role === "side" && design.edges.top === "shows" && design.top.fit !== "over") shown.push("+z");
  if (role === "side" && design.edges.bottom === "shows" && design.bottom.fit !== "under") shown.push("-z");
  return shown;
}
