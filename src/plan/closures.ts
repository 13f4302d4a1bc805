/**
 * A closure of many days: what is done before it, while somebody still looks at the food, and before food goes in again.
 */
import { count, phrase, term, type Value } from '../base/value.js';
import type { Known } from '../base/basis.js';
import type { DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import type { WeekNote } from './date-notes.js';
import { calendarOf, isOpenOn, nearestOpen } from './dates.js';
import type { StorePlan } from './index.js';
import { computed, practice } from './known.js';
import { LONG_CLOSURE } from './timetable/dates/index.js';

/** Closed for so many days, what stays in a unit is read by nobody unless somebody is told to. Common practice, no source. */
const SOME = 3;

/** @returns for the manager: on the last date before a closure of days, and on those around the end of a long one */
export const closureNotes = ({ store }: ReadStore, plan: StorePlan, first: DayNumber, last: DayNumber): readonly WeekNote[] => {
  const days = (n: number) => computed(count(n), 'of-that-date', [plan.store.hours]);
  const noteOf = (code: string, day: DayNumber, figures: Readonly<Record<string, Known<Value>>>): WeekNote => ({
    date: calendarOf(day),
    unit: undefined,
    text: practice(
      phrase(`notes.${code}`, { ...figures, limit: plan.store.law.limit, service: plan.store.phones.service }),
      `note-${code}`,
    ),
    otherwise: undefined,
    who: practice(term('manager'), 'role-manager'),
    hand: undefined,
    figures,
  });
  // The day before it opens again stands on these days, or on those before.
  return Array.from({ length: last - first + 2 }, (_, i) => first + i)
    .filter((day) => isOpenOn(store, day))
    .flatMap((day) => {
      const [since, until] = [nearestOpen(store, day - 1, -1), nearestOpen(store, day + 1, 1)];
      const closed = since === undefined ? 0 : day - since - 1;
      const shut = until === undefined ? 0 : until - day - 1;
      const closes = shut >= LONG_CLOSURE ? 'closes-long' : 'closes-for-days';
      const again = closed >= LONG_CLOSURE;
      return [
        ...(again && day > first ? [noteOf('opens-tomorrow', day - 1, { closed: days(closed) })] : []),
        ...(again && day <= last ? [noteOf('opens-again', day, { closed: days(closed) })] : []),
        ...(until !== undefined && shut >= SOME && day <= last ? [noteOf(closes, day, { until: calendarOf(until) })] : []),
      ];
    });
};
