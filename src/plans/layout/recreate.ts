/** One step of the search: some pieces are taken out, and what is left over is put back in another order. */
import type { Forest } from "./forest.ts";
import { NONE } from "./nodes.ts";
import type { Counter, Places } from "./place.ts";
import type { Random } from "./random.ts";

const MOST_PIECES = 32; // taken out in one step
// Measured on the reference jobs, where each is well off its edge.
const FEWEST_FIRST = 0.4; // share of the steps that put back by the fewest places
const FEW = 12; // kinds of parts left over, up to which that pays
const TOGETHER = 0.7; // share of the steps that take pieces out of three sheets only

const chance = (share: number, random: Random): boolean => random.below(1024) < share * 1024;

const RUINING = 6; // taking a piece out takes about as long as looking at so many leaves (measured)

/** Takes pieces out, with all that is in them: of two or three sheets mostly, so that these can exchange parts. */
export function ruin(forest: Forest, random: Random, counter: Counter): void {
  const count = 1 + random.below(MOST_PIECES);
  const n = forest.beds.length;
  const focus = chance(TOGETHER, random);
  const [a, b, c] = [random.below(n), random.below(n), random.below(n)];
  for (let i = 0; i < count; i++) {
    let s: number;
    if (focus) {
      const drawn = random.below(3);
      s = drawn === 0 ? a : drawn === 1 ? b : c;
    } else s = emptier(forest, random);
    const node = forest.nodeAt(s, random.below(forest.nodesIn(s)));
    if (node === NONE) continue;
    forest.remove(s, node);
    counter.left -= RUINING;
  }
}

/** A sheet at random, one with much waste more likely. */
function emptier(forest: Forest, random: Random): number {
  const a = random.below(forest.beds.length);
  const b = random.below(forest.beds.length);
  const fullness = (s: number): number => forest.used[s]! / forest.bedAreas[s]!;
  return random.once(2) || fullness(a) <= fullness(b) ? a : b;
}

/** Puts back what finds a place: large before small with some noise, in any order at all, or the fewest places first. */
export function recreate(forest: Forest, places: Places, random: Random): void {
  const order = leftTypes(forest);
  if (order.length <= FEW && chance(FEWEST_FIRST, random)) {
    fewestFirst(forest, places);
    return;
  }
  const noise = random.once(3) ? 1e3 : 0.5;
  const keys = order.map((type) => forest.areas[type]! * (1 + (noise * random.below(1024)) / 1024));
  // By insertion: there are few, and equal keys keep their order.
  for (let i = 1; i < order.length; i++) {
    const type = order[i]!;
    const key = keys[i]!;
    let j = i;
    for (; j > 0 && keys[j - 1]! < key; j--) {
      keys[j] = keys[j - 1]!;
      order[j] = order[j - 1]!;
    }
    keys[j] = key;
    order[j] = type;
  }
  for (const type of order) while (forest.left[type]! > 0 && places.find(type)) places.fill();
}

function leftTypes(forest: Forest): number[] {
  const types: number[] = [];
  for (let type = 0; type < forest.left.length; type++) if (forest.left[type]! > 0) types.push(type);
  return types;
}

/** The type with the fewest places first, of these the largest, as long as any has one. */
export function fewestFirst(forest: Forest, places: Places): void {
  const order = leftTypes(forest);
  while (order.length > 0) {
    let fewest = Number.POSITIVE_INFINITY;
    let best = NONE;
    for (let i = 0; i < order.length; ) {
      const type = order[i]!;
      if (!places.find(type)) {
        order[i] = order[order.length - 1]!;
        order.pop();
        continue;
      }
      const { options } = places;
      if (options < fewest || (options === fewest && forest.areas[type]! > forest.areas[best]!)) {
        fewest = options;
        best = type;
        places.keep();
      }
      i++;
    }
    if (best === NONE) return;
    places.fillKept();
    if (forest.left[best] === 0) order.splice(order.indexOf(best), 1);
  }
}
