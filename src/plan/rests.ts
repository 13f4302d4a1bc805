/**
 * From the store's days and its rails' needs to the timetable of each rail: the solver (plan/timetable) works in minutes; here they become leaves with their basis.
 * All rails of a store are solved together, because one crew empties them.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { warning, type Finding } from '../base/finding.js';
import { DAY, moment } from '../base/moment.js';
import type { Store } from '../model/store.js';
import { count, phrase, term, type ByDay, type Phrase, type Term, type Told } from '../base/value.js';
import { isDial } from '../trade/clocks.js';
import { afterCut, type AfterCut } from './after-cut.js';
import { afternoonFindings } from './afternoon-findings.js';
import { gapOf, type AfternoonTimes } from './afternoons.js';
import { shiftOf, type BusinessDay } from './business-days.js';
import { settingsOf, type ClockSetting } from './clock-settings.js';
import { storeContext, type StoreContext } from './context.js';
import { computed, practice, toldLeaf, written } from './known.js';
import type { Move } from './needs.js';
import { byDays, morningOf } from './nights-by-day.js';
import { clockKindOf, needsOf, problemRail, railsOf, type Asked, type RailFacts } from './rail-problem.js';
import { mayLeaveIce, type RestNeeds } from './rest-needs.js';
import {
  isWhole,
  nightsOf,
  solve,
  WEEK_CIRCLE,
  type Night,
  type NightPlan,
  type Outcome,
  type Problem,
  type Timetable,
} from './timetable/index.js';
import { foundClock, type FoundRail, type FoundTold } from './found-clock.js';
import { remediesOf, type Remedies } from './remedies.js';
import { restFindings } from './rest-findings.js';
import { settingSteps, type SettingStep } from './setting-steps.js';
import { whyRest, type RestWhy } from './why-rest.js';

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
  readonly clock: {
    readonly kind: Known<Term>;
    /** Between two of its settings. */
    readonly step: Known<Amount<'duration'>>;
    readonly polarity: Known<Term> | undefined;
    readonly where: Known<Told> | undefined;
    /** Trippers or pins around a dial. */
    readonly dial: boolean;
    readonly byHand: boolean;
    /** The manager sets its time and its override; its off and on are a technician's. */
    readonly inReach: boolean;
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
  /** What the clock does after a power cut; undefined where it runs on. */
  readonly afterCut: AfterCut | undefined;
  /** The clock is right as it stands, as far as anybody wrote. */
  readonly kept: boolean;
  /** The rail as it was solved, to hold another setting against. */
  readonly judged: FoundRail & { readonly outcome: Outcome | undefined };
  /** It rests in the afternoon closing, because no night is long enough; at night it is emptied all the same, and stays on. */
  readonly afternoon: boolean;
  /** Why it rests in the gap that it does; undefined where the store has only nights. */
  readonly gap: Known<Phrase> | undefined;
  /** What the clock did as a technician found it. */
  readonly found: readonly FoundTold[];
  readonly findings: readonly Finding[];
}

/** The ordinary week as it was solved. */
export interface SolvedWeek {
  readonly days: readonly BusinessDay[];
  readonly problem: Problem;
  readonly timetable: Timetable;
  /** The rails that rest in the afternoon closing, with its gaps for nights. */
  readonly afternoon: { readonly problem: Problem; readonly timetable: Timetable } | undefined;
  /** A date that tells the season for which it was solved. */
  readonly on: string | undefined;
}

export interface Rests {
  readonly byUnit: ReadonlyMap<string, UnitRest>;
  readonly week: SolvedWeek;
}

/** @param crew around the gaps in which it rests */
const timesOf = (
  nights: readonly NightPlan[],
  needs: UnitRest['needs'],
  move: Move,
  crew: AfternoonTimes | StoreContext['crew'],
): RestTimes => {
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

/** The afternoon closings as gaps for those rails; undefined where a business day has none, or its crew is not known. */
const afternoonProblem = (context: StoreContext, rails: readonly RailFacts[]) => {
  const { afternoons, afternoon: crew, days, read } = context;
  const nights = afternoons.flatMap((a) => gapOf(read.store, a) ?? []);
  if (!crew || nights.length === 0 || nights.length < days.length || rails.length === 0) return undefined;
  // A run goes from one afternoon's first pan to the next one's emptying.
  const runs = afternoons.flatMap(({ crew: people }) =>
    people ? [{ firstPan: people.firstPan, leaves: moment(people.leaves.min + DAY) }] : [],
  );
  const asked = rails.map((rail): Asked => ({ ...rail, needs: needsOf(context, rail, runs, crew) }));
  const problem: Problem = {
    circle: WEEK_CIRCLE,
    nights,
    rails: asked.map((rail) => problemRail(context, rail, rail.needs.tree)),
  };
  return { asked, problem, timetable: solve(problem) };
};

type Afternoons = ReturnType<typeof afternoonProblem>;

/** Where a rail rests: its problem with all gaps that empty it, and its outcome. */
interface Placed {
  readonly asked: Asked;
  readonly outcome: Outcome | undefined;
  /** With nights and afternoons, where it rests in the afternoon: it is emptied in both. */
  readonly problem: Problem;
  readonly rail: number;
  /** The gaps in which it rests. */
  readonly rests: readonly Night[];
  readonly afternoon: boolean;
}

/** The afternoon closing serves only where no night does: one emptying a day is enough for people and for food. */
const place = (asked: Asked, rail: number, nights: SolvedNights, afternoons: Afternoons): Placed => {
  const outcome = nights.timetable[rail];
  const found = isWhole(outcome) ? -1 : (afternoons?.asked.findIndex((a) => a.unit === asked.unit) ?? -1);
  const other = afternoons?.timetable[found];
  const there = afternoons?.asked[found];
  if (!afternoons || !there || !isWhole(other))
    return { asked, outcome, problem: nights.problem, rail, rests: nights.problem.nights, afternoon: false };
  const { problem } = afternoons;
  const all = [...problem.nights, ...nights.problem.nights].sort((a, b) => a.day - b.day || a.closes - b.closes);
  return {
    asked: there,
    outcome: other,
    problem: { ...problem, nights: all },
    rail: found,
    rests: problem.nights,
    afternoon: true,
  };
};

interface SolvedNights {
  readonly problem: Problem;
  readonly timetable: Timetable;
}

const gapWhy = (context: StoreContext, { outcome, afternoon }: Placed): Known<Phrase> | undefined =>
  context.afternoons.length === 0 || !isWhole(outcome)
    ? undefined
    : practice(phrase(`binding.${afternoon ? 'in-the-afternoon' : 'not-in-the-afternoon'}`), 'which-gap');

const unitRest = (context: StoreContext, placed: Placed, afternoons: Afternoons): UnitRest => {
  const { asked, outcome, problem, rail, afternoon } = placed;
  const { unit, id, rest, move, needs } = asked;
  const { read, shelf } = context;
  const kind = clockKindOf(rest);
  const at = (...path: string[]) => unit.originOf('zones', id, 'rest', 'clock', ...path);
  const crew = afternoon && context.afternoon ? context.afternoon : context.crew;
  const times = isWhole(outcome) ? timesOf(outcome.nights, needs.tree, move, crew) : undefined;
  const settings = outcome?.ok && times ? settingsOf(outcome.nights, times) : [];
  const remedies = isWhole(outcome)
    ? []
    : remediesOf(problem, rail, {
        store: read.store,
        kind: rest.clock.kind,
        drainUnknown: unit.safeSide.includes(`zones.${id}.drains`),
        nightsWith: (store) => nightsWith(context, store),
      });
  const findings = [
    ...needs.findings,
    ...restFindings(read, unit, at('kind').at, outcome, remedies),
    ...afternoonFindings(read, unit, {
      days: context.days.map((d) => d.day),
      afternoons: context.afternoons,
      rests: afternoon ? 'afternoon' : times ? 'night' : 'nowhere',
      outcome: afternoons?.timetable.find((o) => o.rail === unit.id),
    }),
  ];
  if (isWhole(outcome)) findings.push(...mayLeaveIce(needs.tree, duration(outcome.shortestRest), at().at));
  const clockFound = kind.by === 'clock' ? unit.unit.found?.clock : undefined;
  if (clockFound && !times)
    findings.push(warning('clock-runs-on', read.originOf('units', unit.id, 'found', 'clock').at, { unit: unit.id }));
  const judged = { problem, rail, rests: placed.rests, afternoon };
  const found = clockFound && times ? foundClock(judged, clockFound, [times.off, times.on]) : [];
  return {
    needs: needs.tree,
    clock: {
      kind: written<Term>(term(rest.clock.kind), at('kind')),
      step: rest.clock.step ? written(rest.clock.step, at('step')) : practice(duration(kind.step), 'clock-step-of-kind'),
      polarity: rest.clock.polarity === undefined ? undefined : written<Term>(term(rest.clock.polarity), at('polarity')),
      where: toldLeaf(rest.clock.where, shelf.lang, at('where')),
      dial: isDial(kind),
      byHand: kind.by === 'hand',
      inReach: kind.by !== 'hand' && rest.clock.reachable === true,
    },
    ...(times ? { times } : {}),
    settings,
    why: outcome?.ok && times ? whyRest(outcome.nights, afternoon, [times.off, times.on]) : [],
    remedies,
    set:
      outcome?.ok && times
        ? settingSteps(outcome, { ...rest.clock, kind, polarity: rest.clock.polarity }, settings, [times.off, times.on])
        : [],
    rest: outcome?.ok
      ? computed(duration(outcome.shortestRest), 'shortest-rest', times ? [times.off, times.on] : [], 'down')
      : undefined,
    afterCut:
      outcome?.ok && times ? afterCut({ ...problem, nights: placed.rests }, rail, outcome, [times.off, times.on]) : undefined,
    kept: outcome?.ok === true && outcome.kept,
    judged: { ...judged, outcome },
    afternoon,
    gap: gapWhy(context, placed),
    found,
    findings,
  };
};

const nightsProblem = (context: StoreContext) => {
  const { read, days, crew } = context;
  const rails = railsOf(context).map((rail): Asked => ({ ...rail, needs: needsOf(context, rail, days, crew) }));
  const problem: Problem = {
    circle: WEEK_CIRCLE,
    nights: nightsOf(
      WEEK_CIRCLE,
      days.map((d) => shiftOf(read.store, d)),
    ),
    rails: rails.map((rail) => problemRail(context, rail, rail.needs.tree)),
  };
  return { rails, problem };
};

/** The nights of the store as it would be read with other facts of its own. */
const nightsWith = ({ shelf, read, facts, on }: StoreContext, store: Store): Problem => {
  const closers = { ...facts.closers, value: count(store.crew.closers) };
  const openers = { ...facts.openers, value: count(store.crew.openers) };
  return nightsProblem(storeContext(shelf, { ...read, store }, { ...facts, closers, openers }, on)).problem;
};

export const solveRests = (context: StoreContext): Rests => {
  const { days } = context;
  const { rails, problem } = nightsProblem(context);
  const timetable: Timetable = problem.nights.length === 0 ? [] : solve(problem);
  const nights = { problem, timetable };
  const afternoons = afternoonProblem(
    context,
    rails.filter((_, i) => !isWhole(timetable[i])),
  );
  const placed = rails.map((rail, i) => place(rail, i, nights, afternoons));
  const rested = new Set(placed.flatMap(({ afternoon, asked }) => (afternoon ? [asked.unit.id] : [])));
  return {
    byUnit: new Map(placed.map((p) => [p.asked.unit.id, unitRest(context, p, afternoons)])),
    week: { days, problem, timetable, afternoon: afternoons && onlyOf(afternoons, rested), on: context.on },
  };
};

/** The afternoons of the rails that rest in them; undefined where none does. */
const onlyOf = ({ problem, timetable }: SolvedNights, ids: ReadonlySet<string>): SolvedNights | undefined =>
  ids.size === 0
    ? undefined
    : {
        problem: { ...problem, rails: problem.rails.filter((rail) => ids.has(rail.id)) },
        timetable: timetable.filter((o) => ids.has(o.rail)),
      };
