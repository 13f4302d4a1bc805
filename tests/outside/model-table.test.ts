/**
 * The model's table: every figure lies in the band that its row is held to (the outside's own, or a stated one with its reason beside it), and
 * docs/model.md prints what the command gives today.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { cells, HEAD, outsideBands } from '../../scripts/model-row.js';
import { MODEL_ROWS } from '../../scripts/model-rows.js';

/** Another machine's last bits may turn a rounding: one of the last printed digit. */
const LAST_DIGIT = 1.001;

const lines = readFileSync('docs/model.md', 'utf8').split('\n');
const begins = lines.indexOf(`| ${HEAD.join(' | ')} |`);
const ends = lines.findIndex((line, i) => i > begins && !line.startsWith('|'));
const inDocument = lines.slice(begins, ends).map((line) => line.slice(2, -2).split(' | '));

test('the document has the command’s rows, no more and no fewer', () => {
  expect(inDocument.slice(2).map((row) => row[0])).toEqual(MODEL_ROWS.map((row) => row.what));
});

describe.each(MODEL_ROWS.map((row, i) => ({ row, i, what: row.what })))('$what', ({ row, i }) => {
  it('lies in its band', () => {
    const figures = row.compute();
    expect(figures).toHaveLength(row.bands.length);
    expect(outsideBands(row, figures)).toEqual([]);
  });
  it('stands so in the document', () => {
    const [now, document] = [cells(row), inDocument[i + 2] ?? []];
    const numbers = (text: string | undefined) => (text ?? '').split(' / ').map(Number);
    expect(document.map((cell, k) => (k === 2 ? '' : cell))).toEqual(now.map((cell, k) => (k === 2 ? '' : cell)));
    expect(numbers(document[2])).toHaveLength(row.bands.length);
    numbers(document[2]).forEach((figure, k) =>
      expect(Math.abs(figure - (numbers(now[2])[k] ?? NaN))).toBeLessThanOrEqual(LAST_DIGIT * 10 ** -row.digits),
    );
  });
});

test('a figure past an end of its band, a NaN, and a figure without a place are each told', () => {
  for (const row of MODEL_ROWS)
    row.bands.forEach((band, k) => {
      const with_ = (figure: number) =>
        outsideBands(
          row,
          row.bands.map((b, j) => (j === k ? figure : (b?.[0] ?? 0))),
        );
      expect(with_(NaN)).toEqual([k]);
      if (!band) return;
      expect(with_(band[0] - 1e-6)).toEqual([k]);
      if (band[1] < Infinity) expect(with_(band[1] + 1e-6)).toEqual([k]);
    });
  expect(outsideBands({ bands: [[0, 1]] }, [0.5, 0.5])).toEqual([1]);
});

test('only a row of which nothing outside tells is held to nothing', () => {
  for (const row of MODEL_ROWS)
    expect(
      row.bands.some((band) => band !== undefined),
      row.what,
    ).toBe(row.outside !== 'none');
});
