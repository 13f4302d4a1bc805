/**
 * A language against the first one: sentences that it lacks, names of values that it mistook. Told file by file, as its translator works.
 */
import { error, warning, type Finding } from '../base/finding.js';
import { nearest } from '../base/spelling.js';
import { place, type Place } from '../base/place.js';
import { asksFor, type Words } from './words.js';

/** Files for the terminal and its findings, which stay in the first language. */
const TERMINAL = ['findings', 'why', 'report', 'diff', 'new', 'pass-on'];

const fileOf = (code: string): string => code.slice(0, code.indexOf('.'));
const keyOf = (code: string): string => code.slice(code.indexOf('.') + 1);

/** Codes that every language needs. A unit has forms of its own in each: one, other. */
const needed = (first: Words): readonly string[] =>
  first.codes.filter((code) => !TERMINAL.includes(fileOf(code)) && !/\.(one|other)$/.test(code));

/**
 * Whether a language has every sentence that comes with nightrail, so that a store may ask for it. One of the chain's own that it lacks holds back the
 * papers that would print it, and no other.
 */
export const isWhole = (words: Words, first: Words, shipped: ReadonlySet<string> = new Set(first.codes)): boolean =>
  needed(first).every((code) => !shipped.has(code) || words.get(code) !== undefined);

/** A warning for each file with gaps among the codes. */
const gaps = (words: Words, all: readonly string[], finding: 'words-missing' | 'words-missing-own'): readonly Finding[] =>
  [...new Set(all.map(fileOf))].flatMap((file): readonly Finding[] => {
    const codes = all.filter((code) => fileOf(code) === file);
    const lacking = codes.filter((code) => words.get(code) === undefined);
    if (lacking.length === 0) return [];
    const data = { lang: words.lang, file, count: lacking.length, of: codes.length };
    return [warning(finding, place(`words/${words.lang}/${file}.yaml`), { ...data, keys: lacking.map(keyOf) })];
  });

/**
 * What a language lacks of the chain's own sentences, told where a store asks for it: a chain of English and Spanish stores owes
 * nobody its own paragraph in French.
 * @param shipped codes that come with nightrail
 */
export const ownGaps = (words: Words, first: Words, shipped: ReadonlySet<string>): readonly Finding[] =>
  gaps(
    words,
    needed(first).filter((code) => !shipped.has(code)),
    'words-missing-own',
  );

const misread = (words: Words, first: Words, used: ReadonlySet<string>): readonly Finding[] =>
  words.codes.flatMap((code): readonly Finding[] => {
    const at = words.at(code) as Place;
    const model = first.get(code);
    const said = words.get(code) as string;
    if (model === undefined) {
      if (/\.(one|other)$/.test(code) || used.has(code)) return [];
      const near = nearest(code, first.codes);
      return [warning('words-unknown', at, { wrote: keyOf(code), ...(near ? { nearest: keyOf(near) } : {}) })];
    }
    const [has, wants] = [asksFor(said), asksFor(model)];
    return [
      ...has
        .filter((name) => !wants.includes(name))
        .map((name) =>
          error('words-unknown-value', at, {
            wrote: `{${name}}`,
            ...(wants.length > 0 ? { names: wants.map((n) => `{${n}}`) } : {}),
          }),
        ),
      ...wants
        .filter((name) => !has.includes(name))
        .map((name) => warning('words-lost-value', at, { name: `{${name}}`, says: model })),
    ];
  });

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
  return [...all.values()]
    .filter((words) => words !== first)
    .flatMap((words) => [...gaps(words, codes, 'words-missing'), ...misread(words, first, used)]);
};
