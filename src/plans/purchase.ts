/** What to buy: sheets of each stock, lippings, screws, dowels and pins, what fixes cases where they stand, glue and finish. */

import type { Mm, Unit } from "../base/length.ts";
import { formatLength, formatLengthWithUnit, isSame, MM_PER_INCH } from "../base/length.ts";
import { boardFeet, quartersOf } from "../base/lumber.ts";
import { listInWords } from "../base/words.ts";
import type { GlueTime } from "../project/project.ts";
import type { DryfitSet, SetHardware, SetJoint, SetPart, SetPurchase, SetSheet } from "../set/schema.ts";
import { type BoardStock, isBoardStock, isSheetStock, type SheetStock } from "../set/stock.ts";
import { PINS } from "./drilling.ts";
import { pinnedBacks, runOf, SCREW_SPACING, screwsOf } from "./screws.ts";
import { planStandings, type Standing } from "./standing.ts";

export type PurchaseInput = Pick<
  DryfitSet,
  | "stock"
  | "sheets"
  | "boards"
  | "parts"
  | "joints"
  | "hardware"
  | "pieces"
  | "drilling"
  | "assemblies"
  | "orders"
  | "finishes"
  | "worktops"
> & {
  unit: Unit;
  glue: GlueTime | null;
};

export function planPurchase(input: PurchaseInput): SetPurchase[] {
  const { stock, sheets, boards, joints, pieces, unit } = input;
  return [
    ...stock.filter(isSheetStock).flatMap((each) => planSheetLine(each, sheets, unit)),
    ...stock.filter(isBoardStock).flatMap((each) => planBoardLine(each, pieces, boards, unit)),
    ...planLippings(input),
    ...planScrews(input),
    ...planPanelPins(input),
    ...planDowels(joints, unit),
    ...planTenons(joints, unit),
    ...planPins(input),
    ...planHardwareLines(input),
    ...planWallFixings(input),
    ...planGlue(input),
    ...planFinishLines(input),
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

/** Loose tenons by size, and the strip that they are cut from: bought, or planed from what is left of the frame's own boards. */
function planTenons(joints: readonly SetJoint[], unit: Unit): SetPurchase[] {
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

/** Hardware of one kind and size on one line, with what it is for. */
function planHardwareLines({ hardware, unit }: PurchaseInput): SetPurchase[] {
  const sizeOf = ({ sizes }: SetHardware): string =>
    sizes.length === 0 ? "" : `${sizes.map((size) => formatLength(size, unit)).join(" x ")} ${unit}`;
  const kindOf = (one: SetHardware): string => JSON.stringify([one.what, sizeOf(one), one.unit]);
  return [...new Set(hardware.map(kindOf))].map((kind): SetPurchase => {
    const own = hardware.filter((one) => kindOf(one) === kind);
    const first = own[0]!;
    return {
      what: first.what,
      size: sizeOf(first),
      quantity: own.reduce((sum, { count }) => sum + count, 0),
      unit: first.unit,
      price: null,
      note: `${listInWords([...new Set(own.map(({ use }) => use))])}; measure it, whatever the catalogue says, before a hole is drilled`,
    };
  });
}

/** A line for each size that is bought, then what is fetched from the rack. */
function planSheetLine(stock: SheetStock, sheets: readonly SetSheet[], unit: Unit): SetPurchase[] {
  const own = sheets.filter((sheet) => sheet.stock === stock.id);
  const sizes = [{ ...stock.sheet, price: stock.price }, ...stock.sizes];
  const lines = sizes.flatMap(({ length, width, price }): SetPurchase[] => {
    const bought = own.filter((one) => one.offcut === null && isSame(one.length, length) && isSame(one.width, width));
    const [first] = bought;
    if (!first) return [];
    const used = bought.flatMap((sheet) => sheet.parts).reduce((sum, part) => sum + part.length * part.width, 0);
    const share = Math.round((100 * used) / (bought.length * length * width));
    const each = price === null ? "" : `; ${price.toFixed(2)} each`;
    return [
      {
        what: stock.name,
        size: `${[length, width, stock.nominal].map((size) => formatLength(size, unit)).join(" x ")} ${unit}`,
        quantity: bought.length,
        unit: bought.length === 1 ? "sheet" : "sheets",
        price: price === null ? null : Math.round(bought.length * price * 100) / 100,
        note: `${first.boundText}; parts take ${share} %${each}`,
      },
    ];
  });
  return [...lines, ...planRackLine(stock, own)];
}

/** Nothing to buy, but to be fetched before the saw is set up. */
function planRackLine({ name }: SheetStock | BoardStock, laid: readonly SetSheet[]): SetPurchase[] {
  const labels = laid.flatMap(({ offcut }) => (offcut === null ? [] : [offcut]));
  if (labels.length === 0) return [];
  return [
    {
      what: `${name}, from the rack`,
      size: labels.length === 1 ? "as it is labelled" : "as they are labelled",
      quantity: labels.length,
      unit: labels.length === 1 ? "offcut" : "offcuts",
      price: null,
      note: `not to buy: ${listInWords(labels.map((label) => `"${label}"`))}; measure each before the rest is bought`,
    },
  ];
}

/** Boards as they are laid out, or more of them where knots and splits are reckoned with; what is bought against what the parts take. */
function planBoardLine(
  stock: BoardStock,
  pieces: DryfitSet["pieces"],
  laid: readonly SetSheet[],
  unit: Unit,
): SetPurchase[] {
  const mine = laid.filter((board) => board.stock === stock.id);
  const rack = planRackLine(stock, mine);
  const fromRack = new Set(mine.flatMap(({ offcut, parts }) => (offcut === null ? [] : parts.map(({ id }) => id))));
  const own = pieces.filter((piece) => piece.stock === stock.id && piece.kind === "board" && !fromRack.has(piece.id));
  const count = mine.filter(({ offcut }) => offcut === null).length;
  if (own.length === 0) return rack;
  if (stock.boards.dressed) return [planLumberLine(stock, own, unit), ...rack];
  const { rough, length, width, spare } = stock.boards;
  const measure = (piece: { length: Mm; width: Mm; thickness: Mm }): number =>
    unit === "in" ? boardFeet(piece) : (piece.length * piece.width * piece.thickness) / 1e9;
  const takes = own.reduce((sum, piece) => sum + measure(piece), 0);
  const each = measure({ length, width, thickness: rough });
  const quantity = Math.max(count, Math.ceil((takes * (1 + spare)) / each - 1e-9));
  const shown = (amount: number): string =>
    unit === "in" ? `${amount.toFixed(1)} board feet` : `${amount.toFixed(3)} m3`;
  const quarters = unit === "in" ? quartersOf(rough) : null;
  const longest = Math.max(...own.map((piece) => piece.length));
  const widest = Math.max(...own.map((piece) => piece.width));
  const more = quantity > count ? `, ${quantity - count} of them for knots and splits` : "";
  return [
    {
      what: stock.name,
      size: `${quarters === null ? "" : `${quarters.quarters}, `}${[length, width, rough].map((size) => formatLength(size, unit)).join(" x ")} ${unit} in the rough, planed to ${formatLength(stock.nominal, unit)}`,
      quantity,
      unit: quantity === 1 ? "board" : "boards",
      price: stock.price === null ? null : Math.round(quantity * each * stock.price * 100) / 100,
      note: `${shown(quantity * each)} bought${more}; the parts take ${shown(takes)} in the rough, ${own.length} pieces, the longest ${formatLengthWithUnit(longest, unit)}, the widest ${formatLengthWithUnit(widest, unit)}; other lengths and widths will do that hold these`,
    },
    ...rack,
  ];
}

/** Lumber that is bought planed goes by the running length. */
function planLumberLine({ name, boards }: BoardStock, own: DryfitSet["pieces"], unit: Unit): SetPurchase {
  const length = own.reduce((sum, piece) => sum + piece.length, 0) * (1 + boards.spare);
  const longest = Math.max(...own.map((piece) => piece.length));
  return {
    what: name,
    size: `${formatLength(boards.rough, unit)} x ${formatLength(boards.width, unit)} ${unit}, planed`,
    quantity: Math.ceil(length / (unit === "mm" ? 1000 : 12 * MM_PER_INCH) - 1e-9),
    unit: unit === "mm" ? "m" : "ft",
    price: null,
    note: `${own.length} pieces, the longest ${formatLengthWithUnit(longest, unit)}; ${Math.round(100 * boards.spare)} % more than they take; straight and dry`,
  };
}

type Line = { length: Mm; count: number };

/** Screws by their length and by where they go: into edges, or from face to face, of joints and of what stands on or beside what. */
function planScrews({ joints, parts, assemblies, unit }: PurchaseInput): SetPurchase[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const screwed = joints.flatMap((joint) => screwsOf(joint, byMark, unit) ?? []);
  const standings = planStandings({ assemblies, parts, unit });
  const rows = standings.flatMap((one) =>
    one.kind === "wall" ? [] : one.screws.map((row) => ({ ...row, where: titleOf(one) })),
  );
  const edges = screwed.filter(({ flat }) => !flat);
  const faces = screwed.filter(({ flat }) => flat);
  const spacing = `a screw about every ${formatLength(SCREW_SPACING[unit], unit)} ${unit}`;
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
  return [
    ...line(
      "Screws for the edge of plywood",
      edges,
      (own) => `${jointsOf(own)}, ${spacing}; drill for the shank and the thread`,
    ),
    ...line(
      "Screws from face to face",
      faces,
      (own) => `${jointsOf(own)}, ${spacing}; no longer, or their points come out`,
    ),
    ...line(
      "Screws to fix cases where they stand",
      rows,
      (own) => `${[...new Set(own.map(({ where }) => where))].join("; ")}; the steps say where`,
    ),
  ];
}

/** "case on case plinth", "clay locker 1 to wedging stand". */
function titleOf(standing: Exclude<Standing, { kind: "wall" }>): string {
  if (standing.kind === "beside") return `${standing.right} to ${standing.left}`;
  const names = (end: "upper" | "lower"): string => listInWords([...new Set(standing.seats.map((seat) => seat[end]))]);
  return `${names("upper")} on ${names("lower")}`;
}

/** Thin backs in rabbets. */
function planPanelPins({ joints, parts, unit }: PurchaseInput): SetPurchase[] {
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

/** For what is tall: the wall says which. */
function planWallFixings({ assemblies, parts, unit }: PurchaseInput): SetPurchase[] {
  const walls = planStandings({ assemblies, parts, unit }).flatMap((one) => (one.kind === "wall" ? [one] : []));
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

/** Glue on both faces of a joint, for each square metre of it: 200 ml (common practice, no source; data sheets give 150 to 200 g). */
const GLUE: Record<Unit, { spread: number; step: number; unit: string }> = {
  mm: { spread: 200, step: 50, unit: "ml" },
  in: { spread: 200 / 29.5735, step: 1, unit: "fl oz" }, // US fluid ounce, 29.5735 ml
};

/** No maker's name: how much, and how long it must stay open. */
function planGlue({ joints, parts, orders, pieces, worktops, unit, glue }: PurchaseInput): SetPurchase[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const jointed = joints
    .filter(({ fixings }) => fixings.startsWith("glue"))
    .reduce((sum, joint) => sum + areaOf(joint, byMark), 0);
  const lipped = pieces
    .filter(({ kind }) => kind === "lipping")
    .reduce((sum, { length, width }) => sum + length * width, 0);
  const boarded = worktops.reduce(
    (sum, { glued, mark }) =>
      glued === null ? sum : sum + (glued.boards.length - 1) * glued.length * byMark.get(mark)!.thickness,
    0,
  );
  const area = (jointed + lipped + boarded) / 1e6;
  if (area === 0) return [];
  const { spread, step, unit: measure } = GLUE[unit];
  const longest = Math.max(0, ...orders.flatMap(({ glueUps }) => glueUps.map(({ minutes }) => minutes ?? 0)));
  const open = glue === null ? null : Math.max(glue.openMinutes, Math.ceil(longest));
  const shown =
    unit === "mm" ? `${area.toFixed(2)} m2` : `${((area * 1e6) / (12 * MM_PER_INCH) ** 2).toFixed(1)} sq ft`;
  return [
    {
      what: "Wood glue",
      size: open === null ? "open time to suit the glue-ups" : `open time ${open} minutes or more`,
      quantity: Math.ceil((area * spread) / step) * step,
      unit: measure,
      price: null,
      note: `about ${shown} of joints${boarded > 0 ? ", boards" : ""} and lippings`,
    },
  ];
}

/** A tenth over, for what stays in tin and brush (common practice, no source). */
const FINISH_OVER = 1.1;
/** Tins are filled by the tenth of a litre, or by half a US liquid pint, 0.236588 l. */
const TIN: Record<Unit, { litres: number; unit: string; each: number }> = {
  mm: { litres: 0.1, unit: "l", each: 0.1 },
  in: { litres: 0.2365882365, unit: "qt", each: 0.25 },
};

function planFinishLines({ finishes, unit }: PurchaseInput): SetPurchase[] {
  const { litres: tin, unit: measure, each } = TIN[unit];
  return finishes.map(({ name, area, coats, litres }): SetPurchase => {
    const shown =
      unit === "mm" ? `${area.toFixed(1)} m2` : `${((area * 1e6) / (12 * MM_PER_INCH) ** 2).toFixed(0)} sq ft`;
    return {
      what: name,
      size: coats === 1 ? "one coat" : `${coats} coats`,
      quantity: Math.round(Math.ceil((litres * FINISH_OVER) / tin - 1e-9) * each * 100) / 100,
      unit: measure,
      price: null,
      note: `${shown} a coat, a tenth over`,
    };
  });
}

/** What glue is spread over, in mm2: where one goes into the other, the floor and both walls; else where they meet. */
function areaOf(joint: SetJoint, byMark: ReadonlyMap<string, SetPart>): number {
  const { enteringEnd, receivingFace, depth } = joint;
  const part = byMark.get(joint.entering)!;
  const other = byMark.get(joint.receiving)!;
  if (enteringEnd.startsWith("t")) return part.length * part.width;
  const across = receivingFace.startsWith("t") ? part.thickness : Math.min(part.thickness, other.thickness);
  return runOf(part, enteringEnd, other) * (across + 2 * depth);
}
