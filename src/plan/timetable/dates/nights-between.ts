/**
 * The nights of a run of dates: ordinary ones as the week says, special ones looked at one by one. All whole numbers but for the zone's changes.
 */
import { DAY } from '../../../base/moment.js';
import { weekdayOf, type DayNumber } from '../../../model/hours/index.js';
import type { Night, Stop } from '../problem.js';
import type { DatedNight, DatedRail, DateNote, Standing } from './dated.js';
import { nightAfter, weekShifts } from './shifts.js';
import { specialNight } from './special-night.js';
import type { Change } from './wall.js';
import { transitionsBetween, type Transition } from './zone.js';

/** The ordinary night of each weekday; undefined where it is closed. */
const ordinary = ({
  problem,
  timetable,
}: Standing): readonly ({ readonly night: Night; readonly rails: readonly DatedRail[] } | undefined)[] =>
  Array.from({ length: 7 }, (_, day) => {
    const i = problem.nights.findIndex((n) => n.day === day);
    const night = problem.nights[i];
    if (!night) return undefined;
    const rails = timetable.map((outcome): DatedRail => {
      const plan = outcome.ok ? outcome.nights[i] : undefined;
      return { rail: outcome.rail, rest: plan?.rest ?? null, coldBy: plan?.coldBy ?? night.firstPan, notes: [] };
    });
    return { night, rails };
  });

/** Follows each rail's rests from night to night, in minutes that run on whatever the wall does. */
const runWatch = (standing: Standing) => {
  const ends: (number | undefined)[] = standing.problem.rails.map(() => undefined);
  /** @returns by rail: the longest run that ends in this night, where it is too long */
  return (start: number, stops: readonly (readonly Stop[])[]): readonly (DateNote | undefined)[] =>
    standing.problem.rails.map(({ need }, r) => {
      let longest = 0;
      for (const stop of stops[r] ?? []) {
        if (stop.to - stop.from < need.leastRest) continue;
        const before = ends[r];
        if (before !== undefined) longest = Math.max(longest, start + stop.from - before);
        ends[r] = start + stop.to;
      }
      return longest > need.longestRun ? { code: 'run-too-long', run: longest, longest: need.longestRun } : undefined;
    });
};

const withNotes = (dated: DatedNight, notes: readonly (DateNote | undefined)[]): DatedNight =>
  notes.some((n) => n !== undefined)
    ? { ...dated, rails: dated.rails.map((rail, r) => (notes[r] ? { ...rail, notes: [...rail.notes, notes[r]] } : rail)) }
    : dated;

/** The changes that fall between two local minutes, in minutes from `base`. */
const changesIn = (transitions: readonly Transition[], from: number, to: number, base: number): readonly Change[] =>
  transitions.filter((t) => t.at >= from && t.at < to).map((t) => ({ at: t.at - base, shift: t.shift }));

/** @returns one night for each date from `first` to `last`, both counted, on which the store opens */
export const nightsBetween = (standing: Standing, first: DayNumber, last: DayNumber): readonly DatedNight[] => {
  const { exceptions } = standing;
  const week = weekShifts(standing.problem);
  const usual = ordinary(standing);
  /** Whether the hours of a date, or of one up to the next that usually opens, are others than its weekday's. */
  const isOther = (date: DayNumber): boolean => {
    if (exceptions.size === 0) return false;
    for (let d = date; ; d++) {
      if (exceptions.has(d)) return true;
      if (d > date && (week[weekdayOf(d)] || d > date + 7)) return false;
    }
  };
  const usualStops = Array.from({ length: 7 }, (_, day) =>
    standing.timetable.map((o) => (o.ok ? (o.nights.find((n) => n.day === day)?.stops ?? []) : [])),
  );
  const transitions = transitionsBetween(standing.zone, first, last + 400);
  const tooLong = runWatch(standing);
  const found: DatedNight[] = [];
  let moved = 0;
  for (let date = first; date <= last; date++) {
    const base = date * DAY;
    const plain = usual[weekdayOf(date)];
    const other = isOther(date);
    if (!plain && !other) continue;
    const next =
      other || !plain
        ? nightAfter(standing, week, date)
        : { night: plain.night, later: Math.floor(plain.night.opens / DAY), other };
    if (!next) continue;
    const opened = (exceptions.get(date) ?? week[weekdayOf(date)])?.opens ?? 0;
    const changes = changesIn(transitions, base + opened, base + next.night.opens, base);
    const special = changes.length > 0 || other || !plain ? specialNight(standing, date, next, changes, opened) : undefined;
    const dated = special?.dated ?? { date, special: [], night: next.night, rails: plain?.rails ?? [] };
    found.push(withNotes(dated, tooLong(base - moved, special?.stops ?? usualStops[weekdayOf(date)] ?? [])));
    for (const change of changes) moved += change.shift;
  }
  return found;
};

/** Those of the nights that are told on paper of their own: something is special about them, or something is wrong. */
export const specialNights = (standing: Standing, first: DayNumber, last: DayNumber): readonly DatedNight[] =>
  nightsBetween(standing, first, last).filter((n) => n.special.length > 0 || n.rails.some((r) => r.notes.length > 0));
