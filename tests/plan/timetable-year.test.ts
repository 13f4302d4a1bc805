/**
 * A year of nights in ten time zones, walked minute by minute in elapsed time with the platform's own zone data (Intl): the clock is turned only when a
 * note says so, hands act only when a note says so, and people do what the times say. Then: no food in a rail that is off, none off in opening hours,
 * cold before loading, and rest enough or a reason.
 */
import { expect, it } from 'vitest';
import { dayNumber, isoOf, weekdayOf } from '../../src/model/hours/index.js';
import { CLOCK_KINDS } from '../../src/trade/clocks.js';
import { nightsBetween, type DatedNight, type DateNote, type Standing } from '../../src/plan/timetable/dates/index.js';
import {
  clockOf,
  nightsOf,
  solve,
  WEEK_CIRCLE,
  type Clock,
  type Need,
  type Pattern,
  type Shift,
} from '../../src/plan/timetable/index.js';
import { wallClock, type WallClock } from './wall-clock.js';

const YEAR = 2027;
const DAY = 1440;
const NEED: Need = {
  empty: 30,
  load: 20,
  pullDown: 60,
  pullDownBand: 30,
  leastRest: 300,
  enoughRest: 420,
  startBeforeClose: 30,
  wipe: null,
  longestRun: 1560,
};

const shift = (day: number, opens: number, closes: number, comes = opens - 150): Shift => ({
  day,
  opens,
  closes,
  comes,
  leaves: closes + 45,
  firstPan: opens - 30,
  closers: 1,
  openers: 1,
});

interface Scene {
  readonly week: readonly Shift[];
  readonly need: Need;
  readonly exceptions: ReadonlyMap<number, Shift | null>;
}

/** Closed on Mondays, late on Friday and Saturday. */
const WEEK = [null, 1320, 1320, 1320, 1470, 1470, 1260].flatMap((closes, day) =>
  closes === null ? [] : [shift(day, 660, closes)],
);

const exceptions = (): Map<number, Shift | null> =>
  new Map([
    [dayNumber(YEAR, 2, 12), shift(4, 660, 1560)], // an hour and a half later than on other Fridays
    [dayNumber(YEAR, 5, 5), shift(2, 480, 1320)], // opens three hours early
    [dayNumber(YEAR, 5, 20), shift(3, 480, 1320, 420)], // and nobody comes before 07:00
    [dayNumber(YEAR, 7, 3), null],
    [dayNumber(YEAR, 7, 4), null],
    [dayNumber(YEAR, 8, 2), shift(0, 660, 1320)], // a Monday, open
    [dayNumber(YEAR, 12, 24), shift(4, 660, 900)],
    [dayNumber(YEAR, 12, 31), shift(4, 660, 1740)], // until 05:00
  ]);

/** Never closed; food comes out for a quiet window from 01:00 to 09:30, with the night crew there. */
const QUIET = [0, 1, 2, 3, 4, 5, 6].map((day): Shift => ({
  ...shift(day, 570, 1500),
  firstPan: 570,
  comes: 570,
  attended: true,
}));

const SCENES: Readonly<Record<string, Scene>> = {
  'a week with a closed day and dates of other hours': { week: WEEK, need: NEED, exceptions: exceptions() },
  'a rail that is wiped by hand': { week: WEEK, need: { ...NEED, wipe: 10, pullDown: 30 }, exceptions: new Map() },
  'a quiet window': { week: QUIET, need: NEED, exceptions: new Map() },
};

const patternOff = (patterns: readonly Pattern[], dial: number): boolean => {
  const weekday = weekdayOf(Math.floor(dial / DAY));
  const minute = ((dial % DAY) + DAY) % DAY;
  return (patterns.find((p) => p.days.includes(weekday))?.stretches ?? []).some((s) =>
    s.off < s.on ? minute >= s.off && minute < s.on : minute >= s.off || minute < s.on,
  );
};

/** By UTC minute from `start`: 1 where the rail is off. */
const walkYear = (
  start: number,
  end: number,
  wall: WallClock,
  clock: Clock,
  patterns: readonly Pattern[],
  nights: readonly DatedNight[],
): Uint8Array => {
  const off = new Uint8Array(end - start);
  const utc = (night: DatedNight, minute: number, which: 'first' | 'last' = 'last'): number =>
    wall.utc(night.date * DAY + minute, which);
  if (clock.by === 'hand') {
    for (const night of nights) {
      const rest = night.rails[0]?.rest;
      if (rest) off.fill(1, utc(night, rest.off) - start, utc(night, rest.on) - start);
    }
    return off;
  }
  const notes = nights.flatMap((night) => (night.rails[0]?.notes ?? []).map((note) => ({ night, note })));
  const resets = new Map(
    notes.flatMap(({ night, note }) => (note.code === 'reset-clock' ? [[utc(night, note.at, 'first'), note.turn]] : [])),
  );
  let ahead = wall.offset(start);
  for (let u = start; u < end; u++) {
    ahead += resets.get(u) ?? 0;
    off[u - start] = patternOff(patterns, u + (clock.followsDst ? wall.offset(u) : ahead)) ? 1 : 0;
  }
  for (const { night, note } of notes) {
    if (note.code === 'hold-on' || note.code === 'stay-on')
      off.fill(0, utc(night, note.from, 'first') - start, utc(night, note.until) - start);
    if (note.code === 'turn-on-early') off.fill(0, utc(night, note.at) - start, utc(night, note.until) - start);
  }
  return off;
};

const ZONES = [
  'America/New_York',
  'America/Phoenix',
  'America/Santiago',
  'America/Havana',
  'Europe/London',
  'Africa/Casablanca',
  'Asia/Beirut',
  'Asia/Kolkata',
  'Australia/Lord_Howe',
  'Pacific/Chatham',
];

interface Plant {
  readonly nights?: (night: DatedNight) => DatedNight;
  readonly patterns?: (patterns: readonly Pattern[]) => readonly Pattern[];
}

const without =
  (code: DateNote['code']) =>
  (night: DatedNight): DatedNight => ({
    ...night,
    rails: night.rails.map((r) => ({ ...r, notes: r.notes.filter((n) => n.code !== code) })),
  });

const shifted =
  (minutes: number) =>
  (patterns: readonly Pattern[]): readonly Pattern[] =>
    patterns.map((p) => ({
      ...p,
      stretches: p.stretches.map((s) => ({ off: (s.off + minutes + DAY) % DAY, on: ((s.on + minutes + DAY - 1) % DAY) + 1 })),
    }));

/** What is wrong in a year of nights, walked; a planted fault changes the nights or the settings first. */
const faultsIn = (
  zone: string,
  kind: keyof typeof CLOCK_KINDS,
  { week, need, exceptions: other }: Scene,
  plant: Plant = {},
): readonly string[] => {
  const wall = wallClock(zone);
  const clock = clockOf(CLOCK_KINDS[kind], WEEK_CIRCLE);
  const problem = { circle: WEEK_CIRCLE, nights: nightsOf(WEEK_CIRCLE, week), rails: [{ id: 'line-1', need, clock }] };
  const timetable = solve(problem);
  const [outcome] = timetable;
  if (!outcome?.ok) return [`no schedule: ${JSON.stringify(outcome)}`];
  const [first, last] = [dayNumber(YEAR, 1, 1), dayNumber(YEAR, 12, 31)];
  const standing: Standing = { problem, timetable, zone, exceptions: other };
  const dated = nightsBetween(standing, first, last).map(plant.nights ?? ((n) => n));
  const start = wall.utc(first * DAY);
  const off = walkYear(start, wall.utc((last + 3) * DAY), wall, clock, (plant.patterns ?? ((p) => p))(outcome.patterns), dated);
  const minutesOff = (from: number, to: number): number =>
    off.subarray(Math.max(0, from - start), Math.max(0, to - start)).reduce((sum, x) => sum + x, 0);
  const faults: string[] = [];
  dated.forEach((night, i) => {
    const utc = (minute: number): number => wall.utc(night.date * DAY + minute);
    const say = (wrong: boolean, what: string): void => {
      if (wrong) faults.push(`${what} ${zone} ${kind} ${isoOf(night.date)} ${JSON.stringify(night)}`);
    };
    const [rail] = night.rails;
    if (!rail || i === dated.length - 1) return;
    const before = dated[i - 1];
    const opened = before ? wall.utc(before.date * DAY + before.night.opens) : utc(660);
    const reopens = utc(night.night.opens);
    const { rest } = rail;
    const codes = rail.notes.map((n) => n.code);
    // Food is in from loading to emptying; where the rail stays on, all night.
    const which = codes.includes('second-time-meant') ? 'last' : 'first';
    const foodOut = rest ? wall.utc(night.date * DAY + rest.emptyBy, which) : reopens;
    const said = codes.some((c) => c === 'first-time-meant' || c === 'second-time-meant');
    if (rest) say(utc(rest.emptyBy) !== wall.utc(night.date * DAY + rest.emptyBy, 'first') && !said, 'a time told twice');
    say(
      codes.some((c) => c === 'empty-after-crew-leaves' || c === 'load-before-crew-comes' || c === 'wiped-too-late'),
      'an error',
    );
    say(minutesOff(opened, foodOut) > 0, 'food in a rail that is off');
    say(minutesOff(opened, utc(night.night.closes)) > 0, 'off in opening hours');
    // On without a break for the whole pull-down, and until the next opening.
    say(minutesOff(utc(rail.coldBy) - need.pullDown, reopens) > 0, 'not cold before loading');
    if (rest && need.wipe !== null && !night.night.attended)
      say(minutesOff(utc(night.night.comes), utc(night.night.comes) + need.wipe) < need.wipe, 'on before it is wiped');
    const rested = minutesOff(foodOut, reopens);
    if (rest) {
      say(rested < rest.minutes, 'less rest than told');
      say(rest.minutes < need.leastRest && !codes.includes('rest-short'), 'a short rest that is not told');
    } else {
      say(rested > 0, 'off in a night that stays on');
      say(night.special.length === 0, 'no rest without a reason');
    }
  });
  return faults;
};

it.each(ZONES.flatMap((zone) => Object.keys(SCENES).map((scene) => [zone, scene] as const)))('%s: %s', (zone, name) => {
  const scene = SCENES[name] as Scene;
  for (const kind of ['daily-dial', 'seven-day-clock', 'weekday-weekend-clock', 'hand-switch'] as const)
    expect(faultsIn(zone, kind, scene), kind).toEqual([]);
});

it('has two changes a year where clocks change, and none where not', () => {
  for (const zone of ZONES) {
    const problem = {
      circle: WEEK_CIRCLE,
      nights: nightsOf(WEEK_CIRCLE, WEEK),
      rails: [{ id: 'line-1', need: NEED, clock: clockOf(CLOCK_KINDS['daily-dial'], WEEK_CIRCLE) }],
    };
    const nights = nightsBetween(
      { problem, timetable: solve(problem), zone, exceptions: new Map() },
      dayNumber(YEAR, 1, 1),
      dayNumber(YEAR, 12, 31),
    );
    expect(nights.filter((n) => n.special.includes('clocks-change')).length, zone).toBe(
      { 'America/Phoenix': 0, 'Asia/Kolkata': 0 }[zone] ?? 2,
    );
  }
});

// If the walk did not see these, it would be no check.
it.each<[string, keyof typeof CLOCK_KINDS, Plant, string]>([
  [
    'nobody turns the dial when the clocks change',
    'daily-dial',
    { nights: without('reset-clock') },
    'food in a rail that is off',
  ],
  ['nobody holds the rail on after a late closing', 'daily-dial', { nights: without('hold-on') }, 'food in a rail that is off'],
  ['nobody turns it on for an early opening', 'seven-day-clock', { nights: without('turn-on-early') }, 'not cold before loading'],
  [
    'nobody keeps it on when there is no time to rest',
    'daily-dial',
    { nights: without('stay-on') },
    'food in a rail that is off',
  ],
  ['the dial is set an hour late', 'daily-dial', { patterns: shifted(60) }, 'not cold before loading'],
  ['the dial is set three hours early', 'weekday-weekend-clock', { patterns: shifted(-180) }, 'off in opening hours'],
])('a planted fault is seen: %s', (_, kind, plant, what) => {
  const faults = faultsIn('America/New_York', kind, SCENES['a week with a closed day and dates of other hours'] as Scene, plant);
  expect(
    faults.some((f) => f.startsWith(what)),
    faults.slice(0, 3).join('\n'),
  ).toBe(true);
});
