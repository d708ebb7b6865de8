/** The pictures of README.md, drawn from the example projects. Run as a program it draws them anew into docs/. */
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Resvg } from "@resvg/resvg-js";
import { makeSet } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { group } from "../../src/paper/draw.ts";
import { faceFile } from "../../src/paper/lettering.ts";
import type { Page } from "../../src/paper/shape.ts";
import { readProject } from "../../src/project/read.ts";
import { writeSvg } from "../../src/writers/svg.ts";

/** `turned`: the page is held upright and read from its right side; the picture shows it as it is read. */
export type Picture = { file: string; project: string; page: RegExp; turned?: true };

export const PICTURES: readonly Picture[] = [
  { file: "docs/elevation.png", project: "projects/glaze-console.json", page: /^front-view/ },
  { file: "docs/settings.png", project: "projects/glaze-console.json", page: /^settings-2$/ },
  { file: "docs/part.png", project: "projects/ware-bookcase.json", page: /^part-1(-|$)/ },
  { file: "docs/stick.png", project: "projects/ware-bookcase.json", page: /^stick-page-1$/, turned: true },
];

/** The first page of the project whose key fits. */
export function pageOf({ project, page, turned }: Picture): Page {
  const set = makeSet(readProject(project).project, { draft: false, olderSet: null });
  const { drawings, sticks } = drawBundle(set);
  const found = [...drawings, ...sticks].find(({ key }) => page.test(key));
  if (found === undefined) throw new Error(`${project} has no page like ${page}`);
  return turned === true ? quarterTurn(found) : found;
}

const quarterTurn = (page: Page): Page => ({
  ...page,
  width: page.height,
  height: page.width,
  shapes: [group(page.shapes, { turn: 90, move: [0, page.width] })],
});

export const PICTURE_WIDTH = 1200; // px: two to the mm and more, so that the smallest lettering can be read

export function drawPicture(page: Page): Uint8Array {
  const svg = writeSvg(page, { embedFont: false, idPrefix: "" });
  const picture = new Resvg(svg, {
    background: "white",
    fitTo: { mode: "width", value: PICTURE_WIDTH },
    font: {
      fontFiles: [faceFile("regular"), faceFile("bold")],
      loadSystemFonts: false,
      defaultFontFamily: "Source Sans 3",
    },
  });
  return picture.render().asPng();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  mkdirSync("docs", { recursive: true });
  for (const picture of PICTURES) writeFileSync(picture.file, drawPicture(pageOf(picture)));
}
