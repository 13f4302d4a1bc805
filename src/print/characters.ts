/**
 * Which characters reach a page: look-alikes are replaced, invisible hints fall away, and what is left must be plain text.
 * Controls and bidirectional overrides are never printed; a character without a glyph is a finding, never a blank.
 */

/** Characters that look the same as one that every face has, or that leave no mark. */
const STAND_INS: readonly (readonly [RegExp, string])[] = [
  [/[\u2010\u2011]/g, '-'], // hyphen, non-breaking hyphen
  [/[\u2002-\u200A\u202F\u205F]/g, '\u00A0'], // spaces of set widths
  [/[\u00AD\u200B\u2060\uFEFF]/g, ''], // soft hyphen, zero-width space, word joiner, byte order mark
];

const ODD = /[^\u0020-\u007E\u00A1-\u00AC\u00AE-\u017F]/;

/** The text as it is printed: composed (NFC), with look-alikes in place. Runs of white space are left to the line breaker. */
export const printable = (text: string): string =>
  ODD.test(text) ? STAND_INS.reduce((t, [pattern, instead]) => t.replace(pattern, instead), text.normalize('NFC')) : text;

/** White space that may end a line. */
export const BREAKS = /[ \t\n\r]+/;

/** C0 and C1 controls but for white space, bidirectional controls, line and paragraph separators, lone surrogates and what is no character. */
const CONTROL = /(?![\t\n\r])\p{Cc}|\p{Bidi_Control}|\p{Zl}|\p{Zp}|\p{Cs}|\p{Noncharacter_Code_Point}/u;

/** The first control character of a text, if it has one. */
export const controlIn = (text: string): string | undefined => CONTROL.exec(text)?.[0];

/** `U+202E`. */
export const codeOf = (character: string): string =>
  `U+${(character.codePointAt(0) as number).toString(16).toUpperCase().padStart(4, '0')}`;

/** The text on one line, for titles. */
export const onOneLine = (text: string): string => printable(text).split(BREAKS).join(' ').trim();
