/**
 * The rails of a store that rest by a clock or a hand, with what each needs, as the solver takes them.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { DAY } from '../base/moment.js';
import type { Rest } from '../model/profile.js';
import type { ReadUnit } from '../read/shelf.js';
import { CLOCK_KINDS, withStep, type ClockKind } from '../trade/clocks.js';
import { foundPatterns, foundStops, standingClock, timeOff } from './found-settings.js';
import { partsOf } from './parts.js';
import { physicsOf } from './physics/index.js';
import { restNeeds, type RestNeeds, type RestQuestion } from './rest-needs.js';
import { atOneRail, clockOf, WEEK_CIRCLE, type Pattern, type Rail } from './timetable/index.js';
import type { StoreContext } from './context.js';

const minutesOf = (duration: Known<Amount<'duration'>>): number => Math.ceil(duration.value.si / 60 - 1e-6);

/** Between two nights at most: a day and the longest night that a store may have. Common practice, no source. */
const LONGEST_RUN = 3 * DAY;

/** Wiping the melt water of one rail. Common practice, no source. */
const WIPE_MINUTES = 10;

/** The clock of a rail: its kind, with the step and the programs that its profile gives it. */
export const clockKindOf = ({ clock: { kind, step, programs, follows_dst: follows = false } }: Rest): ClockKind => ({
  ...withStep(CLOCK_KINDS[kind], step && step.si / 60),
  followsDst: CLOCK_KINDS[kind].followsDst || follows,
  ...(programs === undefined ? {} : { programs }),
});

/**
 * The clock as it stands, in the solver's terms; undefined where it never turns, or no clock of its kind holds that. One whose time of day was out
 * has to be set anyway: it is no reason to keep its stops.
 */
const standingPattern = (unit: ReadUnit, kind: ClockKind): readonly Pattern[] | undefined => {
  const clock = standingClock(unit);
  const stops = clock ? foundStops(clock) : [];
  if (!clock || stops.length === 0 || kind.by === 'hand' || timeOff(clock)) return undefined;
  return foundPatterns(clockOf(kind, WEEK_CIRCLE), stops);
};

export const railsOf = (context: StoreContext) =>
  context.read.units.flatMap((unit) => {
    const { top } = partsOf(unit.profile);
    const move = context.moves.get(unit.id);
    if (!top || !move || top.kind.rests !== 'emptied' || !top.zone.rest) return [];
    return [{ unit, id: top.id, zone: top.zone, rest: top.zone.rest, move }];
  });

export type RailFacts = ReturnType<typeof railsOf>[number];

export const needsOf = (context: StoreContext, rail: RailFacts, days: RestQuestion['days'], crew: RestQuestion['crew']) => {
  const { unit, id: railId, zone, rest, move } = rail;
  const { facts } = context;
  const physics = physicsOf(context.shelf, facts, unit);
  return restNeeds({ unit, railId, zone, rest, facts, physics, load: move.load, days, crew });
};

export const problemRail = (context: StoreContext, { unit, zone, rest, move }: RailFacts, needs: RestNeeds): Rail => {
  const { crew } = context.read.store;
  const found = standingPattern(unit, clockKindOf(rest));
  return {
    id: unit.id,
    need: {
      // The crew's share is in whole fives already; the solver shares again.
      empty: minutesOf(move.empty) * atOneRail(crew.closers),
      load: minutesOf(move.load) * atOneRail(crew.openers),
      pullDown: minutesOf(needs.pull_down),
      pullDownBand: Math.max(0, Math.floor(((needs.takes?.value.si ?? 0) - needs.pull_down.value.si) / 60)),
      leastRest: minutesOf(needs.least),
      enoughRest: minutesOf(needs.enough),
      startBeforeClose: Math.floor(crew.start_before_closing.si / 60),
      wipe: zone.drains === 'by-hand' ? WIPE_MINUTES : null,
      longestRun: LONGEST_RUN,
    },
    clock: clockOf(clockKindOf(rest), WEEK_CIRCLE),
    ...(found ? { found } : {}),
  };
};

/** A rail with what it needs where it rests. */
export type Asked = RailFacts & { readonly needs: ReturnType<typeof needsOf> };
