/** What can still give a part that is spoiled: an offcut of the sheet layouts, or a larger part that is itself spoiled. */
import { type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetPart } from "../../set/schema.ts";
import type { StepsInput } from "./step.ts";

type Panel = { length: Mm; width: Mm };

/** Grain along the length of both; a part without grain lies either way. */
const gives = (from: Panel, part: SetPart): boolean => {
  const fits = (length: Mm, width: Mm): boolean => length <= from.length + SAME && width <= from.width + SAME;
  const { length, width } = part.cut;
  return fits(length, width) || (part.grain === "none" && fits(width, length));
};

/** A spoiled piece has lost something, so one of the same size gives nothing. */
const isLarger = (from: SetPart, part: SetPart): boolean =>
  from.cut.length * from.cut.width > part.cut.length * part.cut.width + SAME;

/** "1, 2 or 3". */
const either = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;

/** One sentence for each kind of remedy; parts that the same pieces give are told together. */
export function spoiledInWords({ parts, sheets }: Pick<StepsInput, "parts" | "sheets">): string[] {
  const offcuts = new Map<string, string[]>();
  const larger = new Map<string, string[]>();
  const fresh: string[] = [];
  const note = (heap: Map<string, string[]>, key: string, mark: string): void => {
    heap.set(key, [...(heap.get(key) ?? []), mark]);
  };
  for (const part of parts) {
    const left = sheets
      .filter(({ stock }) => stock === part.material)
      .flatMap((sheet) => sheet.offcuts.filter((offcut) => gives(offcut, part)).map(({ id }) => id));
    const others = parts.filter((one) => one.material === part.material && isLarger(one, part) && gives(one.cut, part));
    if (left.length > 0) note(offcuts, `offcut ${either(left)}`, part.mark);
    else if (others.length > 0) note(larger, either(others.map(({ mark }) => mark)), part.mark);
    else fresh.push(part.mark);
  }
  const told = (heap: Map<string, string[]>): string =>
    [...heap].map(([from, marks]) => `${listInWords(marks)} from ${from}`).join("; ");
  return [
    ...(offcuts.size === 0 ? [] : [`If a part is spoiled, it can be cut again: ${told(offcuts)}.`]),
    ...(larger.size === 0
      ? []
      : [`No offcut gives these, but what is sound of a larger part that was spoiled may: ${told(larger)}.`]),
    ...(fresh.length === 0
      ? []
      : [
          `Nothing that is left over gives ${listInWords(fresh)}: spoiled, each needs a fresh sheet, so cut with most care.`,
        ]),
  ];
}
