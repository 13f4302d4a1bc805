/**
 * Loading rules by code. A profile names the ones that hold for it; the words, with their reasons, are in words/ under `rules`.
 * Common practice of the trade, no source, unless the profile says who told it.
 */
import type { Quantity } from '../base/amount.js';

export interface LoadingRule {
  /** `never` rules are printed with the sign for a thing not to do, and always with their reason. */
  readonly says: 'do' | 'never';
  /** Figures that the rule needs, written beside its code: `{rule: clear-of-coil, distance: 3 in}`. */
  readonly needs: Readonly<Record<string, Quantity>>;
}

const kinds = {
  'no-warm-food': { says: 'never', needs: {} },
  'probe-before-loading': { says: 'do', needs: {} },
  'one-pan-each-opening': { says: 'do', needs: {} },
  'no-pan-in-pan': { says: 'never', needs: {} },
  'below-load-line': { says: 'do', needs: {} },
  'metal-pans': { says: 'do', needs: {} },
  'cover-between-rushes': { says: 'do', needs: {} },
  'no-loose-ice': { says: 'never', needs: {} },
  'air-slot-free': { says: 'never', needs: {} },
  'clear-of-coil': { says: 'do', needs: { distance: 'length' } },
  'no-lined-shelves': { says: 'never', needs: {} },
  'doors-shut': { says: 'do', needs: {} },
  'raw-lowest': { says: 'do', needs: {} },
  'open-only-to-take': { says: 'do', needs: {} },
  'top-weight': { says: 'do', needs: { weight: 'mass' } },
  'wait-after-defrost': { says: 'do', needs: { wait: 'duration' } },
  'off-the-floor': { says: 'do', needs: { distance: 'length' } },
  'below-coil': { says: 'do', needs: { distance: 'length' } },
  'strip-curtain': { says: 'do', needs: {} },
  'inside-release': { says: 'do', needs: {} },
  'sealed-only': { says: 'never', needs: {} },
  'dough-cold-first': { says: 'do', needs: {} },
} as const satisfies Record<string, LoadingRule>;

export type RuleCode = keyof typeof kinds;
export const LOADING_RULES: Readonly<Record<RuleCode, LoadingRule>> = kinds;
export const ruleCodes = Object.keys(kinds) as [RuleCode, ...RuleCode[]];

/** Names of all figures that some rule needs. */
export const ruleFigures: readonly string[] = [
  ...new Set(Object.values(LOADING_RULES).flatMap(({ needs }) => Object.keys(needs))),
];
