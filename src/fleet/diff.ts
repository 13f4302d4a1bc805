/**
 * Two ledgers compared in plain words: which times moved, by how much, on which days, and what moved them; which papers are to be sent again.
 */
import { WEEKDAYS, type Weekday } from '../base/moment.js';
import { turningsIn } from '../plan/found-settings.js';
import type { RailWhen } from '../plan/steps.js';
import type { Because, ClockSet, Facts, Ledger, StoreRecord, Times, UnitEntry } from './ledger.js';

export type Why =
  /** A time of the crew or the store moved: its name. */
  | { readonly moved: string }
  /** A written fact is another. */
  | { readonly fact: string; readonly from: string; readonly to: string }
  /** Nothing of its own: another night or another unit moved it. */
  | { readonly other: true };

export type Change =
  | { readonly change: 'store-new' | 'store-gone' | 'papers-lost' | 'papers-back'; readonly store: string }
  | {
      readonly change: 'unit-new' | 'unit-gone' | 'schedule-lost' | 'schedule-found';
      readonly store: string;
      readonly unit: string;
    }
  | {
      readonly change: 'time';
      readonly store: string;
      readonly unit?: string;
      readonly time: string;
      readonly days: readonly Weekday[];
      /** Minutes of the business day; absent where there was or is none. */
      readonly from?: number;
      readonly to?: number;
      readonly why: readonly Why[];
    }
  /** Somebody has to set its clock before the new papers hang: to what. */
  | { readonly change: 'set-clock'; readonly store: string; readonly unit: string; readonly clock: readonly ClockSet[] }
  | { readonly change: 'send' | 'take-down'; readonly store: string; readonly documents: readonly string[] };

interface Timed {
  readonly times?: Times;
  readonly facts?: Facts;
  readonly because?: Because;
}

/** Which time of the store stands behind a time of a unit. */
const BEHIND: Readonly<Record<RailWhen | 'leaves' | 'comes', readonly string[]>> & Readonly<Record<string, readonly string[]>> = {
  start: ['closes', 'leaves'],
  empty_by: ['closes', 'leaves'],
  off: ['closes', 'leaves'],
  on: ['first_pan', 'opens'],
  cold_by: ['first_pan', 'opens'],
  wipe: ['comes', 'first_pan'],
  leaves: ['closes'],
  comes: ['opens'],
  first_pan: ['opens'],
};

/** Paths of the facts that a time comes from. */
const pathsOf = ({ because, facts = {} }: Timed, time: string): readonly string[] => {
  const paths = Object.keys(facts);
  return (because?.[time] ?? []).flatMap((i) => paths[i] ?? []);
};

const movedOn = (name: string, day: Weekday, before: Times, after: Times): boolean => before[name]?.[day] !== after[name]?.[day];

const whyOf = (
  time: string,
  days: readonly Weekday[],
  before: Timed,
  after: Timed,
  storeBefore: Times,
  storeAfter: Times,
): readonly Why[] => {
  const moved = (BEHIND[time] ?? []).find((name) => days.some((day) => movedOn(name, day, storeBefore, storeAfter)));
  if (moved !== undefined) return [{ moved }];
  const paths = new Set([...pathsOf(before, time), ...pathsOf(after, time)]);
  const facts = [...paths].sort().flatMap((path): readonly Why[] => {
    const [from, to] = [before.facts?.[path] ?? '', after.facts?.[path] ?? ''];
    return from === to ? [] : [{ fact: path, from, to }];
  });
  return facts.length > 0 ? facts : [{ other: true }];
};

/** Days on which a time went from one minute to another, days with the same move together. */
const timeChanges = (
  store: string,
  unit: string | undefined,
  before: Timed,
  after: Timed,
  storeBefore: Times,
  storeAfter: Times,
): readonly Change[] => {
  const names = [...new Set([...Object.keys(before.times ?? {}), ...Object.keys(after.times ?? {})])];
  return names.flatMap((time) => {
    const groups = new Map<string, { days: Weekday[]; from?: number; to?: number }>();
    for (const day of WEEKDAYS) {
      const [from, to] = [before.times?.[time]?.[day], after.times?.[time]?.[day]];
      if (from === to) continue;
      const key = `${from}-${to}`;
      const group = groups.get(key) ?? { days: [], ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) };
      group.days.push(day);
      groups.set(key, group);
    }
    return [...groups.values()].map((group): Change => ({
      change: 'time',
      store,
      ...(unit === undefined ? {} : { unit }),
      time,
      ...group,
      why: whyOf(time, group.days, before, after, storeBefore, storeAfter),
    }));
  });
};

/** A ledger of before clocks were kept there tells of them by its times. */
const clockChanges = (store: string, before: UnitEntry, after: UnitEntry): readonly Change[] => {
  const { unit, clock } = after;
  if (!clock) return [];
  const stands = before.clock
    ? turningsIn(before.clock) === turningsIn(clock)
    : before.solved !== false &&
      ['off', 'on'].every((time) => WEEKDAYS.every((day) => !movedOn(time, day, before.times, after.times)));
  return stands ? [] : [{ change: 'set-clock', store, unit, clock }];
};

/** Of units that had no papers before: all that have a clock. */
const newClocks = (store: string, units: readonly UnitEntry[]): readonly Change[] =>
  units.flatMap(({ unit, clock }) => (clock ? [{ change: 'set-clock' as const, store, unit, clock }] : []));

const unitChanges = (store: string, before: StoreRecord, after: StoreRecord): readonly Change[] => {
  const were = new Map(before.units.map((u) => [u.unit, u] as const));
  const are = new Map(after.units.map((u) => [u.unit, u] as const));
  const both = (unit: string, old: UnitEntry, now: UnitEntry): readonly Change[] => {
    if (old.solved === true && now.solved === false) return [{ change: 'schedule-lost', store, unit }];
    // All its times are new then, for one reason.
    const clock = clockChanges(store, old, now);
    if (old.solved === false && now.solved === true) return [{ change: 'schedule-found', store, unit }, ...clock];
    return [...timeChanges(store, unit, old, now, before.store.times ?? {}, after.store.times ?? {}), ...clock];
  };
  return [...new Set([...were.keys(), ...are.keys()])].sort().flatMap((unit): readonly Change[] => {
    const [old, now] = [were.get(unit), are.get(unit)];
    if (!old) return [{ change: 'unit-new', store, unit }, ...newClocks(store, now ? [now] : [])];
    return now ? both(unit, old, now) : [{ change: 'unit-gone', store, unit }];
  });
};

/** A document's name without its format: `copper-ferry/line-1-poster.es`. */
const paperOf = (document: string): string => document.slice(0, document.lastIndexOf('.'));

/** Documents whose bytes are others. */
const documentChanges = (store: string, before: StoreRecord | undefined, after: StoreRecord | undefined): readonly Change[] => {
  const hashes = (record: StoreRecord | undefined) =>
    new Map((record?.documents ?? []).flatMap((d) => (d.made ? [[d.document, d.made.hash] as const] : [])));
  const [were, are] = [hashes(before), hashes(after)];
  const down = [...were.keys()].filter((path) => !are.has(path));
  // Of a paper that could not be printed, what could be made for a screen is nothing to send.
  const lost = new Set(down.map(paperOf));
  const send = [...are].filter(([path, hash]) => were.get(path) !== hash && !lost.has(paperOf(path))).map(([path]) => path);
  return [
    ...(send.length > 0 ? [{ change: 'send' as const, store, documents: send.sort() }] : []),
    ...(down.length > 0 ? [{ change: 'take-down' as const, store, documents: down.sort() }] : []),
  ];
};

/** Whether a store was written, but none could be made of it. */
const isLost = ({ head }: Ledger, store: string): boolean => head.lost?.some((lost) => lost.store === store) ?? false;

export const diffOf = (before: Ledger, after: Ledger): readonly Change[] =>
  [...new Set([...before.stores.keys(), ...after.stores.keys()])].sort().flatMap((store): readonly Change[] => {
    const [old, now] = [before.stores.get(store), after.stores.get(store)];
    const papers = documentChanges(store, old, now);
    const clocks = newClocks(store, now?.units ?? []);
    if (!old) return [{ change: isLost(before, store) ? 'papers-back' : 'store-new', store }, ...clocks, ...papers];
    if (!now) return [{ change: isLost(after, store) ? 'papers-lost' : 'store-gone', store }, ...papers];
    if (old.units.length > 0 && now.units.length === 0) return [{ change: 'papers-lost', store }, ...papers];
    if (old.units.length === 0 && now.units.length > 0) return [{ change: 'papers-back', store }, ...clocks, ...papers];
    const own = timeChanges(store, undefined, old.store, now.store, old.store.times ?? {}, now.store.times ?? {});
    return [...own, ...unitChanges(store, old, now), ...papers];
  });
