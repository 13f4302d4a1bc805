/**
 * The smallest changes after which a rail would have a schedule, in sentences; each was tried by solving again.
 */
import { amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { DAY, moment, WEEKDAYS, type Weekday } from '../base/moment.js';
import { count, phrase, term, type Phrase, type Value } from '../base/value.js';
import { CLOCK_KINDS, clockKindNames, type ClockKindName } from '../trade/clocks.js';
import { computed, practice } from './known.js';
import { clockOf, remediesFor, WEEK_CIRCLE, type Change, type Clock, type Problem } from './timetable/index.js';

export interface Remedies {
  readonly text: Known<Phrase>;
  readonly figures: Readonly<Record<string, Known<Value>>>;
  readonly parts: readonly Known<Phrase>[];
  readonly [key: string]: Known<Value> | Readonly<Record<string, Known<Value>>> | readonly Known<Phrase>[];
}

/** When a store that never closes is quietest. Common practice, no source. */
const QUIET_FROM = 2 * 60;
/** More than so many choices nobody reads. */
const MOST = 8;

const figuresOf = (change: Change): Readonly<Record<string, Value>> => ({
  ...('minutes' in change ? { minutes: amount('duration', change.minutes * 60) } : {}),
  ...('people' in change ? { people: count(change.people) } : {}),
  ...('clock' in change ? { clock: term(change.clock) } : {}),
  ...('from' in change ? { from: moment(change.from), until: moment((change.from + change.minutes) % DAY) } : {}),
  ...('day' in change && change.day !== null ? { day: { q: 'days' as const, days: [WEEKDAYS[change.day] as Weekday] } } : {}),
});

/** Of which rail it is not known whether its melt water drains: before anybody fits a drain, somebody looks. */
const LOOK = 'look-whether-it-drains';

const codeOf = (change: Change, drainUnknown: boolean): string => {
  if (change.code === 'first-pan-later' && change.day !== null) return 'first-pan-later-that-day';
  return change.code === 'fit-drain' && drainUnknown ? LOOK : change.code;
};

const remedyOf = (changes: readonly Change[], drainUnknown: boolean): Remedies => {
  const figures: Record<string, Known<Value>> = {};
  const parts = changes.map((change, i) => {
    const own = Object.fromEntries(
      Object.entries(figuresOf(change)).map(([name, value]) => [name, computed<Value>(value, 'smallest-change', [])]),
    );
    for (const [name, known] of Object.entries(own)) figures[`${name}_${i + 1}`] = known;
    return practice(phrase(`remedies.${codeOf(change, drainUnknown)}`, own), 'solved-again');
  });
  const [first, second] = parts as [Known<Phrase>, Known<Phrase> | undefined];
  return { text: second ? practice(phrase('remedies.both', { first, second }), 'solved-again') : first, figures, parts };
};

/**
 * @param rail index of a rail without a schedule, whose clock is of that kind
 * @param drainUnknown nobody knows whether its melt water drains: looking costs nothing, so it is said first
 */
export const remediesOf = (problem: Problem, rail: number, kind: ClockKindName, drainUnknown: boolean): readonly Remedies[] => {
  const clocks: Readonly<Record<string, Clock>> = Object.fromEntries(
    clockKindNames
      .filter((name) => CLOCK_KINDS[name].fitted && name !== kind)
      .map((name) => [name, clockOf(CLOCK_KINDS[name], WEEK_CIRCLE)]),
  );
  const looks = (changes: readonly Change[]): boolean => drainUnknown && changes.some(({ code }) => code === 'fit-drain');
  return [...remediesFor(problem, rail, { clocks, quietFrom: QUIET_FROM })]
    .sort((a, b) => Number(looks(b)) - Number(looks(a)))
    .slice(0, MOST)
    .map((changes) => remedyOf(changes, drainUnknown));
};
