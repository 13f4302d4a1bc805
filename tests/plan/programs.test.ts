/**
 * A clock whose memory holds few programs, each an off and an on time with its days: nights share them.
 */
import { describe, expect, it } from 'vitest';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const SEVEN = TABLE.replace('daily-dial, polarity: out-is-on', 'seven-day-clock');
const held = (programs: string) => SEVEN.replace('seven-day-clock', `seven-day-clock${programs}`);
const HOURS = 'Mo-Th 07:00-22:00; Fr 07:00-23:00; Sa 08:00-24:00; Su 08:00-21:00';

const settingsOf = (programs: string) => {
  const tried = tryChain({
    'equipment/table.yaml': held(programs),
    'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', HOURS),
  });
  const rest = tried.stores.get('street')?.plan?.units['line-1']?.rest;
  return { rest, findings: tried.findings.map((f) => f.code) };
};

describe('a clock that keeps only so many programs', () => {
  it('is given no more than it keeps, and every night rests', () => {
    const all = settingsOf('').rest?.settings.length ?? 0;
    expect(all).toBeGreaterThan(2);
    for (const programs of [1, 2, all]) {
      const { rest } = settingsOf(`, programs: ${programs}`);
      expect(rest?.settings.length).toBeLessThanOrEqual(programs);
      expect(rest?.settings.flatMap(({ days }) => days.value.days).toSorted()).toEqual(
        ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].toSorted(),
      );
      expect(rest?.shortest?.value.si).toBeGreaterThanOrEqual(5 * 3600);
    }
  });
  it('rests as long as one whose days each have their own, where its memory is large enough, in fewer settings', () => {
    const [free, large] = ['', ', programs: 14'].map((programs) => settingsOf(programs).rest);
    expect(large?.settings.length).toBeLessThan(free?.settings.length ?? 0);
    const enough = 7 * 3600;
    expect(Math.min(large?.shortest?.value.si ?? 0, enough)).toBe(Math.min(free?.shortest?.value.si ?? 0, enough));
  });
  it('says of a clock with one pattern that it has none', () => {
    const tried = tryChain({ 'equipment/table.yaml': TABLE.replace('daily-dial', 'daily-dial, programs: 4') });
    const [told] = tried.findings.filter((f) => f.code === 'clock-without-programs');
    expect(told?.at).toMatchObject({ doc: 'equipment/table.yaml' });
    expect(told?.data).toMatchObject({ kinds: ['seven-day-clock'] });
  });
});
