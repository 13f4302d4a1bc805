/**
 * Why a stop is no longer than it is: the nights that forbid the next cell of the grid on some day that shares the pattern; and why there is no schedule.
 */
import type { Arrangement } from './arrangement.js';
import { arrangeByDay } from './arrangement.js';
import { offOnGrid, onOnGrid } from './grid.js';
import { judge, longestRun, restsOf } from './judge.js';
import { permitted } from './permitted.js';
import { lengthOf, type Night, type Stop } from './problem.js';
import type { Reason } from './outcome.js';
import type { Window, World } from './windows.js';

const mod = (n: number, length: number): number => ((n % length) + length) % length;

/** The calendar days that share the pattern in which a minute lies. */
const sharing = ({ circle, clock, classOf }: World, minute: number): readonly number[] =>
  clock.classes[classOf[mod(Math.floor(minute / circle.minutesPerDay), circle.days)] as number] as readonly number[];

/** What binds a turning, and how far from there it was moved to give slack. */
export interface Bound {
  readonly windows: readonly Window[];
  readonly given: number;
}

/** Windows that end before a cell of the grid ends (`on`), or begin after it begins (`off`), on some day that shares its pattern. */
const cutting = (world: World, cell: number, turns: 'off' | 'on'): readonly Window[] => {
  const { circle, clock, windows } = world;
  const length = lengthOf(circle);
  const timeOfDay = mod(cell, circle.minutesPerDay);
  const starts = sharing(world, cell).map((day) => day * circle.minutesPerDay + timeOfDay);
  return windows.filter((w) =>
    starts.some((start) => {
      const away = mod(turns === 'off' ? w.from - start : start + clock.step - w.to, length);
      return away > 0 && away <= clock.step;
    }),
  );
};

/** The nearest cell beyond a turning that some night forbids: for `off` going back, for `on` going on. */
export const binding = (world: World, minute: number, turns: 'off' | 'on'): Bound => {
  const { step } = world.clock;
  for (let given = 0; ; given += step) {
    const windows = cutting(world, turns === 'off' ? minute - given - step : minute + given, turns);
    if (windows.length > 0) return { windows, given };
  }
};

/** The nights that bind the program which a part is. */
export const bindingInProgram = (
  { clock, windows }: World,
  { parts, placed }: Arrangement,
  part: number,
  turns: 'off' | 'on',
): Bound => {
  const mine = windows.filter((_, w) => placed[w]?.some((p) => p.part === part));
  const edge = (w: Window): number =>
    turns === 'off' ? offOnGrid(w.from, clock.step) - w.base : w.base - onOnGrid(w.to, clock.step);
  const most = Math.max(...mine.map(edge));
  const { from, to } = parts[part] as Stop;
  return { windows: mine.filter((w) => edge(w) === most), given: turns === 'off' ? from - most : -most - to };
};

/** What a pattern could give a night at most, and which nights cut it down; by the business days that share the night's evening and its morning. */
const tooShort = (world: World, nights: readonly Night[], window: Window, offered: Stop | undefined): Reason => {
  const { circle, need, windows } = world;
  const day = (minute: number): number => Math.floor(minute / circle.minutesPerDay);
  const night = (w: Window): Night => nights[w.night] as Night;
  const evening = (w: Window): number => w.from - w.base;
  const morning = (w: Window): number => w.to - day(w.to) * circle.minutesPerDay;
  const shares = (a: number, b: number): boolean => sharing(world, a).includes(mod(day(b), circle.days));
  const evenings = offered ? binding(world, offered.from, 'off').windows : windows.filter((w) => shares(window.from, w.from));
  const mornings = offered ? binding(world, offered.to, 'on').windows : windows.filter((w) => shares(window.to, w.to));
  const latest = [window, ...evenings].reduce((a, b) => (evening(b) > evening(a) ? b : a));
  const earliest = [window, ...mornings].reduce((a, b) => (morning(b) < morning(a) ? b : a));
  const fromTo =
    onOnGrid(window.to - morning(window) + morning(earliest), world.clock.step) -
    offOnGrid(window.base + evening(latest), world.clock.step);
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

/** No minute is left between the food's coming out and the next need of power. */
const noRoom = ({ day, closes, firstPan }: Night, least: number): Reason => ({
  code: 'rest-too-short',
  day,
  offered: 0,
  least,
  offDay: day,
  off: closes,
  onDay: day,
  on: firstPan,
});

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
  const largest = judge(
    world,
    arrangeByDay(
      world,
      clock.classes.flatMap((_, c) => permitted(world, c)),
    ),
  );
  const rested = (w: number): boolean => {
    const last = largest.stops[w]?.at(-1);
    const window = windows[w] as Window;
    return (largest.useful[w] as number) > 0 && last !== undefined && last.from <= window.offBy && last.to >= window.offUntil;
  };
  const short = (w: number): Reason => tooShort(world, nights, windows[w] as Window, largest.stops[w]?.at(-1));
  if (windows.length === 0) return unique(nights.map((night) => noRoom(night, need.leastRest)));
  if (!windows.some((_, w) => rested(w))) return unique(windows.map((_, w) => short(w)));
  const run = longestRun(
    world,
    restsOf(
      world,
      largest.stops.map((row, w) => (rested(w) ? row : [])),
    ),
  );
  if (!run || run.run <= need.longestRun) return [{ code: 'too-few-settings', has: clock.programs ?? clock.stretches }];
  const length = lengthOf(circle);
  const between = windows.flatMap((window, w) =>
    !rested(w) && mod(window.from - run.after.to, length) < run.run ? [short(w)] : [],
  );
  if (between.length > 0) return unique(between);
  const dayOf = (stop: Stop): number => {
    const window = windows.find((w) => mod(stop.from - w.from, length) < w.to - w.from) as Window;
    return (nights[window.night] as Night).day;
  };
  return [
    { code: 'rests-too-far-apart', day: dayOf(run.after), until: dayOf(run.before), run: run.run, longest: need.longestRun },
  ];
};
