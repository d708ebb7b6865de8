/** Look-alikes: parts easily taken for one another, and what tells them apart. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { isInterchangeable, LOOKS_ALIKE } from "../../set/hand.ts";
import type { SetCheck, SetPart } from "../../set/schema.ts";
import { differenceInWords, differenceOf, likenessTolerance } from "../../set/told-apart.ts";
import { type CheckInput, capital, checkOf, nameOf, PRACTICE, shown } from "./input.ts";

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
          text: `${capital(listInWords(heap.map(nameOf)))} are easily taken for one another: ${differences(kinds, input)}.${sameWords(kinds)}`,
          rule,
          change: "nothing: go by the labels, and put each on before the next part is cut",
        },
      );
    });
  if (checks.length > 0) return checks;
  return [checkOf("look-alike", "ok", [], { text: "No part is easily taken for another that is not the same.", rule })];
}

/** Parts of which either will do together, as they come. */
function kindsOf(heap: readonly SetPart[]): SetPart[][] {
  const kinds: SetPart[][] = [];
  for (const part of heap) {
    const kind = kinds.find(([first]) => isInterchangeable(first!, part));
    if (kind) kind.push(part);
    else kinds.push([part]);
  }
  return kinds;
}

/** What tells each kind from the first. */
function differences([first, ...others]: readonly SetPart[][], input: CheckInput): string {
  const one = first![0]!;
  const say = (length: Mm): string => shown(length, input.unit);
  const tolerance = likenessTolerance(input);
  return others
    .map(([other]) => `${other!.mark} ${differenceInWords(differenceOf(one, other!, tolerance, say))} ${one.mark}`)
    .join(", ");
}

function sameWords(kinds: readonly SetPart[][]): string {
  const same = kinds.filter((kind) => kind.length > 1).map((kind) => listInWords(kind.map(({ mark }) => mark)));
  return same.length === 0 ? "" : ` Made alike, and either will do: ${same.join("; ")}.`;
}
