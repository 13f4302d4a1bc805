/**
 * The vector marks of a page: boxes to tick, bullets, the prohibition sign, the safety alert symbol, hatching, the ring for a punched hole.
 * Path data in points from the mark's own top left corner; marks are drawn, never glyphs.
 */
import { circle, pathOf, rectangle } from '../draw/drawing.js';
import type { Element, Paint } from './sheet.js';

type Shape = Omit<Extract<Paint, { kind: 'path' }>, 'kind' | 'x' | 'y' | 'of'>;

/** Puts shapes of one mark at a place. */
export const put = (x: number, y: number, shapes: readonly Shape[], of?: Element): readonly Paint[] =>
  shapes.map((shape) => ({ kind: 'path', x, y, ...shape, ...(of ? { of } : {}) }));

export const filled = (d: string, fill: string): Shape => ({ d, fill });
export const bar = (width: number, height: number, fill: string): Shape => filled(rectangle(0, 0, width, height), fill);

/** An empty box for a pen; `size` is its outer side. */
export const tickBox = (size: number, colour: string): readonly Shape[] => {
  const stroke = Math.max(0.9, size * 0.085);
  return [{ d: rectangle(stroke / 2, stroke / 2, size - stroke, size - stroke), fill: '#ffffff', stroke: colour, width: stroke }];
};

export const bullet = (size: number, colour: string): readonly Shape[] => [bar(size, size, colour)];

/**
 * The general prohibition sign, ISO 7010 P001: a red ring a tenth of the diameter wide and a bar of 0.08 diameters, falling at 45°
 * from the upper left, on white (proportions of ISO 3864-1). Dark enough to be seen in greys.
 */
export const prohibition = (size: number, red: string, ground: string): readonly Shape[] => {
  const r = size / 2;
  const half = (0.08 * size) / 2;
  const reach = r - 0.05 * size;
  const along = reach * Math.SQRT1_2;
  const across = half * Math.SQRT1_2;
  const point = (a: number, b: number): [number, number] => [r + a, r + b];
  const slash = [
    point(-along + across, -along - across),
    point(along + across, along - across),
    point(along - across, along + across),
    point(-along - across, -along + across),
  ];
  return [
    { d: circle(r, r, 0.45 * size), fill: ground, stroke: red, width: 0.1 * size },
    { d: pathOf(...slash.flatMap(([px, py], i) => [i === 0 ? 'M' : 'L', px, py]), 'Z'), fill: red },
  ];
};

/**
 * The safety alert symbol of ANSI Z535: an equilateral triangle with an exclamation mark.
 * @param size height of the triangle, points. @param mark colour of the exclamation mark.
 */
export const alertSymbol = (size: number, triangle: string, mark: string): readonly Shape[] => {
  const w = (size * 2) / Math.sqrt(3);
  const round = size * 0.06;
  const outline = pathOf('M', w / 2, round, 'L', w - round * 1.6, size - round, 'L', round * 1.6, size - round, 'Z');
  const cx = w / 2;
  const top = size * 0.33;
  const foot = size * 0.7;
  const upper = size * 0.095;
  const lower = size * 0.055;
  const stem = pathOf('M', cx - upper, top, 'L', cx + upper, top, 'L', cx + lower, foot, 'L', cx - lower, foot, 'Z');
  return [
    { d: outline, fill: triangle, stroke: triangle, width: round * 2 },
    filled(stem, mark),
    filled(circle(cx, size * 0.82, size * 0.08), mark),
  ];
};

export const alertWidth = (size: number): number => (size * 2) / Math.sqrt(3);

/** Diagonal lines that fill a rectangle, cut at its sides. */
export const hatch = (width: number, height: number, pitch: number, colour: string): readonly Shape[] => {
  const parts: (string | number)[] = [];
  for (let c = pitch / 2; c < width + height; c += pitch) {
    const x0 = Math.max(0, c - height);
    const x1 = Math.min(width, c);
    parts.push('M', x0, c - x0, 'L', x1, c - x1);
  }
  return parts.length === 0 ? [] : [{ d: pathOf(...parts), stroke: colour, width: 0.6 }];
};

/** Where a hole may be punched. */
export const holeRing = (diameter: number, colour: string): readonly Shape[] => [
  { d: circle(diameter / 2, diameter / 2, diameter / 2), stroke: colour, width: 0.5, dash: [2, 2] },
];
