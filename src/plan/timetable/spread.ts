/**
 * Rests with food in the box: several short ones a day, spread so that the longest run between two is as short as can be, and none in a rush.
 * For boxes that defrost by stopping or by heat; a rail whose food comes out at night is the solver's.
 */
import type { Stop } from './problem.js';

export interface SpreadProblem {
  readonly minutesPerDay: number;
  /** Rests a day, 1 or more. */
  readonly count: number;
  /** Minutes of each, with whatever must follow it before the doors may open (drip, no loading). */
  readonly minutes: number;
  /** Starts lie on multiples of it; divides the day. */
  readonly step: number;
  /** Minutes of the day in which no rest may fall; `to` at or before `from` is past midnight. */
  readonly avoid: readonly Stop[];
}

export type Spread =
  | { readonly ok: true; readonly starts: readonly number[]; readonly longestRun: number }
  /** So many fit, at most. */
  | { readonly ok: false; readonly code: 'no-room'; readonly fits: number };

/** Starts at which a whole rest is free. */
const freeStarts = ({ minutesPerDay: day, minutes, step, avoid }: SpreadProblem): readonly number[] => {
  const clashes = (start: number): boolean =>
    avoid.some(({ from, to }) =>
      [-day, 0, day].some((shift) => start < (to <= from ? to + day : to) + shift && from + shift < start + minutes),
    );
  return Array.from({ length: Math.ceil(day / step) }, (_, i) => i * step).filter((start) => !clashes(start));
};

/** The free starts of a day that begins with `first`. */
const dayFrom = (free: readonly number[], first: number, day: number): readonly number[] => [
  ...free.filter((start) => start >= first),
  ...free.filter((start) => start < first).map((start) => start + day),
];

/** Starts of `count` rests from `first` on, each run between two no longer than `run`, as even as that allows; undefined where there are none. */
const chain = (
  { minutesPerDay: day, count, minutes }: SpreadProblem,
  free: readonly number[],
  first: number,
  run: number,
): readonly number[] | undefined => {
  const starts = dayFrom(free, first, day);
  const last = first + day - minutes;
  // By rest, from the last one back: from which starts the rest of the day can be filled.
  const fills: boolean[][] = [starts.map((start) => start <= last && start >= last - run)];
  while (fills.length < count) {
    const after = fills[0] as boolean[];
    const [begin, end] = [minutes, minutes + run];
    let [low, high, good] = [0, 0, 0];
    fills.unshift(
      starts.map((start) => {
        for (; high < starts.length && (starts[high] as number) <= start + end; high++) good += after[high] ? 1 : 0;
        for (; low < high && (starts[low] as number) < start + begin; low++) good -= after[low] ? 1 : 0;
        return good > 0;
      }),
    );
  }
  if (!fills[0]?.[0]) return undefined;
  const chosen = [first];
  for (let k = 1; k < count; k++) {
    const before = chosen.at(-1) as number;
    const even = first + (k * day) / count;
    const next = starts.filter((start, j) => fills[k]?.[j] && start >= before + minutes && start <= before + minutes + run);
    chosen.push(next.reduce((a, b) => (Math.abs(b - even) < Math.abs(a - even) ? b : a)));
  }
  return chosen;
};

/** How many rests fit at all. */
const fits = ({ minutesPerDay: day, minutes }: SpreadProblem, free: readonly number[]): number =>
  Math.max(
    0,
    ...free.map((first) => {
      let [count, end] = [0, first];
      for (const start of dayFrom(free, first, day))
        if (start >= end && start + minutes <= first + day) [count, end] = [count + 1, start + minutes];
      return count;
    }),
  );

/** @returns starts, the first of the day first, with the shortest longest run; of equals the earliest first start */
export const spreadRests = (problem: SpreadProblem): Spread => {
  const { minutesPerDay: day, minutes } = problem;
  const free = freeStarts(problem);
  const within = (run: number): readonly number[] | undefined => {
    for (const first of free) {
      // Starts lie no further apart than a rest and a run, so one of them lies this early.
      if (first > minutes + run) return undefined;
      const found = chain(problem, free, first, run);
      if (found) return found;
    }
    return undefined;
  };
  let found = within(day);
  if (!found) return { ok: false, code: 'no-room', fits: fits(problem, free) };
  let [no, yes] = [-1, day];
  while (yes - no > 1) {
    const middle = Math.floor((no + yes) / 2);
    const shorter = within(middle);
    if (shorter) [yes, found] = [middle, shorter];
    else no = middle;
  }
  return { ok: true, starts: found.map((start) => start % day).sort((a, b) => a - b), longestRun: yes };
};
