/**
 * One pair, several rails: earliest due first is as good as any order (Jackson's rule), and the latest starts never overlap. Two pairs empty two at a time.
 */
import { expect, it } from 'vitest';
import { demandsOf, latestStarts } from '../../src/plan/timetable/crew.js';
import type { Need, Night } from '../../src/plan/timetable/index.js';
import { seeded } from './walker.js';

const NEED: Omit<Need, 'empty' | 'pullDown' | 'leastRest'> = {
  load: 10,
  pullDownBand: 0,
  enoughRest: 420,
  startBeforeClose: 30,
  wipe: null,
  longestRun: 1440,
};

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
      need: { ...NEED, empty: int(5, 60), pullDown: int(30, 150), leastRest: int(240, 420) },
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
      return order.every((r) => (now += Math.ceil((rails[r]?.need.empty ?? 0) / Math.min(night.closers, 2))) <= (due[r] ?? 0));
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
      .map((from, r) => ({
        from: from ?? 0,
        to: (from ?? 0) + Math.ceil((rails[r]?.need.empty ?? 0) / Math.min(night.closers, 2)),
      }))
      .sort((a, b) => a.from - b.from);
    busy.forEach((job, i) => expect(job.to).toBeLessThanOrEqual(busy[i + 1]?.from ?? Infinity));
    starts.forEach((from, r) =>
      expect((from ?? 0) + Math.ceil((rails[r]?.need.empty ?? 0) / Math.min(night.closers, 2))).toBeLessThanOrEqual(
        emptyBy[r] ?? 0,
      ),
    );
    expect(Math.min(...busy.map((job) => job.from))).toBeGreaterThanOrEqual(night.closes - 30);
  }
  expect(Math.min(all, some)).toBeGreaterThan(100);
});

it('two pairs empty two rails at a time, never more, each by its time', () => {
  const random = seeded(1957);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  let together = 0;
  for (let n = 0; n < 500; n++) {
    const rails = Array.from({ length: int(2, 5) }, (_, i) => ({
      id: `line-${i}`,
      clock: null,
      need: { ...NEED, empty: int(5, 60), pullDown: 60, leastRest: 300 },
    }));
    const closers = int(4, 5);
    const people = { closers, openers: 1 };
    const night: Night = { day: 0, closes: 1320, leaves: 1380, comes: 1860, firstPan: 1860, opens: 1900, ...people };
    const [demands = []] = demandsOf({ nights: [night], rails });
    const takes = rails.map((r) => Math.ceil(r.need.empty / 2));
    const emptyBy = demands.map(({ out }) => out + int(0, 60));
    const starts = latestStarts(
      rails.map((r) => r.need),
      emptyBy,
      demands,
      night,
    );
    for (const ends of [demands.map(({ out }) => out), starts.map((from, r) => (from ?? 0) + (takes[r] as number))]) {
      const jobs = ends.map((to, r) => ({ from: to - (takes[r] as number), to }));
      for (const { from } of jobs) {
        const busy = jobs.filter((job) => job.from <= from && from < job.to).length;
        expect(busy).toBeLessThanOrEqual(2);
        if (busy === 2) together++;
      }
    }
    starts.forEach((from, r) => expect((from ?? 0) + (takes[r] as number)).toBeLessThanOrEqual(emptyBy[r] ?? 0));
    expect(Math.min(...starts.map((from) => from ?? 0))).toBeGreaterThanOrEqual(night.closes - 30);
  }
  expect(together).toBeGreaterThan(100);
});
