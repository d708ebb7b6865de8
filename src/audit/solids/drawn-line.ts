/** A line drawn on a part's face, in the room. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetAssembly, SetLine } from "../../set/schema.ts";
import { faceAxis, isHighFace, localAxis, placeBox, roomBox, type Solid, sizeOf } from "./solid.ts";

type Owner = Pick<Solid, "part" | "place" | "assembly">;

/** From one place along it to another, as a box without thickness. */
export function drawnLine(
  { part, place, assembly }: Owner,
  line: SetLine,
  [from, to]: readonly [Mm, Mm],
  all: readonly SetAssembly[],
): Box {
  const along = localAxis(line.along);
  const into = faceAxis(line.face);
  const across = (3 - along - into) as 0 | 1 | 2;
  const plane = isHighFace(line.face) ? sizeOf(part)[into] : 0;
  const point = (at: Mm): [Mm, Mm, Mm] => {
    const local: [Mm, Mm, Mm] = [0, 0, 0];
    local[along] = at;
    local[across] = line.at;
    local[into] = plane;
    return local;
  };
  return roomBox(assembly, all, placeBox(place, [point(from), point(to)]));
}
