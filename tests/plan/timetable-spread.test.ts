/**
 * Several short rests with food in: outside the rush, and as far apart as can be; against trying every choice on small days.
 */
import { expect, it } from 'vitest';
import { spreadRests, type SpreadProblem } from '../../src/plan/timetable/index.js';
import { seeded } from './walker.js';

/** The shortest longest run over every choice of starts; undefined where none fits. */
const tryAll = ({ minutesPerDay: day, count, minutes, step, avoid }: SpreadProblem): number | undefined => {
  const busy = (m: number): boolean =>
    avoid.some(({ from, to }) => (from < to ? m % day >= from && m % day < to : m % day >= from || m % day < to));
  let best: number | undefined;
  const go = (starts: readonly number[]): void => {
    if (starts.length === count) {
      const runs = starts.map((s, i) => (starts[i + 1] ?? (starts[0] as number) + day) - s - minutes);
      if (runs.every((r) => r >= 0)) best = Math.min(best ?? Infinity, Math.max(...runs));
      return;
    }
    for (let s = starts.length > 0 ? (starts.at(-1) as number) + step : 0; s < day; s += step) {
      if (!Array.from({ length: minutes }, (_, m) => busy(s + m)).includes(true)) go([...starts, s]);
    }
  };
  go([]);
  return best;
};

it('agrees with trying every choice', () => {
  const random = seeded(50);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  let [fitted, refused] = [0, 0];
  for (let n = 0; n < 3000; n++) {
    const step = int(1, 3);
    const day = step * int(4, 14);
    const avoid = Array.from({ length: int(0, 2) }, () => ({ from: int(0, day - 1), to: int(1, day) })).filter(
      (s) => s.from !== s.to,
    );
    const problem = { minutesPerDay: day, count: int(1, 4), minutes: int(1, Math.ceil(day / 3)), step, avoid };
    const spread = spreadRests(problem);
    const best = tryAll(problem);
    expect(spread.ok ? spread.longestRun : undefined, JSON.stringify({ problem, spread })).toBe(best);
    if (spread.ok) {
      fitted++;
      const runs = spread.starts.map(
        (s, i) => (spread.starts[i + 1] ?? (spread.starts[0] as number) + day) - s - problem.minutes,
      );
      expect(Math.max(...runs)).toBe(best);
    } else {
      refused++;
      expect(tryAll({ ...problem, count: spread.fits + 1 })).toBeUndefined();
      if (spread.fits > 0) expect(tryAll({ ...problem, count: spread.fits })).toBeDefined();
    }
  }
  expect(Math.min(fitted, refused)).toBeGreaterThan(300);
});

it('four electric defrosts a day, half an hour each, keep clear of lunch and dinner', () => {
  const spread = spreadRests({
    minutesPerDay: 1440,
    count: 4,
    minutes: 30,
    step: 15,
    avoid: [
      { from: 660, to: 840 },
      { from: 1020, to: 1260 },
    ],
  });
  expect(spread).toEqual({ ok: true, starts: [180, 540, 900, 1260], longestRun: 330 });
});
