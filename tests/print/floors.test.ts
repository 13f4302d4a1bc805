import { describe, expect, it } from 'vitest';
import type { Block, Distance, Page } from '../../src/compose/block.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { set } from './set.js';
import { faces } from './faces.js';
import { callout, cell, face, heading, list, page, paragraph, runs, steps } from './make.js';
import { itemsOf, open } from './pdf-read.js';

const INCH = 72;
const MM = 72 / 25.4;
/** Height of a capital of Atkinson Hyperlegible Next, from the OS/2 table of the font: 668 of 1000. */
const CAPITAL = 0.668;

const table: Block = {
  block: 'table',
  columns: [
    { weight: 2, align: 'start' },
    { weight: 1, align: 'middle' },
  ],
  head: [[cell('Task'), cell('Mon')]],
  rows: [[cell('Lid on', { head: true }), cell('done', { hand: 'tick' })]],
  line: 1,
};
const blank: Block = { block: 'blank', label: runs('Anything odd?'), lines: 1, line: 1 };
const texts: Block[] = [
  heading(1, 'One'),
  heading(2, 'Two'),
  heading(3, 'Three'),
  heading(4, 'Four'),
  paragraph('Body'),
  paragraph('Fine', 'fine'),
  paragraph('Label', 'label'),
  list('never', 'Never'),
  steps(['22:15', 'Wash']),
  table,
  callout('danger', 'Fire', 'Get out'),
  blank,
];

/** The page filled until it is set on the last rung of the ladder, where type is smallest. */
const tightest = (distance: Distance, sheet: Page['sheet']): Page => {
  const of = (n: number): Page =>
    page([face(distance, ...texts), ...Array.from({ length: n }, () => face(distance, paragraph('Filling')))], {
      length: 'one',
      sheet,
      distance,
    });
  let last: Page | undefined;
  for (let n = 0; n < 200; n++) {
    const fitted = set(of(n));
    if (fitted.sheets.length === 0) break;
    last = of(n);
  }
  if (!last) throw new Error('not even the texts fit');
  return last;
};

const FOOT = /local health rules|^\d+ of \d+$/;

/** The lowest capitals of a page: of its content and head, and of its foot. */
const smallest = async (p: Page): Promise<{ readonly content: number; readonly foot: number }> => {
  const { bytes } = await printPdf(p, faces);
  const items = await itemsOf(await open(bytes as Uint8Array));
  expect(items.length).toBeGreaterThan(15);
  const lowest = (foot: boolean): number =>
    Math.min(...items.filter((item) => FOOT.test(item.text) === foot).map((item) => item.size)) * CAPITAL;
  return { content: lowest(false), foot: lowest(true) };
};

describe('capitals on the page produced', () => {
  // Read at 1 m: 3 mm is above the 1/300 of the distance that ANSI Z535.2 (9.2.3) asks of a message.
  it('are at least 3 mm at the unit, on the tightest rung', async () => {
    const { content, foot } = await smallest(tightest('unit', 'letter'));
    expect(content).toBeGreaterThanOrEqual(3 * MM - 0.01);
    // The foot is read close up.
    expect(foot).toBeGreaterThanOrEqual(2.2 * MM - 0.01);
  });

  // Common practice, no source: about 9.5 point type.
  it('are at least 2.2 mm in the hand, on the tightest rung', async () => {
    const { content, foot } = await smallest(tightest('hand', 'letter'));
    expect(Math.min(content, foot)).toBeGreaterThanOrEqual(2.2 * MM - 0.01);
  });

  // ANSI Z535.2 9.2.3, read at 10 ft (120 in): signal at least distance/150, message at least distance/300.
  it('are at least 0.8 in for a signal and 0.4 in for a message across the room, on the tightest rung', async () => {
    const filling = (n: number): Page =>
      page(
        [
          face(
            'room',
            paragraph('Top empty by {22:45}', 'signal'),
            ...Array.from({ length: n }, () => paragraph('Bottom stays on.', 'message')),
          ),
        ],
        {
          length: 'one',
          distance: 'room',
          sheet: 'tabloid',
        },
      );
    let n = 1;
    while (set(filling(n + 1)).sheets.length > 0) n++;
    expect(n).toBeGreaterThan(5);
    const { bytes } = await printPdf(filling(n), faces);
    const items = await itemsOf(await open(bytes as Uint8Array));
    const capitals = (pattern: RegExp): number[] =>
      items.filter((item) => pattern.test(item.text)).map((item) => item.size * CAPITAL);
    expect(Math.min(...capitals(/Top empty|22:45/))).toBeGreaterThanOrEqual((120 / 150) * INCH - 0.01);
    expect(Math.min(...capitals(/Bottom/))).toBeGreaterThanOrEqual((120 / 300) * INCH - 0.01);
  });

  it('hold for every role across the room', async () => {
    const { bytes } = await printPdf(page([face('room', ...texts)], { distance: 'room', sheet: 'a3' }), faces);
    const items = (await itemsOf(await open(bytes as Uint8Array))).filter(
      (item) => !/Sandwich|north|local|\d of \d/.test(item.text),
    );
    expect(Math.min(...items.map((item) => item.size)) * CAPITAL).toBeGreaterThanOrEqual(0.4 * INCH - 0.01);
  });
});

describe('a figure', () => {
  const labelled = (size: number): Block => ({
    block: 'figure',
    drawing: {
      name: 'dial',
      width: 100,
      height: 50,
      alt: [{ text: 'A dial.' }],
      marks: [{ mark: 'text', x: 0, y: 20, text: 'ON', size, anchor: 'start', tone: 'ink' }],
    },
    share: 0.5,
    line: 12,
  });

  it('whose labels come out under the floor is a warning', async () => {
    const { findings } = await printPdf(page([labelled(3)]), faces);
    expect(findings).toMatchObject([
      { code: 'figure-too-small', severity: 'warning', at: { line: 12 }, data: { figure: 'dial' } },
    ]);
  });

  it('whose labels are tall enough is none', async () => {
    expect((await printPdf(page([labelled(5)]), faces)).findings).toEqual([]);
  });
});

describe('sheets', () => {
  // ANSI Y14.1 (A and B sizes, 8.5 x 11 and 11 x 17 in) and ISO 216, in millimetres; legal is the office size 8.5 x 14 in.
  it.each([
    ['letter', 215.9, 279.4],
    ['legal', 215.9, 355.6],
    ['tabloid', 279.4, 431.8],
    ['a4', 210, 297],
    ['a3', 297, 420],
  ] as const)('%s', async (sheet, width, height) => {
    for (const orientation of ['portrait', 'landscape'] as const) {
      const { bytes } = await printPdf(page([paragraph('Words')], { sheet, orientation }), faces);
      const [, , w, h] = (await (await open(bytes as Uint8Array)).getPage(1)).view as [number, number, number, number];
      const expected = orientation === 'portrait' ? [width, height] : [height, width];
      expect([w / MM, h / MM].map((n) => Math.round(n * 10) / 10)).toEqual(expected);
    }
  });

  // 4 to 6 mm that printers leave white and 6 mm inside the trim (common practice, no source).
  it('keep every text 12 mm inside the edge when they are laminated', () => {
    const [sheet] = set(page(texts, { finish: 'laminated' })).sheets;
    for (const paint of sheet?.paints ?? []) {
      if (paint.kind !== 'text') continue;
      expect(paint.x).toBeGreaterThanOrEqual(12 * MM);
      expect(paint.y).toBeLessThanOrEqual((sheet?.height ?? 0) - 12 * MM);
    }
  });
});
