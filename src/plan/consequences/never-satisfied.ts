/**
 * A base that never satisfies: what a day of it does to the rail's food and to the base, by why it doesn't. For the technician: staff move the food and call.
 */
import { amount, type Amount } from '../../base/amount.js';
import type { Known, Rounding } from '../../base/basis.js';
import { term, type Term } from '../../base/value.js';
import type { CabinetRun } from '../../science/cabinet/run.js';
import type { Fault } from '../../science/cabinet/state.js';
import type { MoistAir } from '../../science/moist-air.js';
import { baseRun, neverSatisfiedScene } from '../../science/scenes/never-satisfied.js';
import { DAY, meanBetween } from '../../science/scenes/setting.js';
import { computed, practice } from '../known.js';
import { settingOf } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import { figuresOf, type SceneContext } from './context.js';

/** K and part of the time within which a day with a fault is a sound day to whoever reads a thermometer. Common practice, no source. */
const [LIKE_SOUND, RUNS_LIKE_SOUND] = [1, 0.05];

const FAULTS: readonly Fault[] = ['door-ajar', 'fan-stopped', 'drain-blocked', 'stuck-calling'];

interface DayQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  readonly limit: number;
}

/** K of the rail's coldest spot and of the base's air late in a day, and part of the time that the compressor runs. */
interface DayAnswer {
  readonly code: Fault | 'none' | 'drain-water-only';
  readonly rail: number;
  readonly base: number;
  readonly running: number;
}

/** A blocked drain whose water melts again in each off-cycle warms nothing: then its name says what it shows. */
const named = (fault: Fault, day: Omit<DayAnswer, 'code'>, sound: DayAnswer): DayAnswer => {
  const like =
    Math.abs(day.base - sound.base) < LIKE_SOUND &&
    Math.abs(day.rail - sound.rail) < LIKE_SOUND &&
    Math.abs(day.running - sound.running) < RUNS_LIKE_SOUND;
  return { code: fault === 'drain-blocked' && like ? 'drain-water-only' : fault, ...day };
};

/** A sound day, then one with each fault. */
const daysOf: (question: DayQuestion) => readonly DayAnswer[] = remembered(({ machine, kitchen, limit }) => {
  const setting = settingOf(machine, kitchen);
  const day = setting && baseRun(setting, DAY);
  if (!day) return [];
  const base = (of: CabinetRun): number => meanBetween(of, of.zones[setting.base]?.air ?? [], 0.75 * DAY, DAY);
  const scenes = FAULTS.map((fault) => ({ fault, scene: neverSatisfiedScene(setting, fault, DAY, limit, day) }));
  return scenes.flatMap(({ fault, scene }, i): readonly DayAnswer[] => {
    if (!scene) return [];
    const { run, rail, running } = scene;
    const sound = { code: 'none', rail: rail.sound.coldest, base: base(day), running: running.sound } as const;
    return [
      ...(i === 0 ? [sound] : []),
      named(fault, { rail: rail.fault.coldest, base: base(run), running: running.fault }, sound),
    ];
  });
});

export interface FaultRow {
  readonly fault: Known<Term>;
  readonly rail: Known<Amount<'temperature'>>;
  /** Undefined where an average says nothing: with its fan stopped a base is warm near its top and cold below. */
  readonly base: Known<Amount<'temperature'>> | undefined;
  readonly runs: Known<Amount<'fraction'>>;
  readonly [key: string]: Known<Amount> | Known<Term> | undefined;
}

/** For units whose rail and base hang on one condensing unit: a sound day first, then one with each fault, rounded to the worse side. */
export const neverSatisfied = (context: SceneContext): readonly FaultRow[] => {
  const { rail: machine, climate, facts } = context;
  if (machine?.rail === undefined || machine.box === undefined) return [];
  const { temperature, from } = figuresOf(context, 'usual');
  const limit = facts.law.limit.value.si;
  const days = daysOf({ machine, kitchen: climate.usual, limit });
  /** Clearly colder than on a sound day it errs to cold, else to warm. */
  const worse = (base: number): Rounding => (base < (days[0]?.base ?? base) - LIKE_SOUND ? 'colder' : 'up');
  return days.map(({ code, rail, base, running }): FaultRow => ({
    fault: practice<Term>(term(`fault-${code}`), `fault-${code}`),
    rail: temperature(rail, 'rail-coldest-with-fault', 'colder'),
    base: code === 'fan-stopped' ? undefined : temperature(base, 'base-air-with-fault', worse(base)),
    runs: computed(amount('fraction', Math.ceil(running * 20 - 1e-6) / 20), 'running-with-fault', from, 'up'),
  }));
};
