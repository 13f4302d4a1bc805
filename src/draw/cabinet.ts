/**
 * Parts of a unit seen from the front, in one manner: what is shut is drawn plain with its handle, what is cut open is grey inside with its food.
 */
import { circle, pathOf, rectangle, type Mark } from './drawing.js';
import { arrowHead } from './marks.js';
import { level, panMarks, type Pan } from './pans.js';
import { EDGE, fill, HAIR, HEAVY, OUTLINE, polygon, shape, stroke } from './strokes.js';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const rect = (box: Box): string => rectangle(box.x, box.y, box.width, box.height);

export const within = ({ x, y, width, height }: Box, by: number): Box => ({
  x: x + by,
  y: y + by,
  width: width - 2 * by,
  height: height - 2 * by,
});

export const body = (box: Box): Mark => shape(rect(box), 'paper', OUTLINE);

/** A shut door; its handle on the side where it opens. */
export const door = (box: Box, handle: 'left' | 'right'): readonly Mark[] => {
  const inner = within(box, 4);
  const x = handle === 'left' ? inner.x + 8 : inner.x + inner.width - 8;
  return [
    shape(rect(inner), 'paper', EDGE),
    stroke(pathOf('M', x, inner.y + inner.height * 0.3, 'v', Math.min(44, inner.height * 0.35)), HEAVY),
  ];
};

/** Widths and heights of what stands on a shelf, in parts of it. */
const GOODS: readonly (readonly [number, number, number])[] = [[0.06, 0.3, 0.55], [0.42, 0.22, 0.38], [0.7, 0.24, 0.5]]; // prettier-ignore

export interface Shelves {
  readonly marks: readonly Mark[];
  /** On the food of the top shelf. */
  readonly probe: readonly [number, number];
  /** Height of the line that food stays under on the top shelf. */
  readonly line: number;
}

/** An open section with its shelves, food on each below the line; bottles where drinks are kept. */
export const shelves = (box: Box, count: number, bottles: boolean): Shelves => {
  const inner = within(box, 4);
  const pitch = inner.height / count;
  const floors = Array.from({ length: count }, (_, i) => inner.y + (i + 1) * pitch);
  const goods = floors.flatMap((floor) =>
    bottles
      ? Array.from({ length: 5 }, (_, k): string => {
          const [w, h] = [inner.width * 0.11, pitch * 0.62];
          const x = inner.x + inner.width * (0.09 + k * 0.175);
          return pathOf(
            'M',
            x,
            floor,
            'v',
            -h * 0.6,
            'l',
            w * 0.3,
            -h * 0.15,
            'v',
            -h * 0.25,
            'h',
            w * 0.4,
            'v',
            h * 0.25,
            'l',
            w * 0.3,
            h * 0.15,
            'v',
            h * 0.6,
            'Z',
          );
        })
      : GOODS.map(([at, w, h]) => rectangle(inner.x + at * inner.width, floor - h * pitch, w * inner.width, h * pitch)),
  );
  const racks = floors.slice(0, -1).map((floor) => pathOf('M', inner.x, floor, 'h', inner.width));
  return {
    marks: [
      shape(rect(inner), 'wash', EDGE),
      shape(goods.join(' '), bottles ? 'paper' : 'rule', HAIR),
      ...(racks.length > 0 ? [stroke(racks.join(' '), OUTLINE)] : []),
    ],
    probe: [inner.x + inner.width * 0.82, (floors[0] as number) - pitch * 0.3],
    line: inner.y + pitch * 0.28,
  };
};

/** A drawer's front; open: cut away, with the pans in it. */
export const drawer = (box: Box, pans: number | undefined): readonly Mark[] => {
  const inner = within(box, 4);
  if (pans === undefined)
    return [
      shape(rect(inner), 'paper', EDGE),
      stroke(pathOf('M', inner.x + inner.width * 0.3, inner.y + 9, 'h', inner.width * 0.4), HEAVY),
    ];
  const room = (inner.width - 8) / pans;
  const held = Array.from({ length: pans }, (_, i): Pan => ({
    x: inner.x + 5 + i * room,
    top: inner.y + 12,
    width: room - 2,
    depth: inner.height - 20,
  }));
  return [shape(rect(inner), 'wash', EDGE), ...held.flatMap((pan) => [...panMarks(pan), level(pan, 9)])];
};

/** Slots through which the condensing unit breathes. */
export const louvre = (box: Box): Mark => {
  const slots = Math.max(2, Math.floor(box.height / 9));
  return stroke(
    Array.from({ length: slots }, (_, i) => pathOf('M', box.x, box.y + (i + 0.5) * (box.height / slots), 'h', box.width)).join(
      ' ',
    ),
    EDGE,
  );
};

/** A clock, a hand switch or a display with the top's own control; each with its centre at x, y. */
export const CONTROLS = {
  clock: (x: number, y: number): readonly Mark[] => [
    shape(circle(x, y, 14), 'paper', OUTLINE),
    stroke(pathOf('M', x, y - 9, 'V', y, 'L', x + 7, y + 4), OUTLINE),
  ],
  switch: (x: number, y: number): readonly Mark[] => [
    shape(rectangle(x - 9, y - 14, 18, 28), 'paper', OUTLINE),
    fill(rectangle(x - 5, y - 10, 10, 10), 'ink'),
  ],
  controller: (x: number, y: number): readonly Mark[] => [
    shape(rectangle(x - 16, y - 11, 32, 22), 'paper', OUTLINE),
    stroke(pathOf('M', x - 10, y, 'h', 20), HEAVY),
  ],
  /** A thermometer: it holds a temperature, and has no clock. */
  thermostat: (x: number, y: number): readonly Mark[] => [
    shape(
      pathOf(
        'M',
        x - 4,
        y + 3,
        'V',
        y - 11,
        'A',
        4,
        4,
        0,
        0,
        1,
        x + 4,
        y - 11,
        'V',
        y + 3,
        'A',
        8,
        8,
        0,
        1,
        1,
        x - 4,
        y + 3,
        'Z',
      ),
      'paper',
      EDGE,
    ),
    stroke(pathOf('M', x, y - 6, 'V', y + 8), HEAVY),
  ],
} as const;

/** A dashed line from a control to what it rules. */
export const rules = (d: string): Mark => stroke(d, EDGE, 'ink', [5, 3]);

/** A fan. */
export const fan = (x: number, y: number, r: number): readonly Mark[] => {
  const blade = (turn: number): string => {
    const at = (a: number, reach: number): readonly [number, number] => [x + reach * Math.cos(a), y + reach * Math.sin(a)];
    return polygon([x, y], at(turn - 0.45, r * 0.8), at(turn + 0.45, r * 0.8));
  };
  return [
    shape(circle(x, y, r), 'paper', EDGE),
    fill([0, 1, 2].map((k) => blade((k * 2 * Math.PI) / 3 - Math.PI / 2)).join(' '), 'ink'),
  ];
};

/** Cold air that rises from below. */
export const risingAir = (x: number, foot: number, top: number): readonly Mark[] => [
  stroke(pathOf('M', x, foot, 'V', top + 8), EDGE),
  arrowHead(x, top, -Math.PI / 2, 10),
];
