/**
 * The one rule of a unit in the largest words: its time, or what it holds; then the sentences beside it.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { phrase, type ByDay, type Days, type Phrase, type Value } from '../base/value.js';
import type { ZoneKind } from '../trade/zones.js';
import { computed, practice } from './known.js';

interface HeadlineFacts {
  readonly rail: ZoneKind | undefined;
  readonly holds: ZoneKind['holds'];
  readonly limit: Known<Amount>;
  /** A timed rest that works. */
  readonly rest: { readonly emptyBy: Known<ByDay>; readonly off: Known<ByDay> } | undefined;
  readonly leaving: { readonly emptyBy: Known<ByDay> } | undefined;
  readonly byHand: boolean;
}

/** Days that share a time, each time once. */
const groups = (value: Known<ByDay>): readonly { readonly days: Known<Days>; readonly time: Known<Moment> }[] => {
  const found = new Map<number, Weekday[]>();
  for (const day of WEEKDAYS) {
    const at = value.value.at[day];
    if (at) found.set(at.min, [...(found.get(at.min) ?? []), day]);
  }
  return [...found].map(([min, days]) => ({
    days: computed<Days>({ q: 'days', days }, 'days-with-one-time', [value]),
    time: computed<Moment>({ q: 'moment', min }, 'time-of-those-days', [value], 'earlier'),
  }));
};

export const headline = (facts: HeadlineFacts) => {
  const { rail, holds, limit, rest, leaving } = facts;
  const say = (code: string, values: Readonly<Record<string, Known<Value>>> = {}): Known<Phrase> => practice(phrase(`headline.${code}`, values), `headline-${code}`);
  const empty = rest?.emptyBy ?? leaving?.emptyBy;
  if (rail && empty) {
    const times = groups(empty);
    const one = times.length === 1;
    const off = rest?.off;
    return {
      times,
      over: one ? undefined : say('empty-by-over'),
      signal: one ? [say('empty-by', { time: (times[0] as (typeof times)[number]).time })] : times.map(({ days, time }) => say('empty-by-days', { days, time })),
      message: off
        ? [say(facts.byHand ? 'goes-off-by-hand' : 'goes-off', { off }), say('bottom-stays-on')]
        : [say(rail.rests === 'as-maker' ? 'own-rest' : 'stays-on'), say('emptied-every-night')],
    };
  }
  const messages = { cold: ['cold-food-only', 'over-limit-stop'], frozen: ['frozen-food-only'], sealed: ['sealed-only'] }[holds];
  return { times: [], over: undefined, signal: [say(holds, { limit })], message: messages.map((code) => say(code, { limit })) };
};
