import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Block, Page } from '../../src/compose/block.js';
import { sheetOf } from '../../src/print/theme.js';
import { callout, cell, columns, drawing, face, heading, list, page, paragraph, steps } from './make.js';
import { overlap, set, textBoxes, type Box } from './set.js';

/** Names as people give them: long words, long names of many words, codes without a space. */
const name = fc.oneof(
  fc.string({ unit: fc.constantFrom(...'abcdefghijklmnoprstuvzñéßWM'), minLength: 1, maxLength: 45 }),
  fc
    .array(
      fc.oneof(
        fc.constantFrom('Refrigerated', 'preparation', 'table', 'of', 'Kühlschrank', 'descongelamiento', 'número', '2'),
        fc.string({ unit: fc.constantFrom(...'abcdeñM'), minLength: 20, maxLength: 40 }),
      ),
      { minLength: 1, maxLength: 8 },
    )
    .map((words) => words.join(' ')),
  fc.string({ unit: fc.constantFrom(...'XKQW0123456789-/'), minLength: 10, maxLength: 40 }),
);

const blocks = (a: string, b: string): readonly Block[] => [
  face('unit', paragraph(`{${a}} by {22:45}`, 'signal'), paragraph(`{${b}} goes off.`, 'message')),
  heading(1, `{${a}}`),
  heading(2, b),
  columns(
    [heading(2, a), steps([`{${b.slice(0, 8)}}`, `Open {${a}}.`], ['', b])],
    [list('never', `Chip {${b}}.`), list('tick', a), callout('warning', a, b)],
  ),
  { block: 'figure', drawing, share: 0.6, line: 1 },
  {
    block: 'table',
    columns: [2, 1, 1, 1].map((weight) => ({ weight, align: 'middle' as const })),
    head: [[cell(a), cell(b), cell('Mon'), cell('Tue')]],
    rows: [
      [cell(b, { head: true }), cell('', { hand: 'tick' }), cell(a, { hand: 'tick' }), cell(`{${a}}`, { tone: 'mute' })],
      [cell(a, { head: true }), cell(b, { hand: 'write' }), cell(b, { span: 2 })],
    ],
    line: 1,
  },
  paragraph(`${a} ${b}`, 'fine'),
];

it('long names are never cut off and never run into each other', () => {
  fc.assert(
    fc.property(name, name, fc.constantFrom('letter', 'tabloid', 'a4'), fc.boolean(), (a, b, sheet: Page['sheet'], laminated) => {
      const p = page(blocks(a, b), {
        sheet,
        finish: laminated ? 'laminated' : 'plain',
        head: [{ text: a, value: 'x' }],
        foot: [[{ text: b }]],
      });
      const { width, height, margin } = sheetOf(p);
      const { sheets, findings } = set(p);
      expect(findings).toEqual([]);
      for (const s of sheets) {
        const boxes = textBoxes(s);
        for (const box of boxes) {
          expect(box.left).toBeGreaterThanOrEqual(margin - 0.5);
          expect(box.right).toBeLessThanOrEqual(width - margin + 0.5);
          expect(box.top).toBeGreaterThanOrEqual(margin - 0.5);
          expect(box.bottom).toBeLessThanOrEqual(height - margin + 0.5);
        }
        const clashes = boxes.flatMap((one, i) =>
          boxes
            .slice(i + 1)
            .filter((other) => overlap(one, other))
            .map((other): [Box, Box] => [one, other]),
        );
        expect(clashes).toEqual([]);
      }
      // Not a letter is lost: what was given is what is painted, but for spaces and hyphens that lines brought.
      const painted = sheets
        .flatMap(textBoxes)
        .map((box) => box.text)
        .join('')
        .replace(/[\s-]/g, '');
      for (const text of [a, b]) expect(painted).toContain(text.replace(/[\s-]/g, ''));
    }),
    { seed: 20261124, numRuns: 60 },
  );
});
