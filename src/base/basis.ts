/**
 * Why a figure is what it is. Every leaf of the plan is a `Known`: a value, the path under which the plan holds it, and its basis.
 * `nightrail plan STORE --why PATH` follows `from` down to what a person wrote, a law's section, or common practice.
 */
import type { Amount } from './amount.js';
import type { Place } from './place.js';

export type Basis =
  | { readonly how: 'written'; readonly at: Place }
  /** Nobody wrote it; nightrail's own default stands in, and pages say "assumed". */
  | { readonly how: 'assumed'; readonly at: Place }
  | { readonly how: 'law'; readonly law: string; readonly section: string; readonly checked: boolean; readonly at: Place }
  | {
      readonly how: 'computed';
      /** Code of the rule; its words stand under `why.<rule>`. */
      readonly rule: string;
      /** Paths of the plan. */
      readonly from: readonly string[];
      readonly band?: Amount;
      /** Which way it was rounded, always the safe one. */
      readonly rounded?: 'earlier' | 'later' | 'colder' | 'up' | 'down';
    }
  /** Common practice of the trade, no source. */
  | { readonly how: 'practice'; readonly rule: string };

export interface Known<T> {
  readonly path: string;
  readonly value: T;
  readonly basis: Basis;
}
