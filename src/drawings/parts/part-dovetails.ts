/** Tails or pins at a part's ends, in words: what is set out, from which edge, how deep and how steep. */
import { isSame } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { type Dovetail, dovetailsOf } from "../../set/dovetail.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { type Atom, figure, glue, TEXT, word, words } from "../draughting/cell.ts";

/** "12: 4 tails at the front end, baseline 12.2 from it; in the front end, from the bottom edge, 6 to 38.4 and 44.4 to 76.8; slope 1 in 8 (full size with the sticks)". Two ends that are alike are told together. */
export function dovetailAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  const heaps = new Map<string, Dovetail[]>();
  for (const one of dovetailsOf(part)) {
    const { has, tips, tails, span, baseline, slope } = one;
    const key = JSON.stringify([has, has === "pins" ? tips : one.end, tails, span, baseline, slope]);
    heaps.set(key, [...(heaps.get(key) ?? []), one]);
  }
  return [...heaps.values()].map((alike) => {
    const [{ has, tips, tails, span, baseline, slope }] = alike as [Dovetail];
    const count = `${tails.length} ${has === "tails" ? "" : "sockets for "}${tails.length === 1 ? "tail" : "tails"}`;
    const ends = listInWords(alike.map(({ end }) => faceWords(part, end)));
    return [
      ...words(`${listInWords(alike.map(({ holds }) => holds))}:`, TEXT, "bold"),
      ...words(`${count} at the ${ends}, baseline`),
      figure(baseline, unit),
      ...words(
        `from ${alike.length === 1 ? "it" : "each"}; in the ${faceWords(part, tips)}, from the ${faceWords(part, "w0")},`,
      ),
      ...tails.flatMap(([from, to], i) => [
        ...(i === 0 ? [] : [word("and")]),
        figure(from, unit),
        word("to"),
        i === tails.length - 1 ? glue([figure(to, unit), word(";")], 0) : figure(to, unit),
      ]),
      ...(isSame(span[0], 0) ? [] : [...words("pins from"), glue([figure(span[0], unit), word(";")], 0)]),
      ...words(`slope 1 in ${slope} (full size with the sticks)`),
    ];
  });
}
