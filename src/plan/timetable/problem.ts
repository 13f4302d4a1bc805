/**
 * What the solver is given: nights, rails with what each needs, and clocks as capabilities. Whole minutes everywhere.
 * The week is a circle of `days` times `minutesPerDay`, so that small worlds can be searched from end to end.
 */

export interface Circle {
  /** 7 in the world. */
  readonly days: number;
  /** 1440 in the world. */
  readonly minutesPerDay: number;
}

export const WEEK_CIRCLE: Circle = { days: 7, minutesPerDay: 1440 };

/** One business day, in minutes from its own 00:00; closing and leaving may lie past midnight. */
export interface Shift {
  /** 0 (Monday) to days - 1. */
  readonly day: number;
  readonly opens: number;
  readonly closes: number;
  /** First person in, last person out. */
  readonly comes: number;
  readonly leaves: number;
  /** When the pans must be in: loading ends then. */
  readonly firstPan: number;
  /** People who share the work at closing and at opening, 1 or more. */
  readonly closers: number;
  readonly openers: number;
  /** Somebody is there through the night that follows: a quiet window of a store that never closes. */
  readonly attended?: true;
}

/**
 * The gap between a closing and the next opening; all in minutes from 00:00 of business day `day`, so that "before" is `<`.
 * An afternoon closing is such a gap too; it opens again on its own day.
 */
export interface Night {
  readonly day: number;
  readonly closes: number;
  readonly leaves: number;
  readonly comes: number;
  readonly firstPan: number;
  readonly opens: number;
  readonly closers: number;
  readonly openers: number;
  readonly attended?: true;
}

/** What a rail that is emptied at night needs. */
export interface Need {
  /** Minutes that one person takes to empty and to load it. */
  readonly empty: number;
  readonly load: number;
  /** From switching on to ready for food: the safe (long) edge of its band. */
  readonly pullDown: number;
  /** How much more it may take: slack in the morning is worth having up to this. */
  readonly pullDownBand: number;
  /** A rest of less is none; more than enough brings nothing. */
  readonly leastRest: number;
  readonly enoughRest: number;
  /** How long before closing emptying may begin. */
  readonly startBeforeClose: number;
  /** Null: melt water drains by itself. Else minutes of wiping after the crew has come, while the rail is still off. */
  readonly wipe: number | null;
  /** Longest stretch between one rest's end and the next one's start. */
  readonly longestRun: number;
}

/** What a clock can do; the solver reads nothing else of it. */
export interface Clock {
  readonly by: 'clock' | 'hand';
  /** Calendar days that share one pattern: a partition of 0 .. days - 1. */
  readonly classes: readonly (readonly number[])[];
  /** Settings lie on multiples of it; divides the day. */
  readonly step: number;
  /** Times that one pattern can turn off, and on; 2 or more where every day has its own, since two nights can begin on one calendar day. */
  readonly stretches: number;
  /** Where programs (an off time, an on time and the nights they are for) are shared by days: how many there are. Then every class is one day. */
  readonly programs?: number;
  /** Longest single stop, where the clock ends each by itself; such a clock has one pattern for all days, and is given one stop in it. */
  readonly longest?: number;
  /** Minutes by which a stop and a start may come early or late: drift between two visits and reading the dial. */
  readonly allowance: number;
  /** Read where the timetable meets dates, not by the solver: whether it moves with the clocks on the wall, and runs on through a power cut. */
  readonly followsDst: boolean;
  readonly survivesPowerCut: boolean;
}

/** An off-stretch of a day's pattern, in minutes of the dial; `on` at or before `off` is past midnight. */
export interface Stretch {
  /** 0 to minutesPerDay - 1. */
  readonly off: number;
  /** 1 to minutesPerDay. */
  readonly on: number;
}

/** What a clock is set to: per class of its days, its off-stretches. A day that is off from end to end is 0 to minutesPerDay. */
export interface Pattern {
  readonly days: readonly number[];
  readonly stretches: readonly Stretch[];
}

export interface Rail {
  readonly id: string;
  readonly need: Need;
  /** Null: none, and nobody switches it. */
  readonly clock: Clock | null;
  /** The clock as it was found, by its classes. */
  readonly found?: readonly Pattern[];
}

/** Rails that one crew empties and loads, earliest due first. */
export interface Problem {
  readonly circle: Circle;
  /** In order of the week: by business day and, where one has several, by closing. */
  readonly nights: readonly Night[];
  readonly rails: readonly Rail[];
}

/** A span of absolute minutes on the unrolled circle: `from` in 0 .. circle, `to` beyond it where it runs over the end. */
export interface Stop {
  readonly from: number;
  readonly to: number;
}

/** Days from the business day of the gap before to that of gap `i`, round the circle. */
export const daysSinceLast = ({ circle, nights }: Pick<Problem, 'circle' | 'nights'>, i: number): number => {
  const [night, last] = [nights[i] as Night, nights.at(i - 1) as Night];
  return night.day - last.day + (i === 0 ? circle.days : 0);
};

export const lengthOf = ({ days, minutesPerDay }: Circle): number => days * minutesPerDay;

/** @throws when the nights, the step or the classes are not as stated above: a programmer's mistake */
export const checkProblem = ({ circle, nights, rails }: Problem): void => {
  const wrong = (what: string): never => {
    throw new Error(`timetable: ${what}`);
  };
  nights.forEach((night, i) => {
    const before = nights[i - 1];
    const late = before && (before.day > night.day || (before.day === night.day && before.closes >= night.closes));
    if (night.day < 0 || night.day >= circle.days || late) wrong(`night ${i} is out of order`);
    if (night.closers < 1 || night.openers < 1) wrong(`night ${i} has nobody`);
  });
  for (const { id, clock, need } of rails) {
    if (need.enoughRest < need.leastRest || need.leastRest < 1) wrong(`${id}: enough rest is under the least`);
    if (!clock) continue;
    const days = clock.classes.flat().sort((a, b) => a - b);
    if (days.length !== circle.days || days.some((day, i) => day !== i)) wrong(`${id}: the classes are no partition of the days`);
    if (clock.step < 1 || circle.minutesPerDay % clock.step !== 0) wrong(`${id}: the step does not divide the day`);
    if (clock.stretches < (clock.classes.every((c) => c.length === 1) ? 2 : 1)) wrong(`${id}: too few stretches`);
    if (clock.longest !== undefined && clock.classes.length > 1) wrong(`${id}: a clock that ends its stops has one pattern`);
    if (clock.programs !== undefined && clock.classes.some((c) => c.length > 1)) wrong(`${id}: programs need classes of one day`);
  }
};
