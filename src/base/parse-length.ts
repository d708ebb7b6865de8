/** Reads a length as a maker writes it: 18, "3 1/4", "3-1/4", "23/32", "18 mm", "0.75 in", 5'2 1/2". Exact: whole numbers over whole numbers. */
import type { Mm, Unit } from "./length.ts";

export type ParsedLength = { ok: true; mm: Mm } | { ok: false; remedy: string };

/** A quantity as numerator over denominator: floating point would make 3/8 in something else than 9.525 mm. */
type Ratio = { over: bigint; under: bigint };

const TRY_PLAIN = 'write it like 30, "30 1/4", "23/32", "18 mm" or "0.75 in"';

// Millimetres in one of each; 25.4 and 304.8 as whole tenths, exact by the definition of the inch.
const UNITS: Record<string, Ratio> = {
  mm: { over: 1n, under: 1n },
  cm: { over: 10n, under: 1n },
  m: { over: 1000n, under: 1n },
  in: { over: 254n, under: 10n },
  ft: { over: 3048n, under: 10n },
};
const OTHER_NAMES: Record<string, string> = {
  '"': "in",
  inch: "in",
  inches: "in",
  "'": "ft",
  foot: "ft",
  feet: "ft",
};

const GLYPHS: Record<string, string> = {
  "¼": "1/4",
  "½": "1/2",
  "¾": "3/4",
  "⅐": "1/7",
  "⅑": "1/9",
  "⅒": "1/10",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅕": "1/5",
  "⅖": "2/5",
  "⅗": "3/5",
  "⅘": "4/5",
  "⅙": "1/6",
  "⅚": "5/6",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

const LONGEST_TEXT = 40; // far beyond any length; keeps a page of digits from being reckoned with
const NUMBER = /^(?:(?:(\d+)(?: ?- ?| ))?(\d+) ?\/ ?(\d+)|(\d+(?:\.\d+)?|\.\d+))$/;
const WITH_UNIT = /^(.*?) ?(mm|cm|m|in|inch|inches|"|ft|foot|feet|')$/;
const FEET_AND_INCHES = /^(\d+) ?(?:'|ft|foot|feet)(?: ?- ?| ?)([\d][\d ./-]*?) ?(?:"|in|inch|inches)?$/;

/** Typographic quotes, dashes, spaces and one-glyph fractions as their plain typewriter forms. */
function plainText(text: string): string {
  return text
    .replace(/[¼½¾⅐-⅞]/gu, (glyph) => ` ${GLYPHS[glyph] ?? glyph} `)
    .replace(/[⁄∕]/gu, "/")
    .replace(/''|′′|’’/gu, '"')
    .replace(/[″“”„]/gu, '"')
    .replace(/[′‘’]/gu, "'")
    .replace(/[‐‑‒–−]/gu, "-")
    .replace(/\s+/gu, " ")
    .trim()
    .toLowerCase();
}

/** "3 1/4", "3-1/4", "23/32", "0.75", ".75"; null for anything else, a zero denominator and "3 5/4" included. */
function readQuantity(text: string): Ratio | null {
  const match = NUMBER.exec(text);
  if (match === null) return null;
  const [, whole, top, bottom, decimal] = match;
  if (decimal !== undefined) {
    const [integer = "", fraction = ""] = decimal.split(".");
    return { over: BigInt(`${integer}${fraction}`), under: 10n ** BigInt(fraction.length) };
  }
  const over = BigInt(top ?? "0");
  const under = BigInt(bottom ?? "0");
  if (under === 0n || (whole !== undefined && over >= under)) return null;
  return { over: over + BigInt(whole ?? "0") * under, under };
}

const DECIMALS = 20; // beyond what a double holds, so that the double is the nearest to the true value

function toMm(minus: boolean, quantity: Ratio, unit: Ratio): Mm {
  const over = quantity.over * unit.over;
  const under = quantity.under * unit.under;
  const scaled = (over * 10n ** BigInt(DECIMALS)) / under;
  const digits = scaled.toString().padStart(DECIMALS + 1, "0");
  const mm = Number(`${digits.slice(0, -DECIMALS)}.${digits.slice(-DECIMALS)}`);
  return minus && mm !== 0 ? -mm : mm;
}

/** A JSON number's digits, without the exponent that very large and very small ones are written with. */
function numberText(value: number): string | null {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) return null;
  const text = String(Math.abs(value));
  return text.includes("e") ? Math.abs(value).toFixed(DECIMALS) : text;
}

const refuse = (remedy: string): ParsedLength => ({ ok: false, remedy });

function readFeetAndInches(text: string): Ratio | null {
  const match = FEET_AND_INCHES.exec(text);
  if (match === null) return null;
  const inches = readQuantity((match[2] ?? "").trim());
  if (inches === null || inches.over >= 12n * inches.under) return null;
  return { over: BigInt(match[1] ?? "0") * 12n * inches.under + inches.over, under: inches.under };
}

/** A length in millimetres; a bare number is in the unit given. Says what to write instead where it cannot be read. */
export function parseLength(value: number | string, unit: Unit): ParsedLength {
  const bare = UNITS[unit]!;
  if (typeof value === "number") {
    const text = numberText(value);
    const quantity = text === null ? null : readQuantity(text);
    return quantity === null ? refuse(TRY_PLAIN) : { ok: true, mm: toMm(value < 0, quantity, bare) };
  }
  if (value.length > LONGEST_TEXT) return refuse(TRY_PLAIN);
  const plain = plainText(value);
  const minus = plain.startsWith("-");
  const text = minus ? plain.slice(1).trim() : plain;

  const feet = readFeetAndInches(text);
  if (feet !== null) return { ok: true, mm: toMm(minus, feet, UNITS.in!) };

  const named = WITH_UNIT.exec(text);
  const quantity = readQuantity((named?.[1] ?? text).trim());
  if (quantity === null) {
    return refuse(/^\d+,\d+/.test(text) ? `write a decimal with a point: "${text.replace(",", ".")}"` : TRY_PLAIN);
  }
  if (named === null && unit === "mm" && text.includes("/")) {
    // Nobody rules in fractions of a millimetre: 23/32 in a mm job is an inch figure that would come out at 0.7 mm.
    return refuse(`name its unit: "${text} in"`);
  }
  const name = named?.[2];
  return { ok: true, mm: toMm(minus, quantity, name === undefined ? bare : UNITS[OTHER_NAMES[name] ?? name]!) };
}

/** A length that a check has read before. */
export function lengthOf(value: number | string, unit: Unit): Mm {
  const parsed = parseLength(value, unit);
  if (!parsed.ok) throw new Error(`Length ${JSON.stringify(value)} was checked before, and cannot be read`);
  return parsed.mm;
}
