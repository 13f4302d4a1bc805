/**
 * Chooses one arrangement: the clock as found if it is right, else the best by the objective. The answer is unique.
 */
import { type Arrangement } from './arrangement.js';
import { bestWhole, type Candidate } from './candidates.js';
import { change, foundStops, keptAsFound } from './found.js';
import { judge, type Verdict } from './judge.js';
import { lengthOf, type Pattern, type Stop } from './problem.js';
import { withSlack } from './slack.js';
import type { World } from './windows.js';

export interface Choice {
  /** The world in which it was chosen: nights that can't rest by a rule of their own are left out of it. */
  readonly world: World;
  readonly arrangement: Arrangement;
  readonly verdict: Verdict;
  readonly kept: boolean;
}

interface Scored {
  readonly candidate: Candidate;
  readonly change: number;
  readonly off: number;
  readonly stops: readonly Stop[];
}

/** Stops in order on the circle, cut at its end. */
const onCircle = (world: World, stops: readonly Stop[]): readonly Stop[] => {
  const length = lengthOf(world.circle);
  return stops
    .flatMap(({ from, to }) => {
      if (from >= length) return [{ from: from - length, to: to - length }];
      return to > length ? [{ from: 0, to: to - length }, { from, to: length }] : [{ from, to }];
    })
    .sort((a, b) => a.from - b.from);
};

const score = (world: World, candidate: Candidate, found: readonly Stop[]): Scored => {
  const stops = onCircle(world, candidate.verdict.stops.flat());
  return {
    candidate,
    change: found.length > 0 ? change(found, stops) : 0,
    off: stops.reduce((sum, s) => sum + s.to - s.from, 0),
    stops,
  };
};

/** Negative when `a` comes first: more slack to the morning, to the evening, less change, more off, earlier. */
const order = (a: Scored, b: Scored): number => {
  const [x, y] = [a.candidate.verdict, b.candidate.verdict];
  const scores = y.morning - x.morning || y.evening - x.evening || a.change - b.change || b.off - a.off;
  if (scores !== 0) return scores;
  for (const [i, stop] of a.stops.entries()) {
    const other = b.stops[i];
    if (!other) return -1;
    const earlier = stop.from - other.from || other.to - stop.to;
    if (earlier !== 0) return earlier;
  }
  return 0;
};

const first = <T>(items: readonly T[], by: (a: T, b: T) => number): T | undefined =>
  items.reduce<T | undefined>((found, item) => (found === undefined || by(item, found) < 0 ? item : found), undefined);

/** @returns undefined where nothing keeps every rule */
export const choose = (whole: World, found: readonly Pattern[] | undefined): Choice | undefined => {
  const kept = found && keptAsFound(whole, found);
  if (kept) return { world: whole, arrangement: kept, verdict: judge(whole, kept), kept: true };
  const { world, found: candidates } = bestWhole(whole);
  const stops = found ? foundStops(world.circle, found) : [];
  const best = first(
    candidates.flatMap((candidate) => withSlack(world, candidate)).map((candidate) => score(world, candidate, stops)),
    order,
  );
  return best && { world, ...best.candidate, kept: false };
};
