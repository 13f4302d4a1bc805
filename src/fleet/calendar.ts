/**
 * A store's entries as one iCalendar file (RFC 5545), with the rules of its time zone. The same entries give the same bytes.
 */
import { ICalAlarmRelatesTo, ICalAlarmType, ICalCalendar } from 'ical-generator';
import { Temporal } from 'temporal-polyfill';
import { tzlib_get_ical_block } from 'timezones-ical-library';
import { textOf } from '../base/run.js';
import { isoOf, type DayNumber } from '../model/hours/index.js';
import { entriesOf, type Told } from './calendar-events.js';
import type { Dated } from './store-papers.js';

/** A time on the wall. */
const wall = (date: DayNumber, minutes: number): Temporal.PlainDateTime =>
  Temporal.PlainDate.from(isoOf(date)).toPlainDateTime().add({ minutes });

/** The rules of a zone, or null where the library has none. */
const zoneRules = (zone: string): string | null => {
  const [block] = tzlib_get_ical_block(zone);
  // The library names a zone by the one that its name is another name for; entries say the store's own.
  return block === undefined || block === '' ? null : block.replace(/^TZID:.*$/m, `TZID:${zone}`);
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
  calendar.timezone({ name: null, generator: zoneRules });
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
