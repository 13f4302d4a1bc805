/**
 * A question and its answers belong together, in every language: who asks something else has another answer, and people are marked by it.
 */
import { error, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { Words } from './words.js';

export interface Sentence {
  readonly text: string;
  readonly at: Place;
}

const PART = /^lesson\.questions\.([^.]+)\.(ask|answer(?:-.+)?)$/;
const codeOf = (name: string, part: string): string => `lesson.questions.${name}.${part}`;

/** Names of the questions that some codes are parts of. */
const namesOf = (codes: Iterable<string>): ReadonlySet<string> =>
  new Set([...codes].flatMap((code) => PART.exec(code)?.[1] ?? []));

/**
 * Where a chain writes a part of a question that ships and leaves the others, the parts no longer belong together: a new question with the old
 * answer doesn't stand, nor does half of one whose other half was refused. What ships stands in its place. An answer that the chain has written
 * beside its question belongs to it, also in the words of the old one.
 * @param all sentences by code, those that the chain didn't write the very ones of `shipped`; what ships is put back in it
 */
export const keepTogether = (
  all: Map<string, Sentence>,
  shipped: ReadonlyMap<string, Sentence>,
  refused: ReadonlySet<string>,
): readonly Finding[] =>
  [...namesOf(shipped.keys())].flatMap((name): readonly Finding[] => {
    const parts = [...shipped.keys()].filter((code) => PART.exec(code)?.[1] === name);
    const isWritten = (code: string): boolean => all.get(code) !== shipped.get(code);
    const isNew = (code: string): boolean => all.get(code)?.text !== shipped.get(code)?.text;
    const putBack = (): void => parts.forEach((code) => all.set(code, shipped.get(code) as Sentence));
    if (parts.some((code) => refused.has(code))) {
      putBack();
      return [];
    }
    const ask = codeOf(name, 'ask');
    const answers = parts.filter((code) => code !== ask);
    const old = answers.filter((code) => !isWritten(code));
    const keyOf = (code: string): string => PART.exec(code)?.[2] ?? '';
    const { at, text } = all.get(ask) as Sentence;
    if (isNew(ask) && old.length > 0) {
      putBack();
      const ships = old.map((code) => `${keyOf(code)}: "${shipped.get(code)?.text ?? ''}"`).join('; ');
      return [error('question-without-answer', at, { name, keys: old.map(keyOf), ships })];
    }
    const fresh = answers.filter(isNew);
    if (isWritten(ask) || fresh.length === 0) return [];
    return [
      warning('answer-without-question', all.get(fresh[0] as string)?.at as Place, { name, keys: fresh.map(keyOf), says: text }),
    ];
  });

/** Questions that a chain has replaced in one of some languages and not in another: these would be asked, and marked, differently. */
export const askedDifferently = (all: readonly Words[]): readonly Finding[] => {
  const names = new Set(all.flatMap((words) => [...namesOf(words.replaced)]));
  return [...names].flatMap((name) => {
    const asks = (words: Words): boolean => words.replaced.has(codeOf(name, 'ask'));
    const [first] = all.filter(asks);
    const at = first?.at(codeOf(name, 'ask'));
    if (!first || !at) return [];
    return all
      .filter((words) => !asks(words))
      .map(({ lang, get }) =>
        warning('question-in-one-language', at, { name, lang, other: first.lang, says: get(codeOf(name, 'ask')) ?? '' }),
      );
  });
};
