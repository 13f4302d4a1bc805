/**
 * The timetable on real dates: when clocks change, which week a sheet is for, and what a clock does that nobody sets.
 */
import { describe, expect, it } from 'vitest';
import { dayNumber, dayOfIso, isoOf, weekdayOf } from '../../src/model/hours/index.js';
import { CLOCK_KINDS } from '../../src/trade/clocks.js';
import {
  daysOfWeek,
  isoWeekOf,
  nightsBetween,
  nightsIfWrong,
  parseIsoWeek,
  specialNights,
  transitionsOf,
  validZone,
  wrongByChange,
  wrongByPowerCut,
  type Standing,
} from '../../src/plan/timetable/dates/index.js';
import { clockOf, nightsOf, solve, WEEK_CIRCLE, type Need, type Shift } from '../../src/plan/timetable/index.js';
import { changesByIntl } from './wall-clock.js';

const iso = (date: string): number => dayOfIso(date) as number;
const at = (local: number): string => {
  const minute = ((local % 1440) + 1440) % 1440;
  return `${isoOf(Math.floor(local / 1440))} ${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
};

describe('changes of the clocks', () => {
  // 15 USC 260a: from 02:00 on the second Sunday of March to 02:00 on the first Sunday of November.
  it.each(['America/New_York', 'America/Chicago', 'America/Denver', 'America/Los_Angeles', 'America/Anchorage'])(
    '%s follows the statute',
    (zone) => {
      for (let year = 2024; year <= 2036; year++) {
        const sunday = (month: number, nth: number): number => {
          const first = dayNumber(year, month, 1);
          return first + ((6 - weekdayOf(first) + 7) % 7) + 7 * (nth - 1);
        };
        expect(transitionsOf(zone, year)).toEqual([
          { at: sunday(3, 2) * 1440 + 120, shift: 60 },
          { at: sunday(11, 1) * 1440 + 120, shift: -60 },
        ]);
      }
      expect([...transitionsOf(zone, 2027), ...transitionsOf(zone, 2028)].map((t) => at(t.at))).toEqual([
        '2027-03-14 02:00',
        '2027-11-07 02:00',
        '2028-03-12 02:00',
        '2028-11-05 02:00',
      ]);
    },
  );

  // The platform's own data, walked by Intl: north, south, half an hour, midnight, Ramadan, none.
  it.each([
    'America/New_York',
    'Australia/Lord_Howe',
    'Australia/Sydney',
    'Pacific/Auckland',
    'Pacific/Chatham',
    'America/Santiago',
    'America/Havana',
    'Asia/Beirut',
    'Africa/Casablanca',
    'Africa/Cairo',
    'Europe/London',
    'Antarctica/Troll',
    'America/Phoenix',
    'Pacific/Honolulu',
    'Asia/Kolkata',
  ])('%s agrees with Intl', (zone) => {
    for (const year of [2026, 2027, 2028]) expect(transitionsOf(zone, year)).toEqual(changesByIntl(zone, year));
  });

  it('knows names of places, and which was meant', () => {
    expect(validZone('America/Chicago')).toEqual({ ok: true, zone: 'America/Chicago' });
    expect(validZone('america/chicago')).toEqual({ ok: true, zone: 'America/Chicago' });
    expect(validZone('America/Chicgo')).toEqual({ ok: false, suggestion: 'America/Chicago' });
    expect(validZone('Chicago')).toEqual({ ok: false, suggestion: 'America/Chicago' });
    expect(validZone('EST')).toEqual({ ok: false, suggestion: 'America/New_York', fixed: 'America/Jamaica' });
    expect(validZone('Pacific Time')).toEqual({ ok: false, suggestion: 'America/Los_Angeles' });
    expect(validZone('Etc/GMT+6').ok).toBe(false);
    expect(validZone('zzzzzzzz')).toEqual({ ok: false });
    // Every name the platform offers is one of ours or known besides.
    for (const zone of Intl.supportedValuesOf('timeZone'))
      if (zone.includes('/') && !zone.startsWith('Etc/')) expect(validZone(zone).ok).toBe(true);
  });
});

describe('weeks', () => {
  // ISO 8601: week 1 holds the year's first Thursday. Dates from the calendar: 2026 has 53 weeks; 2027-01-03 is the Sunday of 2026-W53.
  it.each([
    ['2026-12-28', 2026, 53],
    ['2027-01-03', 2026, 53],
    ['2027-01-04', 2027, 1],
    ['2027-03-14', 2027, 10],
    ['2024-12-30', 2025, 1],
    ['2028-01-01', 2027, 52],
  ])('%s is in %i-W%i', (date, year, week) => expect(isoWeekOf(iso(date))).toEqual({ year, week }));

  it('hold their Thursday, whatever day they begin on', () => {
    for (const firstDay of [0, 5, 6]) {
      const days = daysOfWeek({ year: 2027, week: 10 }, firstDay);
      expect(weekdayOf(days[0] as number)).toBe(firstDay);
      expect(days.map(isoOf)).toContain('2027-03-11');
    }
    expect(daysOfWeek({ year: 2027, week: 10 }, 0).map(isoOf)[0]).toBe('2027-03-08');
    expect(daysOfWeek({ year: 2027, week: 10 }, 6).map(isoOf)[0]).toBe('2027-03-07');
    expect(parseIsoWeek('2026-W53')).toEqual({ year: 2026, week: 53 });
    expect(parseIsoWeek('2027-W53')).toBeUndefined();
    expect(parseIsoWeek('2027-10')).toBeUndefined();
  });
});

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
const shift = (day: number, opens: number, closes: number): Shift => ({
  day,
  opens,
  closes,
  comes: opens - 150,
  leaves: closes + 45,
  firstPan: opens - 30,
  closers: 1,
  openers: 1,
});
const LATE = [1320, 1320, 1320, 1320, 1470, 1470, 1320];

const standing = (
  kind: keyof typeof CLOCK_KINDS,
  exceptions: Standing['exceptions'] = new Map(),
  zone = 'America/Chicago',
  closing = LATE,
): Standing => {
  const nights = nightsOf(
    WEEK_CIRCLE,
    closing.map((closes, day) => shift(day, 660, closes)),
  );
  const problem = {
    circle: WEEK_CIRCLE,
    nights,
    // A seven-day clock of a profile that says it follows.
    rails: [
      { id: 'line-1', need, clock: clockOf({ ...CLOCK_KINDS[kind], followsDst: kind === 'seven-day-clock' }, WEEK_CIRCLE) },
    ],
  };
  return { problem, timetable: solve(problem), zone, exceptions };
};
const nightOf = (s: Standing, date: string) => {
  const night = nightsBetween(s, iso(date), iso(date))[0];
  if (!night?.rails[0]) throw new Error('no such night');
  return { special: night.special, ...night.rails[0] };
};

describe('the night the clocks change', () => {
  it('a clock that follows rests an hour less in March and an hour more in November', () => {
    const s = standing(
      'seven-day-clock',
      new Map(),
      'America/Chicago',
      LATE.map(() => 1320),
    );
    const usual = nightOf(s, '2027-03-20').rest?.minutes ?? 0;
    expect(nightOf(s, '2027-03-13')).toMatchObject({
      special: ['clocks-change'],
      rest: { minutes: usual - 60 },
      notes: [{ code: 'clocks-change', at: 1440 + 120, shift: 60, rest: usual - 60 }],
    });
    expect(nightOf(s, '2027-11-06').rest?.minutes).toBe(usual + 60);
    expect(nightOf(s, '2027-03-14')).toMatchObject({ special: [], notes: [] });
  });
  it('a turning in the hour that comes twice is told, and the rest counted from the second time', () => {
    const s = standing('seven-day-clock');
    const [usual, twice] = [nightOf(s, '2027-11-13').rest, nightOf(s, '2027-11-06')];
    expect(usual?.off).toBe(1440 + 80);
    expect(twice.notes).toContainEqual({ code: 'turning-twice', turns: 'off', at: 1440 + 80 });
    expect(twice.rest?.minutes).toBe(usual?.minutes);
  });
  it('a turning in the hour that is left out is told', () => {
    const s = standing(
      'seven-day-clock',
      new Map(),
      'America/Chicago',
      LATE.map(() => 1560),
    );
    expect(nightOf(s, '2027-03-13').notes).toContainEqual({ code: 'turning-skipped', turns: 'off', at: 1440 + 125 });
  });
  it('a dial that does not follow is set at closing before, and then Sunday morning is right', () => {
    const s = standing('daily-dial');
    const usual = nightOf(s, '2027-03-20').rest;
    // Off at 01:15 and on at 08:15; set ahead when the food is out at 01:00, it goes off at once.
    expect(usual).toMatchObject({ off: 1440 + 75, on: 1440 + 495, emptyBy: 1440 + 60 });
    const march = nightOf(s, '2027-03-13');
    expect(march.rest).toMatchObject({ off: 1440 + 60, on: 1440 + 495, minutes: 375 });
    expect(march.notes).toContainEqual({ code: 'reset-clock', at: 1440 + 60, turn: 60, on: 1440 + 555, late: 60 });
    const november = nightOf(s, '2027-11-06');
    // Set back at 01:00, before 02:00 becomes 01:00: it goes off when the wall shows 01:15 for the second time.
    expect(november.rest).toMatchObject({ off: 1440 + 75, on: 1440 + 495, minutes: 420 });
    expect(november.notes).toContainEqual({ code: 'reset-clock', at: 1440 + 60, turn: -60, on: 1440 + 435, late: -60 });
  });
  it('where clocks never change nothing is special', () => {
    expect(specialNights(standing('daily-dial', new Map(), 'America/Phoenix'), iso('2027-01-01'), iso('2027-12-31'))).toEqual([]);
  });
});

it('a clock that nobody set is late after March, and off with food in it after November', () => {
  const s = standing('daily-dial');
  const [outcome] = s.timetable;
  const clock = s.problem.rails[0]?.clock;
  if (!outcome?.ok || !clock) throw new Error('no schedule');
  const march = nightsIfWrong(s.problem, 0, outcome, wrongByChange(clock, 60));
  expect(march.map((n) => n.on - (outcome.nights[0]?.rest?.on ?? 0))).toEqual([60, 60, 60, 60, 60, 60, 60]);
  // On at 09:15 where power is needed at 09:10.
  expect(march.every((n) => n.late === 5 && n.foodInOff === 0)).toBe(true);
  const november = nightsIfWrong(s.problem, 0, outcome, wrongByChange(clock, -60));
  // Friday's food is out by 01:00; the rail would be off from 00:15.
  expect(november.map((n) => n.foodInOff)).toEqual([0, 0, 0, 0, 45, 45, 0]);
  expect(wrongByPowerCut(clock, 90)).toBe(-90);
  expect(wrongByPowerCut(clock, 1440 - 30)).toBe(30);
  expect(wrongByPowerCut(clockOf(CLOCK_KINDS['seven-day-clock'], WEEK_CIRCLE), 90)).toBe(0);
});

describe('other hours on one date, against a dial that cannot know them', () => {
  const on = (date: string, s: Shift | null): Standing => standing('daily-dial', new Map([[iso(date), s]]));
  it('an early closing is fine', () => {
    expect(nightOf(on('2026-12-24', shift(3, 660, 960)), '2026-12-24')).toMatchObject({
      special: ['other-hours'],
      rest: { off: 1440 + 75, minutes: 420 },
      notes: [],
    });
  });
  it('a closed day is fine: the empty, covered rail runs and rests by itself', () => {
    const s = on('2026-12-25', null);
    expect(nightsBetween(s, iso('2026-12-24'), iso('2026-12-26')).map((n) => isoOf(n.date))).toEqual([
      '2026-12-24',
      '2026-12-26',
    ]);
    expect(nightOf(s, '2026-12-24')).toMatchObject({ rest: { off: 1440 + 75, on: 2 * 1440 + 495, minutes: 420 }, notes: [] });
  });
  it('a late closing needs a hand: hold it on until the food is out', () => {
    // New Year's Eve: closes at 02:00, food out at 02:00; the dial would go off at 01:15.
    expect(nightOf(on('2026-12-31', shift(3, 660, 1560)), '2026-12-31')).toMatchObject({
      rest: { emptyBy: 1560, off: 1560, on: 1440 + 495, minutes: 375 },
      notes: [{ code: 'hold-on', from: 1440 + 60, until: 1560 }],
    });
  });
  it('a very late one leaves no rest: it stays on', () => {
    expect(nightOf(on('2026-12-31', shift(3, 660, 1740)), '2026-12-31')).toMatchObject({
      rest: null,
      notes: [{ code: 'stay-on', from: 1440 + 60, until: 1440 + 510 }],
    });
  });
  it('an early opening needs a hand in the morning, or the night before', () => {
    // Opens at 09:00: loading from 08:10, power at 07:10; the dial would be off until 08:15.
    const early = { ...shift(4, 540, 1470), comes: 360 };
    expect(nightOf(on('2026-11-27', early), '2026-11-26')).toMatchObject({
      rest: { on: 1440 + 430 },
      notes: [{ code: 'turn-on-early', at: 1440 + 430, until: 1440 + 510 }],
    });
    // Nobody comes before 08:00: the closers hold it on when they leave at 22:45.
    expect(nightOf(on('2026-11-27', { ...early, comes: 480 }), '2026-11-26')).toMatchObject({
      rest: null,
      notes: [{ code: 'stay-on', from: 1365, until: 1440 + 510 }],
    });
  });
  it('a crew that is gone or not yet there is an error', () => {
    const gone = { ...shift(3, 660, 1320), leaves: 1300 };
    expect(nightOf(on('2026-12-31', gone), '2026-12-31').notes).toContainEqual({
      code: 'empty-after-crew-leaves',
      out: 1320,
      leaves: 1300,
    });
  });
});
