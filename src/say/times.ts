/**
 * Clock times, weekdays and dates in the reader's language. A time past midnight is said with the night it belongs to.
 */
import { DAY, daysLater, onTheWall, weekdayAfter, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { ByDay, OpenHours } from '../base/value.js';

export type ClockShows = '24-hour' | '12-hour';

export interface Times {
  /** `22:45`, or `10:45 pm`. */
  readonly moment: (m: Moment) => string;
  readonly weekday: (day: Weekday) => string;
  /** `Sat 00:30` for a time that the wall clock shows on a later day than the business day; else the time alone. */
  readonly momentOf: (day: Weekday, m: Moment) => string;
  /** Days in order from the week's first, runs joined: `Mon–Wed, Fri`; over the week's end too: `Sun–Thu`. */
  readonly days: (days: readonly Weekday[]) => string;
  /** The times of a week, days with the same time together; one line each. */
  readonly byDay: (
    value: ByDay,
  ) => readonly { readonly days: readonly Weekday[]; readonly moment: Moment; readonly text: string }[];
  /** `Sun–Thu 11:00–22:00; Fri, Sat 11:00–14:00, 17:00–00:30`; what is open for longer than a day ends with its weekday. */
  readonly hours: (at: Exclude<OpenHours['at'], 'always'>) => string;
  readonly date: (iso: string) => string;
  readonly shortDate: (iso: string) => string;
}

const NBSP = '\u00a0';

/** Monday 2024-01-01 and the days after it stand for the weekdays. */
const sample = (day: Weekday): Date => new Date(Date.UTC(2024, 0, 1 + WEEKDAYS.indexOf(day)));

/** Runs of neighbouring days, the week taken as a circle that starts at `first`. */
const runsOf = (days: readonly Weekday[], first: Weekday): readonly (readonly Weekday[])[] => {
  const order = WEEKDAYS.map((_, i) => weekdayAfter(first, i));
  const runs: Weekday[][] = [];
  for (const day of order) {
    if (!days.includes(day)) continue;
    const last = runs.at(-1);
    if (last && weekdayAfter(last.at(-1) as Weekday, 1) === day) last.push(day);
    else runs.push([day]);
  }
  // A run over the end of the week is one where it is then said shorter: Sunday to Thursday.
  const [begins, ends] = [runs[0], runs.at(-1)];
  if (!begins || !ends || begins === ends || begins.length + ends.length < 3) return runs;
  return weekdayAfter(ends.at(-1) as Weekday, 1) === begins[0] ? [[...ends, ...begins], ...runs.slice(1, -1)] : runs;
};

const formatsOf = (locale: string) => ({
  weekdayFormat: new Intl.DateTimeFormat(locale, { weekday: 'short', timeZone: 'UTC' }),
  longDate: new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' }),
  dayAndMonth: new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', timeZone: 'UTC' }),
});

/** By locale: making a format takes far longer than using it. */
const formats = new Map<string, ReturnType<typeof formatsOf>>();

/** @param first the chain's first day of the week */
export const times = (locale: string, shows: ClockShows, first: Weekday, nightOf: (days: string) => string): Times => {
  const known = formats.get(locale) ?? formatsOf(locale);
  formats.set(locale, known);
  const { weekdayFormat, longDate, dayAndMonth } = known;
  const clean = (text: string): string => text.replace(/[\u202f\u2009]/g, NBSP).replace(/\.(?=\s|$)/g, '');

  const moment = (m: Moment): string => {
    const wall = onTheWall(m);
    const minutes = String(wall % 60).padStart(2, '0');
    const hour = Math.floor(wall / 60);
    if (shows === '24-hour') return `${String(hour).padStart(2, '0')}:${minutes}`;
    return `${hour % 12 === 0 ? 12 : hour % 12}:${minutes}${NBSP}${hour < 12 ? 'am' : 'pm'}`;
  };
  const weekday = (day: Weekday): string => {
    const word = clean(weekdayFormat.format(sample(day)));
    return word.charAt(0).toUpperCase() + word.slice(1);
  };
  const momentOf = (day: Weekday, m: Moment): string =>
    daysLater(m) === 0 ? moment(m) : `${weekday(weekdayAfter(day, daysLater(m)))}${NBSP}${moment(m)}`;
  const days = (some: readonly Weekday[]): string =>
    runsOf(some, first)
      .map((run) =>
        run.length > 2 ? `${weekday(run[0] as Weekday)}–${weekday(run.at(-1) as Weekday)}` : run.map(weekday).join(', '),
      )
      .join(', ');
  const byDay: Times['byDay'] = ({ at }) => {
    const groups = new Map<number, Weekday[]>();
    for (const day of WEEKDAYS.map((_, i) => weekdayAfter(first, i))) {
      const m = at[day];
      if (m) groups.set(m.min, [...(groups.get(m.min) ?? []), day]);
    }
    const several = groups.size > 1;
    return [...groups].map(([min, group]) => {
      const m: Moment = { q: 'moment', min };
      const named = daysLater(m) > 0 ? nightOf(days(group)) : days(group);
      return { days: group, moment: m, text: several ? `${named}${NBSP}${moment(m)}` : moment(m) };
    });
  };
  const hours: Times['hours'] = (at) => {
    const groups = new Map<string, Weekday[]>();
    for (const day of WEEKDAYS) {
      const spans = at[day]?.map(({ from, to }) => `${moment(from)}–${to.min - from.min > DAY ? momentOf(day, to) : moment(to)}`);
      if (spans) groups.set(spans.join(', '), [...(groups.get(spans.join(', ')) ?? []), day]);
    }
    return [...groups].map(([spans, group]) => `${days(group)} ${spans}`).join('; ');
  };
  const date = (iso: string, format: Intl.DateTimeFormat): string => clean(format.format(new Date(`${iso}T00:00:00Z`)));
  return {
    hours,
    moment,
    weekday,
    momentOf,
    days,
    byDay,
    date: (iso) => date(iso, longDate),
    shortDate: (iso) => date(iso, dayAndMonth),
  };
};
