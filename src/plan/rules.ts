/**
 * Loading rules, what nobody does, when to call, looks before calling: sentences that follow from a unit's profile and traits.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { phrase, type Phrase, type Value } from '../base/value.js';
import type { ReadUnit } from '../read/shelf.js';
import { LOADING_RULES } from '../trade/rules.js';
import { practice, toldLeaf, written } from './known.js';
import { hasClock, type UnitTraits } from './unit-traits.js';

export interface Reasoned {
  readonly do: Known<Phrase>;
  readonly why: Known<Phrase>;
  readonly note: Known<Value> | undefined;
  readonly figures: Readonly<Record<string, Known<Amount>>>;
  readonly [key: string]: Known<Value> | Readonly<Record<string, Known<Amount>>> | undefined;
}

const sentences = (list: string, code: string, figures: Reasoned['figures'] = {}) => ({
  do: phrase(`${list}.${code}.do`, figures),
  why: phrase(`${list}.${code}.why`, figures),
});

/** A rule that nobody wrote: it follows from what the unit is. */
const reasoned = (list: string, code: string): Reasoned => {
  const says = sentences(list, code);
  const known = (sentence: Phrase): Known<Phrase> => practice(sentence, `${list}-${code}`);
  return { do: known(says.do), why: known(says.why), note: undefined, figures: {} };
};

/** What the profile says of loading: things to do, and things never to do. */
export const loadingRules = (
  unit: ReadUnit,
  lang: string,
): { readonly do: readonly Reasoned[]; readonly never: readonly Reasoned[] } => {
  const rules = unit.profile.loading.map(({ rule, figures, note }, i) => {
    const known = Object.fromEntries(
      Object.entries(figures).map(([key, figure]) => [key, written(figure, unit.originOf('loading', i, key))]),
    );
    const says = sentences('rules', rule, known);
    const origin = unit.originOf('loading', i);
    return {
      says: LOADING_RULES[rule].says,
      rule: {
        do: written(says.do, origin),
        why: written(says.why, origin),
        note: toldLeaf(note, lang, unit.originOf('loading', i, 'note')),
        figures: known,
      },
    };
  });
  const of = (says: 'do' | 'never') => rules.filter((r) => r.says === says).map((r) => r.rule);
  return { do: of('do'), never: of('never') };
};

/** What nobody at the store does, from traits; the profile's own "never" rules stand between, and cautions set as "never" follow. No profile can leave out that warm food stays out. */
export const neverRules = (traits: UnitTraits, ofProfile: readonly Reasoned[]): readonly Reasoned[] => [
  ...(traits.rail ? [reasoned('never', traits.ownStop ? 'food-in-top-overnight' : 'food-in-top-that-stays-on')] : []),
  ...(traits.holds === 'sealed' || ofProfile.some((r) => r.do.value.code === 'rules.no-warm-food.do')
    ? []
    : [reasoned('rules', 'no-warm-food')]),
  ...ofProfile,
  reasoned('never', traits.rail && traits.box ? 'bottom-off' : traits.holds === 'sealed' ? 'unit-off-drinks' : 'unit-off'),
];

/**
 * When to call.
 * @param elsewhere the unit that the top's food goes to, where it is not this one
 */
export const callWhen = (
  traits: UnitTraits,
  {
    limit,
    backup,
    elsewhere,
  }: Readonly<Record<'limit' | 'backup', Known<Value>>> & { readonly elsewhere?: Known<Value> | undefined },
): {
  readonly when: readonly Known<Phrase>[];
  readonly have_ready: Known<Phrase>;
  /** Where food goes that is still cold, out of a box that is not. */
  readonly keep: Known<Phrase> | undefined;
} => {
  const values = { limit, backup, ...(elsewhere ? { destination: elsewhere } : {}) };
  const call = (code: string): Known<Phrase> => practice(phrase(`call.${code}`, values), `call-${code}`);
  const warm = traits.rail
    ? `${traits.box ? 'rail' : 'pans'}-warm${elsewhere ? '-elsewhere' : ''}`
    : { cold: 'box-warm', frozen: 'frozen-soft', sealed: 'drinks-warm' }[traits.holds];
  const stops = hasClock(traits)
    ? traits.inReach
      ? 'clock-wrong-in-reach'
      : 'clock-wrong'
    : traits.byHand
      ? 'switch-wrong'
      : 'not-cold';
  return {
    when: [warm, ...(traits.rail ? [stops, 'ice-or-water'] : ['box-ice-or-water'])].map(call),
    have_ready: call(hasClock(traits) ? 'have-ready' : 'have-ready-box'),
    keep: traits.box && traits.holds !== 'sealed' ? call(`keep-${traits.holds}`) : undefined,
  };
};
