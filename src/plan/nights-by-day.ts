/**
 * Times of solved nights as values by day: an evening stands with its business day, a morning with the one that it opens.
 */
import { DAY, moment, weekdayAt } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import type { NightPlan } from './timetable/index.js';

export const byDays = (
  nights: readonly NightPlan[],
  pick: (night: NightPlan) => readonly [shift: number, minutes: number] | undefined,
): ByDay => ({
  q: 'by-day',
  at: Object.fromEntries(
    nights.flatMap((night) => {
      const found = pick(night);
      return found ? [[weekdayAt(night.day + found[0]), moment(found[1] - found[0] * DAY)]] : [];
    }),
  ),
});

/** The business day that a night's morning opens: counted in days from the night's own. */
export const morningOf = (night: NightPlan): number => Math.floor(night.firstPan / DAY);
