/**
 * The model that fits a unit's facts, and what it does when nothing happens to it; each computed once for equal facts.
 */
import { calibrate, doorExchange, type Calibration } from '../../science/cabinet/calibrate.js';
import type { UnitFacts } from '../../science/cabinet/facts.js';
import { runCabinet } from '../../science/cabinet/run.js';
import { leastRest, type RestAnswer } from '../../science/frost.js';
import type { MoistAir } from '../../science/moist-air.js';
import type { FoodTemperature } from '../../science/pan.js';
import { pullDown, type PullDown } from '../../science/scenes/pull-down.js';
import { DAY, meanBetween, pansOf, type Setting } from '../../science/scenes/setting.js';
import { remembered } from './remember.js';
import type { Machine } from './unit-facts.js';

/** Answers kept of each question that every store of a chain asks: kinds of unit times kitchens as they differ over a country. */
const CHAIN = 4000;

export const fit: (facts: UnitFacts) => Calibration = remembered(calibrate, CHAIN);

/** Openings of a base's doors an hour while people work, and kg a m³ of kitchen air. Common practice, no source. */
const OPENINGS = 12;
const AIR = 1.2;

/** Where scenes play; undefined where the facts fit no model. A unit without one of the two has the other in its place. */
export const settingOf = ({ facts, rail, box }: Machine, kitchen: MoistAir): Setting | undefined => {
  const found = fit(facts);
  if (!found.ok) return undefined;
  const zone = facts.zones[box ?? -1];
  const doors = zone?.cooled === 'forced-air' ? doorExchange(zone.volume, OPENINGS, AIR) : 0;
  return { model: found.model, kitchen, rail: rail ?? box ?? 0, base: box ?? rail ?? 0, doors };
};

interface SteadyQuestion {
  readonly facts: UnitFacts;
  readonly rail: number;
  readonly kitchen: MoistAir;
  readonly covers: 'open' | 'shut';
}

export interface Steady {
  /** K, the rail's food and its liner or coil, means over half a day of undisturbed running. */
  readonly food: FoodTemperature;
  readonly coil: number;
}

/** A rail left running for a day; undefined where the facts fit no model or the kitchen is out of range. */
export const steady: (question: SteadyQuestion) => Steady | undefined = remembered(({ facts, rail, kitchen, covers }) => {
  const found = fit(facts);
  if (!found.ok) return undefined;
  const run = runCabinet(found.model, {
    kitchen,
    start: 'settled',
    duration: DAY,
    every: 120,
    events: [{ at: 0, do: 'covers', zone: rail, shut: covers === 'shut' }],
  });
  const load = run?.loads[pansOf(found.model, rail)];
  if (!run || !load) return undefined;
  const half = (of: readonly number[]): number => meanBetween(run, of, DAY / 2, DAY);
  return {
    food: { coldest: half(load.coldest), mean: half(load.mean), warmest: half(load.warmest) },
    coil: half(run.zones[rail]?.coil ?? []),
  };
}, CHAIN);

interface PullDownQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  /** K, air of the empty rail that is ready for food. */
  readonly ready: number;
}

/** Undefined where it isn't reached in six hours. */
export const pullDownOf: (question: PullDownQuestion) => PullDown | undefined = remembered(({ machine, kitchen, ready }) => {
  const setting = settingOf(machine, kitchen);
  return setting && pullDown(setting, ready);
}, CHAIN);

interface MeltQuestion {
  readonly facts: UnitFacts;
  readonly rail: number;
  readonly kitchen: MoistAir;
  /** K, the kitchen at night. */
  readonly night: number;
  /** s of running that made the ice. */
  readonly running: number;
  readonly covers: 'up' | 'down';
}

/** How long the ice of a run takes to melt, and how much it is; undefined for a rail without a liner, or where nothing melts. */
export const meltingOf: (question: MeltQuestion) => RestAnswer | undefined = remembered(
  ({ facts, rail, kitchen, night, running, covers }) => {
    const zone = facts.zones[rail];
    const surface = steady({ facts, rail, kitchen, covers: 'open' })?.coil;
    if (zone?.cooled !== 'static' || surface === undefined) return undefined;
    return leastRest({ well: zone.well, kitchen, night, surface, running, covers });
  },
  CHAIN,
);
