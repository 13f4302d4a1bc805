/**
 * Tops that no clock stops are emptied before the crew leaves, one after another: one crew has as many hands as it has. Common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { beforeLeaving } from '../../src/plan/leaving.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';
import { seeded } from './walker.js';

/** A rail with a fan of its own: it stays on at night, empty. */
const FAN = TABLE.replace('strategy: shared-low-pressure', 'strategy: circuit-each')
  .replace(/ {2}pressure: .*\n/, '')
  .replace('kind: static-rail', 'kind: fan-coil-rail')
  .replace(/ {4}rest:\n(?: {6}.*\n)+/, '    control: { cut_in: 38 °F, cut_out: 34 °F, senses: air }\n')
  .replace('circuits: [{', 'circuits: [{ refrigerant: R-404A, charge: 10 oz, serves: [rail] }, {')
  .replace('serves: [rail, base]', 'serves: [base]');

const unit = (id: string, profile: string): string =>
  STORE.slice(STORE.indexOf('  line-1:'))
    .replace('line-1', id)
    .replace('profile: table', `profile: ${profile}`)
    .replace('X1', id);

const store = (crew: string, ...units: string[]) =>
  tryChain({
    'equipment/table.yaml': TABLE,
    'equipment/fan.yaml': FAN,
    'sites/street.yaml': STORE.slice(0, STORE.indexOf('units:')) + `crew: { ${crew} }\nunits:\n` + units.join(''),
  });

const emptyingsOn = (tried: ReturnType<typeof store>, day: 'mon' | 'sat') =>
  Object.values(tried.stores.get('street')?.plan?.units ?? {}).map(({ rest, leaving }) => {
    const { start, empty_by: end } = leaving ?? rest ?? {};
    return [start?.value.at[day]?.min ?? NaN, end?.value.at[day]?.min ?? NaN] as const;
  });

describe('the tops of one crew', () => {
  const CREW = 'closers: 2, leaves: 45 min after closing';

  it('are emptied one after another by its leaving, also beside one that a clock stops', () => {
    const tried = store(CREW, unit('clocked', 'table'), unit('a', 'fan'), unit('b', 'fan'));
    const all = emptyingsOn(tried, 'mon');
    expect(all).toHaveLength(3);
    for (const [start, end] of all) {
      expect(end - start).toBeGreaterThanOrEqual(Math.ceil((12 + 5) / 2));
      // Closing at 22:00, leaving at 22:45; emptying may begin half an hour before closing.
      expect(end).toBeLessThanOrEqual(22 * 60 + 45);
      expect(start).toBeGreaterThanOrEqual(21 * 60 + 30);
    }
    const inOrder = all.toSorted(([a], [b]) => a - b);
    inOrder.slice(1).forEach(([start], i) => expect(start).toBeGreaterThanOrEqual(inOrder[i]?.[1] ?? Infinity));
    expect(tried.findings.filter(({ code }) => code === 'crew-too-few')).toEqual([]);
  });

  it('that are too many for it are told', () => {
    const many = ['a', 'b', 'c', 'd', 'e'].map((id) => unit(id, 'fan'));
    const tried = store('closers: 1, leaves: 15 min after closing', ...many);
    const [told] = tried.findings.filter(({ code }) => code === 'crew-too-few');
    expect(told?.data).toMatchObject({
      days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
      units: ['a', 'b', 'c', 'd', 'e'],
    });
  });

  it('are emptied two at a time where two pairs close, and one sooner where four people would share it: a pair finds room at a top', () => {
    const tops = [unit('a', 'fan'), unit('b', 'fan'), unit('c', 'fan')];
    const [a, b, c] = emptyingsOn(store('closers: 4, leaves: 45 min after closing', ...tops), 'mon');
    expect([b, c].map((one) => one?.[1])).toEqual([22 * 60 + 45, 22 * 60 + 45]);
    expect(a?.[1]).toBe(b?.[0]);
    const lengths = [1, 2, 4].map((closers) => {
      const [one] = emptyingsOn(store(`closers: ${closers}, leaves: 45 min after closing`, unit('a', 'fan')), 'mon');
      return (one?.[1] ?? 0) - (one?.[0] ?? 0);
    });
    // Five minutes to start, twelve pans and five of wiping: 22 for one, 13 and a half for two, up to fives.
    expect(lengths).toEqual([25, 15, 15]);
  });

  it('never overlap, end on time and are as late as that allows, whatever else the crew does', () => {
    const random = seeded(7);
    const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
    for (let n = 0; n < 500; n++) {
      const leaves = int(1200, 1500);
      const minutes = Array.from({ length: int(1, 4) }, () => int(3, 40));
      const from = int(leaves - 200, leaves - 10);
      const taken = n % 2 === 0 ? [] : [{ start: from, emptyBy: from + int(5, 60) }];
      const placed = beforeLeaving(
        leaves,
        minutes.map((m) => m * 60),
        taken,
        1,
      );
      const all = [...placed, ...taken].toSorted((a, b) => a.start - b.start);
      all.slice(1).forEach(({ start }, i) => expect(start).toBeGreaterThanOrEqual(all[i]?.emptyBy ?? Infinity));
      placed.forEach(({ start, emptyBy }, i) => {
        expect(emptyBy).toBeLessThanOrEqual(leaves);
        expect(emptyBy - start).toBeGreaterThanOrEqual(minutes[i] ?? Infinity);
        expect([start % 5, emptyBy % 5]).toEqual([0, 0]);
      });
      if (taken.length > 0) continue;
      expect(leaves - (placed.at(-1)?.emptyBy ?? 0)).toBeLessThan(5);
      expect(placed.map(({ start }) => start)).toEqual(placed.map(({ start }) => start).toSorted((a, b) => a - b));
    }
  });
});
