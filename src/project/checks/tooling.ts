/** Machines that agree with themselves, and trims that a blade can take. */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { BASE_OVER_BIT } from "../defaults.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { quote } from "../file/words.ts";
import type { Stock } from "../stock.ts";
import type { Tooling } from "../tooling.ts";

/** `prefix`: where the file speaks of tooling, "tooling." in a job. */
export function checkTooling({ saw, router }: Tooling, source: Source, prefix: string, unit: Unit): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const placed = (paths: readonly string[]): string =>
    paths.map((path) => `${prefix}${path}`).find((path) => path in source.lines) ?? `${prefix}${paths[0]}`;
  const problems: Problem[] = [];
  const { least, most } = saw.dado;
  if (least > most + SAME) {
    problems.push(
      inputProblem(
        source,
        placed(["saw.dado.least", "saw.dado.most"]),
        `a grooving cutter from ${show(least)} to ${show(most)} wide`,
        '"least" no more than "most"',
        "change them over, or measure again",
      ),
    );
  }
  if (saw.narrowest > saw.rip + SAME) {
    problems.push(
      inputProblem(
        source,
        placed(["saw.narrowest", "saw.rip"]),
        `a fence that reaches ${show(saw.rip)}, and no strip narrower than ${show(saw.narrowest)} ripped at it`,
        '"narrowest" no more than "rip"',
        "measure again, or check the unit",
      ),
    );
  }
  const base = 2 * router.baseHalf;
  const widest = router.bits.reduce((one, other) => (other.diameter > one.diameter ? other : one));
  if (base <= widest.diameter + BASE_OVER_BIT + SAME) {
    problems.push(
      inputProblem(
        source,
        placed(["router.ride", "router.base", `router.bits[${router.bits.indexOf(widest)}].diameter`]),
        `a router base of ${show(base)}, and ${quote(widest.name)} with a diameter of ${show(widest.diameter)}`,
        `a base more than ${show(BASE_OVER_BIT)} wider than the widest bit`,
        "measure the base across the cut, and check the bit's diameter",
      ),
    );
  }
  return problems;
}

/** An edge is trimmed with the saw: what comes off is at least the cut itself, or nothing. */
export function checkTrim(stock: readonly Stock[], { saw }: Tooling, source: Source, unit: Unit): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  return stock
    .filter(({ trim }) => trim > 0 && trim < saw.kerf - SAME)
    .map(({ id, trim }) => {
      const own = `stock.${id}.trim`;
      return inputProblem(
        source,
        own in source.lines ? own : "tooling.saw.kerf",
        `a trim of ${show(trim)} for ${quote(id)}, and a cut ${show(saw.kerf)} wide`,
        `0, or at least ${show(saw.kerf)}: the trim includes its cut`,
        "trim more, or check the kerf",
      );
    });
}
