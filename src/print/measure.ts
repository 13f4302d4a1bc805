/**
 * Runs to words with their widths in em, free of any type size, and words to the smaller pieces that fit a narrow column.
 * A run with a value that holds a figure is glued: it divides only where it alone is wider than the line. The name of a place or a person is set like any words.
 */
import type { Run } from '../base/run.js';
import { BREAKS, printable } from './characters.js';
import type { FaceName, Faces } from './faces.js';
import type { Hyphenator } from './hyphens.js';
import { remembering } from './remembering.js';

/** A part of a word in one style. */
export interface Bit {
  readonly text: string;
  readonly face: FaceName;
  readonly lang?: string;
  /** True where the text says a value of the plan. */
  readonly value: boolean;
  /** Em. */
  readonly width: number;
}

export interface Word {
  readonly bits: readonly Bit[];
  /** Em. */
  readonly width: number;
  /** What stands between this word and the next on the same line; a line may end at any joint. */
  readonly joint: 'space' | 'none' | 'hyphen';
  /** Em that the joint takes: a space within a line, a hyphen at a line's end. */
  readonly jointWidth: number;
}

const bitOf = (faces: Faces, text: string, { face, value, lang }: Omit<Bit, 'text' | 'width'>): Bit => {
  const width = faces[face].width(text);
  return lang === undefined ? { text, face, value, width } : { text, face, value, width, lang };
};

const wordOf = (faces: Faces, bits: readonly Bit[], joint: Word['joint']): Word => {
  const last = faces[(bits.at(-1) as Bit).face];
  return {
    bits,
    width: bits.reduce((sum, bit) => sum + bit.width, 0),
    joint,
    jointWidth: joint === 'space' ? last.width(' ') : joint === 'hyphen' ? last.width('-') : 0,
  };
};

/** A line may end after a hyphen, dash or slash between letters: `walk-in/reach-in`. */
const INNER_BREAK = /(?<=\p{L}[-–/])(?=\p{L})/u;

/** Words of a text, plain and strong runs in faces of their own. Neighbouring runs without white space between them make one word. */
const wordsOf = (faces: Faces, runs: readonly Run[], plain: FaceName, strong: FaceName): readonly Word[] => {
  const words: Word[] = [];
  let bits: Bit[] = [];
  const end = (joint: Word['joint']): void => {
    if (bits.length > 0) words.push(wordOf(faces, bits, joint));
    bits = [];
  };
  for (const run of runs) {
    const text = printable(run.text);
    const value = run.value !== undefined;
    const style = { face: run.strong ? strong : plain, value, ...(run.lang === undefined ? {} : { lang: run.lang }) };
    if (value && /\d/.test(text)) {
      const whole = text
        .split(BREAKS)
        .filter((part) => part !== '')
        .join(' ');
      if (/^[ \t\n\r]/.test(text)) end('space');
      if (whole !== '') bits.push(bitOf(faces, whole, style));
      if (/[ \t\n\r]$/.test(text)) end('space');
      continue;
    }
    text.split(BREAKS).forEach((piece, i) => {
      if (i > 0) end('space');
      piece.split(INNER_BREAK).forEach((part, k) => {
        if (k > 0) end('none');
        if (part !== '') bits.push(bitOf(faces, part, style));
      });
    });
  }
  end('space');
  return words;
};

const LETTERS = /^(\P{L}*)(\p{L}+)(\P{L}*)$/u;

/** The word divided at its hyphenation points, or the word alone. What is not one run of letters stays whole: no figure is ever divided. */
export const hyphenated = (faces: Faces, word: Word, hyphenator: Hyphenator): readonly Word[] => {
  const only = word.bits[0];
  const match = word.bits.length === 1 && only ? LETTERS.exec(only.text) : null;
  if (!only || !match) return [word];
  const [, before, letters, after] = match as unknown as [string, string, string, string];
  const parts = hyphenator(letters);
  return parts.map((part, i) => {
    const text = (i === 0 ? before : '') + part + (i === parts.length - 1 ? after : '');
    return wordOf(faces, [bitOf(faces, text, only)], i === parts.length - 1 ? word.joint : 'hyphen');
  });
};

const characters = (faces: Faces, word: Word): readonly Word[] => {
  const all = word.bits.flatMap((bit) => [...bit.text].map((c) => bitOf(faces, c, bit)));
  return all.map((bit, i) => wordOf(faces, [bit], i === all.length - 1 ? word.joint : 'none'));
};

const GLUE = '\u00A0';

/** A glued word divided at its spaces: first those of a value, then those that were meant to hold. */
const unglued = (faces: Faces, word: Word, space: string): readonly Word[] => {
  const words: Word[] = [];
  let bits: Bit[] = [];
  for (const bit of word.bits) {
    bit.text.split(space).forEach((text, i) => {
      if (i > 0 && bits.length > 0) {
        words.push(wordOf(faces, bits, 'space'));
        bits = [];
      }
      if (text !== '') bits.push(bitOf(faces, text, bit));
    });
  }
  return bits.length > 0 ? [...words, wordOf(faces, bits, word.joint)] : words;
};

/** A time, a temperature, a short code: split between two characters it could be misread, so it never is. */
const isFigure = (text: string): boolean => /\d/.test(text) && text.length <= LONGEST_FIGURE;
const LONGEST_FIGURE = 12;

/** Gives the parts of a word at its hyphenation points. */
export type Divide = (word: Word) => readonly Word[];

/**
 * Words that each fit a line: one that does not is divided at a value's spaces, at hyphenation points, and at last between characters.
 * What may not be divided stays too wide.
 * @param width em.
 */
export const fitting = (faces: Faces, words: readonly Word[], width: number, divide: Divide): readonly Word[] =>
  words.flatMap((word) => {
    if (word.width + (word.joint === 'hyphen' ? word.jointWidth : 0) <= width) return [word];
    const text = word.bits.map((bit) => bit.text).join('');
    const space = [' ', GLUE].find((glue) => text.includes(glue));
    const parts = space === undefined ? divide(word) : unglued(faces, word, space);
    if (space !== undefined || parts.length > 1) return fitting(faces, parts, width, divide);
    return [...text].length === 1 || isFigure(text) ? [word] : characters(faces, word);
  });

/** Measures a text's words; remembers them, so that neither a rung of the ladder nor another store's page measures the same sentence again. */
export type Measure = (runs: readonly Run[], plain: FaceName, strong: FaceName) => readonly Word[];

/** So many texts are kept: more than a paper of a store says. */
const MOST = 500;

/** All that the measure of a run depends on. */
const looksOf = ({ text, strong, value, lang = '' }: Run): string =>
  `${strong ? 1 : 0}${value === undefined ? 0 : 1}${lang}\0${text}`;

export const measureWith = (faces: Faces): Measure => {
  const remember = remembering<readonly Word[]>(MOST);
  return (runs, plain, strong) =>
    remember(`${plain} ${strong} ${runs.map(looksOf).join('\0')}`, () => wordsOf(faces, runs, plain, strong));
};
