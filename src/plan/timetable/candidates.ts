/**
 * The arrangements worth judging: whole maximal stretches, all of them or fewer. A clock whose days share patterns chooses stretches of the dial;
 * a clock with a pattern for each day chooses nights; one with a few programs chooses how the nights share them.
 */
import { arrangeByDay, arrangeByNight, type Arrangement, type Part } from './arrangement.js';
import { offOnGrid, onOnGrid } from './grid.js';
import { judge, type Verdict } from './judge.js';
import { permitted } from './permitted.js';
import type { World } from './windows.js';

export interface Candidate {
  readonly arrangement: Arrangement;
  readonly verdict: Verdict;
}

const judged = (world: World, arrangement: Arrangement): Candidate => ({ arrangement, verdict: judge(world, arrangement) });

/** More useful rest, then fewer settings; positive when `a` is better. */
const compare = (a: Verdict, b: Verdict): number => a.total - b.total || b.settings - a.settings;

const best = (candidates: Iterable<Candidate>): readonly Candidate[] => {
  let found: Candidate[] = [];
  for (const candidate of candidates) {
    if (!candidate.verdict.sound) continue;
    const better = found[0] ? compare(candidate.verdict, found[0].verdict) : 1;
    if (better > 0) found = [candidate];
    else if (better === 0) found.push(candidate);
  }
  return found;
};

const subsets = function* <T>(items: readonly T[]): Generator<readonly T[]> {
  for (let mask = 2 ** items.length - 1; mask > 0; mask--) yield items.filter((_, i) => Math.floor(mask / 2 ** i) % 2 === 1);
};

/** A world without the nights whose last stop would break a rule of its own (not wiped, no hand there): the rail stays on in those. */
const withoutBrokenNights = (world: World): World => {
  const all = arrangeByDay(
    world,
    world.clock.classes.flatMap((_, c) => permitted(world, c)),
  );
  const { stops } = judge(world, all);
  const kept = world.windows.filter((window, w) => {
    const last = stops[w]?.at(-1);
    return !last || (last.from <= window.offBy && last.to >= window.offUntil);
  });
  return kept.length === world.windows.length ? world : withoutBrokenNights({ ...world, windows: kept });
};

/** The stretches of one dial joined at midnight; `to` may lie beyond the day. */
const roundTheDial = (parts: readonly Part[], day: number): readonly Part[] => {
  const [first, last] = [parts[0], parts.at(-1)];
  if (!first || !last || first === last || first.from !== 0 || last.to !== day) return parts;
  return [...parts.slice(1, -1), { of: 0, from: last.from, to: day + first.to }];
};

/** A clock that ends each stop by itself gets one stop: every one that is not too long. */
const shortStops = function* ({ circle, clock }: World, parts: readonly Part[]): Generator<readonly Part[]> {
  const day = circle.minutesPerDay;
  for (const span of roundTheDial(parts, day)) {
    for (let from = span.from; from < span.to; from += clock.step) {
      for (let to = from + clock.step; to <= Math.min(span.to, from + (clock.longest ?? 0)); to += clock.step) {
        if (from >= day) yield [{ of: 0, from: from - day, to: to - day }];
        else if (to <= day) yield [{ of: 0, from, to }];
        else
          yield [
            { of: 0, from: 0, to: to - day },
            { of: 0, from, to: day },
          ];
      }
    }
  }
};

/** A part with its ends at midnight drawn in by one step, alone or both: where classes meet, that can save a turning. */
const drawnIn = ({ circle, clock }: World, part: Part): readonly Part[] => {
  const froms = part.from === 0 ? [0, clock.step] : [part.from];
  const tos = part.to === circle.minutesPerDay ? [part.to, part.to - clock.step] : [part.to];
  return froms.flatMap((from) => tos.flatMap((to) => (from < to ? [{ ...part, from, to }] : [])));
};

/** Every choice of one variant of each part, or none of it; never the empty one. */
const choices = function* (parts: readonly (readonly Part[])[], chosen: readonly Part[] = []): Generator<readonly Part[]> {
  const [variants, ...rest] = parts;
  if (!variants) {
    if (chosen.length > 0) yield chosen;
    return;
  }
  for (const part of variants) yield* choices(rest, [...chosen, part]);
  yield* choices(rest, chosen);
};

const byDay = (whole: World): { world: World; found: readonly Candidate[] } => {
  const world = withoutBrokenNights(whole);
  const { classes, longest } = world.clock;
  const parts = classes.flatMap((_, c) => permitted(world, c));
  const all = function* (): Generator<Candidate> {
    const every =
      longest !== undefined
        ? shortStops(world, parts)
        : choices(parts.map((part) => (classes.length === 1 ? [part] : drawnIn(world, part))));
    for (const chosen of every) yield judged(world, arrangeByDay(world, chosen));
  };
  return { world, found: best(all()) };
};

/** A night's whole stop, in minutes of its business day; undefined where it could not rest or would break a rule of its own. */
const wholeOf = ({ clock, need, windows }: World, w: number): Part | undefined => {
  const window = windows[w];
  if (!window) return undefined;
  const from = offOnGrid(window.from, clock.step);
  const to = onOnGrid(window.to, clock.step);
  return to - from >= need.leastRest && from <= window.offBy && to >= window.offUntil
    ? { of: 0, from: from - window.base, to: to - window.base }
    : undefined;
};

const byNight = (world: World): readonly Candidate[] => {
  const restable = world.windows.flatMap((_, w) => {
    const part = wholeOf(world, w);
    return part ? [{ part, w }] : [];
  });
  const arrange = (chosen: typeof restable): Candidate =>
    judged(
      world,
      arrangeByNight(
        world,
        chosen.map((c) => c.part),
        chosen.map((c) => [c.w]),
      ),
    );
  const all = arrange(restable);
  if (all.verdict.sound) return [all];
  const fewer = function* (): Generator<Candidate> {
    for (const chosen of subsets(restable)) yield arrange([...chosen]);
  };
  return best(fewer());
};

interface Program {
  readonly part: Part;
  readonly nights: readonly number[];
}

/**
 * Every way to give nights to at most so many programs, or to none, that may still be as good as the best one so far.
 * @param all whether every night must have one
 * @param promising whether so much useful rest with so many programs is worth going on for
 */
const sharings = function* (
  world: World,
  all: boolean,
  w: number,
  programs: readonly Program[],
  promising: (useful: number, programs: number) => boolean,
): Generator<readonly Program[]> {
  const { need, clock, windows } = world;
  const worth = (part: Part): number => Math.min(part.to - part.from, need.enoughRest);
  const given = programs.reduce((sum, { part, nights }) => sum + worth(part) * nights.length, 0);
  const wholes = windows.map((_, i) => wholeOf(world, i));
  const hoped = wholes.slice(w).reduce((sum, whole) => sum + (whole ? worth(whole) : 0), 0);
  if (!promising(given + hoped, programs.length)) return;
  if (w === windows.length) {
    yield programs;
    return;
  }
  const whole = wholes[w];
  if (whole) {
    for (const [i, { part, nights }] of programs.entries()) {
      const common = { of: 0, from: Math.max(part.from, whole.from), to: Math.min(part.to, whole.to) };
      if (common.to - common.from < need.leastRest) continue;
      yield* sharings(world, all, w + 1, programs.with(i, { part: common, nights: [...nights, w] }), promising);
    }
    if (programs.length < (clock.programs ?? 0))
      yield* sharings(world, all, w + 1, [...programs, { part: whole, nights: [w] }], promising);
  }
  if (!all) yield* sharings(world, all, w + 1, programs, promising);
};

const sharedBest = (world: World, all: boolean): readonly Candidate[] => {
  let found: readonly Candidate[] = [];
  const promising = (useful: number, programs: number): boolean => {
    const best = found[0]?.verdict;
    return !best || useful > best.total || (useful === best.total && programs <= best.settings);
  };
  for (const programs of sharings(world, all, 0, [], promising)) {
    if (programs.length === 0) continue;
    found = best([
      ...found,
      judged(
        world,
        arrangeByNight(
          world,
          programs.map((p) => p.part),
          programs.map((p) => p.nights),
        ),
      ),
    ]);
  }
  return found;
};

/** A night without rest has no papers, however long the others rest: where all can, all do. */
const byProgram = (world: World): readonly Candidate[] => {
  const all = sharedBest(world, true);
  return all.length > 0 ? all : sharedBest(world, false);
};

/** @returns all that tie for the most useful rest with the fewest settings, and the world they lie in; none where nothing is sound */
export const bestWhole = (world: World): { readonly world: World; readonly found: readonly Candidate[] } => {
  const { classes, programs } = world.clock;
  if (programs !== undefined) return { world, found: byProgram(world) };
  return classes.every((c) => c.length === 1) ? { world, found: byNight(world) } : byDay(world);
};
