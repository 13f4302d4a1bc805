/**
 * A form: a table to fill in by hand, written in the template. A line a column: its weight, `tick` where a box is ticked, and its head,
 * a code of the word list or a value of the plan. Rows are blank, or begin with the people of the store.
 */
import type { Known } from '../base/basis.js';
import type { Run } from '../base/run.js';
import type { Value } from '../base/value.js';
import type { Speaker } from '../say/speaker.js';
import type { Block, Cell } from './block.js';
import { VALUE_CLOSE, VALUE_OPEN, type Pot } from './leaf.js';

const COLUMN = /^\s*([\d.]+)\s+(tick\s+)?(\S.*?)\s*$/;
const VALUE = new RegExp(`^${VALUE_OPEN}(\\d+)${VALUE_CLOSE}$`);

interface Column {
  readonly weight: number;
  readonly hand: 'tick' | 'write';
  readonly head: readonly Run[];
}

/** Lines for those who come later. */
const NEWCOMERS = 2;

/** @returns undefined where a line is no column */
const columnsOf = (body: string, pot: Pot, speaker: Speaker): readonly Column[] | undefined => {
  const lines = body.split('\n').filter((text) => text.trim() !== '');
  const columns = lines.flatMap((text): readonly Column[] => {
    const found = COLUMN.exec(text);
    if (!found) return [];
    const [, weight, tick, head] = found as unknown as [string, string, string | undefined, string];
    const value = VALUE.exec(head)?.[1];
    const runs = value === undefined ? speaker.phrase(head) : pot.get(Number(value)).runs;
    return [{ weight: Number(weight) || 1, hand: tick ? 'tick' : 'write', head: runs }];
  });
  return columns.length === lines.length && columns.length > 0 ? columns : undefined;
};

/** @param people whose names begin the rows, where the template asks for them */
export const makeForm = (
  rows: number,
  people: readonly Known<Value>[],
  body: string,
  pot: Pot,
  speaker: Speaker,
  line: number,
): Block | undefined => {
  const columns = columnsOf(body, pot, speaker);
  if (!columns) return undefined;
  const blank = columns.map(({ hand }): Cell => ({ text: [], hand }));
  const named = people.map((person): readonly Cell[] => [{ text: speaker.say(person).runs, head: true }, ...blank.slice(1)]);
  const empty = Array.from({ length: named.length > 0 ? NEWCOMERS : rows }, () => blank);
  return {
    block: 'table',
    line,
    columns: columns.map(({ weight, hand }) => ({ weight, align: hand === 'tick' ? 'middle' : 'start' })),
    head: [columns.map(({ head }) => ({ text: head }))],
    rows: [...named, ...empty],
  };
};
