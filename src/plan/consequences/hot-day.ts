/**
 * The hottest kitchen: how soon open covers lose the food, and up to which kitchen the rail holds at all. The model shows an open top warm,
 * so these figures ask for shut covers and never allow open ones.
 */
import type { Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import type { MoistAir } from '../../science/moist-air.js';
import { hotSpell } from '../../science/scenes/hot-kitchen.js';
import { DAY } from '../../science/scenes/setting.js';
import { fahrenheit, kelvin, warmed } from '../physics/climate.js';
import { settingOf, steady } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import { figuresOf, halvesDown, says, type SceneContext } from './context.js';

interface HotQuestion {
  readonly machine: Machine;
  readonly usual: MoistAir;
  readonly hottest: MoistAir;
  readonly limit: number;
}

/** s until the mean of the food is over the limit, covers open; null if a day doesn't do it. */
const openOver: (question: HotQuestion) => number | null = remembered(({ machine, usual, hottest, limit }) => {
  const setting = settingOf(machine, usual);
  return (setting && hotSpell(setting, hottest, DAY, limit, 'open', 'mean-over')?.meanOver) ?? null;
});

/** Under this the day begins over the limit, more or less: no time is told. */
const AT_ONCE = 1800;

export const hotDay = (context: SceneContext) => {
  const { rail, climate, facts, physics } = context;
  if (rail?.rail === undefined) return undefined;
  const { limit } = facts.law;
  const seconds = openOver({ machine: rail, usual: climate.usual, hottest: climate.hottest, limit: limit.value.si });
  if (seconds === null) return undefined;
  const kitchen = physics.hottest;
  const figures = figuresOf(context, 'hottest', [limit]);
  const after = seconds < AT_ONCE ? undefined : figures.duration(halvesDown(seconds), 'open-covers-over', 'down');
  // Staff are told no hours of an average: its warmest spot is over long before, and hours read as permission.
  const shut = steady({ facts: rail.facts, rail: rail.rail, kitchen: climate.hottest, covers: 'shut' })?.food;
  const over = shut !== undefined && shut.warmest > limit.value.si;
  return { kitchen, after, says: says(over ? 'hot-open-shut' : 'hot-open', { kitchen, limit }) };
};

/** Kitchens that are tried, °F: all that a run accepts, and one hotter that counts as failed. */
const [COOLEST, HOTTEST, STEP] = [-4, 142, 2];
/** K of food a °F of kitchen, about: it decides how many kitchens are tried, not which is found. */
const A_DEGREE = 0.2;

interface HoldsQuestion {
  readonly machine: Machine;
  readonly usual: MoistAir;
  /** K, rounded outward: tried first, so that what is told of it and what is found agree. */
  readonly hottest: number;
  readonly aim: number;
  readonly spot: 'mean' | 'warmest';
  readonly covers: 'open' | 'shut';
}

/** K of the warmest kitchen, in even °F, in which a spot of the food stays at the aim; null if none of those tried. */
const warmestKitchen: (question: HoldsQuestion) => number | null = remembered(
  ({ machine: { facts, rail }, usual, hottest, aim, spot, covers }) => {
    /** K that the spot lies over the aim; over any where there is no answer. */
    const over = (fahrenheit: number): number => {
      const kitchen = warmed(usual, kelvin(fahrenheit));
      const food = rail === undefined ? undefined : steady({ facts, rail, kitchen, covers })?.food;
      return food === undefined ? Infinity : food[spot] - aim;
    };
    // Food follows the kitchen nearly in a straight line: a few tries find the crossing.
    let [low, high] = [COOLEST - STEP, HOTTEST];
    let [below, above] = [NaN, NaN];
    let next = Math.round(fahrenheit(hottest));
    while (high - low > STEP) {
      const tried = Math.min(high - STEP, Math.max(low + STEP, Math.floor(next / STEP) * STEP));
      const found = over(tried);
      if (found <= 0) [low, below] = [tried, found];
      else [high, above] = [tried, found];
      const slope = (above - below) / (high - low);
      next = tried - found / (slope > 0 && slope < Infinity ? slope : A_DEGREE);
    }
    return low < COOLEST ? null : kelvin(low);
  },
);

/**
 * Up to which kitchen the warmest spot is predicted to hold with the covers shut: `rail-cannot-hold` tells of a store's hottest that lies over it.
 * And over which one open covers fail even on the mean.
 */
export const holdsTo = (context: SceneContext) => {
  const { rail, climate, facts, physics } = context;
  if (rail?.rail === undefined) return undefined;
  const { aim, limit } = facts.law;
  const { usual, freezes } = physics;
  const to = (spot: 'mean' | 'warmest', covers: 'open' | 'shut'): Known<Amount<'temperature'>> | undefined => {
    const hottest = climate.hottest.temperature;
    const si = warmestKitchen({ machine: rail, usual: climate.usual, hottest, aim: aim.value.si, spot, covers });
    return si === null ? undefined : figuresOf(context, 'usual', [aim]).temperature(si, `kitchen-that-${spot}-holds`, 'colder');
  };
  const shut = steady({ facts: rail.facts, rail: rail.rail, kitchen: climate.usual, covers: 'shut' })?.food;
  const { temperature } = figuresOf(context, 'usual', [aim]);
  const food = shut && shut.warmest > aim.value.si ? temperature(shut.warmest, 'warmest-on-usual-day', 'up') : undefined;
  const coldest =
    shut && freezes && shut.coldest < freezes.value.si ? temperature(shut.coldest, 'coldest-on-usual-day', 'colder') : undefined;
  return {
    warmest_shut: to('warmest', 'shut'),
    mean_open: to('mean', 'open'),
    aim,
    /** On a usual day, where the model shows it over its aim. */
    usual_shut: food,
    says: food && says(food.value.si > limit.value.si ? 'usual-over-limit' : 'usual-over', { usual, aim, limit, food }),
    /** On a usual day, where the model shows it under the freezing point of the first food to freeze. */
    coldest_shut: coldest,
    freezes: coldest && freezes && says('usual-freezes', { usual, coldest, freezes }),
  };
};
