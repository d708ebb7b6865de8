/** QR codes read by a decoder of its own, from clean pictures and from spoiled ones. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";
import type { Raster } from "./raster.ts";

export async function prepareReader(): Promise<void> {
  const { resolve } = createRequire(import.meta.url);
  const wasm = readFileSync(resolve("zxing-wasm/reader/zxing_reader.wasm"));
  const wasmBinary = wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength) as ArrayBuffer;
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true });
}

/** Each code's text, and where its middle lies, in pixels. */
export async function codesIn({ width, height, data }: Raster): Promise<{ text: string; x: number; y: number }[]> {
  const image = { width, height, data: new Uint8ClampedArray(data), colorSpace: "srgb" };
  const codes = await readBarcodes(image as unknown as Parameters<typeof readBarcodes>[0], {
    formats: ["QRCode"],
    tryHarder: true,
    maxNumberOfSymbols: 255,
  });
  return codes.map(({ text, position: { topLeft, bottomRight } }) => ({
    text,
    x: (topLeft.x + bottomRight.x) / 2,
    y: (topLeft.y + bottomRight.y) / 2,
  }));
}

type Grey = { width: number; height: number; dark: Float32Array };

function greyOf({ width, height, data }: Raster): Grey {
  const dark = new Float32Array(width * height);
  for (let i = 0; i < dark.length; i++) dark[i] = 1 - (data[4 * i]! + data[4 * i + 1]! + data[4 * i + 2]!) / 765;
  return { width, height, dark };
}

/** Every edge of ink moved outwards by so many pixels, under one. */
function grown({ width, height, dark }: Grey, pixels: number): Grey {
  const wider = dark.slice();
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const near = Math.max(dark[i - 1]!, dark[i + 1]!, dark[i - width]!, dark[i + width]!);
      wider[i] = Math.max(dark[i]!, Math.min(1, dark[i]! + pixels * near));
    }
  }
  return { width, height, dark: wider };
}

/** Turned about its middle, white round about. */
function turned({ width, height, dark }: Grey, degrees: number): Grey {
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [w, h] = [Math.ceil(width * c + height * s), Math.ceil(width * s + height * c)];
  const out = new Float32Array(w * h);
  const at = (x: number, y: number): number => (x < 0 || y < 0 || x >= width || y >= height ? 0 : dark[y * width + x]!);
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      const [dx, dy] = [x - w / 2, y - h / 2];
      const [u, v] = [dx * c + dy * s + width / 2, dy * c - dx * s + height / 2];
      const [x0, y0] = [Math.floor(u), Math.floor(v)];
      const [fx, fy] = [u - x0, v - y0];
      out[y * w + x] =
        (at(x0, y0) * (1 - fx) + at(x0 + 1, y0) * fx) * (1 - fy) +
        (at(x0, y0 + 1) * (1 - fx) + at(x0 + 1, y0 + 1) * fx) * fy;
    }
  }
  return { width: w, height: h, dark: out };
}

function blurred(grey: Grey, sigma: number): Grey {
  const reach = Math.ceil(3 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma ** 2)));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const along = ({ width, height, dark }: Grey, step: number, isLevel: boolean): Grey => {
    const out = new Float32Array(dark.length);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        let value = 0;
        for (let k = -reach; k <= reach; k++) {
          const isIn = isLevel ? x + k >= 0 && x + k < width : y + k >= 0 && y + k < height;
          if (isIn) value += weights[k + reach]! * dark[y * width + x + k * step]!;
        }
        out[y * width + x] = value / sum;
      }
    }
    return { width, height, dark: out };
  };
  return along(along(grey, 1, true), grey.width, false);
}

/** The same numbers every time: a linear congruential generator (Numerical Recipes), summed twelve at a time to a bell curve. */
function noise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      sum += state / 2 ** 32;
    }
    return sum;
  };
}

export type Spoiling = { gain: number; turn: number; blur: number; noise: number; seed: number };

/** As a telephone sees a print: ink spread by `gain` pixels each way, turned, blurred, with noise of that standard deviation of 255. */
export function spoiled(raster: Raster, { gain, turn, blur, noise: deviation, seed }: Spoiling): Raster {
  const { width, height, dark } = blurred(turned(grown(greyOf(raster), gain), turn), blur);
  const data = new Uint8ClampedArray(4 * width * height);
  const random = noise(seed);
  for (let i = 0; i < dark.length; i++) {
    data.fill(255 * (1 - dark[i]!) + deviation * random(), 4 * i, 4 * i + 3);
    data[4 * i + 3] = 255;
  }
  return { width, height, data };
}
