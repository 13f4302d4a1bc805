/**
 * A language against the first one: sentences that it lacks, and names that no sentence has. Told file by file, as its translator works.
 */
import { warning, type Finding } from '../base/finding.js';
import { nearest, nearestFew } from '../base/spelling.js';
import { place, type Place } from '../base/place.js';
import { fileOf, isOfTerminal, keyOf } from './sentence.js';
import type { Words } from './words.js';

/** Codes that every language needs. */
const needed = (first: Words): readonly string[] => first.codes.filter((code) => !isOfTerminal(code));

/** A word has one form, or two of its own for one and for others, whichever English has. */
const FORMS = ['one', 'other'];
const FORM = /\.(one|other)$/;
const isThere = (words: Words, code: string): boolean =>
  words.get(code) !== undefined ||
  (FORM.test(code)
    ? words.get(code.replace(FORM, '')) !== undefined
    : FORMS.every((form) => words.get(`${code}.${form}`) !== undefined));

/** A language beside the first one: the same words, and what they lack of it. */
export const besideFirst = (words: Words, first: Words): Words => ({
  ...words,
  lacks: new Map(
    needed(first)
      .filter((code) => !isThere(words, code))
      .map((code) => [code, first.get(code) as string]),
  ),
});

/** Whether pages can be asked for in a language: what says how its figures and dates are written is there. */
export const isSpoken = (words: Words): boolean => ['name', 'locale', 'signs'].every((key) => words.get(`language.${key}`));

/**
 * Warnings for each file with gaps among the codes, one of what isn't there and one of what is still English; for files that nobody has begun, one for all.
 * Pages that say what lacks are not made.
 * @param others languages that may have what this one lacks, the first one first
 */
const gaps = (words: Words, all: readonly string[], others: readonly Words[]): readonly Finding[] => {
  const byFile = new Map<string, string[]>();
  for (const code of all) byFile.set(fileOf(code), [...(byFile.get(fileOf(code)) ?? []), code]);
  const isUntouched = (code: string): boolean => !isThere(words, code) && !words.copied.has(code) && !words.refused.has(code);
  const untouched = [...byFile].filter(([file, codes]) => !words.refused.has(file) && codes.every(isUntouched));
  const files = untouched.length > 1 ? untouched.map(([file]) => file) : [];
  const count = untouched.reduce((sum, [, codes]) => sum + codes.length, 0);
  return [
    ...(files.length > 0 ? [warning('words-not-begun', place(`words/${words.lang}`), { lang: words.lang, files, count })] : []),
    ...[...byFile]
      .filter(([file]) => !files.includes(file) && !words.refused.has(file))
      .flatMap(([file, codes]) => gapsOf(words, file, codes, others)),
  ];
};

const gapsOf = (words: Words, file: string, codes: readonly string[], others: readonly Words[]): readonly Finding[] => {
  const lacking = codes.filter((code) => !isThere(words, code) && !words.refused.has(code));
  const told = (finding: string, some: readonly string[]): readonly Finding[] => {
    if (some.length === 0) return [];
    const has = others.find((other) => some.some((code) => other.get(code) !== undefined));
    const from = has ? { from: `words/${has.lang}/${file}.yaml` } : {};
    const data = { lang: words.lang, file, count: some.length, of: codes.length, keys: some.map(keyOf), ...from };
    return [warning(finding, place(`words/${words.lang}/${file}.yaml`, ...keyOf(some[0] as string).split('.')), data)];
  };
  return [
    ...told(
      'words-missing',
      lacking.filter((code) => !words.copied.has(code)),
    ),
    ...told(
      'words-copied',
      lacking.filter((code) => words.copied.has(code)),
    ),
  ];
};

/**
 * What a language lacks of the chain's own sentences, told where a store asks for it: a chain of English and Spanish stores owes
 * nobody its own paragraph in French.
 * @param shipped codes that come with nightrail
 * @param ours codes of the chain's own that a template asks for, of any language: the first may lack one too
 * @param all languages, of which one has what another lacks
 */
export const ownGaps = (
  words: Words,
  first: Words,
  shipped: ReadonlySet<string>,
  ours: ReadonlySet<string> = new Set(),
  all: readonly Words[] = [],
): readonly Finding[] => {
  const codes = new Set([...needed(first).filter((code) => !shipped.has(code)), ...ours]);
  return gaps(words, [...codes], [first, ...all]);
};

/** Names that no sentence has, which nothing prints, and once for each file one that no list has. */
const unknown = (words: Words, first: Words, used: ReadonlySet<string>, shipped: ReadonlySet<string>): readonly Finding[] => {
  const known = [...shipped, ...used];
  const codes = new Set(known.flatMap((code) => [code, code.replace(FORM, ''), ...FORMS.map((form) => `${code}.${form}`)]));
  const files = [...new Set(known.map(fileOf))].filter((file) => first.codes.some((code) => fileOf(code) === file));
  const filed = new Set(known.map(fileOf));
  const strange = words.codes.filter((code) => !codes.has(code));
  const isFiled = (code: string): boolean => filed.has(fileOf(code));
  const docs = new Map(strange.filter((code) => !isFiled(code)).map((code) => [words.at(code)?.doc ?? '', code]));
  const shown = files.filter((file) => !isOfTerminal(`${file}.`)).sort();
  return [
    ...[...docs].map(([doc, code]) => {
      const wrote = fileOf(code);
      const near = nearest(wrote, files);
      const told = near ? { nearest: near } : { call: `{{t "${code}"}}`, names: nearestFew(wrote, shown, 3) };
      return warning('words-unknown-file', place(doc), { wrote, ...told });
    }),
    ...strange.filter(isFiled).map((code) => {
      const here = known.filter((one) => fileOf(one) === fileOf(code));
      // A file's name, the same in all, would make each key look near.
      const near = nearest(keyOf(code), here.map(keyOf));
      const data = { wrote: keyOf(code), ...(near ? { nearest: near } : {}) };
      return warning('words-unknown', words.at(code) as Place, data);
    }),
  ];
};

/**
 * All that is wrong with the other languages, seen from the first.
 * @param used codes that templates ask for, which the first may lack
 * @param shipped codes that come with nightrail: gaps among others are told by `ownGaps`
 */
export const compareLanguages = (
  all: ReadonlyMap<string, Words>,
  first: Words,
  used: ReadonlySet<string> = new Set(),
  shipped: ReadonlySet<string> = new Set(first.codes),
): readonly Finding[] => {
  const codes = needed(first).filter((code) => shipped.has(code));
  return [...all.values()].flatMap((words) => [
    ...(words === first ? [] : gaps(words, codes, [first])),
    ...unknown(words, first, used, shipped),
  ]);
};
