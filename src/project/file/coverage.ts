/** What a finish covers, as its data sheet says it: "10 m2/l" or "400 sq ft/gal". */

const M2_PER_SQ_FT = 0.3048 ** 2; // international foot, exact
const L_PER_GAL = 3.785411784; // US gallon, exact

const WRITTEN = /^(\d+(?:\.\d+)?|\.\d+) ?(m2\/l|sq ft\/gal)$/;
const MOST = 100; // m2/l: a film of a hundredth of a millimetre

/** In m2 a litre; null where it cannot be read, is zero, or is beyond any finish. */
export function readCoverage(text: string): number | null {
  const [, figure, unit] = WRITTEN.exec(text.trim()) ?? [];
  if (figure === undefined || figure.length > 20) return null;
  const coverage = Number(figure) * (unit === "m2/l" ? 1 : M2_PER_SQ_FT / L_PER_GAL);
  return coverage > 0 && coverage <= MOST ? coverage : null;
}
