/** Doors on a track, worked out along it before a part of one is laid: how wide each is, where it stands closed, how far it slides. */
import { type Mm, SAME } from "../../base/length.ts";
import type { Track } from "../../project/track.ts";
import type { Grid } from "../grid.ts";
import type { Sliding, Together } from "./track-model.ts";

type Range = readonly [Mm, Mm];

/** Widths that rounding alone makes differ are made alike, so that the doors are. */
const ALIKE_STEPS = 2;

/**
 * Before bays: the bays that it covers and the overlap on each side. By-passing: (the whole front, what it is lapped beyond, and n - 1
 * overlaps) / n each. Widths are whole steps, never less than that.
 */
export function doorsAlong(bays: readonly Range[], track: Track, step: Mm, grid: Grid): Sliding[] {
  const { layout, overlap, beyond } = track;
  const still = { from: 0, to: 0 };
  if (layout.kind === "by-passing") {
    const [low, high] = [grid.end(bays[0]![0] - beyond), bays.at(-1)![1] + beyond];
    const { count } = layout;
    const width = grid.atLeast((high - low + (count - 1) * overlap) / count);
    // What rounding adds goes to the overlaps, shared out among them.
    const pitch = (grid.atLeast(high) - low - width) / (count - 1);
    return Array.from({ length: count }, (_, i) => ({
      ...still,
      track: i % 2 === 0 ? (1 as const) : (2 as const),
      covers: null,
      width,
      closed: i === count - 1 ? grid.atLeast(high) - width : low + grid.end(i * pitch),
    }));
  }
  const doors = layout.doors.map(({ covers: [first, last], track: on }) => {
    const closed = grid.end(bays[first]![0] - overlap);
    const width = grid.atLeast(bays[last]![1] + overlap - closed);
    return { ...still, track: on, covers: [first, last] as [number, number], width, closed };
  });
  const widest = (width: Mm): Mm =>
    Math.max(...doors.map((door) => door.width).filter((other) => other - width < ALIKE_STEPS * step + SAME));
  return doors.map((door) => ({ ...door, width: widest(door.width) }));
}

/** From where to where the doors' edges go: over the outermost bays, and as far beyond as the job asks. */
export function wayOf(bays: readonly Range[], doors: readonly Sliding[], track: Track, grid: Grid): Range {
  const lap = track.layout.kind === "by-passing" ? track.beyond : track.overlap;
  const low = Math.min(grid.end(bays[0]![0] - lap), ...doors.map(({ closed }) => closed));
  const high = Math.max(grid.atLeast(bays.at(-1)![1] + lap), ...doors.map(({ closed, width }) => closed + width));
  return [low - grid.atLeast(track.reach.left), high + grid.atLeast(track.reach.right)];
}

/** The track's end to a door's edge when its hanger is at the stop there; below zero where the door goes beyond the end. */
export const edgeAtStop = ({ stops, hangers }: Track, grid: Grid): Mm =>
  grid.place(stops.fromEnd + stops.bumper / 2 - hangers.fromEdge);

/** How far each goes with the others of its track pushed together against the end that it goes to. */
export function slidesOf(doors: readonly Sliding[], [low, high]: Range, between: Mm): Sliding[] {
  const sum = (others: readonly Sliding[]): Mm => others.reduce((all, { width }) => all + width + between, 0);
  return doors.map((door, i) => {
    const isBeside = ({ track }: Sliding): boolean => track === door.track;
    const before = doors.slice(0, i).filter(isBeside);
    const after = doors.slice(i + 1).filter(isBeside);
    return { ...door, from: low + sum(before), to: high - sum(after) - door.width };
  });
}

/** Where the doors stand when these bays are clear, as far to the left as they go; null where they cannot be. */
export function placedClear(
  open: readonly Range[],
  doors: readonly Sliding[],
  [low, high]: Range,
  between: Mm,
  grid: Grid,
): Mm[] | null {
  const next = new Map<1 | 2, Mm>();
  const places: Mm[] = [];
  for (const { track, width } of doors) {
    let at = next.get(track) ?? low;
    for (const bay of open) if (at < bay[1] - SAME && at + width > bay[0] + SAME) at = grid.atLeast(bay[1]);
    if (at + width > high + SAME) return null;
    places.push(at);
    next.set(track, at + width + between);
  }
  return places;
}

/** Every choice of bays that can be clear at once and to which none can be added. */
export function openTogether(
  bays: readonly Range[],
  doors: readonly Sliding[],
  way: Range,
  between: Mm,
  grid: Grid,
): Together[] {
  const found: Together[] = [];
  // From the left, with a bay before without it: a choice comes after every larger one that holds it.
  const choose = (i: number, open: number[]): void => {
    const at = placedClear(
      open.map((bay) => bays[bay]!),
      doors,
      way,
      between,
      grid,
    );
    if (at === null) return;
    if (i < bays.length) {
      choose(i + 1, [...open, i]);
      choose(i + 1, open);
      return;
    }
    const isPart = found.some((other) => open.every((bay) => other.open.includes(bay)));
    if (open.length > 0 && !isPart) found.push({ open, at });
  };
  choose(0, []);
  return found;
}

/** No door just touches the next guide when it leaves the one before. */
const SPARE: Mm = 5;

/** Evenly along a track, so that every door of it is over the whole width of one wherever it stands. */
export function guidesAlong(doors: readonly Sliding[], [low, high]: Range, wide: Mm, grid: Grid): Mm[] {
  const least = Math.min(...doors.map(({ width }) => width));
  const [first, last] = [low + least - wide / 2, high - least + wide / 2];
  if (last <= first + SAME) return [grid.place((first + last) / 2)];
  const spaces = Math.ceil((last - first) / (least - wide - SPARE));
  // Where two are enough they stand well apart.
  const short = spaces === 1 ? Math.max(0, ((least - wide) / 2 - (last - first)) / 2) : 0;
  if (short > 0) return [grid.end(first - short), grid.atLeast(last + short)];
  return Array.from({ length: spaces + 1 }, (_, i) =>
    i === 0 ? grid.end(first) : i === spaces ? grid.atLeast(last) : grid.place(first + (i * (last - first)) / spaces),
  );
}

/** The outer two so far from the ends, the others evenly between, none farther apart than asked for. */
export function boltsAlong(length: Mm, { fromEnd, spacing }: Track["bolts"], grid: Grid): Mm[] {
  const [first, last] = [grid.place(fromEnd), length - grid.place(fromEnd)];
  const spaces = Math.max(1, Math.ceil((last - first) / spacing - SAME));
  return Array.from({ length: spaces + 1 }, (_, i) =>
    i === spaces ? last : first + grid.place((i * (last - first)) / spaces),
  );
}
