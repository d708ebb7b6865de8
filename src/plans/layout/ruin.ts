/**
 * Fits every item on a given number of sheets, if it can: takes a few pieces out, puts them back in another order, keeps
 * the result when less is left over, and now and then when a little more is (ruin and recreate with cooling: G. Schrimpf
 * and others, Journal of Computational Physics 159, 2000).
 */
import type { LayoutItem } from "./engine.ts";
import type { Random } from "./random.ts";
import type { Counter, Manner, Sheet } from "./spot.ts";
import { bestSpot, filled, surveyed } from "./spot.ts";
import type { Tree } from "./tree.ts";
import { at, itemsOf, replaced, waste } from "./tree.ts";

const MOST_PIECES = 10; // taken out in one step
const GATHER = 0.2; // weight of free area in one piece against area left over
const HOT = 0.03; // in sheets left over
const COLD = 0.001;
const FIRST_CYCLE = 400; // steps; each further cycle is longer
const LONGER = 1.6;

type State = { sheets: readonly Sheet[]; left: readonly number[]; cost: number };

/** From sheets as they are filled so far, and the items left over; null where the budget ends before everything lies on them. */
export function ruin(
  start: { sheets: readonly Sheet[]; left: readonly number[] },
  items: readonly LayoutItem[],
  manner: Manner,
  random: Random,
  counter: Counter,
): Tree[] | null {
  const whole = Math.max(...start.sheets.map(({ bed }) => bed.length * bed.width));
  const areas = items.map((item) => item.length * item.width);
  const stateOf = (sheets: readonly Sheet[], left: readonly number[]): State => {
    const out = left.reduce((sum, i) => sum + areas[i]!, 0) / whole;
    const squares = sheets.reduce((sum, sheet) => sum + sheet.squares, 0) / (whole * whole);
    return { sheets, left, cost: out - GATHER * squares };
  };
  let state = stateOf(start.sheets, start.left);
  for (let cycle = FIRST_CYCLE; ; cycle = Math.round(cycle * LONGER)) {
    for (let step = 0; step < cycle; step++) {
      if (state.left.length === 0) return state.sheets.map((sheet) => sheet.tree);
      if (counter.left <= 0) return null;
      const heat = HOT + ((COLD - HOT) * step) / cycle;
      const next = rebuilt(state, areas, items, manner, random, counter);
      const tried = stateOf(next.sheets, next.left);
      if (tried.cost - state.cost < heat * random.wait()) state = tried;
    }
  }
}

/** The state with some pieces taken out and put back. */
function rebuilt(
  state: State,
  areas: readonly number[],
  items: readonly LayoutItem[],
  manner: Manner,
  random: Random,
  counter: Counter,
): { sheets: Sheet[]; left: number[] } {
  const sheets = state.sheets.slice();
  const out = state.left.slice();
  for (let pieces = 1 + random.below(MOST_PIECES); pieces > 0; pieces--) {
    const s = emptier(sheets, random);
    const sheet = sheets[s]!;
    const part = sheet.parts[random.below(sheet.parts.length)];
    if (!part) continue;
    let path = part.path;
    while (path.length > 0 && random.once(3)) path = path.slice(0, -1);
    const piece = at(sheet.tree, path);
    out.push(...itemsOf(piece));
    sheets[s] = surveyed(sheet.bed, replaced(sheet.tree, path, waste(piece.length, piece.width)), counter);
  }
  // Large before small with some noise, or in any order at all.
  const noise = random.once(3) ? 1e3 : 0.5;
  const keyed = out.map((i) => ({ i, key: areas[i]! * (1 + noise * (random.below(1024) / 1024)) }));
  keyed.sort((a, b) => b.key - a.key || a.i - b.i);
  const left: number[] = [];
  for (const { i } of keyed) {
    const spot = bestSpot(sheets, items[i]!, manner, counter, random);
    if (spot) sheets[spot.sheet] = filled(sheets[spot.sheet]!, spot, i, counter);
    else left.push(i);
  }
  return { sheets, left };
}

/** A sheet at random, one with much waste more likely. */
function emptier(sheets: readonly Sheet[], random: Random): number {
  const a = random.below(sheets.length);
  const b = random.below(sheets.length);
  const fullness = (s: number): number => sheets[s]!.used / (sheets[s]!.bed.length * sheets[s]!.bed.width);
  return fullness(a) <= fullness(b) ? a : b;
}
