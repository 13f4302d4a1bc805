/**
 * Pans of a rail cut open, as fill and elevation draw them: the rim at `top`, the walls drawn in, food up to a level, the cold wall around the well.
 */
import { pathOf, type Mark, type Tone } from './drawing.js';
import { EDGE, fill, OUTLINE, polygon, shape, stroke } from './strokes.js';

export interface Pan {
  readonly x: number;
  /** The rim. */
  readonly top: number;
  readonly width: number;
  readonly depth: number;
}

/** How far the walls stand in from the rim at the top, and at the floor. */
const inset = ({ width }: Pan): { readonly wall: number; readonly floor: number } => ({
  wall: width * 0.07,
  floor: width * 0.13,
});

/** Inner sides of a pan at a depth below its rim. */
const sides = (pan: Pan, below: number): readonly [number, number] => {
  const { wall, floor } = inset(pan);
  const into = wall + ((floor - wall) * Math.max(0, below)) / pan.depth;
  return [pan.x + into, pan.x + pan.width - into];
};

export const panMarks = (pan: Pan): readonly Mark[] => {
  const { x, top, width, depth } = pan;
  const [left, right] = sides(pan, 0);
  const [low, high] = sides(pan, depth);
  const body = pathOf('M', left, top, 'L', low, top + depth, 'H', high, 'L', right, top);
  return [shape(body, 'paper', EDGE), stroke(pathOf('M', x, top, 'H', x + width), OUTLINE)];
};

/** Food with a level top. */
export const level = (pan: Pan, below: number): Mark => {
  const [left, right] = sides(pan, below);
  const [low, high] = sides(pan, pan.depth);
  return fill(
    polygon([left, pan.top + below], [right, pan.top + below], [high, pan.top + pan.depth], [low, pan.top + pan.depth]),
    'rule',
  );
};

/** Food heaped over the rim. */
export const heaped = (pan: Pan, above: number): readonly Mark[] => {
  const [left, right] = sides(pan, 0);
  const third = (right - left) / 3;
  const hill = pathOf(
    'M',
    left,
    pan.top,
    'C',
    left + third * 0.7,
    pan.top - above * 1.35,
    right - third * 0.7,
    pan.top - above * 1.35,
    right,
    pan.top,
    'Z',
  );
  return [level(pan, 0), shape(hill, 'rule', EDGE)];
};

/** Both sides and the floor of the well, `thick` wide, its inside from `x` to `x + width`; in the tone of cold where they are what cools. */
export const coldWall = (x: number, top: number, width: number, depth: number, thick: number, tone: Tone = 'cold'): Mark =>
  fill(
    polygon(
      [x - thick, top],
      [x, top],
      [x, top + depth],
      [x + width, top + depth],
      [x + width, top],
      [x + width + thick, top],
      [x + width + thick, top + depth + thick],
      [x - thick, top + depth + thick],
    ),
    tone,
  );

/** The line that food stays under. */
export const loadLine = (from: number, to: number, y: number): Mark =>
  stroke(pathOf('M', from, y, 'H', to), OUTLINE, 'ink', [7, 4]);
