/**
 * Chooses one arrangement: the clock as found if it is right, else the best by the objective. The answer is unique.
 */
import { arrangeByNight, type Arrangement, type Part } from './arrangement.js';
import { bestWhole, type Candidate } from './candidates.js';
import { change, foundStops, keptAsFound, minutesOf } from './found.js';
import { judge, type Verdict } from './judge.js';
import { lengthOf, type Pattern, type Stop } from './problem.js';
import { nearest, withSlack } from './slack.js';
import type { Window, World } from './windows.js';

export interface Choice {
  /** The world in which it was chosen: nights that can't rest by a rule of their own are left out of it. */
  readonly world: World;
  readonly arrangement: Arrangement;
  readonly verdict: Verdict;
  readonly kept: boolean;
}

/** Stops cut at the end of the circle. */
const onCircle = (world: World, stops: readonly Stop[]): readonly Stop[] => {
  const length = lengthOf(world.circle);
  return stops.flatMap(({ from, to }) => {
    if (from >= length) return [{ from: from - length, to: to - length }];
    return to > length
      ? [
          { from: 0, to: to - length },
          { from, to: length },
        ]
      : [{ from, to }];
  });
};

/**
 * Negative when `a` comes first: more slack to the morning, to the evening, less on while closed, less change from the clock as found, more off, earlier.
 * @param found null where nothing was found
 */
const orderIn =
  (world: World, found: readonly Stop[] | null) =>
  (a: Candidate, b: Candidate): number => {
    const [x, y] = [a.verdict, b.verdict];
    const slack = y.morning - x.morning || y.evening - x.evening || x.idle - y.idle;
    if (slack !== 0) return slack;
    const [p, q] = [x.stops.flat(), y.stops.flat()];
    const changed = found ? change(found, onCircle(world, p)) - change(found, onCircle(world, q)) : 0;
    if (changed !== 0 || minutesOf(p) !== minutesOf(q)) return changed || minutesOf(q) - minutesOf(p);
    for (const [i, stop] of p.entries()) {
      const other = q[i];
      if (!other) return -1;
      if (stop.from !== other.from) return stop.from - other.from;
      if (stop.to !== other.to) return other.to - stop.to;
    }
    return 0;
  };

const first = <T>(items: readonly T[], by: (a: T, b: T) => number): T | undefined =>
  items.reduce<T | undefined>((found, item) => (found === undefined || by(item, found) < 0 ? item : found), undefined);

/** The stops of a found setting as programs: one for all nights of equal times. */
const asPrograms = (world: World, stops: readonly (readonly Stop[])[]): Arrangement => {
  const nights = new Map<string, { part: Part; of: number[] }>();
  stops.forEach((row, w) => {
    const { base } = world.windows[w] as Window;
    for (const stop of row) {
      const part = { of: 0, from: stop.from - base, to: stop.to - base };
      const known = nights.get(`${part.from} ${part.to}`) ?? { part, of: [] };
      nights.set(`${part.from} ${part.to}`, { part, of: [...known.of, w] });
    }
  });
  const programs = [...nights.values()];
  return arrangeByNight(
    world,
    programs.map((p) => p.part),
    programs.map((p) => p.of),
  );
};

/** @returns undefined where the clock as it was found keeps not every rule */
const asItStands = (world: World, found: readonly Pattern[]): Choice | undefined => {
  const arrangement = keptAsFound(world, found);
  if (!arrangement) return undefined;
  const verdict = judge(world, arrangement);
  const programmed = world.clock.programs !== undefined;
  return { world, arrangement: programmed ? asPrograms(world, verdict.stops) : arrangement, verdict, kept: true };
};

/** Nights whose rest counts. */
const restsIn = ({ verdict }: Pick<Choice, 'verdict'>): number => verdict.useful.filter((minutes) => minutes > 0).length;

/** @returns undefined where nothing keeps every rule */
export const choose = (whole: World, found: readonly Pattern[] | undefined): Choice | undefined => {
  const kept = found && asItStands(whole, found);
  if (kept && restsIn(kept) === whole.windows.length) return kept;
  const { world, found: candidates } = bestWhole(whole);
  const standing = found ? foundStops(world.circle, found) : null;
  const order = orderIn(world, standing);
  const best = first(
    candidates
      .flatMap((candidate) => withSlack(world, candidate))
      .map((candidate) => (standing ? nearest(world, candidate, order, standing) : candidate)),
    order,
  );
  // A setting that is in there stays, unless another gives more nights a rest.
  return kept && !(best && restsIn(best) > restsIn(kept)) ? kept : best && { world, ...best, kept: false };
};
