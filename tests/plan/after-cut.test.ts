/**
 * A clock that stood still in a power cut: what an hour does, and from which length on it stops the top by day, held against the walk of a clock as found.
 */
import { expect, it } from 'vitest';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const at = (minutes: number): string =>
  `${String(Math.floor((minutes % 1440) / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

const unitOf = (store: string, table = TABLE) => {
  const tried = tryChain({ 'sites/street.yaml': store, 'equipment/table.yaml': table });
  const unit = tried.stores.get('street')?.plan?.units['line-1'];
  if (!unit) throw new Error(tried.told.join('\n'));
  return unit;
};

it('makes every turning as late as the power was out, and beyond a length stops the loaded top', () => {
  const { rest } = unitOf(STORE);
  const [off, on] = [rest?.off?.value.at.mon?.min ?? 0, rest?.on?.value.at.mon?.min ?? 0];
  expect(rest?.after_cut?.off.value.at.mon?.min).toBe(off + 60);
  expect(rest?.after_cut?.on.value.at.mon?.min).toBe(on + 60);
  expect((rest?.after_cut?.late.value.si ?? 0) / 60).toBeGreaterThan(0);
  const long = (rest?.after_cut?.by_day.value.si ?? 0) / 60;
  const after = (cut: number): readonly string[] =>
    unitOf(
      `${STORE}    found: { when: 2026-11-01, who: Somebody, clock: { off: '${at(off + cut)}', on: '${at(on + cut)}' } }\n`,
    ).found?.clock?.did.map((d) => d.text.value.code) ?? [];
  // So long a cut and the food is in; a short one and the top is not even cold when it should be loaded, so nobody loads it.
  expect(after(long + 180)).toContain('found.off-with-food');
  expect(after(60)).not.toContain('found.off-with-food');
  expect(rest?.cold_by?.value.at.tue?.min).toBeGreaterThanOrEqual(off + long - 1440);
});

it('does not touch a clock that runs on', () => {
  expect(unitOf(STORE, TABLE.replace('daily-dial, polarity: out-is-on', 'seven-day-clock')).rest?.after_cut).toBeUndefined();
});
