/**
 * Hours with which a rail can't rest, or only badly, and zones and windows that are none: each is a finding at its place.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { findingWords } from '../../src/say/findings.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { planStore } from '../../src/plan/index.js';
import { serious, STORE, TABLE, tryChain, type Tried } from '../support/chain.js';

const SEVEN = TABLE.replace('daily-dial, polarity: out-is-on', 'seven-day-clock');
const hours = (wrote: string, more = '') => ({ 'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', wrote) + more });
const dataOf = (tried: Tried, code: string) => tried.findings.filter((f) => f.code === code).map((f) => f.data);

describe('a night without a rest', () => {
  it.each([
    ['no minute between closing and the first pan', hours('Mo-Su 06:00-05:00')],
    ['two hours between', hours('Mo-Su 02:00-22:00')],
  ])('%s is one error that names all its days', (_, files) => {
    const [data, ...more] = dataOf(tryChain(files), 'no-rest-rest-too-short');
    expect(data?.day).toEqual(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']);
    expect(more).toEqual([]);
  });

  it('that would stay on takes the times of all nights, since nobody would know that this one differs', () => {
    const tried = tryChain({
      'equipment/table.yaml': SEVEN,
      ...hours('Mo-Th 11:00-22:00; Fr 11:00-05:00; Sa 08:00-22:00; Su 11:00-22:00'),
    });
    const [told] = dataOf(tried, 'no-rest-some-night');
    expect(told).toMatchObject({ unit: 'line-1', days: ['fri'] });
    // What would help was tried: no other clock does, since each night has its own already.
    const tries = (told as unknown as { remedies: readonly { with: object }[] }).remedies;
    expect(tries.length).toBeGreaterThan(0);
    expect(JSON.stringify(tries)).not.toContain('remedies.clock');
    expect(tried.stores.get('street')?.plan?.units['line-1']?.is.unsolved.value.is).toBe(true);
  });

  it('of a store that never closes is an error of its hours', () => {
    expect(serious(tryChain(hours('24/7')))).toEqual(
      expect.arrayContaining(['never-rests sites/street.yaml:3:8', 'no-rest-never-closes sites/street.yaml:5:3']),
    );
  });
});

describe('a time zone', () => {
  it.each([
    ['America/Chicgo', 'America/Chicago'],
    ['CST', 'America/Chicago'],
    ['Chicago', 'America/Chicago'],
  ])('%s is none; %s was meant', (wrote, nearest) => {
    const tried = tryChain({ 'sites/street.yaml': STORE.replace('America/Chicago', wrote) });
    expect(serious(tried)).toEqual(['bad-zone sites/street.yaml:2:11']);
    expect(dataOf(tried, 'bad-zone')).toEqual([{ wrote, nearest }]);
  });
});

describe('a quiet window', () => {
  it.each([
    ['of a store that closes, while it is open', 'Mo-Su 07:00-22:00', '14:00-16:00', 'quiet-window-unused'],
    ['outside the opening hours', 'Mo-Su 07:00-22:00', '21:00-23:00', 'quiet-window-outside'],
    ['outside on one day only', 'Mo-Sa 07:00-22:00; Su 12:00-22:00', '08:00-10:00', 'quiet-window-outside'],
    ['past midnight, inside on every day', 'Mo-Su 06:00-04:00', '23:00-03:00', 'quiet-window-unused'],
    ['of no length', '24/7', '03:00-03:00', 'quiet-window-empty'],
  ])('%s', (_, open, window, code) => {
    const tried = tryChain(hours(open, `quiet_window: ${window}\n`));
    expect(serious(tried)).toContain(`${code} sites/street.yaml:11:15`);
  });
  it('of a store that never closes is used without a word', () => {
    expect(serious(tryChain(hours('24/7', 'quiet_window: 23:00-06:30\n')))).toEqual([]);
  });
});

describe('hours through the night', () => {
  it.each([
    ['Mo-Su 18:00-11:00', [{ days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], suggestion: '11:00-18:00' }]],
    ['Mo-Th 11:00-23:00; Fr,Sa 17:00-09:30', [{ days: ['fri', 'sat'], suggestion: '09:30-17:00' }]],
    ['Mo-Su 17:00-05:00', []],
    ['Mo-Su 06:00-01:00; Sa 00:30-24:00', []],
    ['24/7', []],
  ])('%s: asked whether the two times are swapped where it closes late in the morning', (open, asked) => {
    const found = tryChain(hours(open)).findings.filter((f) => f.code === 'open-through-night');
    expect(found.map((f) => f.data)).toMatchObject(asked);
    expect(found.every((f) => f.severity === 'warning' && f.at.path.join('.') === 'hours')).toBe(true);
  });
});

describe('hours by season', () => {
  const summer = 'Apr-Sep: Mo-Su 07:00-23:00; Oct-Mar: Mo-Su 09:00-21:00'.replace(/: /g, ' ');
  const planned = (on: string) => {
    const { workshop, stores } = tryChain(hours(summer));
    const read = stores.get('street')?.read;
    if (!workshop || !read) throw new Error('no store');
    const { plan, findings } = planStore(workshop.shelf, read, ['en'], on);
    return { closes: plan.crew.closes.value.at.mon?.min, season: findings.find((f) => f.code === 'hours-of-season')?.data };
  };
  it.each([
    ['2027-07-04', 23 * 60, { from: '2027-04-01', to: '2027-09-30' }],
    ['2027-01-04', 21 * 60, { from: '2026-10-01', to: '2027-03-31' }],
  ])('are planned for the season of %s', (on, closes, season) => {
    expect(planned(on)).toEqual({ closes, season });
  });
});

describe('hours that change for good', () => {
  const planned = (open: string, on: string) => {
    const { workshop, stores } = tryChain(hours(open));
    const [read, words] = [stores.get('street')?.read, workshop?.words.get('en')];
    if (!workshop || !read || !words) throw new Error('no store');
    const { plan, findings } = planStore(workshop.shelf, read, ['en'], on);
    const told = findings.filter((f) => f.code.startsWith('hours-'));
    const speaker = readerOf(words, read, workshop.shelf);
    const { at } = plan.open_hours.value;
    return {
      sunday: plan.crew.closes.value.at.sun?.min,
      foot: at === 'always' ? at : speaker.times.hours(at),
      told: told.map((f) => f.code),
      says: told.map((f) => findingWords(f, words, speaker).says).join(),
    };
  };
  const change = 'Mo-Su 11:00-22:00; 2026 Dec 01+ Su 11:00-15:00';
  it.each([
    [change, '2024-12-02', 22, []],
    [change, '2026-09-14', 22, ['hours-until']],
    [change, '2026-11-23', 22, ['hours-until', 'hours-change-soon']],
    [change, '2026-12-07', 15, ['hours-since']],
    // Years later, where no change is near.
    [change, '2029-06-04', 15, []],
    ['Mo-Su 11:00-22:00; Dec-Nov Su 11:00-15:00', '2027-06-07', 15, []],
    ['Mo-Su 11:00-22:00; 2024 Jan 01-2030 Dec 31 Su 11:00-15:00', '2027-06-07', 15, []],
  ])('%s, on %s: papers and their foot say the hours that hold then', (open, on, closes, told) => {
    const found = planned(open, on);
    expect(found).toMatchObject({ sunday: closes * 60, told });
    expect(found.foot.includes('15:00')).toBe(closes === 15);
    expect(found.says).not.toMatch(/\{/);
  });
});

it('says each of these findings in words', () => {
  for (const files of [
    hours('Mo-Su 06:00-05:00'),
    hours('24/7', 'quiet_window: 03:00-03:00\n'),
    hours('Mo-Su 07:00-22:00', 'quiet_window: 21:00-23:00\n'),
  ]) {
    const { workshop, stores, findings } = tryChain(files);
    const words = workshop?.words.get('en');
    const read = stores.get('street')?.read;
    if (!workshop || !words || !read) throw new Error('no store');
    for (const finding of findings)
      expect(findingWords(finding, words, readerOf(words, read, workshop.shelf)).says).not.toMatch(/\{/);
  }
});

describe('what would make a schedule', () => {
  // Twenty minutes of emptying from the default start before closing; the crew leaves at closing.
  const soon = `crew: { leaves: at closing, start_before_closing: 0 min }\n`;
  const remediesIn = (tried: Tried) => tried.stores.get('street')?.plan?.units['line-1']?.remedies ?? [];

  it('is told with the finding, and holds when the store does it', () => {
    const tried = tryChain(hours('Mo-Su 07:00-22:00', soon));
    const offered = remediesIn(tried);
    const earlier = offered.find((r) => r.text.value.code === 'remedies.start-earlier')?.figures.minutes_1?.value;
    const minutes = earlier?.q === 'duration' ? earlier.si / 60 : NaN;
    expect(minutes).toBeGreaterThan(0);
    expect(dataOf(tried, 'no-rest-empty-after-crew-leaves')[0]?.remedies).toEqual(
      offered.map((r) => (r.written ?? r.text).value),
    );
    const done = (by: number) =>
      serious(tryChain(hours('Mo-Su 07:00-22:00', soon.replace('start_before_closing: 0', `start_before_closing: ${by}`))));
    expect(done(minutes)).toEqual([]);
    expect(done(minutes - 5)).not.toEqual([]);
  });

  it('of a store that never closes is a quiet window that works', () => {
    const [remedy] = remediesIn(tryChain(hours('24/7')));
    const { from_1: from, until_1: until } = remedy?.figures ?? {};
    const clock = (known: typeof from): string => {
      const min = known?.value.q === 'moment' ? known.value.min : NaN;
      return `${String(Math.floor(min / 60)).padStart(2, '0')}:${String(min % 60).padStart(2, '0')}`;
    };
    expect(
      serious(
        tryChain(
          hours(
            '24/7',
            `quiet_window: ${clock(from)}-${clock(until)}\ncrew: { comes: at opening, leaves: at closing, first_pan: at opening }\n`,
          ),
        ),
      ).filter((t) => t.startsWith('no-rest')),
    ).toEqual([]);
  });

  it('can be said in each language', () => {
    for (const files of [hours('24/7'), hours('Mo-Su 02:00-22:00'), hours('Mo-Su 07:00-22:00', soon)]) {
      const tried = tryChain(files);
      const read = tried.stores.get('street')?.read;
      if (!tried.workshop || !read) throw new Error('no store');
      expect(remediesIn(tried).length).toBeGreaterThan(0);
      for (const words of tried.workshop.words.values())
        for (const remedy of remediesIn(tried))
          expect(textOf(readerOf(words, read, tried.workshop.shelf).say(remedy.text).runs)).not.toMatch(/[{}]|undefined/);
    }
  });
});
