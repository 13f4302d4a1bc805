/**
 * Whether a text of a word list may stand for its sentence.
 */
const VALUE = /\{[a-z_]+\}/g;

/** What a text says itself: without the values that it names. */
const ownWords = (text: string): readonly string[] => text.replace(VALUE, ' ').match(/\p{L}{2,}/gu) ?? [];

/** Keys of language.yaml that are no sentences. */
const SETTINGS = ['language.locale', 'language.signs'];

/**
 * Whether a text is still the English one, letter for letter. What has no word of two letters of its own is the same in every language
 * (`{store} · {chain}`), and so is what has only words that the language names as `same`.
 */
export const isCopy = (
  code: string,
  text: string,
  english: readonly (string | undefined)[],
  same: ReadonlySet<string>,
): boolean => english.includes(text) && !SETTINGS.includes(code) && ownWords(text).some((word) => !same.has(word.toLowerCase()));
