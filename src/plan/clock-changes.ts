/**
 * The changes of the clocks in dated nights.
 */
import { DAY } from '../base/moment.js';
import type { DayNumber } from '../model/hours/index.js';
import { transitionsBetween, validZone, type DatedNight, type Transition } from './timetable/dates/index.js';

/** The changes of the clocks on dates from one to another, both counted; none in a zone that is none. */
export const changesBetween = (timezone: string, first: DayNumber, last: DayNumber): readonly Transition[] => {
  const zone = validZone(timezone);
  return zone.ok && first <= last ? transitionsBetween(zone.zone, first, last) : [];
};

/** The changes of the clocks that fall in a night. */
export const changesIn = ({ changes }: DatedNight) => changes ?? [];

/** The evening before the clocks change, which is a later one than the night's own where the store is closed for days. @param at in minutes of the night's date */
export const eveAt = (night: DatedNight, at: number): DayNumber => night.date + Math.max(0, Math.floor(at / DAY) - 1);

/** The evening before the last change of a night. */
export const eveOfChange = (night: DatedNight): DayNumber =>
  Math.max(night.date, ...changesIn(night).map(({ at }) => eveAt(night, at)));
