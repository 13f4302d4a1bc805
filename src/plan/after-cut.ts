/**
 * A clock that stands still in a power cut: when the rail would go off and come on after an hour without power, and from which length on it would go off by day.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import type { ByDay } from '../base/value.js';
import { computed, practice } from './known.js';
import { byDays, morningOf } from './nights-by-day.js';
import { nightsIfWrong, wrongByPowerCut } from './timetable/dates/index.js';
import type { Clock, NightPlan, Outcome, Problem } from './timetable/index.js';

export interface AfterCut {
  /** The cut that the times are for; each further one adds as much. */
  readonly lasted: Known<Amount<'duration'>>;
  readonly off: Known<ByDay>;
  readonly on: Known<ByDay>;
  /** How late that is for loading on the tightest morning. */
  readonly late: Known<Amount<'duration'>>;
  /** After so long a cut, or a longer one, the rail is cold when it should be loaded and goes off with the food in it. */
  readonly by_day: Known<Amount<'duration'>>;
  readonly [key: string]: Known<Amount<'duration'>> | Known<ByDay>;
}

const HOUR = 60;
/** Less than the whole way, since a cut just short of it finds the top already cold. Common practice, no source. */
const MARGIN = 2 * HOUR;

/** From going off to loading on the shortest night, less a margin, in whole hours, down. */
const untilLoading = (nights: readonly NightPlan[]): number =>
  Math.max(
    HOUR,
    Math.floor((Math.min(...nights.flatMap((n) => (n.rest ? [n.coldBy - n.rest.off] : []))) - MARGIN) / HOUR) * HOUR,
  );

/** @param from the leaves of the times that the clock keeps @returns undefined for a clock that runs on, or a hand */
export const afterCut = (
  problem: Problem,
  rail: number,
  outcome: Outcome & { readonly ok: true },
  from: readonly Known<unknown>[],
): AfterCut | undefined => {
  const clock = problem.rails[rail]?.clock as Clock;
  if (clock.by === 'hand' || clock.survivesPowerCut) return undefined;
  const wrong = new Map(nightsIfWrong(problem, rail, outcome, wrongByPowerCut(clock, HOUR)).map((n) => [n.day, n]));
  const minutes = (n: number): Amount<'duration'> => amount('duration', n * 60);
  const lasted = practice(minutes(HOUR), 'an-hour-for-example');
  const basis = [lasted, ...from];
  const times = (pick: (n: NightPlan) => readonly [number, number] | undefined): Known<ByDay> =>
    computed(byDays(outcome.nights, pick), 'clock-stood', basis);
  return {
    lasted,
    off: times((n) => [0, wrong.get(n.day)?.off ?? 0]),
    on: times((n) => [morningOf(n), wrong.get(n.day)?.on ?? 0]),
    late: computed(minutes(Math.max(...[...wrong.values()].map((n) => n.late))), 'clock-stood', basis, 'up'),
    by_day: computed(minutes(untilLoading(outcome.nights)), 'goes-off-by-day', from, 'down'),
  };
};
