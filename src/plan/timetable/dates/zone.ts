/**
 * The one door to time-zone data: the changes of a zone's clocks in a year, looked up once per zone and year; all else is whole numbers.
 */
import { DAY } from '../../../base/moment.js';
import { Temporal } from 'temporal-polyfill';
import { civil, dayNumber, type DayNumber } from '../../../model/hours/index.js';

/** A change of the clocks on the wall. */
export interface Transition {
  /** Local minutes since 1970-01-01 00:00 as the clock showed before the change: 2027-03-14 02:00 in Chicago. */
  readonly at: number;
  /** Minutes by which it moves: 60 forward, -60 back. */
  readonly shift: number;
}

/** @returns the zone's name as the data spells it, or undefined where it knows none; also takes abbreviations and offsets, which are no places */
export const zoneId = (name: string): string | undefined => {
  try {
    return Temporal.ZonedDateTime.from({ timeZone: name, year: 2000, month: 1, day: 1 }).timeZoneId;
  } catch {
    return undefined;
  }
};

const minutesOf = (nanoseconds: number): number => Math.round(nanoseconds / 6e10);

const lookUp = (zone: string, year: number): readonly Transition[] => {
  const found: Transition[] = [];
  let from = Temporal.ZonedDateTime.from({ timeZone: zone, year, month: 1, day: 1 }).subtract({ nanoseconds: 1 });
  for (;;) {
    const next = from.getTimeZoneTransition('next');
    if (!next) return found;
    const before = minutesOf(next.subtract({ nanoseconds: 1 }).offsetNanoseconds);
    const at = Math.round(next.epochMilliseconds / 60000) + before;
    if (at >= dayNumber(year + 1, 1, 1) * DAY) return found;
    const shift = minutesOf(next.offsetNanoseconds) - before;
    // Data also tells changes of a name that leave the clock alone.
    if (shift !== 0) found.push({ at, shift });
    from = next;
  }
};

/** Minutes from UTC at 00:00 of a day. */
export const offsetAt = (zone: string, day: DayNumber): number =>
  minutesOf(Temporal.ZonedDateTime.from({ timeZone: zone, ...civil(day) }).offsetNanoseconds);

const known = new Map<string, readonly Transition[]>();

/**
 * The changes in a calendar year, in order.
 * @throws when the zone is not known: check it with `validZone` when it is read
 */
export const transitionsOf = (zone: string, year: number): readonly Transition[] => {
  const key = `${zone} ${year}`;
  const found = known.get(key) ?? lookUp(zone, year);
  known.set(key, found);
  return found;
};

/** The changes from one day to another, both counted. */
export const transitionsBetween = (zone: string, first: DayNumber, last: DayNumber): readonly Transition[] => {
  const years = Array.from({ length: civil(last).year - civil(first).year + 1 }, (_, i) => civil(first).year + i);
  return years.flatMap((year) => transitionsOf(zone, year)).filter((t) => t.at >= first * DAY && t.at < (last + 1) * DAY);
};
