/**
 * Judges an arrangement by the objective, in its order: rests near enough to each other (or no schedule), the most useful rest, the fewest settings,
 * slack to the morning, slack to the evening, least on while closed, least change, most off, earliest.
 */
import { stopsIn, type Arrangement } from './arrangement.js';
import { lengthOf, type Stop } from './problem.js';
import type { World } from './windows.js';

export interface Verdict {
  /** Every hard rule is kept, and some night has a rest. */
  readonly sound: boolean;
  /** By window. The last is the night's rest: it is what the morning finds. */
  readonly stops: readonly (readonly Stop[])[];
  /** By window: minutes of rest that count, 0 under the least, no more than enough. */
  readonly useful: readonly number[];
  readonly total: number;
  /** Turnings that must be set: distinct times off and on in each class; with shared programs, distinct programs. */
  readonly settings: number;
  /** Minutes of slack, over the nights that rest. */
  readonly morning: number;
  readonly evening: number;
  /** Minutes on in nights that rest and last over closed days, of a clock that could stop the empty rail all the while. */
  readonly idle: number;
}

const restOf = (stops: readonly Stop[]): number => {
  const last = stops.at(-1);
  return last ? last.to - last.from : 0;
};

/** Start and end of each rest of at least R, in order round the circle. */
export const restsOf = ({ need }: World, stops: readonly (readonly Stop[])[]): readonly Stop[] =>
  stops.flatMap((row) => row.filter((stop) => stop.to - stop.from >= need.leastRest));

/** The longest stretch between rests with the rests at its ends; undefined when there is no rest. */
export const longestRun = (
  world: World,
  rests: readonly Stop[],
): { readonly run: number; readonly after: Stop; readonly before: Stop } | undefined => {
  const length = lengthOf(world.circle);
  let found: { run: number; after: Stop; before: Stop } | undefined;
  rests.forEach((after, i) => {
    const before = rests[(i + 1) % rests.length] as Stop;
    const run = before.from + (i + 1 === rests.length ? length : 0) - after.to;
    if (!found || run > found.run) found = { run, after, before };
  });
  return found;
};

/** Distinct turnings by class, and the most that one class has of either kind. */
const turnings = ({ circle, clock, classOf }: World, stops: readonly (readonly Stop[])[]): { all: number; most: number } => {
  const sets = clock.classes.map(() => ({ off: new Set<number>(), on: new Set<number>() }));
  const note = (at: number, way: 'off' | 'on'): void => {
    const day = Math.floor(at / circle.minutesPerDay) % circle.days;
    sets[classOf[day] as number]?.[way].add(at % circle.minutesPerDay);
  };
  for (const row of stops) {
    for (const stop of row) {
      note(stop.from, 'off');
      note(stop.to, 'on');
    }
  }
  return {
    all: sets.reduce((sum, { off, on }) => sum + off.size + on.size, 0),
    most: Math.max(...sets.map(({ off, on }) => Math.max(off.size, on.size))),
  };
};

/** Distinct programs, each an off time and an on time in minutes of the business day. */
const programs = ({ windows }: World, stops: readonly (readonly Stop[])[]): number =>
  new Set(
    stops.flatMap((row, w) => row.map((stop) => `${stop.from - (windows[w]?.base ?? 0)} ${stop.to - (windows[w]?.base ?? 0)}`)),
  ).size;

const settingsOf = (world: World, stops: readonly (readonly Stop[])[]): { settings: number; fits: boolean } => {
  const { programs: most, stretches } = world.clock;
  const turned = turnings(world, stops);
  if (most === undefined) return { settings: turned.all, fits: turned.most <= stretches };
  const settings = programs(world, stops);
  return { settings, fits: settings <= most && turned.most <= stretches };
};

/** The hard rules that a set of stops can still break once it lies inside the windows. */
const rulesKept = (world: World, stops: readonly (readonly Stop[])[]): boolean => {
  const { longest } = world.clock;
  return stops.every((row, w) => {
    const last = row.at(-1);
    const window = world.windows[w];
    if (!last || !window) return true;
    return (
      last.from <= window.offBy &&
      last.to >= window.offUntil &&
      (longest === undefined || row.every((s) => s.to - s.from <= longest))
    );
  });
};

export const judge = (world: World, arrangement: Arrangement): Verdict =>
  judgeStops(
    world,
    world.windows.map((_, w) => stopsIn(arrangement, w)),
  );

export const judgeStops = (world: World, stops: readonly (readonly Stop[])[]): Verdict => {
  const { need, windows } = world;
  const useful = stops.map((row) => (restOf(row) >= need.leastRest ? Math.min(restOf(row), need.enoughRest) : 0));
  const longest = longestRun(world, restsOf(world, stops));
  const { settings, fits } = settingsOf(world, stops);
  const eachDay = world.clock.classes.every((days) => days.length === 1);
  let [morning, evening, idle, total] = [0, 0, 0, 0];
  windows.forEach((window, w) => {
    const row = stops[w] as readonly Stop[];
    const [first, last] = [row[0], row.at(-1)];
    total += useful[w] as number;
    if (!first || !last || useful[w] === 0) return;
    morning += Math.min(window.to - last.to, need.pullDownBand);
    evening += Math.min(first.from, window.lateEnough) - window.from;
    const long = window.to - window.from;
    if (eachDay && long > world.circle.minutesPerDay) idle += row.reduce((on, stop) => on - (stop.to - stop.from), long);
  });
  return {
    sound: total > 0 && longest !== undefined && longest.run <= need.longestRun && fits && rulesKept(world, stops),
    stops,
    useful,
    total,
    settings,
    morning,
    evening,
    idle,
  };
};
