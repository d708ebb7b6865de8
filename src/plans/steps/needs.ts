/** What each step depends on: the steps that last had its parts in hand, and, for what is cut new, all that stands by then. */
import type { Draft } from "./step.ts";

/** For each step the numbers, from 1, of those that come straight before it: what these need in turn is left out. */
export function needsOf(drafts: readonly Draft[]): number[][] {
  const whole: Set<number>[] = []; // of each step all that comes before it
  return drafts.map((draft, at) => {
    const direct = directly(drafts, draft, at);
    const farther = new Set(direct.flatMap((one) => [...whole[one]!]));
    whole.push(new Set([...direct, ...farther]));
    return direct.filter((one) => !farther.has(one)).map((one) => one + 1);
  });
}

function directly(drafts: readonly Draft[], { parts, beside = [] }: Draft, at: number): number[] {
  const before = drafts.slice(0, at);
  const last = [...parts, ...beside].map((mark) => before.findLastIndex((one) => one.parts.includes(mark)));
  return last.includes(-1) ? before.map((_, i) => i) : [...new Set(last)].sort((a, b) => a - b);
}
