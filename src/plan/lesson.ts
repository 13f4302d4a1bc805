/**
 * What a trainer teaches about a unit: how it works, why its top is emptied, what happens otherwise, questions with answers, and what to show.
 * Sentences by code, from the unit's traits and its control strategy.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { phrase, type Phrase, type Told, type Value } from '../base/value.js';
import type { StrategyName } from '../trade/strategies.js';
import type { BoxKind, Holds, RailKind } from '../trade/zones.js';
import { practice } from './known.js';

interface LessonFacts {
  readonly rail: RailKind['cooled'] | undefined;
  readonly box: BoxKind | undefined;
  readonly holds: Holds;
  readonly strategy: StrategyName;
  readonly limit: Known<Amount>;
  /** What a good reading of food is: the limit less a probe's error. Where the law's limit for cold food is read against. */
  readonly aim: Known<Amount> | undefined;
  readonly ready: Known<Amount>;
  readonly destination: Known<Value> | undefined;
  /** The food of the top goes to another unit than this one. */
  readonly elsewhere: boolean;
  /** A hand turns the top off and on. */
  readonly byHand: boolean;
  /** Where its clock or its switch is, and whether the manager sets the clock's time. */
  readonly clock: { readonly where: Known<Value> | undefined; readonly inReach: boolean } | undefined;
  /** It rests in the afternoon closing. */
  readonly afternoon: boolean;
  readonly backup: Known<Value>;
  /** The number to call for help. */
  readonly emergency: Known<Value>;
  /** Its refrigerant can burn. */
  readonly flammable: boolean;
  /** The rail's times, where a clock rests it. */
  readonly timed: { readonly emptyBy: Known<Value>; readonly off: Known<Value>; readonly on: Known<Value> } | undefined;
  /** Questions of the chain's own for this unit. */
  readonly own: readonly Question[];
  /** When a rail that stays on is empty at night. */
  readonly leaving: { readonly emptyBy: Known<Value> } | undefined;
}

export interface Question {
  readonly ask: Known<Phrase | Told>;
  readonly answer: Known<Phrase | Told>;
  readonly [key: string]: Known<Phrase | Told>;
}

/** Where the clock or the switch of the top is, and who sets a clock's time. */
const placeOf = ({ byHand, clock }: LessonFacts): readonly string[] => {
  if (!clock) return [];
  if (byHand) return clock.where ? ['switch-at'] : [];
  if (clock.inReach) return [clock.where ? 'clock-at-manager' : 'clock-manager'];
  // Live parts are where it is: staff are not told the way there.
  return ['clock-technician'];
};

export const lesson = (facts: LessonFacts) => {
  const { rail, box, holds, limit, ready, destination, backup, timed } = facts;
  const leaving = timed ? undefined : facts.leaving;
  // One that rests in the afternoon closing stays on at night.
  const staysOn = rail !== undefined && (timed === undefined || facts.afternoon);
  const values: Record<string, Known<Value>> = {
    limit,
    ready,
    ...(facts.aim ? { aim: facts.aim } : {}),
    backup,
    emergency: facts.emergency,
    ...(destination ? { destination } : {}),
    ...(timed ? { empty_by: timed.emptyBy, off: timed.off, on: timed.on } : {}),
    ...(leaving ? { empty_by: leaving.emptyBy } : {}),
    ...(facts.clock?.where ? { where: facts.clock.where } : {}),
  };
  const say = (code: string): Known<Phrase> => practice(phrase(`lesson.${code}`, values), `lesson-${code}`);
  // What stays on depends on whether the top ever stops at night, and on the place of its food.
  const ask = (code: string): Question => {
    const answer = code !== 'what-stays-on' ? 'answer' : staysOn ? 'answer-all' : facts.elsewhere ? 'answer-elsewhere' : 'answer';
    return { ask: say(`questions.${code}.ask`), answer: say(`questions.${code}.${answer}`) };
  };
  const when = <T>(is: boolean, ...items: T[]): readonly T[] => (is ? items : []);
  return {
    how: [
      ...(rail ? [`rail-${rail}`] : box ? [`${box.carries === 'drawers' ? 'drawers' : box.cooled}-${box.holds}`] : []),
      `strategy-${facts.strategy}`,
      ...when(holds !== 'sealed', 'holds-not-chills'),
      ...when(facts.aim !== undefined && facts.aim.value.si < limit.value.si, 'two-numbers'),
    ].map(say),
    why: when(
      rail !== undefined,
      `why-${rail ?? ''}${rail === 'static' && facts.afternoon ? '-afternoon' : ''}`,
      'why-food',
      ...when(timed !== undefined, facts.byHand ? 'why-switch' : 'why-clock', ...placeOf(facts)),
      ...when(leaving !== undefined, 'why-stays-on'),
    ).map(say),
    otherwise: [
      ...when(rail === 'static', 'otherwise-ice', 'otherwise-warm'),
      ...when(rail !== undefined && rail !== 'static', 'otherwise-warm'),
      ...when(holds !== 'sealed', 'otherwise-warm-food'),
      ...when(box !== undefined && rail !== undefined, facts.elsewhere ? 'otherwise-base-off-elsewhere' : 'otherwise-base-off'),
      ...when(facts.flammable, 'otherwise-gas'),
    ].map(say),
    questions: [
      ...[
        ...when(timed !== undefined, ...(facts.byHand ? ['when-empty-hand', 'late-hand'] : ['when-empty', 'late'])),
        ...when(leaving !== undefined, 'when-empty-on', 'late-on'),
        ...when(rail !== undefined, 'where-food', 'found-in-morning', 'check-top'),
        ...when(holds === 'cold', 'warm-pan'),
        ...when(holds !== 'sealed', 'warm-soup'),
        ...when(box !== undefined && rail !== undefined, 'what-stays-on', 'base-warm'),
        ...when(rail === undefined && holds !== 'sealed', 'box-warm'),
        ...when(holds === 'sealed', 'open-food'),
        'ice',
        ...when(facts.flammable, 'gas'),
      ].map(ask),
      ...facts.own,
    ],
    show_me: [
      ...when(holds !== 'sealed', 'probe'),
      ...when(rail !== undefined, 'lid', 'openings', timed ? (facts.byHand ? 'switches' : 'clock') : 'stays-on'),
      ...when(box !== undefined || rail === undefined, 'read'),
      'call',
    ].map((code) => say(`show.${code}`)),
  };
};
