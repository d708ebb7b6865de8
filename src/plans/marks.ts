/** Marks: the number on each part's label. A key that an older set already marked keeps its mark; new keys take numbers never used. */
import type { DryfitSet } from "../set/schema.ts";

const FIRST = " 1";

export function assignMarks(keys: readonly string[], older: DryfitSet | null): Map<string, string> {
  const kept = new Map(older?.parts.map(({ key, mark }) => [key, mark]));
  const asked = new Set(keys);
  /** One case of a kind is "box", the first of several "box 1": the same parts, whichever way the quantity changed. */
  const alias = (key: string): string | undefined => {
    const [name, id] = [key.slice(0, key.lastIndexOf("/")), key.slice(key.lastIndexOf("/"))];
    const other = name.endsWith(FIRST) ? name.slice(0, -FIRST.length) + id : name + FIRST + id;
    return asked.has(other) ? undefined : kept.get(other);
  };
  let next = 1 + Math.max(0, ...(older?.parts ?? []).map(({ mark }) => Number(mark)), older?.lastMark ?? 0);
  return new Map(keys.map((key) => [key, kept.get(key) ?? alias(key) ?? String(next++)]));
}
