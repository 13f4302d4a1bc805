/**
 * A dated week of a store: seven business days with their dates, and for each unit the tasks of close-down and open-up with that day's times.
 */
import type { Known } from '../base/basis.js';
import { WEEKDAYS, weekdayAfter, type Moment, type Weekday } from '../base/moment.js';
import { date, flag, type CalendarDate } from '../base/value.js';
import { dayNumber, dayOfIso, isoOf, openOn, weekdayOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import type { StorePlan } from './index.js';
import { computed, practice, settle, written } from './known.js';

/** The first day of the week that the dates belong to, by the chain's reckoning. */
export interface WeekDates {
  readonly first: DayNumber;
}

/** The seven days from the chain's first weekday that contain the ISO week's Thursday. */
export const weekOfIso = (wrote: string, starts: Weekday): WeekDates | undefined => {
  const found = /^(\d{4})-W(\d{2})$/.exec(wrote);
  if (!found) return undefined;
  const [year, week] = [Number(found[1]), Number(found[2])];
  // ISO 8601: week 1 is the one with the year's first Thursday, which is the one with 4 January.
  const fourth = dayNumber(year, 1, 4);
  const thursday = fourth - weekdayOf(fourth) + 3 + (week - 1) * 7;
  const ofYear = Number(isoOf(thursday).slice(0, 4));
  return week >= 1 && ofYear === year ? { first: startOn(thursday, starts) } : undefined;
};

/** The chain's week that holds a day. */
const startOn = (day: DayNumber, starts: Weekday): DayNumber => day - ((weekdayOf(day) - WEEKDAYS.indexOf(starts) + 7) % 7);

/** Seven days from a date, whatever weekday it is. */
export const weekFrom = (iso: string): WeekDates | undefined => {
  const first = dayOfIso(iso);
  return first === undefined ? undefined : { first };
};

/** The week after the one that holds today. */
export const comingWeek = (today: string, starts: Weekday): WeekDates => ({
  first: startOn(dayOfIso(today) as DayNumber, starts) + 7,
});

export interface WeekDay {
  readonly date: Known<CalendarDate>;
  readonly weekday: Weekday;
  /** The store does business that day. */
  readonly open: boolean;
  /** The hours are not the ordinary ones. */
  readonly exception: boolean;
}

export const planWeek = (read: ReadStore, plan: StorePlan, dates: WeekDates) => {
  const { store } = read;
  const exceptions = (store.exceptions ?? []).map((e) => ({ date: e.date, hours: e.hours.hours }));
  const days: readonly WeekDay[] = WEEKDAYS.map((_, i): WeekDay => {
    const iso = isoOf(dates.first + i);
    const weekday = weekdayAfter(WEEKDAYS[weekdayOf(dates.first)] as Weekday, i);
    const index = exceptions.findIndex((e) => e.date === iso);
    const spans = openOn(store.hours.hours, iso, { exceptions });
    const from = index < 0 ? undefined : written(flag(true), read.originOf('exceptions', index));
    return {
      date: from ? computed(date(iso), 'date-with-exception', []) : practice(date(iso), 'calendar'),
      weekday,
      open: spans.length > 0 && plan.crew.opens.value.at[weekday] !== undefined ? true : spans.length > 0,
      exception: index >= 0,
    };
  });
  const tree = {
    from: days[0]?.date as Known<CalendarDate>,
    to: days[6]?.date as Known<CalendarDate>,
    days: days.map((d) => ({ date: d.date, open: practice(flag(d.open), 'trait') })),
  };
  settle({ week: tree });
  return { days, tree };
};

export type Week = ReturnType<typeof planWeek>;

/** What a step's time is on a day of the week; undefined where it has none. */
export const timeOn = (
  at: { readonly value: { readonly at: Partial<Record<Weekday, Moment>> } } | undefined,
  day: WeekDay,
): Moment | undefined => at?.value.at[day.weekday];
