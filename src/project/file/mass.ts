/** A mass as a maker writes it: "20 lb" or "45 kg". */

const KG_PER_LB = 0.45359237; // international pound, exact

const WRITTEN = /^(\d+(?:\.\d+)?|\.\d+) ?(lb|kg)$/;
const MOST = 500; // kg: no drawer carries more

/** In kg; null where it cannot be read, is zero, or is beyond any drawer. */
export function readMass(text: string): number | null {
  const [, figure, unit] = WRITTEN.exec(text.trim()) ?? [];
  if (figure === undefined || figure.length > 20) return null;
  const mass = Number(figure) * (unit === "kg" ? 1 : KG_PER_LB);
  return mass > 0 && mass <= MOST ? mass : null;
}
