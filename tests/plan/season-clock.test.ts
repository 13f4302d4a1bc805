/**
 * Hours that change by season, each with a setting of the clock: the two sheets at the change order it for a date, and a walk minute by minute
 * through both sheets, written separately, finds the top on whenever they have food in it; with the old setting left alone, only where they say so.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import type { Known } from '../../src/base/basis.js';
import type { Value } from '../../src/base/value.js';
import { planOf, readerOf, type Planned } from '../../src/fleet/store-papers.js';
import { weeksOf } from '../../src/fleet/store-weeks.js';
import { dayOfIso, isoOf, weekdayOf } from '../../src/model/hours/index.js';
import { WEEKDAYS } from '../../src/base/moment.js';
import type { UnitPlan } from '../../src/plan/unit.js';
import type { Week } from '../../src/plan/week.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const DAY = 1440;
const INTO = '2027-06-28';
const BACK = '2027-08-23';

const around = (hours: string, first: string, { table = TABLE, store = '', zone = 'America/Chicago', count = 2 } = {}) => {
  const site = `${STORE.replace('Mo-Su 07:00-22:00', `'${hours}'`).replace('America/Chicago', zone)}${store}`;
  const tried = tryChain({ 'sites/street.yaml': site, 'equipment/table.yaml': table }, ['fr']);
  const { workshop } = tried;
  if (!workshop) throw new Error(tried.told.join('\n'));
  const on = (iso: string) => planOf(workshop, 'sites/street.yaml', tried.files.get('sites/street.yaml') as Uint8Array, iso);
  const planned = on(first) as Planned;
  const start = dayOfIso(first) as number;
  const weeks = weeksOf(
    planned,
    on,
    Array.from({ length: count }, (_, n) => ({ first: start + 7 * n })),
  );
  const saying = (lang: string) => {
    const words = workshop.words.get(lang);
    if (!words) throw new Error(lang);
    const speaker = readerOf(
      words,
      { ...planned.read, store: { ...planned.read.store, clock_shows: '24-hour' } },
      workshop.shelf,
    );
    return (known: Known<Value>): string => textOf(speaker.say(known).runs).replace(/\u00a0/g, ' ');
  };
  /** Of units; the note on what hangs on the walls is told apart. */
  const notes = weeks.map(({ week }) => week.tree.notes.filter((n) => n.unit));
  const told = (lang = 'en'): readonly (readonly string[])[] => {
    const say = saying(lang);
    return notes.map((of) => of.map((n) => `${n.date.value.iso} ${say(n.text)}${n.otherwise ? ` ${say(n.otherwise)}` : ''}`));
  };
  const sheets = weeks.map(({ week }) =>
    week.tree.notes.filter((n) => !n.unit).map((n) => `${n.date.value.iso} ${n.text.value.code}`),
  );
  return { weeks, notes, sheets, told, findings: weeks.flatMap((w) => [...w.week.findings]) };
};

/** What the clock does by its printed settings, minute by minute of real dates. */
const isOff = (unit: UnitPlan, minute: number): boolean =>
  (unit.rest?.settings ?? []).some(({ off_days, off, on }) =>
    [0, 1].some((back) => {
      const day = Math.floor(minute / DAY) - back;
      if (!off_days.value.days.includes(WEEKDAYS[weekdayOf(day)] as (typeof WEEKDAYS)[number])) return false;
      const from = day * DAY + off.value.min;
      return minute >= from && minute < from + ((on.value.min - off.value.min + DAY) % DAY);
    }),
  );

/** Minutes in which the sheets have food in the top: from loading to the time by which it is empty. */
const withFood = (weeks: readonly Week[]): readonly number[] =>
  weeks
    .flatMap((week) => week.days)
    .flatMap((day) => {
      const { cold_by, empty_by } = day.units['line-1'] ?? {};
      const base = (dayOfIso(day.date.value.iso) as number) * DAY;
      return cold_by && empty_by
        ? Array.from({ length: empty_by.value.min - cold_by.value.min }, (_, n) => base + cold_by.value.min + n)
        : [];
    });

const seasons = [
  ['later, longer', 'Mo-Su 07:00-22:00; Jul 05-Aug 29 Mo-Su 09:00-23:30', 'last-day', 'between'],
  ['earlier', 'Mo-Su 07:00-22:00; Jul 05-Aug 29 Mo-Su 05:00-20:00', 'between', 'last-day'],
  ['longer both ways', 'Mo-Su 09:00-20:00; Jul 05-Aug 29 Mo-Su 07:30-21:30', 'before', 'safe'],
  ['shorter both ways', 'Mo-Su 07:00-22:00; Jul 05-Aug 29 Mo-Su 09:00-20:00', 'safe', 'before'],
  ['longer by days', 'Mo-Su 07:00-22:00; Jul 05-Aug 29 Mo-Th 07:00-22:00; Jul 05-Aug 29 Fr-Su 07:00-23:00', 'before', 'safe'],
] as const;

/** Where sheets change: at the end of a week, or within it. */
const STARTS = [
  ['a Monday', 'Jul 05-Aug 29', '2027-07-05', '2027-08-30'],
  ['a Thursday', 'Jul 01-Aug 25', '2027-07-01', '2027-08-26'],
] as const;

describe('the clock at a change of season', () => {
  it.each([
    // For good: the same clock's tasks as where it comes back.
    ...seasons.map(([name, wrote, into]) => {
      const hours = wrote.replaceAll('Jul 05-Aug 29', '2027 Jul 01+');
      return [`${name}, for good`, hours, INTO, '2027-07-01', into] as const;
    }),
    ...STARTS.flatMap(([weekday, range, begins, ends]) =>
      seasons.flatMap(([name, wrote, into, back]) => {
        const hours = wrote.replaceAll('Jul 05-Aug 29', range);
        return [
          [`${name}, on ${weekday}`, hours, INTO, begins, into] as const,
          [`${name}, back on ${weekday}`, hours, BACK, ends, back] as const,
        ];
      }),
    ),
  ])('%s: %s from %s, on %s: %s', (_, hours, first, begins, order) => {
    const { weeks, notes: all, sheets, told } = around(hours, first);
    const change = dayOfIso(begins) as number;
    // Each sheet is of one season: the last of the old one ends the day before the new one's first begins.
    const after = weeks.findIndex(({ week }) => week.tree.from.value.iso === begins);
    expect(weeks[after - 1]?.week.tree.to.value.iso).toBe(isoOf(change - 1));
    expect(weeks.flatMap(({ week }) => week.days.map((d) => d.date.value.iso))).toEqual(
      Array.from({ length: 14 }, (_, n) => isoOf((dayOfIso(first) as number) + n)),
    );
    const notes = [all[after - 1], all[after]];
    // What hangs on the walls changes with the sheets, whatever the clock does.
    expect(sheets.flat()).toEqual([`${isoOf(change - 1)} notes.season-sheets-before`, `${begins} notes.season-sheets-after`]);
    const [old, now] = [weeks[after - 1], weeks[after]].map((w) => w?.plan.units['line-1'] as UnitPlan) as [UnitPlan, UnitPlan];
    const code = (notes[0]?.[0] ?? notes[1]?.[0])?.figures['told'];
    expect((code?.value as { code?: string }).code, told().flat().join('\n')).toBe(`notes.season-${order}`);
    const food = withFood(weeks.map((w) => w.week));
    expect(food.length).toBeGreaterThan(14 * 600);
    const left = food.filter((minute) => isOff(old, minute) && minute >= change * DAY);
    const until = notes[1]?.[0]?.otherwise;
    if (order === 'safe') {
      expect(notes[0]).toEqual([]);
      expect(left).toEqual([]);
      expect(until).toBeUndefined();
      return;
    }
    const task = notes[0]?.find((n) => n.hand);
    const at = task?.figures['at']?.value as { min: number } | undefined;
    const set = (dayOfIso(task?.date.value.iso ?? '') as number) * DAY + (at?.min ?? NaN);
    expect(task?.date.value.iso).toBe(isoOf(change - 1));
    // Set when it is told: the top is on whenever food is in it, on all sheets.
    expect(food.filter((minute) => isOff(minute < set ? old : now, minute))).toEqual([]);
    // On any day before, only where that is what the sheet says.
    const early = food.filter((minute) => minute < change * DAY && isOff(now, minute));
    if (order === 'before') expect(early).toEqual([]);
    else expect(early.length).toBeGreaterThan(0);
    // Once the morning's food is in on the last day, where the sheet says that.
    const lastDay = early.filter((minute) => minute >= (change - 1) * DAY + 12 * 60);
    if (order === 'last-day') expect(lastDay).toEqual([]);
    if (order === 'between') expect(lastDay.length).toBeGreaterThan(0);
    // Nothing else is told of the nights at the change: the standing settings are right for them.
    expect(notes.map((of) => of?.length)).toEqual([1, 1]);
    expect(all.flat()).toHaveLength(2);
  });

  it('is told in a cook’s words, with what to do until it is set', () => {
    const { told } = around(seasons[1][1], INTO);
    expect(told()).toMatchInlineSnapshot(`
      [
        [
          "2027-07-04 New hours from Jul 5, 2027. Once the top is empty, at 22:00, and not earlier, set its clock. Old: Mon–Sun: off 22:15, on 05:15. New: Mon–Sun: off 20:15, on 03:15. Order Test Service for it now: only a technician sets it. From Jul 5, 2027, until it is set: Mon–Sun: the top may come on only at 05:30. Leave its food where it was for the night. Probe before you load: nothing goes in before the top reads 20 °F or colder.",
        ],
        [
          "2027-07-05 New hours from Jul 5, 2027. The top's clock must have been set by now. Old: Mon–Sun: off 22:15, on 05:15. New: Mon–Sun: off 20:15, on 03:15. It goes off or on at other times than this sheet's? Call Test Service. From Jul 5, 2027, until it is set: Mon–Sun: the top may come on only at 05:30. Leave its food where it was for the night. Probe before you load: nothing goes in before the top reads 20 °F or colder.",
        ],
      ]
    `);
    expect(told('fr')[1]).toMatchInlineSnapshot(`
      [
        "2027-07-05 Nouveaux horaires dès le 5 juill 2027. L’horloge du haut doit déjà être réglée. Avant : Lun–Dim : arrêt 22:15, marche 05:15. Maintenant : Lun–Dim : arrêt 20:15, marche 03:15. Arrêt ou marche à d’autres heures que sur cette feuille ? Appelez Test Service. Dès le 5 juill 2027, et jusqu’au réglage : Lun–Dim : le haut peut ne démarrer qu’à 05:30. Laissez ses aliments là où ils ont passé la nuit. Sondez avant de charger : rien n’entre tant que le haut n’indique pas 20 °F ou moins.",
      ]
    `);
  });

  it('is a technician’s even where the manager may set the clock’s time: off and on are another matter', () => {
    const { notes, told } = around(seasons[0][1], INTO, { table: TABLE.replace('reachable: false', 'reachable: true') });
    expect((notes[0]?.[0]?.who.value as { code: string }).code).toBe('technician');
    expect(told()[0]?.[0]).toMatch(/technician/);
  });

  it('is ordered for each of several clocks', () => {
    const second = `  line-2:\n    profile: table\n    nickname: Line 2\n    position: by the wall\n    serial: X2\n    food_goes_to: { zone: base, free_shelf: 6 sq ft, height: 6 in }\n`;
    const { notes } = around(seasons[0][1], INTO, { store: second });
    const units = notes.map((of) => of.map((n) => (n.unit?.value as { text: string }).text));
    expect(units).toEqual([
      ['Line 1', 'Line 2'],
      ['Line 1', 'Line 2'],
    ]);
  });

  it('is not ordered for a switch, whose times are on the sheet, nor where a dated range is within a week', () => {
    const byHand = TABLE.replace(/clock: \{.*\}/, 'clock: { kind: hand-switch, reachable: true, stops: [rail] }');
    expect(around(seasons[0][1], INTO, { table: byHand }).notes).toEqual([[], []]);
    const short = around('Mo-Su 07:00-22:00; Jul 07-Jul 09 Mo-Su 07:00-22:30', INTO);
    expect(short.notes.flat().filter((n) => n.lead)).toEqual([]);
  });

  it('whose new hours leave no safe setting says that the old one still stops the top', () => {
    const hours = 'Mo-Su 07:00-22:00; Jul 05-Aug 29 Mo-Su 06:00-23:30';
    const [before, after] = around(hours, INTO).told();
    expect(before?.[0]).toMatch(/^2027-07-04 .*it still holds the old one: .*off 22:15.*must no longer stop the top/);
    expect(after?.[0]).toMatch(/^2027-07-05 .*may stop the top from 22:00 on\. Have it empty by then/);
    const [, back] = around(hours, BACK).told();
    expect(back?.[0]).toMatch(/^2027-08-30 .*has a safe setting/);
  });

  it('over closed days stands on the sheet of the last open day, and on that of the first', () => {
    // Closed on Thursday and Friday; the new hours are told from Thursday on, or from Friday on: the sheets are the same.
    for (const from of ['Jul 01', 'Jul 02']) {
      const hours = `Mo-We,Sa-Su 07:00-22:00; ${from}-Aug 31 Mo-We,Sa-Su 09:00-23:30`;
      const { weeks, notes } = around(hours, INTO);
      expect(weeks.map(({ week }) => week.days.filter((d) => d.open).map((d) => d.weekday))).toEqual([
        ['mon', 'tue', 'wed'],
        ['sat', 'sun'],
        ['mon', 'tue', 'wed', 'sat', 'sun'],
      ]);
      expect(notes.map((of) => of.map((n) => n.date.value.iso))).toEqual([['2027-06-30'], ['2027-07-03'], []]);
    }
    // Closed on the first days of the week: no sheet of closed days alone.
    const { weeks, notes } = around('We-Su 07:00-22:00; Jul 06-Aug 31 We-Su 09:00-23:30', INTO);
    expect(weeks.map(({ week }) => week.days.length)).toEqual([7, 7]);
    expect(notes.map((of) => of.map((n) => n.date.value.iso))).toEqual([['2027-07-04'], ['2027-07-07']]);
  });

  it('over a year of seasons that begin on any weekday, set when it is told, never stops food', () => {
    const hours = [
      'Mo-Su 07:00-22:00',
      'Mar 17-May 31 Mo-Su 09:00-23:00',
      'Jun-Aug Mo-Th 07:30-22:00',
      'Jun-Aug Fr-Su 07:30-23:00',
      'Oct 06-Nov 20 Mo-Su 06:00-20:30',
    ];
    // A zone without changes of the clocks: they are another test's.
    const { weeks, notes } = around(hours.join('; '), '2027-01-04', { zone: 'America/Phoenix', count: 52 });
    expect(weeks.flatMap(({ week }) => week.days.map((d) => d.date.value.iso))).toEqual(
      Array.from({ length: 52 * 7 }, (_, n) => isoOf((dayOfIso('2027-01-04') as number) + n)),
    );
    // Each sheet tells its own season's times.
    for (const { week, plan } of weeks)
      for (const { weekday, units } of week.days)
        expect(units['line-1']?.off?.value.min).toBe(plan.units['line-1']?.rest?.off?.value.at[weekday]?.min);
    const settings = weeks.flatMap(({ week, plan }, i) => {
      const unit = plan.units['line-1'] as UnitPlan;
      if (i > 0 && weeks[i - 1]?.plan === plan) return [];
      const task = [...(notes[i - 1] ?? []), ...(notes[i] ?? [])].find((n) => n.hand && n.lead);
      const at = task?.figures['at']?.value as { min: number } | undefined;
      const day = dayOfIso(task ? task.date.value.iso : week.tree.from.value.iso) as number;
      return [{ from: day * DAY + (at?.min ?? 0), unit }];
    });
    expect(settings.length).toBe(6);
    const food = withFood(weeks.map((w) => w.week));
    expect(food.length).toBeGreaterThan(52 * 7 * 600);
    const held = (minute: number): UnitPlan => (settings.findLast((s) => s.from <= minute) as { unit: UnitPlan }).unit;
    expect(food.filter((minute) => isOff(held(minute), minute))).toEqual([]);
    // Left at its first setting all year it would.
    expect(food.some((minute) => isOff(settings[0]?.unit as UnitPlan, minute))).toBe(true);
  });
});

it('a coming season is no row of other dates: nobody orders a technician for each of its nights', () => {
  for (const [first, count] of [
    ['2026-11-16', 1], // the season begins two weeks later
    ['2026-11-30', 1], // in this week
    ['2026-12-07', 1], // before it
  ] as const) {
    const { findings } = around('Mo-Su 07:00-21:00; 2026 Dec 01+ Mo-Su 07:00-23:30', first, { count });
    expect(findings.filter(({ code }) => code === 'date-technician').length, first).toBeLessThanOrEqual(1);
  }
});

it('a clock is asked after on the first sheet of a season too', () => {
  const { findings } = around('Mo-Su 07:00-22:00; Nov 02-Mar 31 Su 08:00-22:00', '2026-11-02', { count: 1 });
  expect(findings.map(({ code }) => code)).toContain('clock-since-change');
});
