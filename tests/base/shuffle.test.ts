/** An order that follows from a seed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shuffled } from '../../src/base/shuffle.js';

describe('shuffled', () => {
  it('gives the same order for the same seed, on every machine', () => {
    expect(shuffled(['a', 'b', 'c', 'd', 'e', 'f'], 'autumn').join('')).toBe(shuffled([...'abcdef'], 'autumn').join(''));
    expect(shuffled([...'abcdef'], 'autumn').join('')).toMatchInlineSnapshot(`"beacdf"`);
    expect(shuffled([...'abcdef'], 'spring').join('')).toMatchInlineSnapshot(`"fdebca"`);
  });

  it('loses nothing and doubles nothing', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer()), fc.string(), (items, seed) => {
        expect([...shuffled(items, seed)].sort()).toEqual([...items].sort());
      }),
      { seed: 7 },
    );
  });

  it('puts each item anywhere', () => {
    const firsts = new Set(Array.from({ length: 200 }, (_, i) => shuffled([...'abcdef'], `seed ${i}`)[0]));
    expect(firsts.size).toBe(6);
  });
});
