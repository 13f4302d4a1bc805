/**
 * The open stretches of an ordinary week, on a circle of 10,080 minutes from Monday 00:00, and the open spans of one date.
 */
import { dayOfIso } from './civil.js';
import type { Hours, Span } from './hours.js';
import { isStanding, merge, names, spansBy, standingSpans } from './match.js';

const DAY = 1440;
const WEEK = 7 * DAY;

/**
 * The merged open stretches of a week with no holiday and no dated rule; 24:00 of a day meets 00:00 of the next.
 * @returns in order of `from` (0 to 10079). `to` is over 10080 where Sunday runs into Monday. Open all week: one stretch, 0 to 10080. Never open: none.
 */
export const weekOf = (hours: Hours): readonly Span[] => circle(Array.from({ length: 7 }, (_, day) => standingSpans(hours, day)));

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
  const n = dayOfIso(isoDate);
  if (n === undefined) throw new Error(`not a date: ${isoDate}`);
  const holiday = facts.holidays?.includes(isoDate) ?? false;
  const exception = facts.exceptions?.find((e) => e.date === isoDate);
  return spansBy((exception?.hours ?? hours).rules.filter((rule) => names(rule, n, holiday)));
};

/** Whether no rule of the ordinary week is written: the hours are by season alone. */
export const onlySeasonal = (hours: Hours): boolean => !hours.rules.some(isStanding);

