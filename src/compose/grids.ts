/**
 * Tables that code builds because they follow the plan, by the names that templates ask for them.
 */
import type { Speaker } from '../say/speaker.js';
import { cell, type Block } from './block.js';
import { foundGrid } from './found-grid.js';
import { readingsGrid } from './hand-over-grid.js';
import type { Subject } from './paper.js';
import { noteGrid, unitsGrid } from './week-grids.js';

/** What was over its limit, one line each: a manager decides from a written reading. */
const overLimitGrid = (speaker: Speaker, line: number): Block => ({
  block: 'table',
  line,
  columns: [1.2, 2, 1, 2.6, 1.4].map((weight) => ({ weight, align: 'start' as const })),
  head: [
    (['log-when', 'log-what', 'log-reading', 'log-done', 'log-who'] as const).map((code) => cell(speaker.phrase(`week.${code}`))),
  ],
  rows: Array.from({ length: LOG_ROWS }, () => Array.from({ length: 5 }, () => cell([], { hand: 'write' }))),
});

const LOG_ROWS = 4;

/** Rows for names and signatures. */
const signOffGrid = (speaker: Speaker, line: number): Block => ({
  block: 'table',
  line,
  whole: true,
  columns: [2, 1, 2].map((weight) => ({ weight, align: 'start' as const })),
  head: [(['person', 'date', 'signed'] as const).map((code) => cell(speaker.phrase(`handout.${code}`)))],
  rows: Array.from({ length: SIGN_OFF_ROWS }, () => [
    cell([], { hand: 'write' }),
    cell([], { hand: 'write' }),
    cell([], { hand: 'write' }),
  ]),
});

const SIGN_OFF_ROWS = 6;

/** @returns undefined for a name that is no grid, or that this paper has nothing for */
export const makeGrid = (
  name: string,
  { plan, unit, week }: Subject,
  speaker: Speaker,
  line: number,
): readonly Block[] | undefined => {
  if (name === 'units' && week) return unitsGrid(plan, week, speaker, line);
  if (name === 'notes' && week) return noteGrid(week, speaker, line);
  if (name === 'record' && week) return plan.store.log.value.is ? [] : [overLimitGrid(speaker, line)];
  if (name === 'sign-off') return [signOffGrid(speaker, line)];
  if (name === 'found-and-left' && unit) return [foundGrid(unit, speaker, line)];
  if (name === 'readings' && unit) return [readingsGrid(unit, speaker, line)];
  return undefined;
};
