/**
 * The open stretches of an ordinary week, on a circle of 10,080 minutes from Monday 00:00, and the open spans of one date.
 */
import { DAY } from '../../base/moment.js';
import { dayOfIso, isoOf, weekdayOf, type DayNumber } from './civil.js';
import type { Hours, Span } from './hours.js';
import { inSeason, isSeasonal, merge, names, sameSpans, spansBy, standingSpans } from './match.js';

const WEEK = 7 * DAY;

const dayNumberOf = (isoDate: string): DayNumber => {
  const n = dayOfIso(isoDate);
  if (n === undefined) throw new Error(`not a date: ${isoDate}`);
  return n;
};

/**
 * The merged open stretches of a week with no holiday and no dated rule; 24:00 of a day meets 00:00 of the next.
 * @param on a date of the week (2027-07-04), which tells the season; without it only rules that hold all year count
 * @returns in order of `from` (0 to 10079). `to` is over 10080 where Sunday runs into Monday. Open all week: one stretch, 0 to 10080. Never open: none.
 * @throws when `on` is no date: check it when it is read
 */
export const weekOf = (hours: Hours, on?: string): readonly Span[] => {
  const n = on === undefined ? undefined : dayNumberOf(on);
  return circle(Array.from({ length: 7 }, (_, day) => standingSpans(hours, day, n)));
};

/** Lays seven days on the circle; what runs past Sunday is joined with the Monday that it meets. */
const circle = (days: readonly (readonly Span[])[]): readonly Span[] => {
  const line = [...merge(days.flatMap((spans, day) => spans.map((s) => ({ from: s.from + day * DAY, to: s.to + day * DAY }))))];
  for (;;) {
    const [first, last] = [line[0], line.at(-1)];
    if (!first || !last) return [];
    if (last.to - last.from >= WEEK) return [{ from: 0, to: WEEK }];
    if (last.to < first.from + WEEK) return line;
    line[line.length - 1] = { from: last.from, to: Math.max(last.to, first.to + WEEK) };
    line.shift();
  }
};

/** Dates that differ from the ordinary week, as the store lists them. */
export interface DateFacts {
  /** Dates (2027-12-25) on which rules for `PH` hold. */
  readonly holidays?: readonly string[];
  /** Hours written for one date, which override all rules. */
  readonly exceptions?: readonly { readonly date: string; readonly hours: Hours }[];
}

/**
 * The open spans of the business day that begins on a date; `to` may be over 1440.
 * @throws when `isoDate` is no date: check it when it is read
 */
export const openOn = (hours: Hours, isoDate: string, facts: DateFacts = {}): readonly Span[] => {
  const n = dayNumberOf(isoDate);
  const holiday = facts.holidays?.includes(isoDate) ?? false;
  const exception = facts.exceptions?.find((e) => e.date === isoDate);
  return spansBy((exception?.hours ?? hours).rules.filter((rule) => names(rule, n, holiday)));
};

export interface Season {
  /** First and last date, both counted. */
  readonly from: string;
  readonly to: string;
  readonly week: readonly Span[];
}

/** The stretches of dates with one ordinary week each; one where the hours are the same all year. @throws when an end is no date */
export const seasonsOf = (hours: Hours, first: string, last: string): readonly Season[] => {
  const seasonal = hours.rules.filter(isSeasonal);
  const key = (n: DayNumber): string => seasonal.map((rule) => (inSeason(rule, n) ? '1' : '0')).join('');
  const seasons: { from: string; to: string }[] = [];
  for (let n = dayNumberOf(first); n <= dayNumberOf(last); n++) {
    const before = seasons.at(-1);
    if (before && key(n) === key(n - 1)) before.to = isoOf(n);
    else seasons.push({ from: isoOf(n), to: isoOf(n) });
  }
  return seasons.map((season) => ({ ...season, week: weekOf(hours, season.from) }));
};

/** The dates on which the hours are not those of the season's ordinary week, and what they are then. @throws when an end is no date */
export const otherHours = (
  hours: Hours,
  first: string,
  last: string,
  facts: DateFacts = {},
): readonly { readonly date: string; readonly spans: readonly Span[] }[] => {
  const found: { date: string; spans: readonly Span[] }[] = [];
  for (let n = dayNumberOf(first); n <= dayNumberOf(last); n++) {
    const date = isoOf(n);
    const spans = openOn(hours, date, facts);
    if (!sameSpans(spans, standingSpans(hours, weekdayOf(n), n))) found.push({ date, spans });
  }
  return found;
};
