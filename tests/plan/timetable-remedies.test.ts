/**
 * Remedies are tried, not guessed: with one the rail has a schedule, with one unit less it has none.
 */
import { describe, expect, it } from 'vitest';
import { CLOCK_KINDS } from '../../src/trade/clocks.js';
import {
  applyRemedy,
  clockOf,
  isWhole,
  nightsOf,
  remediesFor,
  solve,
  WEEK_CIRCLE,
  type Change,
  type Offers,
  type Problem,
  type Remedy,
} from '../../src/plan/timetable/index.js';
import { toyWorld } from './toy-worlds.js';
import { seeded } from './walker.js';

const less = (change: Change, unit: number): Change | undefined => {
  if ('minutes' in change) return change.minutes > unit ? { ...change, minutes: change.minutes - unit } : undefined;
  if ('people' in change) return change.people > 1 ? { ...change, people: change.people - 1 } : undefined;
  return undefined;
};

const works = (problem: Problem, remedy: Remedy, offers: Offers): boolean =>
  isWhole(solve(applyRemedy(problem, 0, remedy, offers))[0]);

it('every remedy of 600 small worlds without a schedule gives one, and no less of it does', () => {
  const random = seeded(1447);
  const told = new Set<string>();
  let [worlds, remedied] = [0, 0];
  while (worlds < 600) {
    const problem = toyWorld(random, 'daily');
    if (!problem || solve(problem)[0]?.ok) continue;
    worlds += 1;
    const { days } = problem.circle;
    const each = { ...clockOf(CLOCK_KINDS['seven-day-clock'], problem.circle), allowance: 0, step: 1 };
    const offers: Offers = {
      unit: 1,
      quietFrom: 1,
      clocks: { 'each-day': { ...each, classes: Array.from({ length: days }, (_, d) => [d]) } },
    };
    const remedies = remediesFor(problem, 0, offers);
    if (remedies.length > 0) remedied += 1;
    for (const remedy of remedies) {
      remedy.forEach((change) => told.add(change.code));
      expect(works(problem, remedy, offers), JSON.stringify({ problem, remedy })).toBe(true);
      remedy.forEach((change, i) => {
        const smaller = less(change, 1);
        if (smaller)
          expect(works(problem, remedy.with(i, smaller), offers), JSON.stringify({ problem, remedy, smaller })).toBe(false);
      });
    }
  }
  expect(remedied).toBeGreaterThan(150);
  expect([...told].sort()).toEqual([
    'another-clock',
    'crew-comes-earlier',
    'crew-leaves-later',
    'first-pan-later',
    'fit-drain',
    'load-faster',
    'more-people',
    'pull-down-faster',
    'start-earlier',
  ]);
});

describe('a store told what it could do', () => {
  const need = {
    empty: 30,
    load: 20,
    pullDown: 60,
    pullDownBand: 30,
    leastRest: 300,
    enoughRest: 420,
    startBeforeClose: 30,
    wipe: null,
    longestRun: 1440,
  };
  const clock = clockOf(CLOCK_KINDS['daily-dial'], WEEK_CIRCLE);
  const shift = (day: number, opens: number, closes: number) => ({
    day,
    opens,
    closes,
    comes: opens - 120,
    leaves: closes + 60,
    firstPan: opens - 30,
    closers: 1,
    openers: 1,
  });

  it('late on Friday and early on Sunday: another clock, a later Sunday, or faster hands', () => {
    const nights = nightsOf(
      WEEK_CIRCLE,
      [0, 1, 2, 3, 4, 5, 6].map((day) => shift(day, day === 6 ? 420 : 660, day === 4 ? 1500 : 1320)),
    );
    const problem = { circle: WEEK_CIRCLE, nights, rails: [{ id: 'line-1', need, clock }] };
    expect(solve(problem)[0]?.ok).toBe(false);
    const remedies = remediesFor(problem, 0, {
      clocks: { 'seven-day-clock': clockOf(CLOCK_KINDS['seven-day-clock'], WEEK_CIRCLE) },
    });
    // Off from 01:15 at the earliest, five hours of rest: on at 06:15 and not at 04:55.
    expect(remedies).toContainEqual([{ code: 'first-pan-later', day: 6, minutes: 80 }]);
    expect(remedies).toContainEqual([{ code: 'another-clock', clock: 'seven-day-clock' }]);
    expect(remedies.flat().some((c) => c.code === 'first-pan-later' && c.day !== 6 && c.day !== null)).toBe(false);
  });

  it('a store that never closes: how long a quiet window it would take', () => {
    const problem = { circle: WEEK_CIRCLE, nights: [], rails: [{ id: 'line-1', need, clock }] };
    const [remedy] = remediesFor(problem, 0, { quietFrom: 120 });
    // 300 of rest, a quarter of an hour each side for the dial, 60 of pull-down and 20 of loading; emptying begins before; then the grid of 15.
    expect(remedy).toEqual([{ code: 'quiet-window', from: 120, minutes: 410 }]);
  });

  it('late closings all week and few hands: a pair where nothing alone is enough', () => {
    const nights = nightsOf(
      WEEK_CIRCLE,
      [0, 1, 2, 3, 4, 5, 6].map((day) => shift(day, 540, 1590)),
    );
    const problem = {
      circle: WEEK_CIRCLE,
      nights,
      rails: [{ id: 'line-1', need: { ...need, empty: 60, load: 60, leastRest: 345, enoughRest: 345 }, clock }],
    };
    const remedies = remediesFor(problem, 0);
    expect(remedies.length).toBeGreaterThan(0);
    expect(remedies.every((r) => r.length === remedies[0]?.length)).toBe(true);
  });
});
