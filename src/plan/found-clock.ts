/**
 * The clock as a technician found it, walked through the week: at which minute of which days it stopped a rail with food in it, came on late, or gave no rest.
 */
import { amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { DAY, moment, onTheWall, WEEK, WEEKDAYS, type Weekday } from '../base/moment.js';
import { phrase, type Days, type Phrase, type Value } from '../base/value.js';
import { foundPatterns, foundStops, lateBy, timeOff, type FoundClock } from './found-settings.js';
import { computed, practice } from './known.js';
import {
  daysSinceLast,
  demandsOf,
  solve,
  type Demand,
  type Night,
  type Problem,
  type Rail,
  type Stop,
} from './timetable/index.js';

/** What a fault does to one night; minutes from 00:00 of the business day. */
export interface FoundFault {
  readonly code: 'off-with-food' | 'on-late' | 'on-unwiped' | 'rests-too-short';
  readonly day: number;
  /** When it goes off (with food in it), or comes on (late, or before its water is wiped away). */
  readonly at: number;
  /** How long: off with food, late, too early for who wipes, or at rest. */
  readonly minutes: number;
}

export interface FoundTold {
  readonly text: Known<Phrase>;
  readonly figures: Readonly<Record<string, Known<Value>>>;
  readonly [key: string]: Known<Value> | Readonly<Record<string, Known<Value>>>;
}

/** A rail among those of its crew, with all gaps in which it is emptied and those in which it rests. */
export interface FoundRail {
  readonly problem: Problem;
  readonly rail: number;
  readonly rests: readonly Night[];
  readonly afternoon: boolean;
}

/** Whether those stops keep every rule, so that the clock may stay as it is. */
const mayStay = ({ problem, rail }: FoundRail, stops: readonly Stop[]): boolean => {
  const clock = problem.rails[rail]?.clock;
  const found = clock && foundPatterns(clock, stops);
  if (!found) return false;
  const rails = problem.rails.map((r, i): Rail => (i === rail ? { ...r, found } : r));
  const outcome = solve({ ...problem, rails })[rail];
  return outcome?.ok === true && outcome.kept;
};

/** The same on a dial that is turned by half a day. */
const turned = (stops: readonly Stop[]): readonly Stop[] =>
  stops.map(({ from, to }) => ({ from: (from + DAY / 2) % WEEK, to: ((from + DAY / 2) % WEEK) + to - from }));

interface Span {
  readonly from: number;
  readonly to: number;
}

const shared = (a: Span, b: Span): Span | undefined => {
  const both = { from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) };
  return both.from < both.to ? both : undefined;
};

/**
 * The faults of each gap: the stops of a week, held against the times at which food is in the rail and at which it needs power.
 * @param demands of each night, where they are other than the least that the crew could do
 */
export const faultsOf = (
  { problem, rail, rests }: FoundRail,
  week: readonly Stop[],
  demands: readonly (Demand | undefined)[] = demandsOf(problem).map((row) => row[rail]),
): readonly FoundFault[] => {
  const { need } = problem.rails[rail] as Rail;
  const stops = [-WEEK, 0, WEEK].flatMap((turn) => week.map(({ from, to }) => ({ from: from + turn, to: to + turn })));
  return problem.nights.flatMap((night, i): readonly FoundFault[] => {
    const base = night.day * DAY;
    const demand = demands[i];
    const loaded = demands.at(i - 1);
    if (!demand || !loaded) return [];
    const food: Span = { from: base - daysSinceLast(problem, i) * DAY + loaded.coldBy, to: base + demand.out };
    const power = base + demand.power;
    const warm = stops.flatMap((stop) => shared(stop, food) ?? []);
    const late = stops.find((stop) => stop.from < power && stop.to > power);
    const rest = Math.max(
      0,
      ...stops.map((stop) => {
        const both = shared(stop, { from: food.to, to: power });
        return both ? both.to - both.from : 0;
      }),
    );
    const wiped = demand.wiped === null ? undefined : base + demand.wiped;
    // Of several the first: from then on what has melted freezes again.
    const rested = stops.filter((stop) => shared(stop, { from: food.to, to: power })).toSorted((a, b) => a.to - b.to)[0];
    const { day } = night;
    return [
      ...warm.map((span) => ({ code: 'off-with-food' as const, day, at: span.from - base, minutes: span.to - span.from })),
      ...(late ? [{ code: 'on-late' as const, day, at: late.to - base, minutes: late.to - power }] : []),
      ...(rested && wiped !== undefined && rested.to < wiped
        ? [{ code: 'on-unwiped' as const, day, at: rested.to - base, minutes: wiped - rested.to }]
        : []),
      ...(rest < need.leastRest && rests.includes(night)
        ? [{ code: 'rests-too-short' as const, day, at: 0, minutes: rest }]
        : []),
    ];
  });
};

/** Faults as sentences, those of the same minute told once with their days; the override and a turned dial first. */
const tell = (
  clock: FoundClock,
  afternoon: boolean,
  dial: 'as-it-should' | 'half-day-out' | 'never-turns',
  faults: readonly FoundFault[],
  from: readonly Known<unknown>[],
): readonly FoundTold[] => {
  const groups = new Map<string, FoundFault[]>();
  for (const fault of faults) {
    const key = JSON.stringify([fault.code, onTheWall(moment(fault.at)), fault.minutes]);
    groups.set(key, [...(groups.get(key) ?? []), fault]);
  }
  const known = <T extends Value>(value: T): Known<T> => computed(value, 'found-clock-walked', from);
  const told = (code: string, figures: FoundTold['figures'] = {}): FoundTold => ({
    text: practice(phrase(`found.${code}`, figures), `found-${code}`),
    figures,
  });
  const off = timeOff(clock);
  const harmless = dial === 'as-it-should' && faults.length === 0;
  const did = [
    // Times below are true ones, not the dial's.
    ...(off ? [told(harmless ? `${off.way}-alone` : off.way, { by: known(off.by) })] : []),
    ...(dial === 'as-it-should' ? [] : [told(dial)]),
    ...[...groups.values()].map((group) => {
      const [{ code, at, minutes }] = group as [FoundFault];
      const days: Days = { q: 'days', days: group.map((fault) => WEEKDAYS[fault.day] as Weekday) };
      const figures = {
        days: known(days),
        at: known(moment(onTheWall(moment(at)))),
        length: known(amount('duration', minutes * 60)),
      };
      return told(afternoon && code !== 'off-with-food' ? `${code}-afternoon` : code, figures);
    }),
  ];
  const { override } = clock;
  if (override !== 'on' && override !== 'off') return did;
  // A held clock did nothing itself: what it would have done is told as such.
  return [told(`override-${override}`), ...(did.length > 0 ? [told('override-would'), ...did] : [])];
};

/** The top is in use until closing, whatever the crew could do before it: its food is out once it was emptied from then on. */
const afterClosing = ({ problem, rail }: FoundRail): readonly (Demand | undefined)[] => {
  const rails = problem.rails.map((r): Rail => ({ ...r, need: { ...r.need, startBeforeClose: 0 } }));
  return demandsOf({ ...problem, rails }).map((row) => row[rail]);
};

/** What the clock did as it was found. @param from the leaves that say what it should do */
export const foundClock = (found: FoundRail, clock: FoundClock, from: readonly Known<unknown>[]): readonly FoundTold[] => {
  const late = lateBy(clock);
  const set = foundStops(clock);
  if (set.length === 0) return tell(clock, found.afternoon, 'never-turns', [], from);
  if (late === 0 && mayStay(found, set)) return tell(clock, found.afternoon, 'as-it-should', [], from);
  const dial = mayStay(found, turned(set)) ? 'half-day-out' : 'as-it-should';
  const stops = set.map((stop) => ({ from: stop.from + late, to: stop.to + late }));
  return tell(clock, found.afternoon, dial, faultsOf(found, stops, afterClosing(found)), from);
};
