/** What a service card says of its store's altitude, and its table of head pressures. */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { CHAIN, STORE, TABLE, tryChain } from '../support/chain.js';
import { pagesOf, roughWidth, runsIn } from '../support/pages.js';

const cards = (more: string): readonly string[] => {
  const tried = tryChain({
    'nightrail.yaml': CHAIN.replace('[en]', '[en, es, fr]').replace(/^papers: .*$/m, 'papers: [card]'),
    'sites/street.yaml': STORE + more,
    'equipment/table.yaml': TABLE,
  });
  if (!tried.workshop) throw new Error(tried.told.join('\n'));
  return pagesOf(tried.workshop, tried.stores, roughWidth).map(({ page }) =>
    textOf(runsIn(page?.body ?? [])).replaceAll('\u00a0', ' '),
  );
};

describe('the altitude of a card', () => {
  it.each(['', 'altitude: 0 m\nmeasure: si\n'])('is sea level where nothing lies above it (%j)', (more) => {
    const made = cards(more);
    expect(made).toHaveLength(3);
    for (const text of made) {
      expect(text).toMatch(/At sea level|A nivel del mar|Au niveau de la mer/);
      expect(text).not.toMatch(/\b0 (in|mm)\b/);
      expect(text).not.toMatch(/altitude, 0|altitud de esta tienda, 0|établissement, 0/);
    }
  });
  it('is told where the dial stands for another coil', () => {
    for (const text of cards('altitude: 5280 ft\n')) expect(text).toMatch(/5280 ft/);
  });
});

it('names the store’s own kitchens in the table of head pressures', () => {
  for (const text of cards('')) expect(text).toMatch(/78 °F, (usual day|día normal|jour habituel)/);
});
