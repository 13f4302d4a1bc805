/**
 * The smallest changes after which a rail would have a schedule, in sentences; each was tried by solving again.
 */
import { amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { DAY, moment, WEEKDAYS, type Weekday } from '../base/moment.js';
import { count, phrase, term, verbatim, type Phrase, type Value, type Verbatim } from '../base/value.js';
import { CLOCK_KINDS, clockKindNames, type ClockKindName } from '../trade/clocks.js';
import type { Store } from '../model/store.js';
import { computed, practice } from './known.js';
import { applyRemedy, clockOf, remediesFor, WEEK_CIRCLE, type Change, type Clock, type Problem } from './timetable/index.js';
import { writeChanges } from './written-change.js';

export interface Remedies {
  readonly text: Known<Phrase>;
  readonly figures: Readonly<Record<string, Known<Value>>>;
  readonly parts: readonly Known<Phrase>[];
  /** What is to be written in the store's file, under its keys. */
  readonly line?: Known<Verbatim>;
  /** The sentence with that line. */
  readonly written?: Known<Phrase>;
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

const remedyOf = (changes: readonly Change[], drainUnknown: boolean, lines: readonly string[]): Remedies => {
  const figures: Record<string, Known<Value>> = {};
  const parts = changes.map((change, i) => {
    const own = Object.fromEntries(
      Object.entries(figuresOf(change)).map(([name, value]) => [name, computed<Value>(value, 'smallest-change', [])]),
    );
    for (const [name, known] of Object.entries(own)) figures[`${name}_${i + 1}`] = known;
    return practice(phrase(`remedies.${codeOf(change, drainUnknown)}`, own), 'solved-again');
  });
  const [first, second] = parts as [Known<Phrase>, Known<Phrase> | undefined];
  const text = second ? practice(phrase('remedies.both', { first, second }), 'solved-again') : first;
  if (lines.length === 0) return { text, figures, parts };
  const line = practice(verbatim(lines.join(', ')), 'solved-again');
  return { text, figures, parts, line, written: practice(phrase('remedies.written', { remedy: text, line }), 'solved-again') };
};

export interface Sought {
  readonly store: Store;
  /** The clock that the rail has. */
  readonly kind: ClockKindName;
  /** Nobody knows whether its melt water drains: looking costs nothing, so it is said first. */
  readonly drainUnknown: boolean;
  /** The nights of a store with other facts, and what its rails need then. */
  readonly nightsWith: (store: Store) => Problem;
}

/**
 * Each is tried as it will be read once it is written: with its crew's rules, and with the needs that follow from them.
 * @param rail index of a rail without a schedule
 */
export const remediesOf = (
  problem: Problem,
  rail: number,
  { store, kind, drainUnknown, nightsWith }: Sought,
): readonly Remedies[] => {
  const clocks: Readonly<Record<string, Clock>> = Object.fromEntries(
    clockKindNames
      .filter((name) => CLOCK_KINDS[name].fitted && name !== kind)
      .map((name) => [name, clockOf(CLOCK_KINDS[name], WEEK_CIRCLE)]),
  );
  const looks = (changes: readonly Change[]): boolean => drainUnknown && changes.some(({ code }) => code === 'fit-drain');
  const made = (changes: readonly Change[]): Problem | undefined => {
    const written = writeChanges(store, changes);
    if (!written) return undefined;
    const nights = written.lines.length === 0 ? problem : nightsWith(written.store);
    return applyRemedy(nights, rail, written.others, { clocks });
  };
  return [...remediesFor(problem, rail, { clocks, quietFrom: QUIET_FROM, made })]
    .sort((a, b) => Number(looks(b)) - Number(looks(a)))
    .slice(0, MOST)
    .map((changes) => remedyOf(changes, drainUnknown, writeChanges(store, changes)?.lines ?? []));
};
