/**
 * Panels that wait for a measurement on stock that is cut before: its sheets come apart for an earlier group's parts, so these are cut from
 * them with something over, and trimmed to size behind their own gate.
 */
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";
import type { DryfitSet, SetPart, SetStock } from "../set/schema.ts";
import { groupOf } from "./groups.ts";
import type { LayoutWishes } from "./sheets/wishes.ts";

type Input = { parts: readonly SetPart[]; groups: DryfitSet["groups"]; stock: readonly SetStock[]; unit: Unit };
type Size = { length: Mm; width: Mm };

/** Over each way: an edge to skim, and what an opening may be larger than reckoned with. Common practice, no source. */
export const WAITING: Record<Unit, Mm> = { mm: 10, in: (3 / 8) * MM_PER_INCH };

/** What the job asks, and where it asks nothing, so much over on every panel that waits, as far as a sheet gives it. */
export function withWaiting(wishes: LayoutWishes, input: Input): LayoutWishes {
  const waiting = input.parts.filter((part) => isWaiting(part, input));
  const over = waiting.map((part): [string, Size] => {
    const { length, width } = wishes.oversize.get(part.mark) ?? { length: 0, width: 0 };
    const most = roomFor(part, input);
    const own = (asked: Mm, room: Mm): Mm => (asked > SAME ? asked : Math.min(WAITING[input.unit], room));
    return [part.mark, { length: own(length, most.length), width: own(width, most.width) }];
  });
  return { ...wishes, oversize: new Map([...wishes.oversize, ...over]) };
}

/** Whether an earlier group is cut from this part's stock of panels. */
function isWaiting({ mark, material }: SetPart, { parts, stock, groups }: Input): boolean {
  if (stock.find(({ id }) => id === material)!.boards !== null) return false;
  const { n } = groupOf(mark, groups);
  return parts.some((one) => one.material === material && groupOf(one.mark, groups).n < n);
}

/** What the roomiest sheet or offcut that holds it leaves beyond its finished size, either way it may lie. */
function roomFor({ cut, material, grain }: SetPart, { stock }: Input): Size {
  const own = stock.find(({ id }) => id === material)!;
  const sheets = [...(own.sheet === null ? [] : [own.sheet]), ...own.sizes].map(({ length, width }) => ({
    length: length - 2 * own.trim,
    width: width - 2 * own.trim,
  }));
  const lying = [...sheets, ...own.offcuts].flatMap(({ length, width }): Size[] => [
    { length, width },
    ...(grain === "none" || !own.grain ? [{ length: width, width: length }] : []),
  ]);
  const rooms = lying.map(({ length, width }) => ({ length: length - cut.length, width: width - cut.width }));
  const least = (room: Size): Mm => Math.min(room.length, room.width);
  const best = rooms.reduce((one, other) => (least(other) > least(one) ? other : one), { length: 0, width: 0 });
  return { length: Math.max(0, best.length), width: Math.max(0, best.width) };
}
