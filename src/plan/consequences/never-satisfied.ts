/**
 * A base that never satisfies: what a day of it does to the rail's food and to the base, by why it doesn't. For the technician: staff move the food and call.
 */
import { amount, type Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import { term, type Term } from '../../base/value.js';
import type { CabinetRun } from '../../science/cabinet/run.js';
import type { Fault } from '../../science/cabinet/state.js';
import type { MoistAir } from '../../science/moist-air.js';
import { neverSatisfiedScene } from '../../science/scenes/never-satisfied.js';
import { DAY, meanBetween } from '../../science/scenes/setting.js';
import { computed, practice } from '../known.js';
import { settingOf } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import { figuresOf, type SceneContext } from './context.js';

const FAULTS: readonly Fault[] = ['door-ajar', 'fan-stopped', 'drain-blocked', 'stuck-calling'];

interface FaultQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  readonly limit: number;
  readonly fault: Fault;
}

/** K of the rail's coldest spot and of the base's air late in a day, and part of the time that the compressor runs. */
interface DayAnswer {
  readonly rail: number;
  readonly base: number;
  readonly running: number;
}

const faultOf: (question: FaultQuestion) => { readonly fault: DayAnswer; readonly sound: DayAnswer } | null = remembered(
  ({ machine, kitchen, limit, fault }) => {
    const setting = settingOf(machine, kitchen);
    const scene = setting && neverSatisfiedScene(setting, fault, DAY, limit);
    if (!scene) return null;
    const { run, sound, rail, running } = scene;
    const base = (of: CabinetRun): number => meanBetween(of, of.zones[setting.base]?.air ?? [], 0.75 * DAY, DAY);
    return {
      fault: { rail: rail.fault.coldest, base: base(run), running: running.fault },
      sound: { rail: rail.sound.coldest, base: base(sound), running: running.sound },
    };
  },
);

export interface FaultRow {
  readonly fault: Known<Term>;
  readonly rail: Known<Amount<'temperature'>>;
  readonly base: Known<Amount<'temperature'>>;
  readonly runs: Known<Amount<'fraction'>>;
  readonly [key: string]: Known<Amount> | Known<Term>;
}

/** For units whose rail and base hang on one condensing unit: a sound day first, then one with each fault, rounded to the worse side. */
export const neverSatisfied = (context: SceneContext): readonly FaultRow[] => {
  const { rail: machine, climate, facts } = context;
  if (machine?.rail === undefined || machine.box === undefined) return [];
  const { temperature, from } = figuresOf(context, 'usual');
  const limit = facts.law.limit.value.si;
  const row = (code: string, { rail, base, running }: DayAnswer): FaultRow => ({
    fault: practice<Term>(term(`fault-${code}`), `fault-${code}`),
    rail: temperature(rail, 'rail-coldest-with-fault', 'colder'),
    base: temperature(base, 'base-air-with-fault', base > limit - 2 ? 'up' : 'colder'),
    runs: computed(amount('fraction', running), 'running-with-fault', from, 'up'),
  });
  const days = FAULTS.flatMap((fault) => {
    const found = faultOf({ machine, kitchen: climate.usual, limit, fault });
    return found ? [{ code: fault, ...found }] : [];
  });
  const [first] = days;
  return first ? [row('none', first.sound), ...days.map(({ code, fault }) => row(code, fault))] : [];
};
