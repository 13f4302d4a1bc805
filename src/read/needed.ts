/**
 * Columns that every store of a sheet needs: the keys that a store or its unit must have, less those that the chain's defaults hold.
 */
import { needsFact, type Column } from './columns.js';
import { isHoursColumn, rowHours } from './row-hours.js';
import { mapOf } from './unknown.js';

/** Where the rail's food goes at night: asked for wherever a top is emptied. */
const FOOD = ['food_goes_to.zone'];

const holds = (value: unknown, [step, ...rest]: readonly string[]): boolean =>
  step === undefined ? value !== undefined : holds(mapOf(value)[step], rest);

/** A column of that key, of a part of it (`unit.nickname.es`), or of hours in another form. */
const isHeld = (columns: readonly Column[], key: string): boolean =>
  columns.some(({ name }) => name === key || name.startsWith(`${key}.`) || (key === 'hours' && isHoursColumn(name)));

/** @param defaults what the chain and nightrail hold for every store; @returns keys of columns, whether they are there or not */
export const neededColumns = (columns: readonly Column[], defaults: unknown): readonly string[] => {
  const { store, unit } = needsFact;
  const ids = new Set(columns.flatMap(({ name }) => /^units\.([^.]+)\./.exec(name)?.[1] ?? []));
  const prefixes = ids.size > 0 ? [...ids].map((id) => `units.${id}`) : ['unit'];
  return [
    ...store.filter((key) => !holds(defaults, key.split('.'))),
    ...(ids.size > 0 ? [] : ['unit']),
    ...prefixes.flatMap((prefix) => [...unit, ...FOOD].map((key) => `${prefix}.${key}`)),
  ];
};

/** Of needed columns that are there, how many stores (of a unit's column, rows) leave them empty, and the first row that does. */
export const blanksIn = (
  columns: readonly Column[],
  rows: readonly { readonly line: number; readonly cells: readonly string[] }[],
  defaults: unknown,
): readonly { readonly column: string; readonly without: number; readonly of: number; readonly line: number }[] => {
  const cellOf = (row: (typeof rows)[number]) => (name: string) => row.cells[columns.findIndex((c) => c.name === name)] ?? '';
  const written = rows.filter((row) => cellOf(row)('id') !== '');
  const stores = [...new Set(written.map((row) => cellOf(row)('id')))].map((id) =>
    written.filter((row) => cellOf(row)('id') === id),
  );
  return neededColumns(columns, defaults).flatMap((key) => {
    const isThere = columns.some(({ name }) => name === key) || (key === 'hours' && isHeld(columns, key));
    if (!isThere) return [];
    const groups = key.startsWith('unit') ? written.map((row) => [row]) : stores;
    const names = columns.map(({ name }) => name);
    const isEmpty = (row: (typeof rows)[number]): boolean => {
      if (key !== 'hours') return cellOf(row)(key) === '';
      const { text, faults } = rowHours(cellOf(row), names);
      return text === undefined && faults.length === 0;
    };
    const empty = groups.filter((group) => group.every(isEmpty));
    const [first] = empty[0] ?? [];
    return first ? [{ column: key, without: empty.length, of: groups.length, line: first.line }] : [];
  });
};

export const missingColumns = (columns: readonly Column[], defaults: unknown): readonly string[] =>
  neededColumns(columns, defaults).filter((key) => !isHeld(columns, key));
