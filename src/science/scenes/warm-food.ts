/**
 * Warm food put into a unit that holds food cold: how long its warmest spot takes, against the law's limits, and what its neighbours get.
 */
import type { PansFacts } from '../cabinet/facts.js';
import { runCabinet, type CabinetRun } from '../cabinet/run.js';
import { EVERY, firstPast, pansOf, withPans, type Setting } from './setting.js';

/** A limit on cooling, as a law gives it: to a temperature, K, within a time, s, from the start. */
export interface CoolingLimit {
  readonly to: number;
  readonly within: number;
}

export interface CoolingResult extends CoolingLimit {
  /** s until the warmest spot is there; undefined if it isn't within the run. */
  readonly reached?: number;
  readonly met: boolean;
}

export interface WarmFoodScene {
  readonly run: CabinetRun;
  /** Index of the warm food among the run's loads. */
  readonly load: number;
  readonly limits: readonly CoolingResult[];
  /** K, the warmest spot of the food that stood there before, at its worst; undefined where none stood there. */
  readonly neighbours?: number;
}

/**
 * Warm pans among the cold ones of a box, or a rail's own pans filled with warm food.
 * @param temperature K at the start
 * @param where the base's shelves, with these pans lidded, or the rail
 * @returns undefined for a kitchen out of range
 */
export const warmFoodScene = (
  setting: Setting,
  temperature: number,
  where: { readonly in: 'base'; readonly pans: PansFacts } | { readonly in: 'rail' },
  limits: readonly CoolingLimit[],
): WarmFoodScene | undefined => {
  const model = where.in === 'base' ? withPans(setting.model, setting.base, 'warm food', where.pans) : setting.model;
  const load = where.in === 'base' ? model.loads.length - 1 : pansOf(model, setting.rail);
  const run = runCabinet(model, {
    kitchen: setting.kitchen,
    start: 'settled',
    duration: Math.max(12 * 3600, ...limits.map(({ within }) => within + 3600)),
    every: EVERY,
    events: [
      { at: 0, do: 'fill', load, temperature },
      { at: 0, do: 'doors', zone: setting.base, exchange: setting.doors },
    ],
  });
  const series = run?.loads[load];
  if (run === undefined || series === undefined) return undefined;
  const others = run.loads.filter((l, i) => i !== load && l.zone[0] === series.zone[0]);
  return {
    run,
    load,
    limits: limits.map((limit) => {
      const reached = firstPast(run, series.warmest, limit.to, 'down');
      return { ...limit, ...(reached === undefined ? {} : { reached }), met: reached !== undefined && reached <= limit.within };
    }),
    ...(others.length > 0 ? { neighbours: Math.max(...others.flatMap((l) => l.warmest)) } : {}),
  };
};
