/**
 * Why a stop is no longer than it is: the nights that forbid the next cell of the grid on some day that shares the pattern; and why there is no schedule.
 */
import type { Arrangement } from './arrangement.js';
import { arrangeByDay } from './arrangement.js';
import { judge, longestRun, restsOf } from './judge.js';
import { gridDown, gridUp, permitted } from './permitted.js';
import { lengthOf, type Night, type Stop } from './problem.js';
import type { Reason } from './outcome.js';
import type { Window, World } from './windows.js';

const mod = (n: number, length: number): number => ((n % length) + length) % length;

/** The calendar days that share the pattern in which a minute lies. */
const sharing = ({ circle, clock }: World, minute: number): readonly number[] => {
  const day = mod(Math.floor(minute / circle.minutesPerDay), circle.days);
  return clock.classes.find((days) => days.includes(day)) ?? [];
};

/**
 * Windows that forbid the cell beside a turning on some day that shares its pattern: for `off` the cell before, for `on` the cell after.
 * A clock with shared programs is bound by the nights of the program instead.
 */
export const binding = (world: World, minute: number, turns: 'off' | 'on'): readonly Window[] => {
  const { circle, clock, windows } = world;
  const length = lengthOf(circle);
  const cell = turns === 'off' ? minute - clock.step : minute;
  const timeOfDay = mod(cell, circle.minutesPerDay);
  const found = sharing(world, cell).flatMap((day) => {
    const start = day * circle.minutesPerDay + timeOfDay;
    return windows.filter((w) => {
      // Distance round the circle from the cell to the edge that cuts it.
      const away = turns === 'off' ? mod(w.from - start, length) : mod(start + clock.step - w.to, length);
      return away > 0 && away <= clock.step;
    });
  });
  return windows.filter((w) => found.includes(w));
};

/** The nights whose program has the same turning. */
export const bindingPrograms = ({ clock, windows }: World, { parts, placed }: Arrangement, part: number, turns: 'off' | 'on'): readonly Window[] => {
  const mine = windows.filter((_, w) => placed[w]?.some((p) => p.part === part));
  const edge = (w: Window): number => (turns === 'off' ? gridUp(w.from, clock.step) : -gridDown(w.to, clock.step)) - (turns === 'off' ? w.base : -w.base);
  const most = Math.max(...mine.map(edge));
  return parts[part] ? mine.filter((w) => edge(w) === most) : [];
};

/** What a pattern could give a night at most, and which nights cut it down; by the business days that share the night's evening and its morning. */
const tooShort = (world: World, nights: readonly Night[], window: Window, offered: Stop | undefined): Reason => {
  const { circle, need, windows } = world;
  const day = (minute: number): number => Math.floor(minute / circle.minutesPerDay);
  const night = (w: Window): Night => nights[w.night] as Night;
  const evening = (w: Window): number => w.from - w.base;
  const morning = (w: Window): number => w.to - day(w.to) * circle.minutesPerDay;
  const shares = (a: number, b: number): boolean => sharing(world, a).includes(mod(day(b), circle.days));
  const evenings = offered ? binding(world, offered.from, 'off') : windows.filter((w) => shares(window.from, w.from));
  const mornings = offered ? binding(world, offered.to, 'on') : windows.filter((w) => shares(window.to, w.to));
  const latest = [window, ...evenings].reduce((a, b) => (evening(b) > evening(a) ? b : a));
  const earliest = [window, ...mornings].reduce((a, b) => (morning(b) < morning(a) ? b : a));
  const fromTo = gridDown(window.to - morning(window) + morning(earliest), world.clock.step) - gridUp(window.base + evening(latest), world.clock.step);
  return {
    code: 'rest-too-short',
    day: night(window).day,
    offered: Math.max(0, offered ? offered.to - offered.from : fromTo),
    least: need.leastRest,
    offDay: night(latest).day,
    off: latest.from - latest.base,
    onDay: night(earliest).day,
    on: earliest.to - earliest.base,
  };
};

const unique = (reasons: readonly Reason[]): readonly Reason[] => {
  const seen = new Set<string>();
  return reasons.filter((reason) => {
    const key = reason.code === 'rest-too-short' ? JSON.stringify({ ...reason, day: 0 }) : JSON.stringify(reason);
    return !seen.has(key) && seen.add(key);
  });
};

/** Why no arrangement keeps the rules: told on the largest off-set, which fails too. */
export const whyNot = (world: World, nights: readonly Night[]): readonly Reason[] => {
  const { circle, clock, need, windows } = world;
  const largest = judge(world, arrangeByDay(world, clock.classes.flatMap((_, c) => permitted(world, c))));
  const rested = (w: number): boolean => {
    const last = largest.stops[w]?.at(-1);
    const window = windows[w] as Window;
    return (largest.useful[w] as number) > 0 && last !== undefined && last.from <= window.offBy && last.to >= window.offUntil;
  };
  const short = (w: number): Reason => tooShort(world, nights, windows[w] as Window, largest.stops[w]?.at(-1));
  if (windows.length === 0) return [];
  if (!windows.some((_, w) => rested(w))) return unique(windows.map((_, w) => short(w)));
  const run = longestRun(world, restsOf(world, largest.stops.map((row, w) => (rested(w) ? row : []))));
  if (!run || run.run <= need.longestRun) return [{ code: 'too-few-settings', has: clock.programs ?? clock.stretches }];
  const length = lengthOf(circle);
  const between = windows.flatMap((window, w) => (!rested(w) && mod(window.from - run.after.to, length) < run.run ? [short(w)] : []));
  if (between.length > 0) return unique(between);
  const dayOf = (stop: Stop): number => {
    const window = windows.find((w) => mod(stop.from - w.from, length) < w.to - w.from) as Window;
    return (nights[window.night] as Night).day;
  };
  return [{ code: 'rests-too-far-apart', day: dayOf(run.after), until: dayOf(run.before), run: run.run, longest: need.longestRun }];
};
