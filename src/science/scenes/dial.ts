/**
 * What another setting of a low-pressure control, or another refrigerant behind the same one, makes of the rail: its air and food after a day,
 * the unit otherwise as it was fitted.
 */
import type { LowPressure } from '../cabinet/facts.js';
import { runCabinet } from '../cabinet/run.js';
import type { FoodTemperature } from '../pan.js';
import { DAY, foodBetween, meanBetween, pansOf, type Setting } from './setting.js';

export interface DialScene {
  /** K, under the pans; mean of half a day of running. */
  readonly air: number;
  readonly food: FoodTemperature;
}

/**
 * @param control K of mean evaporating at which it starts and stops the compressor
 * @returns undefined for a unit without such a control, one the wrong way round, or a kitchen out of range
 */
export const dialScene = ({ model, kitchen, rail }: Setting, control: LowPressure): DialScene | undefined => {
  const was = model.lowPressure;
  if (!was || !(control.cutIn > control.cutOut)) return undefined;
  // A run begins near where it ends, or its food would be under way for days.
  const shift = (control.cutIn + control.cutOut - was.cutIn - was.cutOut) / 2;
  const zones = model.zones.map((z, i) => (i === rail ? { ...z, usual: z.usual + shift } : z));
  const question = { kitchen, start: 'settled', duration: DAY, every: 300, events: [] } as const;
  const run = runCabinet({ ...model, lowPressure: control, zones }, question);
  const air = run?.zones[rail]?.air;
  if (!run || !air) return undefined;
  return { air: meanBetween(run, air, DAY / 2, DAY), food: foodBetween(run, pansOf(model, rail), DAY / 2, DAY) };
};
