/**
 * The lettering of every page: one open-licensed face, and the one function that measures it. Layout, the SVG writer
 * and the PDF writer all go by these widths: no kerning (the PDF writer draws without), zeros slashed.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { create, type Font, type Glyph } from "@cantoo/fontkit";
import type { Mm } from "../base/length.ts";
import type { TextShape } from "./shape.ts";

export type Weight = TextShape["weight"];

/** Family name, as style sheets and font files give it. */
export const FAMILY = "Source Sans 3";

/** A zero that cannot be read as the letter O, on paper that also carries part marks. */
export const SLASHED_ZERO = "zero";

const WEIGHTS: readonly Weight[] = ["regular", "bold"];

const CUTS: Record<Weight, string> = { regular: "SourceSans3-Regular", bold: "SourceSans3-Bold" };

const { resolve } = createRequire(import.meta.url);

/** The face as TrueType. */
export const faceFile = (weight: Weight): string => resolve(`source-sans/TTF/${CUTS[weight]}.ttf`);

/** What a PDF embeds its subset from: the very file that is measured. */
export const readFaceFile = (weight: Weight): Uint8Array => readFileSync(faceFile(weight));

/** The same face compressed for browsers, unmodified, as its licence wants of a file by its name. */
export const readWebFaceFile = (weight: Weight): Uint8Array =>
  readFileSync(resolve(`source-sans/WOFF2/TTF/${CUTS[weight]}.ttf.woff2`));

function readFace(weight: Weight) {
  const font = create(readFaceFile(weight));
  if (!("layout" in font)) throw new Error(`Internal error: ${faceFile(weight)} holds more than one face`);
  return font;
}

const FACES = { regular: readFace("regular"), bold: readFace("bold") };

/** Capital height in font sizes: the font's own figure, the same in both weights. */
export const CAP_HEIGHT = FACES.regular.capHeight / FACES.regular.unitsPerEm;
/** Depth of the letters that hang below the baseline (p, g, comma), in capital heights. */
export const DESCENT = -FACES.regular.glyphsForString("p")[0]!.bbox.minY / FACES.regular.capHeight;

/** A font size, for a text whose capitals are `size` high. */
export const fontSizeOf = (size: Mm): Mm => size / CAP_HEIGHT;

const SCRIPTS = [/\p{Script=Latin}/u, /\p{Script=Greek}/u, /\p{Script=Cyrillic}/u];

const scriptOf = (character: string): number => SCRIPTS.findIndex((script) => script.test(character));

/** A text in runs of one script, signs going with the letters before them: as browsers shape it, run by run. */
function scriptRuns(text: string): string[] {
  const runs: string[] = [];
  let run = "";
  let script = -1;
  for (const character of text) {
    const own = scriptOf(character);
    if (own !== -1 && script !== -1 && own !== script) {
      runs.push(run);
      run = "";
    }
    if (own !== -1) script = own;
    run += character;
  }
  return run === "" ? runs : [...runs, run];
}

const shaped: Record<Weight, Map<string, readonly Glyph[]>> = { regular: new Map(), bold: new Map() };

/** Zeros slashed. What only places glyphs is left off: nothing here heeds it, and it takes most of a shaper's time. */
const FEATURES = { [SLASHED_ZERO]: true, kern: false, mark: false, mkmk: false };

function shapeWord(word: string, weight: Weight): readonly Glyph[] {
  const known = shaped[weight].get(word);
  if (known !== undefined) return known;
  const glyphs = scriptRuns(word).flatMap((run) => FACES[weight].layout(run, { ...FEATURES }).glyphs);
  shaped[weight].set(word, glyphs);
  return glyphs;
}

/** The glyphs that will be drawn, ligatures and fractions made. Word by word: no shape reaches across a space, and words come back. */
export const shapeText = (text: string, weight: Weight): Glyph[] =>
  text.split(/(?<= )|(?= )/).flatMap((word) => shapeWord(word, weight));

/**
 * The face with `shapeText` for its shaper: for a library that asks a face, and so gets the glyphs that were measured.
 * Read anew each time, because taking a subset leaves marks in a face: parts of composed letters lose their characters.
 */
export const readFaceToEmbed = (weight: Weight): Font =>
  Object.create(readFace(weight), { layout: { value: (text: string) => ({ glyphs: shapeText(text, weight) }) } });

const widths: Record<Weight, Map<string, number>> = { regular: new Map(), bold: new Map() };

/** Width at font size 1. */
function widthOf(text: string, weight: Weight): number {
  const known = widths[weight].get(text);
  if (known !== undefined) return known;
  let units = 0;
  for (const glyph of shapeText(text, weight)) units += glyph.advanceWidth;
  const width = units / FACES[weight].unitsPerEm;
  widths[weight].set(text, width);
  return width;
}

/** How much paper a text takes along its baseline; `size` is the height of its capitals. */
export const measureText = (text: string, size: Mm, weight: Weight): Mm => widthOf(text, weight) * fontSizeOf(size);

/** Control characters and the like: some fonts have a glyph for them, but neither XML nor a reader has a use for them. */
const UNPRINTABLE = /\p{Cc}|\p{Cs}|\p{Co}|\p{Cn}|\p{Zl}|\p{Zp}/u;

const printable = new Map<string, boolean>();

function canPrint(character: string): boolean {
  const known = printable.get(character);
  if (known !== undefined) return known;
  const code = character.codePointAt(0)!;
  const can = !UNPRINTABLE.test(character) && WEIGHTS.every((weight) => FACES[weight].hasGlyphForCodePoint(code));
  printable.set(character, can);
  return can;
}

/** The characters of a text that cannot be lettered, each once, in the order they come. */
export const missingCharacters = (text: string): string[] => [
  ...new Set([...text].filter((character) => !canPrint(character))),
];
