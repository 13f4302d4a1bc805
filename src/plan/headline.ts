/**
 * The one rule of a unit in the largest words: its time, or what it holds; then the sentences beside it.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { DAY, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { flag, phrase, type ByDay, type Days, type Phrase, type Value } from '../base/value.js';
import { computed, practice } from './known.js';
import type { UnitTraits } from './unit-traits.js';

interface HeadlineFacts {
  readonly traits: UnitTraits;
  readonly limit: Known<Amount>;
  /** A timed rest that works. */
  readonly rest: { readonly emptyBy: Known<ByDay>; readonly off: Known<ByDay> } | undefined;
  readonly leaving: { readonly emptyBy: Known<ByDay> } | undefined;
}

/** Days that share a time to be empty by and a time of going off, each pair once. */
const groups = (empty: Known<ByDay>, off: Known<ByDay> | undefined) => {
  const found = new Map<string, { by: number; off: number | undefined; days: Weekday[] }>();
  for (const day of WEEKDAYS) {
    const by = empty.value.at[day]?.min;
    if (by === undefined) continue;
    const goes = off?.value.at[day]?.min;
    const key = `${by} ${goes}`;
    const group = found.get(key) ?? { by, off: goes, days: [] };
    group.days.push(day);
    found.set(key, group);
  }
  return [...found.values()].map((group) => ({
    days: computed<Days>(
      { q: 'days', days: group.days, ...(group.by >= DAY ? { nights: true as const } : {}) },
      'days-with-one-time',
      [empty],
    ),
    time: computed<Moment>({ q: 'moment', min: group.by }, 'time-of-those-days', [empty], 'earlier'),
    off:
      group.off === undefined || !off
        ? undefined
        : computed<Moment>({ q: 'moment', min: group.off }, 'time-of-those-days', [off], 'earlier'),
  }));
};

const flagged = (is: boolean) => practice(flag(is), 'trait');

export const headline = (facts: HeadlineFacts) => {
  const { limit, rest, leaving } = facts;
  const { rail, holds, byHand, afternoon } = facts.traits;
  const say = (code: string, values: Readonly<Record<string, Known<Value>>> = {}): Known<Phrase> =>
    practice(phrase(`headline.${code}`, values), `headline-${code}`);
  const empty = rest?.emptyBy ?? leaving?.emptyBy;
  if (rail && empty) {
    const times = groups(empty, rest?.off);
    const offs = new Set(times.map((t) => t.off?.value.min));
    const off = times[0]?.off;
    return {
      one: flagged(times.length === 1),
      /** Too many different nights for the largest type: they are listed instead. */
      many: flagged(times.length > 2),
      times: times.map((t) => ({ ...t, goes: offs.size > 1 && t.off ? say('off-at', { off: t.off }) : undefined })),
      over: say('empty-by'),
      signal: [],
      message: off
        ? offs.size === 1
          ? [say(byHand ? 'off-by-hand' : 'off-busy', { off })]
          : [say(byHand ? 'busy-by-hand' : 'busy')]
        : [say(rail.rests === 'as-maker' ? 'own-rest' : 'stays-on')],
      plain: afternoon ? say('night-too') : off ? say('bottom-stays-on') : say('emptied-every-night'),
    };
  }
  const messages = { cold: ['nothing-warm'], frozen: ['nothing-warm'], sealed: ['no-open-food'] }[holds];
  return {
    one: flagged(true),
    many: flagged(false),
    times: [],
    over: undefined,
    plain: say(`${holds}-only`, { limit }),
    signal: [say(holds, { limit })],
    message: messages.map((code) => say(code, { limit })),
  };
};
