/** Wood where other wood already is: the one thing that no clamp can close. */
import type { Box } from "../../base/geometry.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { around, sharedBoxes, volumeOf } from "../solids/boxes.ts";
import { nearPairs } from "../solids/pairs.ts";
import { behindAll, movedSlant } from "../solids/slants.ts";
import { roomBox, type Solid } from "../solids/solid.ts";
import { cubic, extent, failure, nameOf, where } from "../words.ts";

/** Every overlap of two parts, in one case or in two, with its size and place. */
export function checkOverlaps(
  set: Pick<DryfitSet, "job" | "assemblies">,
  solids: readonly Solid[],
): { checks: SetCheck[]; pairs: number; tried: number } {
  const inRoom = ({ assembly }: Solid, box: Box): Box => roomBox(assembly, set.assemblies, box);
  const { pairs, tried } = nearPairs(
    solids.map((solid) => inRoom(solid, solid.bounds)),
    0,
  );
  const checks = pairs.flatMap(([i, j]) => {
    const [a, b] = [solids[i]!, solids[j]!];
    const together = a.assembly.row === b.assembly.row;
    const cells = (solid: Solid): Box[] => (together ? solid.cells : solid.cells.map((cell) => inRoom(solid, cell)));
    const slants = [a, b].flatMap((solid) =>
      together ? solid.slants : solid.slants.map((slant) => movedSlant(slant, (p) => inRoom(solid, [p, p])[0])),
    );
    const boxes = sharedBoxes(cells(a), cells(b));
    const shared =
      slants.length === 0
        ? boxes.map((box) => ({ box, volume: volumeOf(box) }))
        : boxes.flatMap((box) => behindAll(box, slants) ?? []);
    if (shared.length === 0) return [];
    const region = around(shared.map(({ box }) => box));
    const place = together ? a.assembly : { name: "the room", origin: [0, 0, 0] as const };
    return failure(
      "overlap",
      [a.part, b.part],
      `${nameOf(a.part)} and ${nameOf(b.part)} overlap ${where(region, place, set.job)}: ${extent(region, set.job)}, ${cubic(
        shared.reduce((sum, { volume }) => sum + volume, 0),
        set.job,
      )} of wood in both. Change: shorten or move one of them, or cut the groove between them to suit.`,
    );
  });
  return { checks, pairs: pairs.length, tried };
}
