/** A page as SVG, in millimetres: the very shapes, with the lettering either inside the file or served beside it. */
import { type Container, type Element, Svg, withWindow } from "@svgdotjs/svg.js";
import { createSVGWindow } from "svgdom";
import type { Mm } from "../base/length.ts";
import { FAMILY, fontSizeOf, readWebFaceFile, SLASHED_ZERO, type Weight } from "../paper/lettering.ts";
import { PENS, type Pen } from "../paper/pen.ts";
import type { GroupShape, LinkShape, Page, PathStep, Rect, Shape, TextShape } from "../paper/shape.ts";
import { linkAddress } from "./address.ts";
import { decimal } from "./decimal.ts";
import { gather, type Run } from "./gather.ts";
import { checkLettering } from "./lettered.ts";

export type SvgOptions = {
  /** A file of its own, with the lettering inside; else an element to be set into a page that brings the lettering. */
  embedFont: boolean;
  /** Before every id, so that several drawings can stand in one page. */
  idPrefix: string;
  /** Where the page with this key is found. Unless given: beside this file; an element set into a page has no such links. */
  hrefOf?: (key: string) => string;
};

type Context = SvgOptions & { page: Page; defs: Container; ids: Set<string> };

type Attributes = Record<string, string>;

/** What a text looks like apart from where it stands; left out where it is as everywhere else on the page. */
const lookOf = (text: TextShape): Attributes => ({
  "font-size": decimal(fontSizeOf(text.size)),
  ...(text.weight === "bold" ? { "font-weight": "700" } : {}),
  ...(text.anchor === "start" ? {} : { "text-anchor": text.anchor }),
  ...(text.grey === 0 ? {} : { fill: greyOf(text.grey) }),
});

function greyOf(grey: number): string {
  if (!(grey >= 0 && grey <= 1)) throw new Error(`Internal error: ${grey} is no grey`);
  const level = Math.round(grey * 255)
    .toString(16)
    .padStart(2, "0");
  return `#${level}${level}${level}`;
}

const at = ([x, y]: readonly [Mm, Mm]): string => `${decimal(x)} ${decimal(y)}`;

function pathData(steps: readonly PathStep[]): string {
  let data = "";
  for (const step of steps) {
    switch (step.to) {
      case "move":
        data += `M${at(step.at)}`;
        break;
      case "line":
        data += `L${at(step.at)}`;
        break;
      case "curve":
        data += `C${at(step.c1)} ${at(step.c2)} ${at(step.at)}`;
        break;
      case "close":
        data += "Z";
        break;
    }
  }
  return data;
}

const penAttributes = (pen: Pen): Attributes => {
  const { width, dash, grey } = PENS[pen];
  return {
    fill: "none",
    stroke: greyOf(grey),
    "stroke-width": decimal(width),
    ...(dash.length === 0 ? {} : { "stroke-dasharray": dash.map(decimal).join(" ") }),
  };
};

const rectAttributes = ({ x, y, width, height }: Rect): Attributes => ({
  x: decimal(x),
  y: decimal(y),
  width: decimal(width),
  height: decimal(height),
});

/** Ours turn anticlockwise, SVG's clockwise. */
const turnOf = (turn: number, about = ""): string => `rotate(${decimal(-turn)}${about})`;

function newId(context: Context, name: string): string {
  const id = context.idPrefix + name;
  if (!/^[A-Za-z_][\w.-]*$/.test(id)) throw new Error(`Internal error: ${JSON.stringify(id)} is no id`);
  if (context.ids.has(id)) throw new Error(`Internal error: the id ${id} stands twice on page ${context.page.key}`);
  context.ids.add(id);
  return id;
}

/** Spaces that a browser would run together. It wants to be told so on the very element, whatever stands around it. */
const SPACED = /^ | {2}| $/;

function writeTexts(parent: Container, texts: readonly TextShape[]): void {
  const look = lookOf(texts[0]!);
  const isShared = texts.length > 1;
  const holder = isShared ? parent.group().attr(look) : parent;
  for (const text of texts) {
    const [x, y] = [decimal(text.at[0]), decimal(text.at[1])];
    holder.plain(text.text).attr({
      x,
      y,
      ...(SPACED.test(text.text) ? { style: "white-space:pre" } : {}),
      ...(text.turn === 0 ? {} : { transform: turnOf(text.turn, ` ${x} ${y}`) }),
      ...(isShared ? {} : look),
    });
  }
}

function writeGroup(parent: Container, shape: GroupShape, context: Context): void {
  const [dx, dy] = shape.move;
  const moved = dx === 0 && dy === 0 ? [] : [`translate(${at(shape.move)})`];
  const turned = shape.turn === 0 ? [] : [turnOf(shape.turn)];
  const transform = [...moved, ...turned].join(" ");
  const group = parent.group().attr({
    ...(shape.id === null ? {} : { id: newId(context, shape.id) }),
    ...(transform === "" ? {} : { transform }),
  });
  if (shape.clip !== null) {
    const id = newId(context, `clip-${context.defs.children().length + 1}`);
    context.defs.element("clipPath").attr({ id }).element("rect").attr(rectAttributes(shape.clip));
    group.attr({ "clip-path": `url(#${id})` });
  }
  for (const run of gather(shape.shapes)) writeRun(group, run, context);
}

function writeLink(parent: Container, { box, to }: LinkShape, context: Context): void {
  const href = "page" in to ? hrefOfPage(to.page, context) : linkAddress(to.address);
  if (href === null) return;
  const name = "page" in to ? to.page : to.address;
  const link: Element = parent.element("a").attr({ href, "aria-label": name });
  link.element("rect").attr({ ...rectAttributes(box), fill: "none", "pointer-events": "all" });
}

function hrefOfPage(key: string, { hrefOf, embedFont }: Context): string | null {
  if (hrefOf !== undefined) return hrefOf(key);
  return embedFont ? `${encodeURIComponent(key)}.svg` : null;
}

function writeRun(parent: Container, run: Run, context: Context): void {
  switch (run.kind) {
    case "stroke":
      parent.element("path").attr({ d: pathData(run.steps), ...penAttributes(run.pen) });
      break;
    case "fill":
      parent.element("path").attr({ d: pathData(run.steps), ...(run.grey === 0 ? {} : { fill: greyOf(run.grey) }) });
      break;
    case "texts":
      writeTexts(parent, run.texts);
      break;
    case "group":
      writeGroup(parent, run, context);
      break;
    case "link":
      writeLink(parent, run, context);
      break;
  }
}

const faces = new Map<Weight, string>();

/** As a data address, since an SVG opened by itself may fetch nothing. */
function faceRule(weight: Weight): string {
  const known = faces.get(weight);
  if (known !== undefined) return known;
  const data = Buffer.from(readWebFaceFile(weight)).toString("base64");
  const rule =
    `@font-face{font-family:'${FAMILY}';font-weight:${weight === "bold" ? 700 : 400};` +
    `src:url(data:font/woff2;base64,${data}) format('woff2')}`;
  faces.set(weight, rule);
  return rule;
}

/** As the text was measured: without kerning, with slashed zeros. */
const LETTERING_STYLE = `font-kerning:none;font-feature-settings:'${SLASHED_ZERO}'`;

const SVG_PROLOG = '<?xml version="1.0" encoding="UTF-8"?>\n';

const escapeText = (content: string): string =>
  content.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");

/**
 * A drawing's element as a file of its own: with a title, and the lettering inside. Both are put in as text: at two faces of 150 kB the
 * document would take as long over them as over the drawing.
 */
export function svgFile(page: Page, element: string): string {
  const weights = checkLettering([page]);
  const style = weights.length === 0 ? "" : `<style>${weights.map(faceRule).join("")}</style>`;
  const head = `<title>${escapeText(page.title)}</title>${style}`;
  // An element without shapes closes itself.
  const open = element.endsWith("/>") ? `${element.slice(0, -"/>".length)}></svg>` : element;
  const end = open.indexOf(">") + 1;
  return SVG_PROLOG + open.slice(0, end) + head + open.slice(end);
}

/** Two calls with equal pages give equal bytes: ids are ours, and every drawing has a document of its own. */
export function writeSvg(page: Page, options: SvgOptions): string {
  const element = writeElement(page, options);
  return options.embedFont ? svgFile(page, element) : element;
}

function writeElement(page: Page, options: SvgOptions): string {
  checkLettering([page]);
  const window = createSVGWindow();
  return withWindow(window, () => {
    const [width, height] = [decimal(page.width), decimal(page.height)];
    const root = new Svg(window.document.documentElement).attr({
      "xmlns:xlink": null, // no link of ours needs it
      width: `${width}mm`,
      height: `${height}mm`,
      viewBox: `0 0 ${width} ${height}`,
      "xml:space": "preserve",
      "font-family": `'${FAMILY}', sans-serif`,
      style: LETTERING_STYLE,
    });
    const defs = root.defs();
    const context: Context = { ...options, page, defs, ids: new Set() };
    for (const run of gather(page.shapes)) writeRun(root, run, context);
    if (defs.children().length === 0) defs.remove();
    return root.svg();
  });
}

/** Whether a page has links to other pages, which lead elsewhere from a file than from a page of the site. */
export const hasPageLinks = (shapes: readonly Shape[]): boolean =>
  shapes.some((shape) =>
    shape.kind === "group" ? hasPageLinks(shape.shapes) : shape.kind === "link" && "page" in shape.to,
  );
