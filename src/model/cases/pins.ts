/** Loose shelves and the rows of pin holes that they stand on. */
import type { Vec } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import type { Pins } from "../../project/case.ts";
import type { Part, PinRow } from "../model.ts";

type Range = readonly [Mm, Mm];

/** An open bay, clear; `front`: how deep doors stand in it. */
export type PinnedBay = {
  place: string;
  x: Range;
  z: Range;
  front: Mm;
  depth: Mm;
  left: string;
  right: string;
  loose: number;
};

export type LooseShelf = { id: string; lo: Vec; hi: Vec; standsOn: NonNullable<Part["standsOn"]> };

/** Whole holes between the lowest and the highest: floor(run / pitch) + 1. */
export const holesIn = (run: Mm, pitch: Mm): number => Math.floor(run / pitch + SAME) + 1;

/**
 * Four rows, front and back on either side, and the loose shelves spread evenly over the bay, each on its nearest hole. Behind doors that stand in the
 * bay both the front row and the shelves begin so much farther back (shared/trade.md: "inset: plus the door").
 */
export function layPins(
  { place, x, z, front, depth, left, right, loose }: PinnedBay,
  pins: Pins,
  thickness: Mm,
  prefix: string,
): { rows: PinRow[]; shelves: LooseShelf[] } {
  const first = z[0] + pins.margin;
  const count = holesIn(z[1] - pins.margin - first, pins.pitch);
  const words = place === "" ? "pins" : `pins ${place}`;
  const rows = [
    { key: left, face: "+x" as const, side: "left" },
    { key: right, face: "-x" as const, side: "right" },
  ].flatMap(({ key, face, side }) =>
    [
      { at: front + pins.fromFront, end: "front" },
      { at: depth - pins.fromBack, end: "back" },
    ].map(
      ({ at, end }): PinRow => ({
        name: `${words} ${side} ${end}`,
        part: key,
        face,
        first,
        pitch: pins.pitch,
        count,
        at,
        diameter: pins.diameter,
        depth: pins.depth,
      }),
    ),
  );
  const shelves = Array.from({ length: loose }, (_, i): LooseShelf => {
    const wanted = z[0] + ((z[1] - z[0]) * (i + 1)) / (loose + 1);
    // From below, so that every shelf has a hole of its own.
    const hole = Math.min(count - loose + i, Math.max(i, Math.round((wanted - first) / pins.pitch)));
    const under = standOf({ first, pitch: pins.pitch, diameter: pins.diameter }, hole);
    return {
      id: place === "" ? `loose-${i + 1}` : `loose-${place}.${i + 1}`,
      lo: [x[0], front > 0 ? front + pins.clearance : 0, under],
      hi: [x[1], depth - pins.clearance, under + thickness],
      standsOn: { row: `${prefix}/${words} left front`, hole },
    };
  });
  return { rows: rows.map((row) => ({ ...row, name: `${prefix}/${row.name}` })), shelves };
}

/** Underside of a shelf whose pins are in this hole: it lies on the pins' upper side. */
export const standOf = ({ first, pitch, diameter }: Pick<PinRow, "first" | "pitch" | "diameter">, hole: number): Mm =>
  first + hole * pitch + diameter / 2;
