/**
 * Cells with several lines to write on: beside each other while each holds a number by hand, then one under the other.
 */
import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/compose/block.js';
import { printHtml } from '../../src/print/html.js';
import { MM } from '../../src/print/theme.js';
import { cell, page } from './make.js';
import { set } from './set.js';

/** A narrow column, as that of a day. */
const table = (lines: number): Block => ({
  block: 'table',
  line: 1,
  columns: Array.from({ length: 8 }, () => ({ weight: 1, align: 'middle' as const })),
  head: [],
  rows: [[cell('Reading', { head: true }), cell('', { hand: 'write', lines })]],
});

interface Line {
  readonly x: number;
  readonly y: number;
  readonly long: number;
}

const linesOf = (lines: number): readonly Line[] =>
  set(page([table(lines)])).sheets.flatMap((sheet) =>
    sheet.paints.flatMap((paint) => {
      // Lines for a hand are the bars of this height.
      const bar = paint.kind === 'path' ? /^M 0 0 h ([\d.]+) v 0\.8\b/.exec(paint.d) : null;
      return bar && paint.kind === 'path' ? [{ x: paint.x, y: paint.y, long: Number(bar[1]) }] : [];
    }),
  );

describe('a cell with lines to write on', () => {
  it.each([1, 2, 3, 4, 7])('has %i of them, each long enough for a number, none over another', (n) => {
    const lines = linesOf(n);
    expect(lines).toHaveLength(n);
    for (const line of lines) expect(line.long).toBeGreaterThanOrEqual(6 * MM);
    for (const [i, a] of lines.entries())
      for (const b of lines.slice(i + 1)) {
        if (Math.abs(a.y - b.y) < 1) expect(b.x).toBeGreaterThan(a.x + a.long);
        else expect(Math.abs(a.y - b.y)).toBeGreaterThan(6 * MM);
      }
  });

  it('shows as many on a screen', () => {
    expect(printHtml(page([table(3)])).html.match(/<span class="write">/g)).toHaveLength(3);
  });
});
