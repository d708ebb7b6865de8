/** Mortises in a part's edges and ends, in words: for loose tenons, and for the stub tenons of other parts. */
import { isSame } from "../../base/length.ts";
import { faceWords, fromFace, frontFace } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { type Atom, figure, TEXT, words } from "../draughting/cell.ts";

/** "9: mortises in the left end, 1/4 wide in the middle of the thickness, 1 deep: 13/32 to 1 5/32 and 1 27/32 to 2 19/32 from the bottom edge" */
export function mortiseAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  const kinds = new Map<string, SetFeature[]>();
  for (const feature of part.features.filter(({ kind }) => kind.endsWith("mortise"))) {
    const key = `${feature.holds} ${feature.face} ${feature.width.toFixed(4)} ${feature.depth.toFixed(4)}`;
    kinds.set(key, [...(kinds.get(key) ?? []), feature]);
  }
  return [...kinds.values()].map((own) => {
    const [first] = own as [SetFeature];
    const { kind, holds, face, along, width, depth } = first;
    const outer = frontFace(part) ?? "t0";
    const least = Math.min(...own.map(({ from, to }) => to - from));
    return [
      ...words(`${holds}:`, TEXT, "bold"),
      ...words(`${own.length === 1 ? "mortise" : "mortises"} in the ${faceWords(part, face)},`),
      figure(width, unit),
      ...(kind === "mortise"
        ? words("wide in the middle of the thickness,")
        : [
            ...words("wide,"),
            figure(fromFace(part, first, outer), unit),
            ...words(`from the ${faceWords(part, outer)}, ends square,`),
          ]),
      figure(depth, unit),
      ...words("deep:"),
      ...own.flatMap(({ from, to }, i) => [
        ...(i === 0 ? [] : words("and")),
        figure(from, unit),
        ...words("to"),
        figure(to, unit),
        ...(to - from > least && !isSame(to - from, least) ? words("(slotted)") : []),
      ]),
      ...words(`from the ${faceWords(part, `${along}0` as Face)}`),
    ];
  });
}
