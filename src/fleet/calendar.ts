/**
 * A store's entries as one iCalendar file (RFC 5545), with the rules of its time zone. The same entries give the same bytes.
 */
import { ICalAlarmRelatesTo, ICalAlarmType, ICalCalendar } from 'ical-generator';
import { Temporal } from 'temporal-polyfill';
import { DAY } from '../base/moment.js';
import { textOf } from '../base/run.js';
import { civil, dayNumber, isoOf, type DayNumber } from '../model/hours/index.js';
import { offsetAt, transitionsBetween } from '../plan/timetable/dates/index.js';
import { entriesOf, type Told } from './calendar-events.js';
import type { Dated } from './store-papers.js';

/** A time on the wall. */
const wall = (date: DayNumber, minutes: number): Temporal.PlainDateTime =>
  Temporal.PlainDate.from(isoOf(date)).toPlainDateTime().add({ minutes });

const NEW_LINE = '\r\n';

/** Minutes from UTC as `+0530`, `-0600`. */
const offset = (minutes: number): string => {
  const size = Math.abs(minutes);
  return `${minutes < 0 ? '-' : '+'}${String(Math.floor(size / 60)).padStart(2, '0')}${String(size % 60).padStart(2, '0')}`;
};

/** One stretch between two changes of the clocks. @param at what the clock shows before the change, minutes since 1970 */
const stretch = (at: number, from: number, to: number): string => {
  const stamp = wall(Math.floor(at / DAY), ((at % DAY) + DAY) % DAY)
    .toString({ smallestUnit: 'second' })
    .replace(/[-:]/g, '');
  const kind = to > from ? 'DAYLIGHT' : 'STANDARD';
  return [`BEGIN:${kind}`, `DTSTART:${stamp}`, `TZOFFSETFROM:${offset(from)}`, `TZOFFSETTO:${offset(to)}`, `END:${kind}`].join(
    NEW_LINE,
  );
};

/**
 * A zone as this calendar needs it, by the very data that the plan reckons with: a table of its own could say otherwise, and an alarm would ring
 * an hour off.
 * @param first the calendar's first day, and its last one: two years before and after are told as well
 */
const zoneRules = (zone: string, first: DayNumber, last: DayNumber): string => {
  const start = dayNumber(civil(first).year - 2, 1, 1);
  const before = offsetAt(zone, start);
  let now = before;
  const changes = transitionsBetween(zone, start, dayNumber(civil(last).year + 3, 1, 1) - 1).map(({ at, shift }) => {
    const from = now;
    now += shift;
    return stretch(at, from, now);
  });
  return ['BEGIN:VTIMEZONE', `TZID:${zone}`, stretch(start * DAY, before, before), ...changes, 'END:VTIMEZONE'].join(NEW_LINE);
};

/** @param first the first day, and the last one; entries of the night before it that fall on it are its own */
export const calendarOf = (told: Told, first: DayNumber, last: DayNumber): string => {
  const { weeks, speaker, read } = told;
  const store = (weeks[0] as Dated).plan.store;
  const zone = store.timezone.value.text;
  const calendar = new ICalCalendar({
    name: textOf(speaker.phrase('calendar.name', { store: store.name })),
    prodId: { company: 'nightrail', product: 'nightrail', language: speaker.reader.lang.toUpperCase() },
  });
  // No zone for the calendar itself: its stamps are in UTC. Each entry names the store's.
  calendar.timezone({ name: null, generator: (name) => zoneRules(name, first, last) });
  const stamp = wall(first, 0);
  for (const { key, date, time, summary, description, rings } of entriesOf(told, first, last)) {
    const when = time
      ? { start: wall(date, time.from), end: wall(date, time.to), timezone: zone }
      : { start: Temporal.PlainDate.from(isoOf(date)), allDay: true };
    const event = calendar.createEvent({
      id: `${key}@${read.id}.nightrail`,
      stamp,
      summary,
      ...when,
      ...(description === undefined ? {} : { description }),
    });
    for (const minutes of rings)
      event
        .createAlarm({ type: ICalAlarmType.display, trigger: minutes * 60, description: summary })
        .relatesTo(ICalAlarmRelatesTo.start);
  }
  return calendar.toString();
};
