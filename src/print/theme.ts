/**
 * The look of a page: type sizes by reading distance with their legible floors, spacing, sheets and margins, and the colour of each tone.
 * Lengths are points. Sizes are stated as the height of a capital, since that is what legibility rules count.
 */
import { SHEETS } from '../base/sheet-size.js';
import type { Distance, Level, Page } from '../compose/block.js';
import type { Tone } from '../draw/drawing.js';
import { contrast, readableOn } from './contrast.js';
import type { FaceName } from './faces.js';

export const MM = 72 / 25.4;
const INCH = 72;

/** Everything on a page that is set in type. */
export type TypeRole = 'signal' | 'message' | 'body' | 'fine' | 'label' | 'h1' | 'h2' | 'h3' | 'h4';

interface TypeSpec {
  /** Height of a capital, points: as set, and never under. */
  readonly normal: number;
  readonly floor: number;
}

const scaleOf = (
  body: number,
  floor: number,
  ratios: Partial<Record<TypeRole, number>>,
): Readonly<Record<TypeRole, TypeSpec>> => {
  const spec = (role: TypeRole): TypeSpec => ({ normal: Math.max(floor, body * (ratios[role] ?? 1)), floor });
  return {
    signal: spec('signal'),
    message: spec('message'),
    body: spec('body'),
    fine: { normal: floor, floor },
    label: spec('label'),
    h1: spec('h1'),
    h2: spec('h2'),
    h3: spec('h3'),
    h4: spec('h4'),
  };
};

/**
 * Room: ANSI Z535.2 clause 9.2.3, read at 10 ft: a signal's capitals at least distance/150, a message's at least distance/300 (0.8 in and 0.4 in).
 * Unit: 3 mm at about 3 ft, above distance/300. Hand: 2.2 mm, about 9.5 point type. Sizes above the floors are the house's choice.
 */
const TYPE: Readonly<Record<Distance, Readonly<Record<TypeRole, TypeSpec>>>> = {
  room: {
    ...scaleOf(0.44 * INCH, 0.4 * INCH, { message: 1.04, h1: 1.5, h2: 1.2 }),
    signal: { normal: 1.05 * INCH, floor: 0.8 * INCH },
  },
  unit: scaleOf(4 * MM, 3 * MM, { signal: 2.6, message: 1.35, label: 0.85, h1: 2, h2: 1.45, h3: 1.15 }),
  hand: scaleOf(2.7 * MM, 2.2 * MM, { signal: 2.8, message: 1.35, label: 0.9, h1: 2.1, h2: 1.5, h3: 1.2 }),
};

/** Figures keep their labels at this height or above; across the room a picture is read by its shape, and its labels at the unit. */
export const FIGURE_FLOOR: Readonly<Record<Distance, number>> = {
  room: TYPE.unit.fine.floor,
  unit: TYPE.unit.fine.floor,
  hand: TYPE.hand.fine.floor,
};

const LEADING: Readonly<Record<TypeRole, number>> = {
  signal: 0.98,
  message: 1.14,
  body: 1.26,
  fine: 1.24,
  label: 1.2,
  h1: 1.06,
  h2: 1.1,
  h3: 1.16,
  h4: 1.2,
};

const FACE: Readonly<Record<TypeRole, FaceName>> = {
  signal: 'heavy',
  message: 'strong',
  body: 'regular',
  fine: 'regular',
  label: 'strong',
  h1: 'heavy',
  h2: 'heavy',
  h3: 'strong',
  h4: 'strong',
};

export interface TypeStyle {
  readonly role: TypeRole;
  /** Font size and distance of two baselines, points. */
  readonly size: number;
  readonly pitch: number;
  readonly face: FaceName;
}

/**
 * Type at a distance on a rung of the fit ladder.
 * @param capHeight of the face, em.
 * @param scale 1 as designed; smaller sizes stop at the legible floor.
 */
export const typeStyle = (distance: Distance, role: TypeRole, capHeight: number, scale: number): TypeStyle => {
  const { normal, floor } = TYPE[distance][role];
  const size = Math.max(floor, normal * scale) / capHeight;
  return { role, size, pitch: size * LEADING[role], face: FACE[role] };
};

export const sheetOf = (page: Page): { readonly width: number; readonly height: number; readonly margin: number } => {
  const { sides, unit } = SHEETS[page.sheet];
  const points = unit === 'in' ? INCH : MM;
  const [short, long] = [sides[0] * points, sides[1] * points];
  // 4 to 6 mm that office printers leave white and, laminated, 6 mm inside the trim (common practice, no source).
  const margin = (page.finish === 'laminated' ? 12.5 : 11) * MM;
  return page.orientation === 'portrait' ? { width: short, height: long, margin } : { width: long, height: short, margin };
};

/** Of a page that a browser prints, mm: what it leaves white, and a little, as above. */
export const BROWSER_MARGIN = 12;

export const PAPER = '#ffffff';
const INK = '#111111';

/**
 * Safety colours: ANSI Z535.1 / ISO 3864-4 name red, orange, yellow, blue and green with printing tolerances, and no page needs green;
 * within these, the red and blue are dark enough for white letters at 7:1, and the orange light enough for black ones, in greys too.
 */
const SAFETY: Readonly<Record<'red' | 'orange' | 'yellow' | 'blue', string>> = {
  red: '#a8191e',
  orange: '#ff7e00',
  yellow: '#ffcc00',
  blue: '#0b4f9c',
};

/** Hue in degrees, and how far a colour is from grey, 0 to 1. */
const hueOf = (colour: string): { readonly hue: number; readonly chroma: number } => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255);
  const [most, chroma] = [Math.max(r, g, b), Math.max(r, g, b) - Math.min(r, g, b)];
  if (chroma === 0) return { hue: 0, chroma };
  const sixth = most === r ? ((g - b) / chroma + 6) % 6 : most === g ? (b - r) / chroma + 2 : (r - g) / chroma + 4;
  return { hue: sixth * 60, chroma };
};

/** Hues this near, of colours this strong, may be taken for one another on a greasy wall. Common practice, no source. */
const [HUES_APART, STRONG] = [15, 0.35];

/** Green, for the way out and first aid: no page prints it (RAL 6032 in sRGB, from memory, no source). */
const WAY_OUT = '#237f52';

/** What the safety colour stands for that a colour may be taken for; undefined for a dull one, or one of another hue. */
export const levelLike = (colour: string): 'danger' | 'warning' | 'caution' | 'notice' | 'the way out' | undefined => {
  const { hue, chroma } = hueOf(colour);
  const away = (safety: string): number => Math.abs(((hue - hueOf(safety).hue + 540) % 360) - 180);
  const levels = {
    danger: SAFETY.red,
    warning: SAFETY.orange,
    caution: SAFETY.yellow,
    notice: SAFETY.blue,
    'the way out': WAY_OUT,
  } as const;
  const [nearest] = (Object.keys(levels) as (keyof typeof levels)[]).sort((a, b) => away(levels[a]) - away(levels[b]));
  return nearest !== undefined && chroma >= STRONG && away(levels[nearest]) <= HUES_APART ? nearest : undefined;
};

const TONES: Readonly<Record<Exclude<Tone, 'brand'>, string>> = {
  ink: INK,
  'soft-ink': '#454545',
  rule: '#858585',
  paper: PAPER,
  wash: '#ededed',
  'on-brand': PAPER,
  cold: '#2b3139',
  danger: SAFETY.red,
  warning: SAFETY.orange,
  caution: SAFETY.yellow,
  notice: SAFETY.blue,
};

/** Contrast that text keeps (WCAG 2.2, 1.4.6) and that the shapes which carry meaning keep (1.4.11). */
export const TEXT_CONTRAST = 7;
export const SHAPE_CONTRAST = 3;

/** Tones of text on paper: one too pale to read is darkened; `paper` and `on-brand` are for a dark ground. */
const TEXT_TONES = Object.fromEntries(
  Object.entries(TONES).map(([tone, colour]) => [tone, colour === PAPER ? PAPER : readableOn(colour, PAPER, TEXT_CONTRAST)]),
) as typeof TONES;

/** True for a shape that can be told from paper. */
export const standsOut = (colour: string): boolean => contrast(colour, PAPER) >= SHAPE_CONTRAST;

export interface Palette {
  /** A filled or stroked shape. */
  shape(tone: Tone): string;
  /** Text on paper. */
  text(tone: Tone): string;
  /** Set when the brand colour was too pale for text and was darkened. */
  readonly adjusted?: { readonly from: string; readonly to: string };
}

export const paletteOf = (brand: string): Palette => {
  const from = brand.toLowerCase();
  const to = readableOn(from, PAPER, TEXT_CONTRAST);
  return {
    shape: (tone) => (tone === 'brand' ? to : TONES[tone]),
    text: (tone) => (tone === 'brand' ? to : TEXT_TONES[tone]),
    ...(from === to ? {} : { adjusted: { from, to } }),
  };
};

/** Signal-word panels in the manner of ANSI Z535.4: letters on a safety colour; `alert` draws the safety alert symbol, which a notice has not. */
export const PANELS: Readonly<Record<Level, { readonly ground: string; readonly letters: string; readonly alert: boolean }>> = {
  danger: { ground: SAFETY.red, letters: PAPER, alert: true },
  warning: { ground: SAFETY.orange, letters: '#000000', alert: true },
  caution: { ground: SAFETY.yellow, letters: '#000000', alert: true },
  notice: { ground: SAFETY.blue, letters: PAPER, alert: false },
};
