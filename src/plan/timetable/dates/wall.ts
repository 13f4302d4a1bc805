/**
 * Three clocks: the wall (what people read), the dial (what the rail's clock shows) and elapsed minutes (what frost and food feel).
 * All in minutes from 00:00 of one business day; elapsed minutes run on from there whatever the wall does.
 */
import type { Stop } from '../problem.js';

/** From the elapsed minute `from` on, a clock shows elapsed minutes plus `ahead`. */
export interface Leg {
  readonly from: number;
  readonly ahead: number;
}

/** A change of the wall in the course of one business day and its night. */
export interface Change {
  /** Minutes from 00:00 of the business day, as the wall showed before the change. */
  readonly at: number;
  readonly shift: number;
}

/** How the wall runs through a night. */
export const wallLegs = (changes: readonly Change[]): readonly Leg[] => {
  let ahead = 0;
  const legs = [{ from: -Infinity, ahead }];
  for (const { at, shift } of changes) {
    const from = at - ahead;
    ahead += shift;
    legs.push({ from, ahead });
  }
  return legs;
};

/** What a clock shows at an elapsed minute. */
export const shown = (legs: readonly Leg[], elapsed: number): number =>
  elapsed + (legs.findLast((leg) => leg.from <= elapsed) as Leg).ahead;

/**
 * When a clock shows a time. A time that it skips comes when it skips; of a time that it shows twice, the first or the second is asked for.
 */
export const when = (legs: readonly Leg[], time: number, which: 'first' | 'second'): number => {
  const at = (leg: Leg, i: number): number | undefined => {
    const elapsed = time - leg.ahead;
    return elapsed >= leg.from && elapsed < (legs[i + 1]?.from ?? Infinity) ? elapsed : undefined;
  };
  const found = legs.flatMap((leg, i) => at(leg, i) ?? []);
  const one = which === 'first' ? found[0] : found.at(-1);
  // Skipped: the start of the first leg that already shows a later time.
  return one ?? (legs.find((leg) => leg.from + leg.ahead > time) as Leg).from;
};

/** Whether a clock shows a time never, or twice. */
export const oddity = (legs: readonly Leg[], time: number): 'skipped' | 'twice' | undefined => {
  const [first, second] = [when(legs, time, 'first'), when(legs, time, 'second')];
  if (first !== second) return 'twice';
  return shown(legs, first) === time ? undefined : 'skipped';
};

/** The elapsed spans in which a clock shows a time inside one of the spans of its dial; those that touch are joined. */
export const spansShown = (legs: readonly Leg[], spans: readonly Stop[]): readonly Stop[] => {
  const found = legs.flatMap(({ from, ahead }, i) => {
    const end = legs[i + 1]?.from ?? Infinity;
    return spans
      .map((s) => ({ from: Math.max(s.from - ahead, from), to: Math.min(s.to - ahead, end) }))
      .filter((s) => s.from < s.to);
  });
  const joined: Stop[] = [];
  for (const span of found.sort((a, b) => a.from - b.from)) {
    const before = joined.at(-1);
    if (before && span.from <= before.to) joined[joined.length - 1] = { from: before.from, to: Math.max(before.to, span.to) };
    else joined.push(span);
  }
  return joined;
};
