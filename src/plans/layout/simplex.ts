/** A linear programme of a few dozen rows, solved by columns that are found as they are needed (G. Dantzig's simplex method, inverse kept). */

/** What a column costs and what it puts in each row. */
export type Column = { cost: number; rows: Float64Array };

const SURE = 1e-9;

/** Least cost of columns that add up to at least `wanted` in every row; begins with as many columns as rows, which must be independent. */
export class Simplex {
  private readonly basis: Column[];
  private readonly inverse: Float64Array[]; // of the basis, row by row
  private readonly amounts: Float64Array;
  private readonly size: number;

  /** `start`: lower triangular, with amounts of zero or more. */
  constructor(wanted: Float64Array, start: readonly Column[]) {
    this.size = wanted.length;
    this.basis = [...start];
    this.inverse = invertedTriangle(start);
    this.amounts = Float64Array.from(this.inverse, (row) => dot(row, wanted));
  }

  /** What one more of each row would cost. */
  prices(): Float64Array {
    const prices = new Float64Array(this.size);
    this.basis.forEach(({ cost }, b) => {
      if (cost !== 0) for (let r = 0; r < this.size; r++) prices[r]! += cost * this.inverse[b]![r]!;
    });
    return prices;
  }

  /** Takes a column in for the one that it pushes out first. False where that is none: the programme has no least cost. */
  enter(column: Column): boolean {
    const step = Float64Array.from(this.inverse, (row) => dot(row, column.rows));
    let out = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let b = 0; b < this.size; b++) {
      if (step[b]! <= SURE) continue;
      const ratio = Math.max(0, this.amounts[b]!) / step[b]!;
      // Of equal ones the steepest: the inverse stays exact.
      if (ratio < least - SURE || (ratio <= least + SURE && (out < 0 || step[b]! > step[out]!))) {
        least = Math.min(least, ratio);
        out = b;
      }
    }
    if (out < 0) return false;
    const pivot = this.inverse[out]!;
    for (let r = 0; r < this.size; r++) pivot[r]! /= step[out]!;
    this.amounts[out]! /= step[out]!;
    for (let b = 0; b < this.size; b++) {
      if (b === out || step[b] === 0) continue;
      const row = this.inverse[b]!;
      for (let r = 0; r < this.size; r++) row[r]! -= step[b]! * pivot[r]!;
      this.amounts[b]! -= step[b]! * this.amounts[out]!;
    }
    this.basis[out] = column;
    return true;
  }
}

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};

/** Of columns that reach no row above their own place. */
function invertedTriangle(columns: readonly Column[]): Float64Array[] {
  const size = columns.length;
  const inverse = columns.map(() => new Float64Array(size));
  for (let r = 0; r < size; r++) {
    const own = inverse[r]!;
    own[r] = 1;
    for (let c = 0; c < r; c++) {
      const factor = columns[c]!.rows[r]!;
      if (factor !== 0) for (let k = 0; k <= c; k++) own[k]! -= factor * inverse[c]![k]!;
    }
    for (let k = 0; k <= r; k++) own[k]! /= columns[r]!.rows[r]!;
  }
  return inverse;
}
