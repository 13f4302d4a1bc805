/**
 * A top's rest as templates name it: its clock, its times by day, what each setting is and why.
 */
import type { Known } from '../base/basis.js';
import { flag, type ByDay } from '../base/value.js';
import { CLOCK_KINDS, type ClockKindName } from '../trade/clocks.js';
import { practice } from './known.js';
import type { UnitRest } from './rests.js';

/** Whether its clock stands still without power. */
export const stopsInPowerCut = ({ clock }: Pick<UnitRest, 'clock'>): boolean =>
  !CLOCK_KINDS[clock.kind.value.code as ClockKindName].survivesPowerCut;

export const restTree = (rest: UnitRest, firstPan: Known<ByDay>) => ({
  clock: rest.clock.kind,
  step: rest.clock.step,
  polarity: rest.clock.polarity,
  where: rest.clock.where,
  by_hand: practice(flag(rest.clock.byHand), 'trait'),
  in_reach: practice(flag(rest.clock.inReach), 'who-may-touch-the-clock'),
  stops_in_power_cut: practice(flag(stopsInPowerCut(rest)), 'trait'),
  after_cut: rest.afterCut,
  kept: practice(flag(rest.kept), 'trait'),
  afternoon: practice(flag(rest.afternoon), 'trait'),
  /** It has other times on other days, so it must know which day it is. */
  by_days: practice(flag(CLOCK_KINDS[rest.clock.kind.value.code as ClockKindName].shares !== 'all'), 'trait'),
  gap: rest.gap,
  settings: rest.settings,
  why: rest.why,
  set: rest.set,
  dial: practice(flag(rest.clock.dial), 'trait'),
  shortest: rest.rest,
  /** Its shortest night is shorter than the rest that is planned as enough. */
  under_enough: practice(flag(rest.rest !== undefined && rest.rest.value.si < rest.needs.enough.value.si), 'trait'),
  start: rest.times?.start,
  empty_by: rest.times?.emptyBy,
  off: rest.times?.off,
  wipe: rest.times?.wipe,
  on: rest.times?.on,
  cold_by: rest.times?.coldBy,
  first_pan: firstPan,
});
