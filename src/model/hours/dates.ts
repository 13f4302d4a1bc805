/**
 * Dates of a rule of opening hours: months, days, years, ranges of them, and from a date on.
 */
import { daysInMonth } from './civil.js';
import { Fault } from './fault.js';
import type { DateRange, DayOfYear } from './hours.js';
import type { Token } from './scan.js';
import { writeDay } from './write.js';

/** A number this large is a year, not a day or an hour. */
const YEAR = 1900;

export const startsDate = (token: Token | undefined): boolean =>
  token?.kind === 'month' || token?.kind === 'iso' || (token?.kind === 'number' && token.value >= YEAR);

/** Where the reading of a text stands. */
export interface Cursor {
  readonly peek: (ahead?: number) => Token;
  readonly next: () => Token;
  readonly took: (kind: Token['kind']) => boolean;
  readonly last: () => Token;
  readonly textOf: (from: Token, upTo?: Token) => string;
  readonly refuse: (token: Token, wanted: string) => never;
  /** It was written as people write, not in the open grammar. */
  readonly saidPlainly: () => void;
}

/** @returns what reads the dates that stand next: null where none do */
export const datesOf = ({ peek, next, took, last, textOf, refuse, saidPlainly }: Cursor) => {
  const dayOfYear = (first: Token, year: number | null, month: number, day: number, upTo: Token): DayOfYear => {
    if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year ?? 2000, month)) {
      throw new Fault('bad-date', first, upTo, { date: textOf(first, upTo) });
    }
    return { year, month, day };
  };

  /** One end of a range of dates; `day` is null where a whole month or year is named. */
  interface End {
    readonly at: Token;
    readonly year: number | null;
    readonly month: number | null;
    readonly day: number | null;
  }

  const isDayNumber = (token: Token): boolean => token.kind === 'number' && token.value < YEAR;

  const dateEnd = (before?: End): End => {
    const at = next();
    if (at.kind === 'iso') return { at, year: at.year, month: at.month, day: at.day };
    if (at.kind === 'number' && at.value < YEAR && before?.day != null)
      return { at, year: before.year, month: before.month, day: at.value };
    const said = at.kind === 'number' && at.value >= YEAR ? at.value : undefined;
    const year = said ?? before?.year ?? null;
    const month = at.kind === 'month' ? at : peek().kind === 'month' ? next() : undefined;
    if (month?.kind !== 'month') return said === undefined ? refuse(at, 'a date') : { at, year, month: null, day: null };
    const day = isDayNumber(peek()) ? next() : undefined;
    return {
      at,
      year: (said === undefined ? yearBehind() : undefined) ?? year,
      month: month.month,
      day: day?.kind === 'number' ? day.value : null,
    };
  };

  /** As people write it: Dec 1, 2026. Before a month it is the year of another date. */
  const yearBehind = (): number | undefined => {
    const ahead = peek().kind === 'comma' ? 1 : 0;
    const year = peek(ahead);
    if (year.kind !== 'number' || year.value < YEAR || peek(ahead + 1).kind === 'month') return undefined;
    while (next() !== year);
    saidPlainly();
    return year.value;
  };

  const fromThenOn = (end: End): { range: DateRange; end: End } => {
    const upTo = last();
    const day = { year: end.year, month: end.month ?? 1, day: end.day ?? 1 };
    if (day.year === null) throw new Fault('year-missing', end.at, upTo, { date: writeDay(day) });
    return { range: { first: dayOfYear(end.at, day.year, day.month, day.day, upTo), last: null }, end };
  };

  const dateRange = (before?: End): { range: DateRange; end: End } => {
    const begins = took('from');
    if (begins) saidPlainly();
    const first = dateEnd(before);
    const ranges = peek().kind === 'dash' && (startsDate(peek(1)) || (first.day !== null && peek(1).kind === 'number'));
    if ((took('plus') || begins) && !ranges) return fromThenOn(first);
    const end = ranges && Boolean(next()) ? dateEnd(first) : first;
    const opening = dayOfYear(first.at, first.year, first.month ?? 1, first.day ?? 1, last());
    const closing = dayOfYear(
      first.at,
      end.year,
      end.month ?? 12,
      end.day ?? (end.month === null ? 31 : daysInMonth(end.year ?? 2000, end.month)),
      last(),
    );
    const ordinal = (d: DayOfYear): number => ((d.year ?? 0) * 12 + d.month) * 31 + d.day;
    if ((opening.year === null) !== (closing.year === null) || (opening.year !== null && ordinal(closing) < ordinal(opening))) {
      throw new Fault('bad-date', first.at, last(), { date: textOf(first.at, last()) });
    }
    return { range: { first: opening, last: closing }, end };
  };

  const dates = (): DateRange[] | null => {
    if (!startsDate(peek()) && peek().kind !== 'from') return null;
    let found = dateRange();
    const ranges = [found.range];
    while (
      peek().kind === 'comma' &&
      (startsDate(peek(1)) || (found.end.day !== null && peek(1).kind === 'number' && peek(2).kind !== 'dash'))
    ) {
      next();
      found = dateRange(startsDate(peek()) ? undefined : found.end);
      ranges.push(found.range);
    }
    return ranges;
  };
  return dates;
};
