/**
 * Sentences of the word lists that commands speak from: `new`, `pass-on`, `report`.
 */
import { textOf } from '../../base/run.js';
import { toRuns, type Words } from '../../say/words.js';

/** A sentence of a word list of the terminal with its values. */
export const say = (words: Words, code: string, values: Readonly<Record<string, string>> = {}, list = 'new'): string =>
  textOf(toRuns(words.get(`${list}.${code}`) ?? code, (name) => [{ text: values[name] ?? '' }]));
