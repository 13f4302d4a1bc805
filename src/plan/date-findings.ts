/**
 * What is wrong with a night of a real date, as findings: an error where no time can be told, a warning where a rail rests too little.
 */
import { amount, type Amount } from '../base/amount.js';
import { error, warning, type Datum, type Finding } from '../base/finding.js';
import { moment, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { Place } from '../base/place.js';
import { dayOfIso, isoOf, weekdayOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { morningAfter, nightsOn } from './dates.js';
import type { SolvedWeek } from './rests.js';
import type { DatedNight, DateNote } from './timetable/dates/index.js';

/** No task can help: no time is told for that rail and that night. */
const ERRORS: readonly DateNote['code'][] = [
  'first-pan-before-closing',
  'empty-after-crew-leaves',
  'load-before-crew-comes',
  'wiped-too-late',
];
/** Worth a warning before the week comes. */
const WARNINGS: readonly DateNote['code'][] = ['run-too-long', 'rest-short'];
/** Lengths; every other number is a time of the night. */
const LENGTHS = ['shift', 'rest', 'least', 'turn', 'late', 'run', 'longest'];

export const isError = (note: DateNote): boolean => ERRORS.includes(note.code);

/** The numbers of a note as values, by the names that sentences use. */
export const figuresOf = (note: DateNote, weekday: Weekday): Readonly<Record<string, Amount<'duration'> | Moment>> =>
  Object.fromEntries(
    Object.entries(note).flatMap(([key, value]): readonly (readonly [string, Amount<'duration'> | Moment])[] => {
      if (typeof value !== 'number') return [];
      const name = key.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`);
      return [[name, LENGTHS.includes(key) ? amount('duration', Math.abs(value) * 60) : moment(value, weekday)]];
    }),
  );

/** Where somebody wrote what makes a night different: the hours of its date or of the morning after it, else the ordinary hours. */
const placeOf = (read: ReadStore, night: DatedNight): Place => {
  const dates = [night.date, morningAfter(night)].map(isoOf);
  const listed = (read.store.exceptions ?? []).findIndex((e) => dates.includes(e.date));
  return (listed < 0 ? read.originOf('hours') : read.originOf('exceptions', listed, 'hours')).at;
};

export const nightFindings = (read: ReadStore, night: DatedNight): readonly Finding[] =>
  night.rails.flatMap(({ rail, notes }) =>
    notes
      .filter((note) => ERRORS.includes(note.code) || WARNINGS.includes(note.code))
      .map((note) => {
        const times: Readonly<Record<string, Datum>> = figuresOf(note, WEEKDAYS[weekdayOf(night.date)] as Weekday);
        const make = isError(note) ? error : warning;
        return make(`date-${note.code}`, placeOf(read, night), { date: isoOf(night.date), unit: rail, ...times });
      }),
  );

/** Of the dates for which a store lists other hours, whichever week is printed; each night once. */
export const listedFindings = (read: ReadStore, week: SolvedWeek): readonly Finding[] => {
  const nights = new Map<DayNumber, DatedNight>();
  for (const date of [...(read.store.exceptions ?? []).map((e) => e.date), ...(read.store.holidays ?? [])]) {
    const day = dayOfIso(date) as DayNumber;
    for (const night of nightsOn(read.store, week, day, day)?.nights ?? []) nights.set(night.date, night);
  }
  return [...nights.values()].flatMap((night) => nightFindings(read, night));
};
