/**
 * Measured on the demo's own PDFs, as an outside reader and an outside renderer see them, never on the constants of the theme: how tall capitals are at each
 * reading distance, what stands out from its ground, in colour and in greys, that no ink is near the edge, and that no text lies on another.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import { parse as parseYaml } from 'yaml';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { contrast } from '../../src/print/contrast.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { paletteOf } from '../../src/print/theme.js';
import { faces } from '../print/faces.js';
import { PAGES } from '../print/pages.js';
import { coloursIn, hexOf, seen, type SeenSheet, type SeenText } from './page-seen.js';

const MM = 72 / 25.4;
const INCH = 72;
/** Height of a capital of Atkinson Hyperlegible Next, em: 668 of 1000 (the font's OS/2 table). The signal's is measured on the picture. */
const CAPITAL = 0.668;

/** On Letter in two languages, and one large sheet of the training kitchen. */
const ORDERS = [['copper-ferry'], ['assay-yard', '--only', 'poster,pan-map']] as const;
const PAPERS = readdirSync('templates').filter((name) => name !== 'partials');
const NAME = new RegExp(`(?:^|-)(${[...PAPERS].sort((a, b) => b.length - a.length).join('|')})\\.(..)\\.pdf$`);

type Node = DefaultTreeAdapterTypes.Node;
const textOf = (node: Node): string =>
  node.nodeName === '#text'
    ? (node as DefaultTreeAdapterTypes.TextNode).value
    : 'childNodes' in node
      ? node.childNodes.map(textOf).join('')
      : '';
const withClass = (node: Node, name: RegExp): readonly string[] => [
  ...('attrs' in node && node.attrs.some((a) => a.name === 'class' && name.test(a.value)) ? [textOf(node)] : []),
  ...('childNodes' in node ? node.childNodes.flatMap((kid) => withClass(kid, name)) : []),
];
const bare = (text: string): string => text.replace(/[\s\u00ad-]/g, '');

interface Document {
  readonly name: string;
  readonly paper: string;
  readonly laminated: boolean;
  readonly distance: 'room' | 'unit' | 'hand';
  readonly sheets: readonly SeenSheet[];
  readonly html: Node;
}

const documents: Document[] = [];
let work: string;
beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-legible-'));
  for (const [store, ...more] of ORDERS) {
    const args = [resolve('dist/cli.js'), 'build', store, '--week', '2026-W49', '--out', work, ...more];
    try {
      execFileSync(process.execPath, args, { stdio: 'pipe' });
    } catch {
      // The training kitchen has a unit without a safe rest: its other papers are there.
    }
    for (const file of readdirSync(join(work, store)).filter((f) => f.endsWith('.pdf'))) {
      const paper = NAME.exec(file)?.[1] ?? '';
      const spec = parseYaml(readFileSync(`templates/${paper}/paper.yaml`, 'utf8')) as {
        finish: string;
        distance: Document['distance'];
      };
      documents.push({
        name: `${store}/${file}`,
        paper,
        laminated: spec.finish === 'laminated',
        distance: spec.distance,
        sheets: await seen(readFileSync(join(work, store, file))),
        html: parse(readFileSync(join(work, store, file.replace('.pdf', '.html')), 'utf8')),
      });
    }
  }
}, 600_000);
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** Calls back for each text, and expects that nothing is said against any. */
const eachText = (faultOf: (text: SeenText, sheet: SeenSheet, document: Document) => string | undefined): void => {
  let looked = 0;
  const faults: string[] = [];
  for (const document of documents)
    document.sheets.forEach((sheet, i) => {
      for (const text of sheet.texts) {
        looked += 1;
        const fault = faultOf(text, sheet, document);
        if (fault !== undefined) faults.push(`${document.name} ${i + 1} "${text.text}": ${fault}`);
      }
    });
  expect(looked).toBeGreaterThan(2000);
  expect(faults).toEqual([]);
};

const feet = new Map<Document, string>();
const isFoot = (text: SeenText, sheet: SeenSheet, document: Document): boolean => {
  const foot = feet.get(document) ?? bare(textOf(footerOf(document.html)));
  feet.set(document, foot);
  return text.y > 0.85 * sheet.height && (foot.includes(bare(text.text)) || /^\d+ \p{L}+ \d+$/u.test(text.text));
};
const footerOf = (node: Node): Node => {
  const found = 'childNodes' in node ? node.childNodes.map(footerOf).find((kid) => kid.nodeName === 'footer') : undefined;
  return node.nodeName === 'footer' ? node : (found ?? ({ nodeName: '#none', childNodes: [] } as unknown as Node));
};

/** ITU-R BT.601 luma, 0 to 255, as printers turn colours into greys. */
const luma = (colour: number): number =>
  Math.round(0.299 * (colour >> 16) + 0.587 * ((colour >> 8) & 255) + 0.114 * (colour & 255));
const grey = (colour: string): string => hexOf(luma(Number.parseInt(colour.slice(1), 16)) * 0x010101);

/** What stands in a part of the page that is read at the unit, as the HTML tells. */
const isNear = (text: SeenText, document: Document): boolean => {
  const parts = nears.get(document) ?? withClass(document.html, /(^| )unit( |$)/).map(bare);
  nears.set(document, parts);
  return parts.some((part) => part.includes(bare(text.text)));
};
const nears = new Map<Document, readonly string[]>();

describe('capitals', () => {
  // Hand: about 9.5 point type (common practice, no source). Unit, 3 ft: 3 mm, above the 1/300 of the distance of ANSI Z535.2, 9.2.3.
  // Slides: 1/300 of 10 ft, 0.4 in. A slide's picture is read by its shape, its labels by whoever stands at it; the foot by whoever keeps the sheet.
  // The last slide is a face for reading at the unit: the cautions in full.
  it('are as tall as the distance asks, on every page', () => {
    eachText((text, sheet, document) => {
      const { distance } = document;
      const close = isFoot(text, sheet, document) || distance === 'hand';
      const head = text.y < 22 * MM;
      const near = distance === 'unit' || text.label || head || isNear(text, document);
      const least = close ? 2.2 * MM : near ? 3 * MM : 0.4 * INCH;
      const capital = text.size * CAPITAL;
      return capital < least - 0.02 ? `${(capital / MM).toFixed(2)} mm of ${(least / MM).toFixed(2)}` : undefined;
    });
  });

  // ANSI Z535.2, 9.2.3: a signal read at 10 ft (120 in) has letters of at least distance/150, the message beside it of distance/300.
  it("of a poster's signal are 0.8 in tall where ink was measured, and of its message 0.4 in", () => {
    const posters = documents.filter(({ paper }) => paper === 'poster');
    expect(posters.length).toBeGreaterThan(4);
    let measured = 0;
    for (const { name, sheets, html } of posters) {
      const [sheet] = sheets;
      if (!sheet) throw new Error(name);
      const room = withClass(html, /(^| )room( |$)/)
        .slice(1)
        .join('');
      const large = bare(
        sheet.texts
          .filter((text) => text.size * CAPITAL >= 0.4 * INCH - 0.02)
          .map((text) => text.text)
          .join(''),
      );
      for (const word of room.split(/\s+/)) expect(large, name).toContain(bare(word));
      for (const signal of withClass(html, /(^| )signal( |$)/)) {
        const [first = ''] = signal.trim().split(/\s+/);
        const found = sheet.texts.find((text) => text.text.includes(first) && text.size * CAPITAL >= 0.8 * INCH - 0.02);
        expect(found, `${name}: ${signal}`).toBeDefined();
        const { x, y, width, size } = found as SeenText;
        const ground = luma(sheet.at(x - 2, y));
        let top = y;
        for (let row = y; row > y - size; row -= sheet.dot)
          for (let column = x; column < x + width; column += sheet.dot) if (luma(sheet.at(column, row)) < ground - 64) top = row;
        expect(y - top, `${name}: ${signal}`).toBeGreaterThanOrEqual(0.8 * INCH - 2 * sheet.dot);
        measured += 1;
      }
    }
    expect(measured).toBeGreaterThan(4);
  });
});

/** A saturated blue or red turns into another grey than its luminance: text keeps what large type needs at least (WCAG 2.2, 1.4.6). */
const GREY_LEAST = 4.5;

/** The ground of a text is what most of its box is; its ink is what stands out most. */
const inkOf = (sheet: SeenSheet, { x, y, width, size }: SeenText): { readonly ground: string; readonly ink: string } => {
  const colours = [...coloursIn(sheet, x, y - 0.72 * size, x + width, y + 0.1 * size)];
  const ground = colours.reduce((best, one) => (one[1] > best[1] ? one : best))[0];
  // Dots between ground and ink are many shades; the one that is farthest in grey is ink.
  const away = (colour: number): number => Math.abs(luma(colour) - luma(ground));
  const ink = colours.reduce((best, one) => (away(one[0]) > away(best[0]) ? one : best))[0];
  return { ground: hexOf(ground), ink: hexOf(ink) };
};

describe('contrast', () => {
  // WCAG 2.2, 1.4.6: 7 to 1.
  it('of every text with its ground is 7 to 1, in colour and in greys', () => {
    eachText((text, sheet) => {
      const { ground, ink } = inkOf(sheet, text);
      const least = Math.min(contrast(ink, ground), contrast(grey(ink), grey(ground)));
      return least < 7 ? `${ink} on ${ground}, ${least.toFixed(2)} to 1` : undefined;
    });
  });

  // WCAG 2.2, 1.4.11: 3 to 1. Grounds carry no meaning alone: paper, the wash of head rows, and safety yellow and orange, which stand under black letters in a
  // black frame (ANSI Z535.4).
  it('of every shape with paper is 3 to 1, in colour and in greys', () => {
    const GROUNDS = ['#ffffff', '#ededed', '#ffcc00', '#ff7e00'];
    const shapes = new Map<string, string>();
    for (const { name, paper, sheets } of documents)
      for (const sheet of sheets) for (const colour of sheet.shapes) shapes.set(colour, `${name} ${paper}`);
    expect(shapes.size).toBeGreaterThan(6);
    const pale = [...shapes].filter(
      ([colour]) => !GROUNDS.includes(colour) && Math.min(contrast(colour, '#ffffff'), contrast(grey(colour), '#ffffff')) < 3,
    );
    expect(pale).toEqual([]);
  });
});

describe('any brand colour', () => {
  const colour = fc.integer({ min: 0, max: 0xffffff }).map((n) => `#${n.toString(16).padStart(6, '0')}`);

  it('prints a signal, times and rules that stand out, in colour and in greys; one that can not is darkened, and says so', async () => {
    await fc.assert(
      fc.asyncProperty(colour, async (brand) => {
        const { bytes } = await printPdf({ ...PAGES.night, brand: { colour: brand } }, faces);
        const [sheet] = await seen(bytes as Uint8Array);
        if (!sheet) throw new Error('no sheet');
        const used = paletteOf(brand).adjusted?.to ?? brand;
        expect(sheet.texts.some((text) => inkOf(sheet, text).ink === used)).toBe(true);
        for (const text of sheet.texts) {
          const { ink, ground } = inkOf(sheet, text);
          expect(contrast(ink, ground), `${brand} ${text.text}`).toBeGreaterThanOrEqual(7);
          expect(contrast(grey(ink), grey(ground)), `${brand} ${text.text} in greys`).toBeGreaterThanOrEqual(GREY_LEAST);
        }
        for (const shape of sheet.shapes) if (shape !== '#ffffff') expect(contrast(shape, '#ffffff')).toBeGreaterThanOrEqual(3);
        expect(used === brand).toBe(contrast(brand, '#ffffff') >= 7);
      }),
      { seed: 20261126, numRuns: 12 },
    );
  });
});

describe('the edge', () => {
  // Printers leave 4 to 6 mm white, a pouch is trimmed 6 mm inside of it (common practice, no source). The ring for a hole stands there on purpose.
  it('has no ink within 10 mm of it, and none within 12 mm where a sheet is laminated', () => {
    for (const { name, laminated, sheets } of documents)
      sheets.forEach((sheet, i) => {
        const safe = (laminated ? 12 : 10) * MM;
        const inked = (x: number, y: number): boolean => luma(sheet.at(x, y)) < 250;
        const ring = (x: number, y: number): boolean => laminated && y < safe && Math.abs(x - sheet.width / 2) < 4 * MM;
        const found: string[] = [];
        for (let y = sheet.dot / 2; y < sheet.height; y += sheet.dot)
          for (let x = sheet.dot / 2; x < sheet.width; x += sheet.dot) {
            const inside = x > safe && x < sheet.width - safe && y > safe && y < sheet.height - safe;
            if (inside) x = sheet.width - safe;
            if (inked(x, y) && !inside && !ring(x, y)) found.push(`${Math.round(x)} ${Math.round(y)}`);
          }
        expect(found.slice(0, 3), `${name} ${i + 1}`).toEqual([]);
      });
  });
});

describe('texts', () => {
  const SLACK = 0.8;
  it('never lie on each other', () => {
    const clashes: string[] = [];
    for (const { name, sheets } of documents)
      sheets.forEach((sheet, n) =>
        sheet.texts.forEach((a, i) => {
          for (const b of sheet.texts.slice(i + 1)) {
            const across = a.x < b.x + b.width - SLACK && b.x < a.x + a.width - SLACK;
            const down =
              a.y - CAPITAL * a.size < b.y + 0.2 * b.size - SLACK && b.y - CAPITAL * b.size < a.y + 0.2 * a.size - SLACK;
            if (across && down) clashes.push(`${name} ${n + 1}: "${a.text}" on "${b.text}"`);
          }
        }),
      );
    expect(clashes).toEqual([]);
  });
});
