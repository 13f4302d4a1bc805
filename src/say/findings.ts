/**
 * A finding's words: what is wrong and what to write instead, made from its code and data.
 */
import type { Amount } from '../base/amount.js';
import type { Datum, Finding, InUnit, RoundedAmount } from '../base/finding.js';
import { WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { textOf, type Run } from '../base/run.js';
import type { Phrase } from '../base/value.js';
import type { Speaker } from './speaker.js';
import { asksFor, toRuns, type Words } from './words.js';

export interface FindingWords {
  readonly says: string;
  readonly hint: string | undefined;
}

const isDays = (items: Datum): items is readonly Weekday[] =>
  Array.isArray(items) && items.length > 0 && items.every((item) => (WEEKDAYS as readonly unknown[]).includes(item));

/** Words are joined by commas; sentences stand beside each other, each with its own full stop. */
const list = (items: readonly (string | Phrase)[], speaker: Speaker): string => {
  const said = items.map((item) => (typeof item === 'string' ? item : textOf(speaker.phrase(item.code, item.with))));
  if (items.every((item) => typeof item === 'string')) return said.join(', ');
  return said.join(said.every((one) => /[.!?]$/.test(one)) ? ' ' : '; ');
};

/** Ways of writing, each in quotes where one has a comma or semicolon of its own. */
const forms = (ways: readonly string[]): string =>
  ways.some((way) => /[,;]/.test(way)) ? ways.map((way) => `"${way}"`).join(' or ') : ways.join(', ');

const datum = (value: Datum, speaker: Speaker): string => {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return speaker.figures.number(value);
  if (isDays(value)) return speaker.times.days(value);
  if (Array.isArray(value)) return list(value as readonly (string | Phrase)[], speaker);
  const one = value as Amount | RoundedAmount | InUnit | Moment;
  if (one.q === 'moment') return speaker.times.moment(one);
  if ('unit' in one) return speaker.figures.inUnit(one, one.unit);
  return speaker.figures.amount(one, 'rounded' in one ? one.rounded : undefined);
};

/** A hint comes in versions, each for the data that it names: the first whose names are all there is said. */
const VERSIONS = ['hint_unknown', 'hint_signed', 'hint_signed_else', 'hint', 'hint_else', 'hint_plain'];

export const findingWords = (finding: Finding, words: Words, speaker: Speaker): FindingWords => {
  const fill = (name: string): readonly Run[] => {
    const value = finding.data[name];
    if (name === 'forms' && Array.isArray(value)) return [{ text: forms(value as readonly string[]) }];
    return [{ text: value === undefined ? `{${name}}` : datum(value, speaker) }];
  };
  const sentence = (key: string): string | undefined => words.get(`findings.${finding.code}.${key}`);
  // What holds on all days of the week has a sentence that counts none.
  const always = Object.values(finding.data).some((value) => isDays(value) && value.length === WEEKDAYS.length);
  const says = (always ? sentence('says_every') : undefined) ?? sentence('says');
  const hint = VERSIONS.map(sentence).find(
    (text) => text !== undefined && asksFor(text).every((name) => finding.data[name] !== undefined),
  );
  return {
    says: says === undefined ? `${finding.code} ${JSON.stringify(finding.data)}` : textOf(toRuns(says, fill)),
    hint: hint === undefined ? undefined : textOf(toRuns(hint, fill)),
  };
};
