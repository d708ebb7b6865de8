/** A load on a running length of shelf, as a maker writes it: "20 lb/ft" or "30 kg/m". */

const KG_PER_LB = 0.45359237; // international pound, exact
const M_PER_FT = 0.3048; // international foot, exact

const WRITTEN = /^(\d+(?:\.\d+)?|\.\d+) ?(lb\/ft|kg\/m)$/;
const MOST = 1000; // kg/m: a shelf full of lead

/** In kg per metre; null where it cannot be read, is zero, or is beyond any shelf. */
export function readLoad(text: string): number | null {
  const [, figure, unit] = WRITTEN.exec(text.trim()) ?? [];
  if (figure === undefined || figure.length > 20) return null;
  const load = Number(figure) * (unit === "kg/m" ? 1 : KG_PER_LB / M_PER_FT);
  return load > 0 && load <= MOST ? load : null;
}
