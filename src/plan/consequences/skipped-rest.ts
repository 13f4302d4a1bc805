/**
 * Nights without the off-cycle, the rail emptied each time: after how many the food's mean is over the limit.
 */
import { count } from '../../base/value.js';
import type { MoistAir } from '../../science/moist-air.js';
import { dailyFigures, type DailyFigures } from '../../science/scenes/night.js';
import { DAY, HOUR } from '../../science/scenes/setting.js';
import { computed } from '../known.js';
import { settingOf } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import { figuresOf, says, type SceneContext } from './context.js';
import { usualNight } from './usual-night.js';

const DAYS = 14;
/** s; hours of work are told to two hours. */
const STEP = 2 * HOUR;

interface WeeksQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  readonly work: number;
  readonly limit: number;
}

const weeksOf: (question: WeeksQuestion) => DailyFigures | undefined = remembered(({ machine, kitchen, work, limit }) => {
  const setting = settingOf(machine, kitchen);
  const times = { loaded: 0, emptied: work, off: work, on: 0, covers: 'down' } as const;
  return setting && dailyFigures(setting, times, DAYS, false, limit);
});

/** @returns undefined where two weeks don't take the food over the limit, or there is no clock to stop */
export const skippedRest = (context: SceneContext) => {
  const { rest, rail, climate, facts } = context;
  const found = usualNight(rest);
  if (!found || rail?.box === undefined) return undefined;
  const work = Math.min(22 * HOUR, Math.ceil((DAY - found.times.loaded) / STEP) * STEP);
  const { limit } = facts.law;
  const weeks = weeksOf({ machine: rail, kitchen: climate.usual, work, limit: limit.value.si });
  const over = weeks?.food.findIndex(({ mean }) => mean > limit.value.si) ?? -1;
  // On the first day nothing was skipped yet: then it is the kitchen, and no matter of rest.
  if (over < 1) return undefined;
  const after = computed(count(over), 'nights-without-rest', [...figuresOf(context, 'usual').from, limit], 'down');
  // Staff are told no number of nights: it reads as permission for one less.
  return { after, says: says('rest-skipped', { limit }) };
};
