/** The painter against a recorder: which operators each kind of paint becomes, and the whole lists of two pages. */
import { describe, expect, it } from 'vitest';
import type { Page } from '../../src/compose/block.js';
import { paintOn } from '../../src/print/paint.js';
import { paintSheet } from '../../src/print/pdf.js';
import { element, type Paint } from '../../src/print/sheet.js';
import { paletteOf } from '../../src/print/theme.js';
import { faces } from './faces.js';
import { drawing } from './make.js';
import { PAGES } from './pages.js';
import { record } from './recorder.js';
import { set } from './set.js';

const palette = paletteOf('#00625c');
const painted = (paint: Paint): readonly string[] => {
  const { doc, calls } = record();
  paintOn(doc, faces, palette, paint);
  return calls;
};
const text = (pieces: readonly string[], more: object = {}): Paint => ({
  kind: 'text',
  x: 10,
  y: 20,
  size: 12,
  face: 'regular',
  pieces,
  colour: '#111111',
  ...more,
});

describe('text', () => {
  // PDF 32000-1, 9.4.3: numbers in TJ move the next glyph back by thousandths of an em.
  it('is one show operator at its baseline, upright on a page that grows downwards, with its kerns', () => {
    const [colour, show] = painted(text(['To', ' ', 'rest']));
    expect(colour).toBe('fillColor #111111');
    const pairs = faces.regular.font.layout('To').positions[0]?.xAdvance ?? 0;
    const kern = pairs - faces.regular.font.layout('T').advanceWidth;
    expect(kern).toBeLessThan(0);
    expect(show).toContain('12 Tf 1 0 0 -1 10 20 Tm');
    expect(show).toContain(`[<T> ${Math.round(-kern * 1000) / 1000} <o`);
    expect(show).toMatch(/TJ ET$/);
  });

  it('is as wide as it was measured: advances less kerns are the width', () => {
    for (const words of ['AVATAR', 'Línea 1', 'Wave to Tovaya']) {
      const show = painted(text([words]))[1] ?? '';
      const moved = [...show.matchAll(/> (-?[\d.]+)/g)].reduce((sum, [, by]) => sum + Number(by), 0);
      const advances = [...words].reduce((sum, c) => sum + faces.regular.font.layout(c).advanceWidth, 0);
      expect((advances - moved) / 1000).toBeCloseTo(faces.regular.width(words), 4);
    }
  });
});

describe('shapes', () => {
  it('are placed, scaled and painted between save and restore', () => {
    const path: Paint = { kind: 'path', x: 5, y: 6, scale: 2, d: 'M 0 0 h 4', stroke: '#858585', width: 0.5, dash: [2, 1] };
    expect(painted(path)).toEqual([
      'save',
      'translate 5 6',
      'scale 2',
      'lineWidth 0.5',
      'dash [2,1]',
      'path M 0 0 h 4',
      'stroke #858585',
      'restore',
    ]);
  });

  it('with neither fill nor stroke leave no ink', () => {
    expect(painted({ kind: 'path', x: 0, y: 0, d: 'M 0 0 h 1' })).toEqual(['save', 'translate 0 0', 'path M 0 0 h 1', 'restore']);
  });

  it('of a drawing come in the colours of the page, and its labels as text', () => {
    const calls = painted({ kind: 'drawing', x: 0, y: 0, scale: 1, drawing });
    expect(calls).toContain(`fill ${palette.shape('cold')}`);
    expect(calls.filter((call) => call.startsWith('addContent')).join()).toContain('<2> 10 <3:15>');
  });
});

describe('a logo', () => {
  const box = { x: 1, y: 2, scale: 0.5 };

  it('of paths is cut off at its box', () => {
    const paths = [{ d: 'M 0 0 h 90 v 90 Z', fill: '#123456', evenOdd: true as const }];
    const calls = painted({ kind: 'logo', ...box, logo: { kind: 'paths', width: 20, height: 10, paths } });
    expect(calls.indexOf('clip')).toBeLessThan(calls.indexOf('fill #123456 even-odd'));
  });

  it('of pixels is one picture of its size', () => {
    const logo = { kind: 'image' as const, width: 20, height: 10, bytes: new Uint8Array(3), type: 'png' as const };
    expect(painted({ kind: 'logo', ...box, logo })).toContain('image {"label":"3 bytes"} 0 0 {"width":10,"height":5}');
  });
});

describe('a sheet', () => {
  const sheetOf = (page: Page): readonly string[] => {
    const { doc, calls } = record();
    const [sheet] = set(page).sheets;
    if (!sheet) throw new Error('no sheet');
    paintSheet(doc, sheet, faces, paletteOf(page.brand.colour), new Map());
    return calls;
  };

  // PDF 32000-1, 14.6: marked content that nests would be read as one.
  it('opens marked content when the element changes, and never inside of other marked content', () => {
    const of = element('P');
    const { doc, calls } = record();
    const paints = [text(['a'], { of }), text(['b'], { of }), text(['c']), text(['d'], { of, lang: 'es' })];
    paintSheet(doc, { width: 100, height: 100, headings: [], paints }, faces, palette, new Map());
    const marks = calls.filter((call) => /^(mark|endMarked)/.test(call)).map((call) => call.replace(/ \{.*/, ''));
    expect(marks).toEqual([
      'markStructureContent P',
      'endMarkedContent',
      'markContent Artifact',
      'endMarkedContent',
      'markStructureContent Span',
      'endMarkedContent',
    ]);
  });

  it.each(['night', 'week'] as const)('is painted by these operations: %s', async (name) => {
    await expect(`${sheetOf(PAGES[name]).join('\n')}\n`).toMatchFileSnapshot(`golden/${name}.operations.txt`);
  });
});
