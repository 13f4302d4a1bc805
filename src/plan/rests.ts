/**
 * From the store's days and its rails' needs to the timetable of each rail: the solver (plan/timetable) works in minutes; here they become leaves with their basis.
 * All rails of a store are solved together, because one crew empties them.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import type { Finding } from '../base/finding.js';
import { DAY, moment, WEEKDAYS, type Weekday } from '../base/moment.js';
import { term, type ByDay, type Term, type Told } from '../base/value.js';
import type { Rest } from '../model/profile.js';
import { CLOCK_KINDS } from '../trade/clocks.js';
import { isRail, ZONE_KINDS } from '../trade/zones.js';
import { shiftOf, type BusinessDay } from './business-days.js';
import { settingsOf, type ClockSetting } from './clock-settings.js';
import { computed, toldLeaf, written } from './known.js';
import { moveNeeds } from './needs.js';
import { physicsOf } from './physics/index.js';
import { mayLeaveIce, restNeeds, type RestNeeds } from './rest-needs.js';
import {
  clockOf,
  nightsOf,
  solve,
  WEEK_CIRCLE,
  type NightPlan,
  type Pattern,
  type Problem,
  type Rail,
  type Timetable,
} from './timetable/index.js';
import { foundClock, foundStretch, type FoundTold } from './found-clock.js';
import { remediesOf, type Remedies } from './remedies.js';
import { foundFindings, restFindings } from './rest-findings.js';
import { settingSteps, type SettingStep } from './setting-steps.js';
import type { UnitContext } from './unit.js';
import { whyRest, type RestWhy } from './why-rest.js';

type StoreContext = Omit<UnitContext, 'rests'>;

/** Times of a rail's nights, by the business day that they close, and of its mornings, by the business day that they open. */
export interface RestTimes {
  readonly start: Known<ByDay>;
  readonly emptyBy: Known<ByDay>;
  readonly off: Known<ByDay>;
  readonly on: Known<ByDay>;
  readonly coldBy: Known<ByDay>;
  readonly wipe?: Known<ByDay>;
}

export interface UnitRest {
  readonly needs: RestNeeds;
  readonly move: ReturnType<typeof moveNeeds>;
  readonly clock: {
    readonly kind: Known<Term>;
    readonly polarity: Known<Term> | undefined;
    readonly where: Known<Told> | undefined;
    readonly reachable: boolean;
    readonly byHand: boolean;
  };
  /** Undefined when no schedule keeps every rule. */
  readonly times?: RestTimes;
  readonly settings: readonly ClockSetting[];
  readonly why: readonly RestWhy[];
  /** Where there is no schedule: what would make one. */
  readonly remedies: readonly Remedies[];
  /** How to set the clock; nothing where a hand does it. */
  readonly set: readonly SettingStep[];
  readonly rest: Known<Amount<'duration'>> | undefined;
  readonly kept: boolean;
  /** What the clock did as a technician found it. */
  readonly found: readonly FoundTold[];
  readonly findings: readonly Finding[];
}

/** The ordinary week as it was solved. */
export interface SolvedWeek {
  readonly days: readonly BusinessDay[];
  readonly problem: Problem;
  readonly timetable: Timetable;
  /** A date that tells the season for which it was solved. */
  readonly on: string | undefined;
}

export interface Rests {
  readonly byUnit: ReadonlyMap<string, UnitRest>;
  readonly week: SolvedWeek;
}

const minutesOf = (duration: Known<Amount<'duration'>>): number => Math.ceil(duration.value.si / 60 - 1e-6);

/** Between two nights at most: a day and the longest night that a store may have. Common practice, no source. */
const LONGEST_RUN = 3 * DAY;

const dayOf = (index: number): Weekday => WEEKDAYS[((index % 7) + 7) % 7] as Weekday;

const byDays = (
  nights: readonly NightPlan[],
  pick: (night: NightPlan) => readonly [shift: number, minutes: number] | undefined,
): ByDay => ({
  q: 'by-day',
  at: Object.fromEntries(
    nights.flatMap((night) => {
      const found = pick(night);
      return found ? [[dayOf(night.day + found[0]), moment(found[1] - found[0] * DAY)]] : [];
    }),
  ),
});

/** The clock as it was found, in the solver's terms: one stretch on every day. */
const foundPattern = (context: StoreContext, unitId: string, kind: Rest['clock']['kind']): readonly Pattern[] | undefined => {
  const clock = context.read.store.units[unitId]?.found?.clock;
  const stretch = clock && foundStretch(clock);
  if (!stretch || CLOCK_KINDS[kind].by === 'hand') return undefined;
  const { classes } = clockOf(CLOCK_KINDS[kind], WEEK_CIRCLE);
  return classes.map((days) => ({ days, stretches: [stretch] }));
};

/** The business day that a night's morning opens: counted in days from the night's own. */
const morningOf = (night: NightPlan): number => Math.floor(night.firstPan / DAY);

const timesOf = (
  nights: readonly NightPlan[],
  needs: UnitRest['needs'],
  move: UnitRest['move'],
  context: StoreContext,
): RestTimes => {
  const { crew } = context;
  const resting = nights.filter((n) => n.rest !== null);
  const rest = (night: NightPlan) => night.rest as NonNullable<NightPlan['rest']>;
  const off = computed(
    byDays(resting, (n) => [0, rest(n).off]),
    'clock-off',
    [crew.closes, move.empty, needs.least, needs.pull_down, crew.first_pan],
    'later',
  );
  const on = computed(
    byDays(resting, (n) => [morningOf(n), rest(n).on]),
    'clock-on',
    [crew.first_pan, move.load, needs.pull_down],
    'earlier',
  );
  const emptyBy = computed(
    byDays(resting, (n) => [0, rest(n).emptyBy]),
    'empty-before-off',
    [off, crew.leaves],
    'earlier',
  );
  const start = computed(
    byDays(resting, (n) => [0, rest(n).startEmptying]),
    'start-to-be-empty',
    [emptyBy, move.empty],
    'earlier',
  );
  const coldBy = computed(
    byDays(resting, (n) => [morningOf(n), n.coldBy]),
    'cold-before-loading',
    [crew.first_pan, move.load],
    'earlier',
  );
  const wiping = resting.some((n) => rest(n).wiped !== null);
  const wipe = wiping
    ? computed(
        byDays(resting, (n) => [morningOf(n), rest(n).wiped ?? rest(n).on]),
        'wiped-before-on',
        [crew.comes, on],
        'earlier',
      )
    : undefined;
  return { start, emptyBy, off, on, coldBy, ...(wipe ? { wipe } : {}) };
};

const duration = (minutes: number): Amount<'duration'> => ({ q: 'duration', si: minutes * 60 });

export const solveRests = (context: StoreContext): Rests => {
  const { read, days, facts, shelf } = context;
  const rails = read.units.flatMap((unit) => {
    const found = Object.entries(unit.profile.zones).find(
      ([, zone]) => isRail(ZONE_KINDS[zone.kind]) && ZONE_KINDS[zone.kind].rests === 'emptied' && zone.rest,
    );
    if (!found) return [];
    const [id, zone] = found;
    const rest = zone.rest as Rest;
    const move = moveNeeds(unit, id, zone, facts);
    const physics = physicsOf(shelf, facts, unit);
    const needs = restNeeds({ unit, railId: id, zone, rest, facts, physics, load: move.load, days, crew: context.crew });
    return [{ unit, id, zone, rest, needs: needs.tree, needsFindings: needs.findings, move }];
  });
  const nights = nightsOf(
    WEEK_CIRCLE,
    days.map((d) => shiftOf(read.store, d)),
  );
  const problemRails: readonly Rail[] = rails.map(({ unit, rest, needs, move, zone }) => {
    const found = foundPattern(context, unit.id, rest.clock.kind);
    return {
      id: unit.id,
      need: {
        // The crew's share is in whole fives already; the solver shares again.
        empty: minutesOf(move.empty) * read.store.crew.closers,
        load: minutesOf(move.load) * read.store.crew.openers,
        pullDown: minutesOf(needs.pull_down),
        pullDownBand: Math.max(0, Math.floor(((needs.takes?.value.si ?? 0) - needs.pull_down.value.si) / 60)),
        leastRest: minutesOf(needs.least),
        enoughRest: minutesOf(needs.enough),
        startBeforeClose: Math.floor(read.store.crew.start_before_closing.si / 60),
        wipe: zone.drains === 'by-hand' ? WIPE_MINUTES : null,
        longestRun: LONGEST_RUN,
      },
      clock: clockOf(CLOCK_KINDS[rest.clock.kind], WEEK_CIRCLE),
      ...(found ? { found } : {}),
    };
  });
  const problem: Problem = { circle: WEEK_CIRCLE, nights, rails: problemRails };
  const outcomes: Timetable = nights.length === 0 ? [] : solve(problem);

  const byUnit = new Map<string, UnitRest>();
  rails.forEach(({ unit, id, rest, needs, needsFindings, move }, i) => {
    const outcome = outcomes[i];
    const at = (...path: string[]) => unit.originOf('zones', id, 'rest', 'clock', ...path);
    // A rail that stays on for a night has no schedule: nobody would know that its food may stay.
    const every = outcome?.ok === true && outcome.nights.every((n) => n.rest !== null);
    const times = outcome?.ok && every ? timesOf(outcome.nights, needs, move, context) : undefined;
    const settings = outcome?.ok && times ? settingsOf(outcome.nights, times) : [];
    const remedies = outcome?.ok ? [] : remediesOf(problem, i, rest.clock.kind);
    const findings = [...needsFindings, ...restFindings(read, unit, at('kind').at, outcome, remedies)];
    if (outcome?.ok) findings.push(...mayLeaveIce(needs, duration(outcome.shortestRest), at().at));
    const clockFound = CLOCK_KINDS[rest.clock.kind].by === 'clock' ? unit.unit.found?.clock : undefined;
    const kept = outcome?.ok === true && outcome.kept;
    const found = clockFound && times ? foundClock(problem, i, clockFound, kept, [times.off, times.on]) : [];
    if (clockFound && times) findings.push(...foundFindings(read, unit, clockFound, kept, found, settings[0]));
    byUnit.set(unit.id, {
      needs,
      move,
      clock: {
        kind: written<Term>(term(rest.clock.kind), at('kind')),
        polarity: rest.clock.polarity === undefined ? undefined : written<Term>(term(rest.clock.polarity), at('polarity')),
        where: toldLeaf(rest.clock.where, shelf.lang, at('where')),
        reachable: rest.clock.reachable,
        byHand: CLOCK_KINDS[rest.clock.kind].by === 'hand',
      },
      ...(times ? { times } : {}),
      settings,
      why: outcome?.ok && times ? whyRest(outcome.nights, [times.off, times.on]) : [],
      remedies,
      set:
        outcome?.ok && times
          ? settingSteps(
              outcome,
              { ...rest.clock, kind: CLOCK_KINDS[rest.clock.kind], polarity: rest.clock.polarity },
              settings,
              [times.off, times.on],
            )
          : [],
      rest: outcome?.ok
        ? computed(duration(outcome.shortestRest), 'shortest-rest', times ? [times.off, times.on] : [], 'down')
        : undefined,
      kept,
      found,
      findings,
    });
  });
  return { byUnit, week: { days, problem, timetable: outcomes, on: context.on } };
};

/** Wiping the melt water of one rail. Common practice, no source. */
const WIPE_MINUTES = 10;
