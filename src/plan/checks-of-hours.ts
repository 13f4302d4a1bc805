/**
 * What is wrong with a store's time zone, with its quiet window, and with hours that run into the next day.
 */
import { error, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { DAY, moment, WEEKDAYS, type Weekday } from '../base/moment.js';
import {
  dayOfIso,
  isSeasonal,
  names,
  openOn,
  sameSpans,
  weekOf,
  writeSpan,
  type DayNumber,
  type Span,
} from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { businessDays, openWeek, ruleFor, type BusinessDay } from './business-days.js';
import { validZone } from './timetable/dates/index.js';

/** Whether a store is open throughout a window on each of its days. */
const isOpenIn = (week: readonly Span[], window: Span): boolean =>
  WEEKDAYS.every((_, day) => {
    const from = day * DAY + window.from;
    const to = day * DAY + window.to + (window.to <= window.from ? DAY : 0);
    return [0, 7 * DAY].some((turn) => week.some((s) => s.from <= from + turn && to + turn <= s.to));
  });

/** @returns `bad-zone` for a time zone that is none */
export const checkZone = (wrote: string, at: Place): readonly Finding[] => {
  const zone = validZone(wrote);
  if (zone.ok) return [];
  return [
    error('bad-zone', at, {
      wrote,
      ...(zone.suggestion === undefined ? {} : { nearest: zone.suggestion }),
      ...(zone.fixed === undefined ? {} : { fixed: zone.fixed }),
    }),
  ];
};

/** A closing later than this on the next day more likely has its two times swapped. Common practice, no source. */
const LATE_MORNING = 8 * 60;

/** Hours that run through the night into the day: they may be meant, or be swapped. */
const throughTheNight = ({ store, originOf }: ReadStore): readonly Finding[] => {
  const week = openWeek(store);
  const found = new Map<string, { from: number; to: number; days: Weekday[] }>();
  for (const [day, spans] of week === 'always' ? [] : week)
    for (const { from, to } of spans.filter((s) => s.to > DAY + LATE_MORNING && s.to - s.from < DAY)) {
      const key = `${from} ${to}`;
      const one = found.get(key) ?? { from, to: to % DAY, days: [] };
      one.days.push(day);
      found.set(key, one);
    }
  return [...found.values()].map(({ from, to, days }) =>
    warning('open-through-night', originOf('hours').at, {
      days,
      from: moment(from),
      to: moment(to),
      ...(to < from ? { suggestion: writeSpan({ from: to, to: from }) } : {}),
    }),
  );
};

/** Holidays that the hours speak of and nobody lists: what is said of them would never hold. */
const unlistedHolidays = ({ store, originOf }: ReadStore): readonly Finding[] =>
  store.hours.hours.rules.some((rule) => rule.holidays) && (store.holidays ?? []).length === 0
    ? [error('holidays-unlisted', originOf('hours').at, { wrote: store.hours.wrote })]
    : [];

/** Exceptions that name a date again, or weekdays and holidays of their own: one date has one answer, whatever its weekday. */
const unclear = ({ store, originOf }: ReadStore): readonly Finding[] =>
  (store.exceptions ?? []).flatMap(({ date, hours }, i, all) => [
    ...(all.findIndex((other) => other.date === date) < i
      ? [error('exception-twice', originOf('exceptions', i).at, { date })]
      : []),
    ...(hours.hours.rules.some(({ days, dates, holidays }) => days !== null || dates !== null || holidays)
      ? [error('exception-of-days', originOf('exceptions', i, 'hours').at, { date, wrote: hours.wrote })]
      : []),
  ]);

/** Two answers for one date: what `hours` says of it, and an exception for it. */
const saidTwice = ({ store, originOf }: ReadStore): readonly Finding[] =>
  (store.exceptions ?? []).flatMap(({ date, hours }, i) => {
    const day = dayOfIso(date) as DayNumber;
    const dated = store.hours.hours.rules.filter((rule) => rule.dates !== null && !isSeasonal(rule) && names(rule, day, false));
    const said = openOn(store.hours.hours, date, { holidays: store.holidays ?? [] });
    if (dated.length === 0 || sameSpans(said, openOn(hours.hours, date))) return [];
    const at = originOf('hours').at;
    const said_of_it = said.length === 0 ? 'off' : said.map(writeSpan).join(',');
    return [
      error('hours-and-exception', at, { date, hours: said_of_it, exception: hours.wrote }, [originOf('exceptions', i).at]),
    ];
  });

/** So long after closing, min, a last person leaves at most; later is more likely an am for a pm. Common practice, no source. */
const LONGEST_AFTER = 6 * 60;

/** A crew that leaves hours after closing, or when the store has opened again: the time of either half of the day is read as it is written. */
const leavesLate = ({ store, originOf }: ReadStore): readonly Finding[] => {
  const week = openWeek(store);
  if (week === 'always') return [];
  const days = businessDays(store, week);
  const late = days.filter(({ leaves, closes }) => leaves.min - closes.min > LONGEST_AFTER);
  const [first] = late;
  if (!first) return [];
  // Half a day earlier it would be a time to go home: one half of the day was written, and the other one meant.
  const isSlip = ({ day, leaves, closes }: BusinessDay): boolean => {
    const meant = leaves.min - DAY / 2 - closes.min;
    const rule = ruleFor(store.crew.leaves, day)?.from;
    return rule !== 'opening' && rule !== 'closing' && meant >= -60 && meant <= LONGEST_AFTER;
  };
  const never = late.some((one) => isSlip(one) || one.leaves.min >= one.opens.min + DAY);
  const tell = never ? error : warning;
  return [
    tell('crew-leaves-late', originOf('crew', 'leaves').at, {
      days: late.map(({ day }) => day),
      leaves: first.leaves,
      closes: first.closes,
    }),
  ];
};

/** A store that never closes is not quiet for longer, min: its two times are more likely swapped. Common practice, no source. */
const LONGEST_QUIET = 10 * 60;

export const checkHours = (read: ReadStore): readonly Finding[] => {
  const { store, originOf } = read;
  const quiet = store.quiet_window;
  const window = quiet && { from: moment(quiet.from), to: moment(quiet.to) };
  const at = originOf('quiet_window').at;
  return [
    ...checkZone(store.timezone, originOf('timezone').at),
    ...throughTheNight(read),
    ...unlistedHolidays(read),
    ...unclear(read),
    ...saidTwice(read),
    ...leavesLate(read),
    ...(quiet && window && (quiet.to - quiet.from + DAY) % DAY > LONGEST_QUIET
      ? [warning('quiet-window-long', at, { ...window, suggestion: writeSpan({ from: quiet.to % DAY, to: quiet.from }) })]
      : []),
    ...(quiet && window && quiet.from === quiet.to ? [error('quiet-window-empty', at, window)] : []),
    ...(quiet && window && openWeek(store) !== 'always'
      ? [warning(isOpenIn(weekOf(store.hours.hours), quiet) ? 'quiet-window-unused' : 'quiet-window-outside', at, window)]
      : []),
  ];
};
