/**
 * Six small page images by an outside renderer (PDFium), held against kept ones. A page that looks otherwise leaves three pictures in out/images: kept, made,
 * and where they differ. `UPDATE_IMAGES=1` keeps what is made; look at it first.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import pixelmatch from 'pixelmatch';
import { PNG } from 'pngjs';
import { afterAll, describe, expect, it } from 'vitest';
import { printPdf } from '../../src/print/print-pdf.js';
import { faces } from './faces.js';
import { PAGES } from './pages.js';

const GOLDEN = 'tests/print/golden';
const SEEN = 'out/images';
/** Dots per inch: enough to tell a line from none. */
const DPI = 50;

const library = await PDFiumLibrary.init();
afterAll(() => library.destroy());

/** The first sheet in greys: a page must work in them, and what colour is what the lists of operations tell. */
const imageOf = async (pdf: Uint8Array): Promise<PNG> => {
  const document = await library.loadDocument(pdf);
  const { data, width, height } = await document.getPage(0).render({ scale: DPI / 72, render: 'bitmap', colorSpace: 'Gray' });
  document.destroy();
  const image = new PNG({ width, height });
  for (let i = 0; i < width * height; i++) image.data.set([data[i] as number, data[i] as number, data[i] as number, 255], 4 * i);
  return image;
};

const write = (name: string, image: PNG): void => {
  mkdirSync(SEEN, { recursive: true });
  writeFileSync(join(SEEN, name), PNG.sync.write(image));
};

describe('a page looks as it did', () => {
  it.each(Object.entries(PAGES))('%s', async (name, page) => {
    const { bytes, findings } = await printPdf(page, faces);
    expect(findings).toEqual([]);
    const made = await imageOf(bytes as Uint8Array);
    const path = join(GOLDEN, `${name}.png`);
    if (process.env['UPDATE_IMAGES']) writeFileSync(path, PNG.sync.write(made, { colorType: 0, deflateLevel: 9 }));
    expect(existsSync(path), `${path} is not kept: UPDATE_IMAGES=1 keeps it`).toBe(true);
    const kept = PNG.sync.read(readFileSync(path));
    expect([made.width, made.height]).toEqual([kept.width, kept.height]);
    const difference = new PNG({ width: made.width, height: made.height });
    const pixels = pixelmatch(kept.data, made.data, difference.data, made.width, made.height, { threshold: 0.1 });
    if (pixels > 0) {
      write(`${name}-kept.png`, kept);
      write(`${name}-made.png`, made);
      write(`${name}-difference.png`, difference);
    }
    expect(pixels, `see ${SEEN}/${name}-difference.png`).toBe(0);
  });

  it('and a page of which one word moved does not', async () => {
    const one = await imageOf((await printPdf(PAGES.callouts, faces)).bytes as Uint8Array);
    const moved = { ...PAGES.callouts, body: [...PAGES.callouts.body].reverse() };
    const other = await imageOf((await printPdf(moved, faces)).bytes as Uint8Array);
    expect(pixelmatch(one.data, other.data, null, one.width, one.height, { threshold: 0.1 })).toBeGreaterThan(50);
  });
});
