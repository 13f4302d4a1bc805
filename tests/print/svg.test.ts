import { describe, expect, it } from 'vitest';
import { printPdf } from '../../src/print/print-pdf.js';
import { alertSymbol, hatch, prohibition } from '../../src/print/signs.js';
import { drawingToSvg } from '../../src/print/svg.js';
import { faces } from './faces.js';
import { drawing, page } from './make.js';
import { open } from './pdf-read.js';
import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

describe('a figure as SVG', () => {
  it('is one picture, named and described', () => {
    expect(drawingToSvg(drawing)).toBe(
      [
        `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="bar-title" aria-describedby="bar-desc" viewBox="0 0 300 60" width="300" height="60" font-family="'Atkinson Hyperlegible Next', system-ui, sans-serif">`,
        '<title id="bar-title">The top is off from 23:15 to 05:15.</title>',
        '<desc id="bar-desc">The bottom is always on.</desc>',
        '<path d="M 0 10 h 300 v 20 h -300 Z" fill="#2b3139"/>',
        '<path d="M 100 10 Q 150 0 200 10 v 20 h -100 Z" fill="#ededed"/>',
        '<text x="150" y="50" font-size="14" text-anchor="middle" fill="#111111">23:15</text>',
        '</svg>',
      ].join('\n'),
    );
  });
});

describe('a figure in a PDF', () => {
  // A quadratic curve P0 C P1 is the cubic P0, P0+2/3(C-P0), P1+2/3(C-P1), P1 (degree elevation, any text on Bézier curves).
  it('has quadratic curves as the cubics that equal them', async () => {
    const { bytes } = await printPdf(page([{ block: 'figure', drawing, share: 1, line: 1 }]), faces);
    const { fnArray, argsArray } = await (await (await open(bytes as Uint8Array)).getPage(1)).getOperatorList();
    const paths = fnArray.flatMap((fn, i) =>
      fn === OPS.constructPath ? [Array.from((argsArray[i] as [unknown, [ArrayLike<number>]])[1][0])] : [],
    );
    const curve = paths.find(
      (path) => path.length > 8 && path[0] === 0 && path[1] === 100 && path[2] === 10 && path[3] === 2,
    ) as number[];
    const expected = [100 + (2 / 3) * 50, 10 - (2 / 3) * 10, 200 - (2 / 3) * 50, 10 - (2 / 3) * 10, 200, 10];
    expect(curve.slice(4, 10).map((n) => Math.round(n * 1000) / 1000)).toEqual(expected.map((n) => Math.round(n * 1000) / 1000));
  });
});

describe('signs', () => {
  // ISO 3864-1, prohibition sign of diameter d: ring 0.1 d wide, bar 0.08 d wide at 45°, falling from the upper left.
  it('the prohibition sign has the proportions of ISO 3864-1', () => {
    const [ring, bar] = prohibition(100, '#a8191e', '#ffffff');
    expect(ring?.width).toBe(10);
    expect(ring?.d).toContain('A 45 45');
    const points = [...(bar?.d ?? '').matchAll(/[ML] (-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
    const [a, b, , d] = points as readonly (readonly [number, number])[] as [
      readonly [number, number],
      readonly [number, number],
      unknown,
      readonly [number, number],
    ];
    expect((b[1] - a[1]) / (b[0] - a[0])).toBeCloseTo(1, 2);
    expect(Math.hypot(a[0] - d[0], a[1] - d[1])).toBeCloseTo(8, 1);
  });

  // ANSI Z535.4: the safety alert symbol is an equilateral triangle around an exclamation mark.
  it('the alert symbol is an equilateral triangle', () => {
    const [triangle] = alertSymbol(100, '#000000', '#ffcc00');
    const [top, right, left] = [...(triangle?.d ?? '').matchAll(/[ML] (-?[\d.]+) (-?[\d.]+)/g)].map(
      ([, x, y]) => [Number(x), Number(y)] as const,
    );
    const side = (p: readonly [number, number] | undefined, q: readonly [number, number] | undefined): number =>
      Math.hypot((p?.[0] ?? 0) - (q?.[0] ?? 0), (p?.[1] ?? 0) - (q?.[1] ?? 0));
    expect(side(top, right) / side(left, right)).toBeCloseTo(1, 1);
    expect(side(top, left) / side(left, right)).toBeCloseTo(1, 1);
  });

  it('a hatch stays inside its cell', () => {
    for (const [w, h] of [
      [40, 20],
      [20, 40],
      [3, 3],
    ] as const) {
      const numbers = [...(hatch(w, h, 5, '#000000')[0]?.d ?? '').matchAll(/[ML] (-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [
        Number(x),
        Number(y),
      ]);
      expect(numbers.length).toBeGreaterThan(0);
      for (const [x, y] of numbers as [number, number][]) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(w);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(h);
      }
    }
  });
});
