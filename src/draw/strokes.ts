/**
 * The one system of line weights and patterns that all figures share: pictures are told apart by weight, pattern and label, so that they hold in greys.
 */
import { pathOf, type Mark, type Tone } from './drawing.js';

/** Points: a leader or a hatch; an edge; an outline; what the picture is about. */
export const HAIR = 0.9;
export const EDGE = 1.5;
export const OUTLINE = 2.5;
export const HEAVY = 4.5;

export const fill = (d: string, tone: Tone): Mark => ({ mark: 'path', d, fill: tone });

export const stroke = (d: string, width: number, tone: Tone = 'ink', dash?: readonly number[]): Mark => ({
  mark: 'path',
  d,
  stroke: tone,
  width,
  ...(dash ? { dash } : {}),
});

/** A shape with its outline. */
export const shape = (d: string, tone: Tone, width: number, edge: Tone = 'ink'): Mark => ({
  mark: 'path',
  d,
  fill: tone,
  stroke: edge,
  width,
});

export const polygon = (...points: readonly (readonly [number, number])[]): string =>
  pathOf(...points.flatMap(([x, y], i) => [i === 0 ? 'M' : 'L', x, y]), 'Z');

/** Rising diagonals that fill a rectangle and end at its sides. */
export const hatched = (x: number, y: number, w: number, h: number, pitch = 9): string => {
  const parts: (string | number)[] = [];
  for (let c = pitch / 2; c < w + h; c += pitch) {
    const from = Math.max(0, c - h);
    const to = Math.min(w, c);
    parts.push('M', x + from, y + c - from, 'L', x + to, y + c - to);
  }
  return pathOf(...parts);
};
