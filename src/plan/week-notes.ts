/**
 * What is told about the dates of a week: changes of the clocks and of hours, closures, hands that are ordered to a clock, and what is asked once a date is over.
 */
import type { Known } from '../base/basis.js';
import { DAY, moment, onTheWall, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { phrase, type CalendarDate } from '../base/value.js';
import { dayOfIso, isoOf, weekdayOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { changesBetween, changesIn, eveAt, eveOfChange } from './clock-changes.js';
import { closureNotes } from './closures.js';
import { isError } from './date-findings.js';
import { concernsStore, weekNote, type WeekNote } from './date-notes.js';
import { calendarOf, lastInSeason, nightsOn, type DatedNights } from './dates.js';
import type { StorePlan } from './index.js';
import { computed, practice } from './known.js';
import { seasonNotes, type SeasonChange } from './season-clock.js';
import type { DatedNight, DateNote } from './timetable/dates/index.js';
import type { UnitPlan } from './unit.js';
import { lengthOf, type WeekDates } from './week-dates.js';
import type { WeekDay } from './week-days.js';

/** So many days before and after a sheet's own a technician is told of in time, or asked after: common practice, no source. */
const AROUND = 8 * WEEKDAYS.length;

/** A change of the clocks lies no further back. */
const YEAR = 370;

/** What a clock that does not follow stands at by the wall, as it was read, if nobody has turned it at a change of the clocks since: a sentence a setting. */
export const unturnedOf = (read: ReadStore, plan: StorePlan, unit: UnitPlan, first: DayNumber) => {
  const id = unit.id.value.text;
  const { found, set_by: by } = read.units.find((one) => one.id === id)?.unit ?? {};
  const judged = plan.solved.holds.byUnit.get(id)?.judged;
  const seen = [found?.clock && found.when, by?.when]
    .flatMap((day) => day ?? [])
    .toSorted()
    .at(-1);
  if (!unit.clock_stands || !judged || seen === undefined || judged.problem.rails[judged.rail]?.clock?.followsDst) return [];
  const changes = changesBetween(read.store.timezone, (dayOfIso(seen) as DayNumber) + 1, first);
  const shift = changes.reduce((sum, change) => sum + change.shift, 0);
  if (shift === 0) return [];
  return unit.clock_stands.map(({ days, off, on }) => {
    const from = [off, on, plan.store.timezone];
    const goes = off.value.min + shift;
    const shifted = days.value.days.map(
      (day) => WEEKDAYS[(WEEKDAYS.indexOf(day) + Math.floor(goes / DAY) + WEEKDAYS.length) % WEEKDAYS.length] as Weekday,
    );
    const at = (min: number): Known<Moment> => computed(moment(onTheWall(moment(min))), 'season-clock-walked', from);
    const told = { days: WEEKDAYS.filter((day) => shifted.includes(day)), q: 'days' as const };
    const figures = { days: computed(told, 'season-clock-walked', from), off: at(goes), on: at(on.value.min + shift) };
    return { ...figures, says: practice(phrase('week.clock-unturned', { unit: unit.nickname, ...figures }), 'found-set') };
  });
};

/** Changes of season at a sheet's ends: out of another's plan into it, and on into the next one's. */
export interface WeekChanges {
  readonly into?: SeasonChange | undefined;
  readonly outOf?: SeasonChange | undefined;
}

export interface WeekNotes {
  readonly notes: readonly WeekNote[];
  /** What no task can help. */
  readonly errors: readonly WeekNote[];
  /** Of the weeks after: told in time to whoever orders a technician. */
  readonly coming: readonly WeekNote[];
}

export const weekNotes = (
  read: ReadStore,
  plan: StorePlan,
  dates: WeekDates,
  { dated, days }: { readonly dated: DatedNights; readonly days: readonly WeekDay[] },
  { into, outOf }: WeekChanges,
): WeekNotes => {
  const { store } = read;
  const { week } = plan.solved.holds;
  const last = dates.first + lengthOf(dates) - 1;
  const units = Object.values(plan.units);

  const told = (night: DatedNight, wanted: (note: DateNote) => boolean, over = false): readonly WeekNote[] => {
    const dateOf = (on: DayNumber): Known<CalendarDate> => days[on - dates.first]?.date ?? calendarOf(on);
    const from = [
      days[night.date - dates.first]?.hours ?? plan.store.hours,
      plan.store.timezone,
      plan.crew.closes,
      plan.crew.opens,
    ];
    const seen = new Set<string>();
    // What concerns the store is told of its rails, and of none where it has none.
    const store: readonly DateNote[] =
      night.rails.length > 0 ? [] : changesIn(night).map((change) => ({ code: 'clocks-change', ...change, rest: 0 }));
    return [...night.rails, { rail: '', notes: store }].flatMap(({ rail, notes }) =>
      notes.filter(wanted).flatMap((note) => {
        const ofStore = concernsStore(note);
        const key = `${note.code} ${'what' in note ? note.what : ''}`;
        if (ofStore && seen.has(key)) return [];
        seen.add(key);
        const unit = ofStore ? undefined : plan.units[rail];
        const changes = note.code === 'clocks-change' ? eveAt(night, note.at) : undefined;
        // In a long closure the clocks may change on dates of which no sheet of these tells, unless somebody is ordered for it.
        const ordered =
          night.date >= dates.first && night.rails.some((one) => one.notes.some(({ code }) => code === 'reset-clock'));
        if (changes !== undefined && (changes < dates.first - 1 || (changes > last && !ordered))) return [];
        const on = dateOf(changes ?? (over ? eveOfChange(night) : night.date));
        return [weekNote(note, on, unit, WEEKDAYS[weekdayOf(night.date)] as Weekday, from, plan.store.phones.service, over)];
      }),
    );
  };
  // A clock that does not follow a change of the clocks is wrong until somebody has turned it, not in that week alone.
  const byClock = units.some(({ rest }) => rest?.off && !rest.by_hand.value.is);
  // What is over counts whatever season it was in; what comes is told with the setting that will stand then.
  const change = byClock ? changesBetween(store.timezone, dates.first - YEAR, dates.first).at(-1) : undefined;
  const changed = change && Math.floor(change.at / DAY);
  const isClosed = !days.some((day) => day.open);
  const past = changed === undefined || isClosed ? [] : (nightsOn(store, week, changed - 1, changed)?.nights ?? []);
  const until = lastInSeason(store, week, { first: dates.first, last }, AROUND);
  const next = byClock ? (nightsOn(store, week, last + 1, until, { into: true, outOf: true })?.nights ?? []) : [];
  const begins = dated.nights[0]?.date ?? dates.first;
  /** Nobody has set the clock since, or told what it stands at. What was signed before holds no longer, however long ago; of what nobody signed, sheets say so. */
  const isOpen = (unit: string, night: DatedNight): boolean => {
    const { set_by: signed, found } = read.units.find(({ id }) => id === unit)?.unit ?? {};
    const seen = [signed?.when, found?.clock && found.when].flatMap((day) => day ?? []);
    const eve = eveOfChange(night);
    const turned = seen.some((day) => day > isoOf(eve) && day <= isoOf(last));
    return !turned && (seen.length > 0 || eve >= dates.first - AROUND);
  };
  const open = (night: DatedNight): DatedNight => ({ ...night, rails: night.rails.filter(({ rail }) => isOpen(rail, night)) });
  const isReset = (note: DateNote): boolean => note.code === 'reset-clock';
  /** Of a night that began before these days nobody can be sent to a clock any more: whether it was done is asked. */
  const ofNight = (night: DatedNight): readonly WeekNote[] => {
    if (night.date >= dates.first) return told(night, (note) => !isError(note));
    const done = (note: DateNote): boolean =>
      isReset(note) || note.code === 'hold-on' || ('what' in note && ['reset', 'hold', 'release'].includes(note.what));
    const asked = eveOfChange(night) <= last ? told(open(night), isReset, true) : [];
    return [...asked, ...told(night, (note) => !isError(note) && !done(note))];
  };
  const since = past.filter(({ date: on }) => on < begins).flatMap((night) => told(open(night), isReset, true));
  const coming = next.filter(({ date: on }) => on > last).flatMap((night) => told(night, (note) => !isError(note)));
  return {
    notes: [
      ...since,
      ...(into ? seasonNotes(read, into, 'after') : []),
      ...(outOf ? seasonNotes(read, outOf, 'before') : []),
      ...closureNotes(read, plan, dates.first, last),
      ...[...dated.nights, ...dated.afternoons].toSorted((a, b) => a.date - b.date).flatMap(ofNight),
    ],
    errors: dated.nights.flatMap((night) => told(night, isError)),
    coming,
  };
};
