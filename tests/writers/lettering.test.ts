import { readdirSync, readFileSync } from "node:fs";
import { createCanvas, GlobalFonts } from "@napi-rs/canvas";
import { beforeAll, describe, expect, it } from "vitest";
import {
  CAP_HEIGHT,
  DESCENT,
  faceFile,
  measureText,
  missingCharacters,
  type Weight,
} from "../../src/paper/lettering.ts";

const WEIGHTS: Weight[] = ["regular", "bold"];

/** Another shaper than ours, told to leave kerning off. */
function advance(text: string, weight: Weight, fontSize: number): number {
  const context = createCanvas(10, 10).getContext("2d");
  context.font = `${fontSize}px lettering-${weight}`;
  context.fontKerning = "none";
  return context.measureText(text).width;
}

/** Rows of ink of one letter painted large, above (negative) and below the baseline, in font sizes. */
function inkRows(letter: string, weight: Weight): { top: number; bottom: number } {
  const [fontSize, baseline] = [1000, 1200];
  const canvas = createCanvas(1500, 1800);
  const context = canvas.getContext("2d");
  context.font = `${fontSize}px lettering-${weight}`;
  context.fillText(letter, 100, baseline);
  const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
  const rows = [...Array(height).keys()].filter((row) =>
    data.subarray(4 * row * width, 4 * (row + 1) * width).some(Boolean),
  );
  return { top: (rows[0]! - baseline) / fontSize, bottom: (rows.at(-1)! + 1 - baseline) / fontSize };
}

beforeAll(() => {
  for (const weight of WEIGHTS)
    expect(GlobalFonts.registerFromPath(faceFile(weight), `lettering-${weight}`)).not.toBeNull();
});

describe("measureText", () => {
  const SAMPLES = [
    "17 5/8",
    'AVAT To. 23 11/16"',
    "Left side, inside face",
    "fi ff ffi: ligatures",
    "5\u20448 of a sheet",
    "\u00d8 12.7 \u00b1 1 \u00d7 23\u00b0 \u2212 7",
    "Na\u00efve \u0141\u00f3d\u017a \u0395\u03bb\u03bb\u03ac\u03b4\u03b1 \u0414\u0443\u0431",
    "  two  spaces  ",
    "",
  ];

  it.each(WEIGHTS)("gives the advance another shaper gives, without kerning (%s)", (weight) => {
    for (const sample of SAMPLES) {
      const size = 3.5;
      expect(measureText(sample, size, weight), sample).toBeCloseTo(
        advance(sample, weight, 1000) * (size / CAP_HEIGHT / 1000),
        3,
      );
    }
  });

  it("does not kern, since the PDF writer does not", () => {
    const [together, apart] = ["AVAT", ["A", "V", "A", "T"]];
    const sum = apart.reduce((total, letter) => total + measureText(letter, 10, "regular"), 0);
    expect(measureText(together, 10, "regular")).toBeCloseTo(sum, 9);
  });

  it("grows with the size and gives the same answer twice", () => {
    const once = measureText("Divider 4", 2.5, "bold");
    expect(measureText("Divider 4", 2.5, "bold")).toBe(once);
    expect(measureText("Divider 4", 7.5, "bold")).toBeCloseTo(3 * once, 9);
  });

  it.each(WEIGHTS)("sets every digit in the same width, so that columns of figures line up (%s)", (weight) => {
    const widths = [..."0123456789"].map((digit) => measureText(digit, 3.5, weight));
    expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(0.01);
  });
});

describe("the face", () => {
  it.each(WEIGHTS)("has capitals as high as the size says, within 1.5 % (%s)", (weight) => {
    expect(-inkRows("H", weight).top / CAP_HEIGHT).toBeGreaterThan(0.985);
    expect(-inkRows("H", weight).top / CAP_HEIGHT).toBeLessThan(1.015);
  });

  it.each(WEIGHTS)("has letters that hang no deeper than DESCENT, within 3 % of the size (%s)", (weight) => {
    for (const letter of "gpqy") expect(inkRows(letter, weight).bottom / CAP_HEIGHT).toBeLessThan(DESCENT + 0.03);
  });

  it.each(WEIGHTS)("draws 1, I and l, and 0 and O, so that they cannot be taken for each other (%s)", (weight) => {
    const widths = ["1", "I", "l"].map((letter) => measureText(letter, 10, weight).toFixed(2));
    expect(new Set(widths).size).toBe(3);
    expect(measureText("0", 10, weight)).not.toBe(measureText("O", 10, weight));
  });
});

describe("missingCharacters", () => {
  it("finds nothing missing in what drawings and labels are lettered with", () => {
    const used =
      "0123456789/.,:;'\"()+-=&#%\u00b0\u00b1\u00d7\u2212\u2013\u2014\u2026\u2192\u2190\u2191\u2193\u2713\u2610\u00d8\u00f8\u00bd\u215b\u2264\u2265\u2032\u2033";
    expect(missingCharacters(used)).toEqual([]);
    expect(
      missingCharacters(
        "ABCDEFGHIJKLMNOPQRSTUVWXYZ abcdefghijklmnopqrstuvwxyz \u00e4\u00f6\u00fc\u00df\u00e9\u00e7\u00f1\u017e",
      ),
    ).toEqual([]);
  });

  it("names each missing character once, in order", () => {
    expect(missingCharacters("\u6f22a\u2300\u6f22 \u{1f600}")).toEqual(["\u6f22", "\u2300", "\u{1f600}"]);
  });

  it("counts control characters and halves of pairs as missing, which XML forbids", () => {
    expect(missingCharacters("a\u0000b\tc\nd\re\u001ff\u007fg\u0085h\u2028i")).toEqual([
      "\u0000",
      "\t",
      "\n",
      "\r",
      "\u001f",
      "\u007f",
      "\u0085",
      "\u2028",
    ]);
    expect(missingCharacters("x\ud800y\udc00z")).toEqual(["\ud800", "\udc00"]);
    expect(missingCharacters("\ufffe\uffff")).toEqual(["\ufffe", "\uffff"]);
  });

  it("finds nothing missing among the signs written out in the program's own drawings and plans", () => {
    const folders = ["src/drawings", "src/plans", "src/audit"].map(
      (folder) => new URL(`../../${folder}/`, import.meta.url),
    );
    const lines = folders.flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: "utf8" })
        .filter((file) => file.endsWith(".ts"))
        .flatMap((file) => readFileSync(new URL(file, folder), "utf8").split("\n")),
    );
    const signs = new Set<string>();
    for (const line of lines) {
      const code = line.replace(/\/\/ .*$/, "").replace(/^\s*(\/\*)?\*.*$/, "");
      for (const [, hex] of code.matchAll(/\\u([0-9a-f]{4})/gi))
        signs.add(String.fromCodePoint(Number.parseInt(hex!, 16)));
      for (const [sign] of code.matchAll(/[^\p{ASCII}]/gu)) signs.add(sign);
    }
    expect(signs.size).toBeGreaterThan(3);
    expect(missingCharacters([...signs].join(""))).toEqual([]);
  });
});
