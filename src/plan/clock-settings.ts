/**
 * From the nights of a week to what a rail's clock is set to.
 */
import type { Known } from '../base/basis.js';
import { DAY, moment, weekdayAt, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { phrase, type ByDay, type Days, type Phrase } from '../base/value.js';
import { computed } from './known.js';
import type { NightPlan } from './timetable/index.js';

export interface ClockSetting {
  readonly days: Known<Days>;
  readonly off_days: Known<Days>;
  readonly off: Known<Moment>;
  readonly on_days: Known<Days>;
  readonly on: Known<Moment>;
}

/**
 * Settings of the clock: turnings that share an off and an on time, once each. `days` are the nights meant; a clock counts calendar days,
 * so `off_days` and `on_days` are those on which it turns: Friday night's 00:45 is set on Saturday.
 */
export const settingsOf = (
  nights: readonly NightPlan[],
  times: { readonly off: Known<ByDay>; readonly on: Known<ByDay> },
): readonly ClockSetting[] => {
  const groups = new Map<
    string,
    { off: number; on: number; late: boolean; days: Weekday[]; offDays: Weekday[]; onDays: Weekday[] }
  >();
  for (const night of nights) {
    for (const { from, to } of night.rest ? night.stops : []) {
      const [off, on] = [from % DAY, to % DAY];
      const group = groups.get(`${off}-${on}`) ?? { off, on, late: from >= DAY, days: [], offDays: [], onDays: [] };
      group.days.push(weekdayAt(night.day));
      group.offDays.push(weekdayAt(night.day + Math.floor(from / DAY)));
      group.onDays.push(weekdayAt(night.day + Math.floor(to / DAY)));
      groups.set(`${off}-${on}`, group);
    }
  }
  const on = (days: readonly Weekday[], from: Known<ByDay>, nightsMeant = false): Known<Days> =>
    computed<Days>(
      { q: 'days', days: WEEKDAYS.filter((day) => days.includes(day)), ...(nightsMeant ? { nights: true as const } : {}) },
      'days-with-one-time',
      [from],
    );
  return [...groups.values()].map((group) => ({
    days: on(group.days, times.off, group.late),
    off_days: on(group.offDays, times.off),
    off: computed(moment(group.off), 'setting-of-those-days', [times.off]),
    on_days: on(group.onDays, times.on),
    on: computed(moment(group.on), 'setting-of-those-days', [times.on]),
  }));
};

/** Off and on in one sentence, by the days of the calendar on which it goes off; with those on which it comes on, where these are not the same night's. */
export const settingSays = ({ off_days: days, off, on_days, on }: ClockSetting): Phrase => {
  const wraps = on.value.min <= off.value.min ? 1 : 0;
  const same = days.value.days.every((day) => on_days.value.days.includes(weekdayAt(WEEKDAYS.indexOf(day) + wraps)));
  return same ? phrase('found.set', { days, off, on }) : phrase('found.set-until', { days, off, on_days, on });
};
