/** What to buy: sheets of each stock, and the screws of the joints that take them. */

import type { Mm, Unit } from "../base/length.ts";
import { formatLength, isSame, MM_PER_INCH } from "../base/length.ts";
import type { DryfitSet, SetJoint, SetPart, SetPurchase, SetSheet, SetStock } from "../set/schema.ts";
import { PINS } from "./drilling.ts";

export type PurchaseInput = Pick<DryfitSet, "stock" | "sheets" | "parts" | "joints" | "pieces" | "drilling"> & {
  unit: Unit;
};

export function planPurchase(input: PurchaseInput): SetPurchase[] {
  const { stock, sheets, parts, joints, unit } = input;
  return [
    ...stock.flatMap((each) => planSheetLine(each, sheets, unit)),
    ...planLippings(input),
    ...planScrews(joints, parts, unit),
    ...planDowels(joints, unit),
    ...planPins(input),
  ];
}

/** Bought so much longer than the pieces together, for the cuts and for what splits (common practice, no source). */
const OVER = 1.1;

type Piece = DryfitSet["pieces"][number];

/** Lippings by what they are, in metres or feet. */
function planLippings({ pieces, unit }: PurchaseInput): SetPurchase[] {
  const strips = pieces.filter(({ kind }) => kind === "lipping");
  const isSameKind = (a: Piece, b: Piece): boolean =>
    a.stock === b.stock && isSame(a.thickness, b.thickness) && isSame(a.width, b.width);
  const kinds = strips.filter((one, i) => strips.findIndex((other) => isSameKind(one, other)) === i);
  return kinds.map((kind): SetPurchase => {
    const { stock: name, thickness, width } = kind;
    const own = strips.filter((one) => isSameKind(one, kind));
    const length = own.reduce((sum, one) => sum + one.length, 0);
    const longest = Math.max(...own.map((one) => one.length));
    return {
      what: name,
      size: `${formatLength(thickness, unit)} thick, over ${formatLength(width, unit)} ${unit} wide`,
      quantity: Math.ceil((length * OVER) / (unit === "mm" ? 1000 : 12 * MM_PER_INCH)),
      unit: unit === "mm" ? "m" : "ft",
      price: null,
      note: `${own.length} ${own.length === 1 ? "piece" : "pieces"}, the longest ${formatLength(longest, unit)} ${unit}; a tenth over, flushed to the panel after the glue`,
    };
  });
}

function planDowels(joints: readonly SetJoint[], unit: Unit): SetPurchase[] {
  const dowelled = joints.flatMap(({ fasteners }) => (fasteners?.size ? [{ ...fasteners.size, fasteners }] : []));
  const kinds = [...new Set(dowelled.map(({ diameter, length }) => JSON.stringify([diameter, length])))];
  return kinds.map((kind): SetPurchase => {
    const [diameter, length] = JSON.parse(kind) as [Mm, Mm];
    const own = dowelled.filter((one) => one.diameter === diameter && one.length === length);
    return {
      what: "Dowels, fluted",
      size: `${formatLength(diameter, unit)} x ${formatLength(length, unit)} ${unit}`,
      quantity: own.reduce((sum, { fasteners }) => sum + fasteners.positions.length, 0),
      unit: "dowels",
      price: null,
      note: `${own.length === 1 ? "one joint" : `${own.length} joints`}; the holes are on the drilling page`,
    };
  });
}

const PINS_A_SHELF = 4;

/** Four for each loose shelf, as thick as the holes are wide: one value at hole and list. */
function planPins({ parts, joints, drilling, unit }: PurchaseInput): SetPurchase[] {
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
      size: `${formatLength(diameter, unit)} ${unit}`,
      quantity: PINS_A_SHELF * own.length,
      unit: "pins",
      price: null,
      note: `${PINS_A_SHELF} for each of ${own.length} loose ${own.length === 1 ? "shelf" : "shelves"}; measure the pin itself before drilling`,
    };
  });
}

function planSheetLine(stock: SetStock, sheets: readonly SetSheet[], unit: Unit): SetPurchase[] {
  const own = sheets.filter((sheet) => sheet.stock === stock.id);
  const [first] = own;
  if (!first) return [];
  const { length, width } = stock.sheet;
  const used = own.flatMap((sheet) => sheet.parts).reduce((sum, part) => sum + part.length * part.width, 0);
  const share = Math.round((100 * used) / (own.length * length * width));
  const each = stock.price === null ? "" : `; ${stock.price.toFixed(2)} each`;
  return [
    {
      what: stock.name,
      size: `${[length, width, stock.nominal].map((size) => formatLength(size, unit)).join(" x ")} ${unit}`,
      quantity: own.length,
      unit: own.length === 1 ? "sheet" : "sheets",
      price: stock.price === null ? null : Math.round(own.length * stock.price * 100) / 100,
      note: `${first.boundText}; parts take ${share} %${each}`,
    },
  ];
}

/** One screw about every 150 mm, 6 in, and two at least, so that the joint cannot turn: common practice, no source. */
export const SCREW_SPACING: Record<Unit, Mm> = { mm: 150, in: 6 * MM_PER_INCH };
const FEWEST = 2;
/** What a screw should hold in the edge of plywood, 25 mm or 1 in: common practice, no source. */
const HOLD: Record<Unit, Mm> = { mm: 25, in: MM_PER_INCH };
/** Screws are sold in steps of 5 mm or 1/4 in. */
const SOLD: Record<Unit, Mm> = { mm: 5, in: MM_PER_INCH / 4 };

/** Screws by their length: long enough for what they go through and the hold beyond it. */
function planScrews(joints: readonly SetJoint[], parts: readonly SetPart[], unit: Unit): SetPurchase[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const byLength = new Map<Mm, { count: number; joints: number }>();
  for (const joint of joints) {
    if (!joint.fixings.includes("screws")) continue;
    const entering = byMark.get(joint.entering)!;
    const receiving = byMark.get(joint.receiving)!;
    // A screw goes through the part that offers its face, into the edge or end of the other.
    const isThroughReceiving = joint.receivingFace.startsWith("t");
    const through = isThroughReceiving ? receiving : entering;
    const run = isThroughReceiving ? runOf(entering, joint.enteringEnd) : runOf(receiving, joint.receivingFace);
    const steps = Math.ceil((through.thickness + HOLD[unit]) / SOLD[unit] - 1e-6);
    const length = steps * SOLD[unit];
    const line = byLength.get(length) ?? { count: 0, joints: 0 };
    byLength.set(length, {
      count:
        line.count + (joint.fasteners?.positions.length ?? Math.max(FEWEST, Math.floor(run / SCREW_SPACING[unit]) + 1)),
      joints: line.joints + 1,
    });
  }
  return [...byLength]
    .sort(([a], [b]) => a - b)
    .map(([length, { count, joints: taking }]) => ({
      what: "Screws for the edge of plywood",
      size: `${formatLength(length, unit)} ${unit}`,
      quantity: count,
      unit: "screws",
      price: null,
      note: `${taking === 1 ? "one joint" : `${taking} joints`}, a screw about every ${formatLength(SCREW_SPACING[unit], unit)} ${unit}; drill for the shank and the thread`,
    }));
}

/** How long an end or edge is: an end runs across the part, an edge along it. */
const runOf = (part: SetPart, face: string): Mm => (face.startsWith("l") ? part.width : part.length);
