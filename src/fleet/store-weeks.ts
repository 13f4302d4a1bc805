/**
 * The weeks of a store, each with the plan of its season: hours may change by season, and every time with them.
 */
import { isoOf } from '../model/hours/index.js';
import { seasonOn } from '../plan/season.js';
import { planWeek, type WeekDates } from '../plan/week.js';
import type { Dated, Planned, PlannedStore } from './store-papers.js';

/** @param first the plan of the first week; @param on the store's plan on a date, asked once for each other season */
export const weeksOf = (
  first: Planned,
  on: (iso: string) => PlannedStore,
  weeks: readonly WeekDates[],
): readonly (Planned & Dated)[] => {
  const plans = new Map<string | undefined, Planned>();
  return weeks.map((dates) => {
    const iso = isoOf(dates.first);
    const season = seasonOn(first.read.store, iso)?.from;
    // What can be read and planned in one season can be in each.
    const planned = plans.get(season) ?? (plans.size === 0 ? first : (on(iso) as Planned));
    plans.set(season, planned);
    return { ...planned, week: planWeek(planned.read, planned.plan, dates) };
  });
};
