/** Why a random file may be refused: each reason by name, and how its message is known. */
import type { Problem } from "../../src/base/problem.ts";
import type { SetCheck } from "../../src/set/schema.ts";

export type KnownReason = { name: string; says: RegExp };

export const KNOWN_REASONS: readonly KnownReason[] = [];

/** The name of the reason, or null where nobody expected it. */
export const reasonOf = (said: Problem | SetCheck): string | null => {
  const text = "found" in said ? said.found : `${said.id}: ${said.text}`;
  return KNOWN_REASONS.find(({ says }) => says.test(text))?.name ?? null;
};
