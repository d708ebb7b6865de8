/** Where parts stand that are screwed, doweled or glued to the face of another: against that face, their near face as far from its edge as the words say. */
import type { AxisIndex } from "../../../src/base/geometry.ts";
import { axisOf, signOf } from "../../../src/base/geometry.ts";
import type { Face } from "../../../src/set/schema.ts";
import { type Seat, sizeIn, type Turned, wayOf } from "./case.ts";

type Fixed = Extract<Turned["read"]["notes"][number], { kind: "fixed" }>;

/** The face that things are fixed to: as the words say, or the one that is drawn. */
function faceOf({ read }: Turned, { face }: Fixed): string | null {
  if (face !== null) return face;
  const drawn = (["t0", "t1"] as const satisfies readonly Face[]).flatMap((one) => read.names[one] ?? []);
  return drawn.length === 1 ? drawn[0]! : (read.names.t1 ?? null);
}

export function fixedSeatsOf(receiving: Turned, all: readonly Turned[], faults: string[]): Seat[] {
  // A kick stands behind the toe space, against the notches of the sides.
  if (receiving.name.startsWith("kick")) return [];
  const size = sizeIn(receiving);
  return receiving.read.notes
    .filter((note) => note.kind === "fixed")
    .flatMap((note) =>
      note.marks.flatMap((mark, i): Seat[] => {
        const part = all.find((one) => one.mark === mark);
        const face = faceOf(receiving, note);
        const [looks, from] = [face === null ? null : wayOf(face, receiving.name), wayOf(note.edge, receiving.name)];
        if (part === undefined) return []; // of another assembly, which its own drawing tells of
        if (looks === null || from === null) {
          faults.push(`where ${mark} is fixed to ${receiving.mark} is not told`);
          return [];
        }
        const own = sizeIn(part);
        const [axis, across] = [axisOf(looks), axisOf(from)];
        const isLow = signOf(from) === -1;
        const low = isLow ? note.near[i]! : size[across] - note.near[i]!;
        const why = `fixed to ${receiving.mark}`;
        const run = (3 - axis - across) as AxisIndex;
        const seat = (along: AxisIndex, by: number): Seat => ({ part, into: receiving, axis: along, run, by, why });
        return [
          seat(axis, signOf(looks) === 1 ? size[axis] : -own[axis]),
          // From a low edge to the low face, from a high edge to the high one; of what stands out beyond it to the other.
          seat(across, low - (isLow === note.isFar ? own[across] : 0)),
        ];
      }),
    );
}
