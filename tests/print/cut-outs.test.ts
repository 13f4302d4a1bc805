/** Things to cut out: a dashed box each, those of a row equally high, and no box divided between sheets. */
import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/compose/block.js';
import { printHtml } from '../../src/print/html.js';
import { everyBlock, page, paragraph } from './make.js';
import { set, textBoxes } from './set.js';

const words = (n: number): Block => paragraph('A label with words of its own. '.repeat(n));
const cutOuts = (across: number, ...items: Block[]): Block => ({
  block: 'cut-outs',
  across,
  items: items.map((item) => [item]),
  line: 5,
});

const boxes = (block: Block) =>
  set(page([block])).sheets.map((sheet) =>
    sheet.paints.flatMap((paint) => {
      const box = paint.kind === 'path' && paint.dash ? /^M 0 0 h ([\d.]+) v ([\d.]+)/.exec(paint.d) : null;
      return box ? [{ x: paint.x, y: paint.y, width: Number(box[1]), height: Number(box[2]) }] : [];
    }),
  );

describe('cut-outs', () => {
  it('stand side by side, equally wide, and those of a row equally high', () => {
    const [[a, b, c] = []] = boxes(cutOuts(2, words(1), words(9), words(1)));
    expect(a?.width).toBeCloseTo(b?.width ?? 0);
    expect(a?.height).toBe(b?.height);
    expect(c?.height).toBeLessThan(a?.height ?? 0);
    expect(c?.y).toBeGreaterThan((a?.y ?? 0) + (a?.height ?? 0));
  });

  it('never divide: one that has no room goes on the next sheet, with its words', () => {
    const block = cutOuts(1, ...Array.from({ length: 9 }, () => words(16)));
    const sheets = boxes(block);
    expect(sheets.length).toBeGreaterThan(1);
    expect(sheets.flat()).toHaveLength(9);
    set(page([block])).sheets.forEach((sheet, i) => {
      for (const text of textBoxes(sheet).filter((t) => t.text.includes('label')))
        expect(sheets[i]?.some((box) => box.y < text.top && text.bottom < box.y + box.height)).toBe(true);
    });
  });

  it('are sections of their own in HTML', () => {
    const { html } = printHtml(page([...everyBlock.body, cutOuts(3, words(1), words(1))]));
    expect(html.match(/<section class="cut-out">/g)).toHaveLength(2);
    expect(html).toContain('--across: 3');
  });
});
