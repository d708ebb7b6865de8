/** Look-alikes: parts easily taken for one another, and what tells them apart. */
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetCheck, SetPart } from "../../set/schema.ts";
import { isMirrored, LOOKS_ALIKE } from "../hand.ts";
import { type CheckInput, capital, checkOf, nameOf, PRACTICE, shown } from "./input.ts";

/** A wall and both ends may each lie a step off; the fit allowance lies to one side. */
const toleranceOf = ({ step, assemblies }: CheckInput): Mm =>
  3 * step + Math.max(...assemblies.map(({ fits }) => fits.allowance));

export function checkAlike(input: CheckInput): SetCheck[] {
  const { parts, unit } = input;
  const heaps: SetPart[][] = [];
  for (const part of parts) {
    const near = heaps.filter((heap) => heap.some(({ mark }) => part.alike.includes(mark)));
    const rest = heaps.filter((heap) => !near.includes(heap));
    heaps.splice(0, heaps.length, ...rest, [...near.flat(), part]);
  }
  const rule = `of one stock, and less than ${shown(LOOKS_ALIKE, unit)} apart in length and width, or a mirrored pair; parts made alike are no look-alikes (${PRACTICE})`;
  const checks = heaps
    .filter((heap) => heap.some(({ alike }) => alike.length > 0))
    .map((heap): SetCheck => {
      const kinds = kindsOf(heap);
      return checkOf(
        "look-alike",
        "note",
        heap.map(({ mark }) => mark),
        {
          text: `${capital(listInWords(heap.map(nameOf)))} are easily taken for one another: ${differences(kinds, unit, toleranceOf(input))}.${sameWords(kinds)}`,
          rule,
          change: "nothing: go by the labels, and put each on before the next part is cut",
        },
      );
    });
  if (checks.length > 0) return checks;
  return [checkOf("look-alike", "ok", [], { text: "No part is easily taken for another that is not the same.", rule })];
}

/** Parts of one pattern together, as they come. */
function kindsOf(heap: readonly SetPart[]): SetPart[][] {
  const patterns = [...new Set(heap.map(({ pattern }) => pattern))];
  return patterns.map((pattern) => heap.filter((part) => part.pattern === pattern));
}

/** What tells each kind from the first. */
function differences([first, ...others]: readonly SetPart[][], unit: Unit, tolerance: Mm): string {
  const one = first![0]!;
  return others.map(([other]) => `${other!.mark} ${differenceOf(one, other!, unit, tolerance)} ${one.mark}`).join(", ");
}

function differenceOf(one: SetPart, other: SetPart, unit: Unit, tolerance: Mm): string {
  if (isMirrored(one, other, tolerance)) return "is the mirror image of";
  const by = (axis: "length" | "width", more: string, less: string): string[] => {
    const difference: Mm = other[axis] - one[axis];
    if (Math.abs(difference) < SAME) return [];
    return [`${shown(Math.abs(difference), unit)} ${difference > 0 ? more : less}`];
  };
  const sizes = [...by("length", "longer", "shorter"), ...by("width", "wider", "narrower")];
  return sizes.length === 0 ? "has other grooves, notches or show faces than" : `is ${sizes.join(" and ")} than`;
}

function sameWords(kinds: readonly SetPart[][]): string {
  const same = kinds.filter((kind) => kind.length > 1).map((kind) => listInWords(kind.map(({ mark }) => mark)));
  return same.length === 0 ? "" : ` Made alike, and either will do: ${same.join("; ")}.`;
}
