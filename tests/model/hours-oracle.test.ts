/**
 * The parser of opening hours against the reference implementation of the open grammar (npm `opening_hours`, development only), on the published
 * examples of the grammar (OpenStreetMap wiki, Key:opening_hours, and the README of that package) and on seeded random texts of our subset.
 */
import OpeningHours from 'opening_hours';
import { beforeAll, describe, expect, it } from 'vitest';
import { dayNumber, isoOf, openOn, parseHours, weekOf, weekdayOf, type Hours } from '../../src/model/hours/index.js';
import { seeded } from '../plan/walker.js';

const DAY = 1440;

beforeAll(() => {
  // The reference reckons in the process's zone; one without changes keeps days 24 hours long.
  process.env['TZ'] = 'UTC';
});

type Spans = readonly (readonly [number, number])[];

const join = (spans: Spans): Spans => {
  const found: [number, number][] = [];
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0])) {
    const before = found.at(-1);
    if (before && from <= before[1]) before[1] = Math.max(before[1], to);
    else found.push([from, to]);
  }
  return found;
};

const clip = (spans: Spans, from: number, to: number): Spans =>
  spans.map(([a, b]): [number, number] => [Math.max(a, from), Math.min(b, to)]).filter(([a, b]) => a < b);

/** Open stretches in minutes since 1970, from one day to another. */
const ours = (hours: Hours, first: number, last: number): Spans => {
  const spans: [number, number][] = [];
  for (let day = first - 2; day <= last; day++)
    for (const s of openOn(hours, isoOf(day))) spans.push([day * DAY + s.from, day * DAY + s.to]);
  return clip(join(spans), first * DAY, (last + 1) * DAY);
};

/** An open end of a date is in the grammar's specification, but the reference reads it of whole years only: it is asked about an end far away. */
const farEnd = (text: string): string => text.replace(/(\d{4} \w{3} \d{2})\+/g, '$1-2040 Dec 31');

const theirs = (wrote: string, first: number, last: number): Spans => {
  const text = farEnd(wrote);
  // A place in a country without holidays of its own in the reference's tables would do; PH is compared apart.
  const reference = new OpeningHours(text, { lat: 40, lon: -75, address: { country_code: 'us', state: 'New York' } });
  const day = (n: number): Date => new Date(n * 86400000);
  return join(
    reference.getOpenIntervals(day(first), day(last + 1)).map(([from, to]) => [from.getTime() / 60000, to.getTime() / 60000]),
  );
};

const parsed = (text: string): Hours => {
  const found = parseHours(text);
  if (!found.ok) throw new Error(`${text}: ${found.fault} ${JSON.stringify(found)}`);
  return found.hours;
};

describe('published examples', () => {
  it.each([
    '24/7',
    'Mo-Fr 08:00-17:30',
    'Mo-Fr 08:00-12:00,13:00-17:30',
    'Mo-Fr 08:00-12:00,13:00-17:30; Sa 08:00-12:00',
    'Sa-Su 00:00-24:00',
    'Mo 10:00-12:00,12:30-15:00; Tu-Fr 08:00-12:00,12:30-15:00; Sa 08:00-12:00',
    'Mo-Su 08:00-18:00; Apr 10-15 off; Jun 08:00-14:00; Aug off; Dec 25 off',
    'Mo-Sa 10:00-20:00; Tu off',
    'Mo-Sa 10:00-20:00; Tu 10:00-14:00',
    'Su-Tu 11:00-01:00, We-Th 11:00-03:00, Fr 11:00-06:00, Sa 11:00-07:00',
    'Su-Tu 11:00-25:00, We-Th 11:00-27:00, Fr 11:00-30:00, Sa 11:00-31:00',
    'Mo-Fr 17:00-03:00, Sa-Su 18:00-04:00',
    '08:30-12:30,15:30-20:00',
    'Tu,Th 16:00-20:00',
    'Jan-Mar 07:00-19:00; Apr-Sep 07:00-22:00; Oct-Dec 07:00-19:00',
    'Oct-Mar 07:00-20:00; Apr-Sep 07:00-22:00',
    'Mo,Tu,Th,Fr 12:00-18:00; Sa 12:00-17:00; Th[3],Th[-1] off',
    'Mo-Fr 12:00-18:00; We off; Sa 12:00-17:00; Th[3],Th[-1] off',
    'open; Tu-Su 08:30-09:00 off; Tu-Su 14:00-14:30 off; Mo 08:00-13:00 off',
    'Mo-Fr 10:00-20:00; 12:00-14:00 off',
    'Mo 12:00-14:00; Jan 10-Feb 10: 07:30-12:00',
    'Mo-Fr 08:00-12:00, We 14:00-18:00',
    'Mo-We,Fr 10:00-12:00',
    'Fr-Mo 10:00-12:00',
    'Mo-Su 09:00-12:00; Dec 24-Jan 02 off; Dec 25 off',
    '2027 May 08-2027 Jun 02 10:00-12:00',
    '2027-2028 10:00-20:00',
    '2028+ 10:00-20:00',
    '2027 May 08+ 10:00-12:00',
    'Mo-Su 11:00-22:00; 2027 Dec 01+ Su 11:00-15:00',
    'Mo-Su 11:00-22:00; 2026 Dec 01+ Sa-Su 11:00-15:00; 2027 Aug 15+ Su off',
    'Mo-Fr 11:00-22:00, 2027 Dec 01+ Sa 18:00-23:00',
    'Mo-Su 10:00-18:00; Dec 24 closed "Christmas Eve"',
  ])('%s', (text) => {
    const [first, last] = [dayNumber(2027, 1, 1), dayNumber(2028, 1, 31)];
    expect(ours(parsed(text), first, last)).toEqual(theirs(text, first, last));
  });

  it.each([
    ['sunrise-sunset', 'sunrise'],
    ['Mo-Fr 10:00+', '+'],
    ['We-Fr 10:00-24:00 open "it is open" || "please call"', '||'],
    ['week 01-10 Mo 10:00-12:00', 'week'],
    ['Mo-Fr 10:00-20:00; easter off', 'easter'],
    ['Mo-Fr 10:00-20:00; SH off', 'SH'],
    ['Mo-Fr 10:00-16:00/01:30', '/'],
    ['Mo-Fr 10:00-20:00 unknown', 'unknown'],
  ])('%s is outside the subset, and told so', (text, what) => {
    expect(parseHours(text)).toMatchObject({ ok: false, fault: 'outside-subset', data: { what } });
  });

  it('public holidays are the dates that the store lists', () => {
    const hours = parsed('Mo-Fr 08:00-12:00; Sa 08:00-12:00; PH off');
    expect(openOn(hours, '2027-07-05')).toHaveLength(1);
    expect(openOn(hours, '2027-07-05', { holidays: ['2027-07-05'] })).toEqual([]);
    const sunday = parsed('Mo-Fr,PH 08:00-12:00');
    expect(openOn(sunday, '2027-07-04')).toEqual([]);
    expect(openOn(sunday, '2027-07-04', { holidays: ['2027-07-04'] })).toEqual([{ from: 480, to: 720 }]);
    expect(openOn(hours, '2027-12-24', { exceptions: [{ date: '2027-12-24', hours: parsed('10:00-14:00') }] })).toEqual([
      { from: 600, to: 840 },
    ]);
  });
});

const DAYS = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Random texts of the subset. */
const texts = (random: () => number) => {
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const pick = <T>(items: readonly T[]): T => items[int(0, items.length - 1)] as T;
  const two = (n: number): string => String(n).padStart(2, '0');
  const time = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  const days = (): string => {
    const one = (): string => (random() < 0.5 ? pick(DAYS) : `${pick(DAYS)}-${pick(DAYS)}`);
    return Array.from({ length: int(1, 2) }, one).join(',');
  };
  /** Up to two spans of a day; the last may run past midnight. */
  const spans = (late: boolean): string => {
    const opens = int(0, 20) * 30;
    const first: [number, number] = [opens, opens + int(1, 16) * 30];
    const second = first[1] + int(1, 8) * 30;
    const all: [number, number][] = random() < 0.3 && second < 1200 ? [first, [second, second + int(1, 8) * 30]] : [first];
    const last = all.at(-1) as [number, number];
    if (late && random() < 0.5) last[1] = DAY + int(0, Math.min(12, Math.floor(last[0] / 30) - 1)) * 30;
    last[1] = Math.max(last[1], last[0] + 30);
    const write = (to: number): string => (to > DAY && random() < 0.5 ? time(to - DAY) : time(to));
    return all
      .filter(([a, b]) => b <= DAY || late || a < b)
      .map(([a, b]) => `${time(a)}-${write(late ? b : Math.min(b, DAY))}`)
      .join(',');
  };
  const date = (): string => `${pick(MONTHS)} ${two(int(1, 28))}`;
  const dates = (): string =>
    pick([
      () => pick(MONTHS),
      () => `${pick(MONTHS)}-${pick(MONTHS)}`,
      () => date(),
      () => `${date()}-${date()}`,
      () => `2027 ${date()}`,
      () => `2027 ${date()}+`,
      () => `${date()},${date()}`,
    ])();
  const week = (late: boolean, separator: string): string =>
    Array.from({ length: int(1, 4) }, () => `${random() < 0.85 ? `${days()} ` : ''}${spans(late)}`).join(separator);
  return {
    overriding: () => week(false, '; ') + (random() < 0.4 ? `; ${days()} off` : ''),
    adding: () => week(true, ', '),
    plainLate: () => week(true, '; ') + (random() < 0.4 ? `; ${days()} off` : ''),
    dated: () =>
      `${week(false, '; ')}${Array.from({ length: int(1, 3) }, () => `; ${dates()} ${pick([() => 'off', () => spans(false), () => `${days()} ${spans(false)}`, () => `${days()} off`, () => `${pick(DAYS)}[${pick(['1', '2', '3', '4', '-1'])}] off`])()}`).join('')}`,
  };
};

/** A text that we take to be contradictory, or overlapping, is no test of reading. */
const read = (text: string): Hours | undefined => {
  const found = parseHours(text);
  if (!found.ok)
    expect(
      ['contradicting', 'added-to', 'overlapping', 'closes-before-opens', 'too-long'],
      `${text} ${JSON.stringify(found)}`,
    ).toContain(found.fault);
  return found.ok ? found.hours : undefined;
};

describe('random texts', () => {
  const [monday, sunday] = [dayNumber(2027, 6, 7), dayNumber(2027, 6, 20)];

  it.each(['overriding', 'adding'] as const)('%s rules of a week', (kind) => {
    const text = texts(seeded(37))[kind];
    let compared = 0;
    for (let n = 0; n < 1500; n++) {
      const wrote = text();
      const hours = read(wrote);
      if (!hours) continue;
      compared++;
      expect(ours(hours, monday, sunday), wrote).toEqual(theirs(wrote, monday, sunday));
    }
    expect(compared).toBeGreaterThan(500);
  });

  it('rules for dates, over a year', () => {
    const { dated } = texts(seeded(1970));
    let compared = 0;
    for (let n = 0; n < 250; n++) {
      const wrote = dated();
      const hours = read(wrote);
      if (!hours) continue;
      compared++;
      expect(ours(hours, dayNumber(2027, 1, 1), dayNumber(2028, 1, 10)), wrote).toEqual(
        theirs(wrote, dayNumber(2027, 1, 1), dayNumber(2028, 1, 10)),
      );
    }
    expect(compared).toBeGreaterThan(100);
  });

  it('our rewriting means to the reference what the text means to us, also where nights run into days of other rules', () => {
    const { plainLate } = texts(seeded(24));
    let compared = 0;
    for (let n = 0; n < 1500; n++) {
      const wrote = plainLate();
      const found = parseHours(wrote);
      if (!found.ok) continue;
      compared++;
      expect(ours(found.hours, monday, sunday), `${wrote} => ${found.readAs}`).toEqual(theirs(found.readAs, monday, sunday));
      const again = parseHours(found.readAs);
      expect(again.ok && again.readAs, wrote).toBe(found.readAs);
      expect(again.ok && weekOf(again.hours), wrote).toEqual(weekOf(found.hours));
    }
    expect(compared).toBeGreaterThan(500);
  });

  it('the circle of the week is what its dates say', () => {
    const { adding } = texts(seeded(168));
    for (let n = 0; n < 1000; n++) {
      const found = parseHours(adding());
      if (!found.ok) continue;
      const start = monday * DAY;
      const circle = weekOf(found.hours).flatMap(({ from, to }): Spans => [
        [start + from, start + to],
        [start + from - 7 * DAY, start + to - 7 * DAY],
      ]);
      expect(join(clip(join(circle), start, start + 7 * DAY)), found.readAs).toEqual(ours(found.hours, monday, monday + 6));
      expect(weekdayOf(monday)).toBe(0);
    }
  });
});
