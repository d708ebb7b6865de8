/**
 * Cases of eighty bays in which many shelves may be measured from either end at a figure that others share: storeys of different heights, in
 * each a row of columns, every clear height a whole number of steps from below and from above.
 */
import { SEED } from "../runs.ts";

const STOREYS = 8;
const COLUMNS = 5; // of two bays each
const STEP = 10;
const LEAST = 60; // clear, under or over a shelf
const SHEET = 17.6;

/** A small linear congruential generator: the same cases on every machine. */
function chance(seed: number): (most: number) => number {
  let state = (SEED + seed * 7919) % 2147483648;
  return (most) => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor((state / 2147483648) * most);
  };
}

export function eightyBays(seed: number): string {
  const below = chance(seed);
  const storeys = Array.from({ length: STOREYS }, () => {
    const clear = 220 + STEP * below(4); // of both bays of a column
    const sizes = Array.from({ length: COLUMNS }, () => LEAST + STEP * below((clear - 2 * LEAST) / STEP));
    return { clear, columns: sizes.map((size) => ({ rows: [{ size }, {}] })) };
  });
  const height = storeys.reduce((sum, { clear }) => sum + clear + 2 * SHEET, SHEET);
  const rows = storeys.map(({ clear, columns }, i) =>
    i === storeys.length - 1 ? { columns } : { size: Number((clear + SHEET).toFixed(1)), columns },
  );
  return JSON.stringify({
    job: { number: "T", title: "Eighty bays", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: { "ply-18mm": { measured: SHEET } },
    cases: [
      {
        name: "case",
        width: 1400,
        height: Number(height.toFixed(1)),
        depth: 300,
        stock: { all: "ply-18mm" },
        back: { fit: "none" },
        edges: { front: "covered" },
        bays: { rows },
      },
    ],
  });
}
