/**
 * What a static rail's rest needs: to pull down, the least rest, and enough of it. What a technician wrote wins; physics stands in where nothing
 * is written, lifts a least rest in which no ice could melt, and says where a written figure lies outside of its band.
 */
import { amount, of, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { asOnPage, error, note, warning, type Finding } from '../base/finding.js';
import { within, type Place } from '../base/place.js';
import type { ByDay } from '../base/value.js';
import type { Rest, Zone } from '../model/profile.js';
import type { ReadUnit } from '../read/shelf.js';
import type { BusinessDay } from './business-days.js';
import type { StoreFacts } from './facts.js';
import { computed, practice, written } from './known.js';
import type { UnitPhysics } from './physics/index.js';
import { predictedMelting, predictedPullDown, type PredictedPullDown } from './physics/predicted.js';

type Duration = Known<Amount<'duration'>>;

/** A static rail's least time off, whatever anybody wrote. Common practice, no source. */
const LEAST_REST_HOURS = 4;
/** Where neither a technician nor the physics tells: long, and an error beside it. */
const UNKNOWN_PULL_DOWN = of(3, 'h');
/** A clock that rests the rail every night lets it run no longer than this. */
const LONGEST_RUN = of(20, 'h');
const HOUR = 3600;
const DAY = 24 * HOUR;

export interface RestQuestion {
  readonly unit: ReadUnit;
  readonly railId: string;
  readonly zone: Zone;
  readonly rest: Rest;
  readonly facts: StoreFacts;
  readonly physics: UnitPhysics;
  /** Moving the food back in the morning. */
  readonly load: Duration;
  /** When a run begins and ends: the first pan and the leaving of each day. */
  readonly days: readonly Pick<BusinessDay, 'firstPan' | 'leaves'>[];
  readonly crew: { readonly leaves: Known<ByDay>; readonly first_pan: Known<ByDay> };
}

type From = (...path: string[]) => Parameters<typeof written>[1];

/** From switching on to ready for food: the technician's figure, on hot days the longer one; else the computed. */
const pullDownNeeds = ({ rest, facts }: RestQuestion, from: From, predicted: PredictedPullDown | undefined) => {
  const hot = rest.pull_down_hot;
  const usual: Duration | undefined = rest.pull_down && written(rest.pull_down, from('pull_down'));
  const above = hot && written(hot.above, from('pull_down_hot', 'above'));
  const takes: Duration | undefined = hot && written(hot.takes, from('pull_down_hot', 'takes'));
  const own = usual && predicted ? computed(usual.value, 'written-wins', [usual, predicted.planned]) : usual;
  const mild: Duration = own ?? predicted?.planned ?? practice(UNKNOWN_PULL_DOWN, 'pull-down-unknown');
  const isHot = above !== undefined && facts.kitchen.hottest.value.si > above.value.si;
  const used: Duration =
    isHot && takes
      ? computed(
          amount('duration', Math.max(takes.value.si, mild.value.si)),
          'pull-down-in-heat',
          [takes, mild, above, facts.kitchen.hottest],
          'up',
        )
      : mild;
  return { usual, mild, above, takes, used };
};

/**
 * As if every day opened as early as the earliest and closed as late as the latest, or rested no longer than is enough: no clock of one pattern runs
 * the rail longer.
 */
const longestRun = ({ days, load, crew }: RestQuestion, pullDown: Duration, rested: Duration): Duration => {
  const earliest = Math.min(...days.map((d) => d.firstPan.min)) * 60 - load.value.si - pullDown.value.si;
  const latest = Math.max(...days.map((d) => d.leaves.min)) * 60;
  const longest = Math.max(latest - earliest, DAY - rested.value.si);
  const hours = days.length === 0 ? LONGEST_RUN.si : Math.ceil(longest / HOUR) * HOUR;
  return computed(
    amount('duration', Math.min(LONGEST_RUN.si, Math.max(HOUR, hours))),
    'longest-run',
    [crew.leaves, crew.first_pan, load, pullDown, rested],
    'up',
  );
};

const longest = (of: readonly (Duration | undefined)[]): Duration => {
  const there = of.filter((d) => d !== undefined);
  return computed(amount('duration', Math.max(...there.map((d) => d.value.si))), 'longest-of', there, 'up');
};

/** What is missing, and what lies outside of its band. */
const findingsOf = (
  from: From,
  rest: Rest,
  pullDown: Duration,
  pull: PredictedPullDown | undefined,
  ice: { readonly least: Duration; readonly most: Duration } | undefined,
  missing: readonly string[],
): readonly Finding[] => {
  const lacks = missing.length > 0 ? { missing } : {};
  const findings: Finding[] = [];
  const needs = (key: string): Finding => error('rest-needs-figure', within(from().at, key), { key, ...lacks });
  if (!rest.pull_down && !pull) findings.push(needs('pull_down'));
  if (!rest.enough && !ice) findings.push(needs('enough'));
  if (rest.pull_down && pull) {
    const { fastest, planned } = pull;
    const at = from('pull_down').at;
    if (pullDown.value.si < fastest.value.si)
      findings.push(warning('pull-down-outside-band', at, { written: pullDown.value, computed: asOnPage(fastest) }));
    if (rest.pull_down.si > planned.value.si)
      findings.push(note('pull-down-slow', at, { written: rest.pull_down, computed: asOnPage(planned) }));
  }
  const told = rest.enough ?? rest.least;
  if (ice && told && told.si < ice.least.value.si)
    findings.push(
      warning('rest-outside-band', from(rest.enough ? 'enough' : 'least').at, { written: told, computed: asOnPage(ice.least) }),
    );
  return findings;
};

/** Whether the shortest rest of the week may be too short for the worst ice: advice, since the technician's figures hold. */
export const mayLeaveIce = ({ ice }: RestNeeds, rest: Amount<'duration'>, at: Place): readonly Finding[] =>
  ice && rest.si < ice.most.value.si
    ? [note('rest-may-leave-ice', at, { rest, most: asOnPage(ice.most), ...(ice.up ? { up: asOnPage(ice.up) } : {}) })]
    : [];

/** What the physics says can't be done: to pull down on the hottest day, or to melt ice by night. */
const neverDone = (
  { physics: { rail, tree } }: RestQuestion,
  from: From,
  ready: Known<Amount<'temperature'>> | undefined,
  pull: PredictedPullDown | undefined,
  ice: object | undefined,
): readonly Finding[] => {
  if (rail?.rail === undefined || !tree) return [];
  const at = from().at;
  return [
    ...(ready && !pull ? [warning('never-pulls-down', at, { ready: ready.value, kitchen: asOnPage(tree.hottest) })] : []),
    ...(ice ? [] : [warning('ice-never-melts', at, { night: asOnPage(tree.night) })]),
  ];
};

export const restNeeds = (question: RestQuestion) => {
  const { unit, railId, zone, rest, physics } = question;
  const from: From = (...path) => unit.originOf('zones', railId, 'rest', ...path);
  const ready = zone.air && written(zone.air.high, unit.originOf('zones', railId, 'air'));
  const pull = ready && predictedPullDown(physics, ready);
  const { usual, mild, above, takes, used } = pullDownNeeds(question, from, pull);
  const floor: Duration = practice(of(LEAST_REST_HOURS, 'h'), 'least-rest-of-any-static-rail');
  const maker: Duration | undefined = rest.least && written(rest.least, from('least'));
  const told: Duration | undefined = rest.enough && written(rest.enough, from('enough'));
  const run = longestRun(question, used, told ?? maker ?? floor);
  const ice = predictedMelting(physics, run, zone.covers?.night === 'up-to-dry' ? 'up' : 'down');

  const least = longest([floor, maker, maker ? ice?.least : ice?.most]);
  const enough = longest([told ?? ice?.most, least]);
  const findings = [
    ...findingsOf(from, rest, used, pull, ice, physics.missing ?? []),
    ...neverDone(question, from, ready, pull, ice),
  ];
  const tree = { floor, maker, least, told, enough, usual, above, takes, ready, pull_down: used, mild, run, ice, pull };
  return { tree, findings };
};

export type RestNeeds = ReturnType<typeof restNeeds>['tree'];
