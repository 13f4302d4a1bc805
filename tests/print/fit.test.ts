import { describe, expect, it } from 'vitest';
import type { Block, Cell, Page } from '../../src/compose/block.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { faces } from './faces.js';
import { callout, cell, columns, drawing, face, heading, list, page, paragraph } from './make.js';
import { set, textBoxes } from './set.js';

const lines = (n: number, line = 5): Block[] => Array.from({ length: n }, () => paragraph('Wash your hands.', 'body', line));
const one = (body: readonly Block[], over: Partial<Page> = {}): Page => page(body, { length: 'one', ...over });
const optional = (rank: 1 | 2 | 3, line: number): Block => ({ block: 'optional', rank, body: lines(2, line), line });

/** The greatest number of lines that still fits, by the rung it is set on and the ranks left out. */
const rungs = (extra: readonly Block[] = []): ReadonlyMap<string, number> => {
  const most = new Map<string, number>();
  for (let n = 10; n < 70; n++) {
    const { rung, sheets, left } = set(one([...extra, ...lines(n)]));
    const without = left.map((block) => block.rank).join();
    if (sheets.length > 0) most.set(`gaps ${rung.gaps} scale ${rung.scale} without ${without}`, n);
  }
  return most;
};

describe('the ladder', () => {
  it('goes from white to size to what may be left out, and then down to the floors', () => {
    const order = [...rungs([optional(3, 1), optional(2, 2), optional(1, 3)]).keys()];
    expect(order).toEqual([
      'gaps 1 scale 1 without ',
      'gaps 0.9 scale 1 without ',
      'gaps 0.8 scale 1 without ',
      'gaps 0.8 scale 0.95 without ',
      'gaps 0.8 scale 0.9 without ',
      'gaps 0.8 scale 0.9 without 3',
      'gaps 0.8 scale 0.9 without 3,2',
      'gaps 0.8 scale 0.9 without 3,2,1',
      'gaps 0.8 scale 0.85 without 3,2',
      'gaps 0.8 scale 0.85 without 3,2,1',
      'gaps 0.8 scale 0.8 without 3,2,1',
      'gaps 0.65 scale 0.75 without 3,2,1',
    ]);
  });

  it('starts from the first rung for every page, whatever was set before', () => {
    expect(set(one(lines(60))).sheets).toHaveLength(0);
    expect(set(one(lines(10)))).toMatchObject({ rung: { gaps: 1, scale: 1 }, left: [] });
  });

  it('says what it left out', () => {
    const full = [...rungs().entries()].find(([rung]) => rung.startsWith('gaps 0.8 scale 0.9 without '))?.[1] as number;
    const { findings, sheets } = set(one([...lines(full), optional(3, 77), optional(1, 78)]));
    expect(sheets).toHaveLength(1);
    expect(findings.map(({ code, severity, at, data }) => [code, severity, at.line, data.rank])).toEqual([
      ['left-out', 'note', 77, 3],
      ['left-out', 'note', 78, 1],
    ]);
    for (const { data } of findings) expect(data.words).toMatch(/^\S.{5,59}/);
  });
});

describe('a pair of sheets', () => {
  const fresh: Block = { block: 'new-sheet', line: 40 };
  const full = [...rungs()].find(([rung]) => rung === 'gaps 0.8 scale 0.9 without ')?.[1] as number;
  const pair = one([...lines(full), optional(1, 7), fresh, ...lines(5), optional(1, 77)]);

  it('of which one is full loses what is optional on that one alone', () => {
    const { sheets, left } = set(pair);
    expect(sheets).toHaveLength(2);
    expect(left.map((block) => block.line)).toEqual([7]);
  });

  it('has type of one size', () => {
    const sizes = set(pair).sheets.map(
      (sheet) => new Set(sheet.paints.flatMap((p) => (p.kind === 'text' && p.pieces[0] === 'Wash' ? [p.size] : []))),
    );
    expect(sizes.map((s) => s.size)).toEqual([1, 1]);
    expect([...(sizes[0] as Set<number>)]).toEqual([...(sizes[1] as Set<number>)]);
  });

  it('reads in the order in which it was written', () => {
    const { root } = set(
      one([heading(1, 'Night'), ...lines(full), optional(1, 7), fresh, heading(1, 'Morning'), optional(1, 77)]),
    );
    expect(root.kids.map((e) => e.tag).join(' ')).toBe(
      ['Sect', 'H1', ...Array<string>(full).fill('P'), 'H1', 'P', 'P', 'Sect'].join(' '),
    );
  });
});

describe('a page that does not fit', () => {
  const tooLong = one([heading(1, 'Night', 2), ...lines(70, 9), list('never', 'Chip ice.'), callout('danger', 'Fire: get out.')]);

  it('is not printed', async () => {
    const printed = await printPdf(tooLong, faces);
    expect(printed.bytes).toBeUndefined();
    expect(printed.sheets).toBe(0);
  });

  it('says how much too long it is, and which lines of the template are the longest', () => {
    const finding = set(tooLong).findings.find((f) => f.code === 'does-not-fit');
    expect(finding?.severity).toBe('error');
    expect(finding?.at).toMatchObject({ doc: 'page.md.hbs', line: 9 });
    expect(finding?.also?.map((at) => at.line)).toContain(1);
    expect(finding?.data.over).toMatchObject({ q: 'length' });
  });

  it('names the partial that a long part stands in', () => {
    const inPartial: Block = {
      block: 'list',
      mark: 'never',
      items: [lines(70)],
      line: 3,
      doc: 'templates/partials/never.md.hbs',
    };
    const finding = set(
      one([
        heading(1, 'Night', 2),
        { ...inPartial, items: [lines(70).map((b) => ({ ...b, line: 3, doc: inPartial.doc as string }))] },
      ]),
    ).findings.find((f) => f.code === 'does-not-fit');
    expect(finding?.at).toMatchObject({ doc: 'templates/partials/never.md.hbs', line: 3 });
    expect(finding?.data.largest).toEqual([
      expect.stringMatching(/^templates\/partials\/never\.md\.hbs:3: \d+ mm$/),
      expect.stringMatching(/^page\.md\.hbs:2: /),
    ]);
  });

  it('names lines to write on as such, and never a line that no template has', () => {
    const answers: Block = { block: 'blank', label: [], lines: 60, line: 7 };
    const told = (...blocks: Block[]) => set(one(blocks)).findings.find((f) => f.code === 'does-not-fit');
    const ours: Block = { block: 'list', mark: 'never', items: [lines(20).map((b) => ({ ...b, line: 0 }))], line: 0 };
    expect(told(heading(1, 'Night', 2), answers, ours)).toMatchObject({ at: { line: 7 }, data: { spec: 'paper.yaml' } });
    expect(told(heading(1, 'Night', 2), answers, ours)?.data.largest).not.toEqual(
      expect.arrayContaining([expect.stringMatching(/:0: /)]),
    );
    expect(set(tooLong).findings.find((f) => f.code === 'does-not-fit')?.data).not.toHaveProperty('spec');
  });

  it('counts the millimetres: without that much it fits', () => {
    // On a longer sheet of the same width: legal is 14 in tall, letter 11 in (ANSI Y14.1), 76.2 mm more.
    const over = (set(one(lines(62))).findings[0]?.data.over as { si: number }).si * 1000;
    expect(over).toBeGreaterThan(0);
    expect(set(one(lines(62), { sheet: 'legal' })).sheets.length).toBe(over <= 76.2 ? 1 : 0);
  });

  it('counts each part between new sheets by itself', () => {
    const half = lines(30);
    expect(set(one([...half, { block: 'new-sheet', line: 40 }, ...half])).sheets).toHaveLength(2);
    expect(set(one([...half, ...half])).sheets).toHaveLength(0);
  });

  it('never leaves out a caution, a "never" or a "call" to make it fit', () => {
    for (let n = 30; n < 52; n++) {
      const { sheets } = set(one([...lines(n), list('never', 'Chip ice.'), callout('danger', 'Fire: get out.'), optional(1, 3)]));
      if (sheets.length === 0) continue;
      const texts = sheets.flatMap(textBoxes).map((box) => box.text);
      expect(texts).toContain('Chip ice.');
      expect(texts).toContain('DANGER');
      expect(texts).toContain('Fire: get out.');
    }
  });
});

describe('a figure that grows', () => {
  const bar: Block = { block: 'figure', drawing, share: 0.2, line: 5 };
  const widthOf = (body: readonly Block[]): number => {
    const [sheet] = set(one(body)).sheets;
    const painted = sheet?.paints.find((paint) => paint.kind === 'drawing');
    return painted?.kind === 'drawing' ? painted.scale * drawing.width : 0;
  };
  const usual = widthOf([bar]);
  const grown = (n: number): number => widthOf([...lines(n), { ...bar, grows: true }]);

  it('takes the whole width where the sheet has the height', () => {
    expect(widthOf([{ ...bar, share: 1 }])).toBeCloseTo(5 * usual, 3);
    expect(grown(0)).toBeCloseTo(5 * usual, 3);
  });

  it('takes what height is left, and still fits', () => {
    const widths = Array.from({ length: 30 }, (_, i) => grown(i + 20)).filter((w) => w > 0);
    const between = widths.filter((w) => w > 1.05 * usual && w < 4.95 * usual);
    expect(between.length).toBeGreaterThan(0);
  });

  it('grows no further than the others of its sheet let it', () => {
    const both = [...lines(30), { ...bar, grows: true as const }, { ...bar, grows: true as const, line: 6 }];
    expect(widthOf(both)).toBeLessThan(grown(30) + 0.01);
    expect(set(one(both)).findings.filter((f) => f.severity === 'error')).toEqual([]);
  });
});

describe('a figure wider than its place', () => {
  const times = (n: number, weight = 1): Page =>
    page(
      [
        {
          block: 'columns',
          columns: Array.from({ length: n }, () => ({ weight, body: [paragraph('{22:45}', 'signal', 8)] })),
          line: 7,
        },
      ],
      {
        distance: 'room',
      },
    );

  it('is set smaller rather than divided', () => {
    const { sheets, rung, findings } = set(times(2));
    expect(findings).toEqual([]);
    expect(rung.scale).toBeLessThan(1);
    expect(sheets.flatMap(textBoxes).filter((box) => box.text === '22:45')).toHaveLength(2);
  });

  it('and at the floor still too wide is an error: nobody reads 22 over 45', () => {
    const { sheets, findings } = set(times(3));
    expect(sheets).toEqual([]);
    expect(findings).toMatchObject([{ code: 'too-narrow', severity: 'error', at: { line: 8 }, data: { text: '22:45' } }]);
  });
});

describe('a page that flows', () => {
  const tall = page([face('unit', heading(2, 'Tonight'), ...lines(40)), heading(2, 'Morning'), ...lines(60)]);

  it('takes as many sheets as it needs, as designed', () => {
    const { sheets, rung } = set(tall);
    expect(sheets.length).toBeGreaterThan(2);
    expect(rung.scale).toBe(1);
  });

  it('loses no line and repeats none', () => {
    const texts = set(tall).sheets.flatMap(textBoxes);
    expect(texts.filter((box) => box.text === 'Wash your hands.')).toHaveLength(100);
  });

  it('keeps a heading with what follows it', () => {
    for (let n = 20; n < 60; n++) {
      const { sheets } = set(page([...lines(n), heading(2, 'Morning'), paragraph('The top comes on.')]));
      const holder = sheets.map(textBoxes).find((boxes) => boxes.some((box) => box.text === 'Morning'));
      expect(holder?.some((box) => box.text === 'The top comes on.')).toBe(true);
    }
  });

  it('leaves no single line of a paragraph alone on a sheet', () => {
    const long = Array.from({ length: 60 }, (_, i) => `word${i}`).join(' ');
    // Small steps, so that every place on the sheet is met.
    for (let n = 28; n < 38; n++) {
      for (let k = 0; k < 5; k++) {
        const fine = Array.from({ length: k }, () => paragraph('Fine', 'fine'));
        const { sheets } = set(page([...lines(n), ...fine, paragraph(long)]));
        for (const boxes of sheets.map(textBoxes)) expect(boxes.filter((box) => box.text.includes('word')).length).not.toBe(1);
      }
    }
  });

  it('says in a table’s head on the next sheet which band its rows belong to', () => {
    const band = (name: string): readonly Cell[] => [
      cell(`${name} and what else`, { head: true, span: 2, again: [{ text: name }] }),
    ];
    const rows = (n: number, text: string): (readonly Cell[])[] => Array.from({ length: n }, () => [cell(text), cell('x')]);
    const heads = (nights: number, after: readonly (readonly Cell[])[] = []): readonly string[] => {
      const table: Block = {
        block: 'table',
        line: 1,
        columns: [1, 1].map((weight) => ({ weight, align: 'start' })),
        head: [[cell('Line'), cell('Mon')]],
        rows: [band('Morning'), ...rows(30, 'open'), band('Night'), ...rows(nights, 'close'), ...after],
      };
      const { sheets } = set(page([table]));
      return sheets.map((sheet) =>
        textBoxes(sheet)
          .filter(({ text }) => text.startsWith('Line'))
          .map(({ text }) => text)
          .join(),
      );
    };
    const told = heads(100);
    expect(told.length).toBeGreaterThan(3);
    expect([told[0], told.at(-1)]).toEqual(['Line', 'Line · Night']);
    // A row over all columns without a name of its own ends the band.
    expect(heads(30, [[cell('Power was out?', { span: 2 })], ...rows(100, 'other')]).at(-1)).toBe('Line');
  });

  it('sets the row that heads a band again where its rows go on on the next sheet: a round has its time there', () => {
    const hour = (at: string): readonly Cell[] => [cell('Be done by', { head: true, tone: 'strong', again: 'row' }), cell(at)];
    const rows = Array.from({ length: 100 }, (): readonly Cell[] => [cell('warmest food'), cell('', { hand: 'write' })]);
    const table: Block = {
      block: 'table',
      line: 1,
      columns: [1, 1].map((weight) => ({ weight, align: 'start' })),
      head: [[cell('Line'), cell('Mon')]],
      rows: [hour('08:45'), ...rows.slice(0, 3), hour('12:15'), ...rows],
    };
    const hours = set(page([table])).sheets.map((sheet) =>
      textBoxes(sheet).flatMap(({ text }) => text.match(/^\d\d:\d\d$/) ?? []),
    );
    expect(hours.length).toBeGreaterThan(2);
    expect(hours).toEqual([['08:45', '12:15'], ...hours.slice(1).map(() => ['12:15'])]);
  });

  it('lets columns go on side by side', () => {
    const { sheets } = set(page([heading(1, 'Two'), columns(lines(60), lines(20))]));
    expect(sheets.length).toBe(2);
    const [first] = sheets.map((sheet) => textBoxes(sheet).filter((box) => box.text === 'Wash your hands.'));
    expect(new Set(first?.map((box) => Math.round(box.left))).size).toBe(2);
    expect(sheets.flatMap(textBoxes).filter((box) => box.text === 'Wash your hands.')).toHaveLength(80);
  });
});
