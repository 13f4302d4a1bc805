/**
 * Rounds with the probe: everything is read as often as it must be, on as few walks as do it.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundsOf, type Stretch } from '../../src/plan/rounds.js';

const stretch = (id: string, from: number, until: number, every = 240): Stretch => ({ id, from, until, every });
const clock = (min: number): string => `${Math.floor(min / 60)}:${String(min % 60).padStart(2, '0')}`;
const told = (stretches: readonly Stretch[]) => roundsOf(stretches).map(({ at, reads }) => `${clock(at)} ${reads.join(' ')}`);

/** Gaps of one thing: from its loading over its readings to its emptying, min. */
const gapsOf = (one: Stretch, hours: readonly number[]): readonly number[] =>
  [one.from, ...hours, one.until].slice(1).map((at, i) => at - ([one.from, ...hours][i] as number));

describe('the rounds of a day', () => {
  it('lie evenly between the loading and the emptying, in quarters', () => {
    expect(told([stretch('top', 10 * 60 + 30, 22 * 60 + 25)])).toEqual(['14:30 top', '18:30 top']);
    expect(told([stretch('top', 10 * 60 + 30, 23 * 60)])).toEqual(['13:45 top', '17:00 top', '20:15 top']);
  });

  it('read all units in one walk, one that warms easily twice as often', () => {
    expect(told([stretch('top', 600, 1320, 120), stretch('walk-in', 600, 1330)])).toEqual([
      '11:45 top',
      '13:30 top walk-in',
      '15:15 top',
      '17:00 top walk-in',
      '18:45 top',
      '20:30 top walk-in',
    ]);
  });

  it('read a short stretch once, and none where nothing is served', () => {
    expect(told([stretch('top', 600, 700)])).toEqual(['11:00 top']);
    expect(told([])).toEqual([]);
    expect(told([stretch('top', 600, 600)])).toEqual([]);
  });

  it('keep the gaps of everything, whatever the hours: at least one reading, none outside its own stretch', () => {
    const any = fc
      .tuple(fc.integer({ min: 0, max: 1300 }), fc.integer({ min: 2, max: 1700 }), fc.constantFrom(120, 180, 240))
      .map(([from, long, every]) => ({ from, until: from + long, every }));
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 6 }), (stretches) => {
        const named = stretches.map((s, i) => ({ ...s, id: `u${i}` }));
        const rounds = roundsOf(named);
        expect(rounds.map((r) => r.at)).toEqual([...new Set(rounds.map((r) => r.at))].toSorted((a, b) => a - b));
        for (const one of named) {
          const hours = rounds.flatMap(({ at, reads }) => (reads.includes(one.id) ? [at] : []));
          expect(hours.length).toBeGreaterThan(0);
          expect(Math.min(...hours)).toBeGreaterThan(one.from);
          expect(Math.max(...hours)).toBeLessThan(one.until);
          expect(Math.max(...gapsOf(one, hours))).toBeLessThanOrEqual(one.every);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
