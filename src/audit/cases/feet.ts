/** Feet: each has its hole in the underside of what it stands under, and the case stands on them. */
import type { AxisIndex } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetCheck } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { type Hole, roomBox, type Solid } from "../solids/solid.ts";
import { amount, failure, failureOf, nameAll } from "../words.ts";

const UP: AxisIndex = 2;

/** In the room: the middle of a hole that goes up into wood, and the height of its mouth. */
type Mouth = { hole: Hole; at: readonly [Mm, Mm]; up: Mm };

export function checkFeet(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const bases = set.assemblies.filter(({ feet }) => feet !== null);
  if (bases.length === 0) return [];
  const mouths = solids.flatMap((solid): Mouth[] =>
    solid.holes
      .filter(({ depth, inward }) => depth === UP && inward === 1)
      .map((hole) => {
        const [lo, hi] = roomBox(solid.assembly, set.assemblies, hole.box);
        return { hole, at: [(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2], up: lo[UP] };
      }),
  );
  return bases.flatMap((base) => checkBase(base, mouths, solids, set));
}

function checkBase(base: SetAssembly, mouths: readonly Mouth[], solids: readonly Solid[], set: DryfitSet): SetCheck[] {
  const { job, assemblies } = set;
  const { height, diameter, hole, middles } = base.feet!;
  const floor = base.place.at[UP];
  const under = solids.filter(
    ({ assembly, bounds }) => Math.abs(roomBox(assembly, assemblies, bounds)[0][UP] - floor - height) < TOUCH,
  );
  return middles.flatMap(([x, y], i): SetCheck[] => {
    const [atX, atY] = [base.place.at[0] + x, base.place.at[1] + y];
    const name = `foot ${i + 1} of ${base.name}, ${amount(x, job)} from the left and ${amount(y, job)} from the front,`;
    const own = mouths.filter(
      ({ at, up }) =>
        Math.abs(at[0] - atX) < TOUCH && Math.abs(at[1] - atY) < TOUCH && Math.abs(up - floor - height) < TOUCH,
    );
    if (own.length === 0) {
      return [
        failureOf(
          "feet",
          under.map(({ part }) => part.mark),
          `There is no hole for ${name} in ${under.length === 0 ? "any part: nothing begins at its height" : nameAll(under.map(({ part }) => part))}. Change: the feet, or the holes for them.`,
        ),
      ];
    }
    const { owner, feature } = own[0]!.hole;
    const [wide, deep] = [hole.diameter - feature.width, hole.depth - feature.depth];
    if (Math.abs(wide) > TOUCH || deep < -TOUCH || deep > job.step + TOUCH) {
      return [
        failure(
          "feet",
          [owner.part],
          `The hole for ${name} is ${amount(feature.width, job)} across and ${amount(feature.depth, job)} deep, and its stem asks for ${amount(hole.diameter, job)} and ${amount(hole.depth, job)}. Change: the hole.`,
        ),
      ];
    }
    const over = assemblies.find(({ name: its }) => its === owner.assembly.name)!;
    const [left, front] = over.place.at;
    const past =
      Math.max(left - atX, atX - left - over.size[0], front - atY, atY - front - over.size[1]) + diameter / 2;
    if (past < TOUCH) return [];
    return [
      failure(
        "feet",
        [owner.part],
        `The ${name} stands ${amount(past, job)} out from under ${over.name}. Change: set it in more.`,
      ),
    ];
  });
}
