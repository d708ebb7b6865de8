/** Mating marks: the letter that both members of a joint carry, and where on each. */
import { axesOf, axisOf, type Place, type SignedAxis, signOf } from "../base/geometry.ts";
import { faceWords, LOCAL_AXES } from "./facing.ts";
import type { DryfitSet, Face, SetPart, SetReturn } from "./schema.ts";

type Mating = { letter: string; face: Face; other: string };

/** Those of one part, in the order of the letters. */
const matingOf = ({ joints, returns }: Pick<DryfitSet, "joints" | "returns">, part: SetPart): Mating[] => [
  ...joints.flatMap(({ entering, receiving, enteringEnd, receivingFace, mating }): Mating[] => {
    if (mating === null) return [];
    if (entering === part.mark) return [{ letter: mating, face: enteringEnd, other: receiving }];
    return receiving === part.mark ? [{ letter: mating, face: receivingFace, other: entering }] : [];
  }),
  ...returns.flatMap((told) => returnMating(told, part)),
];

/** A return's front edge meets the mitred edge of its stile, or lies behind that. */
function returnMating({ mark, stile, side, fit, mating }: SetReturn, part: SetPart): Mating[] {
  if (part.place === null) return [];
  const outwards = side === "left" ? "-x" : "+x";
  if (part.mark === mark) return [{ letter: mating, face: faceLooking(part.place as Place, "-y"), other: stile }];
  const face = faceLooking(part.place as Place, fit === "mitred" ? outwards : "+y");
  return part.mark === stile ? [{ letter: mating, face, other: mark }] : [];
}

/** The face of a part that looks this way. */
function faceLooking(place: Place, towards: SignedAxis): Face {
  const axes = axesOf(place);
  const i = axes.findIndex((axis) => axisOf(axis) === axisOf(towards));
  return `${LOCAL_AXES[i]!}${signOf(axes[i]!) === signOf(towards) ? 1 : 0}` as Face;
}

/** "A left end, C bottom edge": the letters that its joints carry, as the other members have them. */
export function matingWords(set: DryfitSet, part: SetPart): string[] {
  const own = matingOf(set, part);
  return own.length === 0
    ? []
    : [`joints: ${own.map(({ letter, face }) => `${letter} ${faceWords(part, face)}`).join(", ")}`];
}
