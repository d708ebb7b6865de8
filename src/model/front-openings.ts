/** What a door or drawer is made for: a clear opening in the front, by the bay's place in the project file. */
import type { AxisIndex, Box } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { frameOn } from "./frames/framed.ts";
import type { AssemblyModel, Opening } from "./model.ts";

type Range = readonly [Mm, Mm];

/** All in the room. */
export type FrontOpening = {
  case: AssemblyModel;
  around: AssemblyModel; // the frame before the case, or the case itself
  x: Range;
  z: Range;
  front: Mm; // y of the face that the opening is in
  rear: Mm; // y of the back's front face, or of the case's rear edges
  inside: { x: Range; z: Range }; // of the bay behind, between the case's own parts
};

const startsWith = (path: string, ancestor: string): boolean =>
  path === ancestor || path.startsWith(`${ancestor}.`) || path.startsWith(`${ancestor}[`);

/** Over all of its openings, in the room. */
function spaceOf({ at, parts, borrowed }: AssemblyModel, openings: readonly Opening[]): { x: Range; z: Range } {
  const boxOf = (key: string): Box => [...parts, ...borrowed].find((part) => part.key === key)!.box;
  const least = (keys: readonly string[], axis: AxisIndex): Mm =>
    Math.min(...keys.map((key) => boxOf(key)[1][axis])) + at[axis];
  const most = (keys: readonly string[], axis: AxisIndex): Mm =>
    Math.max(...keys.map((key) => boxOf(key)[0][axis])) + at[axis];
  return {
    x: [
      least(
        openings.map(({ left }) => left),
        0,
      ),
      most(
        openings.map(({ right }) => right),
        0,
      ),
    ],
    z: [
      least(
        openings.map(({ below }) => below),
        2,
      ),
      most(
        openings.map(({ above }) => above),
        2,
      ),
    ],
  };
}

/** The opening before the bay at this path of the project file, whole or divided; null where a frame leaves none of its own there. */
export function frontOpening(
  path: string,
  one: AssemblyModel,
  standing: readonly AssemblyModel[],
): FrontOpening | null {
  const around = frameOn(one, standing) ?? one;
  const before = around.openings.filter((opening) => opening.home === one.name && startsWith(opening.path, path));
  const behind = one.openings.filter((opening) => startsWith(opening.path, path));
  if (before.length === 0 || behind.length === 0) return null;
  const back = one.parts.filter(({ role }) => role === "back").map(({ box }) => box[0][1]);
  return {
    case: one,
    around,
    ...spaceOf(around, before),
    front: around.at[1],
    rear: one.at[1] + Math.min(one.size[1], ...back),
    inside: spaceOf(one, behind),
  };
}

/** The undivided bay at this path, between the case's own parts, in the room. */
export function bayOpening(path: string, one: AssemblyModel): { opening: Opening; x: Range; z: Range } {
  const opening = one.openings.find((each) => each.path === path);
  if (opening === undefined) throw new Error(`${path} is no undivided bay of ${one.name}`);
  return { opening, ...spaceOf(one, [opening]) };
}

/** What one gets into a bay through: the frame's own opening before it, or one that is before others as well; without a frame the bay's. */
export function entranceOf(
  path: string,
  one: AssemblyModel,
  standing: readonly AssemblyModel[],
): { x: Range; z: Range; front: Mm } {
  const frame = frameOn(one, standing);
  const before = frame?.openings.find(
    (each) => each.home === one.name && (startsWith(each.path, path) || startsWith(path, each.path)),
  );
  return frame === null || before === undefined
    ? { ...bayOpening(path, one), front: frame?.at[1] ?? one.at[1] }
    : { ...spaceOf(frame, [before]), front: frame.at[1] };
}
