/**
 * Gives rest beyond enough back as slack: first to the morning, turning on earlier, up to the pull-down's band; then to the evening, turning off later.
 * In whole steps, and never at the cost of a rule, of useful rest or of more settings.
 */
import type { Arrangement, Part } from './arrangement.js';
import type { Candidate } from './candidates.js';
import { offOnGrid, onOnGrid } from './grid.js';
import { judge, type Verdict } from './judge.js';
import { lengthOf, type Stop } from './problem.js';
import type { World } from './windows.js';

type End = 'from' | 'to';

const moved = (arrangement: Arrangement, part: number, end: End, to: number): Arrangement => ({
  ...arrangement,
  parts: arrangement.parts.with(part, { ...(arrangement.parts[part] as Part), [end]: to }),
});

/** How far an end is worth moving: until no night that rests, and whose first or last stop it is, gains by it. */
const worth = (
  world: World,
  { arrangement: { parts, placed }, verdict }: Candidate,
  part: number,
  end: End,
): number | undefined => {
  const wishes = placed.flatMap((row, w) => {
    const outer = end === 'to' ? row.at(-1) : row[0];
    const window = world.windows[w];
    if (!outer || outer.part !== part || !window || verdict.useful[w] === 0) return [];
    return [(end === 'to' ? window.to - world.need.pullDownBand : Math.min(window.lateEnough, window.to)) - outer.at];
  });
  if (wishes.length === 0) return undefined;
  const { step } = world.clock;
  const here = parts[part] as Part;
  return end === 'to'
    ? Math.min(here.to, Math.max(here.from, onOnGrid(Math.min(...wishes), step)))
    : Math.max(here.from, Math.min(here.to, offOnGrid(Math.max(...wishes), step)));
};

/** Steps that an end can move by itself with the others left alone. */
const alone = (world: World, candidate: Candidate, part: number, end: End): number => {
  const { arrangement, verdict } = candidate;
  const far = worth(world, candidate, part, end);
  if (far === undefined) return 0;
  const { step } = world.clock;
  const here = (arrangement.parts[part] as Part)[end];
  const way = end === 'to' ? -step : step;
  let [good, bad] = [0, Math.abs(far - here) / step + 1];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (asGood(judge(world, moved(arrangement, part, end, here + way * middle)), verdict)) good = middle;
    else bad = middle;
  }
  return good;
};

export const asGood = (a: Verdict, b: Verdict): boolean => a.sound && a.total === b.total && a.settings <= b.settings;

/** Every mix of steps from the most to none; only where ends hinder each other. */
const mixes = function* (limits: readonly number[]): Generator<readonly number[]> {
  const [first, ...rest] = limits;
  if (first === undefined) {
    yield [];
    return;
  }
  for (let n = first; n >= 0; n--) for (const others of mixes(rest)) yield [n, ...others];
};

const trimmed = (world: World, { arrangement }: Candidate, end: End, steps: readonly number[]): Arrangement => ({
  ...arrangement,
  parts: arrangement.parts.map((part, i) => ({
    ...part,
    [end]: part[end] + (end === 'to' ? -1 : 1) * world.clock.step * (steps[i] as number),
  })),
});

const SLACK = { to: 'morning', from: 'evening' } as const;

/** All the best ways to move the ends of one kind; one, unless ends hinder each other. */
const giveBack = (world: World, candidate: Candidate, end: End): readonly Candidate[] => {
  const limits = candidate.arrangement.parts.map((_, part) => alone(world, candidate, part, end));
  const make = (steps: readonly number[]): Candidate => {
    const arrangement = trimmed(world, candidate, end, steps);
    return { arrangement, verdict: judge(world, arrangement) };
  };
  const most = make(limits);
  if (asGood(most.verdict, candidate.verdict)) return [most];
  let found: Candidate[] = [];
  let score = -Infinity;
  for (const steps of mixes(limits)) {
    const next = make(steps);
    if (!asGood(next.verdict, candidate.verdict) || next.verdict[SLACK[end]] < score) continue;
    if (next.verdict[SLACK[end]] > score) found = [];
    score = next.verdict[SLACK[end]];
    found.push(next);
  }
  return found;
};

export const withSlack = (world: World, candidate: Candidate): readonly Candidate[] =>
  giveBack(world, candidate, 'to').flatMap((given) => giveBack(world, given, 'from'));

const sameSlack = (a: Verdict, b: Verdict): boolean => asGood(a, b) && a.morning === b.morning && a.evening === b.evening;

/** The furthest that an end can be moved towards `to` at no cost, in whole steps. */
const furthest = (world: World, candidate: Candidate, part: number, end: End, to: number): number => {
  const here = (candidate.arrangement.parts[part] as Part)[end];
  const way = Math.sign(to - here) * world.clock.step;
  let [good, bad] = [0, Math.abs(to - here) / world.clock.step + 1];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (sameSlack(judge(world, moved(candidate.arrangement, part, end, here + way * middle)), candidate.verdict)) good = middle;
    else bad = middle;
  }
  return here + way * good;
};

/**
 * Where an end may stand at no cost and where the change from the found setting bends: where it is, at the found setting's turnings, and as far in as it can go.
 */
const bends = (world: World, candidate: Candidate, part: number, end: End, found: readonly Stop[]): readonly number[] => {
  const { arrangement } = candidate;
  const { from, to } = arrangement.parts[part] as Part;
  const length = lengthOf(world.circle);
  const offsets = new Set(arrangement.placed.flatMap((row) => row.filter((p) => p.part === part).map((p) => p.at)));
  const turnings = [...offsets].flatMap((at) =>
    found.flatMap((f) => [f.from, f.to].flatMap((m) => [m - at - length, m - at, m - at + length])),
  );
  const limit = furthest(world, candidate, part, end, end === 'from' ? to : from);
  const inside = turnings.filter(
    (m) => m % world.clock.step === 0 && (end === 'from' ? m >= from && m <= limit : m <= to && m >= limit),
  );
  return [...new Set([end === 'from' ? from : to, limit, ...inside])];
};

/** Shorter stops that cost nothing, from one part's start to the end of the same or another: there is rest to spare beyond all slack that is worth having. */
const shorter = (
  world: World,
  candidate: Candidate,
  first: number,
  last: number,
  found: readonly Stop[],
): readonly Candidate[] => {
  const move = (from: Candidate, part: number, end: End): readonly Candidate[] =>
    bends(world, from, part, end, found).map((at) => {
      const arrangement = moved(from.arrangement, part, end, at);
      return { arrangement, verdict: judge(world, arrangement) };
    });
  // Each end first in turn: the one may take what the other then can't.
  const either = [
    ...move(candidate, first, 'from').flatMap((begun) => move(begun, last, 'to')),
    ...move(candidate, last, 'to').flatMap((ended) => move(ended, first, 'from')),
  ];
  return either.filter((next) => sameSlack(next.verdict, candidate.verdict));
};

/** Parts that lie in one night together. */
const together = ({ placed }: Arrangement, a: number, b: number): boolean =>
  placed.some((row) => row.some((p) => p.part === a) && row.some((p) => p.part === b));

/**
 * Moves ends that may lie anywhere to where `order` puts them first.
 * @param order negative when the first comes first @param found the found setting on the circle
 */
export const nearest = (
  world: World,
  candidate: Candidate,
  order: (a: Candidate, b: Candidate) => number,
  found: readonly Stop[],
): Candidate => {
  let best = candidate;
  const parts = [...candidate.arrangement.parts.keys()];
  for (const first of parts) {
    for (const last of parts) {
      if (!together(candidate.arrangement, first, last)) continue;
      // All from where this round began: what one pair has shortened another can't have back.
      for (const next of shorter(world, candidate, first, last, found)) if (order(next, best) < 0) best = next;
    }
  }
  return best === candidate ? best : nearest(world, best, order, found);
};
