/**
 * Opening hours of a row of a sheet that has them in columns of their own: `opens` and `closes` for all days, or a column a day.
 */
import { DAY_NAMES, parseHours, weekOf } from '../model/hours/index.js';
import { WEEKDAYS } from '../base/moment.js';

/** Columns beside `hours`, in the order in which they are read. */
export const HOURS_COLUMNS: readonly string[] = ['opens', 'closes', ...WEEKDAYS.map((day) => `hours.${day}`)];

export type RowHours =
  | { readonly is: 'none' }
  | { readonly is: 'hours'; readonly text: string }
  /** A day has no hours where others have, or one of opening and closing is empty. */
  | { readonly is: 'gap'; readonly column: string }
  /** Two columns say different things. */
  | { readonly is: 'two'; readonly hours: string; readonly other: string };

type CellOf = (column: string) => string;

/** Without the cell `hours`. */
const beside = (cell: CellOf): RowHours => {
  const byDay = WEEKDAYS.map((day, i) => ({ column: `hours.${day}`, name: DAY_NAMES[i] as string, wrote: cell(`hours.${day}`) }));
  if (byDay.some(({ wrote }) => wrote !== '')) {
    const gap = byDay.find(({ wrote }) => wrote === '');
    if (gap) return { is: 'gap', column: gap.column };
    return { is: 'hours', text: byDay.map(({ name, wrote }) => `${name} ${wrote}`).join('; ') };
  }
  const [opens, closes] = [cell('opens'), cell('closes')];
  if (opens === '' && closes === '') return { is: 'none' };
  if (opens === '' || closes === '') return { is: 'gap', column: opens === '' ? 'opens' : 'closes' };
  return { is: 'hours', text: `${opens}-${closes}` };
};

/** Whether two texts may mean the same week: where one says neither am nor pm, any of its readings does. */
const mayAgree = (hours: string, other: string): boolean => {
  const first = parseHours(hours);
  // Of what can't be read, its own fault is told.
  if (!first.ok) return true;
  const week = JSON.stringify(weekOf(first.hours));
  const read = parseHours(other);
  const ways = read.ok ? [other] : [read.suggestion, read.other].flatMap((way) => way ?? []);
  return ways.some((way) => {
    const again = parseHours(way);
    return again.ok && JSON.stringify(weekOf(again.hours)) === week;
  });
};

/** @param cell the text under a column; empty where there is none */
export const rowHours = (cell: CellOf): RowHours => {
  const hours = cell('hours');
  const other = beside(cell);
  if (hours === '' || other.is === 'none') return hours === '' ? other : { is: 'hours', text: hours };
  if (other.is === 'hours' && !mayAgree(hours, other.text)) return { is: 'two', hours, other: other.text };
  return { is: 'hours', text: hours };
};
