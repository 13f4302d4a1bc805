/**
 * The nights of a store on real dates: its solved week, with the dates on which its hours are others and the changes of its time zone.
 */
import type { Known } from '../base/basis.js';
import { DAY, WEEKDAYS, type Weekday } from '../base/moment.js';
import { date, type CalendarDate } from '../base/value.js';
import {
  dayOfIso,
  isoOf,
  openOn,
  otherHours,
  seasonsOf,
  weekdayOf,
  weekOf,
  type DayNumber,
  type Span,
} from '../model/hours/index.js';
import type { Store } from '../model/store.js';
import { afternoonOf, gapOf } from './afternoons.js';
import { businessOf, openWeek, shiftOf } from './business-days.js';
import { practice } from './known.js';
import type { SolvedWeek } from './rests.js';
import {
  afternoonsBetween,
  nightsBetween,
  resetBefore,
  validZone,
  type DatedNight,
  type OtherAfternoon,
} from './timetable/dates/index.js';
import type { Shift } from './timetable/index.js';

/** So many days around some dates decide what is told of them, and those of a closure that goes on beyond. */
const FAR = 60;

/** A store that is shut for longer than so many days is shut for good. */
const FOR_GOOD = 366;

/** A day as a page shows its date. */
export const calendarOf = (day: DayNumber): Known<CalendarDate> => practice(date(isoOf(day)), 'calendar');

export const listedHours = (store: Store) => ({
  exceptions: (store.exceptions ?? []).map((e) => ({ date: e.date, hours: e.hours.hours })),
  holidays: store.holidays ?? [],
});

export const isOpenOn = (store: Store, day: DayNumber): boolean =>
  openOn(store.hours.hours, isoOf(day), listedHours(store)).length > 0;

/** The nearest open date from one on, in steps of a day; undefined where none is for a year. */
export const nearestOpen = (store: Store, day: DayNumber, step: 1 | -1): DayNumber | undefined => {
  for (let n = 0; n < FOR_GOOD; n++) if (isOpenOn(store, day + step * n)) return day + step * n;
  return undefined;
};

/** The nearest open date, or the date itself where there is none. */
export const openFrom = (store: Store, day: DayNumber, step: 1 | -1): DayNumber => nearestOpen(store, day, step) ?? day;

/** Whether nothing but the weekday decides: then no date needs to be looked at. */
const isPlain = ({ hours, exceptions }: Store): boolean =>
  (exceptions ?? []).length === 0 &&
  hours.hours.rules.every((rule) => rule.dates === null && !rule.holidays && (rule.days?.every((d) => d.nth === null) ?? true));

/** First and last date. */
interface Dates {
  readonly first: DayNumber;
  readonly last: DayNumber;
}

/** Dates of other spans than the solved week's: listed, by a dated rule, or in another season, as far as these sheets tell of it. */
const otherSpans = (
  store: Store,
  on: string | undefined,
  { first, last }: Dates,
  told: Dates,
): Map<DayNumber, readonly Span[]> => {
  const { hours } = store.hours;
  const facts = listedHours(store);
  const found = new Map<DayNumber, readonly Span[]>();
  const solved = JSON.stringify(weekOf(hours, on));
  for (const season of seasonsOf(hours, isoOf(first), isoOf(last))) {
    if (JSON.stringify(season.week) === solved) continue;
    for (let d = dayOfIso(season.from) as DayNumber; isoOf(d) <= season.to; d++)
      if (told.first <= d && d <= told.last) found.set(d, openOn(hours, isoOf(d), facts));
  }
  for (const { date, spans } of otherHours(hours, isoOf(first), isoOf(last), facts))
    found.set(dayOfIso(date) as DayNumber, spans);
  return found;
};

const exceptionsOf = (
  store: Store,
  on: string | undefined,
  others: ReadonlyMap<DayNumber, readonly Span[]>,
): ReadonlyMap<DayNumber, Shift | null> => {
  if (others.size === 0) return new Map();
  const always = openWeek(store, on) === 'always';
  const shift = (date: DayNumber, spans: readonly Span[]): Shift | null => {
    const day = WEEKDAYS[weekdayOf(date)] as (typeof WEEKDAYS)[number];
    const business = businessOf(store, day, spans, always);
    return business ? shiftOf(store, business) : null;
  };
  const found = new Map([...others].map(([date, spans]) => [date, shift(date, spans)] as const));
  // Before a date on which a store that never closes does close, nobody stays for the night.
  if (always)
    for (const date of others.keys())
      if (!others.has(date - 1))
        found.set(date - 1, shift(date - 1, openOn(store.hours.hours, isoOf(date - 1), listedHours(store))));
  return found;
};

const otherAfternoon = (store: Store, date: DayNumber, spans: readonly Span[]): OtherAfternoon => {
  if (spans.length === 0) return 'closed';
  const found = afternoonOf(store, WEEKDAYS[weekdayOf(date)] as Weekday, spans);
  return (found && gapOf(store, found)) ?? 'open';
};

/** The date whose opening ends a night. */
export const morningAfter = (night: DatedNight): DayNumber => night.date + Math.floor(night.night.opens / DAY);

/** The last date, no further than so many days after some dates, of the season that was solved. */
export const lastInSeason = (store: Store, { on }: Pick<SolvedWeek, 'on'>, { first, last }: Dates, days: number): DayNumber => {
  const { hours } = store.hours;
  const solved = JSON.stringify(weekOf(hours, on));
  const next = seasonsOf(hours, isoOf(first), isoOf(last + days)).find(
    ({ from, week }) => from > isoOf(last) && JSON.stringify(week) !== solved,
  );
  return next ? (dayOfIso(next.from) as DayNumber) - 1 : last + days;
};

export interface DatedNights {
  /** From the last one before the first date, whose morning falls among the dates, to the one after the last date. */
  readonly nights: readonly DatedNight[];
  /** Afternoon closings of the dates from the first to the last, where a rail rests in them. */
  readonly afternoons: readonly DatedNight[];
  /** Dates of other hours. */
  readonly other: ReadonlySet<DayNumber>;
}

/** A clock that rests its rail in the afternoon is set at night, where the change of the clocks falls. */
const withResets = (night: DatedNight, { afternoon }: SolvedWeek): DatedNight => {
  if (!afternoon || !night.special.includes('clocks-change')) return night;
  return {
    ...night,
    rails: night.rails.map((rail) => {
      const shift = rail.notes.reduce((sum, n) => sum + (n.code === 'clocks-change' ? n.shift : 0), 0);
      const reset = resetBefore(afternoon, night, rail.rail, shift);
      return reset ? { ...rail, notes: [...rail.notes, reset] } : rail;
    }),
  };
};

/** Whether the clock is set to another season's setting at an end of these dates: what lies beyond it is told with that setting, not with this one. */
export interface Ends {
  readonly into: boolean;
  readonly outOf: boolean;
}

/** @returns undefined where the store has no night, or its time zone is none */
export const nightsOn = (
  store: Store,
  week: SolvedWeek,
  first: DayNumber,
  last: DayNumber,
  ends: Ends = { into: false, outOf: false },
): DatedNights | undefined => {
  const { days, problem, timetable, afternoon, on } = week;
  const zone = validZone(store.timezone);
  if (!zone.ok || problem.nights.length === 0) return undefined;
  const plain = isPlain(store);
  const around = {
    first: Math.min(first - FAR, plain ? first : openFrom(store, first - 1, -1)),
    last: Math.max(last + FAR, plain ? last : openFrom(store, last + 1, 1)),
  };
  const told = { first: ends.into ? first : around.first, last: ends.outOf ? last : around.last };
  const others = plain ? new Map<DayNumber, readonly Span[]>() : otherSpans(store, on, around, told);
  const exceptions = exceptionsOf(store, on, others);
  const opens = (date: DayNumber): boolean =>
    exceptions.has(date) ? exceptions.get(date) !== null : days.some((d) => WEEKDAYS.indexOf(d.day) === weekdayOf(date));
  let from = first - 1;
  while (from > around.first && !opens(from)) from--;
  const standing = { problem, timetable, zone: zone.zone, exceptions };
  const spans = new Map([...others].map(([date, of]) => [date, otherAfternoon(store, date, of)] as const));
  return {
    nights: nightsBetween(standing, from, last).map((night) => withResets(night, week)),
    afternoons: afternoon ? afternoonsBetween({ ...afternoon, others: spans }, first, last) : [],
    other: new Set(exceptions.keys()),
  };
};
