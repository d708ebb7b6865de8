/** Whole rounding steps. */
import { type Mm, SAME } from "./length.ts";

/** Printed lengths are whole multiples of this, so that steps of inches and of millimetres are both exact: 0.1 mm = 32, 1/64 in = 127. */
const GRAIN_PER_MM = 320;

export type Rounder = { nearest: (x: Mm) => Mm; down: (x: Mm) => Mm; up: (x: Mm) => Mm };

/** Brings a length to a whole number of steps. */
export function rounderOf(step: Mm): Rounder {
  const whole = (steps: number): Mm => Math.round(steps * step * GRAIN_PER_MM) / GRAIN_PER_MM;
  // A length that is whole but for float noise is whole.
  const noise = SAME / step;
  return {
    nearest: (x) => whole(Math.round(x / step)),
    down: (x) => whole(Math.floor(x / step + noise)),
    up: (x) => whole(Math.ceil(x / step - noise)),
  };
}
