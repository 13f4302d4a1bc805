/**
 * When defrosts start that a clock starts. That none falls into the rush, and that nothing is loaded for a while after one: common practice, no source.
 */
import { expect, it } from 'vitest';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const defrosting = (defrost: string): string =>
  TABLE.replace('    air: 33 to 37 °F\n', `    air: 33 to 37 °F\n    defrost: { ${defrost} }\n`).replace(
    'loading: [',
    'loading: [{ rule: wait-after-defrost, wait: 30 min }, ',
  );
const RUSH = "rush: ['11:30-13:30', '17:30-20:00', '23:30-01:00']\n";
const planned = (defrost: string, rush: string) =>
  tryChain({ 'equipment/table.yaml': defrosting(defrost), 'sites/street.yaml': rush + STORE });
const startsOf = (tried: ReturnType<typeof planned>) =>
  tried.stores.get('street')?.plan?.units['line-1']?.defrosts.flatMap(({ starts }) => starts.map(({ value }) => value.min));

/** Minutes of the day that are taken from a start on. */
const taken = (start: number, minutes: number): readonly number[] =>
  Array.from({ length: minutes }, (_, i) => (start + i) % 1440);

it.each([1, 2, 4, 6])(
  '%d a day miss the rush with their drip and the wait after them, and lie about as far apart as can be',
  (n) => {
    const starts = startsOf(planned(`by: electric, a_day: ${n}, step: 15 min, at_most: 30 min, drip: 3 min`, RUSH)) ?? [];
    expect(starts).toHaveLength(n);
    const rush = new Set([...taken(690, 120), ...taken(1050, 150), ...taken(1410, 90)]);
    for (const start of starts) {
      expect(start % 15).toBe(0);
      expect(taken(start, 63).filter((minute) => rush.has(minute))).toEqual([]);
    }
    const gaps = starts.map((start, i) => (starts[i + 1] ?? (starts[0] ?? 0) + 1440) - start);
    // No even gap may be missed by more than the longest rush with a defrost on either side.
    expect(Math.max(...gaps)).toBeLessThanOrEqual(1440 / n + 150 + 63);
  },
);

it('are told only where a clock starts them, and where the store says when its rush is', () => {
  expect(startsOf(planned('by: off-cycle, every: 6 h, at_most: 30 min', RUSH))).toEqual([]);
  expect(startsOf(planned('by: own-controller, a_day: 4, at_most: 30 min', RUSH))).toEqual([]);
  expect(startsOf(planned('by: electric, a_day: 4, step: 15 min, at_most: 30 min', ''))).toEqual([]);
});

it('that do not fit beside the rush are told at its line, with how many do', () => {
  const tried = planned('by: electric, a_day: 4, step: 15 min, at_most: 30 min', "rush: ['03:00-23:15']\n");
  expect(startsOf(tried)).toEqual([]);
  const found = tried.findings.filter(({ code }) => code === 'defrosts-no-room');
  expect(found.map(({ severity, data }) => ({ severity, data }))).toEqual([
    { severity: 'warning', data: { unit: 'line-1', zone: 'base', count: 4, minutes: 60, fits: 3 } },
  ]);
});

it.each([
  ['by: electric, at_most: 30 min, ends_at: 300 °F', 'defrost-ends-senseless'],
  ['by: electric, at_most: 30 min, ends_at: 30 °F', 'defrost-ends-senseless'],
  ['by: electric, at_most: 30 min, fan_back: 300 °F', 'defrost-fan-senseless'],
  ['by: electric, at_most: 30 min, drip: 100 h', 'defrost-too-long'],
  ['by: electric, at_most: 4 h, every: 6 h', 'defrost-too-long'],
])('refuses %s', (defrost, code) => {
  const errors = planned(defrost, '').findings.filter(({ severity }) => severity === 'error');
  expect(errors.map((f) => f.code)).toEqual([code]);
});

it('takes one as makers write it: ended at 55 °F, ten minutes of drip, fan back at 25 °F', () => {
  const { findings } = planned('by: electric, a_day: 4, at_most: 45 min, ends_at: 55 °F, drip: 10 min, fan_back: 25 °F', '');
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
});
