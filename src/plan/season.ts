/**
 * The season of a date, where a store's hours change by season, or from a date on.
 */
import { note, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { dayOfIso, isoOf, isSeasonal, seasonsOf, type DayNumber, type Span } from '../model/hours/index.js';
import type { Store } from '../model/store.js';

/** Further than any season of a year reaches. */
const REACH = 370;

export interface StoreSeason {
  /** First and last date, both counted; undefined where it reaches further than a year. */
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly week: readonly Span[];
}

/** @returns undefined where the hours are the same all year */
export const seasonOn = ({ hours: { hours } }: Store, on: string): StoreSeason | undefined => {
  if (!hours.rules.some(isSeasonal)) return undefined;
  const day = dayOfIso(on) as DayNumber;
  const [first, last] = [isoOf(day - REACH), isoOf(day + REACH)];
  const season = seasonsOf(hours, first, last).find(({ from, to }) => from <= on && on <= to);
  if (!season) return undefined;
  const { from, to, week } = season;
  return { from: from === first ? undefined : from, to: to === last ? undefined : to, week };
};

/** The date whose season a date's papers are of: itself; where a store is closed for a whole season, the first of the next one in which it opens, else the last of the one before. */
export const workingDate = (store: Store, on: string): string => {
  const season = seasonOn(store, on);
  if (!season || season.week.length > 0) return on;
  const day = dayOfIso(on) as DayNumber;
  const others = seasonsOf(store.hours.hours, isoOf(day - REACH), isoOf(day + REACH)).filter(({ week }) => week.length > 0);
  return others.find(({ from }) => from > on)?.from ?? others.at(-1)?.to ?? on;
};

/** Eight weeks: time to print papers and to send a technician. */
const SOON = 56;

/** For which hours a plan's times are, nothing where they hold for longer than a year; and whether they soon end. @param on the date planned for */
export const seasonFindings = (
  store: Store,
  { from, to, week }: StoreSeason,
  on: string,
  id: string,
  at: Place,
): readonly Finding[] => {
  const closed = seasonOn(store, on)?.week.length === 0 ? [note('closed-season', at, { on, from: from ?? on })] : [];
  if (to === undefined) return from === undefined ? closed : [...closed, note('hours-since', at, { from })];
  const last = dayOfIso(to) as DayNumber;
  const first = isoOf(last + 1);
  const next = workingDate(store, first);
  // After a season in which it is closed the same hours may hold again, and the papers with them.
  const other = JSON.stringify(seasonOn(store, next)?.week) !== JSON.stringify(week);
  const soon = closed.length === 0 && other && last - (dayOfIso(on) as DayNumber) < SOON;
  return [
    ...closed,
    from === undefined ? note('hours-until', at, { to }) : note('hours-of-season', at, { from, to }),
    ...(soon ? [note('hours-change-soon', at, { store: id, to, first: next })] : []),
  ];
};
