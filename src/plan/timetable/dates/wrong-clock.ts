/**
 * A clock that shows the wrong time: after a change of the clocks that nobody set it for, or after a power cut that stopped it.
 * Tells what each ordinary night would then be, and what is dangerous about it.
 */
import { DAY } from '../../../base/moment.js';
import type { Outcome } from '../outcome.js';
import type { Clock, Problem } from '../problem.js';
import { demandsOf, type Demand } from '../crew.js';

export interface WrongNight {
  readonly day: number;
  /** When it would go off and come on, by the wall, in minutes of the business day. */
  readonly off: number;
  readonly on: number;
  /** Minutes for which the rail would be off with food still in it. */
  readonly foodInOff: number;
  /** Minutes after power is needed at which it would come on: food would be loaded into a warm rail. */
  readonly late: number;
}

/** Minutes, -720 to 720, by which the dial is ahead of the wall after a change that it doesn't follow: 60 forward leaves it 60 behind. */
export const wrongByChange = (clock: Clock, shift: number): number => (clock.followsDst ? 0 : -shift);

/** A clock that stops in a power cut runs behind by its length; a dial of 12 or 24 hours shows that but for whole days. */
export const wrongByPowerCut = (clock: Clock, minutes: number): number => {
  if (clock.survivesPowerCut) return 0;
  const behind = minutes % DAY;
  return behind > DAY / 2 ? DAY - behind : -behind;
};

/** @param ahead minutes by which the dial is ahead of the wall, negative behind @returns the nights that rest */
export const nightsIfWrong = (
  problem: Problem,
  rail: number,
  outcome: Outcome & { readonly ok: true },
  ahead: number,
): readonly WrongNight[] => {
  const demands = demandsOf(problem);
  return outcome.nights.flatMap(({ day, rest }, i) => {
    if (!rest) return [];
    const { power } = demands[i]?.[rail] as Demand;
    const [off, on] = [rest.off - ahead, rest.on - ahead];
    return [{ day, off, on, foodInOff: Math.max(0, Math.min(rest.emptyBy, on) - off), late: Math.max(0, on - power) }];
  });
};
