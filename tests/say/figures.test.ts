/** Amounts in a reader's units: a charge beside its plate's own figure, an altitude however low. */
import { expect, it } from 'vitest';
import { of, parseAmount, type Quantity } from '../../src/base/amount.js';
import type { Measure } from '../../src/base/amount.js';
import { figures } from '../../src/say/figures.js';
import { speaker } from '../../src/say/speaker.js';
import type { Words } from '../../src/say/words.js';
import { tryChain } from '../support/chain.js';
import { LANGUAGES } from '../support/languages.js';

const WORDS: ReadonlyMap<string, Words> = tryChain({}, LANGUAGES).workshop?.words ?? new Map<string, Words>();

const say = (measure: Measure, q: Quantity, wrote: string): string => {
  const read = parseAmount(q, wrote);
  if (!read.ok) throw new Error(read.fault);
  return figures(measure, 'en-US', (unit) => unit)
    .amount(read.value)
    .replaceAll('\u00a0', ' ');
};

// The avoirdupois ounce is 28.349523125 g, the foot 0.3048 m: exact, NIST Handbook 44, appendix C.
it.each([
  ['us', '28 oz', '28 oz'],
  ['si', '28 oz', '794 g (28 oz)'],
  ['si', '5.3 oz', '150 g (5.3 oz)'],
  ['si', '95 g', '95 g'],
  ['us', '95 g', '3.35 oz (95 g)'],
  ['us', '2.5 kg', '5.5 lb (2.5 kg)'],
] as const)('in %s a plate of %s is %s', (measure, wrote, said) => {
  expect(say(measure, 'mass', wrote)).toBe(said);
});

it.each([
  ['us', '3 ft', '3 ft'],
  ['us', '0 ft', '0 ft'],
  ['si', '3 ft', '1 m'],
  ['us', '5280 ft', '5280 ft'],
] as const)('in %s a store %s up lies %s up', (measure, wrote, said) => {
  expect(say(measure, 'altitude', wrote)).toBe(said);
});

// `in` is a Spanish word of another meaning; pulgada, pie, pouce and pied are the inch and the foot (Unicode CLDR, unit names of es-US and fr-CA).
it.each([
  ['en', '4 in', '6 sq ft', '1 ft'],
  ['es', '4 pulg', '6 pies²', '1 pie'],
  ['fr', '4 po', '6 pi²', '1 pied'],
] as const)('lengths are said in the words of %s', (lang, inches, area, height) => {
  const words = WORDS.get(lang);
  if (!words) throw new Error(lang);
  const { figures: said } = speaker(words, { lang, measure: 'us', clockShows: '24-hour', weekStarts: 'mon' });
  const shown = [of(4, 'in'), of(6, 'sq ft'), of(1, 'Δft')].map((a) => said.amount(a).replaceAll('\u00a0', ' '));
  expect(shown).toEqual([inches, area, height]);
});
