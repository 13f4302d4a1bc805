/**
 * Ordinary weeks: what a dial, a weekday and weekend clock and a seven-day clock are set to, and what each night says.
 */
import { describe, expect, it } from 'vitest';
import { CLOCK_KINDS } from '../../src/trade/clocks.js';
import {
  clockOf,
  nightsOf,
  solve,
  WEEK_CIRCLE,
  type Need,
  type Night,
  type Outcome,
  type Rail,
  type Shift,
} from '../../src/plan/timetable/index.js';

const at = (clock: string): number => Number(clock.split(':')[0]) * 60 + Number(clock.split(':')[1]);
const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;

const need: Need = {
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

const shift = (day: number, opens: string, closes: string, more: Partial<Shift> = {}): Shift => ({
  day,
  opens: at(opens),
  closes: at(closes),
  comes: at(opens) - 120,
  leaves: at(closes) + 45,
  firstPan: at(opens) - 30,
  closers: 1,
  openers: 1,
  ...more,
});

const week = (closes: readonly string[], opens = '11:00'): readonly Night[] =>
  nightsOf(
    WEEK_CIRCLE,
    closes.flatMap((c, day) => (c === '' ? [] : [shift(day, opens, c)])),
  );

const rail = (kind: keyof typeof CLOCK_KINDS, more: Partial<Rail> = {}): Rail => ({
  id: 'line-1',
  need,
  clock: clockOf(CLOCK_KINDS[kind], WEEK_CIRCLE),
  ...more,
});

const one = (nights: readonly Night[], r: Rail): Outcome => solve({ circle: WEEK_CIRCLE, nights, rails: [r] })[0] as Outcome;

const solved = (outcome: Outcome): Outcome & { ok: true } => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.reasons));
  return outcome;
};

const LATE = ['22:00', '22:00', '22:00', '22:00', '24:30', '24:30', '22:00'];

describe('a daily dial', () => {
  const outcome = solved(one(week(LATE), rail('daily-dial')));

  it('is set by the latest closing: food out at 00:30, off after the 15 minutes that a dial may be wrong', () => {
    // 00:45 to 08:45 could be off. Enough is 7 h: the morning gets its band of 30 min before 08:55, the rest of the surplus goes to the evening.
    expect(outcome.patterns.map((p) => p.stretches.map((s) => [clock(s.off), clock(s.on)]))).toEqual([[['01:15', '08:15']]]);
    expect(outcome.nights[4]?.rest?.why.off).toMatchObject({ code: 'food-out', days: [4, 5] });
  });
  it('has the food out before the crew leaves on the early nights', () => {
    const monday = outcome.nights[0]?.rest;
    expect(clock(monday?.emptyBy ?? 0)).toBe('22:45');
    expect(clock(monday?.startEmptying ?? 0)).toBe('22:15');
    expect(monday?.off).toBe(at('25:15'));
    expect(clock((outcome.nights[4]?.rest?.emptyBy ?? 0) - 1440)).toBe('01:00');
  });
  it('is on in time to be cold before loading', () => {
    for (const night of outcome.nights) {
      expect((night.rest?.on ?? Infinity) + need.pullDown + 15).toBeLessThanOrEqual(night.coldBy);
      expect(night.coldBy).toBe(night.firstPan - need.load);
    }
  });
  it('cannot skip a closed day: the empty rail stops twice', () => {
    const closed = solved(one(week(['22:00', '22:00', '22:00', '22:00', '22:00', '22:00', '']), rail('daily-dial')));
    expect(closed.nights.at(-1)?.stops.length).toBe(2);
    expect(closed.nights.length).toBe(6);
  });
  it('that was found right is left alone', () => {
    const found = [{ days: [0, 1, 2, 3, 4, 5, 6], stretches: [{ off: at('01:15'), on: at('08:00') }] }];
    const kept = solved(one(week(LATE), rail('daily-dial', { found })));
    expect(kept.kept).toBe(true);
    expect(kept.patterns[0]?.stretches).toEqual(found[0]?.stretches);
  });
  it('that was found 12 hours out is not', () => {
    const found = [{ days: [0, 1, 2, 3, 4, 5, 6], stretches: [{ off: at('13:15'), on: at('20:00') }] }];
    expect(solved(one(week(LATE), rail('daily-dial', { found }))).kept).toBe(false);
  });
});

it('a seven-day clock gives every night its own times', () => {
  const outcome = solved(one(week(LATE), rail('seven-day-clock')));
  const off = outcome.nights.map((n) => clock(n.rest?.off ?? 0));
  expect(off.slice(3, 5)).toEqual(['22:50', '25:20']);
  expect(outcome.nights.every((n) => (n.rest?.minutes ?? 0) >= need.enoughRest)).toBe(true);
});

it('a weekday and weekend clock repeats by calendar day: the small hours of Saturday belong to the weekend', () => {
  const outcome = solved(one(week(LATE, '09:00'), rail('weekday-weekend-clock')));
  expect(outcome.patterns.map((p) => p.days)).toEqual([
    [0, 1, 2, 3, 4],
    [5, 6],
  ]);
  // Sunday closes at 22:00, yet Friday's late night keeps the weekend's small hours on; Monday's morning is the weekdays'.
  for (const night of outcome.nights)
    for (const stop of night.stops) expect(stop.to - stop.from).toBeGreaterThanOrEqual(need.leastRest);
});

describe('no schedule', () => {
  const codes = (outcome: Outcome): readonly string[] => (outcome.ok ? [] : outcome.reasons.map((r) => r.code));

  it('tells the nights that cut a dial down: the latest Friday against the earliest Sunday', () => {
    const nights = nightsOf(
      WEEK_CIRCLE,
      [0, 1, 2, 3, 4, 5, 6].map((day) => shift(day, day === 6 ? '07:00' : '11:00', day === 4 ? '25:00' : '22:00')),
    );
    const outcome = one(nights, rail('daily-dial'));
    expect(outcome).toEqual({
      ok: false,
      rail: 'line-1',
      // Friday: food out 01:00 + 15; Sunday (Saturday's night): 06:30 less 20 of loading, 60 of pull-down and 15.
      reasons: [
        {
          code: 'rest-too-short',
          day: 0,
          offered: at('04:45') - at('01:15'),
          least: 300,
          offDay: 4,
          off: at('25:15'),
          onDay: 5,
          on: at('28:55'),
        },
      ],
    });
  });
  it('says what is wrong before solving', () => {
    expect(codes(one([], rail('daily-dial')))).toEqual(['never-closes']);
    expect(codes(one(week(LATE), { ...rail('daily-dial'), clock: null }))).toEqual(['no-clock']);
    expect(codes(one(week(LATE), rail('hour-pin-clock')))).toEqual(['clock-ends-rest']);
    const hurried = week(LATE).map((n) => ({ ...n, leaves: n.closes - 5 }));
    expect(new Set(codes(one(hurried, rail('daily-dial'))))).toEqual(new Set(['empty-after-crew-leaves']));
    // What a person may write is told, not thrown: loading for the next day before this one has closed.
    const tight = week(LATE).map((n) => ({ ...n, firstPan: n.closes - 15 }));
    expect(new Set(codes(one(tight, rail('daily-dial'))))).toEqual(new Set(['first-pan-before-closing']));
    const wet = { ...need, wipe: 15 };
    expect(new Set(codes(one(week(LATE), rail('daily-dial', { need: wet }))))).toEqual(new Set(['wiped-too-late']));
  });
});

it('rails of one crew are emptied one after another, the one due first going first', () => {
  const slow = { ...need, pullDown: 120 };
  const [a, b] = solve({
    circle: WEEK_CIRCLE,
    nights: week(LATE),
    rails: [rail('seven-day-clock'), { ...rail('seven-day-clock'), id: 'line-2', need: slow }],
  });
  const [first, second] = [solved(b as Outcome).nights[0]?.rest, solved(a as Outcome).nights[0]?.rest];
  expect((first?.startEmptying ?? 0) + need.empty).toBeLessThanOrEqual(second?.startEmptying ?? 0);
});
