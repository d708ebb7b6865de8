/**
 * Labels read by zbarimg, a second reader: `npm run read:labels [-- FORMAT...]`, a tenth of them or, with PROVE=whole, all. Each format
 * of the shop's list as printed at 203, 300 and 600 dpi and spoiled, and every label of the sets in `out` as it lies on its page.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createCanvas, ImageData } from "@napi-rs/canvas";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { setSchema } from "../../src/set/schema.ts";
import { FORMAT_NAMES } from "./pages/label-formats.ts";
import { codeOf, type LabelPicture, labelPictures, PLAIN, printedIn } from "./pages/label-pictures.ts";
import type { Raster } from "./pages/raster.ts";
import { tell } from "./runs.ts";

/** A telephone tries a code that it cannot make out again and again, from other distances; so a picture is tried enlarged. */
const ENLARGED = [1, 1.5, 2, 2.5, 3];

async function pngOf({ width, height, data }: Raster, scale: number): Promise<Buffer> {
  const canvas = createCanvas(width, height);
  canvas.getContext("2d").putImageData(new ImageData(new Uint8ClampedArray(data), width, height), 0, 0);
  if (scale === 1) return canvas.toBuffer("image/png");
  const larger = createCanvas(Math.round(scale * width), Math.round(scale * height));
  larger.getContext("2d").drawImage(canvas, 0, 0, larger.width, larger.height);
  return larger.toBuffer("image/png");
}

const NOTHING_READ = 4; // zbarimg's status

/** A line for each code of a picture, as it is: in zbarimg's XML, letters above ASCII come out mangled. Of noise it makes bar codes, unless told not to. */
function readBy(picture: string): string[] {
  try {
    const stdio: ["ignore", "pipe", "ignore"] = ["ignore", "pipe", "ignore"];
    const said = execFileSync("zbarimg", ["--raw", "-q", "-Sdisable", "-Sqrcode.enable", picture], {
      encoding: "utf8",
      stdio,
    });
    return said.trimEnd().split("\n");
  } catch (error) {
    if ((error as { status?: number }).status === NOTHING_READ) return [];
    throw error;
  }
}

const folder = mkdtempSync(join(tmpdir(), "labels-"));
const misses: string[] = [];

/** How many were read at each enlargement. */
async function readAll(name: string, pictures: AsyncGenerator<LabelPicture>): Promise<(string | number)[]> {
  const counts = ENLARGED.map(() => 0);
  for await (const { of, text, what, raster } of pictures) {
    let found: string[] = [];
    for (const [i, scale] of ENLARGED.entries()) {
      const file = join(folder, "label.png");
      writeFileSync(file, await pngOf(raster, scale));
      found = readBy(file);
      if (found.length === 0) continue;
      if (found.join() === text) counts[i]! += 1;
      break;
    }
    if (found.join() !== text) misses.push(`${name}: ${of} ${what}: ${JSON.stringify(found)}`);
  }
  return [name, ...counts];
}

/** Each label of a built set, its page drawn by poppler. */
function readBuilt(name: string): (string | number)[] {
  let count = 0;
  const set = setSchema.parse(JSON.parse(readFileSync(join("out", name, "set.json"), "utf8")));
  for (const label of printedIn(set)) {
    const { page, window } = codeOf(label, set.paper.labels);
    for (const dpi of PLAIN) {
      const [x, y, width, height] = [window.x, window.y, window.width, window.height].map((mm) =>
        String(Math.round((mm * dpi) / MM_PER_INCH)),
      );
      const where = ["-f", String(page), "-l", String(page), "-x", x!, "-y", y!, "-W", width!, "-H", height!];
      const to = join(folder, "label");
      const how = ["-r", String(dpi), ...where, "-gray", "-png", "-singlefile"];
      execFileSync("pdftoppm", [...how, join("out", name, "labels.pdf"), to], { stdio: "ignore" });
      const found = readBy(`${to}.png`);
      if (found.join() === label.text) count += 1;
      else misses.push(`out/${name}: ${label.of} at ${dpi} dpi: ${JSON.stringify(found)}`);
    }
  }
  return [`out/${name}`, count];
}

const asked = process.argv.slice(2);
const rows: (string | number)[][] = [["", ...ENLARGED.map((scale) => (scale === 1 ? "as it is" : `x ${scale}`))]];
for (const name of asked.length > 0 ? asked : FORMAT_NAMES) rows.push(await readAll(name, labelPictures(name)));
for (const name of asked.length === 0 && existsSync("out") ? readdirSync("out").sort() : [])
  if (existsSync(join("out", name, "set.json"))) rows.push(readBuilt(name));
rmSync(folder, { recursive: true });
tell("Labels read by zbarimg", rows);
if (misses.length > 0) {
  console.error(["zbarimg does not read:", ...misses].join("\n"));
  process.exitCode = 1;
}
