/**
 * Why a rail's clock is set as it is: the nights that allow no earlier and no later, and what is to spare.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { WEEKDAYS, type Weekday } from '../base/moment.js';
import { phrase, type Days, type Phrase, type Value } from '../base/value.js';
import { computed, practice } from './known.js';
import type { NightPlan, NightRest } from './timetable/index.js';

export interface RestWhy {
  /** Business days of the nights that it is about. */
  readonly nights: Known<Days>;
  readonly off: Known<Phrase>;
  readonly on: Known<Phrase>;
  readonly spare: Known<Phrase>;
  readonly figures: Readonly<Record<string, Known<Value>>>;
  readonly [key: string]: Known<Value> | Readonly<Record<string, Known<Value>>>;
}

interface Row {
  readonly day: number;
  readonly rest: NightRest;
}

const dayOf = (index: number): Weekday => WEEKDAYS[index] as Weekday;

/** Nights that are bound by the same nights are told together, with the least that any of them has to spare. */
export const whyRest = (
  nights: readonly NightPlan[],
  afternoon: boolean,
  from: readonly Known<unknown>[],
): readonly RestWhy[] => {
  const groups = new Map<string, Row[]>();
  for (const { day, rest } of nights) {
    if (!rest) continue;
    const key = JSON.stringify(rest.why);
    groups.set(key, [...(groups.get(key) ?? []), { day, rest }]);
  }
  const known = <T>(value: T): Known<T> => computed(value, 'from-the-nights-that-bind', from);
  const days = (of: readonly number[]): Known<Days> => known({ q: 'days', days: of.map(dayOf) });
  const minutes = (n: number): Known<Amount<'duration'>> => known(amount('duration', Math.max(0, n) * 60));
  const say = (code: string, values: Readonly<Record<string, Known<Value>>>): Known<Phrase> =>
    practice(phrase(`binding.${code}`, values), `binding-${code}`);
  const gap = afternoon ? '-afternoon' : '';
  return [...groups.values()].map((group) => {
    const [{ rest }] = group as [Row];
    const least = (of: (rest: NightRest) => number): number => Math.min(...group.map((row) => of(row.rest)));
    const figures = {
      off_days: days(rest.why.off.days),
      on_days: days(rest.why.on.days),
      later: minutes(rest.why.off.given),
      earlier: minutes(rest.why.on.given),
      evening: minutes(least((r) => r.slack.evening)),
      morning: minutes(least((r) => r.slack.morning)),
    };
    return {
      nights: days(group.map((row) => row.day)),
      off: say(rest.why.off.given > 0 ? 'off-later' : 'off', figures),
      on: say(`${rest.why.on.given > 0 ? 'on-earlier' : 'on'}${gap}`, figures),
      spare: say(`spare${gap}`, figures),
      figures,
    };
  });
};
