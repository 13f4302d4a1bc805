/**
 * Dated weeks as small goldens to review: changes of the clocks, dates of other hours, and what people are told to do about them.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { planOf, readerOf, type Planned, type PlannedStore } from '../../src/fleet/store-papers.js';
import { weeksOf } from '../../src/fleet/store-weeks.js';
import type { WeekNote } from '../../src/plan/date-notes.js';
import { WHENS } from '../../src/plan/steps.js';
import { leaves, type Tree } from '../../src/plan/known.js';
import { planWeek } from '../../src/plan/week.js';
import { weekOfIso, type WeekDates } from '../../src/plan/week-dates.js';
import { CHAIN, demoFiles, STORE, TABLE, tryChain, tryFiles, type Tried } from '../support/chain.js';

const demo = tryFiles(demoFiles());

const weekOf = (tried: Tried, id: string, iso: string) => {
  const { workshop, stores } = tried;
  const { plan, read } = stores.get(id) as PlannedStore;
  if (!workshop || !plan || !read) throw new Error(`${id} has no plan`);
  return { workshop, plan, read, week: planWeek(read, plan, weekOfIso(iso, workshop.shelf.chain.week_starts) as WeekDates) };
};

const written = (tried: Tried, id: string, iso: string, lang = 'en'): string => {
  const { workshop, plan, read, week } = weekOf(tried, id, iso);
  const words = workshop.words.get(lang);
  if (!words) throw new Error(`no words for ${lang}`);
  const speaker = readerOf(words, { ...read, store: { ...read.store, clock_shows: '24-hour' } }, workshop.shelf);
  const said = (known: Parameters<typeof speaker.say>[0]): string => textOf(speaker.say(known).runs);
  const line = (n: WeekNote): string =>
    `${n.date.value.iso}${n.unit ? `, ${said(n.unit)}` : ''} (${said(n.who)}): ${said(n.text)}${n.otherwise ? ` ${said(n.otherwise)}` : ''}`;
  const lines = [`${plan.store.name.value.text}, ${plan.store.timezone.value.text}, ${iso}`];
  for (const id of Object.keys(week.days[0]?.units ?? {})) {
    lines.push('', id);
    for (const day of week.days) {
      const cells = WHENS.map((when) => {
        const at = day.units[id]?.[when];
        return `${when} ${at ? said(at) : '-'}`;
      });
      const marks = [...(day.open ? [] : ['closed']), ...day.marks.map(said)].map((m) => `  [${m}]`).join('');
      lines.push(`  ${day.weekday} ${day.date.value.iso}  ${cells.join('  ')}${marks}`);
    }
  }
  const { notes, errors } = week.tree;
  if (notes.length > 0) lines.push('', ...notes.map(line));
  if (errors.length > 0) lines.push('', ...errors.map((n) => `NO TIMES  ${line(n)}`));
  if (week.findings.length > 0) lines.push('', ...week.findings.map((f) => `${f.severity} ${f.code} ${f.at.path.join('.')}`));
  return `${lines.join('\n')}\n`;
};

describe('a dated week', () => {
  it.each([
    ['copper-ferry', '2026-W52'], // a short day, then closed
    ['copper-ferry', '2027-W10'], // forward, on a dial that does not follow
    ['copper-ferry', '2027-W44'], // back
    ['corbel-yard', '2027-W10'], // forward, on a clock that follows
    ['magpie-lane', '2027-W13'], // back, in the south
    ['magpie-lane', '2027-W39'], // forward, in the south
    ['tannery-row', '2026-W48'], // closed on Monday and on a holiday
    ['pilot-steps', '2026-W53'], // no clock; open until two
    ['wren-stair', '2027-W10'], // by hand, wiped
  ])('%s %s', async (id, iso) => {
    await expect(written(demo, id, iso)).toMatchFileSnapshot(`golden/week-${id}-${iso}.txt`);
  });

  it.each([
    ['technician', 'en'],
    ['technician', 'es'],
    ['manager', 'en'],
    ['manager', 'es'],
    ['manager', 'fr'],
  ] as const)('with a late, an early and a long night, for the %s, in %s', async (hand, lang) => {
    const store = `${STORE}crew: { comes: 3 h before opening }
exceptions:
  - { date: 2027-02-02, hours: '07:00-23:30' } # held on
  - { date: 2027-02-04, hours: '06:00-22:00' } # turned on early
  - { date: 2027-02-06, hours: '07:00-01:30' } # no rest
`;
    const tried = tryChain({
      'nightrail.yaml': CHAIN.replace('languages: [en]', 'languages: [en, es, fr]'),
      'sites/street.yaml': store,
      'equipment/table.yaml': TABLE.replace('reachable: false', `reachable: ${hand === 'manager'}`),
    });
    const told = written(tried, 'street', '2027-W05', lang);
    await expect(told).toMatchFileSnapshot(`golden/week-special-${hand}.${lang}.txt`);
    const { week } = weekOf(tried, 'street', '2027-W05');
    expect(week.tree.notes.map((n) => `${n.date.value.iso} ${n.text.value.code}`)).toEqual([
      `2027-02-02 notes.hold-on-${hand}`,
      `2027-02-03 notes.turn-on-early-${hand}`,
      `2027-02-06 notes.stay-on-${hand}`,
    ]);
  });

  it('says which of a time that the wall shows twice is meant, in an order that people can follow', () => {
    // Chile, the night of 2027-04-03: at 24:00 clocks go back to 23:00 (the time-zone data that ships with the platform).
    const tried = tryChain({
      'sites/street.yaml': STORE.replace('America/Chicago', 'America/Santiago').replace('07:00-22:00', '07:00-23:00'),
      'equipment/table.yaml': TABLE.replace('    drains:', '    move: { empty: 30 min, load: 20 min }\n    drains:'),
    });
    const { week } = weekOf(tried, 'street', '2027-W13');
    const { start, empty_by: emptyBy } = week.days.find((d) => d.date.value.iso === '2027-04-03')?.units['line-1'] ?? {};
    // 23:30 for the first time, then 23:00 for the second.
    expect([start?.value.min, emptyBy?.value.min]).toEqual([23 * 60 + 30, 23 * 60]);
    const meant = week.tree.notes.map((n) => n.text.value.code).filter((code) => code.includes('meant'));
    expect(meant).toEqual(['notes.first-time-meant-startemptying', 'notes.second-time-meant-emptyby']);
  });

  it.each([
    // Of 2026-11-01, the night of 2026-10-31, until eight weeks are over or somebody has signed.
    ['2026-W45', '', ['2026-10-31 notes.since-technician notes.since-missed-early']],
    ['2026-W52', '', ['2026-10-31 notes.since-technician notes.since-missed-early']],
    ['2026-W53', '', []],
    ['2026-W46', '2026-10-31', ['2026-10-31 notes.since-technician notes.since-missed-early']],
    ['2026-W46', '2026-11-01', []],
    // The week itself tells the task.
    ['2026-W44', '', ['2026-10-31 notes.reset-back-technician notes.reset-missed-early']],
  ] as const)('in %s asks after a clock that nobody may have turned since it changed; signed "%s"', (iso, signed, said) => {
    const by = signed && `    set_by: { who: T. Okonedo-Ray, when: ${signed} }\n`;
    const tried = tryChain({ 'sites/street.yaml': STORE + by });
    const { week } = weekOf(tried, 'street', iso);
    const tasks = week.tree.notes.filter(({ unit }) => unit !== undefined);
    expect(tasks.map((n) => `${n.date.value.iso} ${n.text.value.code} ${n.otherwise?.value.code}`)).toEqual(said);
    const asked = week.findings.filter(({ code }) => code === 'clock-since-change');
    expect(asked).toHaveLength(said.filter((one) => one.includes('since')).length);
  });

  it('in a store that never closes reads the bottom through the nights around a date of other hours', () => {
    const store = `${STORE.replace('Mo-Su 07:00-22:00', '24/7')}quiet_window: 02:00-10:05
crew: { comes: 90 min before opening }
exceptions: [{ date: 2026-12-31, hours: '00:00-18:00' }, { date: 2027-01-02, hours: '06:00-24:00' }]
`;
    const { week } = weekOf(tryChain({ 'sites/street.yaml': store }), 'street', '2026-W53');
    const read = week.days.flatMap(({ rounds }, i) => rounds.map(({ at }) => i * 1440 + at.value.min));
    const closed = [
      [3 * 1440 + 18 * 60, 4 * 1440],
      [5 * 1440, 5 * 1440 + 6 * 60],
    ] as const;
    for (const [i, min] of read.entries()) {
      const before = read[i - 1] ?? 0;
      const shut = closed.some(([from, to]) => before <= from && min >= to);
      if (!shut && i > 0) expect(min - before, `${before} to ${min}`).toBeLessThanOrEqual(4 * 60);
    }
    // Opened at midnight, long before the crew of its quiet window's end.
    expect(read).toContain(4 * 1440);
  });

  it('asks after a clock across a season that leaves it as it is', () => {
    const site = STORE.replace('Mo-Su 07:00-22:00', "'Mo-Su 07:00-22:00; Nov 02-Mar 31 Su 08:00-22:00'");
    const { week } = weekOf(tryChain({ 'sites/street.yaml': site }), 'street', '2026-W47');
    expect(week.findings.map(({ code }) => code)).toContain('clock-since-change');
  });

  it('reads by the hours that pass where the clocks change between two readings, and on no other day otherwise', () => {
    // America/Chicago, in the night of 2026-10-31 back and of 2027-03-13 forward; the store is open over the change.
    const times = (hours: string, iso: string, zone = 'America/Chicago') => {
      const site = STORE.replace('Mo-Su 07:00-22:00', hours).replace('America/Chicago', zone);
      const { week } = weekOf(tryChain({ 'sites/street.yaml': site }), 'street', iso);
      const [day, next] = [week.days[5], week.days[6]];
      return { of: day?.rounds.map(({ at }) => at.value.min) ?? [], next: next?.rounds.map(({ at }) => at.value.min) ?? [], day };
    };
    expect(times('Mo-Su 07:00-22:00', '2026-W44').of).toEqual(times('Mo-Su 07:00-22:00', '2026-W43').of);
    const late = 'Mo-Su 11:00-03:30';
    const [usual, back, forward] = ['2026-W43', '2026-W44', '2027-W10'].map((iso) => times(late, iso));
    // Once more at most for the hour that comes twice, and no closer for it in the morning.
    expect((back?.of.length ?? 0) - (usual?.of.length ?? 0)).toBeLessThanOrEqual(1);
    expect(back?.next).toEqual(usual?.next);
    // None at a time between 02:00 and 03:00 of the night in which the wall leaves them out.
    expect(forward?.of.filter((min) => min >= 1440 + 120 && min < 1440 + 180)).toEqual([]);
    // From the last loading to the emptying, in hours that pass: FDA Food Code 2022 gives four without control.
    const passing = (min: number, shift: number): number => (min > 1440 + 60 ? min + shift : min);
    const start = back?.day?.units['line-1']?.start?.value.min ?? 0;
    const read = [...(back?.of ?? []), start].map((min) => passing(min, 60));
    for (const [i, min] of read.entries()) if (i > 0) expect(min - (read[i - 1] as number)).toBeLessThanOrEqual(240);
    // Two hours back at once: still rounds, and finitely many.
    const troll = times('Mo-Su 11:00-03:00', '2026-W43', 'Antarctica/Troll').of;
    expect(troll.length).toBeGreaterThan(3);
    expect(troll.length).toBeLessThan(40);
  });

  it.each([
    ['11:00-02:00', '2026-W44'],
    ['11:00-02:00', '2027-W10'],
    ['11:00-01:30', '2026-W44'],
    ['24/7', '2027-W10'],
  ])('tells no time that the wall leaves out, and of one that it shows twice which is meant: open %s, %s', (hours, iso) => {
    const quiet = hours === '24/7' ? 'quiet_window: 02:00-10:05\ncrew: { comes: 90 min before opening }\n' : '';
    const site = `${STORE.replace('Mo-Su 07:00-22:00', hours === '24/7' ? hours : `Mo-Su ${hours}`)}${quiet}`;
    const { week } = weekOf(tryChain({ 'sites/street.yaml': site }), 'street', iso);
    const saturday = week.days[5];
    const times = saturday?.units['line-1'] ?? {};
    // America/Chicago: in March 02:00 to 03:00 is left out, in October 01:00 to 02:00 comes twice.
    const told = Object.values(times).map((at) => at.value.min - 1440);
    if (iso === '2027-W10') expect(told.filter((min) => min >= 120 && min < 180)).toEqual([]);
    const codes = week.tree.notes.map((n) => n.text.value.code.replace('notes.', ''));
    for (const [when, what] of [
      ['start', 'startemptying'],
      ['empty_by', 'emptyby'],
      ['off', 'off'],
    ] as const) {
      const min = (times[when]?.value.min ?? 0) - 1440;
      const which = codes.filter((code) => code.endsWith(`-${what}`));
      if (iso === '2026-W44') expect(which.length, `${what} ${codes.join()}`).toBe(min >= 60 && min < 120 ? 1 : 0);
    }
    // Of a store that never closes 02:00 is no closing.
    if (hours === '24/7') expect(codes.filter((code) => /time-(skipped|twice)-(closes|leaves|opens)/.test(code))).toEqual([]);
  });

  it.each(['00:30', '00:45', '01:00', '02:00'])(
    'a top without a clock is empty before the crew leaves, once: closed at %s',
    (closes) => {
      const table = TABLE.replace(/    rest:\n(?: {6}.*\n)+/, '').replace('kind: static-rail', 'kind: forced-air-rail');
      const site = STORE.replace('Mo-Su 07:00-22:00', `Mo-Su 11:00-${closes}`);
      for (const iso of ['2026-W44', '2027-W10']) {
        const { week } = weekOf(tryChain({ 'sites/street.yaml': site, 'equipment/table.yaml': table }), 'street', iso);
        const { start, empty_by: by } = week.days[5]?.units['line-1'] ?? {};
        const usual = week.days[4]?.units['line-1'];
        const told = [start?.value.min ?? 0, by?.value.min ?? 0];
        // Closed and left before the wall goes back, or by what it shows after: never later than on any other night.
        expect(told[0]).toBeLessThan(told[1] as number);
        if (iso === '2026-W44') expect(told[1]).toBeLessThanOrEqual(usual?.empty_by?.value.min ?? 0);
      }
    },
  );

  it('empties before the store has closed only where its clock needs that: at the second 01:50, where a hand holds the top on', () => {
    const site = STORE.replace('Mo-Su 07:00-22:00', 'Mo-Su 11:00-02:00');
    const { week } = weekOf(tryChain({ 'sites/street.yaml': site }), 'street', '2026-W44');
    const codes = week.tree.notes.map((n) => n.text.value.code.replace('notes.', ''));
    expect(codes).toContain('hold-on-technician');
    expect(codes).toContain('second-time-meant-startemptying');
    expect(codes).toContain('turns-second-time-hold');
  });

  it('asks after a clock signed for while the store was closed, before the clocks changed', () => {
    const closed = STORE.replace('Mo-Su 07:00-22:00', "'Mo-Su 07:00-22:00; 2026 Oct 29-2026 Nov 02 off'");
    const asked = (signed: string) => {
      const tried = tryChain({ 'sites/street.yaml': `${closed}    set_by: { who: T. Okonedo-Ray, when: ${signed} }\n` });
      return weekOf(tried, 'street', '2026-W47').week.tree.notes.map((n) => `${n.date.value.iso} ${n.text.value.code}`);
    };
    // The clocks changed in the night of 2026-10-31, when nobody was there.
    expect(asked('2026-10-30')).toEqual(['2026-10-31 notes.since-technician']);
    expect(asked('2026-11-01')).toEqual([]);
  });

  it('a clock that was found before the clocks changed stands at two times by the wall: as it was read, and not turned since', () => {
    const found = "    found: { when: 2026-10-06, who: T. Okonedo-Ray, clock: { off: '18:00', on: '03:00' } }\n";
    const unturned = (iso: string) =>
      weekOf(tryChain({ 'sites/street.yaml': STORE + found }), 'street', iso).week.tree.unturned.map(({ days, off, on }) => [
        days.value.days.length,
        off.value.min,
        on.value.min,
      ]);
    // America/Chicago: back on 2026-11-01, forward on 2027-03-14; a dial that stays goes by the old time.
    expect([unturned('2026-W43'), unturned('2026-W46'), unturned('2027-W12')]).toEqual([[], [[7, 17 * 60, 2 * 60]], []]);
    // An order by the planned setting would be another one than the sheet's head gives.
    const { week } = weekOf(tryChain({ 'sites/street.yaml': STORE + found }), 'street', '2026-W46');
    expect(week.tree.notes.filter((n) => n.text.value.code.includes('since')).map((n) => n.otherwise)).toEqual([undefined]);
  });

  it('asks after no clock of which somebody has told since what it stands at', () => {
    const asked = (seen: string) => {
      const found = `    found: { when: ${seen}, who: T. Okonedo-Ray, clock: { off: '22:15', on: '05:00' } }\n`;
      const { week } = weekOf(tryChain({ 'sites/street.yaml': STORE + found }), 'street', '2026-W47');
      return week.findings.filter(({ code }) => code === 'clock-since-change').length;
    };
    // The clocks changed in the night of 2026-10-31.
    expect(['2026-10-30', '2026-11-05'].map(asked)).toEqual([1, 0]);
  });

  it.each([
    ['2026-12-06', []], // the week's last day
    ['2026-12-07', ['signed-later units.line-1.set_by.when']],
  ] as const)('a signature of %s is none where its day is later than the week, and told', (signed, told) => {
    const clock = "clock: { off: '13:15', on: '20:00' }";
    const found = `    found: { when: 2026-11-12, who: T. Okonedo-Ray, ${clock} }\n`;
    const site = `${STORE}${found}    set_by: { who: T. Okonedo-Ray, when: ${signed} }\n`;
    const { workshop } = tryChain({ 'sites/street.yaml': site });
    if (!workshop) throw new Error('no workshop');
    const planned = planOf(workshop, 'sites/street.yaml', new TextEncoder().encode(site), '2026-11-30');
    const unit = planned.plan?.units['line-1'];
    expect(
      planned.findings.filter(({ code }) => code.endsWith('-later')).map(({ code, at }) => `${code} ${at.path.join('.')}`),
    ).toEqual(told);
    // What was found then stands on the sheets, not what is to be set.
    expect([unit?.set_by === undefined, (unit?.clock_stands ?? []).length > 0]).toEqual(
      told.length > 0 ? [true, true] : [false, false],
    );
  });

  it('a find of a later day is told, and kept', () => {
    const found = "    found: { when: 2026-12-07, who: T. Okonedo-Ray, clock: { off: '18:00', on: '03:00' } }\n";
    const { workshop } = tryChain({ 'sites/street.yaml': STORE + found });
    if (!workshop) throw new Error('no workshop');
    const { findings, plan } = planOf(workshop, 'sites/street.yaml', new TextEncoder().encode(STORE + found), '2026-11-30');
    expect(findings.map(({ code }) => code)).toContain('found-later');
    expect(plan?.units['line-1']?.clock_other?.value.is).toBe(true);
  });

  it('each of several weeks knows what is signed and approved by its own end', () => {
    const site = `${STORE}    set_by: { who: T. Okonedo-Ray, when: 2026-12-08 }\n`;
    const { workshop } = tryChain({
      'sites/street.yaml': site,
      'nightrail.yaml': CHAIN.replace('2026-11-16', '2026-12-14'),
    });
    if (!workshop) throw new Error('no workshop');
    const on = (date: string, week = date) => planOf(workshop, 'sites/street.yaml', new TextEncoder().encode(site), date, week);
    const first = weekOfIso('2026-W49', 'mon') as WeekDates;
    const weeks = weeksOf(
      on('2026-11-30') as Planned,
      on,
      [0, 1, 2].map((n) => ({ first: first.first + 7 * n })),
    );
    expect(weeks.map(({ plan }) => [plan.store.approved.value.is, plan.units['line-1']?.set_by !== undefined])).toEqual([
      [false, false],
      [false, true],
      [true, true],
    ]);
  });

  it('the mark of a change of the clocks stands on its own evening, over closed days too', () => {
    const site = `${STORE}exceptions: [{ date: 2026-10-31, hours: 'off' }, { date: 2026-11-01, hours: 'off' }]\n`;
    const { week } = weekOf(tryChain({ 'sites/street.yaml': site }), 'street', '2026-W44');
    const marked = week.days.filter(({ marks }) => marks.some((m) => m.value.code === 'week.clocks-change'));
    expect(marked.map(({ date: at }) => at.value.iso)).toEqual(['2026-10-31']);
  });

  it('reads food by the hours that pass, and tells of the change, where no top of a store has a clock', () => {
    const table = TABLE.replace(/    rest:\n(?: {6}.*\n)+/, '').replace('kind: static-rail', 'kind: forced-air-rail');
    const hours = STORE.replace('Mo-Su 07:00-22:00', '24/7');
    const quiet = `${hours}quiet_window: 02:00-07:00\ncrew: { comes: 90 min before opening }\n`;
    const { week } = weekOf(tryChain({ 'sites/street.yaml': quiet, 'equipment/table.yaml': table }), 'street', '2026-W44');
    const start = week.days[5]?.units['line-1']?.start?.value.min ?? 0;
    const saturday = [...(week.days[5]?.rounds ?? []).map(({ at }) => at.value.min), start];
    const sunday = (week.days[6]?.rounds ?? []).map(({ at }) => at.value.min + 1440);
    // In America/Chicago 01:00 comes twice in that night.
    const passing = [...saturday, ...sunday].toSorted((a, b) => a - b).map((min) => (min > 1440 + 60 ? min + 60 : min));
    expect(passing.length).toBeGreaterThan(6);
    for (const [i, min] of passing.entries()) if (i > 0) expect(min - (passing[i - 1] as number)).toBeLessThanOrEqual(240);
    expect(week.tree.notes.map((n) => n.text.value.code)).toContain('notes.clocks-back');
  });

  it('gives a crew whose clock follows one order for the hour that comes twice', () => {
    const table = TABLE.replace('reachable: false', 'reachable: false, follows_dst: true');
    const site = STORE.replace('Mo-Su 07:00-22:00', 'Mo-Su 11:00-00:30');
    const { week } = weekOf(tryChain({ 'sites/street.yaml': site, 'equipment/table.yaml': table }), 'street', '2026-W44');
    const codes = week.tree.notes.map((n) => n.text.value.code.replace('notes.', ''));
    expect(codes).not.toContain('time-twice-leaves');
    expect(codes.filter((code) => code.startsWith('turning-twice'))).toHaveLength(
      new Set(codes.filter((code) => code.startsWith('turning-twice'))).size,
    );
    expect(codes).not.toContain('turning-twice-on');
  });

  it('what is approved from a later week on is a draft, and told', () => {
    const { workshop, files } = tryChain({ 'nightrail.yaml': CHAIN.replace('2026-11-16', '2026-12-07') });
    if (!workshop) throw new Error('no workshop');
    const on = (iso: string) => planOf(workshop, 'sites/street.yaml', files.get('sites/street.yaml') as Uint8Array, iso);
    const told = (iso: string) => on(iso).findings.filter(({ code }) => code.startsWith('approved-')).length;
    expect(['2026-11-30', '2026-12-01'].map((iso) => [on(iso).plan?.store.approved.value.is, told(iso)])).toEqual([
      [false, 1],
      [true, 0],
    ]);
  });

  it('in a store that never closes reads the bottom before and after a closed date as on any other', () => {
    const store = `${STORE.replace('Mo-Su 07:00-22:00', '24/7')}quiet_window: 02:00-10:05
crew: { comes: 90 min before opening }
exceptions: [{ date: 2026-12-25, hours: 'off' }]
`;
    const { week } = weekOf(tryChain({ 'sites/street.yaml': store }), 'street', '2026-W52');
    // Minutes from Monday's midnight at which the bottom is read, and the times at which the store is shut.
    const read = week.days.flatMap(({ rounds }, i) =>
      rounds.flatMap(({ at, units }) => (units.length > 0 ? [i * 1440 + at.value.min] : [])),
    );
    const [shut, again] = [4 * 1440, 5 * 1440];
    expect(read.filter((min) => min > shut && min < again)).toEqual([]);
    // It opens again at midnight, hours before the crew of its quiet window's end: somebody reads before that.
    expect(read).toContain(again);
    const gaps = [...read.filter((min) => min <= shut), shut].map((min, i, all) => min - (all[i - 1] ?? min));
    const after = read.filter((min) => min >= again).map((min, i, all) => min - (all[i - 1] ?? min));
    // FDA Food Code 2022 gives four hours without control; the rounds never leave more.
    expect(Math.max(...gaps, ...after)).toBeLessThanOrEqual(4 * 60);
  });

  it('orders a technician eight weeks ahead of a date', () => {
    const coming = (iso: string) =>
      weekOf(tryChain({ 'sites/street.yaml': STORE }), 'street', iso).week.findings.map(({ code, data }) => [code, data['date']]);
    expect(coming('2026-W36')).toEqual([['date-technician', '2026-10-31']]);
    expect(coming('2026-W35')).toEqual([]);
  });

  it('tells no time for a night that nobody can keep, and says so at the hours that make it so', () => {
    // Opens hours earlier than anybody comes.
    const store = `${STORE}crew: { comes: '05:00' }\nexceptions:\n  - { date: 2026-12-02, hours: '05:00-22:00' }\n`;
    const tried = tryChain({ 'sites/street.yaml': store });
    const { week } = weekOf(tried, 'street', '2026-W49');
    const [, tue, wed, thu] = week.days.map((d) => Object.keys(d.units['line-1'] ?? {}));
    expect(tue).toEqual(expect.arrayContaining(['on', 'first_pan']));
    expect(tue).not.toContain('off');
    expect(wed).toEqual(['start', 'empty_by', 'off']);
    expect(thu).toHaveLength(6);
    expect(week.tree.errors).toHaveLength(1);
    expect(week.findings.map((f) => `${f.severity} ${f.code} ${f.at.path.join('.')}`)).toEqual([
      'error date-load-before-crew-comes exceptions.0.hours',
      'warning clock-since-change units.line-1', // of 2026-11-01
      'warning date-technician units.line-1',
    ]);
    // `check` says the same without a week.
    expect(tried.told.filter((t) => t.startsWith('date-'))).toEqual(['date-load-before-crew-comes sites/street.yaml:13:32']);
  });

  it('holds the times of the ordinary week wherever nothing is different', () => {
    const { week, plan } = weekOf(demo, 'corbel-yard', '2027-W05');
    for (const day of week.days)
      for (const when of WHENS)
        expect(day.units['line-1']?.[when]?.value.min).toBe(plan.units['line-1']?.rest?.[when]?.value.at[day.weekday]?.min);
    expect(week.tree.notes).toEqual([]);
  });

  it('gives each time a basis of the plan', () => {
    const { week, plan } = weekOf(demo, 'copper-ferry', '2026-W52');
    const paths = new Set([...leaves(plan as unknown as Tree), ...leaves({ week: week.tree })].map(([, k]) => k.path));
    let exceptional = 0;
    for (const [path, known] of leaves({ week: week.tree })) {
      if (known.basis.how !== 'computed') continue;
      expect(known.basis.from.length, path).toBeGreaterThan(0);
      for (const from of known.basis.from) expect(paths.has(from.path), `${path} from ${from.path}`).toBe(true);
      if (known.basis.from.some((f) => f.basis.how === 'written' && f.basis.at.path[0] === 'exceptions')) exceptional++;
    }
    expect(exceptional).toBeGreaterThan(0);
  });
});
