/**
 * Faults planted in the solver's own answers: the minute walker must refuse each or find it worse. If it did not, it would be no check.
 */
import { expect, it } from 'vitest';
import { solve, type Clock, type Rail } from '../../src/plan/timetable/index.js';
import { toyWorld } from './toy-worlds.js';
import { offOf, search, seeded, walk, walkOf, type Score } from './walker.js';

type Fault = 'off a step earlier' | 'on a step later' | 'no rest at all' | 'off and on swapped';

const plant = (fault: Fault, off: Uint8Array, step: number): Uint8Array => {
  const { length } = off;
  const at = (m: number): number => off[((m % length) + length) % length] as number;
  return off.map((x, m) => {
    if (fault === 'off a step earlier') return x | at(m + step);
    if (fault === 'on a step later') return x | at(m - step);
    return fault === 'no rest at all' ? 0 : 1 - x;
  });
};

const lower = (a: Score, b: Score): boolean => {
  const i = a.values.findIndex((x, n) => x !== b.values[n]);
  return i >= 0 && (a.values[i] as number) < (b.values[i] as number);
};

it('refuses or marks down every planted fault', () => {
  const random = seeded(911);
  const refused = new Map<Fault, number>();
  for (let n = 0; n < 4000; n++) {
    const problem = toyWorld(random, n % 2 ? 'daily' : 'each-day');
    const [outcome] = problem ? solve(problem) : [];
    if (!problem || !outcome?.ok || outcome.kept) continue;
    const rail = problem.rails[0] as Rail & { clock: Clock };
    const w = walkOf(problem, rail);
    const off = offOf(w, outcome.patterns);
    const right = walk(w, problem.nights, off) as Score;
    for (const fault of ['off a step earlier', 'on a step later', 'no rest at all', 'off and on swapped'] as const) {
      const score = walk(w, problem.nights, plant(fault, off, rail.clock.step));
      expect(score === undefined || lower(score, right), JSON.stringify({ problem, fault })).toBe(true);
      if (!score) refused.set(fault, (refused.get(fault) ?? 0) + 1);
    }
  }
  for (const [, times] of refused) expect(times).toBeGreaterThan(100);
  expect(refused.size).toBe(4);
});

it('keeps a clock that was found right: the best setting of every small world, found on it, stays', () => {
  const random = seeded(7);
  let kept = 0;
  for (let n = 0; n < 3000; n++) {
    const problem = toyWorld(random, 'daily');
    const [outcome] = problem ? solve(problem) : [];
    if (!problem || !outcome?.ok) continue;
    const rail = problem.rails[0] as Rail & { clock: Clock };
    const [again] = solve({ ...problem, rails: [{ ...rail, found: outcome.patterns }] });
    expect(again).toMatchObject({ ok: true, kept: true, patterns: outcome.patterns });
    kept++;
    // A clock found with nothing set is never right.
    const [blank] = solve({ ...problem, rails: [{ ...rail, found: [{ days: rail.clock.classes[0] ?? [], stretches: [] }] }] });
    expect(blank).toMatchObject({ ok: true, kept: false });
    expect(search(walkOf(problem, rail), problem.nights)).toBeDefined();
  }
  expect(kept).toBeGreaterThan(100);
});
