/**
 * What people could change so that a schedule exists: each lever is a whole number of units, the less the better.
 */
import { nightsOf } from './nights.js';
import type { Clock, Need, Night, Problem, Rail } from './problem.js';

export type Change =
  /** Begin emptying so many minutes earlier, on every night. */
  | { readonly code: 'start-earlier'; readonly minutes: number }
  /** So many more people at closing and at opening. */
  | { readonly code: 'more-people'; readonly people: number }
  /** Load the rail in so many minutes less. */
  | { readonly code: 'load-faster'; readonly minutes: number }
  /** Covers, or whatever else makes the rail cold so much sooner. */
  | { readonly code: 'pull-down-faster'; readonly minutes: number }
  /** The first pan goes in later on the morning of business day `day`; null: on every morning. */
  | { readonly code: 'first-pan-later'; readonly day: number | null; readonly minutes: number }
  | { readonly code: 'crew-leaves-later'; readonly minutes: number }
  | { readonly code: 'crew-comes-earlier'; readonly minutes: number }
  /** Melt water drains by itself: nobody wipes. */
  | { readonly code: 'fit-drain' }
  /** Another kind of clock, by the name under which the caller offered it. */
  | { readonly code: 'another-clock'; readonly clock: string }
  /** A store that never closes keeps so long free of food in the rail, every day from `from` (minutes of the day). */
  | { readonly code: 'quiet-window'; readonly from: number; readonly minutes: number };

export interface Lever {
  /** The most that may be asked for, in units. */
  readonly most: number;
  readonly change: (units: number) => Change;
}

/** What may be offered besides. */
export interface Offers {
  /** Other clocks, by name, the dearest last. */
  readonly clocks?: Readonly<Record<string, Clock>>;
  /** When a store that never closes is quietest: minutes of the day. Without it, none is proposed. */
  readonly quietFrom?: number;
  /** The problem once people have made these changes, where the caller knows more of it than the changes say; undefined where they can't be made. */
  readonly made?: (changes: readonly Change[]) => Problem | undefined;
  /** Minutes are asked for in multiples of it; 5 without it. */
  readonly unit?: number;
}

/** Bounds of what can be asked of people, in minutes: common practice, no source. */
const MOST = { start: 60, leave: 60, come: 120, firstPan: 120, quiet: 720, people: 2 };

const changedNeed = (problem: Problem, rail: number | null, change: (need: Need) => Need): Problem => ({
  ...problem,
  rails: problem.rails.map((r, i): Rail => (rail === null || i === rail ? { ...r, need: change(r.need) } : r)),
});

const changedNights = (problem: Problem, change: (night: Night, i: number) => Night): Problem => ({
  ...problem,
  nights: problem.nights.map(change),
});

/** The business day of the morning that ends a night. */
export const morningOf = ({ nights }: Problem, i: number): number => (nights[(i + 1) % nights.length] as Night).day;

const withClock = (problem: Problem, rail: number, clock: Clock): Problem => ({
  ...problem,
  // What was found on the old clock says nothing of the new one.
  rails: problem.rails.map((r, i): Rail => (i === rail ? { id: r.id, need: r.need, clock } : r)),
});

const withQuiet = (problem: Problem, from: number, minutes: number): Problem => {
  const { days, minutesPerDay } = problem.circle;
  const to = from + minutes;
  const shifts = Array.from({ length: days }, (_, day) => ({
    day,
    opens: to - minutesPerDay,
    closes: from,
    comes: to - minutesPerDay,
    leaves: from,
    firstPan: to - minutesPerDay,
    closers: 1,
    openers: 1,
    attended: true as const,
  }));
  return { ...problem, nights: nightsOf(problem.circle, shifts) };
};

/** The problem as it would be after a change. @throws for a clock that was not offered */
export const apply = (problem: Problem, rail: number, change: Change, offers: Offers): Problem => {
  switch (change.code) {
    case 'start-earlier':
      return changedNeed(problem, null, (need) => ({ ...need, startBeforeClose: need.startBeforeClose + change.minutes }));
    case 'more-people':
      return changedNights(problem, (n) => ({ ...n, closers: n.closers + change.people, openers: n.openers + change.people }));
    case 'load-faster':
      return changedNeed(problem, rail, (need) => ({ ...need, load: need.load - change.minutes }));
    case 'pull-down-faster':
      return changedNeed(problem, rail, (need) => ({ ...need, pullDown: need.pullDown - change.minutes }));
    case 'first-pan-later':
      return changedNights(problem, (n, i) =>
        change.day === null || morningOf(problem, i) === change.day ? { ...n, firstPan: n.firstPan + change.minutes } : n,
      );
    case 'crew-leaves-later':
      return changedNights(problem, (n) => ({ ...n, leaves: n.leaves + change.minutes }));
    case 'crew-comes-earlier':
      return changedNights(problem, (n) => ({ ...n, comes: n.comes - change.minutes }));
    case 'fit-drain':
      return changedNeed(problem, rail, (need) => ({ ...need, wipe: null }));
    case 'another-clock': {
      const clock = offers.clocks?.[change.clock];
      if (!clock) throw new Error(`timetable: no clock ${change.clock} was offered`);
      return withClock(problem, rail, clock);
    }
    case 'quiet-window':
      return withQuiet(problem, change.from, change.minutes);
  }
};

/** The levers of a rail, in the order in which they are told: what costs least first. */
export const leversOf = (problem: Problem, rail: number, offers: Offers): readonly Lever[] => {
  const unit = offers.unit ?? 5;
  const { need } = problem.rails[rail] as Rail;
  const minutes = (most: number, change: (minutes: number) => Change): Lever => ({
    most: Math.floor(most / unit),
    change: (units) => change(units * unit),
  });
  const once = (change: Change): Lever => ({ most: 1, change: () => change });
  const clocks = Object.keys(offers.clocks ?? {}).map((clock) => once({ code: 'another-clock', clock }));
  if (problem.nights.length === 0) {
    const from = offers.quietFrom;
    return from === undefined ? [] : [minutes(MOST.quiet, (m) => ({ code: 'quiet-window', from, minutes: m })), ...clocks];
  }
  const mornings = [...new Set(problem.nights.map((_, i) => morningOf(problem, i)))].sort((a, b) => a - b);
  const levers: readonly Lever[] = [
    minutes(MOST.start, (m) => ({ code: 'start-earlier', minutes: m })),
    { most: MOST.people, change: (people) => ({ code: 'more-people', people }) },
    // Half of a need is as much as anybody should be asked to save.
    minutes(need.load / 2, (m) => ({ code: 'load-faster', minutes: m })),
    minutes(need.pullDown / 2, (m) => ({ code: 'pull-down-faster', minutes: m })),
    minutes(MOST.leave, (m) => ({ code: 'crew-leaves-later', minutes: m })),
    minutes(MOST.come, (m) => ({ code: 'crew-comes-earlier', minutes: m })),
    ...(mornings.length > 1
      ? mornings.map((day) => minutes(MOST.firstPan, (m) => ({ code: 'first-pan-later', day, minutes: m })))
      : []),
    minutes(MOST.firstPan, (m) => ({ code: 'first-pan-later', day: null, minutes: m })),
    ...(need.wipe === null ? [] : [once({ code: 'fit-drain' })]),
    ...clocks,
  ];
  return levers.filter((lever) => lever.most > 0);
};
