/**
 * Nights: the rail emptied, or the food left in it; and what two weeks without an off-cycle do.
 */
import type { CabinetEvent } from '../cabinet/event.js';
import { runCabinet, type CabinetRun } from '../cabinet/run.js';
import type { FoodTemperature } from '../pan.js';
import { DAY, EVERY, foodAt, meanBetween, pansOf, pointAt, type Setting } from './setting.js';

/** A day's times, s from its midnight; past midnight is more than 86 400. Emptied <= off < on <= loaded, a day later. */
export interface DayTimes {
  /** First pan in the rail. */
  readonly loaded: number;
  /** The rail is empty. */
  readonly emptied: number;
  /** Its clock switches it off, and on again the next morning (as of the next day's midnight). */
  readonly off: number;
  readonly on: number;
  /** Covers of an empty rail at night. */
  readonly covers: 'up' | 'down';
}

interface Night {
  readonly emptied: boolean;
  readonly rests: boolean;
}

/** From loading to loading: time 0 is the first loading. */
const eventsOf = ({ rail, base, doors, model }: Setting, t: DayTimes, days: number, night: Night): CabinetEvent[] => {
  const load = pansOf(model, rail);
  // A rail that is fed with the base's air has no clock: to rest it would be to rest the base.
  const clocked = model.zones[rail]?.from === -1 && night.rests;
  return Array.from({ length: days }, (_, day): CabinetEvent[] => {
    const at = (time: number): number => day * DAY + time - t.loaded;
    return [
      { at: at(t.loaded), do: 'covers', zone: rail, shut: false },
      { at: at(t.loaded), do: 'move', load, to: rail },
      { at: at(t.loaded), do: 'doors', zone: base, exchange: doors },
      { at: at(t.emptied), do: 'covers', zone: rail, shut: t.covers === 'down' || !night.emptied },
      ...(night.emptied ? [{ at: at(t.emptied), do: 'move', load, to: base } as const] : []),
      { at: at(t.emptied), do: 'doors', zone: base, exchange: 0 },
      ...(clocked
        ? ([
            { at: at(t.off), do: 'cooling', zone: rail, on: false },
            { at: at(DAY + t.on) - 60, do: 'wipe', zone: rail },
            { at: at(DAY + t.on), do: 'cooling', zone: rail, on: true },
          ] as const)
        : []),
    ];
  }).flat();
};

export interface NightScene {
  readonly emptied: CabinetRun;
  readonly left: CabinetRun;
  /** Food when the clock switches the rail on again on the last morning, and at loading time. */
  readonly atOn: { readonly emptied: FoodTemperature; readonly left: FoodTemperature };
  readonly atLoading: { readonly emptied: FoodTemperature; readonly left: FoodTemperature };
  /** The left food eight hours into that day's work. */
  readonly afterShift: FoodTemperature;
  /** s from the first off-time until the left food's mean passes the limit, and from loading until its mean is back; undefined if not. */
  readonly over?: number;
  readonly back?: number;
}

/**
 * Two nights, with the rail emptied and with the food left in it.
 * @param limit K, cold holding
 * @returns undefined for a kitchen out of range
 */
export const nightScene = (setting: Setting, times: DayTimes, limit: number): NightScene | undefined => {
  const run = (emptied: boolean): CabinetRun | undefined =>
    runCabinet(setting.model, {
      kitchen: setting.kitchen,
      start: 'settled',
      duration: 2 * DAY + 10 * 3600,
      every: EVERY,
      events: eventsOf(setting, times, 3, { emptied, rests: true }),
    });
  const [emptied, left] = [run(true), run(false)];
  if (emptied === undefined || left === undefined) return undefined;
  const load = pansOf(setting.model, setting.rail);
  const mean = left.loads[load]?.mean ?? [];
  const both = (time: number) => ({ emptied: foodAt(emptied, load, time - 60), left: foodAt(left, load, time - 60) });
  const off = times.off - times.loaded;
  const passed = left.time.findIndex((t, i) => t >= off && t <= DAY && (mean[i] as number) > limit);
  const returned = left.time.findIndex((t, i) => t >= 2 * DAY && (mean[i] as number) <= limit);
  return {
    emptied,
    left,
    atOn: both(2 * DAY + times.on - times.loaded),
    atLoading: both(2 * DAY),
    afterShift: foodAt(left, load, 2 * DAY + 8 * 3600),
    ...(passed >= 0 ? { over: (left.time[passed] as number) - off } : {}),
    ...(returned >= 0 ? { back: (left.time[returned] as number) - 2 * DAY } : {}),
  };
};

/** One figure a day, of the hours of work: K of air and food, kg of frost at the day's end. */
export interface DailyFigures {
  readonly air: readonly number[];
  readonly food: readonly FoodTemperature[];
  readonly frost: readonly number[];
}

export interface SkippedRestScene {
  readonly rested: DailyFigures;
  readonly skipped: DailyFigures;
}

/**
 * Days in which the rail is emptied every night, and rests or doesn't.
 * @param limit K; where given, the days end with the first on which the food's mean is over it at the end of work
 * @returns undefined for a kitchen out of range
 */
export const dailyFigures = (
  setting: Setting,
  times: DayTimes,
  days: number,
  rests: boolean,
  limit = Infinity,
): DailyFigures | undefined => {
  const load = pansOf(setting.model, setting.rail);
  const every = 3 * EVERY;
  const ends = times.emptied - times.loaded - every;
  const run = runCabinet(setting.model, {
    kitchen: setting.kitchen,
    start: 'settled',
    duration: days * DAY,
    every,
    events: eventsOf(setting, times, days, { emptied: true, rests }),
    seen: ({ time, loads }) => Math.round((time.at(-1) ?? 0) - ends) % DAY === 0 && (loads[load]?.mean.at(-1) ?? 0) > limit,
  });
  const rail = run?.zones[setting.rail];
  if (run === undefined || rail === undefined) return undefined;
  const lived = Math.floor(((run.time.at(-1) ?? 0) - ends + 1) / DAY) + 1;
  const each = <T>(of: (start: number, end: number) => T): T[] =>
    Array.from({ length: Math.min(days, lived) }, (_, day) => of(day * DAY, day * DAY + ends));
  return {
    air: each((start, end) => meanBetween(run, rail.air, (start + end) / 2, end)),
    food: each((_, end) => foodAt(run, load, end)),
    frost: each((_, end) => rail.frost[pointAt(run, end)] as number),
  };
};

/**
 * Weeks in which the rail is emptied every night, with and without its off-cycle.
 * @returns undefined for a kitchen out of range
 */
export const skippedRestScene = (setting: Setting, times: DayTimes, days = 14): SkippedRestScene | undefined => {
  const [rested, skipped] = [dailyFigures(setting, times, days, true), dailyFigures(setting, times, days, false)];
  return rested && skipped ? { rested, skipped } : undefined;
};
