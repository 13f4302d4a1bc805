import { describe, expect, it } from 'vitest';
import type { Block, Page } from '../../src/compose/block.js';
import { controlIn, printable } from '../../src/print/characters.js';
import { printHtml } from '../../src/print/html.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { faces } from './faces.js';
import { callout, cell, drawing, page, paragraph, runs } from './make.js';
import { itemsOf, open } from './pdf-read.js';

describe('a character that no face has', () => {
  const places: readonly (readonly [string, Partial<Page> | Block])[] = [
    ['a paragraph', paragraph('Turn → left', 'body', 7)],
    ['a cell', { block: 'table', columns: [{ weight: 1, align: 'start' }], head: [], rows: [[cell('☐')]], line: 7 }],
    ["a step's time", { block: 'steps', items: [{ when: [{ text: '⅛ h' }], body: [paragraph('Wash.')] }], line: 7 }],
    ["a callout's title", { ...callout('danger', '☠'), line: 7 }],
    [
      "a figure's label",
      {
        block: 'figure',
        share: 1,
        line: 7,
        drawing: { ...drawing, marks: [{ mark: 'text', x: 0, y: 9, text: '✓', size: 20, anchor: 'start', tone: 'ink' }] },
      },
    ],
    ['the foot', { foot: [runs('→')] }],
    ['a signal word', { words: { sheetOf: '{n}', levels: { danger: '危険', warning: 'W', caution: 'C', notice: 'N' } } }],
  ];

  it.each(places)('in %s is refused', async (_, where) => {
    const p = 'block' in where ? page([where]) : page([paragraph('Words')], where);
    const { bytes, findings } = await printPdf(p, faces);
    expect(bytes).toBeUndefined();
    expect(findings.length).toBeGreaterThan(0);
    for (const finding of findings) expect(finding).toMatchObject({ code: 'no-glyph', severity: 'error' });
    if ('block' in where) expect(findings[0]?.at.line).toBe(7);
  });

  it('is named with its code and the words around it', async () => {
    const { findings } = await printPdf(page([paragraph('Turn → left', 'body', 7)]), faces);
    expect(findings.map((f) => f.data)).toEqual([{ character: 'U+2192', glyph: '→', text: 'Turn → left' }]);
  });

  it('is no hindrance to HTML, whose reader has other fonts', () => {
    expect(printHtml(page([paragraph('Turn → left')])).html).toContain('Turn → left');
  });
});

// Unicode 15: categories Cc (but for white space) and Bidi_Control, and what is no character at all.
describe('a control character', () => {
  it.each([
    '\u0000',
    '\u0007',
    '\u001B',
    '\u007F',
    '\u0085',
    '\u200E',
    '\u200F',
    '\u061C',
    '\u202A',
    '\u202E',
    '\u2066',
    '\u2069',
    '\uFFFE',
    '\uD800',
  ])('is refused (%j)', async (control) => {
    const p = page([paragraph(`before ${control} after`, 'body', 3)]);
    const expected = [{ code: 'control-character', severity: 'error', at: { line: 3 } }];
    expect((await printPdf(p, faces)).findings).toMatchObject(expected);
    const { html, findings } = printHtml(p);
    expect(html).toBe('');
    expect(findings).toMatchObject(expected);
  });

  it('is looked for in the title and in what a figure says instead of itself', async () => {
    expect((await printPdf(page([paragraph('Words')], { title: 'A\u0000B' }), faces)).findings).toMatchObject([
      { code: 'control-character' },
    ]);
    const figure: Block = { block: 'figure', share: 1, line: 4, drawing: { ...drawing, alt: [{ text: 'A\u202EB' }] } };
    expect((await printPdf(page([figure]), faces)).findings).toMatchObject([{ code: 'control-character', at: { line: 4 } }]);
  });

  it('is not a letter, however far from ASCII', () => {
    for (const text of ['Ñandú', 'ø', '日本', '👋', 'a\u0301']) expect(controlIn(text)).toBeUndefined();
  });
});

describe('what is printed', () => {
  it('is composed, with look-alikes in place of what faces lack', () => {
    expect(printable('cafe\u0301 walk\u2011in 41\u202F°F re\u00ADfrigerator\u200B')).toBe('café walk-in 41\u00A0°F refrigerator');
  });

  it('reads back as it was written', async () => {
    const text = 'Ñoño & «Müller» 41 °F – ½ lb, “cold” ≤ 38 °F';
    const { bytes } = await printPdf(page([paragraph(text)], { lang: 'es' }), faces);
    const items = await itemsOf(await open(bytes as Uint8Array));
    expect(items.map((item) => item.text)).toContain(text);
  });

  it("has look-alikes in place in a figure's label too", async () => {
    const marks = [
      { mark: 'text', x: 0, y: 9, text: 'froid\u202F? walk\u2011in', size: 20, anchor: 'start', tone: 'ink' },
    ] as const;
    const { bytes, findings } = await printPdf(
      page([{ block: 'figure', share: 1, line: 7, drawing: { ...drawing, marks } }]),
      faces,
    );
    expect(findings).toEqual([]);
    const items = await itemsOf(await open(bytes as Uint8Array));
    expect(items.map((item) => item.text.replaceAll('\u00A0', ' '))).toContain('froid ? walk-in');
  });

  it('has no line feed or tab in it', async () => {
    const { bytes } = await printPdf(page([paragraph('one\n\ttwo\r\nthree')]), faces);
    const items = await itemsOf(await open(bytes as Uint8Array));
    expect(items.map((item) => item.text)).toContain('one two three');
  });
});
