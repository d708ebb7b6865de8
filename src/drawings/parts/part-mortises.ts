/** Mortises in a part's edges and ends, in words: for loose tenons, and for the stub tenons of other parts. */
import { isSame } from "../../base/length.ts";
import { faceWords, fromFace, frontFace } from "../../set/facing.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../set/schema.ts";
import { type Atom, figure, TEXT, words } from "../draughting/cell.ts";

/** "9: 2 mortises in the left end, 1/4 wide in the middle of the thickness, 1 deep"; from where to where is on the view. */
export function mortiseAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  const kinds = new Map<string, SetFeature[]>();
  for (const feature of part.features.filter(({ kind }) => kind.endsWith("mortise"))) {
    const key = `${feature.holds} ${feature.face} ${feature.width.toFixed(4)} ${feature.depth.toFixed(4)}`;
    kinds.set(key, [...(kinds.get(key) ?? []), feature]);
  }
  return [...kinds.values()].map((own) => {
    const [first] = own as [SetFeature];
    const { kind, holds, face, width, depth } = first;
    const outer = frontFace(part) ?? "t0";
    const least = Math.min(...own.map(({ from, to }) => to - from));
    const slotted = own.filter(({ from, to }) => to - from > least && !isSame(to - from, least)).length;
    return [
      ...words(`${holds}:`, TEXT, "bold"),
      ...words(`${own.length} ${own.length === 1 ? "mortise" : "mortises"} in the ${faceWords(part, face)},`),
      figure(width, unit),
      ...(kind === "mortise"
        ? words("wide in the middle of the thickness,")
        : [
            ...words("wide,"),
            figure(fromFace(part, first, outer), unit),
            ...words(`from the ${faceWords(part, outer)}, ends square,`),
          ]),
      figure(depth, unit),
      ...words(slotted === 0 ? "deep" : `deep (the longer ${slotted === 1 ? "one is" : "ones are"} slotted)`),
    ];
  });
}
