/**
 * The calendar as another program reads it: its zone's rules, its times as instants, its alarms; and the same entries whenever it is written.
 */
import ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { calendarOf } from '../../src/fleet/calendar.js';
import { planOf, readerOf, type PlannedStore } from '../../src/fleet/store-papers.js';
import { weeksOf } from '../../src/fleet/store-weeks.js';
import { dayOfIso, isoOf } from '../../src/model/hours/index.js';
import { weeksHolding, type WeekDates } from '../../src/plan/week-dates.js';
import { demoFiles, STORE, TABLE, tryChain, tryFiles, type Tried } from '../support/chain.js';

const demo = tryFiles(demoFiles());

const written = (tried: Tried, id: string, from: string, weeks: number, lang = 'en'): string => {
  const { workshop } = tried;
  const words = workshop?.words.get(lang);
  if (!workshop || !words) throw new Error('no words');
  const first = dayOfIso(from) as number;
  const last = first + 7 * weeks - 1;
  const dates = weeksHolding(first, last, workshop.shelf.chain.week_starts);
  const doc = `sites/${id}.yaml`;
  const on = (iso: string): PlannedStore => planOf(workshop, doc, tried.files.get(doc) as Uint8Array, iso);
  const { read, plan, ...planned } = on(isoOf((dates[0] as WeekDates).first));
  if (!plan || !read) throw new Error(`${id} has no plan`);
  const told = { read, weeks: weeksOf({ ...planned, read, plan }, on, dates), speaker: readerOf(words, read, workshop.shelf) };
  return calendarOf(told, first, last);
};

interface Read {
  readonly uid: string;
  readonly summary: string;
  readonly description: string;
  readonly start: ICAL.Time;
  readonly end: ICAL.Time;
  readonly alarms: readonly string[];
}

/** By ical.js; times are taken by the zone rules that the file itself holds. */
const read = (text: string): readonly Read[] => {
  const root = new ICAL.Component(ICAL.parse(text) as unknown[]);
  const zones = new Map(
    root.getAllSubcomponents('vtimezone').map((c) => [c.getFirstPropertyValue('tzid') as string, new ICAL.Timezone(c)]),
  );
  return root.getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component);
    const at = (name: 'dtstart' | 'dtend', time: ICAL.Time): ICAL.Time => {
      const tzid = component.getFirstProperty(name)?.getParameter('tzid') as string | undefined;
      if (tzid !== undefined) time.zone = zones.get(tzid) as ICAL.Timezone;
      return time;
    };
    return {
      uid: event.uid,
      summary: event.summary,
      description: event.description,
      start: at('dtstart', event.startDate),
      end: at('dtend', event.endDate),
      alarms: component.getAllSubcomponents('valarm').map((a) => String(a.getFirstPropertyValue('trigger'))),
    };
  });
};

const utc = (time: ICAL.Time): string => time.toJSDate().toISOString().slice(0, 16);

describe('a calendar', () => {
  it('keeps to the format: lines end as they should, none is too long, stamps are in UTC', () => {
    const text = written(demo, 'copper-ferry', '2027-03-08', 2);
    expect(text.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    for (const [line] of text.matchAll(/DTSTAMP.*/g)) expect(line).toMatch(/^DTSTAMP:\d{8}T\d{6}Z/);
    expect(text.match(/BEGIN:VTIMEZONE/g)).toHaveLength(1);
  });

  it('rings before emptying and before loading, at the instants of the store’s zone, on both sides of a change of the clocks', () => {
    const entries = read(written(demo, 'copper-ferry', '2027-03-12', 1));
    const empty = entries.filter((e) => e.uid.includes('-line-1-empty'));
    expect(empty.map((e) => `${utc(e.start)} ${utc(e.end)}`)).toEqual([
      '2027-03-13T06:40 2027-03-13T07:00', // Friday night, 00:40 in winter
      '2027-03-14T06:40 2027-03-14T07:00', // before the change at 02:00
      '2027-03-15T03:25 2027-03-15T03:45', // Sunday 22:25, in summer
      '2027-03-16T03:25 2027-03-16T03:45',
      '2027-03-17T03:25 2027-03-17T03:45',
      '2027-03-18T03:25 2027-03-18T03:45',
      '2027-03-19T03:25 2027-03-19T03:45',
    ]);
    expect(new Set(empty.flatMap((e) => e.alarms))).toEqual(new Set(['-PT10M']));
    const load = entries.filter((e) => e.uid.includes('-line-1-load'));
    expect(load.map((e) => utc(e.start))).toContain('2027-03-13T16:10');
    expect(load.map((e) => utc(e.start))).toContain('2027-03-14T15:10');
    expect(new Set(load.flatMap((e) => e.alarms))).toEqual(new Set(['-PT5M']));
  });

  it.each(['America/Vancouver', 'Asia/Kolkata', 'Europe/Dublin', 'Australia/Lord_Howe', 'America/Phoenix'])(
    'holds the rules of %s as the plan has them',
    (zone) => {
      const tried = tryChain({ 'sites/street.yaml': STORE.replace(/^timezone: .*$/m, `timezone: ${zone}`) });
      for (const from of ['2026-10-26', '2027-01-11', '2027-03-22', '2027-07-05'])
        for (const { start } of read(written(tried, 'street', from, 1)).filter((e) => !e.start.isDate)) {
          const instant = Temporal.PlainDateTime.from(start.toString()).toZonedDateTime(zone).epochMilliseconds;
          expect(start.toJSDate().getTime()).toBe(instant);
        }
    },
  );

  it('orders the reset of a clock that does not follow, days before', () => {
    const [reset, ...more] = read(written(demo, 'copper-ferry', '2027-03-01', 3)).filter((e) => e.uid.includes('reset'));
    expect(more).toEqual([]);
    expect(reset?.summary).toBe("The top's clock (technician): Line 1");
    expect(utc(reset?.start as ICAL.Time)).toBe('2027-03-14T07:00');
    expect(reset?.description).toMatch(/turns it forward by/);
    expect(reset?.alarms).toEqual(['-P2D', '-PT1H']);
  });

  it('orders the setting of a new season a week ahead, once, however many weeks it is written for', () => {
    const hours = "'Mo-Su 07:00-22:00; Jul 05-Aug 29 Mo-Su 09:00-23:30'";
    const tried = tryChain({ 'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', hours) });
    for (const weeks of [1, 2]) {
      const [set, ...more] = read(written(tried, 'street', '2027-06-28', weeks)).filter((e) => e.uid.includes('-season@'));
      expect(more).toEqual([]);
      expect(set?.summary).toBe("The top's clock (technician): Line 1");
      // Sunday's emptying begins at 21:35, in summer.
      expect(utc(set?.start as ICAL.Time)).toBe('2027-07-05T02:35');
      expect(set?.description).toMatch(/Old: .*off 10:15.pm.*New: .*off 12:15.am|Old: .*off 22:15.*New: .*off 00:15/);
      expect(set?.alarms).toEqual(['-P7D', '-P2D', '-PT1H']);
    }
  });

  it('has no reset where the clock follows', () => {
    expect(read(written(demo, 'magpie-lane', '2027-03-29', 2)).filter((e) => e.uid.includes('reset'))).toEqual([]);
  });

  it('holds deep cleaning for a whole day, no further apart than the profile says, with an alarm in the morning', () => {
    const cleaning = read(written(demo, 'copper-ferry', '2027-01-04', 60)).filter((e) => e.uid.includes('cleaning.'));
    const every = new Map(
      // The top is wiped when it is emptied: that has its own entry.
      (demo.stores.get('copper-ferry')?.plan?.units['line-1']?.cleaning ?? [])
        .filter((c) => c.task.value.code !== 'cleaning.rail-and-board')
        .map((c) => [c.task.value.code, c.every.value.si / 86400]),
    );
    expect(every.size).toBeGreaterThan(0);
    for (const [code, days] of every) {
      const dates = cleaning.filter((e) => e.uid.includes(`line-1-${code}@`)).map((e) => e.start);
      expect(dates.length, code).toBeGreaterThan(1);
      for (const [i, date] of dates.entries()) {
        expect(date.isDate).toBe(true);
        const before = dates[i - 1];
        if (before) expect(date.subtractDate(before).toSeconds() / 86400, code).toBeLessThanOrEqual(days + 6);
      }
    }
    expect(new Set(cleaning.flatMap((e) => e.alarms))).toEqual(new Set(['PT9H']));
  });

  it('has the same entries under the same names, whenever it is written', () => {
    const [long, later] = [written(demo, 'assay-yard', '2026-11-30', 4), written(demo, 'assay-yard', '2026-12-07', 1)];
    expect(written(demo, 'assay-yard', '2026-11-30', 4)).toBe(long);
    const byUid = new Map(read(long).map((e) => [e.uid, e]));
    expect(byUid.size).toBe(read(long).length);
    const common = read(later).filter((e) => !e.uid.includes('cleaning.'));
    expect(common.length).toBeGreaterThan(20);
    for (const entry of common) expect(utc(byUid.get(entry.uid)?.start as ICAL.Time), entry.uid).toBe(utc(entry.start));
  });

  it('moves with a change of hours by season, in one calendar as in two', () => {
    const seasonal = tryChain({
      'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', "'Mo-Su 07:00-22:00; Jul 01-Aug 31 Mo-Su 09:00-23:30'"),
    });
    const times = (from: string, weeks: number, what: string): readonly string[] =>
      read(written(seasonal, 'street', from, weeks))
        .filter((e) => e.uid.includes(`-line-1-${what}@`))
        .map((e) => `${e.start.toString().slice(5, 16)} ${e.end.toString().slice(11, 16)}`);
    const empty = times('2027-08-16', 4, 'empty');
    expect(empty.slice(0, 2)).toEqual(['08-16T23:35 00:00', '08-17T23:35 00:00']);
    // The season ends within a week: the clock is set before the first of September, and from then on people work by the new setting.
    expect(empty.slice(14, 18)).toEqual(['08-30T23:35 00:00', '08-31T23:35 00:00', '09-01T21:35 22:00', '09-02T21:35 22:00']);
    expect(empty.slice(-2)).toEqual(['09-11T21:35 22:00', '09-12T21:35 22:00']);
    const load = times('2027-08-16', 4, 'load');
    expect([...load.slice(14, 18), ...load.slice(-1)]).toEqual([
      '08-30T08:30 08:45',
      '08-31T08:30 08:45',
      '09-01T06:30 06:45',
      '09-02T06:30 06:45',
      '09-12T06:30 06:45',
    ]);
    // Begun within that week, it still tells what the sheet of the whole week does.
    for (const from of ['2027-08-30', '2027-09-02', '2027-09-05']) {
      const later = times(from, 1, 'empty');
      expect(later).toHaveLength(7);
      expect([...empty, ...times('2027-09-13', 1, 'empty')].join()).toContain(later.join());
    }
  });

  it('leaves out the times of a night that nobody can keep, and says so', () => {
    const store = `${STORE}crew: { comes: '05:00' }\nexceptions:\n  - { date: 2026-12-02, hours: '05:00-22:00' }\n`;
    const entries = read(written(tryChain({ 'sites/street.yaml': store }), 'street', '2026-11-30', 1));
    expect(entries.filter((e) => e.uid.startsWith('2026-12-01') && e.uid.includes('empty'))).toEqual([]);
    expect(entries.filter((e) => e.uid.includes('no-rest')).map((e) => [e.start.toString(), e.summary])).toEqual([
      ['2026-12-01', 'No safe rest is set for this night: Line 1'],
    ]);
  });

  it('keeps what a person wrote from becoming lines of its own', () => {
    const evil = STORE.replace('nickname: Line 1', 'nickname: "A;B,C\\\\nEND:VEVENT"');
    const entries = read(
      written(tryChain({ 'sites/street.yaml': evil, 'equipment/table.yaml': TABLE }), 'street', '2026-11-30', 1),
    );
    expect(entries[0]?.summary).toContain('A;B,C\\nEND:VEVENT');
  });

  it('is written in the store’s other language', () => {
    expect(read(written(demo, 'copper-ferry', '2026-11-30', 1, 'es')).map((e) => e.summary)).toContain(
      'Vaciar la parte de arriba: Línea 1',
    );
  });
});
