/**
 * One night of the rail in two ways: emptied, or with the food left in. Told only where it condemns: a figure never makes left food look safe.
 */
import type { Known } from '../../base/basis.js';
import type { MoistAir } from '../../science/moist-air.js';
import { oneNightScene, type NightTimes, type OneNightScene } from '../../science/scenes/one-night.js';
import { Beside } from '../known.js';
import { settingOf } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import { figuresOf, halvesUp, says, type SceneContext } from './context.js';
import { usualNight } from './usual-night.js';

interface NightQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  readonly times: NightTimes;
  readonly probed: number;
  readonly limit: number;
}

/** Once for equal questions. */
export const nightOf: (question: NightQuestion) => OneNightScene | undefined = remembered(
  ({ machine, kitchen, times, probed, limit }) => {
    const setting = settingOf(machine, kitchen);
    return setting && oneNightScene(setting, times, probed, limit);
  },
);

/** Curves for the picture: s from closing, and when the rail goes off and on. */
export interface NightCurves extends NightTimes, Pick<OneNightScene, 'time' | 'left' | 'moved'> {}

/** A point each quarter of an hour is enough for a picture. */
const EACH = 3;
const thinned = <T>(series: readonly T[]): readonly T[] => series.filter((_, i) => i % EACH === 0 || i === series.length - 1);

/** @returns undefined without a static rail, a schedule and a box under it; or where the left food's mean would stay under the limit */
export const nights = (context: SceneContext) => {
  const { rest, rail, climate, facts } = context;
  const found = usualNight(rest);
  if (!found || rail?.box === undefined) return undefined;
  const { night, times } = found;
  const { aim, limit } = facts.law;
  const scene = nightOf({ machine: rail, kitchen: climate.usual, times, probed: aim.value.si, limit: limit.value.si });
  if (!scene || !(scene.atOn.mean > limit.value.si)) return undefined;
  const { temperature, duration } = figuresOf(context, 'usual', [aim, night.off, night.on] satisfies Known<unknown>[]);
  const mean = temperature(scene.atOn.mean, 'left-food-mean', 'up');
  const warmest = temperature(scene.atOn.warmest, 'left-food-warmest', 'up');
  const over = duration(halvesUp(scene.overByOn), 'left-food-over', 'up');
  const curves: NightCurves = { ...times, time: thinned(scene.time), left: thinned(scene.left), moved: thinned(scene.moved) };
  return {
    ...night,
    start: aim,
    mean,
    warmest,
    over,
    /** When the first pan would go in; the rail has been on for a while by then. */
    opening: {
      mean: temperature(scene.atLoading.mean, 'left-food-at-opening', 'up'),
      warmest: temperature(scene.atLoading.warmest, 'left-food-at-opening', 'up'),
    },
    curves: new Beside(curves),
    says: says('night-left', { start: aim, mean, warmest, over, limit, on: night.on }),
  };
};
