/**
 * A hot kitchen: the same rail with its covers open and shut.
 */
import { runCabinet, type CabinetRun } from '../cabinet/run.js';
import type { FoodTemperature } from '../pan.js';
import { EVERY, firstPast, foodAt, pansOf, type Setting } from './setting.js';

interface CoversResult {
  readonly run: CabinetRun;
  /** Food at the end. */
  readonly food: FoodTemperature;
  /** s until the mean, and the warmest spot, is over the limit; undefined if it never is. */
  readonly meanOver?: number;
  readonly warmestOver?: number;
}

export interface HotKitchenScene {
  readonly open: CoversResult;
  readonly shut: CoversResult;
}

/**
 * A spell in a hot kitchen.
 * @param hot the kitchen while it is hot
 * @param duration s
 * @param limit K, cold holding
 * @returns undefined for a kitchen out of range
 */
export const hotKitchenScene = (
  setting: Setting,
  hot: Setting['kitchen'],
  duration: number,
  limit: number,
): HotKitchenScene | undefined => {
  const load = pansOf(setting.model, setting.rail);
  const of = (shut: boolean): CoversResult | undefined => {
    const run = runCabinet(setting.model, {
      kitchen: setting.kitchen,
      start: 'settled',
      duration,
      every: EVERY,
      events: [
        { at: 0, do: 'kitchen', ...hot },
        { at: 0, do: 'covers', zone: setting.rail, shut },
        { at: 0, do: 'doors', zone: setting.base, exchange: setting.doors },
      ],
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
  const [open, shut] = [of(false), of(true)];
  return open && shut ? { open, shut } : undefined;
};
