/** Lengths: millimetres inside, the job's unit at the border. */

export type Mm = number;
export type Unit = "in" | "mm";

export const MM_PER_INCH = 25.4; // international inch, exact

/** Two lengths closer than this are the same length: far below a rounding step, far above float noise. */
export const SAME = 1e-6;

export const isSame = (a: Mm, b: Mm): boolean => Math.abs(a - b) < SAME;

/** The finest that a length is printed to where it is no whole fraction. */
const PRINTED: Record<Unit, Mm> = { in: MM_PER_INCH / 1000, mm: 0.01 };

/** How a length is written: a whole number with a fraction in lowest terms, or a decimal. */
export type Figure =
  | { kind: "fraction"; minus: boolean; whole: number; numerator: number; denominator: number }
  | { kind: "decimal"; text: string };

const FINEST_DENOMINATOR = 64;
const INCH_DECIMALS = 3; // a calliper's thousandth
const MM_DECIMALS = 2;

const MINUS = "\u2212"; // the sign, not a hyphen

const trimZeros = (text: string): string => (text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text);

const decimal = (text: string): Figure => ({ kind: "decimal", text: text.replace("-", MINUS) });

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** The greatest whole number of steps that is not more, as a length. */
export const floorTo = (length: Mm, step: Mm): Mm => {
  const steps = Math.floor(length / step + SAME);
  return Math.round(steps * step * 1e6) / 1e6; // rid of the noise that multiplying leaves
};

/** Halves go up, also where they are a half only but for float noise: a length is told alike wherever it was reckoned. */
const wholeSteps = (length: Mm, step: Mm): number =>
  Math.sign(length) * Math.floor(Math.abs(length) / step + 0.5 + SAME);

const inDecimals = (length: Mm, unit: Unit): string =>
  unit === "mm"
    ? (wholeSteps(length, PRINTED.mm) / 100).toFixed(MM_DECIMALS)
    : (wholeSteps(length, PRINTED.in) / 1000).toFixed(INCH_DECIMALS);

/** A length as the paper writes it: inches as a fraction where it is a whole number of 64ths, else to 0.001 in; mm to 0.01, what a calliper reads. */
export function figureOf(length: Mm, unit: Unit): Figure {
  if (unit === "mm") return decimal(trimZeros(inDecimals(length, unit)));
  const sixtyFourths = (length / MM_PER_INCH) * FINEST_DENOMINATOR;
  const nearest = Math.round(sixtyFourths);
  if (Math.abs(sixtyFourths - nearest) > 1e-4) {
    return decimal(inDecimals(length, unit));
  }
  const size = Math.abs(nearest);
  const rest = size % FINEST_DENOMINATOR;
  const shared = rest === 0 ? FINEST_DENOMINATOR : gcd(rest, FINEST_DENOMINATOR);
  return {
    kind: "fraction",
    minus: nearest < 0,
    whole: Math.floor(size / FINEST_DENOMINATOR),
    numerator: rest / shared,
    denominator: FINEST_DENOMINATOR / shared,
  };
}

/** A length as plain text in the unit, without the unit's name: "17 5/8", "0.703", "882.8". */
export function formatLength(length: Mm, unit: Unit): string {
  const figure = figureOf(length, unit);
  if (figure.kind === "decimal") return figure.text;
  const sign = figure.minus ? MINUS : "";
  if (figure.numerator === 0) return `${sign}${figure.whole}`;
  const fraction = `${figure.numerator}/${figure.denominator}`;
  return figure.whole === 0 ? `${sign}${fraction}` : `${sign}${figure.whole} ${fraction}`;
}

/** A length with its unit: "17 5/8 in", "882.8 mm". */
export const formatLengthWithUnit = (length: Mm, unit: Unit): string => `${formatLength(length, unit)} ${unit}`;

/** The second figure beside an inch fraction, where misreading one costs a part: decimal inches, e.g. "17.625". */
export const formatDecimal = (length: Mm, unit: Unit): string =>
  unit === "mm" ? formatLength(length, unit) : inDecimals(length, unit);

/** Whether the figure says the length itself: what is no fraction and has more decimals than are printed is told rounded. */
export const isToldExactly = (length: Mm, unit: Unit): boolean =>
  figureOf(length, unit).kind === "fraction" || isSame(wholeSteps(length, PRINTED[unit]) * PRINTED[unit], length);

/** A length as its figure says it: a fraction is exact, a decimal rounded to its last place. */
export const asPrinted = (length: Mm, unit: Unit): Mm =>
  figureOf(length, unit).kind === "fraction" ? length : wholeSteps(length, PRINTED[unit]) * PRINTED[unit];

/** How far what is in a groove and the gap that it leaves may be from the depth, each as printed. */
const printedWithin = (depth: Mm, unit: Unit): Mm => PRINTED[unit] * (isToldExactly(depth, unit) ? 0.5 : 1) + SAME;

/** The gap that `goesIn`, as printed, leaves of a depth: as it is where the three agree as printed, else what makes up the depth. */
export function closingGap(gap: Mm, goesIn: Mm, depth: Mm, unit: Unit): Mm {
  const rest = asPrinted(depth, unit) - goesIn;
  return Math.abs(rest - asPrinted(gap, unit)) <= printedWithin(depth, unit) ? gap : rest;
}

/**
 * The terms of "between + joints = total" as they are printed, so that they add up to the total. What is clear between has one figure on all
 * the paper, which is measured there; so the joints take what rounding leaves, that first which a last place more says best, at equal
 * rests the last.
 */
export function closingSum(between: Mm, joints: readonly Mm[], total: Mm, unit: Unit): [Mm, ...Mm[]] {
  const printed = joints.map((joint) => asPrinted(joint, unit));
  const place = PRINTED[unit];
  const added = printed.reduce((sum, joint) => sum + joint, asPrinted(between, unit));
  const lacking = asPrinted(total, unit) - added;
  // Beside a fraction half a last place may be left: no decimal has it, and to move it mends nothing.
  const isHalf = Math.abs(Math.abs(lacking) - place / 2) < SAME;
  for (let rest = isHalf ? 0 : wholeSteps(lacking, place); rest !== 0; rest -= Math.sign(rest)) {
    const sign = Math.sign(rest);
    const better = printed.map((joint, i) => sign * (joints[i]! - joint));
    // A fraction, which is exact, takes it only where no decimal is there to.
    const isDecimal = joints.map((joint) => figureOf(joint, unit).kind === "decimal");
    const free = printed.map((_, i) => i).filter((i) => isDecimal[i] || !isDecimal.includes(true));
    const most = Math.max(...free.map((i) => better[i]!));
    const at = free.findLast((i) => better[i]! > most - SAME)!;
    printed[at]! += sign * place;
  }
  return [between, ...printed];
}
