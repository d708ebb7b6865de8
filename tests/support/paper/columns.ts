/** A page in columns, as the eye parts it: by the upright line between two of them. */
import { isDrawnWith, isUpright, type SeenPage } from "./page.ts";

const LEAST_RULE = 60; // mm: longer than any upright line of a small picture
const TOUCH = 0.1;

/** Where lines part the page from its top; none where it is read across. */
function rulesOf({ strokes }: Pick<SeenPage, "strokes">): number[] {
  const upright = strokes.filter(
    (one) => isUpright(one) && isDrawnWith(one, "thin") && Math.abs(one.from[1] - one.to[1]) > LEAST_RULE,
  );
  return [...new Set(upright.map(({ from }) => from[0]))].sort((a, b) => a - b);
}

/** Each column as a page of its own, in the order they are read; what lies across all of them (frame, title block) stands in each. */
export function columnsOfPage(page: SeenPage): SeenPage[] {
  return tellColumns(page).map(
    (isIn): SeenPage => ({
      ...page,
      words: page.words.filter(isIn),
      upright: page.upright.filter(isIn),
    }),
  );
}

/** Of each column whether something stands in it. */
export function tellColumns(
  page: Pick<SeenPage, "width" | "strokes">,
): ((one: { x0: number; x1: number }) => boolean)[] {
  const rules = rulesOf(page);
  return [...rules, page.width].map((right, i) => {
    const left = rules[i - 1] ?? 0;
    return ({ x0, x1 }) => x0 > left - TOUCH && x1 < right + TOUCH;
  });
}
