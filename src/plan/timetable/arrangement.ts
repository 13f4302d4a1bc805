/**
 * An arrangement: the off-stretches that a clock is set to (parts), each placed on the days it is for; and what that makes of every night.
 * Parts that touch at midnight are joined only here, after they are laid on the week.
 */
import type { Stop } from './problem.js';
import type { World } from './windows.js';

/** An off-stretch of a pattern: `from` to `to` relative to each of its placements. */
export interface Part extends Stop {
  /** Index of the class whose pattern it belongs to. */
  readonly of: number;
}

/** Where a part falls: in a window, at an absolute offset. */
interface Placement {
  readonly part: number;
  readonly at: number;
}

export interface Arrangement {
  readonly parts: readonly Part[];
  /** By window, in order of time. Trimming a part never moves it to another window. */
  readonly placed: readonly (readonly Placement[])[];
}

/** Lays parts of a calendar day's pattern on each day of their class. */
export const arrangeByDay = ({ circle, clock, windows }: World, parts: readonly Part[]): Arrangement => {
  const { days, minutesPerDay } = circle;
  const byDay = Array.from({ length: days }, (_, day) =>
    parts
      .map((part, i) => ({ part, i }))
      .filter(({ part }) => clock.classes[part.of]?.includes(day))
      .sort((a, b) => a.part.from - b.part.from),
  );
  const placed = windows.map((window) => {
    const found: Placement[] = [];
    for (let day = Math.floor(window.from / minutesPerDay); day * minutesPerDay < window.to; day++) {
      for (const { part, i } of byDay[day % days] ?? []) {
        const at = day * minutesPerDay;
        if (at + part.from >= window.from && at + part.to <= window.to) found.push({ part: i, at });
      }
    }
    return found;
  });
  return { parts, placed };
};

/** Lays parts that are each for some nights, in minutes of the business day. @param nights by part: indices of windows */
export const arrangeByNight = (
  { windows }: World,
  parts: readonly Part[],
  nights: readonly (readonly number[])[],
): Arrangement => ({
  parts,
  placed: windows.map((window, w) => nights.flatMap((of, part) => (of.includes(w) ? [{ part, at: window.base }] : []))),
});

/** The stops of one window, joined where parts touch, in absolute minutes. */
export const stopsIn = ({ parts, placed }: Arrangement, w: number): readonly Stop[] => {
  const stops: Stop[] = [];
  for (const { part, at } of placed[w] as readonly Placement[]) {
    const { from, to } = parts[part] as Part;
    if (from === to) continue;
    const before = stops.at(-1);
    if (before && before.to === at + from) stops[stops.length - 1] = { from: before.from, to: at + to };
    else stops.push({ from: at + from, to: at + to });
  }
  return stops;
};
