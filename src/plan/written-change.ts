/**
 * Changes that stand in a store's file under a key: what is to be written there, and the store as it would then be read.
 */
import { DAY, WEEKDAYS, type Weekday } from '../base/moment.js';
import { isOneRule, type WhenByDay, type When } from '../model/fields.js';
import { storeSchema, type Store } from '../model/store.js';
import { ruleFor } from './business-days.js';
import type { Change } from './timetable/index.js';

const two = (n: number): string => String(n).padStart(2, '0');
const clock = (minutes: number): string => {
  const onTheWall = ((minutes % DAY) + DAY) % DAY;
  return `${two(Math.floor(onTheWall / 60))}:${two(onTheWall % 60)}`;
};

type Raw = string | number | Readonly<Record<string, string>>;

/** Values to be written, by key. */
type Written = Readonly<Record<string, Raw>>;

const wroteRule = ({ from, minutes }: Pick<When, 'from' | 'minutes'>): string => {
  if (from === 'midnight') return clock(minutes);
  return minutes === 0 ? `at ${from}` : `${Math.abs(minutes)} min ${minutes < 0 ? 'before' : 'after'} ${from}`;
};

const later = (rule: When, by: number): string => wroteRule({ from: rule.from, minutes: rule.minutes + by });

/** A rule so many minutes later, on all days or on one: of two entries that name a day the later one holds. */
const moved = (rules: WhenByDay, by: number, day?: Weekday): Raw => {
  const each = (change: (rule: When) => string): Raw =>
    isOneRule(rules) ? change(rules) : Object.fromEntries(Object.entries(rules).map(([days, rule]) => [days, change(rule)]));
  if (day === undefined) return each((rule) => later(rule, by));
  const own = ruleFor(rules, day);
  const kept = each((rule) => rule.wrote);
  const rest =
    typeof kept === 'string' ? { 'mon-sun': kept } : Object.fromEntries(Object.entries(kept).filter(([days]) => days !== day));
  return own ? { ...rest, [day]: later(own, by) } : kept;
};

/** What a change writes; undefined for one that no key of a store holds. */
const writes = ({ crew }: Store, change: Change): Written | undefined => {
  switch (change.code) {
    case 'start-earlier':
      return { 'crew.start_before_closing': `${crew.start_before_closing.si / 60 + change.minutes} min` };
    case 'more-people':
      return { 'crew.closers': crew.closers + change.people, 'crew.openers': crew.openers + change.people };
    case 'first-pan-later':
      return {
        'crew.first_pan': moved(crew.first_pan, change.minutes, change.day === null ? undefined : WEEKDAYS[change.day]),
      };
    case 'crew-leaves-later':
      return { 'crew.leaves': moved(crew.leaves, change.minutes) };
    case 'crew-comes-earlier':
      return { 'crew.comes': moved(crew.comes, -change.minutes) };
    case 'quiet-window':
      return { quiet_window: `${clock(change.from)}-${clock(change.from + change.minutes)}` };
    default:
      return undefined;
  }
};

/** The store as it is read once that is written; undefined where a value can't be written. */
const reread = (store: Store, written: Written): Store | undefined => {
  let changed = store;
  for (const [key, raw] of Object.entries(written)) {
    const { crew, quiet_window: quiet } = storeSchema.shape;
    const name = key.replace('crew.', '') as keyof typeof crew.shape;
    const read = key === 'quiet_window' ? quiet.safeParse(raw) : crew.shape[name].safeParse(raw);
    if (!read.success) return undefined;
    changed =
      key === 'quiet_window'
        ? { ...changed, quiet_window: read.data as Store['quiet_window'] }
        : { ...changed, crew: { ...changed.crew, [name]: read.data } };
  }
  return changed;
};

export interface WrittenChanges {
  readonly store: Store;
  /** `quiet_window: 02:00-09:35`, one a key. */
  readonly lines: readonly string[];
  /** Changes that no key holds. */
  readonly others: readonly Change[];
}

const flow = (raw: Raw): string =>
  typeof raw === 'object'
    ? `{${Object.entries(raw)
        .map(([days, rule]) => `${days.includes(',') ? `'${days}'` : days}: ${rule}`)
        .join(', ')}}`
    : String(raw);

/** @returns undefined where a value can't be written: more people than a store may have */
export const writeChanges = (store: Store, changes: readonly Change[]): WrittenChanges | undefined => {
  let all: Written = {};
  let changed: Store | undefined = store;
  const others: Change[] = [];
  for (const change of changes) {
    const written = changed && writes(changed, change);
    if (!changed) return undefined;
    if (!written) others.push(change);
    else {
      all = { ...all, ...written };
      changed = reread(changed, written);
    }
  }
  return changed && { store: changed, others, lines: Object.entries(all).map(([key, raw]) => `${key}: ${flow(raw)}`) };
};
