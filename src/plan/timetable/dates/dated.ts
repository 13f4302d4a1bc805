/**
 * What is told of one date: its times as people read them on the wall, and what is different from the ordinary night of that weekday.
 * Times are minutes from 00:00 of the date, unwrapped, as the wall shows them then; lengths are elapsed minutes.
 */
import type { DayNumber } from '../../../model/hours/index.js';
import type { Night, Problem, Shift } from '../problem.js';
import type { Change } from './wall.js';
import type { RestTimes, Timetable } from '../outcome.js';

/** A solved week and the dates that differ from it. */
export interface Standing {
  /** On the real circle: 7 days of 1440 minutes. */
  readonly problem: Problem;
  readonly timetable: Timetable;
  /** A name that `validZone` accepts. */
  readonly zone: string;
  /** Dates of other hours; null: closed. The weekday's rule holds for all others. */
  readonly exceptions: ReadonlyMap<DayNumber, Shift | null>;
}

export type DateNote =
  /** The wall moves by `shift` (60: forward) at `at`, as it shows before; `rest` is what is left of this night's in elapsed minutes. */
  | { readonly code: 'clocks-change'; readonly at: number; readonly shift: number; readonly rest: number }
  /**
   * Once the food is out, at `at`, turn a clock that doesn't follow by `turn` minutes: then the next morning is right.
   * If that is missed it is on only at `on` next morning (null: it doesn't rest), `late` minutes after the time it should be; negative: too early.
   */
  | {
      readonly code: 'reset-clock';
      readonly at: number;
      readonly turn: number;
      readonly on: number | null;
      readonly late: number;
    }
  /** A clock that follows turns at a time which the wall shows never, or twice: look whether it did. */
  | { readonly code: 'turning-skipped' | 'turning-twice'; readonly turns: 'off' | 'on'; readonly at: number }
  /** A time of the store's own that the wall shows never, or twice: ask which is meant. */
  | {
      readonly code: 'time-skipped' | 'time-twice';
      readonly what: 'closes' | 'leaves' | 'comes' | 'firstPan' | 'opens';
      readonly at: number;
    }
  /** A time that these papers tell and the wall shows twice: which is meant. */
  | { readonly code: 'first-time-meant' | 'second-time-meant'; readonly what: 'startEmptying' | 'emptyBy'; readonly at: number }
  /** A time of the clock's, or of a hand's on it, that the wall shows twice: which is meant. */
  | {
      readonly code: 'turns-first-time' | 'turns-second-time';
      readonly what: 'off' | 'reset' | 'hold' | 'release';
      readonly at: number;
    }
  /** By hand: hold the rail on from `from`, before the clock turns it off, until the food is out at `until`. */
  | { readonly code: 'hold-on'; readonly from: number; readonly until: number }
  /** By hand: turn the rail on at `at`; back to the clock after `until`. */
  | { readonly code: 'turn-on-early'; readonly at: number; readonly until: number }
  /** By hand: hold the rail on all night, from `from` until after `until`: there is no time to rest. Food may stay. */
  | { readonly code: 'stay-on'; readonly from: number; readonly until: number }
  /** By hand: hold the rail on from `from` until after `until`: the store is open when its clock would stop it. Food may stay. */
  | { readonly code: 'stay-on-today'; readonly from: number; readonly until: number }
  | { readonly code: 'rest-short'; readonly rest: number; readonly least: number }
  /** Since the rest before, longer than may be. */
  | { readonly code: 'run-too-long'; readonly run: number; readonly longest: number }
  /** Errors: no task can help. */
  | { readonly code: 'first-pan-before-closing'; readonly closes: number; readonly firstPan: number }
  | { readonly code: 'empty-after-crew-leaves'; readonly out: number; readonly leaves: number }
  | { readonly code: 'load-before-crew-comes'; readonly coldBy: number; readonly comes: number }
  | { readonly code: 'wiped-too-late'; readonly wiped: number; readonly power: number };

export interface DatedRail {
  readonly rail: string;
  /** Null: it stays on this night, or has no schedule. */
  readonly rest: RestTimes | null;
  readonly coldBy: number;
  readonly notes: readonly DateNote[];
}

export interface DatedNight {
  readonly date: DayNumber;
  /** Empty: the ordinary night of its weekday. */
  readonly special: readonly ('clocks-change' | 'other-hours')[];
  readonly night: Night;
  readonly rails: readonly DatedRail[];
  /** Of the clocks on the wall in it. */
  readonly changes?: readonly Change[];
}
