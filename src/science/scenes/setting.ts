/**
 * Where a scene plays: a calibrated unit, its kitchen, and which zone is which. A scene is plain data: runs (time series) and figures.
 * Scenes explain; they never clear food. What a person may eat is decided by a probe and the law's limits.
 */
import type { PansFacts } from '../cabinet/facts.js';
import type { UnitModel } from '../cabinet/model.js';
import type { CabinetRun, RunQuestion } from '../cabinet/run.js';
import { panNetwork, type FoodTemperature } from '../pan.js';
import { IN_MOVING_AIR } from '../surroundings.js';

export interface Setting {
  readonly model: UnitModel;
  readonly kitchen: RunQuestion['kitchen'];
  /** Indices of the open rail and of the box that must stay on. */
  readonly rail: number;
  readonly base: number;
  /** kg/s of kitchen air through the base's doors while people work (see doorExchange). */
  readonly doors: number;
}

/** s between the points of a scene's series. */
export const EVERY = 300;
export const HOUR = 3600;
export const DAY = 24 * HOUR;

/** Index of the pans whose home is a zone. Throws where the zone has none: a programmer's mistake. */
export const pansOf = (model: UnitModel, zone: number): number => {
  const load = model.loads.findIndex(({ home }) => home === zone);
  if (load < 0) throw new RangeError(`scene: zone ${zone} has no pans`);
  return load;
};

/** The unit with some more lidded pans on a box's shelves; they are its last load. */
export const withPans = (model: UnitModel, zone: number, name: string, { count, pan, food }: PansFacts): UnitModel => {
  const stored = { network: panNetwork(pan, food, IN_MOVING_AIR), toAir: 1 };
  return { ...model, loads: [...model.loads, { name, home: zone, count, open: stored, covered: stored, stored }] };
};

/** Index of the last point at or before a time, s. */
export const pointAt = (run: CabinetRun, time: number): number => {
  let i = 0;
  while (i + 1 < run.time.length && (run.time[i + 1] as number) <= time + 1e-6) i += 1;
  return i;
};

/** Spots of a load at a time, K. */
export const foodAt = (run: CabinetRun, load: number, time: number): FoodTemperature => {
  const series = run.loads[load];
  const i = pointAt(run, time);
  if (series === undefined) throw new RangeError(`scene: no load ${load}`);
  return { coldest: series.coldest[i] as number, mean: series.mean[i] as number, warmest: series.warmest[i] as number };
};

/** Spots of a load, K, each its mean between two times, s. */
export const foodBetween = (run: CabinetRun, load: number, from: number, to: number): FoodTemperature => {
  const series = run.loads[load];
  if (series === undefined) throw new RangeError(`scene: no load ${load}`);
  const mean = (of: readonly number[]): number => meanBetween(run, of, from, to);
  return { coldest: mean(series.coldest), mean: mean(series.mean), warmest: mean(series.warmest) };
};

/** Mean of a series between two times, s. */
export const meanBetween = (run: CabinetRun, series: readonly number[], from: number, to: number): number => {
  const of = series.slice(pointAt(run, from), pointAt(run, to) + 1);
  return of.reduce((a, b) => a + b, 0) / of.length;
};

/** First time, s, at or after `from` when a series is at or past a limit; undefined if never. */
export const firstPast = (
  run: CabinetRun,
  series: readonly number[],
  limit: number,
  way: 'up' | 'down',
  from = 0,
): number | undefined =>
  run.time.find((t, i) => t >= from && (way === 'up' ? (series[i] as number) > limit : (series[i] as number) <= limit));
