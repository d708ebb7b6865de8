/** What the job asked of its layouts beyond the fewest sheets, and what they keep of it. */
import { listInWords } from "../../base/words.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { checkOf, nameAlike } from "./input.ts";

type Input = Pick<DryfitSet, "layout" | "pieces" | "parts" | "sheets" | "boards">;
type Wish = DryfitSet["layout"]["wishes"][number];

const RULE =
  "the cheapest stock first, then as many wishes as it allows: strips cut in one, grain along the sheet, parts wanted early";

export function checkLayoutWishes(input: Input): SetCheck[] {
  const { layout, pieces, parts } = input;
  const own = (kind: Wish["kind"]): Wish[] => layout.wishes.filter((wish) => wish.kind === kind);
  const marksOf = (wishes: readonly Wish[]): string[] => {
    const ids = wishes.flatMap((wish) => wish.pieces);
    return [...new Set(ids.map((id) => pieces.find((piece) => piece.id === id)!.mark))];
  };
  const named = (marks: readonly string[]): string =>
    nameAlike(marks.map((mark) => parts.find((part) => part.mark === mark)!));
  const strips = own("together").map((wish): SetCheck => {
    const marks = marksOf([wish]);
    const how = wish.run === "x" ? "end to end" : "side by side";
    if (wish.kept)
      return checkOf("layout-strip", "ok", marks, {
        text: `From one strip, ${how} in this order, so that the figure runs through: ${listInWords(wish.pieces)}.`,
        rule: RULE,
      });
    return checkOf("layout-strip", "note", marks, {
      text: `Not from one strip, for that would take more stock: ${named(marks)}.`,
      rule: RULE,
      change: 'nothing; or "must": true for this strip; or another stock, or a strip of fewer parts',
    });
  });
  const across = marksOf(own("grain").filter(({ kept }) => !kept));
  const grain =
    own("grain").length === 0
      ? []
      : across.length === 0
        ? [
            checkOf("layout-grain", "ok", [], {
              text: "Every part that was wished along the grain lies so.",
              rule: RULE,
            }),
          ]
        : [
            checkOf("layout-grain", "note", across, {
              text: `Across the grain of the sheet, for along it they would take more stock: ${named(across)}.`,
              rule: RULE,
              change: "nothing; or leave them out of the wishes, so that they keep to the grain",
            }),
          ];
  return [...strips, ...grain, ...checkEarly(own("early"), input)];
}

function checkEarly(wishes: readonly Wish[], { sheets, boards }: Input): SetCheck[] {
  if (wishes.length === 0) return [];
  const ids = new Set(wishes.flatMap((wish) => wish.pieces));
  const on = [
    ...sheets.filter(({ parts }) => parts.some(({ id }) => ids.has(id))).map(({ n }) => `sheet ${n}`),
    ...boards.filter(({ parts }) => parts.some(({ id }) => ids.has(id))).map(({ n }) => `board ${n}`),
  ];
  const text = `The parts wanted first come from ${listInWords(on)}.`;
  if (wishes.every(({ kept }) => kept)) return [checkOf("layout-early", "ok", [], { text, rule: RULE })];
  return [
    checkOf("layout-early", "note", [], {
      text: `${text} Fewer might hold them.`,
      rule: RULE,
      change: 'nothing; or another "seed", or a longer "effort"',
    }),
  ];
}
