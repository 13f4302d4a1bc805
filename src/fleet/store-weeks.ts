/**
 * The weeks of a store, each with the plan of its season: hours may change by season, and every time with them.
 * A week in which the hours change has two sheets: one up to the last day of the old hours, and one from the first day of the new ones.
 */
import { dayOfIso, isoOf, type DayNumber } from '../model/hours/index.js';
import { isOpenOn, openFrom } from '../plan/dates.js';
import type { SeasonChange } from '../plan/season-clock.js';
import { lastOfWeek } from '../plan/as-of.js';
import { seasonOn, workingDate } from '../plan/season.js';
import { planWeek } from '../plan/week.js';
import { lengthOf, type WeekDates } from '../plan/week-dates.js';
import type { Dated, Planned, PlannedStore } from './store-papers.js';

/** @param first the plan of the first week; @param on the store's plan on a date in a week, asked once for each other season and for what is signed later; @returns a sheet for each season of each week */
export const weeksOf = (
  first: Planned,
  on: (iso: string, week: string) => PlannedStore,
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
  /** By the season of a day, and by what is signed and approved in a week. */
  const keyOf = (day: DayNumber, week: DayNumber): string => {
    const signed = (first.later ?? []).filter((later) => later <= lastOfWeek(isoOf(week)));
    return `${seasonAt(day) ?? ''} ${signed.length}`;
  };
  const begins = weeks[0]?.first ?? 0;
  const plans = new Map<string, Planned>([[keyOf(workingDay(begins), begins), first]]);
  const planOn = (date: DayNumber, week: DayNumber): Planned => {
    const day = workingDay(date);
    const key = keyOf(day, week);
    // What can be read and planned in one season can be in each.
    const planned = plans.get(key) ?? (on(isoOf(day), isoOf(week)) as Planned);
    plans.set(key, planned);
    return planned;
  };
  /** Between two open dates with none between them. */
  const changeBetween = (a: DayNumber, b: DayNumber, week: DayNumber): SeasonChange | undefined => {
    if (seasonAt(a) === seasonAt(b)) return undefined;
    let from = b;
    while (seasonAt(from - 1) === seasonAt(b)) from--;
    return { before: planOn(a, week).plan, after: planOn(b, week).plan, first: from };
  };
  return weeks.flatMap((week) => {
    const end = week.first + lengthOf(week);
    const open = Array.from({ length: lengthOf(week) }, (_, i) => week.first + i).filter((day) => isOpenOn(store, day));
    const cuts = open.flatMap((day, i) => (i > 0 ? (changeBetween(open[i - 1] as DayNumber, day, week.first)?.first ?? []) : []));
    return [week.first, ...cuts].map((from, i, starts) => {
      const days = (starts[i + 1] ?? end) - from;
      const [opens, closes] = [open.find((day) => day >= from), open.findLast((day) => day < from + days)];
      const planned = planOn(opens ?? from, week.first);
      const changes =
        opens === undefined || closes === undefined
          ? {}
          : {
              into: changeBetween(openFrom(store, opens - 1, -1), opens, week.first),
              outOf: changeBetween(closes, openFrom(store, closes + 1, 1), week.first),
            };
      return { ...planned, week: planWeek(planned.read, planned.plan, { first: from, days }, changes) };
    });
  });
};
