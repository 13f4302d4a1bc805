/**
 * What a clock is set to, as its face shows it: one pattern for each class of days that the clock keeps apart.
 * A night may lie in two of them: on Friday the top goes off by the weekdays' pattern and comes on by the weekend's.
 */
import type { Known } from '../base/basis.js';
import { daysLater, onTheWall, weekdayAfter, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import { clockOf, WEEK_CIRCLE } from '../plan/timetable/index.js';
import type { UnitPlan } from '../plan/unit.js';
import type { ClockKind } from '../trade/clocks.js';

type Rest = NonNullable<UnitPlan['rest']>;

export interface Pattern {
  readonly days: readonly Weekday[];
  readonly off: Known<Moment>;
  readonly on: Known<Moment>;
}

/** Times on the wall at which something happens on some days of the calendar. */
const wallTimes = (times: ByDay, days: readonly Weekday[]): ReadonlySet<number> =>
  new Set(
    WEEKDAYS.flatMap((day) => {
      const at = times.at[day];
      return at && days.includes(weekdayAfter(day, daysLater(at))) ? [onTheWall(at)] : [];
    }),
  );

/** @returns nothing where a pattern has more than one stretch off: a picture of one would be wrong */
export const patternsOf = (rest: Rest, clock: ClockKind): readonly Pattern[] => {
  const { off, on, settings } = rest;
  if (!off || !on) return [];
  const { classes } = clockOf(clock, WEEK_CIRCLE);
  const patterns = classes.flatMap((indices): readonly Pattern[] => {
    const days = WEEKDAYS.filter((_, i) => indices.includes(i));
    const [offs, ons] = [wallTimes(off.value, days), wallTimes(on.value, days)];
    const goes = settings.map((s) => s.off).find((m) => offs.has(m.value.min));
    const comes = settings.map((s) => s.on).find((m) => ons.has(m.value.min));
    return offs.size === 1 && ons.size === 1 && goes && comes ? [{ days, off: goes, on: comes }] : [];
  });
  return patterns.length === classes.length ? patterns : [];
};
