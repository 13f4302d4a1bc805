/**
 * Texts of people that a language of the store lacks, file by file and key by key: told by `check` of the whole plan, and by a build of what its pages show.
 */
import { warning, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { textIn } from '../base/value.js';
import { leaves, type Tree } from '../plan/known.js';
import type { StorePlan } from '../plan/index.js';

/** What stands on no page, and the zones of a circuit, which are named where they are told. */
const PASSED = /^units\.[^.]+\.(name|zones\.[^.]+\.probe\.how|(loading|never)\.\d+\.note|nameplate\.circuits\.\d+\.serves\.\d+)$/;

/** Texts that one of the languages lacks, by plan path, each with the place where it was written. */
export type Texts = Readonly<Record<string, Place>>;

export const textsLacking = (plan: StorePlan, languages: readonly string[]): Texts =>
  Object.fromEntries(
    [...new Set(leaves(plan as unknown as Tree).map(([, known]) => known))].flatMap(({ value, basis, path }) =>
      value.q === 'told' && basis.how === 'written' && languages.some((lang) => textIn(value, lang) === undefined)
        ? [[path, basis.at]]
        : [],
    ),
  );

/** One finding a file. */
export const untranslatedIn = (lang: string, places: Iterable<Place>): readonly Finding[] => {
  const byFile = new Map<string, Place[]>();
  for (const at of places) byFile.set(at.doc, [...(byFile.get(at.doc) ?? []), at]);
  return [...byFile.values()].flatMap(([first, ...others]) => {
    if (first === undefined) return [];
    const what = [first, ...others].map(({ cell, path }) => cell ?? path.join('.'));
    return [warning('text-untranslated', first, { lang, what }, others)];
  });
};

export const untranslated = (plan: StorePlan, languages: readonly string[]): readonly Finding[] =>
  languages.flatMap((lang) => {
    const lacking = Object.entries(textsLacking(plan, [lang])).filter(([path]) => !PASSED.test(path));
    return untranslatedIn(
      lang,
      lacking.map(([, at]) => at),
    );
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
