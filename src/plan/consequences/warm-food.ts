/**
 * Food put into the box warm, against the law's limits on cooling: how long it takes where it is warmest. Told only where it misses them.
 */
import { amount, type Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import type { MoistAir } from '../../science/moist-air.js';
import { warmFoodScene, type CoolingResult } from '../../science/scenes/warm-food.js';
import { lawful } from '../known.js';
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

interface Pair {
  readonly f?: number | undefined;
  readonly c: number;
}

/** A step of the law: from one temperature to another within a time. */
interface Step {
  readonly code: 'warm-cooked' | 'warm-room';
  readonly from: Known<Amount<'temperature'>>;
  readonly to: Known<Amount<'temperature'>>;
  readonly within: Known<Amount<'duration'>>;
}

/** Cooked food to the law's middle figure, and food of that figure to cold; of a law that gives one stretch, only that. */
const stepsOf = ({ law, lawAt }: SceneContext): readonly Step[] => {
  const { cooling } = law;
  if (!cooling) return [];
  const basis = { law: law.name, section: cooling.section, checked: cooling.checked, at: lawAt };
  const pair = ({ f, c }: Pair): Known<Amount<'temperature'>> =>
    lawful({ ...amount('temperature', c + 273.15), printed: { '°C': c, ...(f === undefined ? {} : { '°F': f }) } }, basis);
  const hours = (n: number): Known<Amount<'duration'>> => lawful(amount('duration', n * 3600), basis);
  const { from, through, to } = cooling;
  if (!through) return [{ code: 'warm-cooked', from: pair(from), to: pair(to), within: hours(to.hours) }];
  return [
    { code: 'warm-cooked', from: pair(from), to: pair(through), within: hours(through.hours) },
    { code: 'warm-room', from: pair(through), to: pair(to), within: hours(to.hours - through.hours) },
  ];
};

export const warmFood = (context: SceneContext) => {
  const { box, climate } = context;
  if (!box) return [];
  return stepsOf(context).flatMap((step) => {
    const { code, from, to, within } = step;
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
