/** A document as PDF, at full scale. The only module that knows the PDF library. */
import { createHash } from "node:crypto";
import { deflateSync } from "node:zlib";
import {
  PDFDocument,
  type PDFFont,
  PDFHexString,
  PDFName,
  type PDFObject,
  type PDFPage,
  type PDFRef,
  PrintScaling,
} from "pdf-lib";
import type { Mm } from "../base/length.ts";
import { readFaceFile, readFaceToEmbed, type Weight } from "../paper/lettering.ts";
import type { Page, PaperDocument } from "../paper/shape.ts";
import { linkAddress } from "./address.ts";
import { type Bookmark, bookmarkTree } from "./bookmarks.ts";
import { checkLettering } from "./lettered.ts";
import { type Encode, FONT_NAMES, type PlacedLink, POINTS_PER_MM, pageContent } from "./pdf-content.ts";

/** A subset's name starts with six capitals; fixed, so that the bytes are. */
const FONT_FILE_NAMES: Record<Weight, string> = {
  regular: "DRYFIT+SourceSans3-Regular",
  bold: "DRYFIT+SourceSans3-Bold",
};

type Fonts = ReadonlyMap<Weight, PDFFont>;

async function embedFonts(pdf: PDFDocument, weights: readonly Weight[]): Promise<Fonts> {
  const fonts = new Map<Weight, PDFFont>();
  for (const weight of weights) {
    // The library shapes each text with what this function returns: the very shapes that were measured.
    pdf.registerFontkit({ create: () => readFaceToEmbed(weight) });
    fonts.set(weight, await pdf.embedFont(readFaceFile(weight), { subset: true, customName: FONT_FILE_NAMES[weight] }));
  }
  return fonts;
}

/** The same words come back on every page of a set: each is shaped once. */
function cachedEncode(fonts: Fonts): Encode {
  const known: Record<Weight, Map<string, string>> = { regular: new Map(), bold: new Map() };
  return (text, weight) => {
    let encoded = known[weight].get(text);
    if (encoded === undefined) {
      encoded = fonts.get(weight)!.encodeText(text).toString();
      known[weight].set(text, encoded);
    }
    return encoded;
  };
}

/** Any text, whatever brackets and backslashes it holds. */
const textString = (text: string): PDFHexString => PDFHexString.fromText(text);

/** Bytes of an ASCII text: addresses are not allowed to be in Unicode. */
const asciiString = (text: string): PDFHexString => PDFHexString.of(Buffer.from(text, "ascii").toString("hex"));

function linkTarget(pdf: PDFDocument, to: PlacedLink["to"], pageOf: ReadonlyMap<string, PDFRef>) {
  if ("address" in to) {
    const action = { Type: "Action", S: "URI", URI: asciiString(linkAddress(to.address)) };
    return { A: pdf.context.obj(action) };
  }
  const page = pageOf.get(to.page);
  if (page === undefined) throw new Error(`Internal error: a link leads to page "${to.page}", which is not there`);
  return { Dest: [page, PDFName.of("Fit")] };
}

function addLinks(pdf: PDFDocument, page: PDFPage, links: PlacedLink[], height: number, pageOf: Map<string, PDFRef>) {
  if (links.length === 0) return;
  const annotations = links.map(({ box, to }) => {
    const corners = [box.x, height - box.y - box.height, box.x + box.width, height - box.y];
    return pdf.context.register(
      pdf.context.obj({
        Type: "Annot",
        Subtype: "Link",
        Rect: corners.map(pointsOf),
        Border: [0, 0, 0],
        F: 4, // printed with the page, though there is nothing to see
        ...linkTarget(pdf, to, pageOf),
      }),
    );
  });
  page.node.set(PDFName.of("Annots"), pdf.context.obj(annotations));
}

/** Bookmarks of one level, chained as PDF wants them; returns the references of the first and the last. */
function addBookmarks(pdf: PDFDocument, bookmarks: readonly Bookmark[], parent: PDFRef, pages: readonly PDFPage[]) {
  const references = bookmarks.map(() => pdf.context.nextRef());
  bookmarks.forEach(({ title, page, children }, i) => {
    const own = references[i]!;
    const [previous, next] = [references[i - 1], references[i + 1]];
    const below = children.length === 0 ? null : addBookmarks(pdf, children, own, pages);
    pdf.context.assign(
      own,
      pdf.context.obj({
        Title: textString(title),
        Parent: parent,
        Dest: [pages[page]!.ref, PDFName.of("Fit")],
        ...(previous ? { Prev: previous } : {}),
        ...(next ? { Next: next } : {}),
        // A negative count: shown closed, so that the list of drawings fits a screen.
        ...(below ? { First: below.first, Last: below.last, Count: -children.length } : {}),
      }),
    );
  });
  return { first: references[0]!, last: references.at(-1)! };
}

function addOutline(pdf: PDFDocument, document: PaperDocument, pages: readonly PDFPage[]): void {
  const top = bookmarkTree(document.pages);
  if (top.length === 0) return;
  const root = pdf.context.nextRef();
  const { first, last } = addBookmarks(pdf, top, root, pages);
  pdf.context.assign(root, pdf.context.obj({ Type: "Outlines", First: first, Last: last, Count: top.length }));
  pdf.catalog.set(PDFName.of("Outlines"), root);
  pdf.catalog.set(PDFName.of("PageMode"), PDFName.of("UseOutlines"));
}

/** Labels are given whole ("D-4"), so each page's stands as a prefix without a number. */
function addPageLabels(pdf: PDFDocument, pages: readonly Page[]): void {
  const numbers = pages.flatMap((page, i): (number | PDFObject)[] => [
    i,
    pdf.context.obj({ P: textString(page.label) }),
  ]);
  pdf.catalog.set(PDFName.of("PageLabels"), pdf.context.obj({ Nums: numbers }));
}

/** Noon in Greenwich: the same bytes in every time zone, and the same day in nearly all. */
function noonOf(date: string): Date {
  const noon = new Date(`${date}T12:00:00Z`);
  const isDate = /^\d{4}-\d\d-\d\d$/.test(date) && !Number.isNaN(noon.getTime());
  if (!isDate) throw new Error(`Internal error: ${JSON.stringify(date)} is no date`);
  return noon;
}

function addMetadata(pdf: PDFDocument, document: PaperDocument): void {
  pdf.setTitle(document.title);
  pdf.setSubject(document.subject);
  pdf.setCreator("Dryfit");
  pdf.setLanguage("en");
  const date = noonOf(document.date);
  pdf.setCreationDate(date);
  pdf.setModificationDate(date);
  const viewing = pdf.catalog.getOrCreateViewerPreferences();
  viewing.setPrintScaling(PrintScaling.None); // a stick printed at 97 % is a wrong stick
  viewing.setPickTrayByPDFSize(true);
  viewing.setDisplayDocTitle(true);
}

/** A file's identity is its content's, not the moment's. */
function addIdentity(pdf: PDFDocument, document: PaperDocument, streams: readonly string[]): void {
  const { pages, ...about } = document;
  const frames = pages.map(({ shapes, ...frame }) => frame);
  const hash = createHash("sha256").update(JSON.stringify([about, frames]));
  for (const stream of streams) hash.update(stream);
  const identity = PDFHexString.of(hash.digest("hex").slice(0, 32));
  pdf.context.trailerInfo.ID = pdf.context.obj([identity, identity]);
}

function checkKeys(pages: readonly Page[]): void {
  const keys = new Set<string>();
  for (const { key } of pages) {
    if (keys.has(key)) throw new Error(`Internal error: two pages have the key "${key}"`);
    keys.add(key);
  }
}

/** A millionth of a point is no loss, and Letter paper is 612 points wide, not 612.0000000000001. */
const pointsOf = (length: Mm): number => Math.round(length * POINTS_PER_MM * 1e6) / 1e6;

/** Two calls with equal documents give equal bytes, whenever and wherever. */
export async function writePdf(document: PaperDocument): Promise<Uint8Array> {
  if (document.pages.length === 0) throw new Error(`Internal error: "${document.title}" has no pages`);
  checkKeys(document.pages);
  const weights = checkLettering(document.pages);
  const pdf = await PDFDocument.create({ updateMetadata: false });
  const fonts = await embedFonts(pdf, weights);
  const encode = cachedEncode(fonts);
  const names = [...fonts].map(([weight, font]) => [FONT_NAMES[weight], font.ref]);
  const resources = pdf.context.register(pdf.context.obj({ Font: Object.fromEntries(names) }));
  const pages = document.pages.map(({ width, height }) => pdf.addPage([pointsOf(width), pointsOf(height)]));
  const pageOf = new Map(document.pages.map(({ key }, i) => [key, pages[i]!.ref]));
  const streams = document.pages.map((page, i) => {
    const { stream, links } = pageContent(page, encode);
    const node = pages[i]!.node;
    node.set(PDFName.of("Resources"), resources);
    node.set(
      PDFName.of("Contents"),
      pdf.context.register(pdf.context.stream(deflateSync(stream), { Filter: "FlateDecode" })),
    );
    addLinks(pdf, pages[i]!, links, page.height, pageOf);
    return stream;
  });
  addOutline(pdf, document, pages);
  addPageLabels(pdf, document.pages);
  addMetadata(pdf, document);
  addIdentity(pdf, document, streams);
  return pdf.save({ objectsPerTick: Number.POSITIVE_INFINITY });
}
