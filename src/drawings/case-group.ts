/** Cases that are the same piece made more than once are drawn once. */
import type { DryfitSet, SetAssembly, SetPart } from "../set/schema.ts";
import { byMark } from "../set/words.ts";

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

/** In the order of the set. */
export function caseGroups(set: DryfitSet): CaseGroup[] {
  const groups: { drawn: SetAssembly; parts: SetPart[]; others: CaseGroup["others"] }[] = [];
  for (const assembly of set.assemblies) {
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

export const isAlone = (set: DryfitSet): boolean => set.assemblies.length === 1;

/** "Front view", or with the case's name where there are several: "Front view, low case". */
export const nameOfCase = (set: DryfitSet, name: string, assembly: SetAssembly): string =>
  isAlone(set) ? name : `${name}, ${assembly.name}`;

/** A key's tail for a case: letters, figures and dashes only, as it names a file. */
export const keyOfCase = (set: DryfitSet, key: string, assembly: SetAssembly): string =>
  isAlone(set) ? key : `${key}-${set.assemblies.indexOf(assembly) + 1}`;
