/**
 * One rail's week as windows: in each night, from when it may be off and until when, and what else its stop must respect.
 * Off is allowed inside the windows and nowhere else; they widen by the clock's allowance before the grid is laid on them.
 */
import type { Demand } from './crew.js';
import { lengthOf, type Circle, type Clock, type Need, type Night, type Stop } from './problem.js';

/** Absolute minutes on the unrolled circle, starting at `from` in 0 .. circle. */
export interface Window extends Stop {
  /** Index of the night. */
  readonly night: number;
  /** Absolute minute of 00:00 of the business day, so that a window's minutes less this are minutes of the business day. */
  readonly base: number;
  /** Turning off later than this gives nobody more time: the crew is gone. */
  readonly lateEnough: number;
  /** If the rail is off at all this night, then its last stop begins by `offBy` (a hand must be there) ... */
  readonly offBy: number;
  /** ... and lasts until `offUntil` (wiped up, or a hand is there). */
  readonly offUntil: number;
}

/** All that choosing a rail's pattern depends on. */
export interface World {
  readonly circle: Circle;
  readonly clock: Clock;
  readonly need: Need;
  /** By calendar day: index of the class whose pattern it has. */
  readonly classOf: readonly number[];
  /** In order of `from`; a night too short for any stop has none. */
  readonly windows: readonly Window[];
}

const windowOf = (circle: Circle, clock: Clock, night: Night, i: number, demand: Demand): Window => {
  const { allowance } = clock;
  const from = demand.out + allowance;
  const length = lengthOf(circle);
  const midnight = night.day * circle.minutesPerDay;
  const base = midnight - Math.floor((midnight + from) / length) * length;
  const absolute = (minutes: number): number => base + minutes;
  const byHand = clock.by === 'hand' && !night.attended;
  const until = [...(demand.wiped === null ? [] : [demand.wiped + allowance]), ...(byHand ? [night.comes] : [])];
  return {
    night: i,
    base,
    from: absolute(from),
    to: absolute(demand.power - allowance),
    lateEnough: night.attended ? Infinity : absolute(Math.max(from, night.leaves + allowance)),
    offBy: byHand ? absolute(night.leaves) : Infinity,
    offUntil: until.length > 0 ? absolute(Math.max(...until)) : -Infinity,
  };
};

export const worldOf = (
  circle: Circle,
  clock: Clock,
  need: Need,
  nights: readonly Night[],
  demands: readonly Demand[],
): World => ({
  circle,
  clock,
  // A clock that ends each stop by itself gives no more than that.
  need: clock.longest === undefined ? need : { ...need, enoughRest: Math.min(need.enoughRest, clock.longest) },
  classOf: Array.from({ length: circle.days }, (_, day) => clock.classes.findIndex((days) => days.includes(day))),
  windows: nights
    .map((night, i) => windowOf(circle, clock, night, i, demands[i] as Demand))
    .filter((w) => w.to > w.from)
    .sort((a, b) => a.from - b.from),
});
