/** A small repeatable generator: 32-bit integer arithmetic only, so every machine draws the same numbers. */
export type Random = {
  /** A whole number from 0 to below `count`. */
  below: (count: number) => number;
  /** True once in `count` draws. */
  once: (count: number) => boolean;
  /** Exponentially distributed, mean 1 (within 3 %): for accepting a worse layout now and then. */
  wait: () => number;
};

/** Marsaglia's xorshift with shifts 13, 17, 5 (G. Marsaglia, Journal of Statistical Software 8(14), 2003). */
export function randomFrom(seed: number): Random {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x2545f491) | 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  const below = (count: number): number => Math.floor((next() / 4294967296) * count);
  // -log2(u), straight between powers of two: no logarithm, whose last digit differs between platforms.
  const wait = (): number => {
    const drawn = next() || 1;
    const halvings = Math.clz32(drawn);
    return Math.LN2 * (halvings + 2 - drawn / 2 ** (31 - halvings));
  };
  return { below, once: (count) => below(count) === 0, wait };
}
