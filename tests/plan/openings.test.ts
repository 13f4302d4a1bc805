/**
 * Foods and openings: what hangs where, what is told of what should hang apart, and where each pan spends the night.
 */
import { describe, expect, it } from 'vitest';
import { serious, STORE, tryChain } from '../support/chain.js';

const FOODS = `foods:
  lettuce: { name: Lettuce, class: ready-to-eat }
  olives: { name: Olives, class: ready-to-eat, hardy: true, needs_cold: false }
  cheese: { name: Cheese, class: ready-to-eat, allergen: milk }
  sausage: { name: Sausage, class: raw }
`;

const store = (openings: string, foods = FOODS, more = '') => ({
  'sites/street.yaml': `${STORE}    openings: ${openings}\n${more}${foods}`,
});

const mapOf = (own: Parameters<typeof tryChain>[0]) => tryChain(own).stores.get('street')?.plan?.units['line-1']?.pan_map;

describe('a map of pans', () => {
  it('is blank where nobody said a food, with the openings of the rail in their rows', () => {
    const map = mapOf({});
    expect(map?.known.value.is).toBe(false);
    expect(map?.rows.map((row) => row.map((o) => o.number.value.n))).toEqual([
      [1, 2, 3, 4, 5, 6],
      [7, 8, 9, 10, 11, 12],
    ]);
  });

  it('has the food that was written, an empty pan in what was left out, and a shelf for each pan', () => {
    const own = store('[[lettuce, lettuce, empty, cheese, empty, sausage], [olives]]');
    expect(serious(tryChain(own))).toEqual([]);
    const map = mapOf(own);
    expect(map?.rows.map((row) => row.length)).toEqual([6, 6]);
    expect(map?.rows.flat().map((o) => o.empty.value.is)).toEqual([
      ...[false, false, true, false, true, false, false],
      ...Array.from({ length: 5 }, () => true),
    ]);
    const numbers = Object.entries(map?.night ?? {}).map(([shelf, some]) => [shelf, some.map((o) => o.number.value.n)]);
    expect(numbers).toEqual([
      ['ready', [1, 2, 7]],
      ['allergen', [4]],
      ['raw', [6]],
    ]);
    expect(map?.cold.map((o) => o.number.value.n)).toEqual([1, 2, 4, 6]);
  });

  it('is there twice the same', () => {
    const own = store('[[lettuce]]');
    expect(mapOf(own)).toEqual(mapOf(own));
  });
});

describe('mistakes', () => {
  it.each([
    ['a food that is not there', store('[[lettuce, letuce]]'), 'no-such-food sites/street.yaml:11:26'],
    ['more openings than the rail has', store(`[[${'olives, '.repeat(13)}]]`), 'too-many-openings sites/street.yaml:11:15'],
    ['raw beside what is eaten as it is', store('[[lettuce, sausage]]'), 'raw-beside-ready sites/street.yaml:11:26'],
    ['raw behind it', store('[[lettuce], [sausage]]'), 'raw-beside-ready sites/street.yaml:11:28'],
    ['an allergen beside another food', store('[[cheese, lettuce]]'), 'allergen-beside-other sites/street.yaml:11:25'],
    [
      'a tender food nearest the heat',
      store('[[olives, lettuce], [lettuce]]', FOODS, '    heat: left\n'),
      'tender-by-heat sites/street.yaml:11:36',
    ],
    [
      'a food without a class',
      store('[[lettuce]]', FOODS.replace('Lettuce, class: ready-to-eat', 'Lettuce')),
      'missing-key sites/street.yaml:13:3',
    ],
    [
      'a food called empty',
      store('[[lettuce]]', `${FOODS}  empty: { name: E, class: raw }\n`),
      'food-called-empty sites/street.yaml:17:3',
    ],
  ])('%s', (_, own, expected) => {
    expect(serious(tryChain(own))).toContain(expected);
  });

  it('names the food that was probably meant', () => {
    expect(tryChain(store('[[letuce]]')).findings.find((f) => f.code === 'no-such-food')?.data).toEqual({
      wrote: 'letuce',
      nearest: 'lettuce',
    });
  });
});
