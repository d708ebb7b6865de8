/** A temperature as a maker writes it: "68 F" or "20 C". */

const WRITTEN = /^(-?\d+(?:\.\d+)?) ?(F|C)$/;
/** As far as the published table of moisture contents reaches. */
const RANGE = { F: { from: 30, to: 200 }, C: { from: 0, to: 95 } };

/** Null where it cannot be read, or lies beyond any shop. */
export function readTemperature(text: string): { temperature: number; scale: "C" | "F" } | null {
  const [, figure, scale] = WRITTEN.exec(text.trim()) ?? [];
  if (figure === undefined || figure.length > 20 || (scale !== "C" && scale !== "F")) return null;
  const temperature = Number(figure);
  const { from, to } = RANGE[scale];
  return temperature >= from && temperature <= to ? { temperature, scale } : null;
}
