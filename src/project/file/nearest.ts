/** The known word nearest to a misspelt one: "heigth" is "height". */

/** Letters to add, drop, change or swap with the next to get from one word to the other. */
function distance(a: string, b: string): number {
  let older: number[] = [];
  let old = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min(old[j]! + 1, row[j - 1]! + 1, old[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, older[j - 2]! + 1);
      row.push(least);
    }
    older = old;
    old = row;
  }
  return old[b.length]!;
}

const LONGEST = 60; // no key or id is longer; the cost grows with the product of the lengths

/** Null where nothing is near: more than a third of the letters would have to change. */
export function nearest(word: string, known: readonly string[]): string | null {
  if (word.length > LONGEST) return null;
  let best: { word: string; distance: number } | null = null;
  for (const candidate of known) {
    const letters = distance(word.toLowerCase(), candidate.toLowerCase());
    const allowed = Math.max(1, Math.floor(Math.max(word.length, candidate.length) / 3));
    if (letters <= allowed && (best === null || letters < best.distance)) best = { word: candidate, distance: letters };
  }
  return best?.word ?? null;
}
