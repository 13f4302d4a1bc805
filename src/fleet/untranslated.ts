/**
 * Texts of people that a language of the store lacks, file by file and key by key: told by `check` of the whole plan, and by a build of what its pages show.
 */
import { warning, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { textIn, type Told } from '../base/value.js';
import { leaves, type Tree } from '../plan/known.js';
import type { StorePlan } from '../plan/index.js';

/** What stands on no page, and the zones of a circuit, which are named where they are told. */
const PASSED = /^units\.[^.]+\.(name|zones\.[^.]+\.probe\.how|(loading|never)\.\d+\.note|nameplate\.circuits\.\d+\.serves\.\d+)$/;

/** Where texts were written, by plan path. */
export type Texts = Readonly<Record<string, Place>>;

/** Texts of people for which something holds. */
const textsOf = (trees: readonly Tree[], which: (text: Told, path: string) => boolean): Texts =>
  Object.fromEntries(
    trees
      .flatMap(leaves)
      .flatMap(([, { value, basis, path }]) =>
        value.q === 'told' && basis.how === 'written' && which(value, path) ? [[path, basis.at]] : [],
      ),
  );

/** Where the texts that pages show in another language were written, in a plan or its weeks. Most stores have none, and their plans are not looked through. */
export const textsShown = (trees: readonly Tree[], paths: readonly string[]): Texts =>
  paths.length === 0 ? {} : textsOf(trees, (_, path) => paths.includes(path));

/** What a person calls a place: its column in a sheet, a question by its number, else its key. */
const nameOf = ({ cell, path }: Place): string => {
  const [list, i, ...rest] = path;
  return cell ?? (list === 'questions' && typeof i === 'number' ? `question ${i + 1}: ${rest.join('.')}` : path.join('.'));
};

/** One finding a file; a text that stands in several units is one. */
const untranslatedIn = (lang: string, places: Iterable<Place>): readonly Finding[] => {
  const byFile = new Map<string, Place[]>();
  const once = new Map([...places].map((at) => [JSON.stringify(at), at]));
  for (const at of once.values()) byFile.set(at.doc, [...(byFile.get(at.doc) ?? []), at]);
  return [...byFile.values()].flatMap(([first, ...others]) => {
    if (first === undefined) return [];
    const what = [first, ...others].map(nameOf);
    const cells = [first, ...others].flatMap(({ cell }) => cell ?? []);
    const columns = [...new Set(cells.map((cell) => `${cell.replace(/\.[a-z]{2}$/, '')}.${lang}`))];
    return [warning('text-untranslated', first, { lang, what, ...(columns.length > 0 ? { columns } : {}) }, others)];
  });
};

export const untranslated = (plan: StorePlan, languages: readonly string[]): readonly Finding[] =>
  languages.flatMap((lang) => {
    const lacking = textsOf([plan as unknown as Tree], (text, path) => textIn(text, lang) === undefined && !PASSED.test(path));
    return untranslatedIn(lang, Object.values(lacking));
  });

/** Of texts that pages show in another language than theirs. @param paths by language, in the plan; what nobody wrote down is told by its path */
export const untranslatedOn = (paths: ReadonlyMap<string, ReadonlySet<string>>, texts: Texts, doc: string): readonly Finding[] =>
  [...paths]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([lang, some]) =>
      untranslatedIn(
        lang,
        [...some].sort().map((path) => texts[path] ?? place(doc, ...path.split('.'))),
      ),
    );
