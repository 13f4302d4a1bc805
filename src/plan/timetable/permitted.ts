/**
 * The largest off-set: which minutes of a day's pattern are inside a window on every calendar day of its class, on the clock's grid.
 * If this fails, nothing works; which days cut it down is the explanation.
 */
import type { Part } from './arrangement.js';
import { offOnGrid, onOnGrid } from './grid.js';
import type { Stop } from './problem.js';
import type { World } from './windows.js';

/** The free spans of one calendar day, in its own minutes. */
export const freeOn = ({ circle, windows }: World, day: number): readonly Stop[] => {
  const { days, minutesPerDay } = circle;
  const free: Stop[] = [];
  for (const { from, to } of windows) {
    for (let start = day * minutesPerDay; start < to; start += days * minutesPerDay) {
      const span = { from: Math.max(from - start, 0), to: Math.min(to - start, minutesPerDay) };
      if (span.from < span.to) free.push(span);
    }
  }
  return free.sort((a, b) => a.from - b.from);
};

const intersect = (a: readonly Stop[], b: readonly Stop[]): readonly Stop[] =>
  a.flatMap((s) => b.map((t) => ({ from: Math.max(s.from, t.from), to: Math.min(s.to, t.to) }))).filter((s) => s.from < s.to);

/** Maximal off-stretches that the class's pattern may hold, whole cells of the grid; a day that no window touches allows none. */
export const permitted = (world: World, of: number): readonly Part[] => {
  const { step } = world.clock;
  const days = world.clock.classes[of] as readonly number[];
  return days
    .map((day) => freeOn(world, day))
    .reduce(intersect)
    .map(({ from, to }) => ({ of, from: offOnGrid(from, step), to: onOnGrid(to, step) }))
    .filter((part) => part.from < part.to);
};
