/**
 * The kinds of value that a leaf of the plan can hold. Each knows what it is (`q`), so that `say` can word it for any reader.
 */
import type { Amount, Span } from './amount.js';
import type { Known } from './basis.js';
import type { Moment, Weekday } from './moment.js';

/** A time of each business day; a day that is missing is closed. */
export interface ByDay {
  readonly q: 'by-day';
  readonly at: Readonly<Partial<Record<Weekday, Moment>>>;
}

export interface SpanValue {
  readonly q: 'span';
  readonly span: Span;
}

/** What a person wrote, in one language or several; never markup. `lang` is the language of a text written once. */
export interface Told {
  readonly q: 'told';
  readonly text: string | Readonly<Record<string, string>>;
  readonly lang: string;
}

/** A person's text in a language, where they wrote it in that one. */
export const textIn = ({ text, lang: of }: Told, lang: string): string | undefined =>
  typeof text !== 'string' ? text[lang] : of === lang ? text : undefined;

/** A name, number plate or phone number: printed letter by letter in every language. */
export interface Verbatim {
  readonly q: 'verbatim';
  readonly text: string;
}

/** A word of the trade by its code, worded under `terms.<code>`. */
export interface Term {
  readonly q: 'term';
  readonly code: string;
}

/** A sentence by its code (`steps.probe`), with the plan's values that it names. */
export interface Phrase {
  readonly q: 'phrase';
  readonly code: string;
  readonly with: Readonly<Record<string, Known<Value>>>;
}

export interface Count {
  readonly q: 'count';
  readonly n: number;
}

/** Yes or no: for a template's `#if`, never printed. */
export interface Flag {
  readonly q: 'flag';
  readonly is: boolean;
}

/** A calendar date, `2026-12-04`. */
export interface CalendarDate {
  readonly q: 'date';
  readonly iso: string;
}

/** Days of the week, in order. */
export interface Days {
  readonly q: 'days';
  readonly days: readonly Weekday[];
  /** The time that goes with them lies past midnight: their nights are meant. */
  readonly nights?: true;
}

/** Opening hours of an ordinary week, for the reader's own weekdays: each day's spans in order, or round the clock all week. */
export interface OpenHours {
  readonly q: 'open-hours';
  readonly at: Readonly<Partial<Record<Weekday, readonly { readonly from: Moment; readonly to: Moment }[]>>> | 'always';
}

export type Value =
  Amount | SpanValue | Moment | ByDay | Told | Verbatim | Term | Phrase | Count | Flag | CalendarDate | Days | OpenHours;

export const span = (value: Span): SpanValue => ({ q: 'span', span: value });
export const verbatim = (text: string): Verbatim => ({ q: 'verbatim', text });
export const term = (code: string): Term => ({ q: 'term', code });
export const count = (n: number): Count => ({ q: 'count', n });
export const flag = (is: boolean): Flag => ({ q: 'flag', is });
export const phrase = (code: string, values: Phrase['with'] = {}): Phrase => ({ q: 'phrase', code, with: values });
export const date = (iso: string): CalendarDate => ({ q: 'date', iso });
