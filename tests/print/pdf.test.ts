import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Block, Page } from '../../src/compose/block.js';
import { paintSheet } from '../../src/print/pdf.js';
import { readPdf } from '../../src/print/pdf-objects.js';
import { openDocument } from '../../src/print/pdfkit.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { paletteOf } from '../../src/print/theme.js';
import { faces, freshFaces } from './faces.js';
import { callout, cell, columns, everyBlock, heading, page, paragraph } from './make.js';
import { itemsOf, open, painting, tagTree, type Doc, type Tag } from './pdf-read.js';
import { set } from './set.js';

const bytesOf = async (p: Page): Promise<Uint8Array> => {
  const { bytes, findings } = await printPdf(p, faces);
  expect(findings.filter((f) => f.severity === 'error')).toEqual([]);
  return bytes as Uint8Array;
};
const read = async (p: Page): Promise<Doc> => open(await bytesOf(p));

const rows = (n: number): Block => ({
  block: 'table',
  columns: [
    { weight: 1, align: 'start' },
    { weight: 1, align: 'middle' },
  ],
  head: [[cell('Task'), cell('Monday')]],
  rows: Array.from({ length: n }, (_, i) => [cell(`row ${i} is a task with a name`, { head: true }), cell('', { hand: 'tick' })]),
  line: 1,
});
const tags = (tag: Tag, role: string): readonly Tag[] => [
  ...(tag.role === role ? [tag] : []),
  ...tag.kids.flatMap((kid) => tags(kid, role)),
];

describe('the file', () => {
  it('is the same for the same page, whatever was printed between', async () => {
    const first = await bytesOf(everyBlock);
    await bytesOf(page([heading(1, 'Descongelamiento'), paragraph('Ñandú ½ °C')], { lang: 'es' }));
    expect(await bytesOf(everyBlock)).toEqual(first);
  });

  it('is the same with faces that have written other letters before', async () => {
    const n = page([paragraph('one')], { head: [], foot: [] });
    const enye = page([paragraph('\u00f1')], { head: [], foot: [] });
    const used = freshFaces();
    await printPdf(enye, used);
    const [after, alone] = [await printPdf(n, used), await printPdf(n, freshFaces())];
    expect(after.bytes).toEqual(alone.bytes);
    // A letter that was first met as a part of another one still reads as itself.
    expect((await itemsOf(await open(after.bytes as Uint8Array))).map((item) => item.text)).toEqual(['one']);
  });

  it('is the same whether pdfkit writes every line and font by itself or the seams for speed do', async () => {
    const { sheets } = set(everyBlock);
    expect(sheets.length).toBeGreaterThan(0);
    const [quick, plain] = await Promise.all(
      [true, false].map((speedy) => {
        const { doc, bytes } = openDocument({ title: 'Both ways', lang: 'en', font: faces.regular.font }, speedy);
        for (const sheet of sheets) paintSheet(doc, sheet, faces, paletteOf(everyBlock.brand.colour), new Map());
        doc.end();
        return bytes;
      }),
    );
    expect(quick).toEqual(plain);
  });

  it('brings the same fonts as another one with the same few letters beside ASCII', async () => {
    const fontsOf = async (words: string): Promise<readonly (Uint8Array | undefined)[]> => {
      const bytes = await bytesOf(page([heading(1, words), paragraph(words)]));
      const numbers = Buffer.from(bytes)
        .toString('latin1')
        .matchAll(/\/FontFile2 (\d+) 0 R/g);
      return [...numbers].map(([, number]) => readPdf(bytes).object(Number(number)).stream);
    };
    const fonts = await fontsOf('Empty the rail: ñ, ½');
    expect(fonts.length).toBeGreaterThanOrEqual(2);
    expect(await fontsOf('½ ñ Zebra quick')).toEqual(fonts);
    expect(await fontsOf('½ ñ é')).not.toEqual(fonts);
  });

  it('is the same in any time zone', async () => {
    const zone = process.env.TZ;
    const made: Uint8Array[] = [];
    for (const tz of ['UTC', 'Asia/Tokyo', 'America/New_York']) {
      process.env.TZ = tz;
      made.push(await bytesOf(everyBlock));
    }
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(made[1]).toEqual(made[0]);
    expect(made[2]).toEqual(made[0]);
  });

  it('has its title, escaped as the metadata needs, and its language', async () => {
    const title = 'Larch & Sons <line 2>: "top" empty';
    const doc = await read(page([paragraph('Words')], { title, lang: 'en-GB' }));
    const { info, metadata } = await doc.getMetadata();
    expect(info).toMatchObject({ Title: title, Language: 'en-GB', PDFFormatVersion: '1.7' });
    expect(metadata.get('dc:title')).toBe(title);
    expect(metadata.getRaw()).toContain('<pdfuaid:part>1</pdfuaid:part>');
    expect((await doc.getMarkInfo())?.Marked).toBe(true);
    expect(await doc.getViewerPreferences()).toMatchObject({ DisplayDocTitle: true, PrintScaling: 'None' });
  });

  // PDF/UA-1 (ISO 14289-1) 7.1: all content is marked, as an artifact or as part of the tag tree.
  it('paints nothing outside marked content', async () => {
    const { all, unmarked } = await painting(await read(everyBlock));
    expect(all).toBeGreaterThan(90);
    expect(unmarked).toBe(0);
  });

  it('has a bookmark for each heading, nested as the headings are', async () => {
    const outline = await (
      await read(
        page([heading(1, 'Night'), heading(2, 'Before'), paragraph('Words'), heading(2, 'After'), heading(1, 'Morning')]),
      )
    ).getOutline();
    expect(outline.map(({ title, items }) => [title, items.map((item: { title: string }) => item.title)])).toEqual([
      ['Night', ['Before', 'After']],
      ['Morning', []],
    ]);
  });

  it('says what a painted mark stands for', async () => {
    const text = new TextDecoder('latin1').decode(await bytesOf(everyBlock));
    // UTF-16 of a ballot box, a ballot X and a bullet.
    for (const mark of ['\u00fe\u00ff&\u0010', "\u00fe\u00ff'\u0017", '\u00fe\u00ff \u0022'])
      expect(text).toContain(`/ActualText (${mark})`);
    // ISO 14289-1 7.21.4.2: a CIDSet, where there is one, names every glyph of the font file; there is none.
    expect(text).not.toContain('/CIDSet');
    for (const numbering of ['Decimal', 'Disc', 'None']) expect(text).toContain(`/ListNumbering /${numbering}`);
  });

  // qpdf, an independent reader of the syntax (scripts/checkers installs it).
  it('is clean to qpdf', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'print-'));
    try {
      const file = join(folder, 'page.pdf');
      writeFileSync(file, await bytesOf(everyBlock));
      expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain(
        'No syntax or stream encoding errors found',
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe('a table over several sheets', () => {
  const long = page([rows(70)], { foot: [] });

  it('has its head on each sheet for the eye, and once for the ear', async () => {
    const doc = await read(long);
    expect(doc.numPages).toBeGreaterThan(2);
    const heads = (await itemsOf(doc)).filter((item) => item.text === 'Monday');
    expect(heads).toHaveLength(doc.numPages);
    let heard = 0;
    for (let n = 1; n <= doc.numPages; n++)
      heard += tags(await tagTree(doc, n), 'TH').filter((th) => th.text === 'Monday').length;
    expect(heard).toBe(1);
  });

  it('loses no row', async () => {
    const items = (await itemsOf(await read(long))).map((item) => item.text);
    for (let i = 0; i < 70; i++) expect(items.filter((text) => text.startsWith(`row ${i} `))).toHaveLength(1);
  });

  it('numbers its sheets', async () => {
    const doc = await read(long);
    const items = (await itemsOf(doc)).map((item) => item.text);
    for (let n = 1; n <= doc.numPages; n++) expect(items).toContain(`${n} of ${doc.numPages}`);
  });
});

describe('head and foot', () => {
  it('are seen on each sheet and heard once', async () => {
    const doc = await read(page([rows(70)]));
    const items = (await itemsOf(doc)).map((item) => item.text);
    expect(items.filter((text) => text.includes('local health rules'))).toHaveLength(doc.numPages);
    let heard = 0;
    for (let n = 1; n <= doc.numPages; n++)
      heard += tags(await tagTree(doc, n), 'P').filter((p) => p.text.includes('local health')).length;
    expect(heard).toBe(1);
  });

  it('show a draft on each sheet', async () => {
    const doc = await read(page([rows(70)], { words: { ...everyBlock.words, draft: 'Draft: not checked' } }));
    const items = (await itemsOf(doc)).map((item) => item.text);
    expect(items.filter((text) => text === 'Draft: not checked')).toHaveLength(doc.numPages);
  });

  it('show a logo of paths or of pixels', async () => {
    const paths = { kind: 'paths', width: 40, height: 20, paths: [{ d: 'M 0 0 Q 20 40 40 0 Z', fill: '#cc5500' }] } as const;
    expect((await painting(await read(page([paragraph('Words')], { brand: { colour: '#003366', logo: paths } })))).unmarked).toBe(
      0,
    );
    // A white PNG of one pixel: 8-bit greyscale, as in the PNG specification's own order of chunks.
    const png = Uint8Array.from(
      atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGP4DwABAQEAsVZPPQAAAABJRU5ErkJggg=='),
      (c) => c.charCodeAt(0),
    );
    const image = { kind: 'image', width: 10, height: 10, bytes: png, type: 'png' } as const;
    const doc = await bytesOf(page([rows(70)], { brand: { colour: '#003366', logo: image } }));
    expect((await open(doc)).numPages).toBeGreaterThan(2);
    // On every sheet, and in the file once.
    expect(new TextDecoder('latin1').decode(doc).match(/\/Subtype \/Image/g)).toHaveLength(1);
  });
});

describe('a callout', () => {
  it('stays whole: it goes to the next sheet rather than apart', async () => {
    for (let n = 34; n < 44; n++) {
      const doc = await read(
        page([...Array.from({ length: n }, () => paragraph('Words')), callout('danger', 'Fire: get out.', 'Call.')]),
      );
      let holders = 0;
      for (let i = 1; i <= doc.numPages; i++) if (JSON.stringify(await tagTree(doc, i)).includes('DANGER')) holders++;
      expect(holders).toBe(1);
    }
  });
});

describe('a page that can not be printed', () => {
  it('because it is empty', async () => {
    for (const body of [[], [{ block: 'new-sheet', line: 1 }], [{ block: 'optional', rank: 1, body: [], line: 1 }]] as const) {
      expect(await printPdf(page(body), faces)).toMatchObject({
        sheets: 0,
        findings: [{ code: 'empty-page', severity: 'error' }],
      });
    }
  });

  it('but lines to write on are something', async () => {
    const lines: Block = { block: 'blank', label: [], lines: 3, line: 1 };
    expect((await printPdf(page([lines], { head: [], foot: [] }), faces)).sheets).toBe(1);
  });

  it('because a column is narrower than a letter', async () => {
    const thin = Array.from({ length: 40 }, () => [paragraph('W')]);
    const { bytes, findings } = await printPdf(page([columns(...thin)]), faces);
    expect(bytes).toBeUndefined();
    expect(findings.map((f) => f.code)).toContain('too-narrow');
  });
});
