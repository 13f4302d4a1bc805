/**
 * Texts of people that a language of the store lacks, file by file: what a build tells of its pages, told before one is made.
 */
import { warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { textIn } from '../base/value.js';
import { leaves, type Tree } from '../plan/known.js';
import type { StorePlan } from '../plan/index.js';

/** What stands on no page, and the zones of a circuit, which are named where they are told. */
const PASSED = /^units\.[^.]+\.(name|zones\.[^.]+\.probe\.how|(loading|never)\.\d+\.note|nameplate\.circuits\.\d+\.serves\.\d+)$/;

export const untranslated = (plan: StorePlan, languages: readonly string[]): readonly Finding[] =>
  languages.flatMap((lang) => {
    const byFile = new Map<string, Place[]>();
    for (const { value, basis, path } of new Set(leaves(plan as unknown as Tree).map(([, known]) => known))) {
      if (value.q !== 'told' || basis.how !== 'written' || PASSED.test(path) || textIn(value, lang) !== undefined) continue;
      byFile.set(basis.at.doc, [...(byFile.get(basis.at.doc) ?? []), basis.at]);
    }
    return [...byFile.values()].flatMap(([first, ...others]) =>
      first === undefined
        ? []
        : [
            warning(
              'text-untranslated',
              first,
              { lang, what: [first, ...others].map(({ cell, path }) => cell ?? path.join('.')) },
              others,
            ),
          ],
    );
  });
