/**
 * Which part of the unit is meant, without a word: the top or the bottom drawn black in the outline of a table, an arrow at it;
 * on a unit without a top, all of it.
 */
import type { UnitPlan } from '../plan/unit.js';
import { pathOf, rectangle, type Drawing, type Mark } from './drawing.js';
import type { Figure } from './figure.js';
import { arrowHead } from './marks.js';
import { HEAVY, OUTLINE, shape, stroke } from './strokes.js';
import type { Speaker } from '../say/speaker.js';

const WIDTH = 150;
const HEIGHT = 108;
const TABLE = { x: 44, width: 104, top: 8, board: 42, foot: 100 } as const;

type Part = 'top' | 'bottom';

const picture = (part: Part, unit: UnitPlan, speaker: Speaker): Drawing => {
  const { x, width, top, board, foot } = TABLE;
  const table = unit.rail !== undefined;
  const meant = (is: boolean): 'ink' | 'paper' => (is ? 'ink' : 'paper');
  const door = (at: number, is: boolean): Mark => stroke(pathOf('M', at, board + 22, 'v', 18), HEAVY, is ? 'paper' : 'ink');
  const low = part === 'bottom';
  const y = table ? (low ? (board + foot) / 2 + 2 : (top + board) / 2 - 2) : (top + foot) / 2;
  const body: readonly Mark[] = table
    ? [
        shape(
          pathOf('M', x + 8, board - 6, 'L', x + 14, top, 'H', x + width - 14, 'L', x + width - 8, board - 6, 'Z'),
          meant(!low),
          OUTLINE,
        ),
        shape(rectangle(x - 4, board - 6, width + 4, 9), 'paper', OUTLINE),
        shape(rectangle(x, board + 3, width - 4, foot - board - 3), meant(low), OUTLINE),
        stroke(pathOf('M', x + width / 2 - 2, board + 3, 'V', foot), OUTLINE, low ? 'paper' : 'ink'),
      ]
    : [shape(rectangle(x + 14, top, width - 32, foot - top), 'ink', OUTLINE)];
  const handles = table ? [door(x + width / 2 - 10, low), door(x + width / 2 + 6, low)] : [door(x + 24, true)];
  return {
    name: `part-${part}`,
    width: WIDTH,
    height: HEIGHT,
    alt: speaker.phrase(table ? `which-part.${part}` : 'which-part.all'),
    marks: [...body, ...handles, stroke(pathOf('M', 2, y, 'H', x - 20), HEAVY * 1.4), arrowHead(x - 8, y, 0, 18)],
  };
};

export const partTop: Figure = ({ unit, speaker }) => (unit?.rail ? picture('top', unit, speaker) : undefined);
export const partBottom: Figure = ({ unit, speaker }) => (unit?.box ? picture('bottom', unit, speaker) : undefined);
