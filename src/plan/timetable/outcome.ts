/**
 * What the solver answers: a timetable that says of every night what happens when and why, or the reasons why there is none.
 * Days are business days (0 Monday); times are minutes from 00:00 of the business day they stand with.
 */
import type { Pattern, Stop } from './problem.js';

/** Why a turning is where it is: the nights that allow it no earlier (off) or no later (on). */
export interface Binding {
  /** `food-out`: food is out no earlier there; `power`: power is needed there. */
  readonly code: 'food-out' | 'power';
  /** Business days of the nights that bind. */
  readonly days: readonly number[];
  /** Minutes by which the turning was moved away from there, as slack. */
  readonly given: number;
}

export interface NightPlan {
  readonly day: number;
  /** Every stop of the night, in order; over closed days a dial makes several. */
  readonly stops: readonly Stop[];
  /** Null: the rail stays on this night, and food may stay where it is. */
  readonly rest: NightRest | null;
  readonly coldBy: number;
  readonly firstPan: number;
}

/** One night's times. */
export interface RestTimes {
  /** The latest that emptying may begin, so that all rails of the crew are empty by their times. */
  readonly startEmptying: number;
  /** The earlier of off less the clock's allowance, and the crew's leaving. */
  readonly emptyBy: number;
  readonly off: number;
  readonly on: number;
  /** Minutes off, of the stop that the morning finds; elapsed only where no change of the clock falls into the night. */
  readonly minutes: number;
  /** The crew wipes from its coming; by here it must be done. Null where the rail drains by itself, or somebody is there all night. */
  readonly wiped: number | null;
}

export interface NightRest extends RestTimes {
  /** False: under the least rest. A dial that days share may stop a rail too briefly on some night; its food must come out all the same. */
  readonly counts: boolean;
  /** How much later than the earliest possible the food may be out, and how much earlier than needed the power is on: beyond the clock's allowance. */
  readonly slack: { readonly evening: number; readonly morning: number };
  readonly why: { readonly off: Binding; readonly on: Binding };
}

export interface Turning {
  /** Calendar day, 0 Monday. */
  readonly day: number;
  /** Minutes from its 00:00. */
  readonly at: number;
  readonly turns: 'off' | 'on';
}

/** A program shared by nights; times in minutes of the business day. */
export interface Program {
  readonly nights: readonly number[];
  readonly off: number;
  readonly on: number;
}

export type Reason =
  | { readonly code: 'never-closes' }
  | { readonly code: 'no-clock' }
  /** The clock ends each stop before the rail has rested. */
  | { readonly code: 'clock-ends-rest'; readonly longest: number; readonly least: number }
  | { readonly code: 'empty-after-crew-leaves'; readonly day: number; readonly out: number; readonly leaves: number }
  | { readonly code: 'load-before-crew-comes'; readonly day: number; readonly coldBy: number; readonly comes: number }
  /** Melt water is wiped up later than `power`, the last minute at which a clock that is out as it may be has the rail on in time. */
  | { readonly code: 'wiped-too-late'; readonly day: number; readonly wiped: number; readonly power: number }
  /** Nobody is there to turn the rail on by hand when it needs power. */
  | { readonly code: 'hand-comes-late'; readonly day: number; readonly comes: number; readonly power: number }
  /** The next first pan goes in before the store has closed. */
  | { readonly code: 'first-pan-before-closing'; readonly day: number; readonly closes: number; readonly firstPan: number }
  /** The day is so short that food would be out before it is in. */
  | { readonly code: 'emptied-before-loaded'; readonly day: number }
  /** Off from `off` of the night of `offDay` to `on` of the night of `onDay` is all that the clock's shared days leave. */
  | {
      readonly code: 'rest-too-short';
      readonly day: number;
      readonly offered: number;
      readonly least: number;
      readonly offDay: number;
      readonly off: number;
      readonly onDay: number;
      readonly on: number;
    }
  /** From the end of the rest of night `day` to the start of the next one, that of night `until`. */
  | {
      readonly code: 'rests-too-far-apart';
      readonly day: number;
      readonly until: number;
      readonly run: number;
      readonly longest: number;
    }
  /** Each night could rest, but the clock can't hold so many settings. */
  | { readonly code: 'too-few-settings'; readonly has: number };

export type Outcome =
  | {
      readonly ok: true;
      readonly rail: string;
      /** The clock is right as it was found: leave it. */
      readonly kept: boolean;
      readonly nights: readonly NightPlan[];
      /** Per class of the clock. */
      readonly patterns: readonly Pattern[];
      /** Everything the clock does in a week, in order. */
      readonly turnings: readonly Turning[];
      /** For a clock with shared programs. */
      readonly programs?: readonly Program[];
      /** The shortest rest of the nights whose rest counts. */
      readonly shortestRest: number;
    }
  | { readonly ok: false; readonly rail: string; readonly reasons: readonly Reason[] };

/** Every gap rests: nobody would know of one that doesn't that its food may stay. */
export const isWhole = (outcome: Outcome | undefined): outcome is Outcome & { readonly ok: true } =>
  outcome?.ok === true && outcome.nights.every((n) => n.rest !== null);

export type Timetable = readonly Outcome[];
