/**
 * A time of the night, in minutes from 00:00 of the business day it belongs to: 00:30 after Friday's closing is Friday's 1470.
 * It is never wrapped, so "before" is `<`.
 */
export interface Moment {
  readonly q: 'moment';
  /** Whole minutes; 0 is 00:00 of the business day, 1440 the midnight after it. */
  readonly min: number;
  /** The business day of a time that stands alone: it is then said with the weekday that the wall shows, where that is another. */
  readonly of?: Weekday;
}

export const DAY = 1440;
export const NOON = DAY / 2;
export const WEEK = 7 * DAY;

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

export const moment = (min: number, of?: Weekday): Moment => ({ q: 'moment', min: Math.round(min), ...(of ? { of } : {}) });

/** Calendar days between the business day and the day on which the clock on the wall shows the moment: 1 for 00:30 after closing. */
export const daysLater = (m: Moment): number => Math.floor(m.min / DAY);

/** Minutes on the clock on the wall, 0 to 1439. */
export const onTheWall = (m: Moment): number => ((m.min % DAY) + DAY) % DAY;

/** The weekday of a count of days from Monday, whichever week it lies in. */
export const weekdayAt = (index: number): Weekday => WEEKDAYS[((index % 7) + 7) % 7] as Weekday;

export const weekdayAfter = (day: Weekday, days: number): Weekday => weekdayAt(WEEKDAYS.indexOf(day) + days);
