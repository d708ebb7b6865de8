/** A drawing set into a page: the SVG itself, since pages opened as files may not fetch anything. */
import type { Mm } from "../base/length.ts";
import type { Page } from "../paper/shape.ts";

export type DrawingView = {
  id: string;
  title: string;
  label: string;
  width: Mm; // of the paper: how far the picture may shrink on a small screen
  svg: string;
  href: string;
};

const idOf = (key: string): string => `drawing-${key}`;

/** Where a drawing with this key stands on the index page, for links between drawings. */
export const drawingAnchor = (key: string): string => `#${idOf(key)}`;

const escapeAttribute = (text: string): string =>
  text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");

/** The root element alone, named for screen readers; an SVG file's prolog has no place inside HTML. */
function inline(svg: string, page: Page): string {
  const start = svg.indexOf("<svg");
  if (start < 0) throw new Error(`Internal error: the drawing ${page.key} is no SVG`);
  const name = escapeAttribute(page.title);
  // A picture has nothing in it to click; the cover's list of drawings has.
  const role = /<a[\s>]/.test(svg) ? "group" : "img";
  return `<svg role="${role}" aria-label="${name}"${svg.slice(start + "<svg".length)}`;
}

export const drawingView = (page: Page, svg: string, root: string): DrawingView => ({
  id: idOf(page.key),
  title: page.title,
  label: page.label,
  width: page.width,
  svg: inline(svg, page),
  href: `${root}svg/${page.key}.svg`,
});
