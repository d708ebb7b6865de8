/** Pages as pictures, and what can be measured on a picture. */
import { createCanvas } from "@napi-rs/canvas";
import { Resvg } from "@resvg/resvg-js";
import { faceFile } from "../../../src/paper/lettering.ts";
import { openPdf } from "./pdf.ts";

const MM_PER_INCH = 25.4;

/** Four bytes a pixel (red, green, blue, alpha), rows from the top. */
export type Raster = { width: number; height: number; data: Uint8ClampedArray };

/** One page of a PDF (numbered from 1) as a printer of that resolution would see it. */
export async function rasterise(bytes: Uint8Array, pageNumber: number, dpi: number): Promise<Raster> {
  const pdf = await openPdf(bytes);
  const page = await pdf.getPage(pageNumber);
  const viewport = page.getViewport({ scale: dpi / 72 });
  const canvas = createCanvas(Math.round(viewport.width), Math.round(viewport.height));
  const context = canvas.getContext("2d");
  await page.render({ canvas: null, canvasContext: context, viewport, background: "#ffffff" }).promise;
  const { width, height, data } = context.getImageData(0, 0, canvas.width, canvas.height);
  await pdf.destroy();
  return { width, height, data };
}

/** An SVG drawing at the size it states, with the lettering's own files. */
export function rasteriseSvg(svg: string, dpi: number): Raster {
  const drawn = new Resvg(svg, {
    background: "#ffffff",
    fitTo: { mode: "zoom", value: dpi / 96 },
    font: { loadSystemFonts: false, fontFiles: [faceFile("regular"), faceFile("bold")] },
  }).render();
  return { width: drawn.width, height: drawn.height, data: new Uint8ClampedArray(drawn.pixels) };
}
/** 0 is white, 1 is black. */
export function darkness(raster: Raster, column: number, row: number): number {
  const at = 4 * (row * raster.width + column);
  return 1 - (raster.data[at]! + raster.data[at + 1]! + raster.data[at + 2]!) / 765;
}

/** Ink on the whole picture, in square millimetres of black. */
export function inkOf(raster: Raster, dpi: number): number {
  let dark = 0;
  for (let row = 0; row < raster.height; row++) {
    for (let column = 0; column < raster.width; column++) dark += darkness(raster, column, row);
  }
  return dark * (MM_PER_INCH / dpi) ** 2;
}

/**
 * Dark stretches along a level ("x") or upright ("y") scan line, in millimetres. A pixel that is part dark counts in
 * part: the edge of a line is known more finely than the pixels are.
 */
export function darkRuns(
  raster: Raster,
  dpi: number,
  axis: "x" | "y",
  acrossMm: number,
): { from: number; to: number }[] {
  const mm = MM_PER_INCH / dpi;
  const across = Math.floor(acrossMm / mm);
  const count = axis === "x" ? raster.width : raster.height;
  const dark = (i: number) => (axis === "x" ? darkness(raster, i, across) : darkness(raster, across, i));
  const runs: { from: number; to: number }[] = [];
  for (let i = 0; i < count; i++) {
    if (dark(i) < 0.02) continue;
    const start = i;
    while (i < count && dark(i) >= 0.02) i++;
    const end = i - 1;
    const from = start === end ? start + (1 - dark(start)) / 2 : start + 1 - dark(start);
    const to = start === end ? from + dark(start) : end + dark(end);
    runs.push({ from: from * mm, to: to * mm });
  }
  return runs;
}
