/**
 * A hot kitchen: the same rail with its covers open and shut.
 */
import { runCabinet, type CabinetRun } from '../cabinet/run.js';
import type { FoodTemperature } from '../pan.js';
import { EVERY, firstPast, foodAt, pansOf, type Setting } from './setting.js';

export interface HotSpell {
  readonly run: CabinetRun;
  /** Food at the end. */
  readonly food: FoodTemperature;
  /** s until the mean, and the warmest spot, is over the limit; undefined if it never is. */
  readonly meanOver?: number;
  readonly warmestOver?: number;
}

export interface HotKitchenScene {
  readonly open: HotSpell;
  readonly shut: HotSpell;
}

/**
 * A spell in a hot kitchen, with the covers one way.
 * @param hot the kitchen while it is hot
 * @param duration s
 * @param limit K, cold holding
 * @param until ends the run once the mean is over the limit, if that is all to be known
 * @returns undefined for a kitchen out of range
 */
export const hotSpell = (
  setting: Setting,
  hot: Setting['kitchen'],
  duration: number,
  limit: number,
  covers: 'open' | 'shut',
  until?: 'mean-over',
): HotSpell | undefined => {
  const load = pansOf(setting.model, setting.rail);
  const run = runCabinet(setting.model, {
    kitchen: setting.kitchen,
    start: 'settled',
    duration,
    every: EVERY,
    events: [
      { at: 0, do: 'kitchen', ...hot },
      { at: 0, do: 'covers', zone: setting.rail, shut: covers === 'shut' },
      { at: 0, do: 'doors', zone: setting.base, exchange: setting.doors },
    ],
    ...(until ? { seen: ({ loads }) => (loads[load]?.mean.at(-1) ?? 0) > limit } : {}),
  });
  const series = run?.loads[load];
  if (run === undefined || series === undefined) return undefined;
  const meanOver = firstPast(run, series.mean, limit, 'up');
  const warmestOver = firstPast(run, series.warmest, limit, 'up');
  return {
    run,
    food: foodAt(run, load, duration),
    ...(meanOver === undefined ? {} : { meanOver }),
    ...(warmestOver === undefined ? {} : { warmestOver }),
  };
};

/** The same spell with the covers open and shut. */
export const hotKitchenScene = (
  setting: Setting,
  hot: Setting['kitchen'],
  duration: number,
  limit: number,
): HotKitchenScene | undefined => {
  const of = (covers: 'open' | 'shut') => hotSpell(setting, hot, duration, limit, covers);
  const [open, shut] = [of('open'), of('shut')];
  return open && shut ? { open, shut } : undefined;
};
