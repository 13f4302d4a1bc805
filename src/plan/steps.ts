/**
 * What people do at close and at open, in order, each with its clock time and its role. Steps follow from the unit's traits, never from its name.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { flag, phrase, term, type ByDay, type Flag, type Phrase, type Term, type Value } from '../base/value.js';
import type { StoreContext } from './context.js';
import { practice } from './known.js';
import type { RestTimes } from './rests.js';
import type { Leaving } from './leaving.js';
import { hasDrawers, type UnitTraits } from './unit-traits.js';

/** What the steps of a unit depend on. */
interface StepFacts {
  readonly traits: UnitTraits;
  /** Its times, where it rests by a clock and a schedule was found. */
  readonly times?: RestTimes | undefined;
  /** When it is empty, where no clock says it. */
  readonly leaving?: Leaving | undefined;
  readonly firstPan: Known<ByDay>;
  readonly destination?: Known<Value> | undefined;
  /** Where food goes where that is too warm itself. */
  readonly backup: Known<Value>;
  readonly nightCovers?: 'shut' | 'up-to-dry' | 'none' | undefined;
  /** It rests in the afternoon closing: these are its night and its morning, in which it stays on. */
  readonly stays?: true;
  readonly limit: Known<Amount>;
  /** What the empty top must read in the morning. */
  readonly ready?: Known<Amount>;
  /** The top's food is predicted over the limit on a usual day. */
  readonly runsWarm: boolean;
  /** How often food is read by day: a top's warmest pan, and what a box holds. */
  readonly readEvery?: Known<Amount<'duration'>> | undefined;
  /** The warmest food of the box, where it is probed. */
  readonly where?: Known<Value> | undefined;
}

/** The times of a unit's night and morning. */
export const WHENS = ['start', 'empty_by', 'off', 'wipe', 'on', 'cold_by', 'first_pan'] as const;
/** Of a rail that rests in the afternoon: its night and its morning beside that. */
export const NIGHT_WHENS = ['night_start', 'night_empty_by', 'morning_first_pan'] as const;
export type RailWhen = (typeof WHENS)[number];
export type When = RailWhen | (typeof NIGHT_WHENS)[number];

export interface Step {
  /** In whole sentences, for posters and handouts. */
  readonly text: Known<Phrase>;
  /** In a few words, for a row of the week sheet. */
  readonly row: Known<Phrase>;
  readonly role: Known<Term>;
  readonly at: Known<ByDay> | undefined;
  /** Which of a unit's times it is, so that a dated sheet finds that date's own. */
  readonly when: When | undefined;
  /** Its time is the largest on the poster; no other stands beside it. */
  readonly headlined: Known<Flag>;
  /** A reading to write down, and what it must not be over. */
  readonly reading: Known<Amount> | undefined;
  /** A reading to write down, whether there is a limit to it or not. */
  readonly reads: Known<Flag>;
  /** What to do when it is over that, beside it on the week sheet. */
  readonly otherwise?: Known<Phrase> | undefined;
  /** Of a reading of two things on the same round: the second one, for a row of its own on the week sheet. */
  readonly also?: Known<Phrase> | undefined;
  /** Read again and again, on the rounds of a day (./rounds): at least how often. */
  readonly every?: Known<Amount<'duration'>> | undefined;
  readonly [key: string]: Known<Value> | string | undefined;
}

const step = (
  code: string,
  role: 'closer' | 'opener' | 'manager',
  values: Readonly<Record<string, Known<Value>>> = {},
  timed?: readonly [When, Known<ByDay> | undefined],
  reading?: Known<Amount>,
): Step => ({
  text: practice(phrase(`steps.${code}.text`, values), `step-${code}`),
  row: practice(phrase(`steps.${code}.row`, values), `step-${code}`),
  role: practice(term(role), `role-${role}`),
  at: timed?.[1],
  when: timed?.[0],
  headlined: practice(flag(timed?.[0] === 'empty_by'), 'trait'),
  reading,
  reads: practice(flag(reading !== undefined), 'trait'),
});

/** What is kept cool for comfort is read too, against no limit of a law. */
const readAlone = (code: string, role: 'closer' | 'opener'): Step => ({
  ...step(code, role),
  reads: practice(flag(true), 'trait'),
});

/** What a closer does, and what an opener finds, by how the covers stand at night. */
const WIPES = { shut: 'wipe-and-cover', 'up-to-dry': 'wipe-and-dry', none: 'wipe-uncovered' } as const;
const COMES_ON = { shut: 'top-comes-on', 'up-to-dry': 'top-comes-on-open', none: 'top-comes-on-uncovered' } as const;

/** Steps of the close-down. */
const closeSteps = (f: StepFacts): readonly Step[] => {
  const { limit, traits } = f;
  const box = { limit, ...(f.where ? { where: f.where } : {}) };
  if (!traits.rail)
    return [
      step(hasDrawers(traits) ? 'close-drawers' : `close-${traits.holds}`, 'closer', { limit }),
      traits.holds === 'sealed'
        ? readAlone('read-sealed', 'closer')
        : step(`read-${traits.holds}`, 'closer', box, undefined, limit),
    ];
  const destination = f.destination as Known<Value>;
  const empty: Partial<Leaving> = f.times ?? f.leaving ?? {};
  const start = ['start', empty.start] as const;
  return [
    traits.elsewhere || !traits.box
      ? step('read-store-tonight', 'closer', { limit, destination, backup: f.backup }, start, limit)
      : step('read-bottom-tonight', 'closer', { limit, backup: f.backup }, start, limit),
    step('probe-pans', 'closer'),
    step('move-cold', 'closer', { limit, destination }),
    step('stop-warm', 'closer', { limit }),
    ...(traits.box && traits.elsewhere ? [step('shut-and-read-bottom', 'closer', { limit }, undefined, limit)] : []),
    // Its minutes are in the time by which the top is empty: nobody is asked to wipe after the crew has left.
    step(WIPES[f.nightCovers ?? 'shut'], 'closer'),
    step(f.times && !traits.byHand ? 'top-empty' : 'top-empty-on', 'closer', { destination }, ['empty_by', empty.emptyBy]),
    ...(traits.byHand && f.times ? [step('switch-off', 'closer', {}, ['off', f.times.off])] : []),
    ...(f.times ? [] : [step(f.stays ? 'leave-on-tonight' : 'leave-on', 'closer', f.stays ? {} : { destination })]),
  ];
};

/** Steps of the opening. */
const openSteps = (f: StepFacts): readonly Step[] => {
  const { limit, traits } = f;
  const box = { limit, ...(f.where ? { where: f.where } : {}) };
  const byDay = (code: string): Step => ({
    ...step(code, 'opener', { limit, every: f.readEvery as Known<Value> }, undefined, limit),
    every: f.readEvery,
  });
  if (!traits.rail)
    return [
      traits.holds === 'sealed'
        ? readAlone('open-sealed', 'opener')
        : step(`open-${traits.holds}`, 'opener', box, undefined, limit),
      ...(f.readEvery ? [byDay(hasDrawers(traits) ? 'read-by-day-drawers' : 'read-by-day-box')] : []),
    ];
  const ready = f.ready as Known<Amount>;
  const bare = traits.covered ? '' : '-uncovered';
  return [
    ...(traits.elsewhere
      ? [step('read-store-first', 'opener', { limit, destination: f.destination as Known<Value> }, undefined, limit)]
      : []),
    ...(traits.box ? [step(traits.elsewhere ? 'read-bottom' : 'read-bottom-first', 'opener', box, undefined, limit)] : []),
    step('look-in-top', 'opener'),
    ...(traits.drainsByHand && f.times ? [step('wipe-water', 'opener', {}, ['wipe', f.times.wipe])] : []),
    ...(f.times
      ? [step(traits.byHand ? `switch-on${bare}` : COMES_ON[f.nightCovers ?? 'shut'], 'opener', {}, ['on', f.times.on])]
      : []),
    {
      ...step('read-top', 'opener', { ready }, ['cold_by', f.times?.coldBy], ready),
      otherwise: practice(phrase('steps.read-top.otherwise'), 'step-read-top'),
    },
    step(`load-top${bare}`, 'opener', { limit }, ['first_pan', f.firstPan]),
    {
      ...byDay(`read-by-day${f.runsWarm ? '-warm' : ''}${traits.box ? '-both' : ''}`),
      ...(traits.box ? { also: practice(phrase('steps.read-by-day-both.also'), 'step-read-by-day-both') } : {}),
    },
  ];
};

/** A poster has room for one closing in full; the night and the morning beside an afternoon's follow it in a few words. */
const shortNight = (leaving: Leaving): readonly Step[] => [
  step('night-start', 'closer', {}, ['night_start', leaving.start]),
  step('night-empty', 'closer', {}, ['night_empty_by', leaving.emptyBy]),
];

const shortMorning = (firstPan: Known<ByDay>): readonly Step[] => [
  step('morning-read', 'opener'),
  step('morning-load', 'opener', {}, ['morning_first_pan', firstPan]),
];

const NIGHT: Readonly<Partial<Record<When, When>>> = {
  start: 'night_start',
  empty_by: 'night_empty_by',
  first_pan: 'morning_first_pan',
};

/** The steps of a night and a morning beside an afternoon's: their times are others on a dated sheet. */
const besideAfternoon = (steps: readonly Step[]): readonly Step[] =>
  steps.map((one) => ({ ...one, when: one.when && NIGHT[one.when] }));

/** What a unit's steps depend on beside its traits. */
interface UnitSteps extends Pick<
  StepFacts,
  'destination' | 'backup' | 'ready' | 'runsWarm' | 'readEvery' | 'limit' | 'times' | 'leaving' | 'where'
> {
  readonly covers: StepFacts['nightCovers'];
}

/** The steps of a unit's closing and opening, and where its top rests in the afternoon, of both. */
export const stepsOf = ({ crew, afternoon }: Pick<StoreContext, 'crew' | 'afternoon'>, traits: UnitTraits, of: UnitSteps) => {
  const { times, covers: nightCovers, ...rest } = of;
  const standing: StepFacts = { ...rest, traits, firstPan: crew.first_pan, nightCovers };
  const resting: StepFacts = { ...standing, times };
  if (!afternoon) return { close: closeSteps(resting), open: openSteps(resting), afternoon: undefined };
  const inAfternoon: StepFacts = { ...resting, firstPan: afternoon.first_pan };
  const night: StepFacts = { ...standing, traits: { ...traits, byHand: false }, stays: true };
  return {
    close: besideAfternoon(closeSteps(night)),
    open: besideAfternoon(openSteps(night)),
    /** Its steps before and after the afternoon closing. */
    afternoon: of.leaving && {
      close: closeSteps(inAfternoon),
      open: openSteps(inAfternoon),
      night: shortNight(of.leaving),
      morning: shortMorning(crew.first_pan),
    },
  };
};
