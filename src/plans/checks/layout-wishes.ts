/** What the job asked of its layouts beyond the fewest sheets, and what they keep of it. */
import { listInWords } from "../../base/words.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { checkOf, nameAlike } from "./input.ts";

type Input = Pick<DryfitSet, "layout" | "pieces" | "parts" | "sheets" | "boards">;
type Wish = DryfitSet["layout"]["wishes"][number];

const RULE =
  "the cheapest stock first, then as many wishes as it allows: strips cut in one, grain along the sheet, cuts to begin with, parts wanted early";

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
  return [...strips, ...grain, ...checkFirst(own("first"), input), ...checkEarly(own("early"), input)];
}

function checkFirst(wishes: readonly Wish[], { layout, pieces }: Input): SetCheck[] {
  if (wishes.length === 0) return [];
  const [told, other] = layout.first === "rip" ? ["rips", "crosscuts"] : ["crosscuts", "rips"];
  const lost = wishes.filter(({ kept }) => !kept).map((wish) => pieces.find(({ id }) => id === wish.pieces[0])!.stock);
  if (lost.length === 0)
    return [checkOf("layout-first", "ok", [], { text: `Every sheet and board begins with its ${told}.`, rule: RULE })];
  return [
    checkOf("layout-first", "note", [], {
      text: `Some begin with ${other}, for ${told} first would take more stock: of ${listInWords(lost)}.`,
      rule: RULE,
      change: `nothing, their cuts are numbered in their order; or leave "first" out`,
    }),
  ];
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
