/**
 * The days of a dated week: of each its business, each unit's own times on it, its rounds with the probe, and what is different about it.
 */
import type { Known } from '../base/basis.js';
import { DAY, moment, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { phrase, verbatim, type ByDay, type CalendarDate, type Phrase, type Told } from '../base/value.js';
import { isoOf, openOn, weekdayOf, type DayNumber, type Span } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { openWeek } from './business-days.js';
import { changesIn, eveAt } from './clock-changes.js';
import { isError } from './date-findings.js';
import { calendarOf, listedHours, morningAfter, type DatedNights } from './dates.js';
import { roundsOn, type Between, type DatedTimes, type Working } from './day-rounds.js';
import type { StorePlan } from './index.js';
import { computed, practice, told as toldIn, written } from './known.js';
import { beforeLeaving, type Emptying } from './leaving.js';
import type { When } from './steps.js';
import { leavingOf, shown, wallLegs, when, type DatedNight } from './timetable/dates/index.js';
import { pairsOf } from './timetable/index.js';
import type { UnitPlan } from './unit.js';

export interface WeekDay {
  readonly date: Known<CalendarDate>;
  readonly weekday: Weekday;
  /** The store does business that day. */
  readonly open: boolean;
  /** When it is open on a date of other hours than its weekday's. */
  readonly openings: readonly { readonly opens: Known<Moment>; readonly closes: Known<Moment> }[];
  /** What is different about the day, for the head of its column. */
  readonly marks: readonly Known<Phrase>[];
  /** Its hours where they are others than its weekday's, and why, as far as somebody wrote it. */
  readonly different: readonly Known<Phrase | Told>[];
  /** The hours that somebody wrote for this date. */
  readonly hours: Known<{ readonly q: 'verbatim'; readonly text: string }> | undefined;
  readonly units: Readonly<Record<string, DatedTimes>>;
  /** By when the day's rounds with the probe are made, and of which units food is read on each; `boxOf` one its box alone. */
  readonly rounds: readonly { readonly at: Known<Moment>; readonly units: readonly string[] }[];
}

type Minutes = Readonly<Partial<Record<When, number>>>;

/** The midnight before a night's morning, in minutes of its evening's date. */
const morningOf = ({ night }: DatedNight): number => Math.floor(night.opens / DAY) * DAY;

/** When the crew of a night empties the tops that no clock stops in it, one that a hand holds on too, beside those that one does. */
const emptyingsOf = (units: readonly UnitPlan[], dated: DatedNight): ReadonlyMap<string, Emptying> => {
  const { night, rails } = dated;
  const stopped = new Map(rails.flatMap(({ rail, rest }) => (rest ? [[rail, rest] as const] : [])));
  const tops = units.filter(({ id, leaving, rest }) => leaving ?? (rest?.off && !stopped.has(id.value.text)));
  const taken = [...stopped.values()].map((rest) => ({ start: rest.startEmptying, emptyBy: rest.emptyBy }));
  const empty = tops.map(({ move }) => move?.empty.value.si ?? 0);
  // By the minutes that pass: in the hour that the wall leaves out nothing is done.
  const wall = wallLegs(changesIn(dated));
  const passing = taken.map(({ start, emptyBy }) => ({
    start: when(wall, start, 'first'),
    emptyBy: when(wall, emptyBy, 'second'),
  }));
  const placed = beforeLeaving(leavingOf(wall, night), empty, passing, pairsOf(night.closers));
  return new Map(
    tops.map(({ id }, i) => {
      const { start, emptyBy } = placed[i] as Emptying;
      return [id.value.text, { start: shown(wall, start), emptyBy: shown(wall, emptyBy) }];
    }),
  );
};

/** A unit's times of one night, and of the morning after it in minutes of that morning's own date. */
const timesOf = (
  unit: UnitPlan,
  night: DatedNight,
  emptyings: ReadonlyMap<string, Emptying>,
): {
  readonly evening: Minutes;
  readonly morning: Minutes;
} => {
  const { rest, leaving } = unit;
  const since = morningOf(night);
  const firstPan = night.night.firstPan - since;
  const placed = emptyings.get(unit.id.value.text);
  const byLeaving = { start: placed?.start ?? 0, empty_by: placed?.emptyBy ?? 0 };
  const rail = night.rails.find((r) => r.rail === unit.id.value.text);
  if (leaving && rest?.afternoon.value.is)
    return {
      evening: { night_start: byLeaving.start, night_empty_by: byLeaving.empty_by },
      morning: { morning_first_pan: firstPan },
    };
  if (leaving) return { evening: byLeaving, morning: { first_pan: firstPan } };
  if (!rail || !rest?.off || rail.notes.some(isError)) return { evening: {}, morning: {} };
  const morning = { cold_by: rail.coldBy - since, first_pan: firstPan };
  // A rail that a hand holds on is emptied all the same: somebody may forget it.
  if (!rail.rest) return { evening: byLeaving, morning };
  const { startEmptying: start, emptyBy: empty_by, off, on, wiped } = rail.rest;
  return {
    evening: { start, empty_by, off },
    morning: { ...morning, on: on - since, ...(rest.wipe ? { wipe: (wiped ?? on) - since } : {}) },
  };
};

/** A unit's times in an afternoon closing; none where it does not rest on that date. */
const afternoonTimesOf = (unit: UnitPlan, { night, rails }: DatedNight): Minutes => {
  const rail = rails.find((r) => r.rail === unit.id.value.text);
  if (!rail?.rest) return {};
  const { startEmptying: start, emptyBy: empty_by, off, on, wiped } = rail.rest;
  const wipe = unit.rest?.wipe ? { wipe: wiped ?? on } : {};
  return { start, empty_by, off, ...wipe, on, cold_by: rail.coldBy, first_pan: night.firstPan };
};

/** A date of the week, between its two nights and beside its afternoon closing. */
interface Day extends Between {
  readonly weekday: Weekday;
  readonly midday: DatedNight | undefined;
  /** When it is open. */
  readonly spans: readonly Span[];
  /** The hours that somebody wrote for it. */
  readonly hours: WeekDay['hours'];
}

/** The times of each top that has some, as leaves: of an ordinary night as on its weekday. */
const timesByUnit = (
  { plan, emptyings }: { readonly plan: StorePlan; readonly emptyings: ReadonlyMap<DatedNight, ReadonlyMap<string, Emptying>> },
  { weekday, before, tonight, midday, hours }: Day,
): WeekDay['units'] => {
  const leafOf = (unit: UnitPlan, when: When, min: number, night: DatedNight): Known<Moment> => {
    const usual: Readonly<Partial<Record<When, Known<unknown> | undefined>>> = {
      ...(unit.rest ?? unit.leaving),
      ...(unit.rest && unit.leaving ? { night_start: unit.leaving.start, night_empty_by: unit.leaving.empty_by } : {}),
    };
    const from = usual[when] ?? plan.crew.first_pan;
    return night.special.length === 0
      ? computed(moment(min, weekday), 'as-on-its-weekday', [from])
      : computed(moment(min, weekday), 'of-that-date', [from, hours ?? plan.store.hours, plan.store.timezone]);
  };
  const leavesOf = (unit: UnitPlan): DatedTimes => {
    const inNight = (night: DatedNight) => timesOf(unit, night, emptyings.get(night) ?? new Map());
    const rows = (
      [
        [tonight && inNight(tonight).evening, tonight],
        [before && inNight(before).morning, before],
        [midday && afternoonTimesOf(unit, midday), midday],
      ] as const
    ).flatMap(([minutes, night]) => Object.entries(minutes ?? {}).map(([when, min]) => [when, min, night] as const));
    return Object.fromEntries(rows.map(([when, min, night]) => [when, leafOf(unit, when as When, min, night as DatedNight)]));
  };
  const tops = Object.values(plan.units).filter((unit) => unit.rest?.off || unit.leaving);
  return Object.fromEntries(tops.map((unit) => [unit.id.value.text, leavesOf(unit)]));
};

/** By when food is read, none on a date on which the store is closed. */
const roundsOf = (plan: StorePlan, units: WeekDay['units'], day: Day, opens: number | undefined): WeekDay['rounds'] => {
  const { weekday, before, tonight, spans, hours } = day;
  if (spans.length === 0) return [];
  const { crew } = plan;
  const atWork = (at: ByDay, otherwise: number): number => at.at[weekday]?.min ?? otherwise;
  const working: Working = {
    comes: before ? before.night.comes - morningOf(before) : atWork(crew.comes.value, 0),
    firstPan: before ? before.night.firstPan - morningOf(before) : atWork(crew.first_pan.value, 0),
    leaves: tonight ? tonight.night.leaves : atWork(crew.leaves.value, DAY),
  };
  const all = Object.values(plan.units);
  const often = all.flatMap((unit) => unit.read_every ?? []);
  const from = [crew.comes, crew.first_pan, crew.leaves, ...often, hours ?? plan.store.hours];
  return roundsOn(all, units, working, day, opens).map(({ at, reads }) => ({
    at: computed(moment(at, weekday), 'round-of-the-day', from),
    units: reads,
  }));
};

/** @param first the first day @param length of how many days */
export const daysOf = (
  read: ReadStore,
  plan: StorePlan,
  { first, length }: { readonly first: DayNumber; readonly length: number },
  dated: DatedNights,
): readonly WeekDay[] => {
  const { store } = read;
  const always = openWeek(store, plan.solved.holds.week.on) === 'always';
  const emptyings = new Map(dated.nights.map((night) => [night, emptyingsOf(Object.values(plan.units), night)]));
  const mark = (code: string): Known<Phrase> => practice(phrase(`week.${code}`), `mark-${code}`);
  return Array.from({ length }, (_, i): WeekDay => {
    const on = first + i;
    const iso = isoOf(on);
    const listed = (store.exceptions ?? []).findIndex((e) => e.date === iso);
    const exception = store.exceptions?.[listed];
    const origin = (key: string) => read.originOf('exceptions', listed, key);
    const day: Day = {
      date: on,
      weekday: WEEKDAYS[weekdayOf(on)] as Weekday,
      tonight: dated.nights.find((n) => n.date === on),
      before: dated.nights.find((n) => morningAfter(n) === on),
      midday: dated.afternoons.find((n) => n.date === on),
      spans: openOn(store.hours.hours, iso, listedHours(store)),
      hours: exception && written(verbatim(exception.hours.wrote), origin('hours')),
    };
    const { weekday, spans, hours } = day;
    const units = timesByUnit({ plan, emptyings }, day);
    const onDate = (min: number): Known<Moment> => computed(moment(min), 'of-that-date', [hours ?? plan.store.hours]);
    const openings = dated.other.has(on) ? spans.map(({ from, to }) => ({ opens: onDate(from), closes: onDate(to) })) : [];
    const clocks = dated.nights.some((n) => changesIn(n).some(({ at }) => eveAt(n, at) === on));
    return {
      date: calendarOf(on),
      weekday,
      open: spans.length > 0,
      openings,
      different: [
        ...openings.map((one) => {
          const allDay = one.closes.value.min - one.opens.value.min >= DAY;
          return practice(allDay ? phrase('week.open-all') : phrase('week.open-from', one), 'mark-other-hours');
        }),
        ...(exception?.why ? [written(toldIn(exception.why, read.lang), origin('why'))] : []),
      ],
      marks: [...(dated.other.has(on) ? [mark('other-hours')] : []), ...(clocks ? [mark('clocks-change')] : [])],
      hours,
      units,
      rounds: roundsOf(plan, units, day, always ? spans[0]?.from : undefined),
    };
  });
};
