/**
 * Why a clock is set as it is, and what would help, as whole sentences: how the parts stand together in every language, on a real plan and in every combination.
 */
import { describe, expect, it } from 'vitest';
import { amount } from '../../src/base/amount.js';
import { WEEKDAYS } from '../../src/base/moment.js';
import { textOf } from '../../src/base/run.js';
import { warning } from '../../src/base/finding.js';
import { place } from '../../src/base/place.js';
import { phrase, verbatim } from '../../src/base/value.js';
import { practice } from '../../src/plan/known.js';
import { readerOf, type PlannedStore } from '../../src/fleet/store-papers.js';
import { findingWords } from '../../src/say/findings.js';
import { asksFor, type Words } from '../../src/say/words.js';
import { LANGUAGES } from '../support/languages.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const chain = tryChain(
  {
    'equipment/table.yaml': TABLE.replace('daily-dial, polarity: out-is-on', 'seven-day-clock'),
    'sites/street.yaml': `${STORE.replace('Mo-Su 07:00-22:00', 'Mo-Th 07:00-22:00; Fr-Su 09:00-24:00')}languages: [${LANGUAGES.join(', ')}]\n`,
  },
  LANGUAGES,
);

const planOf = (id: string) => {
  const { read, plan } = chain.stores.get(id) as PlannedStore;
  const unit = plan?.units['line-1'];
  if (!chain.workshop || !read || !unit) throw new Error(chain.told.join('\n'));
  const { workshop } = chain;
  return { unit, speaker: (lang: string) => readerOf(workshop.words.get(lang) as Words, read, workshop.shelf) };
};

/** Each ends with one full stop and begins with a capital; none says a name that nobody filled. */
const WHOLE = /^(?:\p{Lu}[^{}]*?[^\s.;,:]\.)(?: \p{Lu}[^{}]*?[^\s.;,:]\.)*$/u;

const AND: Readonly<Record<string, string>> = { en: ', and ', es: ', y ', fr: ', et ' };

describe.each(LANGUAGES)('why, in %s,', (lang) => {
  it('is sentences that stand one after another', () => {
    const { unit, speaker } = planOf('street');
    const rows = unit.rest?.why ?? [];
    expect(rows.length).toBeGreaterThan(1);
    for (const row of rows) {
      const said = [row.off, row.on, row.spare].map((known) => textOf(speaker(lang).say(known).runs)).join(' ');
      expect(said).toMatch(WHOLE);
      expect(said).not.toMatch(/ {2}|\.\.|[;,:] ?\./);
    }
  });

  it('stays so whichever of them meet', () => {
    const { speaker } = planOf('street');
    const words = chain.workshop?.words.get(lang) as Words;
    const text = (code: string): string =>
      textOf(speaker(lang).phrase(code, Object.fromEntries(asksFor(words.get(code) as string).map((name) => [name, '45 min']))));
    for (const gap of ['', '-afternoon'])
      for (const off of ['off', 'off-later'])
        for (const on of ['on', 'on-earlier'])
          expect([off, `${on}${gap}`, `spare${gap}`].map((code) => text(`binding.${code}`)).join(' ')).toMatch(WHOLE);
  });

  it('joins two changes that are needed together by its word for "and", in the middle of a sentence', () => {
    const { speaker } = planOf('street');
    const words = chain.workshop?.words.get(lang) as Words;
    const changes = words.codes
      .filter((code) => code.startsWith('remedies.') && code !== 'remedies.both')
      .map((code) => {
        const values = asksFor(words.get(code) as string).map((name) => [name, practice(verbatim('45 min'), 'trait')] as const);
        return practice(phrase(code, Object.fromEntries(values)), 'trait');
      });
    expect(changes.length).toBeGreaterThan(8);
    const and = AND[lang];
    for (const first of changes)
      for (const second of changes) {
        if (first === second) continue;
        const said = textOf(speaker(lang).phrase('remedies.both', { first, second }));
        const [one, two] = [first, second].map((known) => textOf(speaker(lang).say(known).runs)) as [string, string];
        expect(said).toBe(`${one}${and}${two}`);
        for (const part of [one, two]) expect(part).toMatch(/^[^{}\p{Lu}.][^{}.]*[^\s.;,:]$/u);
        // Spanish says "e" before a word that sounds like "i": no change may begin so.
        if (lang === 'es') expect(two).not.toMatch(/^h?i(?!e)/i);
      }
  });
});

it('a finding sets whole sentences beside each other, parts of a sentence with semicolons, and words with commas', () => {
  const { speaker } = planOf('street');
  const words = chain.workshop?.words.get('en') as Words;
  const about = (faults: readonly (string | ReturnType<typeof phrase>)[]): string =>
    findingWords(
      warning('clock-found-wrong-settings', place('sites/street.yaml'), { count: 2, faults: faults as readonly string[] }),
      words,
      speaker('en'),
    ).says;
  const part = practice(verbatim('x'), 'trait');
  expect(about([phrase('found.never-turns'), phrase('found.half-day-out')])).toMatch(
    /never stops the top\. The clock's day and night/,
  );
  expect(about([phrase('remedies.fit-drain'), phrase('remedies.another-clock', { clock: part })])).toMatch(
    /nobody wipes; have another clock fitted: x$/,
  );
  expect(about(['rail', 'base'])).toMatch(/rail, base$/);
});

it('a finding that holds every night says so, and lists days as a page does where it holds on some', () => {
  const { speaker } = planOf('street');
  const words = chain.workshop?.words.get('en') as Words;
  const about = (days: readonly string[]): string =>
    findingWords(
      warning('short-night', place(''), { unit: 'line-1', days, rest: amount('duration', 3600) }),
      words,
      speaker('en'),
    ).says;
  expect(about(WEEKDAYS)).toMatch(/^every night the clock stops the top of line-1/);
  expect(about(WEEKDAYS.slice(0, 4))).toMatch(/^in the night of Mon–Thu the clock/);
  // Each that counts days has a sentence for all of them, but where all of them are none.
  for (const code of words.codes.filter((one) => /^findings\..*\.says$/.test(one))) {
    const asks = asksFor(words.get(code) as string).filter((name) => /^(.*_)?days?$/.test(name));
    if (asks.length === 0 || /contradict|afternoon-some-days/.test(code)) continue;
    const every = words.get(`${code}_every`);
    expect(every, code).toBeDefined();
    expect(asksFor(every ?? '').filter((name) => asks.includes(name))).toEqual([]);
  }
});
