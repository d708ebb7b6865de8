/** Why a random file may be refused: each reason by name, and how its message is known. */
import type { Problem } from "../../../src/base/problem.ts";
import type { SetCheck } from "../../../src/set/schema.ts";

export type KnownReason = { name: string; says: RegExp };

export const KNOWN_REASONS: readonly KnownReason[] = [
  { name: "joints deeper than half the part", says: /^joints .* deep in .*, nominally .* thick$/ },
  { name: "a bay too low for its loose shelves", says: /^(a|\d+) loose shel(f|ves) in a bay of / },
  { name: "a shared side that does not reach as far", says: /deep to its parts' rear edges, and the right side of / },
  {
    name: "shelves housed in a back beside that of a neighbour",
    says: /^shelves and dividers of .* housed in an applied back, beside the applied back of /,
  },
  {
    name: "a finished glue-up that the rest does not go into",
    says: /^assembly-order: .* cannot be put together: .* declared one finished glue-up/,
  },
  { name: "a groove that no tool of the shop cuts", says: /^no-tool: No tool of the shop cuts the groove / },
  { name: "filler strips that lap or almost meet", says: /^filler strips .*, two of which (lap by|lie) / },
];

/** The name of the reason, or null where nobody expected it. */
export const reasonOf = (said: Problem | SetCheck): string | null => {
  const text = "found" in said ? said.found : `${said.id}: ${said.text}`;
  return KNOWN_REASONS.find(({ says }) => says.test(text))?.name ?? null;
};
