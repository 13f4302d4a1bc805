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

/** The longest beginning of a key that has a name: of `control.pressure.cut_in` it is the pressure control's. */
const nearestName = (steps: readonly string[]): string => {
  const plain = steps.map((step) => step.replaceAll('_', '-'));
  const all = plain.map((_, i) => plain.slice(0, i + 1).join('-'));
  return all.findLast((name) => NAMED.has(name)) ?? all.at(-1) ?? '';
};

/** A fact by its key, `zones.rail.rest`, or by the nearest above it that has a name; one without is told by its key. */
const factOf = (zones: ZoneFacts, key: string, at: Origin) => {
  const leaf = (value: Value): Known<Value> => written(value, at);
  const [root = '', id = '', ...rest] = key.split('.');
  const zone = root === 'zones' ? zones[id] : undefined;
  const name = nearestName(zone ? rest : key.split('.'));
  if (zone) {
    // Its name as a word of this line: that nobody confirmed the name says nothing of the fact.
    const named = leaf(zoneName(zone).value);
    if (name === '') return { says: named };
    if (NAMED.has(name)) {
      const fact = leaf(term(`fact-${name}`));
      return { says: leaf(phrase('card.fact-of-zone', { zone: named, fact })), fact, zone: named };
    }
  } else if (NAMED.has(name)) return { says: leaf(term(`fact-${name}`)) };
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

/** What nobody knows yet, each fact once, in words. */
export const notKnown = (unit: ReadUnit, zones: ZoneFacts) =>
  once((unit.profile.not_known ?? []).map((key, i) => factOf(zones, key, unit.originOf('not_known', i))));
