/** Facts that matter and that neither a spreadsheet's rows nor the chain's defaults say. */
import { countAssumed, MATTERS, type Assumed } from '../../fleet/assumed.js';
import { lay } from '../../model/resolve.js';
import type { Csv } from '../../read/csv.js';
import { mapOf } from '../../read/unknown.js';
import type { Session } from '../shared/session.js';

/** @param header keys in place of names */
export const assumedInRows = (rows: Csv['rows'], header: readonly string[], { opened }: Session): readonly Assumed[] => {
  const laid = lay(opened.workshop?.shelf.under ?? []);
  const assumed = MATTERS.flatMap((key) => {
    const path = key.split('.');
    const value = path.reduce<unknown>((inner, step) => mapOf(inner)[step], laid.value);
    return laid.originOf(path).assumed ? [[key, String(value)] as const] : [];
  });
  const stores = new Map<string, Csv['rows'][number][]>();
  for (const row of rows) {
    const id = row.cells[header.indexOf('id')] ?? '';
    if (id !== '') stores.set(id, [...(stores.get(id) ?? []), row]);
  }
  const says = (some: Csv['rows'], key: string): boolean =>
    header.some((name, i) => (name === key || name.startsWith(`${key}.`)) && some.some(({ cells }) => (cells[i] ?? '') !== ''));
  return countAssumed([...stores.values()].map((some) => Object.fromEntries(assumed.filter(([key]) => !says(some, key)))));
};
