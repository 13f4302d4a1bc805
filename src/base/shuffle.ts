/**
 * An order that looks like chance and is none: the same seed gives the same order everywhere.
 */

/** A seed's text as a number (FNV-1a, 32 bits). */
const hashOf = (text: string): number =>
  [...new TextEncoder().encode(text)].reduce((hash, byte) => Math.imul(hash ^ byte, 0x01000193) >>> 0, 0x811c9dc5);

/** Numbers from 0 to 1 that follow from a seed (mulberry32). */
const numbers = (seed: string): (() => number) => {
  let state = hashOf(seed);
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
};

/** The items in the seed's order (Fisher and Yates). */
export const shuffled = <T>(items: readonly T[], seed: string): readonly T[] => {
  const next = numbers(seed);
  const order = [...items];
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(next() * (i + 1));
    [order[i], order[j]] = [order[j] as T, order[i] as T];
  }
  return order;
};
