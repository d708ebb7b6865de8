/** A PDF read back by a reader that shares nothing with the writer: what is where on its pages, in millimetres, y down. */
import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";

const POINTS_PER_MM = 72 / 25.4;

export type PdfPoint = { x: number; y: number };

/** One run of glyphs as it was set: where its baseline starts, its font size, and the way it runs (degrees, anticlockwise). */
export type PdfText = PdfPoint & {
  text: string;
  size: number;
  width: number;
  turn: number;
  grey: number;
  font: string;
};

/** A stroked or filled path; curves are given by their end points only. */
export type PdfPath = {
  paint: "stroke" | "fill";
  width: number; // of the line
  dash: number[];
  grey: number;
  runs: { points: PdfPoint[]; closed: boolean }[];
};

export type PdfLink = PdfPoint & { width: number; height: number; address: string | null; page: number | null };

export type PdfPage = {
  label: string;
  width: number;
  height: number;
  /** As written: [left, bottom, right, top] in points. */
  mediaBox: number[];
  texts: PdfText[];
  paths: PdfPath[];
  links: PdfLink[];
};

export type PdfBookmark = { title: string; page: number; children: PdfBookmark[] };

export type PdfFile = {
  title: string;
  subject: string;
  creator: string;
  created: string;
  modified: string;
  identity: string;
  viewerPreferences: Record<string, unknown>;
  bookmarks: PdfBookmark[];
  pages: PdfPage[];
};

type Matrix = readonly number[];
type Glyph = { unicode: string; width: number };
type Target = { num: number; gen: number };
type OutlineItem = { title: string; dest: unknown; items: OutlineItem[] };
type Opened = Awaited<ReturnType<typeof getDocument>["promise"]>;
type OpenedPage = Awaited<ReturnType<Opened["getPage"]>>;

/** Opened for reading or for painting; the reader keeps the bytes it is given, so it gets its own. */
export const openPdf = (bytes: Uint8Array): Promise<Opened> =>
  getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false }).promise;

const times = (outer: Matrix, inner: Matrix): number[] => {
  const [a, b, c, d, e, f] = outer as [number, number, number, number, number, number];
  const [g, h, i, j, k, l] = inner as [number, number, number, number, number, number];
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
};

const through = (m: Matrix, x: number, y: number): PdfPoint => ({
  x: m[0]! * x + m[2]! * y + m[4]!,
  y: m[1]! * x + m[3]! * y + m[5]!,
});

const scaleOf = (m: Matrix): number => Math.sqrt(Math.abs(m[0]! * m[3]! - m[1]! * m[2]!));

const greyOf = (colour: string): number => Number.parseInt(colour.slice(1, 3), 16) / 255;

const PATH_STEP = { move: 0, line: 1, curve: 2, close: 4 };

function runsOf(data: ArrayLike<number>, m: Matrix): PdfPath["runs"] {
  const runs: PdfPath["runs"] = [];
  const add = (i: number) => runs.at(-1)!.points.push(through(m, data[i]!, data[i + 1]!));
  for (let i = 0; i < data.length; ) {
    switch (data[i++]) {
      case PATH_STEP.move:
        runs.push({ points: [], closed: false });
        add(i);
        i += 2;
        break;
      case PATH_STEP.line:
        add(i);
        i += 2;
        break;
      case PATH_STEP.curve:
        add(i + 4);
        i += 6;
        break;
      case PATH_STEP.close:
        runs.at(-1)!.closed = true;
        break;
      default:
        throw new Error(`unknown path step ${data[i - 1]} at ${i - 1}`);
    }
  }
  return runs;
}

type State = { m: Matrix; width: number; dash: number[]; stroke: number; fill: number; font: string; size: number };

/** What the page's operators paint. `toMm` turns points, y up, to millimetres, y down. */
async function paintedOn(page: OpenedPage, toMm: Matrix): Promise<Pick<PdfPage, "texts" | "paths">> {
  const { fnArray, argsArray } = await page.getOperatorList();
  const texts: PdfText[] = [];
  const paths: PdfPath[] = [];
  let state: State = { m: toMm, width: 1, dash: [], stroke: 0, fill: 0, font: "", size: 0 };
  let textMatrix: Matrix = [1, 0, 0, 1, 0, 0];
  const saved: State[] = [];
  fnArray.forEach((operator, n) => {
    const args = argsArray[n];
    switch (operator) {
      case OPS.save:
        saved.push({ ...state });
        break;
      case OPS.restore:
        state = saved.pop()!;
        break;
      case OPS.transform:
        state.m = times(state.m, args);
        break;
      case OPS.setLineWidth:
        state.width = args[0];
        break;
      case OPS.setDash:
        state.dash = [...args[0]];
        break;
      case OPS.setStrokeRGBColor:
        state.stroke = greyOf(args[0]);
        break;
      case OPS.setFillRGBColor:
        state.fill = greyOf(args[0]);
        break;
      case OPS.setFont:
        [state.font, state.size] = args;
        break;
      case OPS.setTextMatrix:
        textMatrix = [...args[0]];
        break;
      case OPS.constructPath: {
        const paint = args[0] === OPS.stroke ? "stroke" : args[0] === OPS.fill ? "fill" : null;
        if (paint === null || args[1][0] === null) break;
        const scale = scaleOf(state.m);
        paths.push({
          paint,
          width: state.width * scale,
          dash: state.dash.map((length) => length * scale),
          grey: paint === "stroke" ? state.stroke : state.fill,
          runs: runsOf(args[1][0], state.m),
        });
        break;
      }
      case OPS.showText: {
        const glyphs = (args[0] as (Glyph | number)[]).filter((glyph): glyph is Glyph => typeof glyph === "object");
        const m = times(state.m, textMatrix);
        const size = state.size * scaleOf(m);
        const turn = (Math.atan2(-m[1]!, m[0]!) * 180) / Math.PI;
        texts.push({
          ...through(m, 0, 0),
          text: glyphs.map((glyph) => glyph.unicode).join(""),
          size,
          width: (glyphs.reduce((sum, glyph) => sum + glyph.width, 0) / 1000) * size,
          turn: turn === 0 ? 0 : turn,
          grey: state.fill,
          font: state.font,
        });
        break;
      }
    }
  });
  for (const text of texts) text.font = fontName(page, text.font);
  return { texts, paths };
}

const fontName = (page: OpenedPage, id: string): string => page.commonObjs.get(id).name as string;

async function linksOn(pdf: Opened, page: OpenedPage, toMm: Matrix): Promise<PdfLink[]> {
  const links: PdfLink[] = [];
  for (const annotation of await page.getAnnotations()) {
    if (annotation.subtype !== "Link") continue;
    const [left, bottom, right, top] = annotation.rect as [number, number, number, number];
    const [a, b] = [through(toMm, left, top), through(toMm, right, bottom)];
    const box = { x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y };
    const page = annotation.dest ? await pageOf(pdf, annotation.dest) : null;
    links.push({ ...box, address: annotation.url ?? null, page });
  }
  return links;
}

/** The number, from 1, of the page a destination leads to. */
const pageOf = async (pdf: Opened, dest: unknown): Promise<number> =>
  (await pdf.getPageIndex((dest as [Target])[0])) + 1;

async function bookmarksOf(pdf: Opened, items: OutlineItem[]): Promise<PdfBookmark[]> {
  const bookmarks: PdfBookmark[] = [];
  for (const { title, dest, items: below } of items) {
    bookmarks.push({ title, page: await pageOf(pdf, dest), children: await bookmarksOf(pdf, below) });
  }
  return bookmarks;
}

export async function readPdf(bytes: Uint8Array): Promise<PdfFile> {
  const pdf = await openPdf(bytes);
  const info = (await pdf.getMetadata()).info as Record<string, string>;
  const labels = await pdf.getPageLabels();
  const pages: PdfPage[] = [];
  for (let n = 1; n <= pdf.numPages; n++) {
    const page = await pdf.getPage(n);
    const mediaBox = [...page.view];
    const [left, bottom, right, top] = mediaBox as [number, number, number, number];
    const k = 1 / POINTS_PER_MM;
    const toMm = [k, 0, 0, -k, -left * k, top * k];
    pages.push({
      label: labels?.[n - 1] ?? "",
      width: (right - left) * k,
      height: (top - bottom) * k,
      mediaBox,
      ...(await paintedOn(page, toMm)),
      links: await linksOn(pdf, page, toMm),
    });
  }
  const file: PdfFile = {
    title: info.Title ?? "",
    subject: info.Subject ?? "",
    creator: info.Creator ?? "",
    created: info.CreationDate ?? "",
    modified: info.ModDate ?? "",
    identity: pdf.fingerprints[0] ?? "",
    viewerPreferences: { ...((await pdf.getViewerPreferences()) ?? {}) },
    bookmarks: await bookmarksOf(pdf, ((await pdf.getOutline()) ?? []) as OutlineItem[]),
    pages,
  };
  await pdf.destroy();
  return file;
}
