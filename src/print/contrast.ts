/**
 * Contrast of two colours as WCAG 2.2 defines it (relative luminance of sRGB), and the darkening that makes a colour fit for text.
 * Colours are `#rrggbb`.
 */

const channel = (eight: number): number => {
  const c = eight / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
};

/** @throws when the colour is not `#rrggbb`: it was to be checked when it was read. */
const rgbOf = (colour: string): readonly [number, number, number] => {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new Error(`${colour} is not a colour of the form #rrggbb`);
  const n = Number.parseInt(colour.slice(1), 16);
  return [n >> 16, (n >> 8) & 0xff, n & 0xff];
};

/** Relative luminance, 0 to 1 (WCAG 2.2, definition of relative luminance). */
export const luminance = (colour: string): number => {
  const [r, g, b] = rgbOf(colour);
  return 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
};

/** Contrast ratio, 1 to 21 (WCAG 2.2, definition of contrast ratio). */
export const contrast = (one: string, other: string): number => {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (high + 0.05) / (low + 0.05);
};

const hex = (n: number): string => Math.round(n).toString(16).padStart(2, '0');

/** The colour mixed with black or white in steps of a fiftieth until it stands `least` to 1 against `ground`; unchanged if it does already. */
export const readableOn = (colour: string, ground: string, least: number): string => {
  const towards = luminance(ground) > 0.18 ? 0 : 255;
  const rgb = rgbOf(colour);
  for (let step = 0; step <= 50; step++) {
    const mixed = `#${rgb.map((c) => hex(c + ((towards - c) * step) / 50)).join('')}`;
    if (contrast(mixed, ground) >= least) return mixed;
  }
  throw new Error(`no mix of ${colour} stands ${least}:1 against ${ground}`);
};
