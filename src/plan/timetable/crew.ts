/**
 * The crew's share: when each rail can be empty at the earliest, by when it must have power, and the latest that emptying may begin.
 * Two people at most find room at one rail; each pair of a crew empties rails one after another, the one that is due first going first.
 */
import type { Need, Night, Problem } from './problem.js';

/** One rail's night, in minutes from 00:00 of the business day. */
export interface Demand {
  /** Food is out at the earliest. */
  readonly out: number;
  /** Power is needed from here, at the latest. */
  readonly power: number;
  /** The empty rail is ready; loading begins. */
  readonly coldBy: number;
  /** Melt water is wiped up by here; null where it drains by itself, or somebody is there to wipe at any time. */
  readonly wiped: number | null;
}

const shared = (minutes: number, people: number): number => Math.ceil(minutes / people);

/** More people than two are in each other's way at one rail. Common practice, no source. */
const PAIR = 2;

/** How many of the people share the work at one rail. */
export const atOneRail = (people: number): number => Math.min(people, PAIR);

/** How many rails are emptied at the same time. */
export const pairsOf = (people: number): number => Math.max(1, Math.floor(people / PAIR));

const emptying = (need: Need, night: Night): number => shared(need.empty, atOneRail(night.closers));

/** Loading starts once for all rails of the crew; every one is cold by then. */
const loadingStarts = (needs: readonly Need[], { firstPan, openers }: Night): number => {
  const all = needs.reduce((sum, need) => sum + need.load, 0);
  return firstPan - Math.max(shared(all, openers), ...needs.map((need) => shared(need.load, atOneRail(openers))));
};

const firstFree = (pairs: readonly number[], best: 'min' | 'max'): number => pairs.indexOf(Math[best](...pairs));

/** Of the rails that may be begun the one due first; where none may, the one that may first. */
const inOrder = (needs: readonly Need[], due: readonly number[], night: Night): readonly number[] => {
  const out: number[] = new Array<number>(needs.length).fill(0);
  const waiting = needs.map((_, r) => r);
  const release = (r: number): number => night.closes - (needs[r] as Need).startBeforeClose;
  const pairs = new Array<number>(pairsOf(night.closers)).fill(-Infinity);
  while (waiting.length > 0) {
    const pair = firstFree(pairs, 'min');
    const now = Math.max(pairs[pair] as number, Math.min(...waiting.map(release)));
    const next = waiting.filter((r) => release(r) <= now).reduce((a, b) => ((due[b] as number) < (due[a] as number) ? b : a));
    pairs[pair] = out[next] = now + emptying(needs[next] as Need, night);
    waiting.splice(waiting.indexOf(next), 1);
  }
  return out;
};

/** @returns by night, by rail */
export const demandsOf = ({ nights, rails }: Pick<Problem, 'nights' | 'rails'>): readonly (readonly Demand[])[] => {
  const needs = rails.map((rail) => rail.need);
  return nights.map((night) => {
    const coldBy = loadingStarts(needs, night);
    const power = needs.map((need) => coldBy - need.pullDown);
    const due = needs.map((need, r) => (power[r] as number) - need.leastRest);
    const out = inOrder(needs, due, night);
    return needs.map((need, r) => ({
      out: out[r] as number,
      power: power[r] as number,
      coldBy,
      wiped: need.wipe === null || night.attended ? null : night.comes + need.wipe,
    }));
  });
};

/**
 * The latest start for each rail so that all are empty by their times, for each pair one after another.
 * @param emptyBy by rail; null where a rail stays on this night
 */
const backwards = (
  needs: readonly Need[],
  emptyBy: readonly (number | null)[],
  demands: readonly Demand[],
  night: Night,
): readonly (number | null)[] => {
  const starts: (number | null)[] = needs.map(() => null);
  const out = (r: number): number => (demands[r] as Demand).out;
  const rows = emptyBy.flatMap((by, r) => (by === null ? [] : [{ r, by }])).sort((a, b) => b.by - a.by || out(b.r) - out(a.r));
  const pairs = new Array<number>(pairsOf(night.closers)).fill(Infinity);
  for (const { r, by } of rows) {
    const pair = firstFree(pairs, 'max');
    pairs[pair] = starts[r] = Math.min(by, pairs[pair] as number) - emptying(needs[r] as Need, night);
  }
  return starts;
};

/** As `backwards`; where rails may not all be begun at the same time and that would begin one too soon, the order of the earliest times holds. */
export const latestStarts = (
  needs: readonly Need[],
  emptyBy: readonly (number | null)[],
  demands: readonly Demand[],
  night: Night,
): readonly (number | null)[] => {
  const latest = backwards(needs, emptyBy, demands, night);
  const tooSoon = latest.some((start, r) => start !== null && start < night.closes - (needs[r] as Need).startBeforeClose);
  return tooSoon
    ? emptyBy.map((by, r) => (by === null ? null : (demands[r] as Demand).out - emptying(needs[r] as Need, night)))
    : latest;
};
