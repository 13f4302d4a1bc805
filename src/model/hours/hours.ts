/**
 * Opening hours as a value: rules in the order in which they were written; a later one overrides an earlier one on the days that both name.
 * A span belongs to the business day on which it opens, and runs past midnight without being cut: 06:00 to 01:00 is 360 to 1500.
 */

/** Minutes from 00:00 of the business day; `to` is over 1440 when the store closes after midnight, and at most 2880. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A day of a year, or of one given year. */
export interface DayOfYear {
  readonly year: number | null;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
}

/** Both ends count. Without years it comes back every year, and may run over New Year. */
export interface DateRange {
  readonly first: DayOfYear;
  /** Null: from then on, of a given year. */
  readonly last: DayOfYear | null;
}

/** A weekday (0 Monday to 6 Sunday); `nth` picks it in its month: 1 the first, -1 the last. */
export interface DayPick {
  readonly day: number;
  readonly nth: readonly number[] | null;
}

export interface Rule {
  /** Null: on all dates. */
  readonly dates: readonly DateRange[] | null;
  /** Null: on all weekdays (unless the rule is for holidays alone). */
  readonly days: readonly DayPick[] | null;
  /** Also, or only, on the public holidays that the caller lists. */
  readonly holidays: boolean;
  /** Null: the whole day. */
  readonly spans: readonly Span[] | null;
  readonly open: boolean;
  /** Adds to what earlier rules say of the day (`, `) and does not replace it (`; `). */
  readonly adds: boolean;
  /** What a person wrote in quotes: the name of a holiday. */
  readonly comment: string | null;
}

export interface Hours {
  readonly rules: readonly Rule[];
}

/** Why a text is not opening hours; the words stand in words/ under `findings.hours-<fault>`. */
export type HoursFault =
  | 'empty' // nothing was written
  | 'unknown-word' // {word}
  | 'unexpected' // {found, wanted}: right words in a wrong order
  | 'bad-time' // {time}: no such time of day
  | 'part-of-a-day' // {part, time}: how a spreadsheet keeps a time
  | 'bad-date' // {date}: no such day
  | 'am-or-pm' // {time}: 9-5 can be two things
  | 'closes-before-opens' // {from, to}: would be open past the next noon
  | 'same-time' // {time}: opens and closes at the same minute
  | 'too-long' // {from, to}: over 24 hours
  | 'overlapping' // {first, second}: two spans of one day overlap
  | 'added-to' // {before, added}: hours behind a comma overlap what the day has
  | 'year-missing' // {date}: from a date on, of which year?
  | 'contradicting' // {days, first, second}: two rules say different things of the same days
  | 'closed-and-times' // {said}: which of these days are closed, and which have the times?
  | 'in-brackets' // {said}
  | 'outside-subset'; // {what}: sound grammar that nightrail doesn't read

/** Days that were read as one opening and may be meant as another (short-mornings). */
export interface Doubt {
  readonly span: Span;
  /** 0 is Monday. */
  readonly days: readonly number[];
}

export type ParsedHours =
  | {
      readonly ok: true;
      readonly hours: Hours;
      /** The canonical rewriting, in the open grammar; a tool that cuts a night at midnight reads it alike. */
      readonly readAs: string;
      /** Written as people write, not in the open grammar: worth showing how it was read. */
      readonly plain: boolean;
      readonly doubt?: Doubt;
    }
  | {
      readonly ok: false;
      readonly fault: HoursFault;
      /** Where in the text: UTF-16 units. */
      readonly offset: number;
      readonly length: number;
      readonly data: Readonly<Record<string, string>>;
      /** The whole text as it would be read: with something else in place of the marked part, and of any other fault after it. */
      readonly suggestion?: string;
      /** The whole text as it may be meant as well: the suggestion has an opening that may be the short one of two. */
      readonly other?: string;
    };

/** Why a text is no hours, as a finding tells it: with what to write in its place, where that is known. */
export const faultData = ({ data, suggestion, other }: Extract<ParsedHours, { readonly ok: false }>) => ({
  ...data,
  ...(suggestion === undefined ? {} : { suggestion }),
  ...(other === undefined ? {} : { other }),
});
