/**
 * Links from a part's mark to its drawing. Which drawing that is, is known only once the whole set is drawn: until then a
 * link leads to the mark, and the frame turns it round.
 */
import type { LinkShape, Rect, Shape } from "../../paper/shape.ts";

const OF_MARK = "of part ";

export const linkToPart = (mark: string, box: Rect): LinkShape => ({
  kind: "link",
  box,
  to: { page: `${OF_MARK}${mark}` },
});

/** `pageOf`: the page that draws a part, or none; a link that would lead nowhere, or to its own page, is left out. */
export const turnLinks = (shapes: readonly Shape[], pageOf: (mark: string) => string | undefined): Shape[] =>
  shapes.flatMap((shape): Shape[] => {
    if (shape.kind === "group") return [{ ...shape, shapes: turnLinks(shape.shapes, pageOf) }];
    if (shape.kind !== "link" || !("page" in shape.to) || !shape.to.page.startsWith(OF_MARK)) return [shape];
    const page = pageOf(shape.to.page.slice(OF_MARK.length));
    return page === undefined ? [] : [{ ...shape, to: { page } }];
  });
