/** The thicknesses that a stock may well measure at the yard: an even row that a calliper reads, around what it was measured and what its standard allows. */
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";
import type { Stock } from "../project/stock.ts";

/** What a calliper is read to without doubt, and a row of thicknesses goes by: a tenth of a millimetre, five thousandths of an inch. */
export const TICK: Record<Unit, Mm> = { mm: 0.1, in: MM_PER_INCH / 200 };
const COLUMNS = 5;

/** Where no standard is given: panels measure nominal or up to a sixteenth of an inch less (3/4 in: 0.703 to 0.750, often 11/16; WOOD magazine), a thin one not so far. */
const UNDER: Mm = MM_PER_INCH / 16;
const UNDER_SHARE = 1 / 8;

type Measured = Pick<Stock, "nominal" | "thickness" | "readings" | "limits">;

/** Five, the thinnest first: whole ticks apart, with every reading between the outer two and all that the standard allows. */
export function likelyThicknesses({ nominal, thickness, readings, limits }: Measured, unit: Unit): Mm[] {
  const tick = TICK[unit];
  const known = [...readings, thickness];
  const least = limits?.least ?? nominal - Math.min(UNDER, nominal * UNDER_SHARE);
  const most = limits?.most ?? nominal;
  // Between two columns, so that a reading a little off has a neighbour on either side.
  const low = Math.min(Math.floor((least + SAME) / tick), Math.ceil((Math.min(...known) - SAME) / tick) - 1);
  const high = Math.max(Math.ceil((most - SAME) / tick), Math.floor((Math.max(...known) + SAME) / tick) + 1);
  const apart = Math.ceil((high - low) / (COLUMNS - 1));
  return Array.from({ length: COLUMNS }, (_, i) => (firstColumn(low, high, apart) + i * apart) * tick);
}

/** In ticks: a whole number of steps where the row still reaches, so that the figures are round; else in the middle. Never nothing. */
function firstColumn(low: number, high: number, apart: number): number {
  const span = (COLUMNS - 1) * apart;
  const round = Math.floor(low / apart) * apart;
  return Math.max(1, round + span >= high ? round : low - Math.floor((span - (high - low)) / 2));
}
