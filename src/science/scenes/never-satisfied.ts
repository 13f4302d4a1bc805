/**
 * A base that never satisfies: what it does to the rail and to itself depends on why, and on whether the controls are shared.
 * To compare shared and separate controls, play it for both units.
 */
import { runCabinet, type CabinetRun } from '../cabinet/run.js';
import type { Fault } from '../cabinet/state.js';
import type { FoodTemperature } from '../pan.js';
import { EVERY, firstPast, foodBetween, meanBetween, pansOf, type Setting } from './setting.js';

export interface NeverSatisfiedScene {
  readonly run: CabinetRun;
  /** The same hours without the fault. */
  readonly sound: CabinetRun;
  /** Rail food, its mean over the last quarter so that no cycle of the control tells, with and without the fault. */
  readonly rail: { readonly fault: FoodTemperature; readonly sound: FoodTemperature };
  /** K, coldest spot of the rail's food at any time. */
  readonly railColdest: number;
  /** K, mean base air over the last quarter, and its warmest point. */
  readonly baseAir: { readonly late: number; readonly warmest: number };
  /** s until the base's food has a spot over the limit; undefined if it never has, or the base has no food. */
  readonly baseOver?: number;
  /** Part of the time that the compressor runs, with and without the fault. */
  readonly running: { readonly fault: number; readonly sound: number };
}

/** Hours of work with the base's doors in use, with a fault or none; undefined for a kitchen out of range. */
export const baseRun = ({ model, kitchen, base, doors }: Setting, duration: number, fault?: Fault): CabinetRun | undefined =>
  runCabinet(model, {
    kitchen,
    start: 'settled',
    duration,
    every: EVERY,
    events: [
      { at: 0, do: 'doors', zone: base, exchange: doors },
      ...(fault ? [{ at: 0, do: 'fault', zone: base, fault, on: true } as const] : []),
    ],
  });

/**
 * @param fault why the base never satisfies
 * @param duration s
 * @param limit K, cold holding
 * @param sound the same hours without a fault, where they were run already
 * @returns undefined for a kitchen out of range
 */
export const neverSatisfiedScene = (
  setting: Setting,
  fault: Fault,
  duration: number,
  limit: number,
  sound = baseRun(setting, duration),
): NeverSatisfiedScene | undefined => {
  const { model, rail, base } = setting;
  const load = pansOf(model, rail);
  const run = baseRun(setting, duration, fault);
  const [food, box] = [run?.loads[load], run?.zones[base]];
  if (run === undefined || sound === undefined || food === undefined || box === undefined) return undefined;
  const stored = run.loads.find((_, i) => model.loads[i]?.home === base);
  const baseOver = stored && firstPast(run, stored.warmest, limit, 'up');
  const late = (r: CabinetRun): FoodTemperature => foodBetween(r, load, 0.75 * duration, duration);
  const share = (r: CabinetRun): number => meanBetween(r, r.running, EVERY, duration);
  return {
    run,
    sound,
    rail: { fault: late(run), sound: late(sound) },
    railColdest: Math.min(...food.coldest),
    baseAir: { late: meanBetween(run, box.air, 0.75 * duration, duration), warmest: Math.max(...box.air) },
    ...(baseOver === undefined ? {} : { baseOver }),
    running: { fault: share(run), sound: share(sound) },
  };
};
