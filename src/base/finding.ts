/**
 * One shape for everything that is wrong or worth knowing: a typo, a broken rule of the trade, a schedule that cannot work, a page that does not fit.
 * A finding holds a code and data; the words are made per language in `say`, so that a test can pin the fact and not the prose.
 */
import type { Amount, UnitName } from './amount.js';
import { roundingOf, type Known, type Rounding } from './basis.js';
import type { Moment } from './moment.js';
import type { Place } from './place.js';
import type { Phrase } from './value.js';

export type Severity = 'error' | 'warning' | 'note';

/** A figure that is rounded when it is said, as it is on a page. */
export interface RoundedAmount extends Amount {
  readonly rounded: Rounding;
}

/** A figure said in this unit, whatever the reader's: the one in which the file has its like. */
export interface InUnit extends Amount {
  readonly unit: UnitName;
}

/** A leaf's figure as a page says it. */
export const asOnPage = ({ value, basis }: Known<Amount>): Amount | RoundedAmount => {
  const rounded = roundingOf(basis);
  return rounded ? { ...value, rounded } : value;
};

/** What a finding can tell: a figure, a time of day, a word; a list of words is joined by the one who prints it. */
export type Datum = Amount | RoundedAmount | InUnit | Moment | string | number | readonly string[] | readonly Phrase[];

export interface Finding {
  /** Kebab-case, unique; its words stand under `findings.<code>` in words/. */
  readonly code: string;
  readonly severity: Severity;
  readonly at: Place;
  readonly also?: readonly Place[];
  readonly data: Readonly<Record<string, Datum>>;
}

const make =
  (severity: Severity) =>
  (code: string, at: Place, data: Finding['data'] = {}, also?: readonly Place[]): Finding => ({
    code,
    severity,
    at,
    data,
    ...(also ? { also } : {}),
  });

export const error = make('error');
export const warning = make('warning');
export const note = make('note');

export const anyError = (findings: readonly Finding[]): boolean => findings.some((f) => f.severity === 'error');
