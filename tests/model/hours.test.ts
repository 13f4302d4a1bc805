/**
 * Opening hours as people write them, and what is said when they can't be right.
 */
import { describe, expect, it } from 'vitest';
import {
  dayNumber,
  dayOfIso,
  isoOf,
  openOn,
  otherHours,
  parseHours,
  seasonsOf,
  weekdayOf,
  weekOf,
} from '../../src/model/hours/index.js';

const read = (text: string) => {
  const parsed = parseHours(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.fault}`);
  return parsed;
};
const week = (text: string) => weekOf(read(text).hours).map((s) => [s.from, s.to]);

describe('plain forms', () => {
  it.each([
    ['mon-thu 6am-11pm; fri-sat 6am-1am; sun closed', 'Su off; Mo-Th 06:00-23:00, Fr-Sa 06:00-01:00'],
    ['mon-fri 6:30 a.m. to 10 p.m.\nSat & Sun: noon-midnight', 'Mo-Fr 06:30-22:00; Sa-Su 12:00-24:00'],
    ['daily 11am-11pm', '11:00-23:00'],
    ['closed sundays; mon-sat 7am-9pm', 'Mo-Sa 07:00-21:00; Su off'],
    ['Open 24 hours', '24/7'],
    ['Mon–Thu: 11a–9:30p; Fri thru Sun 11 AM till midnight', 'Mo-Th 11:00-21:30; Fr-Su 11:00-24:00'],
    ['every day 6 to 23', '06:00-23:00'],
    // As a spreadsheet writes a time of its own.
    ['10:30:00 AM - 9:00:00 PM', '10:30-21:00'],
    ['10:30:00-21:00:00', '10:30-21:00'],
    ['7 days a week 5am-2am; December 25th closed', '05:00-02:00; Dec 25 off'],
    ['M-F 7:00 AM - 10:00 PM; Sat-Sun 8:00 AM - 11:00 PM', 'Mo-Fr 07:00-22:00; Sa-Su 08:00-23:00'],
    ['Monday to Friday 11am to 10pm, Saturday Sunday 10am to 11pm', 'Mo-Fr 11:00-22:00; Sa-Su 10:00-23:00'],
    ['10-22 daily', '10:00-22:00'],
    ['11am-2pm, 5pm-10pm Tue-Sat', 'Tu-Sa 11:00-14:00,17:00-22:00; Mo,Su off'],
    ['11am-10pm Mon-Thu, 11am-midnight Fri Sat', 'Mo-Th 11:00-22:00; Fr-Sa 11:00-24:00; Su off'],
    ['8h-22h', '08:00-22:00'],
    ['Mo-Fr 9h30 to 0h30; Sa 18h-24h; Su 24h', 'Mo-Fr 09:30-00:30, Sa 18:00-24:00, Su 00:00-24:00'],
    // What is closed ends at its comma: the days behind it have the times.
    [
      'closed monday, tue-thu 11am-9:30pm, fri and sat 11am-1am, sun noon-8pm',
      'Mo off; Tu-Th 11:00-21:30, Fr-Sa 11:00-01:00, Su 12:00-20:00',
    ],
    ['closed on mondays, tuesday to thursday 11am to 9:30pm, fri 11am-1am', 'Mo,Sa-Su off; Tu-Th 11:00-21:30, Fr 11:00-01:00'],
    ['closed mon and tue, wed-thu 11am-9:30pm; fri 11am-1am', 'Mo-Tu,Sa-Su off; We-Th 11:00-21:30, Fr 11:00-01:00'],
    ['daily 9am-9pm; closed 2pm-5pm', '09:00-14:00,17:00-21:00'],
    // Later on Fridays is the same, added or in place of the others; so are openings of their own.
    ['11am-10pm, Fri 11am-midnight', 'Mo-Th,Sa-Su 11:00-22:00; Fr 11:00-24:00'],
    ['Mo-Fr 11am-2pm, Mo-Fr 5pm-10pm, Sa 5pm-1am', 'Su off; Mo-Fr 11:00-14:00,17:00-22:00, Sa 17:00-01:00'],
    ['11-22; from 2026-12-01 Sun 11-15', '11:00-22:00; 2026 Dec 01+ Su 11:00-15:00'],
    ['11-22; from Dec 1, 2026 on Sun 11-15', '11:00-22:00; 2026 Dec 01+ Su 11:00-15:00'],
    ['11-22; from December 2026: Sun 11-15', '11:00-22:00; 2026 Dec 01+ Su 11:00-15:00'],
    ['11-22; 2026-12-01+ Su 11-15', '11:00-22:00; 2026 Dec 01+ Su 11:00-15:00'],
    ['11-22; starting Dec 1 2026 Su 11-15', '11:00-22:00; 2026 Dec 01+ Su 11:00-15:00'],
    ['11-22; closed from Dec 24 2026 on', '11:00-22:00; 2026 Dec 24+ off'],
    ['11-22; from Dec 1 to Mar 31 Su 11-15', '11:00-22:00; Dec-Mar Su 11:00-15:00'],
    ['from Monday to Friday from 11 to 22', 'Mo-Fr 11:00-22:00; Sa-Su off'],
    ['11-22; Dec 25, 2026 off', '11:00-22:00; 2026 Dec 25 off'],
    ['tues-thurs 11 am - 2.30 pm, 5pm-10pm', 'Tu-Th 11:00-14:30,17:00-22:00; Mo,Fr-Su off'],
  ])('%s', (wrote, readAs) => {
    expect(read(wrote)).toMatchObject({ readAs, plain: true });
    expect(week(readAs)).toEqual(week(wrote));
  });
});

describe('the week', () => {
  it('keeps a night whole past midnight, also where the next day is closed', () => {
    expect(week('Mo-Th 06:30-22:00; Fr-Sa 06:30-00:30; Su off')).toEqual([
      [390, 1320],
      [1830, 2760],
      [3270, 4200],
      [4710, 5640],
      [6150, 7230],
      [7590, 8670],
    ]);
  });
  it('joins 24:00 with 00:00, round the end of the week too', () => {
    expect(week('Fr-Mo 10:00-24:00; Tu-Th 00:00-24:00')).toEqual([
      [600, 5760],
      [6360, 7200],
      [7800, 8640],
      [9240, 10080],
    ]);
    expect(week('Sa,Su,Mo 00:00-24:00; Tu-Fr 10:00-20:00')).toEqual([
      [2040, 2640],
      [3480, 4080],
      [4920, 5520],
      [6360, 6960],
      [7200, 11520],
    ]);
    expect(week('24/7')).toEqual([[0, 10080]]);
    expect(week('off')).toEqual([]);
  });
});

describe('faults say where and what instead', () => {
  it.each([
    ['mon-fri 9-5', 'am-or-pm', '9-5', 'mon-fri 09:00-17:00'],
    ['6-11pm', 'am-or-pm', '6-11pm', '6am-11pm'],
    ['11-midnight', 'am-or-pm', '11-midnight', '11:00-24:00'],
    ['Mo-Fr 10:00-20:00; Satturday 10:00-18:00', 'unknown-word', 'Satturday', 'Mo-Fr 10:00-20:00; saturday 10:00-18:00'],
    ['Mo 10:00-10:00', 'same-time', '10:00-10:00', 'Mo 10:00-22:00'],
    ['Mo 14:00-13:00', 'closes-before-opens', '14:00-13:00', undefined],
    ['Mo 25:00-26:00', 'bad-time', '25:00', undefined],
    ['Mo 08:75-12:00', 'bad-time', '08:75', undefined],
    ['Mo 08:00-40:00', 'too-long', '08:00-40:00', undefined],
    ['Mo-Fr 8:00-18:00; Mo-Fr 09:00-17:00', 'contradicting', 'Mo-Fr 09:00-17:00', undefined],
    ['Dec 25 off; Mo-Su 09:00-17:00', 'contradicting', 'Mo-Su 09:00-17:00', undefined],
    ['Mon-Thu 11am-10pm; Thu-Sat 11am-11pm', 'contradicting', 'Thu-Sat 11am-11pm', undefined],
    ['PH off; Mo-Fr 10:00-20:00', 'contradicting', 'Mo-Fr 10:00-20:00', undefined],
    ['Mo-Fr 9:00-17:00; closed', 'contradicting', 'closed', undefined],
    // Read as opening on the closed day too, it would have a rail loaded that nobody watches.
    ['closed Mondays, 11:00-22:00', 'contradicting', '11:00-22:00', undefined],
    // A German Sunday is no slip for Monday.
    ['Mo-So 09:00-22:30', 'unknown-word', 'So', 'Mo-Su 09:00-22:30'],
    ['Mo-Sa 9-22 Uhr', 'unknown-word', 'Uhr', 'Mo-Sa 9-22'],
    ['Mo-Di 09:00-22:30', 'unknown-word', 'Di', undefined],
    ['Mo 10:00-14:00,13:00-18:00', 'overlapping', '13:00-18:00', undefined],
    ['Mo 10:00-sunset', 'outside-subset', 'sunset', undefined],
    ['Feb 30 off', 'bad-date', 'Feb 30', undefined],
    ['Mo 08:00-', 'unexpected', '', undefined],
    [' ', 'empty', '', undefined],
    ['T-F 10:00-18:00', 'unknown-word', 'T', undefined],
    ['11:00-22:00 h', 'unknown-word', 'h', undefined],
    ['S-S 11am-9pm', 'unknown-word', 'S', undefined],
    // Nobody who writes 3:00 behind 11:00 counts to 24: read so, the top would be emptied at three in the night.
    ['11:00-3:00', 'am-or-pm', '11:00-3:00', '11:00-15:00'],
    ['10:00-9:00', 'am-or-pm', '10:00-9:00', '10:00-21:00'],
    ['11:00-10:00', 'am-or-pm', '11:00-10:00', '11:00-22:00'],
    ['08:00-3:00', 'am-or-pm', '08:00-3:00', '08:00-15:00'],
    ['11:00-22:00; Dec 25 12:00-4:00', 'am-or-pm', '12:00-4:00', '11:00-22:00; Dec 25 12:00-16:00'],
    ['10:00-18:00 We off', 'unexpected', 'off', undefined],
    ['Mo-Fr We off', 'unexpected', 'We', undefined],
    ['Mo-Fr 10:00-18:00 We off', 'unexpected', 'We', undefined],
    ['10-9 daily', 'am-or-pm', '10-9', '10:00-21:00 daily'],
    // The whole cell, so that nobody writes Sunday's hours over the week's; every fault of it; nothing where that could not be read either.
    [
      'Mon-Thu 11a-10p, Fri & Sat 11a-midnight, Sun 12-9p',
      'am-or-pm',
      '12-9p',
      'Mon-Thu 11a-10p, Fri & Sat 11a-midnight, Sun 12pm-9pm',
    ],
    ['M-F 7am-9pm / Sat 8am-9pm / Sun closed', 'outside-subset', '/', 'M-F 7am-9pm; Sat 8am-9pm; Sun closed'],
    ['mon-fri 9-5; sat 10-4', 'am-or-pm', '9-5', 'mon-fri 09:00-17:00; sat 10:00-16:00'],
    // Half past midnight is not half past noon: a reading that nobody wrote would have the top emptied at 12:30.
    [
      'Tue-Thu, Sun 10:30am-10:30pm; Fri-Sat 10:30am-0:30; Mon closed',
      'am-or-pm',
      '10:30am-0:30',
      'Tue-Thu, Sun 10:30am-10:30pm; Fri-Sat 10:30am-12:30am; Mon closed',
    ],
    ['10:30am-12:30', 'am-or-pm', '10:30am-12:30', '10:30am-12:30am'],
    ['9-2am', 'am-or-pm', '9-2am', '9am-2am'],
    ['noon-10:00', 'am-or-pm', 'noon-10:00', '12:00-22:00'],
    ['10:00pm-6:00pm', 'closes-before-opens', '10:00pm-6:00pm', undefined],
    ['10am-10am', 'same-time', '10am-10am', undefined],
    ['9-22 hrs', 'unknown-word', 'hrs', undefined],
    ['9am-?', 'unknown-word', '?', undefined],
    // Which of these days are closed is anybody's guess.
    ['closed mon, tue, wed-thu 11am-9pm', 'closed-and-times', ', tue,', 'closed mon, tue; wed-thu 11am-9pm'],
    ['closed mon, tue and wed 11am-9pm', 'closed-and-times', ', tue and', 'closed mon; tue and wed 11am-9pm'],
    ['closed mon tue-sun 11am-9pm', 'closed-and-times', 'tue', 'closed mon; tue-sun 11am-9pm'],
    ['closed mon 11am-9pm', 'closed-and-times', 'closed mon 11am-9pm', undefined],
    ['closed jul 4 mon-fri 11am-9pm', 'closed-and-times', 'closed jul 4 mon-fri 11am-9pm', undefined],
    ['see Brian', 'unknown-word', 'see', undefined],
    ['11:00-22:00 (Fri, Sat til 1 am)', 'in-brackets', '(Fri, Sat til 1 am)', '11:00-22:00'],
    ['Mo-Fr 11-22 (bar later); Sa 11am-9pm', 'in-brackets', '(bar later)', 'Mo-Fr 11-22; Sa 11am-9pm'],
    ['(Mo)', 'in-brackets', '(Mo)', undefined],
    // Added to the day, Sunday would close at ten.
    ['11am-10pm, Sun 11am-3pm', 'added-to', ',', '11am-10pm; Sun 11am-3pm'],
    ['Sun-Sat 11am-10pm, Sun 11am-3pm', 'added-to', ',', 'Sun-Sat 11am-10pm; Sun 11am-3pm'],
    ['11am-10pm and Fri 11am-3pm', 'added-to', 'and', '11am-10pm; Fri 11am-3pm'],
    ['11am-10pm, Sun 10am-3pm, Mon 11am-3pm', 'added-to', ',', '11am-10pm; Sun 10am-3pm; Mon 11am-3pm'],
    ['11-22, PH 12-16', 'added-to', ',', '11-22; PH 12-16'],
    ['11-22, Dec 24 11-15', 'added-to', ',', '11-22; Dec 24 11-15'],
    ['24/7, Su[1] 11:00-15:00', 'added-to', ',', '24/7; Su[1] 11:00-15:00'],
    ['Mo-Fr 11-14,17-22, Fr 11-14', 'added-to', ',', 'Mo-Fr 11-14,17-22; Fr 11-14'],
    // With or without Friday's lunch?
    ['Mo-Fr 11-14,17-22, Fr 17-24', 'added-to', ',', undefined],
    ['Su 11-22, Su 12-15', 'added-to', ',', undefined],
    ['11am-10pm; from December on Sun 11am-3pm', 'year-missing', 'December', undefined],
    ['11am-10pm; from Dec 1 Su 11am-3pm', 'year-missing', 'Dec 1', undefined],
    ['11am-10pm; Dec 1+ Su 11am-3pm', 'year-missing', 'Dec 1+', undefined],
    ['11am-10pm; Dec 1 onwards Su 11am-3pm', 'year-missing', 'Dec 1 onwards', undefined],
    ['11am-10pm, from Dec 1, 2026 Sun 11am-3pm', 'added-to', ',', '11am-10pm; from Dec 1, 2026 Sun 11am-3pm'],
    ['11am-10pm; Sun 11am-3pm from December', 'unexpected', 'from', undefined],
    ['11:00+', 'outside-subset', '+', undefined],
  ])('%s', (wrote, fault, marked, suggestion) => {
    const parsed = parseHours(wrote);
    expect(parsed).toMatchObject({ ok: false, fault });
    if (parsed.ok) return;
    expect(wrote.slice(parsed.offset, parsed.offset + parsed.length)).toBe(marked);
    expect(parsed.suggestion).toBe(suggestion);
  });
});

it.each([
  ['5-10pm', '5am-10pm', '5pm-10pm'],
  ['4:30-9pm', '4:30am-9pm', '4:30pm-9pm'],
  ['9-5pm', '9am-5pm', undefined],
  ['10-2pm', '10am-2pm', undefined],
])('pm behind a closing may be meant of its opening too: %s', (wrote, suggestion, other) => {
  expect(parseHours(wrote)).toMatchObject({ ok: false, fault: 'am-or-pm', suggestion, ...(other ? { other } : {}) });
});

it('a day of an hour is doubted, whatever the others are', () => {
  expect(parseHours('11am-12pm')).toMatchObject({ ok: true, doubt: { span: { from: 660, to: 720 } } });
  const morning = parseHours('Mo-Su 10:00-12:00');
  expect(morning.ok && morning.doubt).toBeUndefined();
});

describe('seasons and dates', () => {
  const { hours } = read('May-Sep 10:00-22:00; Oct-Apr 10:00-20:00; Jul 4 off; Nov Th[4] off');
  it('a season has its own ordinary week', () => {
    expect(seasonsOf(hours, '2027-01-01', '2027-12-31').map((s) => [s.from, s.to, s.week[0]?.to])).toEqual([
      ['2027-01-01', '2027-04-30', 1200],
      ['2027-05-01', '2027-09-30', 1320],
      ['2027-10-01', '2027-12-31', 1200],
    ]);
    expect(weekOf(hours)).toEqual([]);
    expect(weekOf(hours, '2027-07-04')).toHaveLength(7);
  });
  it('hours from a date on are a season without an end', () => {
    const change = read('11:00-22:00; 2026 Dec 01+ Su 11:00-15:00');
    expect(change).toMatchObject({ readAs: '11:00-22:00; 2026 Dec 01+ Su 11:00-15:00', plain: false });
    const sundays = seasonsOf(change.hours, '2026-11-01', '2031-01-01').map((s) => [s.from, s.to, s.week[6]?.to]);
    expect(sundays).toEqual([
      ['2026-11-01', '2026-11-30', 6 * 1440 + 1320],
      ['2026-12-01', '2031-01-01', 6 * 1440 + 900],
    ]);
  });
  it('dates of other hours are found: the fourth Thursday of November 2027 is the 25th', () => {
    expect(otherHours(hours, '2027-01-01', '2027-12-31')).toEqual([
      { date: '2027-07-04', spans: [] },
      { date: '2027-11-25', spans: [] },
    ]);
    expect(openOn(hours, '2027-11-25')).toEqual([]);
  });
});

it('dates agree with the platform calendar, leap years and centuries too', () => {
  for (let n = dayNumber(1899, 12, 1); n < dayNumber(2101, 2, 1); n += 13) {
    const iso = new Date(n * 86400000).toISOString().slice(0, 10);
    expect(isoOf(n)).toBe(iso);
    expect(dayOfIso(iso)).toBe(n);
    expect(weekdayOf(n)).toBe((new Date(n * 86400000).getUTCDay() + 6) % 7);
  }
  expect(dayOfIso('2027-02-29')).toBeUndefined();
  expect(dayOfIso('2028-02-29')).toBeDefined();
  expect(dayOfIso('2100-02-29')).toBeUndefined();
  expect(['0000-01-01', '1799-12-31', '2200-01-01', '9999-12-31'].map(dayOfIso)).toEqual([
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
});
