/**
 * One crew, several rails: earliest due first is as good as any order (Jackson's rule), and the latest starts never overlap.
 */
import { expect, it } from 'vitest';
import { demandsOf, latestStarts } from '../../src/plan/timetable/crew.js';
import type { Need, Night } from '../../src/plan/timetable/index.js';
import { seeded } from './walker.js';

const orders = <T>(items: readonly T[]): readonly (readonly T[])[] =>
  items.length === 0 ? [[]] : items.flatMap((item, i) => orders(items.filter((_, j) => j !== i)).map((rest) => [item, ...rest]));

it('if any order has every rail out by its due time, so has ours', () => {
  const random = seeded(1955);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  let [all, some] = [0, 0];
  for (let n = 0; n < 2000; n++) {
    const rails = Array.from({ length: int(2, 4) }, (_, i) => ({
      id: `line-${i}`,
      clock: null,
      need: {
        empty: int(5, 60),
        load: 10,
        pullDown: int(30, 150),
        pullDownBand: 0,
        leastRest: int(240, 420),
        enoughRest: 420,
        startBeforeClose: 30,
        wipe: null,
        longestRun: 1440,
      } satisfies Need,
    }));
    const night: Night = {
      day: 0,
      closes: 1320,
      leaves: 1380,
      comes: 1860,
      firstPan: 1860,
      opens: 1900,
      closers: int(1, 3),
      openers: 1,
    };
    const [demands] = demandsOf({ nights: [night], rails });
    const due = rails.map((r, i) => (demands?.[i]?.power ?? 0) - r.need.leastRest);
    const inTime = (order: readonly number[]): boolean => {
      let now = night.closes - 30;
      return order.every((r) => (now += Math.ceil((rails[r]?.need.empty ?? 0) / night.closers)) <= (due[r] ?? 0));
    };
    const possible = orders([...rails.keys()]).some(inTime);
    expect(demands?.every((d, r) => d.out <= (due[r] ?? 0))).toBe(possible);
    if (possible) some++;
    else all++;
    const emptyBy = rails.map((_, r) => (demands?.[r]?.out ?? 0) + int(0, 90));
    const starts = latestStarts(
      rails.map((r) => r.need),
      emptyBy,
      demands ?? [],
      night,
    );
    const busy = starts
      .map((from, r) => ({ from: from ?? 0, to: (from ?? 0) + Math.ceil((rails[r]?.need.empty ?? 0) / night.closers) }))
      .sort((a, b) => a.from - b.from);
    busy.forEach((job, i) => expect(job.to).toBeLessThanOrEqual(busy[i + 1]?.from ?? Infinity));
    starts.forEach((from, r) =>
      expect((from ?? 0) + Math.ceil((rails[r]?.need.empty ?? 0) / night.closers)).toBeLessThanOrEqual(emptyBy[r] ?? 0),
    );
    expect(Math.min(...busy.map((job) => job.from))).toBeGreaterThanOrEqual(night.closes - 30);
  }
  expect(Math.min(all, some)).toBeGreaterThan(100);
});
