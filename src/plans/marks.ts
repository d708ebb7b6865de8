/** Marks: the number on each part's label. A key that an older set already marked keeps its mark; new keys take numbers never used. */
import type { DryfitSet } from "../set/schema.ts";

export function assignMarks(keys: readonly string[], older: DryfitSet | null): Map<string, string> {
  const kept = new Map(older?.parts.map(({ key, mark }) => [key, mark]));
  let next = 1 + Math.max(0, ...(older?.parts ?? []).map(({ mark }) => Number(mark)), older?.lastMark ?? 0);
  return new Map(keys.map((key) => [key, kept.get(key) ?? String(next++)]));
}
