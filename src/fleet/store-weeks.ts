/**
 * The weeks of a store, each with the plan of its season: hours may change by season, and every time with them.
 * A week in which the hours change has two sheets: one up to the last day of the old hours, and one from the first day of the new ones.
 */
import { dayOfIso, isoOf, type DayNumber } from '../model/hours/index.js';
import { isOpenOn, openFrom } from '../plan/dates.js';
import type { SeasonChange } from '../plan/season-clock.js';
import { seasonOn, workingDate } from '../plan/season.js';
import { lengthOf, planWeek, type WeekDates } from '../plan/week.js';
import type { Dated, Planned, PlannedStore } from './store-papers.js';

/** @param first the plan of the first week; @param on the store's plan on a date, asked once for each other season; @returns a sheet for each season of each week */
export const weeksOf = (
  first: Planned,
  on: (iso: string) => PlannedStore,
  weeks: readonly WeekDates[],
): readonly (Planned & Dated)[] => {
  const { store } = first.read;
  const known = new Map<DayNumber, string | undefined>();
  /** The ordinary week that holds on a date, by which one season is told from another; undefined where the hours are the same all year. */
  const seasonAt = (day: DayNumber): string | undefined => {
    if (!known.has(day)) known.set(day, JSON.stringify(seasonOn(store, isoOf(day))?.week));
    return known.get(day);
  };
  const workingDay = (date: DayNumber): DayNumber => dayOfIso(workingDate(store, isoOf(date))) as DayNumber;
  const plans = new Map<string | undefined, Planned>([[seasonAt(workingDay(weeks[0]?.first ?? 0)), first]]);
  const planOn = (date: DayNumber): Planned => {
    const day = workingDay(date);
    // What can be read and planned in one season can be in each.
    const planned = plans.get(seasonAt(day)) ?? (on(isoOf(day)) as Planned);
    plans.set(seasonAt(day), planned);
    return planned;
  };
  /** Between two open dates with none between them. */
  const changeBetween = (a: DayNumber, b: DayNumber): SeasonChange | undefined => {
    if (seasonAt(a) === seasonAt(b)) return undefined;
    let from = b;
    while (seasonAt(from - 1) === seasonAt(b)) from--;
    return { before: planOn(a).plan, after: planOn(b).plan, first: from };
  };
  return weeks.flatMap((week) => {
    const end = week.first + lengthOf(week);
    const open = Array.from({ length: lengthOf(week) }, (_, i) => week.first + i).filter((day) => isOpenOn(store, day));
    const cuts = open.flatMap((day, i) => (i > 0 ? (changeBetween(open[i - 1] as DayNumber, day)?.first ?? []) : []));
    return [week.first, ...cuts].map((from, i, starts) => {
      const days = (starts[i + 1] ?? end) - from;
      const [opens, closes] = [open.find((day) => day >= from), open.findLast((day) => day < from + days)];
      const planned = planOn(opens ?? from);
      const changes =
        opens === undefined || closes === undefined
          ? {}
          : {
              into: changeBetween(openFrom(store, opens - 1, -1), opens),
              outOf: changeBetween(closes, openFrom(store, closes + 1, 1)),
            };
      return { ...planned, week: planWeek(planned.read, planned.plan, { first: from, days }, changes) };
    });
  });
};
