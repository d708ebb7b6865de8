/** Moves of an order in words: what is brought, which way, on to what; and on which part it all lies. */
import type { Vec } from "../../base/geometry.ts";
import type { SetAssembly, SetMove, SetOrder } from "../../set/schema.ts";
import { type ByMark, capital, listOf } from "./step.ts";

const WAYS: readonly { travel: Vec; words: string }[] = [
  { travel: [0, 0, -1], words: "down" },
  { travel: [0, 0, 1], words: "up from below" },
  { travel: [1, 0, 0], words: "from the left" },
  { travel: [-1, 0, 0], words: "from the right" },
  { travel: [0, -1, 0], words: "from behind" },
  { travel: [0, 1, 0], words: "from the front" },
];

/** "Down"; slantwise, where several bodies close on each other at once. */
function wayOf(travel: readonly number[]): string {
  const straight = WAYS.find((way) => way.travel.every((one, i) => one === travel[i]));
  if (straight) return straight.words;
  const parts = WAYS.filter((way) => way.travel.some((one, i) => one !== 0 && one === travel[i]));
  return parts.map(({ words }) => words).join(" and ");
}

export function moveInWords({ bring, to, slides }: SetMove, byMark: ByMark): string {
  const moved = bring.map(({ parts, travel }) => {
    const joined = parts.length > 1 ? `${listOf(parts, byMark)}, joined` : listOf(parts, byMark);
    const way = wayOf(travel);
    return `${joined}: ${slides ? `slides in ${way}` : way}`;
  });
  const together = moved.length > 1 ? ", all at the same time" : "";
  return `${capital(moved.join("; "))}${together}, on to ${listOf(to, byMark)}.`;
}

/** What is joined after each move: for each, the marks that then hold together with what it brought. */
export function joinedAfter({ moves }: Pick<SetOrder, "moves">): ReadonlySet<string>[] {
  const groups = new Map<string, ReadonlySet<string>>();
  return moves.map(({ bring, to }) => {
    const met = [...bring.flatMap(({ parts }) => parts), ...to];
    const joined = new Set(met.flatMap((mark) => [mark, ...(groups.get(mark) ?? [])]));
    for (const mark of joined) groups.set(mark, joined);
    return joined;
  });
}

/** A side that lies on the bench, and the way that is up while it does. */
export type Lying = { mark: string; up: Vec; from: string };

/** Where parts go into one side, one after the other, before anything comes from above, that side lies on the bench and they go down into it. */
export function lyingSide({ moves }: Pick<SetOrder, "moves">, byMark: ByMark): Lying | null {
  const mark = moves.flatMap(({ to }) => to).find((one) => byMark.get(one)!.role === "side");
  if (mark === undefined || byMark.get(mark)!.place === null) return null;
  const into = moves.filter(({ to, bring }) => to.includes(mark) && bring.every(({ travel }) => travel[0] !== 0));
  const ways = new Set(into.flatMap(({ bring }) => bring.map(({ travel }) => travel[0])));
  const last = into.at(-1);
  if (last === undefined || into.length < FEWEST || ways.size > 1) return null;
  const before = moves.filter(({ n }) => n <= last.n).flatMap(({ bring }) => bring);
  if (before.some(({ parts, travel }) => travel[2] !== 0 || parts.includes(mark))) return null;
  const isFromLeft = ways.has(1);
  return { mark, up: [isFromLeft ? -1 : 1, 0, 0], from: isFromLeft ? "left" : "right" };
}

const FEWEST = 2;

/** A side shared with the case beside it is no loose panel any more: that case lies down with it. */
export function lyingInWords({ mark, from }: Lying, assembly: SetAssembly, byMark: ByMark): string {
  const part = byMark.get(mark)!;
  const down = `what is said to come from the ${from} goes down into it.`;
  return part.assembly === assembly.name
    ? `Lay ${part.name} ${mark} flat on the bench, inside face up: ${down}`
    : `Lay ${part.assembly} down with ${part.name} ${mark} upwards: ${down}`;
}
