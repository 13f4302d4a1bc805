/**
 * What the rules say of one day: which rules name it, and the spans that are left when later rules have overridden earlier ones.
 */
import { DAY } from '../../base/moment.js';
import { civil, dayNumber, daysInMonth, weekdayOf, type DayNumber } from './civil.js';
import type { DateRange, DayOfYear, DayPick, Hours, Rule, Span } from './hours.js';

const WHOLE_DAY: readonly Span[] = [{ from: 0, to: DAY }];

/** Spans in order, with those that touch or overlap made one. */
export const merge = (spans: readonly Span[]): readonly Span[] => {
  const merged: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const before = merged.at(-1);
    if (before && span.from <= before.to) merged[merged.length - 1] = { from: before.from, to: Math.max(before.to, span.to) };
    else merged.push(span);
  }
  return merged;
};

export const sameSpans = (a: readonly Span[], b: readonly Span[]): boolean =>
  a.length === b.length && a.every((span, i) => span.from === b[i]?.from && span.to === b[i].to);

const subtract = (spans: readonly Span[], off: readonly Span[]): readonly Span[] =>
  off.reduce<readonly Span[]>(
    (left, cut) =>
      left
        .flatMap((s) => [
          ...(s.from < cut.from ? [{ from: s.from, to: Math.min(s.to, cut.from) }] : []),
          ...(s.to > cut.to ? [{ from: Math.max(s.from, cut.to), to: s.to }] : []),
        ])
        .filter((s) => s.from < s.to),
    spans,
  );

/** The spans of one day by the rules that name it, in their order. */
export const spansBy = (rules: readonly Rule[]): readonly Span[] => {
  let spans: readonly Span[] = [];
  for (const rule of rules) {
    const said = rule.spans ?? WHOLE_DAY;
    if (!rule.open) spans = rule.spans === null ? [] : subtract(spans, said);
    else spans = rule.adds ? merge([...spans, ...said]) : merge(said);
  }
  return spans;
};

const clamp = (d: DayOfYear, year: number): DayNumber => dayNumber(year, d.month, Math.min(d.day, daysInMonth(year, d.month)));

/** A yearless range over New Year (Dec 24 to Jan 2) is the end of one year and the start of the next. */
const inRange = (n: DayNumber, { first, last }: DateRange): boolean => {
  if (last === null) return n >= clamp(first, first.year ?? 0);
  if (first.year !== null && last.year !== null) return n >= clamp(first, first.year) && n <= clamp(last, last.year);
  const { year } = civil(n);
  const [from, to] = [clamp(first, year), clamp(last, year)];
  // February 29 alone names no day of a common year.
  if (first.month === last.month && first.day === last.day && first.day > daysInMonth(year, first.month)) return false;
  return from <= to ? n >= from && n <= to : n >= from || n <= to;
};

const picked = (n: DayNumber, { day, nth }: DayPick): boolean => {
  if (weekdayOf(n) !== day) return false;
  if (nth === null) return true;
  const date = civil(n);
  const fromStart = Math.ceil(date.day / 7);
  const fromEnd = -Math.ceil((daysInMonth(date.year, date.month) - date.day + 1) / 7);
  return nth.includes(fromStart) || nth.includes(fromEnd);
};

/** Whether a rule names a date. @param holiday true on a date that the caller lists as a public holiday */
export const names = (rule: Rule, n: DayNumber, holiday: boolean): boolean => {
  if (rule.dates !== null && !rule.dates.some((range) => inRange(n, range))) return false;
  if (rule.days === null && !rule.holidays) return true;
  return (rule.holidays && holiday) || (rule.days?.some((pick) => picked(n, pick)) ?? false);
};

/** A rule for weekdays of any week: no holiday, no "first Monday". */
const isWeekly = (rule: Rule): boolean => !rule.holidays && (rule.days?.every((d) => d.nth === null) ?? true);

/** A rule of the ordinary week, all year round. */
export const isStanding = (rule: Rule): boolean => rule.dates === null && isWeekly(rule);

/** A range at least so long is a season; a shorter one is a matter of dates. */
const SEASON_DAYS = 28;

const daysOf = ({ first, last }: DateRange): number => {
  if (last === null) return Infinity;
  const from = clamp(first, first.year ?? 2001);
  const to = clamp(last, last.year ?? 2001);
  return (to >= from ? to : to + 365) - from + 1;
};

/** A rule for the weeks of a season. */
export const isSeasonal = (rule: Rule): boolean =>
  rule.dates !== null && isWeekly(rule) && rule.dates.every((range) => daysOf(range) >= SEASON_DAYS);

/** Whether a date lies in a rule's season, on whatever weekday. */
export const inSeason = (rule: Rule, n: DayNumber): boolean => rule.dates?.some((range) => inRange(n, range)) ?? true;

/** The spans of a weekday (0 Monday) by the standing rules, and those of the season in which `on` lies. */
export const standingSpans = (hours: Hours, day: number, on?: DayNumber): readonly Span[] =>
  spansBy(
    hours.rules.filter(
      (rule) =>
        (isStanding(rule) || (on !== undefined && isSeasonal(rule) && inSeason(rule, on))) &&
        (rule.days?.some((d) => d.day === day) ?? true),
    ),
  );
