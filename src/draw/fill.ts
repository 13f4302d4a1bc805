/**
 * Filling and setting pans, right over wrong: level under the load line or heaped, a pan in each opening or a hole, one pan or a pan in a pan.
 */
import { ZONE_KINDS, type ZoneKindName } from '../trade/zones.js';
import { pathOf, type Mark } from './drawing.js';
import type { Figure } from './figure.js';
import { block, bold, MEDIUM, put, type Line } from './lettering.js';
import { arrowHead, prohibited, tick } from './marks.js';
import { coldWall, heaped, level, loadLine, panMarks, type Pan } from './pans.js';
import { EDGE, OUTLINE, stroke } from './strokes.js';

const WIDTH = 540;
const COLUMN = WIDTH / 3;
/** Over the rims: nothing but their line, or a heap. */
const FLAT = 3;
const HEAP = 30;
const DEPTH = 50;
const WALL = 7;
/** Where the line is drawn, below the rim. */
const LINE = 13;
const MARK = 32;
const EDGES = 20;
const INSIDE = COLUMN - 2 * EDGES;

/** A scene with the left end of its rims at x, y. */
type Scene = (x: number, y: number) => readonly Mark[];

const row = (count: number, x: number, y: number): readonly Pan[] =>
  Array.from({ length: count }, (_, i) => ({
    x: x + EDGES + (i * INSIDE) / count + 1.5,
    top: y,
    width: INSIDE / count - 3,
    depth: DEPTH,
  }));

/** The well, its wall cold or not, and the edges of the top that it hangs in. */
const well = (x: number, y: number, cold: boolean): readonly Mark[] => [
  coldWall(x + EDGES, y, INSIDE, DEPTH + WALL, WALL, cold ? 'cold' : 'rule'),
  stroke(pathOf('M', x + 4, y, 'H', x + EDGES, 'M', x + EDGES + INSIDE, y, 'H', x + COLUMN - 4), OUTLINE),
];

const line: Scene = (x, y) => [loadLine(x + EDGES - WALL, x + EDGES + INSIDE + WALL, y + LINE)];
const filled = (pan: Pan): readonly Mark[] => [...panMarks(pan), level(pan, LINE + 4)];

/** Warm air that falls into a hole. */
const air = (pan: Pan): readonly Mark[] =>
  [0.22, 0.5, 0.78].flatMap((part) => {
    const x = pan.x + pan.width * part;
    const tip = pan.top + 36;
    return [
      stroke(pathOf('M', x, pan.top - 24, 'C', x + 9, pan.top - 8, x - 9, pan.top + 6, x, tip - 8), EDGE),
      arrowHead(x, tip, Math.PI / 2, 9),
    ];
  });

/** One pan alone, the rest of the well covered. */
const alone = (x: number, y: number): { readonly pan: Pan; readonly marks: readonly Mark[] } => {
  const pan: Pan = { x: x + EDGES + INSIDE * 0.14, top: y, width: INSIDE * 0.72, depth: DEPTH };
  return {
    pan,
    marks: [
      stroke(pathOf('M', x + EDGES, y, 'H', pan.x, 'M', pan.x + pan.width, y, 'H', x + EDGES + INSIDE), OUTLINE),
      ...panMarks(pan),
    ],
  };
};

const PAIRS: readonly { readonly right: string; readonly good: Scene; readonly wrong: string; readonly bad: Scene }[] = [
  {
    right: 'level',
    good: (x, y) => [...row(2, x, y).flatMap(filled), ...line(x, y)],
    wrong: 'heaped',
    bad: (x, y) => [...row(2, x, y).flatMap((pan) => [...panMarks(pan), ...heaped(pan, 21)]), ...line(x, y)],
  },
  {
    right: 'each-opening',
    good: (x, y) => [...row(3, x, y).flatMap(filled)],
    wrong: 'hole',
    bad: (x, y) => [...row(3, x, y).flatMap((pan, i) => (i === 1 ? air(pan) : filled(pan)))],
  },
  {
    right: 'one-pan',
    good: (x, y) => {
      const { pan, marks } = alone(x, y);
      return [...marks, level(pan, LINE + 4)];
    },
    wrong: 'pan-in-pan',
    bad: (x, y) => {
      const { pan, marks } = alone(x, y);
      const inner: Pan = { x: pan.x + 6, top: y - 8, width: pan.width - 12, depth: DEPTH - 12 };
      return [...marks, ...panMarks(inner), level(inner, LINE)];
    },
  },
];

export const fillPans: Figure = ({ unit, speaker, width }) => {
  const rail = unit?.rail;
  if (!rail?.pans) return undefined;
  const { pans } = rail;
  const said = (code: string): Line => speaker.phrase(`fill.${code}`, { load_line: pans.load_line });
  const cold = ZONE_KINDS[rail.kind.value.code as ZoneKindName].cooled === 'static';
  const room = COLUMN - MARK - 20;
  const captions = (codes: readonly string[]) => codes.map((code) => block(bold(said(code)), MEDIUM, room, width));
  const band = (
    codes: readonly string[],
    scenes: readonly Scene[],
    sign: typeof tick,
    rims: number,
  ): { readonly marks: readonly Mark[]; readonly bottom: number } => {
    const labels = captions(codes);
    const under = rims + DEPTH + 2 * WALL + 8;
    const marks = labels.flatMap((label, i): readonly Mark[] => {
      const x = i * COLUMN;
      return [
        ...well(x, rims, cold),
        ...(scenes[i] as Scene)(x, rims),
        ...sign(x + 4, under, MARK),
        ...put(label, x + MARK + 12, under + Math.max(0, (MARK - label.height) / 2), 'start', width),
      ];
    });
    return { marks, bottom: under + Math.max(MARK, ...labels.map((l) => l.height)) };
  };
  const right = band(
    PAIRS.map((p) => p.right),
    PAIRS.map((p) => p.good),
    tick,
    FLAT,
  );
  const wrong = band(
    PAIRS.map((p) => p.wrong),
    PAIRS.map((p) => p.bad),
    prohibited,
    right.bottom + HEAP + 12,
  );
  return {
    name: 'fill',
    width: WIDTH,
    height: wrong.bottom,
    alt: speaker.phrase('fill.alt', { load_line: pans.load_line }),
    marks: [...right.marks, ...wrong.marks],
  };
};
