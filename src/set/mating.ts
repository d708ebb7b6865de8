/** Mating marks: the letter that both members of a joint carry, and where on each. */
import { faceWords } from "./facing.ts";
import type { DryfitSet, Face, SetPart } from "./schema.ts";

type Mating = { letter: string; face: Face; other: string };

/** Those of one part, in the order of the letters. */
const matingOf = ({ joints }: Pick<DryfitSet, "joints">, { mark }: SetPart): Mating[] =>
  joints.flatMap(({ entering, receiving, enteringEnd, receivingFace, mating }): Mating[] => {
    if (mating === null) return [];
    if (entering === mark) return [{ letter: mating, face: enteringEnd, other: receiving }];
    return receiving === mark ? [{ letter: mating, face: receivingFace, other: entering }] : [];
  });

/** "A left end, C bottom edge": the letters that its joints carry, as the other members have them. */
export function matingWords(set: DryfitSet, part: SetPart): string[] {
  const own = matingOf(set, part);
  return own.length === 0
    ? []
    : [`joints: ${own.map(({ letter, face }) => `${letter} ${faceWords(part, face)}`).join(", ")}`];
}
