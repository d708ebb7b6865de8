/** What of labels and sticks is printed anew after a change: the rest is in the shop already, and still true. */
import { isSame } from "../base/length.ts";
import type { DryfitSet, SetPart, SetReprint, SetStick } from "../set/schema.ts";

type Why = SetReprint["parts"][number]["why"][number];
type Older = Pick<DryfitSet, "parts" | "sticks" | "job">;

/** Marks are kept by key, so that a part of the older set is found by its mark. */
export function planReprint(parts: SetPart[], sticks: SetStick[], older: Older): SetReprint {
  const before = new Map(older.parts.map((part) => [part.mark, part]));
  const now = new Set(parts.map(({ mark }) => mark));
  const changed = parts.flatMap((part) => {
    const was = before.get(part.mark);
    const why: Why[] = was === undefined ? ["new"] : changesOf(part, was);
    return why.length === 0 ? [] : [{ mark: part.mark, why }];
  });
  const [planned, inShop] = [sticks, older.sticks].map((some) => some.map(contentOf)) as [string[], string[]];
  return {
    revision: older.job.revision,
    parts: changed,
    withdrawn: older.parts
      .filter(({ mark }) => !now.has(mark))
      .map(({ mark, name, case: of }) => ({ mark, name: `${name}, ${of}` })),
    sticks: sticks.filter((_, i) => !inShop.includes(planned[i]!)).map(({ name }) => name),
    withdrawnSticks: older.sticks.filter((_, i) => !planned.includes(inShop[i]!)).map(({ name }) => name),
  };
}

/** What a label says, or what a maker lays out by it. */
function changesOf(part: SetPart, was: SetPart): Why[] {
  const isOther = (of: (one: SetPart) => unknown): boolean => JSON.stringify(of(part)) !== JSON.stringify(of(was));
  const sides = (one: SetPart): number[] => [one.length, one.width, one.thickness];
  const isResized = sides(part).some((side, i) => !isSame(side, sides(was)[i]!));
  const checks: [Why, boolean][] = [
    ["size", isResized],
    ["joinery", isOther(({ features, lippings }) => [features, lippings])],
    ["hand", isOther(({ hand, inside, show }) => [hand, inside, show])],
    ["stock", isOther(({ material, grain }) => [material, grain])],
    ["name", isOther(({ name, case: of }) => [name, of])],
    ["look-alikes", isOther(({ alike }) => alike)],
  ];
  return checks.flatMap(([why, isChanged]) => (isChanged ? [why] : []));
}

/** All that is printed on a stick, whatever paper it is tiled on. */
const contentOf = ({ name, axis, length, parts, marks }: SetStick): string =>
  JSON.stringify([name, axis, length, parts, marks]);
