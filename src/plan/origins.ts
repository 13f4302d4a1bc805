/**
 * Where the facts of a profile come from: what was told, in words for its keys, by whom, when, and how they knew.
 */
import { date, phrase, term, verbatim, type Value } from '../base/value.js';
import { originFor } from '../model/origins.js';
import type { Profile } from '../model/profile.js';
import type { ReadUnit } from '../read/shelf.js';
import type { Known } from '../base/basis.js';
import { told, written } from './known.js';
import { zoneName, type ZoneFacts } from './zone-facts.js';

type Origin = Parameters<typeof written>[1];

/** Keys of a profile that have a name, worded under `terms.fact-...`. */
const NAMED: ReadonlySet<string> = new Set([
  ...['nameplate', 'nameplate-circuits', 'condensing', 'condensing-power', 'condensing-split', 'condensing-superheat'],
  ...['control', 'control-pressure', 'loading', 'cleaning', 'display', 'looks', 'notes'],
  ...[
    'rest',
    'pans',
    'shelves',
    'drawers',
    'defrost',
    'covers',
    'probe',
    'measured',
    'well',
    'air',
    'aim',
    'drains',
    'kind',
    'maker',
    'name',
    'sort',
  ],
]);

/** The longest beginning of a key that has a name, and what of the key it leaves: of `control.pressure.cut_in` the pressure control's, and `cut_in`. */
const nearestName = (steps: readonly string[]): { readonly name: string; readonly part: string } => {
  const plain = steps.map((step) => step.replaceAll('_', '-'));
  const all = plain.map((_, i) => plain.slice(0, i + 1).join('-'));
  const found = all.findLastIndex((name) => NAMED.has(name));
  return found < 0
    ? { name: all.at(-1) ?? '', part: '' }
    : { name: all[found] as string, part: steps.slice(found + 1).join('.') };
};

/** A fact by its key, `zones.rail.rest`, or by the nearest above it that has a name, with the part of it that is meant; one without is told by its key. */
const factOf = (zones: ZoneFacts, key: string, at: Origin) => {
  const leaf = (value: Value): Known<Value> => written(value, at);
  const [root = '', id = '', ...rest] = key.split('.');
  const zone = root === 'zones' ? zones[id] : undefined;
  const { name, part } = nearestName(zone ? rest : key.split('.'));
  const named = () => {
    const fact = leaf(term(`fact-${name}`));
    if (part === '') return { says: fact };
    const meant = leaf(verbatim(part));
    return { says: leaf(phrase('card.fact-part', { fact, part: meant })), fact, part: meant };
  };
  if (zone) {
    // Its name as a word of this line: that nobody confirmed the name says nothing of the fact.
    const called = leaf(zoneName(zone).value);
    if (name === '') return { says: called };
    if (NAMED.has(name)) {
      const { says: fact, ...more } = named();
      return { says: leaf(phrase('card.fact-of-zone', { zone: called, fact })), zone: called, of_zone: { says: fact, ...more } };
    }
  } else if (NAMED.has(name)) return named();
  return { says: leaf(verbatim(key)) };
};

type Fact = ReturnType<typeof factOf>;

/** Each wording once: several keys may have the same nearest name. */
const once = (facts: readonly Fact[]): readonly Fact[] => {
  const said = facts.map(({ says }) =>
    JSON.stringify(says.value, (name, inner: unknown) => (name === 'basis' ? undefined : inner)),
  );
  return facts.filter((_, i) => said.indexOf(said[i] as string) === i);
};

export const origins = (unit: ReadUnit, zones: ZoneFacts, lang: string) =>
  (unit.profile.origins ?? []).map((o, i) => {
    const at = (key: string): Origin => unit.originOf('origins', i, key);
    return {
      facts: once(o.facts.map((key) => factOf(zones, key, at('facts')))),
      who: written(verbatim(o.who), at('who')),
      told: written(date(o.when), at('when')),
      how: written(told(o.how, lang), at('how')),
    };
  });

/** Keys of what was taken over from a similar unit and nobody has checked on this one. */
export const unconfirmed = ({ origins = [] }: Pick<Profile, 'origins'>): readonly string[] => [
  ...new Set(origins.filter((o) => o.confirmed === false).flatMap((o) => o.facts.filter((key) => originFor(origins, key) === o))),
];

/** Whether a value stands under a key that leaves out the numbers of lists. */
const isThere = (value: unknown, [step, ...rest]: readonly string[]): boolean => {
  if (Array.isArray(value)) return value.some((one) => isThere(one, step === undefined ? [] : [step, ...rest]));
  if (step === undefined || value === undefined) return value !== undefined;
  return typeof value === 'object' && value !== null && isThere((value as Record<string, unknown>)[step], rest);
};

/** Whether a page may mark something: taken over, or printed though it is listed as not known. */
export const marksSome = (profile: Profile): boolean =>
  unconfirmed(profile).length > 0 || (profile.not_known ?? []).some((key) => isThere(profile, key.split('.')));

/** What nobody knows yet, each fact once, in words. */
export const notKnown = (unit: ReadUnit, zones: ZoneFacts) =>
  once((unit.profile.not_known ?? []).map((key) => factOf(zones, key, unit.originOf('not_known'))));
