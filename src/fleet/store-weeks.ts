/**
 * The weeks of a store, each with the plan of its season: hours may change by season, and every time with them.
 */
import { WEEKDAYS } from '../base/moment.js';
import { isoOf, type DayNumber } from '../model/hours/index.js';
import type { SeasonChange } from '../plan/season-clock.js';
import { seasonOn } from '../plan/season.js';
import { planWeek, type WeekDates } from '../plan/week.js';
import type { Dated, Planned, PlannedStore } from './store-papers.js';

/** @param first the plan of the first week; @param on the store's plan on a date, asked once for each other season */
export const weeksOf = (
  first: Planned,
  on: (iso: string) => PlannedStore,
  weeks: readonly WeekDates[],
): readonly (Planned & Dated)[] => {
  const { store } = first.read;
  const plans = new Map<string | undefined, Planned>();
  const planOn = (iso: string): Planned => {
    const season = seasonOn(store, iso)?.from;
    // What can be read and planned in one season can be in each.
    const planned = plans.get(season) ?? (plans.size === 0 ? first : (on(iso) as Planned));
    plans.set(season, planned);
    return planned;
  };
  /** Whether the sheets that begin on a date are of another season than those of the week before. */
  const changeAt = (day: DayNumber): SeasonChange | undefined => {
    const [before, after] = [isoOf(day - WEEKDAYS.length), isoOf(day)];
    const season = seasonOn(store, after)?.from;
    if (season === undefined || season === seasonOn(store, before)?.from) return undefined;
    return { before: planOn(before).plan, after: planOn(after).plan, season, first: day };
  };
  return weeks.map((dates) => {
    const planned = planOn(isoOf(dates.first));
    const changes = { into: changeAt(dates.first), outOf: changeAt(dates.first + WEEKDAYS.length) };
    return { ...planned, week: planWeek(planned.read, planned.plan, dates, changes) };
  });
};
