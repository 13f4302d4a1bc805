/**
 * The night that a rail has most often in a week, from empty to first pan, with its stretches rounded up so that near nights are one.
 */
import type { Known } from '../../base/basis.js';
import { DAY, moment, weekdayAfter, WEEKDAYS, type Moment } from '../../base/moment.js';
import type { ByDay, Flag } from '../../base/value.js';
import type { NightTimes } from '../../science/scenes/one-night.js';
import { computed } from '../known.js';

/** The times of a rail's nights and mornings; those of a rail without a schedule are missing. */
export interface Rested {
  readonly empty_by: Known<ByDay> | undefined;
  readonly off: Known<ByDay> | undefined;
  readonly on: Known<ByDay> | undefined;
  readonly first_pan: Known<ByDay>;
  /** It rests in the afternoon closing, which opens again on its own day. */
  readonly afternoon: Known<Flag>;
}

export interface UsualNight {
  readonly empty_by: Known<Moment>;
  readonly off: Known<Moment>;
  readonly on: Known<Moment>;
  readonly first_pan: Known<Moment>;
}

/** Minutes of the longest stretches are told to a quarter of an hour. */
const QUARTER = 15;
const quarters = (minutes: number): number => Math.max(0, Math.ceil(minutes / QUARTER)) * QUARTER * 60;

type Night = readonly [emptyBy: number, off: number, on: number, firstPan: number];

/** @returns undefined for a rail without a schedule */
export const usualNight = (rest: Rested | undefined): { readonly night: UsualNight; readonly times: NightTimes } | undefined => {
  if (!rest?.empty_by || !rest.off || !rest.on) return undefined;
  const { empty_by: emptyBy, off, on, first_pan: firstPan } = rest;
  const counted = new Map<string, { readonly night: Night; count: number }>();
  for (const day of WEEKDAYS) {
    const later = WEEKDAYS.map((_, i) => (rest.afternoon.value.is ? i : i + 1)).find((n) => on.value.at[weekdayAfter(day, n)]);
    if (later === undefined) continue;
    const at = (times: Known<ByDay>, shift: number): number | undefined => {
      const found = times.value.at[weekdayAfter(day, shift)];
      return found && found.min + shift * DAY;
    };
    const night = [at(emptyBy, 0), at(off, 0), at(on, later), at(firstPan, later)];
    if (!night.every((m) => m !== undefined)) continue;
    const key = night.map((m) => m % DAY).join();
    const found = counted.get(key) ?? { night: night as unknown as Night, count: 0 };
    found.count += 1;
    counted.set(key, found);
  }
  const [most] = [...counted.values()].sort((a, b) => b.count - a.count);
  if (!most) return undefined;
  const [empty, goes, comes, loaded] = most.night;
  const leaf = (min: number, from: Known<ByDay>): Known<Moment> => computed(moment(min), 'usual-night', [from]);
  const offAfter = quarters(goes - empty);
  const onAfter = offAfter + quarters(comes - goes);
  return {
    night: {
      empty_by: leaf(empty, emptyBy),
      off: leaf(goes, off),
      on: leaf(comes, on),
      first_pan: leaf(loaded, firstPan),
    },
    times: { off: offAfter, on: onAfter, loaded: onAfter + quarters(loaded - comes) },
  };
};
