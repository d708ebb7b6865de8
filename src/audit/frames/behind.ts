/** What a face frame stands before, by where it stands alone. */
import type { SetAssembly } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";

/** The cases whose front edges lie against the rear of a frame, from left to right. */
export function casesBehind({ place, size }: SetAssembly, assemblies: readonly SetAssembly[]): SetAssembly[] {
  const covers = (one: SetAssembly, axis: 0 | 2): boolean => {
    const middle = one.place.at[axis] + one.size[axis] / 2;
    return place.at[axis] < middle && middle < place.at[axis] + size[axis];
  };
  return assemblies
    .filter(
      (one) =>
        one.kind === "case" &&
        Math.abs(place.at[1] + size[1] - one.place.at[1]) < TOUCH &&
        covers(one, 0) &&
        covers(one, 2),
    )
    .sort((a, b) => a.place.at[0] - b.place.at[0]);
}
