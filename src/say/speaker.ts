/**
 * Says any value of the plan in one reader's language and units. What a template sees of a value is what is said here.
 */
import { roundingOf, type Known } from '../base/basis.js';
import { textOf, type Run } from '../base/run.js';
import { daysLater, type Weekday } from '../base/moment.js';
import { textIn, type Told, type Value } from '../base/value.js';
import type { Measure } from '../base/amount.js';
import { figures, type Figures } from './figures.js';
import { times, type ClockShows, type Times } from './times.js';
import { toRuns, type Words } from './words.js';

export interface Reader {
  readonly lang: string;
  readonly measure: Measure;
  readonly clockShows: ClockShows;
  readonly weekStarts: Weekday;
}

/** A value in the reader's words. */
export interface Said {
  readonly runs: readonly Run[];
  readonly path: string;
}

export interface Speaker {
  readonly reader: Reader;
  /** Its language is the chain's own: none of its sentences ships. */
  readonly isOwn: boolean;
  readonly figures: Figures;
  readonly times: Times;
  readonly say: (known: Known<Value>) => Said;
  /** A sentence of the word list; `values` fills its `{names}`. @throws for a code that the list does not hold */
  readonly phrase: (code: string, values?: Readonly<Record<string, Known<Value> | string | readonly Run[]>>) => readonly Run[];
  /** The words for a code, plain. */
  readonly word: (code: string) => string;
  /** A text of the program's own with its signs as the language sets them: French puts a space that holds before : ; ? ! */
  readonly signs: (text: string) => string;
  /** A colon and the space after it. */
  readonly colon: string;
  /** What a person wrote, in the reader's language if it is there; else in its own, marked as such. */
  readonly told: (value: Told) => Run;
  /** Texts that had to be printed in another language than the reader's, by plan path. */
  readonly untranslated: ReadonlySet<string>;
}

/** A sentence that was asked for, and that the word list of the language lacks. */
export class NoWords extends Error {
  /** The code, and the file to write it in. */
  readonly data: { readonly code: string; readonly file: string };

  constructor(code: string, lang: string) {
    super(`no words for ${code} in ${lang}`);
    this.data = { code, file: `words/${lang}/${code.split('.')[0]}.yaml` };
  }
}

/**
 * The language of words without digits; every figure that a page shows comes from the plan.
 * @param lacking codes that were asked for and that the language lacks are added to it, and said in English for the time being: who gives it
 *   throws the page away. Without it such a code throws.
 */
export const speaker = (words: Words, reader: Reader, lacking?: Set<string>): Speaker => {
  const word = (code: string): string => {
    const found = words.get(code);
    if (found !== undefined) return found;
    const english = lacking && words.lacks.get(code);
    if (english === undefined) throw new NoWords(code, words.lang);
    lacking?.add(code);
    return english;
  };
  const spaced = word('language.signs') === 'spaced';
  const signs = (text: string): string => (spaced ? text.replace(/ ?([:;?!])(?=\s|$)/g, '\u00a0$1') : text);
  const locale = word('language.locale');
  const unitWord = (unit: string, n: number): string => {
    const [code, form] = [`units.${unit}`, `units.${unit}.${n === 1 ? 'one' : 'other'}`];
    return words.get(form) ?? words.get(code) ?? word(words.lacks.has(form) ? form : code);
  };
  const said = figures(reader.measure, locale, unitWord);
  const nightOf = (days: string): string => textOf(toRuns(word('times.night-of'), () => [{ text: days }]));
  const when = times(locale, reader.clockShows, reader.weekStarts, nightOf);
  const untranslated = new Set<string>();

  const told = (value: Told, path = ''): Run => {
    const mark = path ? { value: path } : {};
    const own = textIn(value, reader.lang);
    if (own !== undefined) return { text: own, ...mark };
    untranslated.add(path);
    const [lang, text] =
      typeof value.text === 'string' ? [value.lang, value.text] : (Object.entries(value.text)[0] ?? [value.lang, '']);
    return { text, lang, ...mark };
  };

  const say = (known: Known<Value>): Said => {
    const { value, basis, path } = known;
    const rounded = roundingOf(basis);
    const one = (text: string): Said => ({ runs: [{ text, value: path }], path });
    switch (value.q) {
      case 'moment': {
        if (value.of && daysLater(value) !== 0) return one(when.momentOf(value.of, value));
        // am and pm are a run of their own, so that the largest type can leave them to the line beside it.
        const [digits, half] = when.moment(value).split(/(?=\u00a0)/) as [string, string | undefined];
        return { runs: [{ text: digits, value: path }, ...(half ? [{ text: half, value: path }] : [])], path };
      }
      case 'by-day':
        return one(
          when
            .byDay(value)
            .map((group) => group.text)
            .join(' · '),
        );
      case 'days':
        return one(value.nights ? nightOf(when.days(value.days)) : when.days(value.days));
      case 'open-hours':
        return one(signs(value.at === 'always' ? word('times.always') : when.hours(value.at)));
      case 'date':
        return one(when.date(value.iso));
      case 'span':
        return one(said.span(value.span.low, value.span.high));
      case 'told':
        return { runs: [told(value, path)], path };
      case 'verbatim':
        return one(value.text);
      case 'count':
        return one(said.number(value.n));
      case 'term':
        return { runs: [{ text: word(`terms.${value.code}`) }], path };
      case 'phrase':
        return { runs: phrase(value.code, value.with), path };
      case 'flag':
        return one(word(value.is ? 'terms.yes' : 'terms.no'));
      default:
        return one(said.amount(value, rounded));
    }
  };

  const phrase: Speaker['phrase'] = (code, values = {}) =>
    toRuns(word(code), (name) => {
      const value = values[name];
      if (value === undefined) return undefined;
      if (typeof value === 'string') return [{ text: value }];
      return 'basis' in value ? say(value).runs : value;
    });

  return {
    reader,
    isOwn: words.isOwn,
    figures: said,
    times: when,
    say,
    phrase,
    word,
    signs,
    colon: signs(': '),
    told,
    untranslated,
  };
};
