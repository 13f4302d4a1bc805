/**
 * What is proposed for a store without a schedule is written into its file as it is proposed, and read again: then its rail has a schedule.
 */
import { expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { STORE, TABLE, tryChain, type Tried } from '../support/chain.js';

type Facts = Record<string, unknown>;

const storeWith = (facts: Facts): string => stringify({ ...(parse(STORE) as Facts), ...facts }, { aliasDuplicateObjects: false });

/** Lines like `crew.leaves: 75 min after closing`, each under its key. */
const write = (facts: Facts, lines: string): Facts => {
  const changed = structuredClone(facts);
  for (const line of lines.split(/, (?=crew\.|quiet_window)/)) {
    const [key, value] = Object.entries(parse(line) as Facts)[0] as [string, unknown];
    const [first, second] = key.split('.') as [string, string | undefined];
    if (second === undefined) changed[first] = value;
    else changed[first] = { ...(changed[first] as Facts | undefined), [second]: value };
  }
  return changed;
};

const chain = (facts: Facts, table: string): Tried =>
  tryChain({ 'sites/street.yaml': storeWith(facts), 'equipment/table.yaml': table });

const withoutRest = (tried: Tried, unit: string): readonly string[] =>
  tried.findings.filter((f) => f.code.startsWith('no-rest') && f.data.unit === unit).map((f) => f.code);

const unit = (parse(STORE) as { units: Record<string, Facts> }).units['line-1'] as Facts;
const bare = TABLE.replace('      least: 5 h\n      enough: 7 h\n', '      enough: 5 h\n');
const slow = TABLE.replace('    rest:', '    move: { empty: 21 min, load: 17 min }\n    rest:').replace('by-itself', 'by-hand');

const STORES: readonly (readonly [string, Facts, string?])[] = [
  ['never closes', { hours: '24/7' }],
  ['never closes, pans in early', { hours: '24/7', crew: { first_pan: '40 min before opening', comes: '2 h before opening' } }],
  ['never closes, crew gone at a time of the clock', { hours: '24/7', crew: { leaves: '02:20' } }],
  ['never closes, nobody told the least rest', { hours: '24/7' }, bare],
  ['never closes, by hand', { hours: '24/7', crew: { closers: 2 } }, slow],
  ['closes late', { hours: 'Mo-Su 08:00-01:30' }],
  ['closes late, two close', { hours: 'Mo-Su 08:00-01:30', crew: { closers: 2, openers: 2 } }, slow],
  ['opens early on one day', { hours: 'Mo-Th,Sa-Su 11:00-22:00; Fr 11:00-01:00; Sa 07:00-22:00' }],
  [
    'opens early on one day, crew by days',
    {
      hours: 'Mo-Th,Su 11:00-22:00; Fr 11:00-01:00; Sa 07:00-22:00',
      crew: { leaves: { 'mon-thu,sun': '60 min after closing', 'fri-sat': '01:50' }, first_pan: '20 min before opening' },
    },
  ],
  ['leaves at closing', { hours: 'Mo-Su 07:00-22:00', crew: { leaves: 'at closing', start_before_closing: '0 min' } }],
  ['one wipes', { hours: 'Mo-Su 07:00-23:30', crew: { comes: '30 min before opening' } }, slow],
  [
    'two tables',
    {
      hours: 'Mo-Su 07:30-01:30',
      crew: { leaves: '60 min after closing' },
      units: { 'line-1': unit, 'line-2': { ...unit, serial: 'X2' } },
    },
  ],
  ['nobody told the least rest', { hours: 'Mo-Su 08:00-02:30' }, bare],
  ['too few close', { hours: 'Mo-Su 09:00-22:00', crew: { leaves: 'at closing', start_before_closing: '15 min' } }, slow],
];

const told = new Set<string>();

it.each(STORES.map(([name, facts, table = TABLE]) => ({ name, facts, table })))('$name', ({ facts, table }) => {
  const before = chain(facts, table);
  const unitPlan = before.stores.get('street')?.plan?.units['line-1'];
  expect(withoutRest(before, 'line-1')).not.toEqual([]);
  const offered = unitPlan?.remedies ?? [];
  let written = 0;
  for (const { line, parts } of offered) {
    const codes = parts.map((part) => part.value.code.replace('remedies.', ''));
    // What is fitted or done otherwise stands under no key of the store.
    if (!line || codes.some((code) => /^(another-clock|fit-drain|look-|load-|pull-)/.test(code))) continue;
    const after = chain(write(facts, line.value.text), table);
    expect(after.findings.filter((f) => f.severity === 'error' && !f.code.startsWith('no-rest'))).toEqual([]);
    expect(withoutRest(after, 'line-1'), line.value.text).toEqual([]);
    codes.forEach((code) => told.add(code));
    written += 1;
  }
  expect(written).toBeGreaterThan(0);
});

it('tries every change that a store can write', () => {
  expect([...told].sort()).toEqual([
    'crew-comes-earlier',
    'crew-leaves-later',
    'first-pan-later',
    'first-pan-later-that-day',
    'more-people',
    'quiet-window',
    'start-earlier',
  ]);
});
