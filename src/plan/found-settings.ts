/**
 * The settings that a clock was found with, as stops of a week and as patterns of the days that share one.
 */
import type { Amount } from '../base/amount.js';
import { DAY, WEEK, weekdayAt, WEEKDAYS, type Weekday } from '../base/moment.js';
import { readDays } from '../model/fields.js';
import type { Found } from '../model/store.js';
import type { ReadUnit } from '../read/shelf.js';
import type { ClockSetting } from './clock-settings.js';
import type { Clock, Pattern, Stop, Stretch } from './timetable/index.js';

export type FoundClock = NonNullable<Found['clock']>;

export interface FoundSetting {
  /** Days of the calendar on which it goes off. */
  readonly days: readonly Weekday[];
  readonly off: number;
  readonly on: number;
  /** Days on which it comes on again; left out where each is the day it went off, or the next one. */
  readonly on_days?: readonly Weekday[];
}

/** How many midnights lie between its going off on a day and its coming on. */
const midnightsAfter = ({ off, on, on_days: days }: FoundSetting, day: Weekday): number => {
  const least = on % DAY > off % DAY ? 0 : 1;
  const from = WEEKDAYS.indexOf(day);
  const found = days && WEEKDAYS.findIndex((_, n) => days.includes(weekdayAt(from + least + n)));
  return least + Math.max(found ?? 0, 0);
};

/** As they were written; off and on without days are for all days. */
export const foundSettings = ({ off, on, settings }: Pick<FoundClock, 'off' | 'on' | 'settings'>): readonly FoundSetting[] =>
  settings?.map((s) => ({
    days: s.days === undefined ? WEEKDAYS : readDays(s.days),
    off: s.off,
    on: s.on,
    ...(s.on_day === undefined ? {} : { on_days: [s.on_day] }),
  })) ?? (off === undefined || on === undefined ? [] : [{ days: WEEKDAYS, off, on }]);

/** The setting that a plan needs, as one that is found is written. */
export const settingNeeded = ({ off_days, off, on_days, on }: ClockSetting): FoundSetting => ({
  days: off_days.value.days,
  off: off.value.min,
  on: on.value.min,
  on_days: on_days.value.days,
});

/** Each day's turnings, as clocks count days, however settings group the days: two clocks stand alike where these are alike. */
export const turningsIn = (settings: readonly FoundSetting[]): string =>
  settings
    .flatMap((one) => one.days.map((day) => `${day} ${one.off % DAY} ${midnightsAfter(one, day)} ${one.on % DAY}`))
    .sort()
    .join();

/** The stops of a week, in minutes from Monday 00:00; one that comes on at or before it goes off ends on the next day. A setting of one time never turns. */
export const foundStops = (clock: FoundClock): readonly Stop[] =>
  foundSettings(clock).flatMap((one) => {
    const { days, off, on, on_days } = one;
    if (off % DAY === on % DAY && on_days === undefined) return [];
    return days.map((day) => {
      const midnight = WEEKDAYS.indexOf(day) * DAY;
      return { from: midnight + (off % DAY), to: midnight + midnightsAfter(one, day) * DAY + (on % DAY) };
    });
  });

/** Which way its time of day was out, and by how much; undefined where it was right. */
export const timeOff = ({ slow, fast }: FoundClock) =>
  slow ? ({ way: 'slow', by: slow } as const) : fast && ({ way: 'fast', by: fast } as const);

/** Minutes by which it did everything late, since its time of day was behind; negative where it was ahead. */
export const lateBy = (clock: FoundClock): number => {
  const off = timeOff(clock);
  return off ? Math.round(off.by.si / 60) * (off.way === 'slow' ? 1 : -1) : 0;
};

const inDay = (min: number): number => ((min % DAY) + DAY) % DAY;

/** When it turned by the true time, whatever its dial showed. @param allowance minutes by which a clock of its kind may be out anyway */
export const settingsDone = (clock: FoundClock, allowance: number): readonly FoundSetting[] => {
  const late = lateBy(clock);
  if (Math.abs(late) <= allowance) return foundSettings(clock);
  const moved = (days: readonly Weekday[], at: number): readonly Weekday[] =>
    days.map((day) => weekdayAt(WEEKDAYS.indexOf(day) + Math.floor(at / DAY)));
  return foundSettings(clock).map(({ days, off, on, on_days: onDays }) => {
    const [turnsOff, turnsOn] = [(off % DAY) + late, (on % DAY) + late];
    return {
      days: moved(days, turnsOff),
      off: inDay(turnsOff),
      on: inDay(turnsOn),
      ...(onDays ? { on_days: moved(onDays, turnsOn) } : {}),
    };
  });
};

/** The stretches of one day of the calendar. */
const stretchesOn = (stops: readonly Stop[], day: number): readonly Stretch[] => {
  const start = day * DAY;
  return [-WEEK, 0, WEEK]
    .flatMap((turn) =>
      stops.flatMap(({ from, to }) => {
        const stretch = { off: Math.max(from + turn - start, 0), on: Math.min(to + turn - start, DAY) };
        return stretch.off < stretch.on ? [stretch] : [];
      }),
    )
    .sort((a, b) => a.off - b.off || a.on - b.on);
};

/** @returns undefined where days that share a pattern were written with different times: no such clock holds them */
export const foundPatterns = ({ classes }: Clock, stops: readonly Stop[]): readonly Pattern[] | undefined => {
  const patterns = classes.map((days) => ({ days, stretches: stretchesOn(stops, days[0] as number) }));
  const same = patterns.every(({ days, stretches }) =>
    days.every((day) => JSON.stringify(stretchesOn(stops, day)) === JSON.stringify(stretches)),
  );
  return same ? patterns : undefined;
};

/** What was read of a control. */
export interface ReadEnds {
  readonly cut_in?: Amount | undefined;
  readonly cut_out?: Amount | undefined;
}

export interface BothEnds {
  readonly cut_in: Amount;
  readonly cut_out: Amount;
}

/** Which way an end of a control was found off: below what it should be, above, or neither as far as it was read. */
export const foundOff = (was: ReadEnds, should: BothEnds): { readonly low: boolean; readonly high: boolean } => {
  const off = (['cut_in', 'cut_out'] as const).map((end) => (was[end]?.si ?? should[end].si) - should[end].si);
  const most = 1e-3 * Math.abs(should.cut_in.si);
  return { low: off.some((one) => one < -most), high: off.some((one) => one > most) };
};

/** Whether some end of a control was found off. */
export const isFoundOff = (was: ReadEnds, should: BothEnds): boolean => Object.values(foundOff(was, should)).includes(true);

/** Who has signed for a unit's controls. */
export const signedForControls = ({ unit: { set_by: by } }: Pick<ReadUnit, 'unit'>): { readonly signed?: string } =>
  by && by.controls !== false ? { signed: by.who } : {};

/** Who has signed for a unit's settings on the day that they were found, or later: what was found is not what stands there now. */
export const signedSince = (unit: Pick<ReadUnit, 'unit'>, what: 'clock' | 'controls'): { readonly signed?: string } => {
  const { found, set_by: by } = unit.unit;
  if (!found || !by || by.when < found.when) return {};
  return what === 'controls' ? signedForControls(unit) : { signed: by.who };
};

/** The clock as it stands now, as far as anybody wrote: what it was set to, unless it was found later. */
export const standingClock = ({ unit: { found, set_by: by } }: Pick<ReadUnit, 'unit'>): FoundClock | undefined => {
  const set = by?.clock;
  return set && !(found?.clock && found.when > by.when) ? set : found?.clock;
};
