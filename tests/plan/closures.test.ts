/**
 * A store that is closed for a whole season, or for longer than a week: its papers are for the hours that come, no clock is ordered for a closed store, and
 * people are told what to do with its food before and after.
 */
import { describe, expect, it } from 'vitest';
import { planOf, type Planned } from '../../src/fleet/store-papers.js';
import { weeksOf } from '../../src/fleet/store-weeks.js';
import { weekOfIso } from '../../src/plan/week-dates.js';
import { memoryFolder, smallBuild, threeStores } from '../fleet/small-build.js';
import { STORE, tryChain } from '../support/chain.js';

/** The week of a store of such hours, planned on the week's first day as a build does. */
const weekOf = (hours: string, iso: string, more = '') => {
  const tried = tryChain({ 'sites/street.yaml': `${STORE.replace('Mo-Su 07:00-22:00', `'${hours}'`)}${more}` });
  const { workshop, files } = tried;
  const dates = workshop && weekOfIso(iso, 'mon');
  if (!dates) throw new Error(tried.told.join('\n'));
  const on = (date: string) => planOf(workshop, 'sites/street.yaml', files.get('sites/street.yaml') as Uint8Array, date);
  const first = on(new Date(dates.first * 86_400_000).toISOString().slice(0, 10)) as Planned;
  const weeks = weeksOf(first, on, [dates]);
  const notes = weeks.flatMap(({ week }) => week.tree.notes.map((n) => `${n.date.value.iso} ${n.text.value.code}`));
  return { findings: first.findings.map((f) => `${f.severity} ${f.code}`), weeks, notes };
};

const WINTER = 'Apr-Oct Mo-Su 07:00-22:00; Nov-Mar off';

describe.each([
  ['by months', WINTER],
  ['by dates of one year', 'Mo-Su 07:00-22:00; 2026 Nov 01-2027 Mar 31 off'],
])('a store that is closed all winter, written %s', (_, hours) => {
  it('has sheets and no error in each week of the year', () => {
    for (const iso of ['2026-W44', '2026-W45', '2027-W02', '2027-W13', '2027-W14']) {
      const { findings, weeks } = weekOf(hours, iso);
      expect(
        findings.filter((f) => f.startsWith('error')),
        iso,
      ).toEqual([]);
      expect(weeks, iso).toHaveLength(1);
    }
    expect(weekOf(hours, '2027-W02').findings).toContain('note closed-season');
  });
  it('has in a closed week no time for anybody', () => {
    const { weeks } = weekOf(hours, '2027-W02');
    expect(weeks.flatMap(({ week }) => week.days.map(({ open }) => open))).not.toContain(true);
    expect(weeks.flatMap(({ week }) => week.days.flatMap(({ rounds }) => rounds))).toEqual([]);
    expect(weeks[0]?.week.tree.open.value.is).toBe(false);
  });
  it('is told on its last date what becomes of the food, and on its first what to see before any goes in; no hand is sent to a clock', () => {
    expect(weekOf(hours, '2026-W44').notes).toEqual(['2026-10-31 notes.closes-long', '2026-10-31 notes.clocks-back']);
    expect(weekOf(hours, '2027-W02').notes).toEqual([]);
    expect(weekOf(hours, '2027-W13').notes).toEqual(['2027-03-31 notes.opens-tomorrow', '2027-04-01 notes.opens-again']);
  });
  it('is not told of other hours to come where the same ones hold again', () => {
    expect(weekOf(hours, '2026-W44').findings).not.toContain('note hours-change-soon');
  });
});

it('has a sheet for a closed week that says so, and nothing to tick', async () => {
  const made = new Map<string, Uint8Array>();
  const files = threeStores({ 'sites/alder.yaml': STORE.replace('Mo-Su 07:00-22:00', `'${WINTER}'`) });
  const { findings } = await smallBuild(files, memoryFolder(made).out, { week: '2027-W02', only: ['week'], chosen: ['alder'] });
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const html = new TextDecoder().decode([...made].find(([path]) => path.startsWith('alder/week'))?.[1]);
  expect(html).toContain('Closed on all of these days');
  expect(html).not.toContain('Initials');
});

/** Over a long closure nobody is sent to a clock ahead: it is seen before food goes in again. */
it('a clock is neither ordered for a change in a long closure nor asked after: it is seen before any food goes in', () => {
  const closed = 'Mo-Su 07:00-22:00; 2026 Nov 15-2027 Mar 31 off';
  const codes = (iso: string) => {
    const signed = '    set_by: { who: A. Tech, when: 2026-11-10 }\n';
    const { weeks, notes } = weekOf(closed, iso, signed);
    return { weeks, notes: notes.filter((n) => /reset|since|opens/.test(n)) };
  };
  expect(codes('2026-W46').notes).toEqual([]);
  expect(codes('2027-W02').notes).toEqual([]);
  expect(codes('2027-W13').notes).toEqual(['2027-03-31 notes.opens-tomorrow', '2027-04-01 notes.opens-again']);
  // Its times are those of any other night, on both sides.
  const times = (iso: string, day: number) =>
    Object.values(codes(iso).weeks[0]?.week.days[day]?.units['line-1'] ?? {}).map((at) => at.value.min);
  expect(times('2026-W46', 5).slice(0, 3)).toEqual(times('2026-W46', 4).slice(0, 3));
  expect(times('2027-W13', 4)).toEqual(times('2027-W14', 4));
});

it('tells the day before on the sheet that holds it, where it opens again on the first day of a week', () => {
  const hours = 'Mo-Su 07:00-22:00; 2026 Dec 21-27 off';
  const opens = (iso: string) => weekOf(hours, iso).notes.filter((n) => n.includes('opens'));
  expect(opens('2026-W52')).toEqual(['2026-12-27 notes.opens-tomorrow']);
  expect(opens('2026-W53')).toEqual(['2026-12-28 notes.opens-again']);
});

it.each([
  ['two days', 'Mo-Su 07:00-22:00; 2026 Dec 29-30 off', []],
  ['five days', 'Mo-Su 07:00-22:00; 2026 Dec 26-30 off', ['2026-12-25 notes.closes-for-days']],
  [
    'six days',
    'Mo-Su 07:00-22:00; 2026 Dec 25-30 off',
    ['2026-12-24 notes.closes-long', '2026-12-30 notes.opens-tomorrow', '2026-12-31 notes.opens-again'],
  ],
])(
  'speaks of the food before and after %s only where opened food runs out in them: its seventh day is the sixth closed one, FDA Food Code 2022, 3-501.17',
  (_, hours, said) => {
    const notes = ['2026-W52', '2026-W53'].flatMap((iso) => weekOf(hours, iso).notes);
    expect(notes.filter((n) => /closes|opens/.test(n))).toEqual(said);
  },
);

it('that opens again with other hours has its clock set for those, in the order that is safe', () => {
  const { notes, findings } = weekOf('Apr-Oct Mo-Su 07:00-22:00; Nov-Mar off; Apr 01-May 31 Mo-Su 07:00-21:00', '2026-W44');
  expect(findings.filter((f) => f.startsWith('error'))).toEqual([]);
  expect(notes).toContain('2026-10-31 notes.closes-long');
});
