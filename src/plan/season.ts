/**
 * The season of a date, where a store's hours change by season, or from a date on.
 */
import { note, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { dayOfIso, isoOf, isSeasonal, seasonsOf, type DayNumber, type Span } from '../model/hours/index.js';
import type { Store } from '../model/store.js';

/** Further than any season of a year reaches. */
const YEAR = 370;

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
  const [first, last] = [isoOf(day - YEAR), isoOf(day + YEAR)];
  const season = seasonsOf(hours, first, last).find(({ from, to }) => from <= on && on <= to);
  if (!season) return undefined;
  const { from, to, week } = season;
  return { from: from === first ? undefined : from, to: to === last ? undefined : to, week };
};

/** Eight weeks: time to print papers and to send a technician. */
const SOON = 56;

/** For which hours a plan's times are, nothing where they hold for longer than a year; and whether they soon end. @param on the date planned for */
export const seasonFindings = ({ from, to }: StoreSeason, on: string, store: string, at: Place): readonly Finding[] => {
  if (to === undefined) return from === undefined ? [] : [note('hours-since', at, { from })];
  const last = dayOfIso(to) as DayNumber;
  const soon = last - (dayOfIso(on) as DayNumber) < SOON;
  return [
    from === undefined ? note('hours-until', at, { to }) : note('hours-of-season', at, { from, to }),
    ...(soon ? [note('hours-change-soon', at, { store, to, first: isoOf(last + 1) })] : []),
  ];
};
