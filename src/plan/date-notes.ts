/**
 * What is different about a date, in sentences: a change of the clocks, a task for whoever may touch the clock, an error that no task can help.
 */
import type { Known } from '../base/basis.js';
import type { Weekday } from '../base/moment.js';
import { phrase, term, type CalendarDate, type Phrase, type Term, type Value } from '../base/value.js';
import { figuresOf } from './date-findings.js';
import { computed, practice } from './known.js';
import type { DateNote } from './timetable/dates/index.js';
import type { UnitPlan } from './unit.js';

/** Said once for the store, whatever rail it was found on. */
const OF_STORE: readonly DateNote['code'][] = ['clocks-change', 'time-skipped', 'time-twice'];
/** A hand on the clock's time or its override: the manager's where both are in reach, else a technician's. */
const BY_HAND: readonly DateNote['code'][] = ['reset-clock', 'hold-on', 'turn-on-early', 'stay-on', 'stay-on-today'];
export const concernsStore = (note: DateNote): boolean => OF_STORE.includes(note.code);

export interface WeekNote {
  readonly date: Known<CalendarDate>;
  /** Undefined: all units. */
  readonly unit: Known<Value> | undefined;
  readonly text: Known<Phrase>;
  /** What happens if a task is not done. */
  readonly otherwise: Known<Phrase> | undefined;
  readonly who: Known<Term>;
  /** A task for a hand on the clock; undefined for what is only said. */
  readonly hand: 'hand' | undefined;
  /** A task of which people are reminded a week ahead. */
  readonly lead?: 'week' | undefined;
  readonly figures: Readonly<Record<string, Known<Value>>>;
  readonly [key: string]: Known<Value> | Readonly<Record<string, Known<Value>>> | string | undefined;
}

/** The code of a note's sentence: what differs by direction or by who may act is another sentence. */
const sentence = (note: DateNote, hand: 'manager' | 'technician'): string => {
  switch (note.code) {
    case 'clocks-change':
      return note.shift > 0 ? 'clocks-forward' : 'clocks-back';
    case 'reset-clock':
      return `${note.turn > 0 ? 'reset-forward' : 'reset-back'}-${hand}`;
    case 'turning-skipped':
    case 'turning-twice':
      return `${note.code}-${note.turns}`;
    case 'time-skipped':
    case 'time-twice':
    case 'first-time-meant':
    case 'second-time-meant':
    case 'turns-first-time':
    case 'turns-second-time':
      return `${note.code}-${note.what.toLowerCase()}`;
    case 'hold-on':
    case 'turn-on-early':
    case 'stay-on':
    case 'stay-on-today':
      return `${note.code}-${hand}`;
    default:
      return note.code;
  }
};

/** What follows when nobody did it. */
const otherwiseOf = (note: DateNote, afternoon: boolean): string | undefined => {
  switch (note.code) {
    case 'reset-clock':
      if (note.on === null) return 'reset-missed-none';
      if (note.late === 0) return undefined;
      return `reset-missed-${note.late > 0 ? 'late' : 'early'}${afternoon ? '-afternoon' : ''}`;
    case 'hold-on':
    case 'stay-on':
    case 'stay-on-today':
      return 'not-held';
    case 'turn-on-early':
      return 'not-turned-on';
    default:
      return undefined;
  }
};

/** @param from the leaves of which the note's figures are worked out @param over whether the night is over: then it is asked whether its task was done */
export const weekNote = (
  note: DateNote,
  date: Known<CalendarDate>,
  unit: UnitPlan | undefined,
  weekday: Weekday,
  from: readonly Known<unknown>[],
  service: Known<Value>,
  over: boolean,
): WeekNote => {
  const figures: Record<string, Known<Value>> = Object.fromEntries(
    Object.entries(figuresOf(note, weekday)).map(([name, value]) => [name, computed<Value>(value, 'of-that-date', from)]),
  );
  const rest = unit?.rest;
  const hand = rest?.in_reach.value.is ? 'manager' : 'technician';
  const values = {
    ...figures,
    service,
    ...(unit ? { ready: unit.ready } : {}),
    ...(unit?.destination ? { destination: unit.destination } : {}),
  };
  // Of one that stands at other times the sheet's head says when.
  const missed =
    note.code === 'reset-clock' && unit?.clock_other ? undefined : otherwiseOf(note, rest?.afternoon.value.is === true);
  const otherwise = over ? missed?.replace(/^reset-missed/, 'since-missed').replace(/-afternoon$/, '') : missed;
  const code = over ? `since-${hand}` : sentence(note, hand);
  const task = !over && BY_HAND.includes(note.code);
  return {
    date,
    unit: unit?.nickname,
    text: practice(phrase(`notes.${code}`, values), `note-${code}`),
    otherwise: otherwise === undefined ? undefined : practice(phrase(`notes.${otherwise}`, values), `note-${otherwise}`),
    who: practice(term(task ? hand : 'manager'), 'who-may-touch-the-clock'),
    hand: task ? 'hand' : undefined,
    figures,
  };
};
