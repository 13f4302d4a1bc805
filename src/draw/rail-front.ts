/**
 * The top of a table from the front, cut open: covers up, pans in their rows, the line that food stays under, and where the cold comes from.
 */
import type { UnitPlan } from '../plan/unit.js';
import { panRows, PAN_SIZES, type PanSizeName } from '../trade/pans.js';
import type { Cooled } from '../trade/zones.js';
import { body, fan, risingAir } from './cabinet.js';
import { pathOf, rectangle, type Mark } from './drawing.js';
import type { Front } from './front.js';
import { coldWall, level, loadLine, panMarks, type Pan } from './pans.js';
import { EDGE, OUTLINE, shape, stroke } from './strokes.js';

type Pans = NonNullable<NonNullable<UnitPlan['rail']>['pans']>;

/** Points to the metre across, so that tables keep their proportions to each other. */
const ACROSS = 230;
const LEAST = 150;
const MOST = 258;
const LID = 30;
/** A row stands that much above the one before it. */
const RISE = 17;
const DEPTH = 40;
const WALL = 6;
const BOARD = 9;
const MARGIN = 16;

const rowsOf = (pans: Pans): readonly number[] =>
  panRows(pans.size.value.code.replace('pan-', '') as PanSizeName, pans.count.value.n);

/** Width of the table that the pans make, points. */
export const tableWidth = (pans: Pans | undefined): number => {
  if (!pans) return LEAST + 2 * MARGIN;
  const size = PAN_SIZES[pans.size.value.code.replace('pan-', '') as PanSizeName];
  return Math.min(MOST, Math.max(LEAST, (rowsOf(pans)[0] as number) * size.width * ACROSS)) + 2 * MARGIN;
};

export const railFront = (x: number, width: number, pans: Pans | undefined, cooled: Cooled): Front => {
  const counts = pans ? rowsOf(pans) : [];
  const back = LID + 8;
  const front = back + RISE * Math.max(0, counts.length - 1);
  const left = x + MARGIN;
  const inside = width - 2 * MARGIN;
  const foot = front + DEPTH + (cooled === 'shared-air' ? 24 : 10);
  const below = pans ? DEPTH * Math.min(0.5, Math.max(0.18, pans.load_line.value.si / pans.depth.value.si)) : 0;
  // The row at the back first, so that the front one stands before it.
  const rows = counts
    .map((count, i) => {
      const room = inside / (counts[0] as number);
      return Array.from({ length: count }, (_, k): Pan => ({
        x: left + k * room + 1,
        top: front - i * RISE,
        width: room - 2,
        depth: DEPTH,
      }));
    })
    .reverse();
  const lid: readonly Mark[] = [
    shape(pathOf('M', x + 8, back, 'L', x + 22, 3, 'H', x + width - 22, 'L', x + width - 8, back, 'Z'), 'paper', EDGE),
    stroke(pathOf('M', x + width / 2 - 18, 9, 'h', 36), OUTLINE),
  ];
  const cold: readonly Mark[] = {
    static: () => [coldWall(left - 3, back, inside + 6, foot - back - WALL, WALL)],
    'shared-air': () => [0.2, 0.5, 0.8].flatMap((part) => risingAir(left + inside * part, foot + BOARD + 22, foot - 20)),
    'fan-rail': () => fan(x + MARGIN / 2 + 1, foot - 14, 7.5),
    boxed: () => [],
  }[cooled]();
  const middle = rows.at(-1)?.[Math.floor((counts[0] ?? 0) / 2)];
  const last = rows[0]?.at(-1);
  const probe: readonly [number, number] = middle
    ? [middle.x + middle.width / 2, middle.top + below + 9]
    : [x + width / 2, front + DEPTH / 2];
  return {
    marks: [
      ...lid,
      body({ x, y: back, width, height: foot - back }),
      ...(cooled === 'static' ? cold : []),
      ...rows.flat().flatMap((pan) => [...panMarks(pan), level(pan, below + 3)]),
      ...(pans ? [loadLine(left - 4, left + inside + 4, front + below)] : []),
      shape(rectangle(x - 5, foot, width + 10, BOARD), 'paper', OUTLINE),
      ...(cooled === 'static' ? [] : cold),
    ],
    bottom: foot + BOARD,
    spots: {
      covers: [x + width - 30, 16],
      ...(last ? { pans: [last.x + last.width / 2, last.top + 4] } : {}),
      ...(pans ? { railLine: [left + inside, front + below] as const } : {}),
      railProbe: probe,
    },
  };
};
