/**
 * Afternoon closings on real dates, for the rails that rest in them. The ordinary week holds wherever a date's hours leave the clock's stop inside the gap;
 * on any other date that is open, a hand holds the rail on. Changes of the clocks fall into the night: who doesn't follow is set there.
 */
import { DAY } from '../../../base/moment.js';
import { weekdayOf, type DayNumber } from '../../../model/hours/index.js';
import { demandsOf, type Demand } from '../crew.js';
import type { Clock, Night, Rail, Stop } from '../problem.js';
import type { DatedNight, DatedRail, DateNote, Standing } from './dated.js';
import { dialSpans, handStops, type Solved } from './stops-on.js';
import { wallLegs } from './wall.js';

/** The afternoon of a date with other hours: its gap, open throughout, or closed all day. */
export type OtherAfternoon = Night | 'open' | 'closed';

/** A solved week of afternoons and what is different on some dates. */
export type AfternoonStanding = Pick<Standing, 'problem' | 'timetable'> & {
  readonly others: ReadonlyMap<DayNumber, OtherAfternoon>;
};

/** Whether a crew of that date can empty and load around a stop. */
const fits = (night: Night, { out, power, coldBy, wiped }: Demand, clock: Clock, stops: readonly Stop[]): boolean =>
  night.firstPan > night.closes &&
  out <= night.leaves &&
  coldBy >= night.comes &&
  stops.every((s) => s.from >= out + clock.allowance && s.to <= power - clock.allowance && (wiped === null || s.to >= wiped));

/** Whoever is there holds the rail on over all its stops, before the clock turns it off. */
const stayOn = (stops: readonly Stop[], { allowance }: Clock, leaves: number): DateNote => ({
  code: 'stay-on-today',
  from: Math.min((stops[0] as Stop).from - allowance, leaves),
  until: (stops.at(-1) as Stop).to + allowance,
});

const judge = (rail: Rail, solved: Solved, date: DayNumber, other: Night | 'open', demand: Demand | undefined): DatedRail => {
  const clock = rail.clock as Clock;
  const none = { rail: rail.id, rest: null, coldBy: demand?.coldBy ?? 0, notes: [] };
  const usual = solved.nights.find((n) => n.day === weekdayOf(date))?.rest;
  const turns = clock.by === 'hand' && usual ? [{ from: usual.off, to: usual.on }] : [];
  const stops =
    clock.by === 'hand'
      ? demand
        ? handStops(turns[0], wallLegs([]), demand.out, demand.power)
        : []
      : dialSpans(solved.patterns, date, 0).filter((s) => s.from < DAY);
  const last = stops.at(-1);
  if (!last) return none;
  if (other !== 'open' && demand && fits(other, demand, clock, stops)) {
    const off = (stops[0] as Stop).from;
    const emptyBy = Math.min(off - clock.allowance, other.leaves);
    const minutes = last.to - last.from;
    if (minutes < rail.need.leastRest && clock.by === 'hand') return none;
    const empty = Math.ceil(rail.need.empty / other.closers);
    return {
      ...none,
      rest: { startEmptying: emptyBy - empty, emptyBy, off, on: last.to, minutes, wiped: demand.wiped },
    };
  }
  // A hand just doesn't switch it off.
  return clock.by === 'hand' ? none : { ...none, notes: [stayOn(stops, clock, other === 'open' ? Infinity : other.leaves)] };
};

/** @returns one for each date from `first` to `last`, both counted, on which the store is open and a rail's clock has something to do */
export const afternoonsBetween = (
  { problem, timetable, others }: AfternoonStanding,
  first: DayNumber,
  last: DayNumber,
): readonly DatedNight[] => {
  const found: DatedNight[] = [];
  for (let date = first; date <= last; date++) {
    const i = problem.nights.findIndex((n) => n.day === weekdayOf(date));
    const usual = problem.nights[i];
    const other = others.get(date);
    if (other === 'closed' || (!other && !usual)) continue;
    const night = other && other !== 'open' ? other : (usual ?? problem.nights[0]);
    if (!night) continue;
    const demands = other && other !== 'open' ? demandsOf({ nights: [other], rails: problem.rails })[0] : undefined;
    const rails = problem.rails.flatMap((rail, r): readonly DatedRail[] => {
      const outcome = timetable[r];
      if (!outcome?.ok) return [];
      if (other) return [judge(rail, outcome, date, other, demands?.[r])];
      const plan = outcome.nights[i];
      return plan ? [{ rail: rail.id, rest: plan.rest, coldBy: plan.coldBy, notes: [] }] : [];
    });
    found.push({ date, special: other ? ['other-hours'] : [], night, rails });
  }
  return found;
};

/** What a clock that doesn't follow needs at closing before a change of `shift` minutes, so that the next afternoon is right; undefined where it needs nothing. */
export const resetBefore = (
  { problem, timetable }: Pick<Standing, 'problem' | 'timetable'>,
  { date, night }: DatedNight,
  rail: string,
  shift: number,
): DateNote | undefined => {
  const r = problem.rails.findIndex((one) => one.id === rail);
  const [clock, outcome] = [problem.rails[r]?.clock, timetable[r]];
  if (!clock || !outcome?.ok || clock.by === 'hand' || clock.followsDst) return undefined;
  for (let later = 1; later <= 7; later++) {
    const rest = outcome.nights.find((n) => n.day === weekdayOf(date + later))?.rest;
    if (rest) return { code: 'reset-clock', at: night.leaves, turn: shift, on: rest.on + later * DAY + shift, late: shift };
  }
  return undefined;
};
