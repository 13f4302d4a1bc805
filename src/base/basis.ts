/**
 * Why a figure is what it is. Every leaf of the plan is a `Known`: a value, its basis, and the path under which the plan holds it.
 * `nightrail plan STORE --why PATH` follows `from` down to what a person wrote, a law's section, or common practice.
 */
import type { Span } from './amount.js';
import type { Place } from './place.js';

export type Rounding = 'earlier' | 'later' | 'colder' | 'up' | 'down';

export type Basis =
  /** `confirmed` false: taken over from a similar unit, and nobody has checked it on this one. */
  | { readonly how: 'written'; readonly at: Place; readonly confirmed?: false }
  /** Nobody wrote it; nightrail's own default stands in, and pages say "assumed". */
  | { readonly how: 'assumed'; readonly at: Place }
  | { readonly how: 'law'; readonly law: string; readonly section: string; readonly checked: boolean; readonly at: Place }
  | {
      readonly how: 'computed';
      /** Code of the rule; its words stand under `why.<rule>`. */
      readonly rule: string;
      readonly from: readonly Known<unknown>[];
      /** What the figure may be, where the method gives more than one: said beside it by `--why`. */
      readonly band?: Span;
      /** Which way it was rounded, always the safe one. */
      readonly rounded?: Rounding;
    }
  /** Common practice of the trade, no source; its words stand under `why.<rule>`. */
  | { readonly how: 'practice'; readonly rule: string };

/** Taken over from a similar unit, and nobody has checked it on this one. */
export const isUnconfirmed = (basis: Basis): boolean => basis.how === 'written' && basis.confirmed === false;

/** Figures share what they come from: each is looked at once. */
const seen = new WeakMap<Known<unknown>, boolean>();

/** Itself, or anything that it was worked out from. */
export const restsOnUnconfirmed = (known: Known<unknown>): boolean => {
  const { basis } = known;
  if (basis.how !== 'computed') return isUnconfirmed(basis);
  const told = seen.get(known) ?? basis.from.some(restsOnUnconfirmed);
  seen.set(known, told);
  return told;
};

/** Which way a figure of this basis is rounded when it is said; a law's own goes to the cold side. */
export const roundingOf = (basis: Basis): Rounding | undefined =>
  basis.how === 'computed' ? basis.rounded : basis.how === 'law' ? 'colder' : undefined;

export interface Known<T> {
  readonly value: T;
  readonly basis: Basis;
  /** Set once, when the plan is settled: the steps from the plan's top to this leaf, joined by dots. */
  readonly path: string;
}
