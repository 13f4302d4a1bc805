/**
 * The clock as it was found: whether it may stay as it is, and how much a new setting changes it.
 */
import { arrangeByDay, type Arrangement, type Part } from './arrangement.js';
import { judge } from './judge.js';
import { permitted } from './permitted.js';
import type { Circle, Pattern, Stop } from './problem.js';
import type { World } from './windows.js';

/** A stretch past midnight is two parts of the day. */
const split = (pattern: Pattern, of: number, minutesPerDay: number): readonly Part[] =>
  pattern.stretches.flatMap(({ off, on }) =>
    off < on ? [{ of, from: off, to: on }] : [{ of, from: off, to: minutesPerDay }, ...(on > 0 ? [{ of, from: 0, to: on }] : [])],
  );

const classOf = (world: World, pattern: Pattern): number =>
  world.clock.classes.findIndex((days) => days.length === pattern.days.length && days.every((day) => pattern.days.includes(day)));

/** @returns the found setting as an arrangement if it keeps every rule, else undefined. @throws when a pattern is for days that are no class of the clock */
export const keptAsFound = (world: World, found: readonly Pattern[]): Arrangement | undefined => {
  const parts = found.flatMap((pattern) => {
    const of = classOf(world, pattern);
    if (of < 0) throw new Error('timetable: a found pattern is for days that share none');
    return split(pattern, of, world.circle.minutesPerDay);
  });
  const { step } = world.clock;
  const allowed = world.clock.classes.map((_, c) => permitted(world, c));
  const inside = parts.every(
    (part) =>
      part.from % step === 0 &&
      part.to % step === 0 &&
      allowed[part.of]?.some((span) => span.from <= part.from && part.to <= span.to),
  );
  if (!inside) return undefined;
  const arrangement = arrangeByDay(world, parts);
  return judge(world, arrangement).sound ? arrangement : undefined;
};

/** The found setting laid on the week, in absolute minutes of 0 .. circle. */
export const foundStops = ({ minutesPerDay }: Circle, found: readonly Pattern[]): readonly Stop[] =>
  found.flatMap((pattern) =>
    split(pattern, 0, minutesPerDay).flatMap(({ from, to }) =>
      pattern.days.map((day) => ({ from: day * minutesPerDay + from, to: day * minutesPerDay + to })),
    ),
  );

export const minutesOf = (stops: readonly Stop[]): number => stops.reduce((sum, s) => sum + s.to - s.from, 0);

/** Minutes of the week in which two settings differ; both cut at the end of the circle. */
export const change = (found: readonly Stop[], stops: readonly Stop[]): number => {
  let both = 0;
  for (const a of found) for (const b of stops) both += Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from));
  return minutesOf(found) + minutesOf(stops) - 2 * both;
};
