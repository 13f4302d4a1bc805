/**
 * Facts that nightrail assumes where nobody writes them and on which much stands: the times of every poster, or a card's pressures. Head office is told in how many stores.
 */
import { textOf } from '../base/run.js';
import type { StorePlan } from '../plan/index.js';
import type { Speaker } from '../say/speaker.js';
import type { Ledger, StoreEntry } from './ledger.js';

export const MATTERS: readonly string[] = [
  'altitude',
  'crew.comes',
  'crew.leaves',
  'crew.first_pan',
  'crew.start_before_closing',
  'crew.closers',
];

export interface Assumed {
  readonly key: string;
  /** What is assumed. */
  readonly value: string;
  readonly stores: number;
}

export const assumedOf = ({ assumed }: StorePlan, speaker: Speaker): Pick<StoreEntry, 'assumed'> => {
  const found = assumed.flatMap(({ key, value }) => {
    const name = textOf(speaker.say(key).runs);
    // As it would be written, with the plain space of a keyboard.
    return MATTERS.includes(name) ? [[name, textOf(speaker.say(value).runs).replace(/\s/g, ' ')] as const] : [];
  });
  return found.length > 0 ? { assumed: Object.fromEntries(found) } : {};
};

/** @param stores by key, what each store assumes */
export const countAssumed = (stores: Iterable<Readonly<Record<string, string>>>): readonly Assumed[] => {
  const all = [...stores];
  return MATTERS.flatMap((key) => {
    const values = all.flatMap((one) => one[key] ?? []);
    return [...new Set(values)].map((value) => ({ key, value, stores: values.filter((one) => one === value).length }));
  });
};

export const assumedIn = ({ stores }: Ledger): readonly Assumed[] =>
  countAssumed([...stores.values()].map(({ store }) => store.assumed ?? {}));
