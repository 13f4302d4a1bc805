/**
 * Right and wrong as vector marks: a tick, and the general prohibition sign of ISO 7010 (P001) in the proportions of ISO 3864.
 */
import { circle, type Mark } from './drawing.js';
import { fill, polygon, shape, stroke } from './strokes.js';

/** A check mark in a square of the size given. */
export const tick = (x: number, y: number, size: number): readonly Mark[] => {
  const at = (a: number, b: number): readonly [number, number] => [x + a * size, y + b * size];
  return [fill(polygon(at(0.02, 0.55), at(0.16, 0.4), at(0.37, 0.6), at(0.83, 0.08), at(0.98, 0.21), at(0.38, 0.9)), 'ink')];
};

/** A ring a tenth of the diameter wide, and a bar of eight hundredths falling from the upper left. */
export const prohibited = (x: number, y: number, size: number): readonly Mark[] => {
  const centre = size / 2;
  const reach = 0.45 * size * Math.SQRT1_2;
  const half = 0.04 * size * Math.SQRT1_2;
  const at = (a: number, b: number): readonly [number, number] => [x + centre + a, y + centre + b];
  return [
    shape(circle(x + centre, y + centre, 0.45 * size), 'paper', 0.1 * size, 'danger'),
    fill(
      polygon(
        at(half - reach, -half - reach),
        at(reach + half, reach - half),
        at(reach - half, reach + half),
        at(-reach - half, half - reach),
      ),
      'danger',
    ),
  ];
};

/** A point that a leader starts from. */
export const point = (x: number, y: number): readonly Mark[] => [shape(circle(x, y, 3.2), 'ink', 1.2, 'paper')];

/** A solid triangle whose tip is at x, y, seen along an angle (radians clockwise from the right). */
export const arrowHead = (x: number, y: number, angle: number, size: number, tone: 'ink' | 'paper' = 'ink'): Mark => {
  const back = (turn: number): readonly [number, number] => [
    x - size * Math.cos(angle + turn),
    y - size * Math.sin(angle + turn),
  ];
  return fill(polygon([x, y], back(0.45), back(-0.45)), tone);
};

export const leader = (d: string): readonly Mark[] => [stroke(d, 3, 'paper'), stroke(d, 0.9)];
