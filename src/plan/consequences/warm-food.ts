/**
 * Food put into the box warm, against the law's limits on cooling: how long it takes where it is warmest. Told only where it misses them.
 */
import type { MoistAir } from '../../science/moist-air.js';
import { warmFoodScene, type CoolingResult } from '../../science/scenes/warm-food.js';
import { settingOf } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import { figuresOf, halvesUp, says, type SceneContext } from './context.js';

/** Two pans beside what is there. Common practice, no source. */
const PANS = 2;
/** s; how long the scene looks. */
const WATCHED = 12 * 3600;

interface WarmQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  readonly from: number;
  readonly to: number;
  readonly within: number;
}

const coolingOf: (question: WarmQuestion) => CoolingResult | undefined = remembered(({ machine, kitchen, from, to, within }) => {
  const setting = settingOf(machine, kitchen);
  const zone = machine.facts.zones[machine.box ?? -1];
  if (!setting || !zone?.pans) return undefined;
  const pans = { ...zone.pans, count: PANS };
  return warmFoodScene(setting, from, { in: 'base', pans }, [{ to, within }])?.limits[0];
});

/** Cooked food to the law's middle figure, and food of that figure to cold; of a law that gives one stretch, only that. */
const CODES = ['warm-cooked', 'warm-room'] as const;

export const warmFood = (context: SceneContext) => {
  const { box, climate } = context;
  if (!box) return [];
  return context.facts.law.cooling.flatMap((step, i) => {
    const { from, to, within } = step;
    const code = CODES[i] as (typeof CODES)[number];
    const found = coolingOf({
      machine: box,
      kitchen: climate.usual,
      from: from.value.si,
      to: to.value.si,
      within: within.value.si,
    });
    if (!found || found.met) return [];
    const { duration } = figuresOf(context, 'usual', [from, to]);
    const late = found.reached !== undefined;
    const takes = duration(late ? halvesUp(found.reached ?? 0) : WATCHED, late ? 'warm-food-takes' : 'warm-food-watched', 'up');
    return [{ from, to, within, takes, says: says(`${code}-${late ? 'late' : 'never'}`, { from, to, within, takes }) }];
  });
};
