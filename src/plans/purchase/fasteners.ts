/** What holds parts together beside the glue: dowels, tenons, screws, pins, and what fixes cases to each other and to the wall. */

import type { Mm, Unit } from "../../base/length.ts";
import { formatLength, MM_PER_INCH } from "../../base/length.ts";
import { soldSize } from "../../base/sold.ts";
import { listInWords } from "../../base/words.ts";
import type { SetJoint, SetPurchase } from "../../set/schema.ts";
import { PINS } from "../drilling.ts";
import { pinnedBacks, SCREW_SPACING, type Screwed, screwsOf } from "../screws.ts";
import { planStandings, RAIL_SAID, type Standing } from "../standing.ts";
import { OVER, type PurchaseInput } from "./input.ts";

export function planDowels(joints: readonly SetJoint[], unit: Unit): SetPurchase[] {
  const dowelled = joints.flatMap(({ fasteners }) => (fasteners?.size ? [{ ...fasteners.size, fasteners }] : []));
  const kinds = [...new Set(dowelled.map(({ diameter, length }) => JSON.stringify([diameter, length])))];
  return kinds.map((kind): SetPurchase => {
    const [diameter, length] = JSON.parse(kind) as [Mm, Mm];
    const own = dowelled.filter((one) => one.diameter === diameter && one.length === length);
    return {
      what: "Dowels, fluted",
      size: soldSize([diameter, length], unit),
      quantity: own.reduce((sum, { fasteners }) => sum + fasteners.positions.length, 0),
      unit: "dowels",
      price: null,
      note: `${own.length === 1 ? "one joint" : `${own.length} joints`}; the holes are on the drilling page`,
    };
  });
}

/** Loose tenons by size, and the strip that they are cut from: bought, or planed from what is left of the frame's own boards. */
export function planTenons(joints: readonly SetJoint[], unit: Unit): SetPurchase[] {
  const all = joints.flatMap(({ fasteners }) =>
    fasteners?.tenon ? [{ ...fasteners.tenon, count: fasteners.positions.length }] : [],
  );
  const sizeOf = ({ thickness, width, length }: (typeof all)[number]): string =>
    `${[thickness, width, length].map((size) => formatLength(size, unit)).join(" x ")} ${unit}`;
  return [...new Set(all.map(sizeOf))].map((size): SetPurchase => {
    const own = all.filter((one) => sizeOf(one) === size);
    const quantity = own.reduce((sum, { count }) => sum + count, 0);
    const strip = quantity * own[0]!.length * OVER;
    return {
      what: "Loose tenons, hardwood",
      size,
      quantity,
      unit: quantity === 1 ? "tenon" : "tenons",
      price: null,
      note: `${own.length === 1 ? "one joint" : `${own.length} joints`}; or ${formatLength(unit === "mm" ? Math.ceil(strip / 10) * 10 : Math.ceil(strip / MM_PER_INCH) * MM_PER_INCH, unit)} ${unit} of strip planed to ${formatLength(own[0]!.thickness, unit)} and ripped to ${formatLength(own[0]!.width, unit)}, edges rounded, a tenth over: it slides into a mortise in a scrap by hand`,
    };
  });
}

const PINS_A_SHELF = 4;

/** Four for each loose shelf, as thick as the holes are wide: one value at hole and list. */
export function planPins({ parts, joints, drilling, unit }: PurchaseInput): SetPurchase[] {
  const shelves = parts.filter(({ role }) => role === "looseShelf");
  const sizes = [...new Set(drilling.filter(({ holds }) => holds === PINS).map(({ diameter }) => diameter))];
  const rowsOf = (mark: string): string[] =>
    joints.flatMap(({ entering, receiving, kind }) => (entering === mark && kind === "pin" ? [receiving] : []));
  return sizes.map((diameter): SetPurchase => {
    const drilled = drilling.filter((one) => one.holds === PINS && one.diameter === diameter);
    const marks = new Set(drilled.flatMap(({ rows }) => rows.map(({ mark }) => mark)));
    const own = shelves.filter(({ mark }) => rowsOf(mark).some((receiving) => marks.has(receiving)));
    return {
      what: "Shelf pins",
      size: soldSize([diameter], unit),
      quantity: PINS_A_SHELF * own.length,
      unit: "pins",
      price: null,
      note: `${PINS_A_SHELF} for each of ${own.length} loose ${own.length === 1 ? "shelf" : "shelves"}; measure the pin itself before drilling`,
    };
  });
}

type Line = { length: Mm; count: number };

/** Screws by their length and by where they go: into edges, or from face to face, of joints and of what stands on or beside what. */
export function planScrews({ joints, parts, assemblies, stock, unit }: PurchaseInput): SetPurchase[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const screwed = joints.flatMap((joint) => screwsOf(joint, byMark, unit) ?? []);
  const standings = planStandings({ assemblies, parts, unit });
  const rows = standings.flatMap((one) =>
    one.kind === "wall" || one.kind === "hang" ? [] : one.screws.map((row) => ({ ...row, where: titleOf(one) })),
  );
  const edges = screwed.filter(({ flat }) => !flat);
  const faces = screwed.filter(({ flat }) => flat);
  const spacing = (own: readonly Screwed[]): string =>
    own.every(({ placed }) => placed) ? "" : `, a screw about every ${formatLength(SCREW_SPACING[unit], unit)} ${unit}`;
  const line = <T extends Line>(
    what: string,
    all: readonly T[],
    noteOf: (own: readonly T[]) => string,
  ): SetPurchase[] =>
    [...new Set(all.map(({ length }) => length))]
      .sort((a, b) => a - b)
      .map((length) => {
        const own = all.filter((one) => one.length === length);
        return {
          what,
          size: `${formatLength(length, unit)} ${unit}`,
          quantity: own.reduce((sum, { count }) => sum + count, 0),
          unit: "screws",
          price: null,
          note: noteOf(own),
        };
      });
  const jointsOf = (own: readonly Line[]): string => (own.length === 1 ? "one joint" : `${own.length} joints`);
  const isSolid = ({ into }: Screwed): boolean => stock.some(({ id, solid }) => solid && id === into.material);
  const edgeNote = (own: readonly Screwed[]): string =>
    `${jointsOf(own)}${spacing(own)}; drill for the shank and the thread`;
  return [
    ...line(
      "Screws for the edge of plywood",
      edges.filter((one) => !isSolid(one)),
      edgeNote,
    ),
    ...line("Screws for ends and edges of solid wood", edges.filter(isSolid), edgeNote),
    ...line(
      "Screws from face to face",
      faces,
      (own) => `${jointsOf(own)}${spacing(own)}; no longer, or their points come out`,
    ),
    ...line(
      "Screws to fix cases where they stand",
      rows,
      (own) => `${[...new Set(own.map(({ where }) => where))].join("; ")}; the steps say where`,
    ),
  ];
}

/** "case on case plinth", "clay locker 1 to wedging stand". */
function titleOf(standing: Exclude<Standing, { kind: "wall" | "hang" }>): string {
  if (standing.kind === "beside") return `${standing.right} to ${standing.left}`;
  const names = (end: "upper" | "lower"): string => listInWords([...new Set(standing.seats.map((seat) => seat[end]))]);
  return `${names("upper")} on ${names("lower")}`;
}

/** Thin backs in rabbets. */
export function planPanelPins({ joints, parts, unit }: PurchaseInput): SetPurchase[] {
  const pinned = pinnedBacks(joints, new Map(parts.map((part) => [part.mark, part])), unit);
  const lengths = [...new Set(pinned.map(({ length }) => length))].sort((a, b) => a - b);
  return lengths.map((length): SetPurchase => {
    const own = pinned.filter((one) => one.length === length);
    return {
      what: "Panel pins",
      size: `${formatLength(length, unit)} ${unit}`,
      quantity: own.reduce((sum, { count }) => sum + count, 0),
      unit: "pins",
      price: null,
      note: "backs in their rabbets, all round",
    };
  });
}

/** For what is tall, or hangs: the wall says which. */
export function planWallFixings({ assemblies, parts, unit }: PurchaseInput): SetPurchase[] {
  const standings = planStandings({ assemblies, parts, unit });
  const walls = standings.flatMap((one) => (one.kind === "wall" ? [one] : []));
  const hung = standings.flatMap((one) => (one.kind === "hang" ? [one] : []));
  const railed = hung.filter(({ through }) => through === null);
  const rails = railed.map(({ case: name }): SetPurchase => {
    const [width] = assemblies.find((one) => one.name === name)!.size;
    return {
      what: "Rail on the wall, solid wood",
      size: `${formatLength(width, unit)} ${unit} long, ${RAIL_SAID[unit]} or more`,
      quantity: 1,
      unit: "rail",
      price: null,
      note: `${name} rests on it; cut where it hangs`,
    };
  });
  const hanging = hung.map(
    ({ case: name, through, count }): SetPurchase => ({
      what: through === null ? "Wall fixings, half with brackets" : "Wall fixings",
      size: "to suit the wall and the load",
      quantity: 2 * count,
      unit: "fixings",
      price: null,
      note: `${name}, which hangs: the steps say what they carry`,
    }),
  );
  return [...rails, ...hanging, ...anchors(walls)];
}

function anchors(walls: readonly Extract<Standing, { kind: "wall" }>[]): SetPurchase[] {
  if (walls.length === 0) return [];
  const brackets = walls.some(({ through }) => through === null);
  return [
    {
      what: brackets ? "Wall fixings, with brackets" : "Wall fixings",
      size: "to suit the wall",
      quantity: walls.reduce((sum, { count }) => sum + count, 0),
      unit: "fixings",
      price: null,
      note: `${listInWords(walls.map((one) => one.case))}: tall enough to tip, so anchored before it is loaded`,
    },
  ];
}
