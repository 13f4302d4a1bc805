import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Run } from '../../src/base/run.js';
import { hyphenatorFor } from '../../src/print/hyphens.js';
import { breakLines, setLines, type Line } from '../../src/print/lines.js';
import { fitting, hyphenated, measureWith, type Bit, type Divide, type Word } from '../../src/print/measure.js';
import { faces } from './faces.js';
import { runs } from './make.js';

const en = await hyphenatorFor('en-US');
const es = await hyphenatorFor('es');
const divideBy =
  (hyphenator: typeof en): Divide =>
  (word) =>
    hyphenated(faces, word, hyphenator);
const wordsOf = (text: string): readonly Word[] => measureWith(faces)(runs(text), 'regular', 'strong');
const textOf = (words: readonly Word[], line: Line): string =>
  words
    .slice(line.from, line.to)
    .map((word, i, all) => {
      const text = word.bits.map((bit) => bit.text).join('');
      const last = i === all.length - 1;
      return word.joint === 'space' ? (last ? text : `${text} `) : word.joint === 'hyphen' && last ? `${text}-` : text;
    })
    .join('');
const set = (text: string, width: number, divide = divideBy(en)): readonly string[] => {
  const { words, lines } = setLines(fitting(faces, wordsOf(text), width, divide), { width, balance: false }, divide);
  return lines.map((line) => textOf(words, line));
};

const word = (width: number): Word => ({ bits: [], width, joint: 'space', jointWidth: 0.3 });

/** Every way to set words in lines that are not too wide. */
const everyWay = (words: readonly Word[], width: number): readonly (readonly number[])[] => {
  if (words.length === 0) return [[]];
  const ways: number[][] = [];
  for (let n = 1; n <= words.length; n++) {
    const line = words.slice(0, n).reduce((sum, w) => sum + w.width, 0) + (n - 1) * 0.3;
    if (line > width && n > 1) break;
    for (const rest of everyWay(words.slice(n), width)) ways.push([line, ...rest]);
  }
  return ways;
};

// Against trying every way: the definition itself, not the algorithm.
it('uses as few lines as can be, and evens them out', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 9 }),
      fc.integer({ min: 9, max: 20 }),
      (widths, width) => {
        const words = widths.map(word);
        const lines = breakLines(words, { width, balance: true });
        const ways = everyWay(words, width);
        const fewest = Math.min(...ways.map((way) => way.length));
        const squares = (way: readonly number[]): number => way.reduce((sum, w) => sum + (width - w) ** 2, 0);
        const least = Math.min(...ways.filter((way) => way.length === fewest).map(squares));
        expect(lines.length).toBe(fewest);
        expect(squares(lines.map((line) => line.width))).toBeCloseTo(least, 6);
      },
    ),
    { seed: 20261124, numRuns: 300 },
  );
});

it('keeps a value with a figure whole, spaces and all', () => {
  const lines = set('Move the food to {walk-in 2 by 3} before you call', 12);
  expect(lines.filter((line) => line.includes('walk-in 2 by 3'))).toHaveLength(1);
});

it('sets a value that only names a place like any words', () => {
  expect(set('{the tall walk-in behind the dish room} now', 9)).toEqual(['the tall walk-in', 'behind the dish', 'room now']);
});

it('divides at a space that was meant to hold before it divides a time', () => {
  expect(set('{Sun\u00A022:45}', 3)).toEqual(['Sun', '22:45']);
});

it('keeps the space at the ends of a value', () => {
  const words = measureWith(faces)(
    [{ text: 'Mon ', value: 'a' }, { text: 'Nov 30', value: 'b' }, { text: ', shut' }],
    'regular',
    'strong',
  );
  expect(textOf(words, { from: 0, to: words.length, width: 0 })).toBe('Mon Nov 30, shut');
});

it('divides a value only where it alone is wider than the line', () => {
  expect(set('{Sandwich line two}', 6)).toEqual(['Sandwich', 'line two']);
});

it('hyphenates only where a line would be under 60 % full', () => {
  // The line before the long word is about half full in the first case and nearly full in the second.
  expect(set('It was an extraordinarily cold night', 10).join('|')).toContain('-|');
  expect(set('It was an extraordinarily cold night', 14).join('|')).not.toContain('-|');
});

// Syllables as the Ortografía of the Real Academia Española divides them (des-con-ge-la-mien-to); parts of under three letters stay joined.
it('divides Spanish words between syllables', () => {
  const parts = es('descongelamiento');
  expect(parts.join('')).toBe('descongelamiento');
  const syllables = [3, 6, 8, 10, 14];
  let at = 0;
  for (const part of parts.slice(0, -1)) expect(syllables).toContain((at += part.length));
  expect(parts.length).toBeGreaterThan(2);
  for (const part of parts) expect(part.length).toBeGreaterThanOrEqual(3);
});

// Words as the Dictionnaire de l'Académie divides them by syllable (ré-fri-gé-ra-tion), from memory; parts of under three letters stay joined.
it('divides French words between syllables', async () => {
  const parts = (await hyphenatorFor('fr'))('réfrigération');
  expect(parts.join('')).toBe('réfrigération');
  let at = 0;
  for (const part of parts.slice(0, -1)) expect([2, 5, 7, 9]).toContain((at += part.length));
  expect(parts.length).toBeGreaterThan(2);
});

it('has no hyphens for a language that it has no patterns for', async () => {
  expect((await hyphenatorFor('ja'))('extraordinarily')).toEqual(['extraordinarily']);
});

it('divides a word that has no place to be divided between its letters, so that nothing is cut off', () => {
  const lines = set('XK4490221987GHTRQWZZ', 4);
  expect(lines.length).toBeGreaterThan(1);
  expect(lines.join('')).toBe('XK4490221987GHTRQWZZ');
});

it('does not hyphenate a value to fill a line', () => {
  expect(set('It was an {extraordinarily} cold night', 10).join('|')).toContain('extraordinarily');
});

it('never divides a number or a time', () => {
  for (const width of [6, 7, 8, 9]) {
    const text = set('Empty at 22:45 and cold by 06:20, 41 °F or under', width).join('|');
    for (const figure of ['22:45', '06:20', '41']) expect(text).toContain(figure);
  }
});

it('are remembered for what a run looks like: a word of another language is no strong value of the same letters', () => {
  const measure = measureWith(faces);
  const bits = (run: Run): readonly Bit[] => measure([run], 'regular', 'strong').flatMap((word) => word.bits);
  // A tag of letters beside the two traits of a run: it must never read as these.
  expect(bits({ text: 'smör', lang: 'sv' })).toMatchObject([{ face: 'regular', value: false, lang: 'sv' }]);
  const [strong] = bits({ text: 'smör', strong: true, value: 'a.path' });
  expect(strong).toMatchObject({ face: 'strong', value: true });
  expect(strong).not.toHaveProperty('lang');
});
