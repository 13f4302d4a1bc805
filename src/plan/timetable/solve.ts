/**
 * The solver: crew -> windows -> choice -> timetable, or the reasons why there is none. A pure function of the problem; the answer is unique.
 */
import { choose, type Choice } from './choose.js';
import { demandsOf, latestStarts, type Demand } from './crew.js';
import type { Binding, NightPlan, Outcome, Program, Reason, Timetable, Turning } from './outcome.js';
import {
  checkProblem,
  daysSinceLast,
  type Night,
  type Pattern,
  type Problem,
  type Rail,
  type Stop,
  type Stretch,
} from './problem.js';
import { binding, bindingInProgram, whyNot } from './why.js';
import { worldOf, type World } from './windows.js';

/** What is wrong before any solving: the crew is not there, or the clock can't do it. */
const reasonsBefore = (problem: Problem, rail: Rail, demands: readonly Demand[]): readonly Reason[] => {
  const { clock, need } = rail;
  if (problem.nights.length === 0) return [{ code: 'never-closes' }];
  if (!clock) return [{ code: 'no-clock' }];
  if (clock.longest !== undefined && clock.longest < need.leastRest) {
    return [{ code: 'clock-ends-rest', longest: clock.longest, least: need.leastRest }];
  }
  return problem.nights.flatMap((night, i): readonly Reason[] => {
    const { out, power, coldBy, wiped } = demands[i] as Demand;
    const { day } = night;
    const last = problem.nights.at(i - 1) as Night;
    const since = daysSinceLast(problem, i);
    if (night.firstPan <= night.closes)
      return [{ code: 'first-pan-before-closing', day, closes: night.closes, firstPan: night.firstPan }];
    return [
      ...(out <= last.firstPan - since * problem.circle.minutesPerDay ? [{ code: 'emptied-before-loaded', day } as const] : []),
      ...(!night.attended && out > night.leaves
        ? [{ code: 'empty-after-crew-leaves', day, out, leaves: night.leaves } as const]
        : []),
      ...(!night.attended && coldBy < night.comes
        ? [{ code: 'load-before-crew-comes', day, coldBy, comes: night.comes } as const]
        : []),
      ...(wiped !== null && wiped + clock.allowance > power - clock.allowance
        ? [{ code: 'wiped-too-late', day, wiped, power: power - 2 * clock.allowance } as const]
        : []),
      ...(clock.by === 'hand' && !night.attended && night.comes > power
        ? [{ code: 'hand-comes-late', day, comes: night.comes, power } as const]
        : []),
    ];
  });
};

/** The stops of each calendar day, cut at midnight. */
const byCalendarDay = ({ circle }: World, stops: readonly Stop[]): readonly (readonly Stretch[])[] => {
  const { days, minutesPerDay } = circle;
  const found: Stretch[][] = Array.from({ length: days }, () => []);
  for (const stop of stops) {
    for (let day = Math.floor(stop.from / minutesPerDay); day * minutesPerDay < stop.to; day++) {
      const start = day * minutesPerDay;
      found[day % days]?.push({ off: Math.max(stop.from - start, 0), on: Math.min(stop.to - start, minutesPerDay) });
    }
  }
  return found.map((row) => row.sort((a, b) => a.off - b.off));
};

/** On a dial that many days share, the stretch up to midnight and the one after it are one. */
const round = (stretches: readonly Stretch[], minutesPerDay: number): readonly Stretch[] => {
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (!first || !last || first === last || first.off !== 0 || last.on !== minutesPerDay) return stretches;
  return [...stretches.slice(1, -1), { off: last.off, on: first.on }];
};

const patternsOf = (world: World, stops: readonly Stop[]): readonly Pattern[] => {
  const days = byCalendarDay(world, stops);
  return world.clock.classes.map((of) => {
    const stretches = days[of[0] as number] ?? [];
    return { days: of, stretches: of.length > 1 ? round(stretches, world.circle.minutesPerDay) : stretches };
  });
};

const turningsOf = ({ circle }: World, stops: readonly Stop[]): readonly Turning[] => {
  const turning = (minute: number, turns: 'off' | 'on'): Turning => ({
    day: Math.floor(minute / circle.minutesPerDay) % circle.days,
    at: minute % circle.minutesPerDay,
    turns,
  });
  return stops.flatMap((s) => [turning(s.from, 'off'), turning(s.to, 'on')]).sort((a, b) => a.day - b.day || a.at - b.at);
};

const programsOf = ({ world, arrangement, verdict }: Choice, nights: readonly Night[]): readonly Program[] =>
  arrangement.parts.map((part, i) => ({
    off: part.from,
    on: part.to,
    nights: world.windows.flatMap((w, n) =>
      verdict.stops[n]?.length && arrangement.placed[n]?.some((p) => p.part === i) ? [(nights[w.night] as Night).day] : [],
    ),
  }));

/** Rest of each night without its start, which the crew's other rails decide. */
const plansOf = (problem: Problem, demands: readonly Demand[], choice: Choice): readonly NightPlan[] => {
  const { world, arrangement, verdict } = choice;
  const { allowance, programs } = world.clock;
  return problem.nights.map((night, i): NightPlan => {
    const { coldBy, out, power, wiped } = demands[i] as Demand;
    const w = world.windows.findIndex((window) => window.night === i);
    const window = world.windows[w];
    const stops = verdict.stops[w] ?? [];
    const [first, last] = [stops[0], stops.at(-1)];
    const common = { day: night.day, coldBy, firstPan: night.firstPan };
    if (!window || !first || !last) return { ...common, stops: [], rest: null };
    const inDay = (stop: Stop): Stop => ({ from: stop.from - window.base, to: stop.to - window.base });
    const why = (minute: number, turns: 'off' | 'on'): Binding => {
      const part = arrangement.placed[w]?.[0]?.part ?? 0;
      const { windows, given } =
        programs === undefined ? binding(world, minute, turns) : bindingInProgram(world, arrangement, part, turns);
      return {
        code: turns === 'off' ? 'food-out' : 'power',
        days: windows.map((c) => (problem.nights[c.night] as Night).day),
        given,
      };
    };
    const { from: off } = inDay(first);
    const { to: on } = inDay(last);
    const emptyBy = night.attended ? off - allowance : Math.min(off - allowance, night.leaves);
    return {
      ...common,
      stops: stops.map(inDay),
      rest: {
        startEmptying: emptyBy,
        emptyBy,
        off,
        on,
        minutes: last.to - last.from,
        counts: last.to - last.from >= world.need.leastRest,
        wiped,
        slack: { evening: emptyBy - out, morning: power - allowance - on },
        why: { off: why(first.from, 'off'), on: why(last.to, 'on') },
      },
    };
  });
};

/** Gives every rest the latest start that leaves the crew time for all its rails. */
const withStarts = (problem: Problem, demands: readonly (readonly Demand[])[], outcomes: Timetable): Timetable => {
  const needs = problem.rails.map((rail) => rail.need);
  const starts = problem.nights.map((night, i) => {
    const row = demands[i] as readonly Demand[];
    const emptyBy = outcomes.map((o) => (o.ok ? (o.nights[i]?.rest?.emptyBy ?? null) : null));
    return latestStarts(needs, emptyBy, row, night);
  });
  return outcomes.map((outcome, r) =>
    outcome.ok
      ? {
          ...outcome,
          nights: outcome.nights.map((plan, i) =>
            plan.rest ? { ...plan, rest: { ...plan.rest, startEmptying: starts[i]?.[r] ?? plan.rest.emptyBy } } : plan,
          ),
        }
      : outcome,
  );
};

const solveRail = (problem: Problem, rail: Rail, demands: readonly Demand[]): Outcome => {
  const before = reasonsBefore(problem, rail, demands);
  const { clock } = rail;
  if (before.length > 0 || !clock) return { ok: false, rail: rail.id, reasons: before };
  const world = worldOf(problem.circle, clock, rail.need, problem.nights, demands);
  const choice = choose(world, rail.found);
  if (!choice) return { ok: false, rail: rail.id, reasons: whyNot(world, problem.nights) };
  const stops = choice.verdict.stops.flat();
  const nights = plansOf(problem, demands, choice);
  return {
    ok: true,
    rail: rail.id,
    kept: choice.kept,
    nights,
    patterns: patternsOf(choice.world, stops),
    turnings: turningsOf(choice.world, stops),
    ...(clock.programs === undefined ? {} : { programs: programsOf(choice, problem.nights) }),
    shortestRest: Math.min(...nights.flatMap((n) => (n.rest?.counts ? [n.rest.minutes] : []))),
  };
};

/**
 * Solves the week of each rail.
 * @returns by rail, in their order
 * @throws when the problem is not what problem.ts states: a programmer's mistake
 */
export const solve = (problem: Problem): Timetable => {
  checkProblem(problem);
  const demands = demandsOf(problem);
  const outcomes = problem.rails.map((rail, r) =>
    solveRail(
      problem,
      rail,
      demands.map((row) => row[r] as Demand),
    ),
  );
  return withStarts(problem, demands, outcomes);
};
