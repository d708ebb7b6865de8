/** Which parts stand near enough to each other to be compared at all: found once, asked by every check. */
import { nearMissReach } from "../limits.ts";
import { nearPairs } from "./pairs.ts";
import { mayMeet, type Solid } from "./solid.ts";

export class Neighbours {
  private readonly near: ReadonlyMap<Solid, Solid[]>;
  /** Pairs of parts that were tried to find them. */
  readonly tried: number;

  /** Parts of one case, or of cases that share a side, within a near miss of each other. */
  constructor(solids: readonly Solid[], step: number) {
    const near = new Map<Solid, Solid[]>(solids.map((solid) => [solid, []]));
    let tried = 0;
    for (const row of new Set(solids.map((solid) => solid.assembly.row))) {
      const members = solids.filter((solid) => solid.assembly.row === row);
      const bounds = members.map((solid) => solid.bounds);
      const found = nearPairs(bounds, nearMissReach(step));
      tried += found.tried;
      for (const [i, j] of found.pairs) {
        const [a, b] = [members[i]!, members[j]!];
        if (!mayMeet(a, b)) continue;
        near.get(a)!.push(b);
        near.get(b)!.push(a);
      }
    }
    this.near = near;
    this.tried = tried;
  }

  of(solid: Solid): readonly Solid[] {
    return this.near.get(solid) ?? [];
  }
}
