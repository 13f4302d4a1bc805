import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Tone } from '../../src/draw/drawing.js';
import { contrast, readableOn } from '../../src/print/contrast.js';
import { PANELS, PAPER, paletteOf } from '../../src/print/theme.js';

// Ratios that WCAG 2.2's own definition gives for these greys, as contrast checkers publish them.
it.each([
  ['#000000', '#ffffff', 21],
  ['#767676', '#ffffff', 4.54],
  ['#595959', '#ffffff', 7.0],
  ['#949494', '#ffffff', 3.03],
])('%s on %s is %d to 1', (one, other, ratio) => {
  expect(contrast(one, other)).toBeCloseTo(ratio, 2);
  expect(contrast(other, one)).toBeCloseTo(ratio, 2);
});

const TONES: readonly Tone[] = [
  'ink',
  'soft-ink',
  'rule',
  'paper',
  'wash',
  'brand',
  'on-brand',
  'cold',
  'danger',
  'warning',
  'caution',
  'notice',
];

describe('the palette', () => {
  const palette = paletteOf('#00857c');

  // WCAG 2.2, 1.4.6: 7 to 1.
  it.each(TONES.filter((tone) => tone !== 'paper' && tone !== 'on-brand'))('%s text stands 7 to 1 on paper', (tone) => {
    expect(contrast(palette.text(tone), PAPER)).toBeGreaterThanOrEqual(7);
  });

  // WCAG 2.2, 1.4.11: 3 to 1. Paper and washes are grounds; safety yellow and orange are too: ISO 3864-1 and ANSI Z535.4 set them off with black.
  it.each(TONES.filter((tone) => !['paper', 'wash', 'on-brand', 'caution', 'warning'].includes(tone)))(
    '%s shapes stand 3 to 1 on paper',
    (tone) => {
      expect(contrast(palette.shape(tone), PAPER)).toBeGreaterThanOrEqual(3);
    },
  );

  it.each(['brand', 'cold', 'danger', 'notice', 'ink'] as const)('paper text stands 7 to 1 on %s', (tone) => {
    expect(contrast(palette.text('paper'), palette.shape(tone))).toBeGreaterThanOrEqual(7);
  });

  it.each(Object.entries(PANELS))('the letters of the %s panel stand 7 to 1 on it', (_, { ground, letters }) => {
    expect(contrast(ground, letters)).toBeGreaterThanOrEqual(7);
  });
});

describe('a brand colour', () => {
  const colour = fc.integer({ min: 0, max: 0xffffff }).map((n) => `#${n.toString(16).padStart(6, '0')}`);

  it('is darkened until text in it can be read, and no more than that', () => {
    fc.assert(
      fc.property(colour, (brand) => {
        const fit = readableOn(brand, PAPER, 7);
        expect(contrast(fit, PAPER)).toBeGreaterThanOrEqual(7);
        if (contrast(brand, PAPER) >= 7) expect(fit).toBe(brand);
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  it('that was darkened says so; one that can be read is left alone', () => {
    expect(paletteOf('#FFD200').adjusted).toMatchObject({ from: '#ffd200' });
    expect(paletteOf('#003366').adjusted).toBeUndefined();
  });

  it("that is no colour is the program's mistake", () => {
    expect(() => paletteOf('teal')).toThrow('#rrggbb');
  });
});
