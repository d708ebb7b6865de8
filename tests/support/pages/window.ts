/** A small window of a PDF page as a picture: at 600 dpi a few millimetres around one line say enough, and quickly. */
import { createCanvas } from "@napi-rs/canvas";
import type { openPdf } from "./pdf.ts";
import { darkRuns, type Raster } from "./raster.ts";

type Opened = Awaited<ReturnType<typeof openPdf>>;

const MM_PER_INCH = 25.4;

/** In millimetres from the page's upper left corner; moved outwards to whole pixels of the page. */
export type Window = { x: number; y: number; width: number; height: number };

export type Pane = { raster: Raster; dpi: number; x: number; y: number };

export async function rasteriseWindow(pdf: Opened, pageNumber: number, dpi: number, window: Window): Promise<Pane> {
  const perMm = dpi / MM_PER_INCH;
  const [left, top] = [Math.floor(window.x * perMm), Math.floor(window.y * perMm)];
  const [right, bottom] = [Math.ceil((window.x + window.width) * perMm), Math.ceil((window.y + window.height) * perMm)];
  const page = await pdf.getPage(pageNumber);
  const viewport = page.getViewport({ scale: dpi / 72, offsetX: -left, offsetY: -top });
  const canvas = createCanvas(right - left, bottom - top);
  const context = canvas.getContext("2d");
  await page.render({ canvas: null, canvasContext: context, viewport, background: "#ffffff" }).promise;
  const { width, height, data } = context.getImageData(0, 0, canvas.width, canvas.height);
  return { raster: { width, height, data }, dpi, x: left / perMm, y: top / perMm };
}

/** Dark stretches along a scan line of the window, in millimetres on the page. */
export const runsAlong = (
  { raster, dpi, x, y }: Pane,
  axis: "x" | "y",
  across: number,
): { from: number; to: number }[] =>
  darkRuns(raster, dpi, axis, across - (axis === "x" ? y : x)).map(({ from, to }) => {
    const start = axis === "x" ? x : y;
    return { from: from + start, to: to + start };
  });
