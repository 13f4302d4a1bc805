/**
 * The solver against an exhaustive search over small worlds: the same worlds have a schedule, and it is the same one.
 */
import { describe, expect, it } from 'vitest';
import { solve, type Clock, type Problem, type Rail } from '../../src/plan/timetable/index.js';
import { toyWorld, type ClockTrait, type Gaps } from './toy-worlds.js';
import { offOf, search, seeded, walk, walkOf } from './walker.js';

const BEFORE = new Set([
  'emptied-before-loaded',
  'empty-after-crew-leaves',
  'load-before-crew-comes',
  'wiped-too-late',
  'hand-comes-late',
  'clock-ends-rest',
  'never-closes',
]);

const compare = (problem: Problem) => {
  const rail = problem.rails[0] as Rail & { clock: Clock };
  const [outcome] = solve(problem);
  if (!outcome?.ok && outcome?.reasons.some((r) => BEFORE.has(r.code))) return undefined;
  const w = walkOf(problem, rail);
  const best = search(w, problem.nights);
  const off = outcome?.ok ? offOf(w, outcome.patterns) : undefined;
  return { outcome, best, off, score: off && walk(w, problem.nights, off) };
};

describe('the solver and an exhaustive search agree', () => {
  it.each<[ClockTrait, number, Gaps]>([
    ['daily', 20000, 'nights'],
    ['two-classes', 4000, 'nights'],
    ['each-day', 6000, 'nights'],
    ['programs', 6000, 'nights'],
    ['hand', 6000, 'nights'],
    ['daily', 6000, 'afternoons'],
    ['two-classes', 2000, 'afternoons'],
    ['each-day', 2000, 'afternoons'],
    ['programs', 2000, 'afternoons'],
    ['hand', 2000, 'afternoons'],
    ['daily', 10000, 'both'],
    ['two-classes', 4000, 'both'],
    ['each-day', 2000, 'both'],
    ['hand', 2000, 'both'],
  ])('%s, %i worlds with %s', (trait, worlds, gaps) => {
    const random = seeded(20270314);
    let [solved, refused] = [0, 0];
    for (let n = 0; n < worlds; n++) {
      const problem = toyWorld(random, trait, gaps);
      if (!problem) continue;
      const got = compare(problem);
      if (!got) continue;
      const { outcome, best, off, score } = got;
      const told = JSON.stringify({
        n,
        problem,
        outcome,
        best: best && { score: best.score, off: best.off.join('') },
        score,
        off: off?.join(''),
      });
      expect(outcome?.ok, told).toBe(best !== undefined);
      if (!best || !off) {
        refused++;
        continue;
      }
      solved++;
      expect(score?.values, told).toEqual(best.score.values);
      expect(off.join(''), told).toBe(best.off.join(''));
    }
    expect(solved).toBeGreaterThan(worlds / 40);
    expect(refused).toBeGreaterThan(worlds / 50);
  });
});
