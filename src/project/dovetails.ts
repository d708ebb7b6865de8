/**
 * Dovetails of a drawer's corner, laid out from the height of what ends there: tails on the sides, pins on front and back. What the reader, the model and
 * the paper all go by; how they are cut is the maker's: by saw and chisel, or by a router in a jig that makes this very layout.
 *
 *      |\______/|\______/|    end of a side, seen from outside: two tails between half pins at the edges and one whole pin
 *      | tail   |  tail  |
 *
 * All of it common practice, no source.
 */
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";

type ByUnit = Record<Unit, Mm>;

export const DOVETAILS = {
  /** A pin where it is narrowest, and half pins at the edges alike: a chisel as wide goes in between two tails. */
  pin: { in: MM_PER_INCH / 4, mm: 6 } satisfies ByUnit,
  /** One tail and one pin together are near this many thicknesses of the side. */
  pitch: 3,
  /** Slopes, one in so many: soft wood is crushed at a slope that hard wood bears, and hard wood's short grain breaks at one that soft wood needs. */
  slope: { soft: 6, hard: 8 },
  /** kg/m3: lighter counts as soft. */
  hardFrom: 550,
  /** A tail is no narrower at its root than this many pins. */
  leastRoot: 1,
};

export type Tails = { slope: number; pin: Mm };

/** Where the tails are at their ends, where they are widest, from the lower edge upwards; as whole steps by `place`. */
export function tailsAlong(height: Mm, side: Mm, { pin }: Tails, place: (length: Mm) => Mm): [from: Mm, to: Mm][] {
  const count = Math.max(1, Math.round((height - pin) / (DOVETAILS.pitch * side)));
  const pitch = (height - pin) / count;
  return Array.from({ length: count }, (_, i) => [
    i === 0 ? place(pin) : place(pin / 2 + i * pitch + pin / 2),
    place(pin / 2 + (i + 1) * pitch - pin / 2),
  ]);
}

/** A flank is told by both of its ends, so these lie on what every printed length is a multiple of: no slope is off by more than a knife line's breadth. */
const GRAIN_PER_MM = 320;

/** How much farther in a tail's flank lies at the baseline than at the tail's end. */
export const flareOf = (baseline: Mm, slope: number): Mm =>
  Math.round((baseline / slope) * GRAIN_PER_MM) / GRAIN_PER_MM;

/** What stands in the way of such a corner, or null: the layout is too cramped, or the bottom's groove would come out through a pin. */
export function crampedBy(
  height: Mm,
  { side, pinBoard, tails, groove }: { side: Mm; pinBoard: Mm; tails: Tails; groove: [Mm, Mm] | null },
): { what: "root" | "groove"; from: Mm; to: Mm } | null {
  const flare = flareOf(pinBoard, tails.slope);
  const [first] = tailsAlong(height, side, tails, (length) => length);
  const [from, to] = [first![0] + flare, first![1] - flare];
  if (to - from < DOVETAILS.leastRoot * tails.pin - SAME) return { what: "root", from, to };
  if (groove !== null && (groove[0] < from - SAME || groove[1] > to + SAME)) return { what: "groove", from, to };
  return null;
}
