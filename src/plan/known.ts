/**
 * Makes the plan's leaves and, when the plan is whole, gives each the path under which the plan holds it.
 */
import type { Span } from '../base/amount.js';
import type { Basis, Known, Rounding } from '../base/basis.js';
import { phrase, type Phrase, type Told, type Value } from '../base/value.js';
import type { Text } from '../model/fields.js';
import type { Origin } from '../model/resolve.js';

const leaf = <T>(value: T, basis: Basis): Known<T> => ({ value, basis, path: '' });

/** A value that a person wrote, or that nightrail assumed because nobody did. */
export const written = <T>(value: T, origin: Origin): Known<T> =>
  leaf(
    value,
    origin.assumed
      ? { how: 'assumed', at: origin.at }
      : { how: 'written', at: origin.at, ...(origin.confirmed === false ? { confirmed: false } : {}) },
  );

/** A value worked out from others by a named rule. */
export const computed = <T>(value: T, rule: string, from: readonly Known<unknown>[], rounded?: Rounding, band?: Span): Known<T> =>
  leaf(value, { how: 'computed', rule, from, ...(rounded ? { rounded } : {}), ...(band ? { band } : {}) });

/** A figure of common practice, no source. */
export const practice = <T>(value: T, rule: string): Known<T> => leaf(value, { how: 'practice', rule });

export const lawful = <T>(value: T, basis: Omit<Extract<Basis, { how: 'law' }>, 'how'>): Known<T> =>
  leaf(value, { how: 'law', ...basis });

export const told = (text: Text, lang: string): Told => ({ q: 'told', text, lang });

/** A text that may be missing stays missing. */
export const toldLeaf = (text: Text | undefined, lang: string, origin: Origin): Known<Told> | undefined =>
  text === undefined ? undefined : written(told(text, lang), origin);

/** Stands where a setting would, if nobody knows it. @param key as `ReadUnit.unknown` has it */
export const unknownSetting = ({ unknown }: { readonly unknown: readonly string[] }, key: string): Known<Phrase> | undefined =>
  unknown.includes(key) ? practice(phrase('card.not-known'), 'nobody-knows') : undefined;

/** What the program needs beside the leaves, and no page: whoever looks for leaves passes it over. */
export class Beside<T> {
  constructor(readonly holds: T) {}
}

/** Codes that stand beside leaves (a caution's) are plain strings: for the program, never for a page. */
export type Tree = Known<Value> | string | Beside<unknown> | readonly Tree[] | { readonly [key: string]: Tree | undefined };

export const isKnown = (node: unknown): node is Known<Value> =>
  typeof node === 'object' && node !== null && 'basis' in node && 'value' in node;

/** Every leaf with the path that leads to it, in the plan's order. */
export const leaves = (tree: Tree | undefined): readonly (readonly [path: string, known: Known<Value>])[] => {
  const found: (readonly [string, Known<Value>])[] = [];
  const visit = (node: Tree | undefined, path: string): void => {
    if (node === undefined || typeof node === 'string' || node instanceof Beside) return;
    if (isKnown(node)) found.push([path, node]);
    else for (const [key, inner] of Object.entries(node)) visit(inner, path === '' ? key : `${path}.${key}`);
  };
  visit(tree, '');
  return found;
};

/**
 * Gives every leaf its path (a leaf that stands in two places keeps the first) and checks that nothing was worked out from a value that the plan does not hold.
 * @throws when a basis or a phrase names a leaf outside the plan: our own bug
 */
export const settle = <T extends Tree>(tree: T): T => {
  const all = leaves(tree);
  for (const [path, known] of all) if (known.path === '') (known as { path: string }).path = path;
  for (const [path, known] of all) {
    const named = [
      ...(known.basis.how === 'computed' ? known.basis.from : []),
      ...(known.value.q === 'phrase' ? Object.values(known.value.with) : []),
    ];
    for (const from of named)
      if (from.path === '')
        throw new Error(`${path} comes from a value that the plan does not hold: ${JSON.stringify(from.value)}`);
  }
  return tree;
};
