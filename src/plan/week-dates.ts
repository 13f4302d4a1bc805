/**
 * Which dates a sheet of a week is for.
 */
import { WEEKDAYS, type Weekday } from '../base/moment.js';
import { dayOfIso, dayWritten, weekdayOf, type DayNumber } from '../model/hours/index.js';
import { daysOfWeek, parseIsoWeek } from './timetable/dates/index.js';

/** The first of seven days, or of fewer: a week in which a season begins has a sheet for each season's days. */
export interface WeekDates {
  readonly first: DayNumber;
  readonly days?: number;
}

export const lengthOf = ({ days }: WeekDates): number => days ?? WEEKDAYS.length;

/** The seven days from the chain's first weekday that contain the ISO week's Thursday. */
export const weekOfIso = (wrote: string, starts: Weekday): WeekDates | undefined => {
  const week = parseIsoWeek(wrote);
  return week && { first: daysOfWeek(week, WEEKDAYS.indexOf(starts))[0] as DayNumber };
};

/** Seven days from a date, whatever weekday it is. */
export const weekFrom = (iso: string): WeekDates | undefined => {
  const first = dayWritten(iso);
  return first === undefined ? undefined : { first };
};

/** The seven days from the chain's first weekday that hold a day. */
const weekHolding = (day: DayNumber, starts: Weekday): WeekDates => ({
  first: day - ((weekdayOf(day) - WEEKDAYS.indexOf(starts) + WEEKDAYS.length) % WEEKDAYS.length),
});

/** The week after the one that holds today. */
export const comingWeek = (today: string, starts: Weekday): WeekDates => ({
  first: weekHolding(dayOfIso(today) as DayNumber, starts).first + WEEKDAYS.length,
});

/** The chain's weeks from the one that holds the first day to the one that holds the last. */
export const weeksHolding = (first: DayNumber, last: DayNumber, starts: Weekday): readonly WeekDates[] => {
  const begin = weekHolding(first, starts).first;
  return Array.from({ length: Math.floor((last - begin) / WEEKDAYS.length) + 1 }, (_, n) => ({
    first: begin + n * WEEKDAYS.length,
  }));
};
