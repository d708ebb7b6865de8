/** The bookmarks of a document as a tree: every path once, in the order of the pages. */
import type { Page } from "../paper/shape.ts";

export type Bookmark = { title: string; page: number; children: Bookmark[] };

/** Pages that share the outer part of their path stand under one bookmark, which leads to the first of them. */
export function bookmarkTree(pages: readonly Page[]): Bookmark[] {
  const top: Bookmark[] = [];
  pages.forEach((page, index) => {
    let level = top;
    for (const title of page.bookmark) {
      let found = level.find((bookmark) => bookmark.title === title);
      if (found === undefined) {
        found = { title, page: index, children: [] };
        level.push(found);
      }
      level = found.children;
    }
  });
  return top;
}
