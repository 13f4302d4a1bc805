/** What a service card says of its store's altitude, and its table of head pressures. */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { CHAIN, STORE, TABLE, tryChain } from '../support/chain.js';
import { pagesOf, roughWidth, runsIn } from '../support/pages.js';

const cards = (more: string, table = TABLE): readonly string[] => {
  const tried = tryChain({
    'nightrail.yaml': CHAIN.replace('[en]', '[en, es, fr]').replace(/^papers: .*$/m, 'papers: [card]'),
    'sites/street.yaml': STORE + more,
    'equipment/table.yaml': table,
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
  it.each([
    ['', TABLE, true],
    ['altitude: 0 m\n', TABLE, false],
    ['', TABLE.replace('reference: atmosphere', 'reference: sealed'), false],
  ])('that nobody wrote is told where a dial depends on it (%j)', (more, table, told) => {
    for (const text of cards(more, table))
      expect(/nobody wrote how high|nadie escribió a qué|personne n’a écrit l’altitude/.test(text)).toBe(told);
  });
  it('is told where the dial stands for another coil', () => {
    for (const text of cards('altitude: 5280 ft\n')) expect(text).toMatch(/5280 (ft|pies|pieds)/);
  });
});

it('names the store’s own kitchens in the table of head pressures', () => {
  for (const text of cards('')) expect(text).toMatch(/78 °F, (usual day|día normal|jour habituel)/);
});

it('gives a control with a scale for the difference that, and no cut-out to set', () => {
  const both = cards('altitude: 5280 ft\n');
  const difference = cards('altitude: 5280 ft\n', TABLE.replace('dial: cut-in-and-cut-out', 'dial: cut-in-and-difference'));
  const noZero = cards(
    '',
    `${TABLE.replace('dial: cut-in-and-cut-out', 'dial: cut-in-and-difference')}not_known: [control.pressure.reference]\n`,
  );
  for (const text of [...difference, ...noZero]) expect(text).toMatch(/two scales|dos escalas|deux échelles/);
  for (const text of both) expect(text).not.toMatch(/two scales|dos escalas|deux échelles/);
  // 49 to 31 psig: the cut-out stands twice less, among what is set and what was left, and once more as what a gauge must show; the difference is set.
  const times = (text: string, figure: string): number => text.split(figure).length - 1;
  difference.forEach((text, i) => expect(times(text, '31 psig')).toBe(times(both[i] ?? '', '31 psig') - 1));
  difference.forEach((text, i) => expect(times(text, '18 psi')).toBeGreaterThan(times(both[i] ?? '', '18 psi')));
});

it('says what a gauge shows at altitude as a sealed control acts: its dial counts from sea level’s air, a gauge from the local air', () => {
  // US Standard Atmosphere 1976: 83.44 kPa at 5280 ft, 12.10 psia, 2.60 below 14.70. The dial stays at 46 and 28 psig.
  const sealed = TABLE.replace('reference: atmosphere', 'reference: sealed');
  const byDifference = (table: string): string => table.replace('dial: cut-in-and-cut-out', 'dial: cut-in-and-difference');
  for (const text of cards('altitude: 5280 ft\n', sealed)) {
    expect(text).toMatch(/(starts|arranca|démarre)/);
    expect(text).toMatch(/\b48[.,]6\spsig .*\b30[.,]6\spsig/);
  }
  for (const text of cards('altitude: 5280 ft\n', byDifference(sealed)))
    expect(text).toMatch(/(it stops at|se detiene a|s’arrête à) 30[.,]6\spsig/);
  for (const text of [...cards('', sealed), ...cards('altitude: 5280 ft\n')])
    expect(text).not.toMatch(/sealed control|control sellado|contrôle scellé/);
});

it('tells a switch that its maker fixed, and never what to set it to', () => {
  const fixed = TABLE.replace('shared-low-pressure', 'separate-thermostats')
    .replace(/^ {2}pressure: \{.*\}$/m, '  pressure_switch: { cut_in: 25 psig, cut_out: 5 psig }')
    .replace('    air: 16 to 20 °F\n', '    air: 16 to 20 °F\n    control: { cut_in: 24 °F, cut_out: 12 °F, senses: coil }\n');
  expect(fixed).toContain('pressure_switch');
  for (const text of cards('altitude: 5280 ft\n', fixed)) {
    expect(text).toMatch(/fixed by its maker|fijo de fábrica|pression fixe/);
    expect(text).toMatch(/\b5 psig.*\b25 psig/);
    expect(text).not.toMatch(/\b(28|8) psig/);
  }
  const slip = tryChain({ 'equipment/table.yaml': fixed.replace('cut_in: 25 psig, cut_out: 5', 'cut_in: 5 psig, cut_out: 25') });
  expect(slip.told.join()).toContain('cut-out-over-cut-in equipment/table.yaml');
});
