/**
 * What a trainer teaches about a unit: how it works, why its top is emptied, what happens otherwise, questions with answers, and what to show.
 * Sentences by code, from the unit's traits and its control strategy.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { phrase, type Phrase, type Told, type Value } from '../base/value.js';
import { practice } from './known.js';
import { hasDrawers, type UnitTraits } from './unit-traits.js';

interface LessonFacts {
  readonly traits: UnitTraits;
  readonly limit: Known<Amount>;
  /** What a good reading of food is: the limit less a probe's error. Where the law's limit for cold food is read against. */
  readonly aim: Known<Amount> | undefined;
  readonly ready: Known<Amount>;
  readonly destination: Known<Value> | undefined;
  /** Where its clock or its switch is. */
  readonly where: Known<Value> | undefined;
  readonly backup: Known<Value>;
  /** The number to call for help. */
  readonly emergency: Known<Value>;
  /** Whom a manager calls, and the number. */
  readonly service: Known<Value>;
  readonly phone: Known<Value>;
  /** What the law in force says of food over its limit: the manager goes by it. */
  readonly rule: Known<Value>;
  /** The rail's times, where it rests by a schedule. */
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
const placeOf = ({ traits, where }: LessonFacts): readonly string[] => {
  if (!traits.ownStop) return [];
  if (traits.byHand) return where ? ['switch-at'] : [];
  if (traits.inReach) return [where ? 'clock-at-manager' : 'clock-manager'];
  // Live parts are where it is: staff are not told the way there.
  return ['clock-technician'];
};

export const lesson = (facts: LessonFacts) => {
  const { limit, ready, destination, backup, timed, where } = facts;
  const { rail, box, holds, strategy, elsewhere, byHand, flammable, gasMayBurn, afternoon, room } = facts.traits;
  const leaving = timed ? undefined : facts.leaving;
  // One that rests in the afternoon closing stays on at night.
  const staysOn = rail !== undefined && (timed === undefined || afternoon);
  const values: Record<string, Known<Value>> = {
    limit,
    ready,
    ...(facts.aim ? { aim: facts.aim } : {}),
    backup,
    emergency: facts.emergency,
    service: facts.service,
    phone: facts.phone,
    rule: facts.rule,
    ...(destination ? { destination } : {}),
    ...(timed ? { empty_by: timed.emptyBy, off: timed.off, on: timed.on } : {}),
    ...(leaving ? { empty_by: leaving.emptyBy } : {}),
    ...(where ? { where } : {}),
  };
  const say = (code: string): Known<Phrase> => practice(phrase(`lesson.${code}`, values), `lesson-${code}`);
  // What stays on depends on whether the top ever stops at night, and on the place of its food; what a hiss means, on the store's gases.
  const answers: Readonly<Record<string, string>> = {
    'what-stays-on': staysOn ? 'answer-all' : elsewhere ? 'answer-elsewhere' : 'answer',
    gas: gasMayBurn ? 'answer' : 'answer-plain',
    'warm-soup': holds === 'frozen' ? 'answer-frozen' : 'answer',
  };
  const ask = (code: string): Question => ({
    ask: say(`questions.${code}.ask`),
    answer: say(`questions.${code}.${answers[code] ?? 'answer'}`),
  });
  const when = <T>(is: boolean, ...items: T[]): readonly T[] => (is ? items : []);
  return {
    how: [
      ...(rail ? [`rail-${rail.cooled}`] : box ? [`${hasDrawers(facts.traits) ? 'drawers' : box.cooled}-${box.holds}`] : []),
      `strategy-${strategy}`,
      ...when(holds !== 'sealed', 'holds-not-chills'),
      ...when(facts.aim !== undefined && facts.aim.value.si < limit.value.si, 'two-numbers'),
      ...when(holds === 'frozen', 'one-limit-frozen'),
    ].map(say),
    why: when(
      rail !== undefined,
      `why-${rail?.cooled ?? ''}${rail?.cooled === 'static' && afternoon ? '-afternoon' : ''}`,
      'why-food',
      ...when(timed !== undefined, byHand ? 'why-switch' : 'why-clock', ...placeOf(facts)),
      ...when(leaving !== undefined, 'why-stays-on'),
    ).map(say),
    otherwise: [
      ...when(rail?.cooled === 'static', 'otherwise-ice', 'otherwise-warm'),
      ...when(rail?.cooled === 'shared-air', 'otherwise-warm-on'),
      ...when(rail?.cooled === 'fan-rail', 'otherwise-warm'),
      ...when(holds !== 'sealed', 'otherwise-warm-food'),
      ...when(box !== undefined && rail !== undefined, elsewhere ? 'otherwise-base-off-elsewhere' : 'otherwise-base-off'),
      ...when(flammable, 'otherwise-gas'),
    ].map(say),
    questions: [
      ...[
        ...when(timed !== undefined, ...(byHand ? ['when-empty-hand', 'late-hand'] : ['when-empty', 'late'])),
        ...when(leaving !== undefined, 'when-empty-on', 'late-on'),
        ...when(rail !== undefined, 'where-food', 'found-in-morning', 'check-top'),
        ...when(holds === 'cold', 'warm-pan'),
        ...when(holds !== 'sealed', 'warm-soup'),
        ...when(box !== undefined && rail !== undefined, 'what-stays-on', 'base-warm'),
        ...when(rail === undefined && holds === 'cold', 'box-warm'),
        ...when(rail === undefined && holds === 'frozen', 'frozen-warm'),
        ...when(room, 'way-out'),
        ...when(holds === 'sealed', 'open-food'),
        'ice',
        'gas',
      ].map(ask),
      ...facts.own,
    ],
    show_me: [
      ...when(holds === 'cold', 'probe', 'apart'),
      ...when(holds === 'frozen', 'probe', 'apart-frozen'),
      ...when(rail !== undefined, 'lid', 'openings', timed ? (byHand ? 'switches' : 'clock') : 'stays-on'),
      ...when(box !== undefined || rail === undefined, 'read'),
      ...when(room, 'release'),
      'call',
      'danger',
    ].map((code) => say(`show.${code}`)),
  };
};
