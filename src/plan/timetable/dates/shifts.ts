/**
 * Which business day a date has, with its exceptions, and the night that follows it, over closed dates.
 */
import { DAY } from '../../../base/moment.js';
import { weekdayOf, type DayNumber } from '../../../model/hours/index.js';
import { daysSinceLast, type Night, type Problem, type Shift } from '../problem.js';
import { nightsOf } from '../nights.js';
import type { Standing } from './dated.js';

/** A store that opens on none of so many dates is shut for good as far as a night is concerned. */
const FAR = 366;

/** The business days of the ordinary week, by weekday; undefined where it is closed. */
export const weekShifts = (problem: Problem): readonly (Shift | undefined)[] => {
  const shifts: (Shift | undefined)[] = Array.from({ length: 7 }, () => undefined);
  const { nights } = problem;
  nights.forEach((night, i) => {
    const before = nights.at(i - 1) as Night;
    const since = daysSinceLast(problem, i) * DAY;
    shifts[night.day] = {
      day: night.day,
      opens: before.opens - since,
      closes: night.closes,
      comes: before.comes - since,
      leaves: night.leaves,
      firstPan: before.firstPan - since,
      closers: night.closers,
      openers: before.openers,
      ...(night.attended ? { attended: true as const } : {}),
    };
  });
  return shifts;
};

export interface DateNight {
  readonly night: Night;
  /** Days to the next opening date. */
  readonly later: number;
  /** The date itself, or the one that opens next, has other hours than its weekday, or opens where its weekday would not. */
  readonly other: boolean;
}

/** @returns the night after a date; undefined where the store is closed on it, or doesn't open again */
export const nightAfter = (standing: Standing, week: readonly (Shift | undefined)[], date: DayNumber): DateNight | undefined => {
  const shiftOn = (d: DayNumber): Shift | undefined => {
    const exception = standing.exceptions.get(d);
    return exception === undefined ? week[weekdayOf(d)] : (exception ?? undefined);
  };
  const shift = shiftOn(date);
  if (!shift) return undefined;
  let other = standing.exceptions.has(date);
  for (let later = 1; later <= FAR; later++) {
    other ||= standing.exceptions.has(date + later);
    const next = shiftOn(date + later);
    if (!next) continue;
    // Two business days so far apart, on a circle that is as long as the gap.
    const circle = { days: later + 1, minutesPerDay: DAY };
    const [night] = nightsOf(circle, [
      { ...shift, day: 0 },
      { ...next, day: later },
    ]);
    return { night: { ...(night as Night), day: weekdayOf(date) }, later, other };
  }
  return undefined;
};
