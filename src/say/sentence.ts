/**
 * Whether a text of a word list may stand for its sentence. One with an error doesn't: the text that ships stands in its place, or none.
 */
import { error, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { nearest } from '../base/spelling.js';
import { typedIn } from '../base/typed.js';
import { asksFor } from './words.js';

/** Files for the terminal and its findings, which stay in the first language. */
const TERMINAL = ['findings', 'why', 'report', 'diff', 'new', 'pass-on'];
/** Files for what is no paper: the page of all stores, the print shop's sheets, a calendar. */
const BESIDE = ['index', 'press', 'calendar'];
export const fileOf = (code: string): string => code.slice(0, code.indexOf('.'));
export const keyOf = (code: string): string => code.slice(code.indexOf('.') + 1);
export const isOfTerminal = (code: string): boolean => TERMINAL.includes(fileOf(code));
export const isOfPaper = (code: string): boolean => !isOfTerminal(code) && !BESIDE.includes(fileOf(code));

/** Files that people act on word by word. */
const ACTED_ON = ['cautions', 'steps', 'headline', 'call'];
/** Files of which no sentence may say next to nothing. */
const SAID_IN_FULL = [...ACTED_ON, 'never', 'rules', 'trouble'];
/** Values that say of what a page speaks: whoever reads it knows that without them too. Of any other, a reader misses a figure, a place or a name. */
const TELLS_OF_WHAT = [
  ...['nickname', 'unit', 'position', 'model', 'serial', 'zone', 'store', 'chain', 'region', 'sheet', 'n', 'of', 'letter'],
  ...[
    'law',
    'rule',
    'section',
    'authority',
    'task',
    'fact',
    'papers',
    'part',
    'kitchen',
    'food',
    'mean',
    'usual',
    'hottest',
    'altitude',
  ],
];

/** A sentence of fewer letters than this share of the English ones says something else. No language is so short: Chinese needs a third or so (a guess, no source). */
const LEAST = 1 / 5;

const VALUE = /\{[a-z_]+\}/g;
const without = (text: string): string => text.replace(VALUE, ' ');
/** Words of two letters or more that are a text's own, in small letters. */
export const ownWords = (text: string): readonly string[] =>
  without(text)
    .toLowerCase()
    .match(/\p{L}{2,}/gu) ?? [];
const letters = (text: string): number => without(text).match(/\p{L}/gu)?.length ?? 0;
const figures = (text: string): readonly string[] => without(text).match(/\p{Nd}+/gu) ?? [];
const braced = (name: string): string => `{${name}}`;

const SIGNS = ['close', 'spaced'];

/** A locale as BCP 47 has it, or undefined. */
const localeOf = (wrote: string): Intl.Locale | undefined => {
  try {
    return new Intl.Locale(wrote);
  } catch {
    return undefined;
  }
};

/** @param lang the language's folder, whose own locale it must be */
const localeFaults = (wrote: string, lang: string, at: Place): readonly Finding[] => {
  const locale = localeOf(wrote);
  // What stands behind -u- would change figures and calendars where nobody looks for it.
  if (locale?.language === lang && locale.toString() === locale.baseName) return [];
  if (locale?.language === lang) return [error('words-bad-locale', at, { wrote, nearest: locale.baseName })];
  if (locale) return [error('words-other-locale', at, { wrote, lang })];
  const meant = localeOf(wrote.replaceAll('_', '-'));
  return [error('words-bad-locale', at, { wrote, ...(meant?.language === lang ? { nearest: meant.toString() } : { lang }) })];
};

/** Keys of language.yaml that are no sentences. */
const SETTINGS: Readonly<Record<string, typeof localeFaults>> = {
  'language.locale': localeFaults,
  'language.signs': (wrote, _, at) => (SIGNS.includes(wrote) ? [] : [error('unknown-value', at, { wrote, names: SIGNS })]),
};

/**
 * Whether a text is still the English one, letter for letter. What has no word of two letters of its own is the same in every language
 * (`{store} · {chain}`), and so is what has only words that the language names as `same`.
 */
export const isCopy = (
  code: string,
  text: string,
  english: readonly (string | undefined)[],
  same: ReadonlySet<string>,
): boolean => english.includes(text) && !Object.hasOwn(SETTINGS, code) && ownWords(text).some((word) => !same.has(word));

/** Braces that name no value: `{ phone }`, `{{phone}}`, `{phone`. */
const braces = (text: string, wants: readonly string[], at: Place): readonly Finding[] =>
  (text.match(/\{+[^{}]*\}*|\}+/g) ?? [])
    .filter((wrote) => !/^\{[a-z_]+\}$/.test(wrote))
    .map((wrote) => {
      const near = nearest(/[a-z_]+/.exec(wrote.toLowerCase())?.[0] ?? '', wants);
      return error('words-brace', at, {
        wrote: wrote.trim(),
        ...(near ? { nearest: braced(near) } : wants.length > 0 ? { names: wants.map(braced) } : {}),
      });
    });

/** Values that a sentence is not given, and values that it leaves out. */
const values = (code: string, text: string, english: string, at: Place): readonly Finding[] => {
  const [has, wants] = [asksFor(text), asksFor(english)];
  const lost = (name: string) => (ACTED_ON.includes(fileOf(code)) || !TELLS_OF_WHAT.includes(name) ? error : warning);
  return [
    ...has
      .filter((name) => !wants.includes(name))
      .map((name) =>
        error('words-unknown-value', at, { wrote: braced(name), ...(wants.length > 0 ? { names: wants.map(braced) } : {}) }),
      ),
    ...wants
      .filter((name) => !has.includes(name))
      .map((name) => lost(name)('words-lost-value', at, { name: braced(name), says: english })),
  ];
};

/** Figures are values of the plan. One of a chain's own sentence is an error where it reads as a time or a temperature: people act on these. */
const typed = (code: string, text: string, ships: string | undefined, at: Place): readonly Finding[] => {
  const shipped = figures(ships ?? '');
  const own = isOfTerminal(code) ? [] : figures(text).filter((figure) => !shipped.includes(figure));
  if (own.length === 0) return [];
  if (ships !== undefined) return [error('words-figure', at, { figures: own, says: ships })];
  const kinds = typedIn(text).map(({ kind }) => kind);
  const [name, path] = kinds.includes('temperature')
    ? ['limit', 'unit.limit']
    : kinds.includes('time')
      ? ['time', 'unit.rest.empty_by']
      : [];
  if (!name || !path) return [warning('words-figure', at, { figures: own })];
  return [error('words-figure', at, { figures: own, value: braced(name), call: `{{t "${code}" ${name}=${path}}}` })];
};

/**
 * @param english what the sentence says in English; undefined where that is what is written here, and nothing ships
 * @param ships what it says as it ships; undefined where it is the chain's own
 */
export const faultsOf = (
  lang: string,
  code: string,
  text: string,
  english: string | undefined,
  ships: string | undefined,
  at: Place,
): readonly Finding[] => {
  const setting = SETTINGS[code];
  if (setting) return setting(text, lang, at);
  if (text === '') return [error('words-empty', at, english === undefined ? {} : { says: english })];
  const unread = braces(text, asksFor(english ?? ''), at);
  if (unread.length > 0) return unread;
  const thin = SAID_IN_FULL.includes(fileOf(code)) && english !== undefined && letters(text) < letters(english) * LEAST;
  return [
    ...(thin ? [error('words-too-few', at, { says: english })] : []),
    ...(english === undefined ? [] : values(code, text, english, at)),
    ...typed(code, text, ships, at),
  ];
};
