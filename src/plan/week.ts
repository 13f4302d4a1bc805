/**
 * A dated week of a store: its business days with their dates, each unit's own times on each, and what is different about some of them.
 */
import type { Known } from '../base/basis.js';
import { warning, type Finding } from '../base/finding.js';
import { DAY, moment, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { date, flag, phrase, verbatim, type ByDay, type CalendarDate, type Phrase, type Told } from '../base/value.js';
import { dayOfIso, dayWritten, isoOf, openOn, weekdayOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { isError, nightFindings } from './date-findings.js';
import { concernsStore, weekNote, type WeekNote } from './date-notes.js';
import { lastInSeason, listedHours, morningAfter, nightsOn } from './dates.js';
import type { StorePlan } from './index.js';
import { computed, practice, settle, told as toldIn, written } from './known.js';
import { openWeek } from './business-days.js';
import { beforeLeaving, type Emptying } from './leaving.js';
import { seasonNotes, type SeasonChange } from './season-clock.js';
import { changesIn, eveAt, eveOfChange } from './clock-changes.js';
import { closureNotes } from './closures.js';
import { roundsOn, type DatedTimes, type Working } from './day-rounds.js';
import type { Step, When } from './steps.js';
import { daysOfWeek, parseIsoWeek, shown, wallLegs, when, type DatedNight } from './timetable/dates/index.js';
import { pairsOf } from './timetable/index.js';
import type { UnitPlan } from './unit.js';

/** The first of seven days, or of fewer: a week in which a season begins has a sheet for each season's days. */
export interface WeekDates {
  readonly first: DayNumber;
  readonly days?: number;
}

export const lengthOf = ({ days }: WeekDates): number => days ?? WEEKDAYS.length;

/** The seven days from the chain's first weekday that contain the ISO week's Thursday. */
export const weekOfIso = (wrote: string, starts: Weekday): WeekDates | undefined => {
  const week = parseIsoWeek(wrote);
  return week && { first: daysOfWeek(week, WEEKDAYS.indexOf(starts))[0] as DayNumber };
};

/** Seven days from a date, whatever weekday it is. */
export const weekFrom = (iso: string): WeekDates | undefined => {
  const first = dayWritten(iso);
  return first === undefined ? undefined : { first };
};

/** The seven days from the chain's first weekday that hold a day. */
const weekHolding = (day: DayNumber, starts: Weekday): WeekDates => ({
  first: day - ((weekdayOf(day) - WEEKDAYS.indexOf(starts) + WEEKDAYS.length) % WEEKDAYS.length),
});

/** The week after the one that holds today. */
export const comingWeek = (today: string, starts: Weekday): WeekDates => ({
  first: weekHolding(dayOfIso(today) as DayNumber, starts).first + WEEKDAYS.length,
});

/** The chain's weeks from the one that holds the first day to the one that holds the last. */
export const weeksHolding = (first: DayNumber, last: DayNumber, starts: Weekday): readonly WeekDates[] => {
  const begin = weekHolding(first, starts).first;
  return Array.from({ length: Math.floor((last - begin) / WEEKDAYS.length) + 1 }, (_, n) => ({
    first: begin + n * WEEKDAYS.length,
  }));
};

/** So many days before and after a sheet's own a technician is told of in time, or asked after: common practice, no source. */
const AROUND = 8 * WEEKDAYS.length;

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
  const placed = beforeLeaving(when(wall, night.leaves, 'second'), empty, passing, pairsOf(night.closers));
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

/** A sentence for each unit; once for units of which the same is said at the same limit. */
const saidOnce = (units: readonly UnitPlan[], say: (unit: UnitPlan) => Known<Phrase> | undefined): readonly Known<Phrase>[] => [
  ...new Map(
    units.flatMap((unit) => {
      const said = say(unit);
      return said ? [[`${said.value.code} ${unit.limit.value.si}`, said] as const] : [];
    }),
  ).values(),
];

/** Changes of season at a sheet's ends: out of another's plan into it, and on into the next one's. */
export interface WeekChanges {
  readonly into?: SeasonChange | undefined;
  readonly outOf?: SeasonChange | undefined;
}

export const planWeek = (read: ReadStore, plan: StorePlan, dates: WeekDates, { into, outOf }: WeekChanges = {}) => {
  const { store } = read;
  const { week } = plan.solved.holds;
  const last = dates.first + lengthOf(dates) - 1;
  const dated = nightsOn(store, week, dates.first, last, { into: into !== undefined, outOf: outOf !== undefined }) ?? {
    nights: [],
    afternoons: [],
    other: new Set<DayNumber>(),
  };
  const units = Object.values(plan.units);
  const listed = (day: DayNumber): number => (store.exceptions ?? []).findIndex((e) => e.date === isoOf(day));

  const always = openWeek(store, week.on) === 'always';
  const emptyings = new Map(dated.nights.map((night) => [night, emptyingsOf(units, night)]));
  const days: readonly WeekDay[] = Array.from({ length: lengthOf(dates) }, (_, i): WeekDay => {
    const day = dates.first + i;
    const weekday = WEEKDAYS[weekdayOf(day)] as Weekday;
    const exception = listed(day);
    const hours =
      exception < 0
        ? undefined
        : written(verbatim(store.exceptions?.[exception]?.hours.wrote ?? ''), read.originOf('exceptions', exception, 'hours'));
    const tonight = dated.nights.find((n) => n.date === day);
    const before = dated.nights.find((n) => morningAfter(n) === day);
    const midday = dated.afternoons.find((n) => n.date === day);
    const of = (unit: UnitPlan, when: When, min: number, night: DatedNight): Known<Moment> => {
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
      const [evening, morning] = [tonight && inNight(tonight).evening, before && inNight(before).morning];
      const rows = [
        ...Object.entries(evening ?? {}).map(([when, min]) => [when, min, tonight] as const),
        ...Object.entries(morning ?? {}).map(([when, min]) => [when, min, before] as const),
        ...Object.entries(midday ? afternoonTimesOf(unit, midday) : {}).map(([when, min]) => [when, min, midday] as const),
      ];
      return Object.fromEntries(rows.map(([when, min, night]) => [when, of(unit, when as When, min, night as DatedNight)]));
    };
    const timesByUnit = Object.fromEntries(
      units.filter((u) => u.rest?.off || u.leaving).map((u) => [u.id.value.text, leavesOf(u)]),
    );
    const spans = openOn(store.hours.hours, isoOf(day), listedHours(store));
    const open = spans.length > 0;
    const atWork = (at: ByDay, otherwise: number): number => at.at[weekday]?.min ?? otherwise;
    const working: Working = {
      comes: before ? before.night.comes - morningOf(before) : atWork(plan.crew.comes.value, 0),
      firstPan: before ? before.night.firstPan - morningOf(before) : atWork(plan.crew.first_pan.value, 0),
      leaves: tonight ? tonight.night.leaves : atWork(plan.crew.leaves.value, DAY),
    };
    const opens = always ? spans[0]?.from : undefined;
    const rounds = open ? roundsOn(units, timesByUnit, working, { date: day, before, tonight }, opens) : [];
    const often = units.flatMap((unit) => unit.read_every ?? []);
    const roundsFrom = [plan.crew.comes, plan.crew.first_pan, plan.crew.leaves, ...often, hours ?? plan.store.hours];
    const mark = (code: string): Known<Phrase> => practice(phrase(`week.${code}`), `mark-${code}`);
    const listedHere = store.exceptions?.[exception];
    const onDate = (min: number): Known<Moment> => computed(moment(min), 'of-that-date', [hours ?? plan.store.hours]);
    const openings = dated.other.has(day) ? spans.map(({ from, to }) => ({ opens: onDate(from), closes: onDate(to) })) : [];
    const different: readonly Known<Phrase | Told>[] = [
      ...openings.map((one) =>
        one.closes.value.min - one.opens.value.min >= DAY
          ? practice(phrase('week.open-all'), 'mark-other-hours')
          : practice(phrase('week.open-from', one), 'mark-other-hours'),
      ),
      ...(listedHere?.why ? [written(toldIn(listedHere.why, read.lang), read.originOf('exceptions', exception, 'why'))] : []),
    ];
    const marked = [
      ...(dated.other.has(day) ? [mark('other-hours')] : []),
      ...(dated.nights.some((n) => changesIn(n).some(({ at }) => eveAt(n, at) === day)) ? [mark('clocks-change')] : []),
    ];
    return {
      date: practice(date(isoOf(day)), 'calendar'),
      weekday,
      open,
      openings,
      different,
      marks: marked,
      hours,
      units: timesByUnit,
      rounds: rounds.map(({ at, reads }) => ({
        at: computed(moment(at, weekday), 'round-of-the-day', roundsFrom),
        units: reads,
      })),
    };
  });

  const told = (
    night: DatedNight,
    wanted: (note: DatedNight['rails'][number]['notes'][number]) => boolean,
    over = false,
  ): readonly WeekNote[] => {
    const dateOf = (on: DayNumber): Known<CalendarDate> => days[on - dates.first]?.date ?? practice(date(isoOf(on)), 'calendar');
    const from = [
      days[night.date - dates.first]?.hours ?? plan.store.hours,
      plan.store.timezone,
      plan.crew.closes,
      plan.crew.opens,
    ];
    const seen = new Set<string>();
    // What concerns the store is told of its rails, and of none where it has none.
    const store: DatedNight['rails'][number]['notes'] =
      night.rails.length > 0 ? [] : changesIn(night).map((change) => ({ code: 'clocks-change', ...change, rest: 0 }));
    return [...night.rails, { rail: '', notes: store }].flatMap(({ rail, notes }) =>
      notes.filter(wanted).flatMap((note) => {
        const ofStore = concernsStore(note);
        const key = `${note.code} ${'what' in note ? note.what : ''}`;
        if (ofStore && seen.has(key)) return [];
        seen.add(key);
        const unit = ofStore ? undefined : plan.units[rail];
        const changes = note.code === 'clocks-change' ? eveAt(night, note.at) : undefined;
        // In a long closure the clocks may change on dates of which no sheet of these tells.
        if (changes !== undefined && (changes < dates.first - 1 || changes > last)) return [];
        const on = dateOf(changes ?? (over ? eveOfChange(night) : night.date));
        return [weekNote(note, on, unit, WEEKDAYS[weekdayOf(night.date)] as Weekday, from, plan.store.phones.service, over)];
      }),
    );
  };
  // A clock that does not follow a change of the clocks is wrong until somebody has turned it, not in that week alone.
  const byClock = units.some(({ rest }) => rest?.off && !rest.by_hand.value.is);
  // What is over counts whatever season it was in; what comes is told with the setting that will stand then.
  const past = byClock ? (nightsOn(store, week, dates.first - AROUND, dates.first - 1)?.nights ?? []) : [];
  const until = lastInSeason(store, week, { first: dates.first, last }, AROUND);
  const next = byClock ? (nightsOn(store, week, last + 1, until, { into: true, outOf: true })?.nights ?? []) : [];
  const begins = dated.nights[0]?.date ?? dates.first;
  /** Somebody has set the clock since, or told what it stands at. */
  const turnedSince = (unit: string, night: DatedNight): boolean => {
    const { set_by: signed, found } = read.units.find(({ id }) => id === unit)?.unit ?? {};
    return [signed?.when, found?.clock && found.when].some(
      (seen) => seen !== undefined && seen > isoOf(eveOfChange(night)) && seen <= isoOf(last),
    );
  };
  const untold = past
    .filter(({ date: on }) => on < begins)
    .map((night) => ({ ...night, rails: night.rails.filter(({ rail }) => !turnedSince(rail, night)) }));
  const since = untold.flatMap((night) => told(night, ({ code }) => code === 'reset-clock', true));
  const coming = next.filter(({ date: on }) => on > last).flatMap((night) => told(night, (note) => !isError(note)));
  const tree = {
    from: days[0]?.date as Known<CalendarDate>,
    to: days.at(-1)?.date as Known<CalendarDate>,
    /** Until when people write into the column of the day before, in a store that never closes. */
    all_night: dated.nights.some(({ night }) => night.attended) ? plan.crew.comes : undefined,
    /** The store does business on one of the days. */
    open: practice(flag(days.some(({ open }) => open)), 'trait'),
    days: days.map((d) => ({
      date: d.date,
      open: practice(flag(d.open), 'trait'),
      hours: d.hours,
      openings: d.openings,
      different: d.different,
      marks: d.marks,
      units: d.units,
      rounds: d.rounds.map(({ at }) => ({ at })),
    })),
    /** Where food goes that is still cold, out of a box that is not: once for units of which the same is said. */
    keep: saidOnce(units, ({ call }) => call.keep),
    /** What to do after a power cut with what has no top, said once too. One with a top has a row of its own. */
    after_cut: saidOnce(units, ({ is, limit }) => {
      if (is.rail.value.is) return undefined;
      const code = is.sealed.value.is ? 'sealed' : is.frozen.value.is ? 'frozen' : 'cold';
      return practice(phrase(`week.power-cut-${code}`, { limit }), 'after-cut');
    }),
    /** Of each room that people walk into: its inside release is tried. */
    release: units
      .filter(({ is }) => is.room.value.is)
      .map((unit) => practice(phrase('week.release', { unit: unit.nickname }), 'inside-release')),
    notes: [
      ...since,
      ...(into ? seasonNotes(read, into, 'after') : []),
      ...(outOf ? seasonNotes(read, outOf, 'before') : []),
      ...closureNotes(read, plan, dates.first, last),
      ...[...dated.nights, ...dated.afternoons]
        .toSorted((a, b) => a.date - b.date)
        .flatMap((night) => told(night, (note) => !isError(note))),
    ],
    errors: dated.nights.flatMap((night) => told(night, isError)),
  };
  settle({ week: tree });
  const findingOf = (code: string, { date: on, unit }: WeekNote): readonly Finding[] => {
    const id = units.find(({ nickname }) => nickname === unit)?.id.value.text;
    return id === undefined ? [] : [warning(code, read.originOf('units', id).at, { date: on.value.iso, unit: id })];
  };
  const ordered = [...tree.notes, ...coming].flatMap((note) =>
    note.hand && note.who.value.code === 'technician' ? findingOf('date-technician', note) : [],
  );
  const asked = since.flatMap((note) => findingOf('clock-since-change', note));
  return {
    days,
    tree,
    findings: [...dated.nights.flatMap((night) => nightFindings(read, night)), ...asked, ...ordered],
  };
};

export type Week = ReturnType<typeof planWeek>;

/** A step's time on a day of the week; undefined where it has none. */
export const timeOn = (step: Step, unit: UnitPlan, day: WeekDay): Known<Moment> | undefined =>
  step.when === undefined ? undefined : day.units[unit.id.value.text]?.[step.when];
