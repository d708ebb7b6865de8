/** Cases that are the same piece made more than once are drawn once. */
import { type Place, toInner, toOuter } from "../../base/geometry.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../set/schema.ts";
import { baseUnder, behindFrame, frameBefore, returnsOf } from "../../set/standing.ts";
import { byMark } from "../../set/words.ts";
import { BOUGHT, moveSolid, type Solid, solidsOf } from "../solids/solid.ts";

export type CaseGroup = {
  /** The one that is drawn. */
  drawn: SetAssembly;
  /** Every other one, with the marks that stand where the drawn one's do. */
  others: { assembly: SetAssembly; marks: { drawn: string; other: string }[] }[];
};

const partsOf = (set: DryfitSet, assembly: SetAssembly): SetPart[] =>
  set.parts
    .filter((part) => part.assembly === assembly.name && part.place !== null)
    .sort((a, b) => byMark(a.mark, b.mark));

/** Equal for two parts that are the same and stand in the same place. */
const standing = (part: SetPart): string => JSON.stringify([part.pattern, part.place]);

/** Each case that is drawn, or each frame, door or drawer, in the order of the set. A base is drawn with the case that stands on it. */
export function groupsOf(set: DryfitSet, kind: "case" | "frame" | "door" | "drawer"): CaseGroup[] {
  const groups: { drawn: SetAssembly; parts: SetPart[]; others: CaseGroup["others"] }[] = [];
  for (const assembly of set.assemblies) {
    if (assembly.kind !== kind) continue;
    const parts = partsOf(set, assembly);
    const same = groups.find(
      (group) =>
        group.parts.length === parts.length &&
        group.parts.map(standing).sort().join() === parts.map(standing).sort().join(),
    );
    if (same === undefined) {
      groups.push({ drawn: assembly, parts, others: [] });
      continue;
    }
    const free = [...parts];
    same.others.push({
      assembly,
      marks: same.parts.map((part) => {
        const at = free.findIndex((other) => standing(other) === standing(part));
        const [other] = free.splice(at, 1);
        return { drawn: part.mark, other: other!.mark };
      }),
    });
  }
  return groups.map(({ drawn, others }) => ({ drawn, others }));
}

export const isAlone = (set: DryfitSet): boolean => set.assemblies.filter(({ kind }) => kind === "case").length === 1;

/** "own": only where it goes before this case alone, for its members would run on past the case on either side. */
export type WithFrame = "none" | "own" | "any";

/**
 * A case as it stands, in its own axes: its parts, the side it shares with the case beside it (a neighbour), the base under it, and, where
 * asked for, the frame before it.
 */
export function standingSolids(set: DryfitSet, assembly: SetAssembly, which: WithFrame): Solid[] {
  const own = assembly.place as Place;
  const moved = (other: SetAssembly, solids: Solid[]): Solid[] =>
    solids.map((solid) => moveSolid(solid, (spot) => toInner(own, toOuter(other.place as Place, spot))));
  const borrowed = set.assemblies.flatMap((other) =>
    moved(
      other,
      solidsOf(set, other)
        .filter(({ mark }) => assembly.borrows.includes(mark))
        .map((solid) => ({ ...solid, look: "neighbour" as const })),
    ),
  );
  const base = baseUnder(assembly, set.assemblies);
  const before = frameBefore(assembly, set.assemblies);
  const isOthers = before !== null && behindFrame(before, set.assemblies).length > 1;
  const withFrame = which === "any" || (which === "own" && !isOthers);
  const frame = withFrame ? before : null;
  const drawers = which === "none" ? [] : drawersIn(set, assembly);
  const returns = withFrame ? returnsOf(assembly, set.assemblies) : [];
  const others = [base, frame, ...returns, ...drawers].flatMap((other) =>
    other === null ? [] : moved(other, [...solidsOf(set, other), ...feetOf(other)]),
  );
  return [...solidsOf(set, assembly), ...borrowed, ...others];
}

/** Bought feet, as square as they are wide. */
const feetOf = ({ feet }: SetAssembly): Solid[] =>
  feet === null
    ? []
    : [
        {
          mark: BOUGHT,
          boxes: feet.middles.map(([x, y]) => [
            [x - feet.diameter / 2, y - feet.diameter / 2, 0],
            [x + feet.diameter / 2, y + feet.diameter / 2, feet.height],
          ]),
        },
      ];

/** The drawers of a case, and the strips that carry them. */
function drawersIn(set: DryfitSet, { name }: SetAssembly): SetAssembly[] {
  const own = set.drawers.filter((drawer) => drawer.case === name).map(({ assembly }) => assembly);
  return set.assemblies.filter(
    (one) => own.includes(one.name) || (one.kind === "packing" && one.name.startsWith(`${name} packing `)),
  );
}

/** "Front view", or with the case's name where there are several: "Front view, low case". */
export const nameOfCase = (set: DryfitSet, name: string, { name: own }: Pick<SetAssembly, "name">): string =>
  isAlone(set) ? name : `${name}, ${own}`;

/** A key's tail for a case: letters, figures and dashes only, as it names a file. */
export const keyOfCase = (set: DryfitSet, key: string, assembly: SetAssembly): string =>
  isAlone(set) ? key : `${key}-${set.assemblies.indexOf(assembly) + 1}`;
