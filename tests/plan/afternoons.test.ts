/**
 * Split shifts: a rail that no night can rest, and an afternoon closing that can; and why most can't.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import type { Weekday } from '../../src/base/moment.js';
import { entriesOf } from '../../src/fleet/calendar-events.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { dayOfIso, openOn } from '../../src/model/hours/index.js';
import { planWeek } from '../../src/plan/week.js';
import { STORE, tryChain } from '../support/chain.js';

/** Nights of 6 h 30 min, of which emptying, loading and pull-down leave less than 5 h. */
const CAFE = 'Mo-Su 06:00-10:00, 17:00-23:30';

const cafe = (hours = CAFE, more = '', zone = 'America/Chicago') => {
  const store = STORE.replace('Mo-Su 07:00-22:00', hours).replace('America/Chicago', zone);
  const tried = tryChain({ 'sites/street.yaml': `${store}${more}` });
  const { plan, read } = tried.stores.get('street') ?? {};
  const words = tried.workshop?.words.get('en');
  if (!tried.workshop || !plan || !read || !words) throw new Error(tried.told.join('\n'));
  const speaker = readerOf(words, { ...read, store: { ...read.store, clock_shows: '24-hour' } }, tried.workshop.shelf);
  const unit = plan.units['line-1'];
  if (!unit) throw new Error('no unit');
  const time = (name: 'start' | 'empty_by' | 'off' | 'on' | 'cold_by' | 'first_pan', day: Weekday = 'mon') => {
    const m = unit.rest?.[name]?.value.at[day];
    return m && speaker.times.momentOf(day, m);
  };
  const codes = tried.findings.map((f) => f.code).filter((code) => /afternoon|no-rest/.test(code));
  const weeks = (first: string, n: number) =>
    Array.from({ length: n }, (_, w) => planWeek(read, plan, { first: (dayOfIso(first) as number) + 7 * w }));
  const said = (week: ReturnType<typeof planWeek>) =>
    week.tree.notes.map((n) => `${n.date.value.iso} ${n.text.value.code} ${n.otherwise?.value.code ?? ''}`.trim());
  return { plan, read, unit, time, codes, weeks, said, speaker };
};

describe('a rail whose nights are too short', () => {
  const { plan, read, unit, time, codes, weeks, said, speaker } = cafe();

  it('rests in the afternoon closing, between its own emptying and loading', () => {
    // Out by 10:00; off after the dial's 15 minutes. First pan 16:45, less 15 of loading, 60 of pull-down and 15 of the dial.
    expect((['start', 'empty_by', 'off', 'on', 'cold_by', 'first_pan'] as const).map((name) => time(name))).toEqual([
      '09:35',
      '10:00',
      '10:15',
      '15:15',
      '16:30',
      '16:45',
    ]);
    expect(codes).toEqual(['rests-in-afternoon']);
    expect(unit.rest?.gap?.value.code).toBe('binding.in-the-afternoon');
    expect(unit.rest?.settings.map((s) => [s.off.value.min, s.on.value.min])).toEqual([[10 * 60 + 15, 15 * 60 + 15]]);
  });
  it('is emptied at night all the same, before the crew leaves, and stays on', () => {
    expect(unit.leaving?.empty_by.value.at.mon?.min).toBe(plan.crew.leaves.value.at.mon?.min);
    const codesOf = (steps: typeof unit.close | undefined) => steps?.map((s) => s.text.value.code.split('.')[1]);
    expect(codesOf(unit.close)).toContain('leave-on-tonight');
    expect(codesOf(unit.afternoon?.close)).not.toContain('leave-on-tonight');
    expect(codesOf(unit.afternoon?.open)).toEqual([
      'read-bottom-first',
      'look-in-top',
      'top-comes-on',
      'read-top',
      'load-top',
      'read-by-day-both',
    ]);
  });
  it('stands in the calendar with both emptyings and both loadings', () => {
    const first = dayOfIso('2026-12-01') as number;
    const told = { read, weeks: weeks('2026-11-30', 1).map((week) => ({ plan, week })), speaker };
    const day = entriesOf(told, first, first).filter((e) => e.time);
    expect(day.map((e) => e.key.replace('2026-12-01-line-1-', ''))).toEqual(['morning-load', 'empty', 'load', 'night-empty']);
    for (const entry of day) expect(entry.summary).not.toMatch(/undefined|\{/);
  });
  it('has its clock set at the closing before a change of the clocks', () => {
    const [forward] = weeks('2027-03-08', 1);
    const [back] = weeks('2027-11-01', 1);
    if (!forward || !back) throw new Error('no weeks');
    expect(said(forward)).toEqual([
      '2027-03-13 notes.clocks-forward',
      '2027-03-13 notes.reset-forward-technician notes.reset-missed-late-afternoon',
    ]);
    expect(said(back)).toContain('2027-11-06 notes.reset-back-technician notes.reset-missed-early-afternoon');
  });
  it('tells of a clock as found what it did to food in the evening', () => {
    const found = (off: string, on: string) =>
      cafe(
        CAFE,
        `    found: { when: 2026-11-01, who: Somebody, clock: { off: '${off}', on: '${on}' } }\n`,
      ).unit.found?.clock?.did.map((t) => textOf(speaker.say(t.text).runs).replace(/\u00a0/g, ' '));
    expect(found('10:15', '15:15')).toEqual([]);
    expect(found('22:15', '03:15')).toEqual([
      "The clock's day and night are swapped.",
      'In the afternoon closing of Mon–Sun: at rest for 0 min only.',
      'Mon–Sun: off with food in it from 22:15, for 1 h 40 min.',
    ]);
  });
});

describe('dates of other hours', () => {
  const exceptions = `exceptions:
  - { date: 2026-12-01, hours: '06:00-23:30' }
  - { date: 2026-12-02, hours: off }
  - { date: 2026-12-03, hours: '06:00-10:00, 18:00-23:30' }
  - { date: 2026-12-04, hours: '06:00-12:00, 17:00-23:30' }
`;
  it('hold the rail on where the store is open, and keep the times where the gap is wide enough', () => {
    const { weeks, said } = cafe(CAFE, exceptions);
    const [week] = weeks('2026-11-30', 1);
    if (!week) throw new Error('no week');
    expect(said(week)).toEqual([
      '2026-10-31 notes.since-technician notes.since-missed-early',
      '2026-12-01 notes.stay-on-today-technician notes.not-held',
      '2026-12-04 notes.stay-on-today-technician notes.not-held',
    ]);
    const offs = week.days.map((d) => d.units['line-1']?.off?.value.min);
    expect(offs).toEqual([615, undefined, undefined, 615, undefined, 615, 615]);
    expect(week.days[3]?.units['line-1']?.first_pan?.value.min).toBe(17 * 60 + 45);
  });
});

describe('why an afternoon closing is not used', () => {
  it('the nights are long enough', () => {
    const { unit, codes } = cafe('Mo-Su 11:00-14:30, 17:30-22:00');
    expect(unit.rest?.afternoon.value.is).toBe(false);
    expect(unit.rest?.gap?.value.code).toBe('binding.not-in-the-afternoon');
    expect(codes).toEqual([]);
  });
  it('it is too short, in minutes', () => {
    const { unit, codes } = cafe('Mo-Su 06:00-11:00, 16:00-23:30');
    expect(unit.is.unsolved.value.is).toBe(true);
    expect(codes).toEqual(['no-rest-rest-too-short', 'afternoon-too-short']);
  });
  it('some day has none', () => {
    expect(cafe('Mo-Sa 06:00-10:00, 17:00-23:30; Su 06:00-23:30').codes).toEqual([
      'no-rest-rest-too-short',
      'afternoon-some-days',
    ]);
  });
  it('nobody knows whether the crew is there', () => {
    const { codes } = cafe(CAFE, "crew: { comes: '05:00' }\n");
    expect(codes).toEqual(['no-rest-rest-too-short', 'afternoon-crew-unknown']);
  });
});

describe.each(['America/Chicago', 'Africa/Cairo', 'Australia/Lord_Howe'])('a year of afternoons in %s', (zone) => {
  it('never stops the top while food is in it', () => {
    const { read, weeks, said } = cafe(
      CAFE,
      "exceptions: [{ date: 2027-05-05, hours: '08:00-20:00' }, { date: 2027-06-06, hours: off }]\n",
      zone,
    );
    let [rested, changes] = [0, 0];
    for (const week of weeks('2027-01-04', 52)) {
      const notes = said(week);
      changes += notes.filter((n) => /clocks-(forward|back)$/.test(n)).length;
      // The dial does not follow: it is set at the closing before, or nothing holds.
      expect(notes.filter((n) => /notes\.reset-(forward|back)/.test(n)).length).toBe(
        notes.filter((n) => n.includes('notes.clocks-')).length,
      );
      for (const day of week.days) {
        const { iso } = day.date.value;
        const spans = openOn(read.store.hours.hours, iso, {
          exceptions: (read.store.exceptions ?? []).map((e) => ({ date: e.date, hours: e.hours.hours })),
        });
        const at = (when: 'empty_by' | 'off' | 'on' | 'cold_by' | 'first_pan') => day.units['line-1']?.[when]?.value.min ?? NaN;
        if (Number.isNaN(at('off'))) {
          if (spans.length > 0)
            expect(
              notes.some((n) => n.startsWith(`${iso} notes.stay-on-today`)),
              iso,
            ).toBe(true);
          continue;
        }
        rested++;
        const gap = spans.slice(1).some((s, i) => (spans[i]?.to ?? 0) <= at('off') && at('on') <= s.from);
        expect(gap, iso).toBe(true);
        expect(at('empty_by') + 15, iso).toBeLessThanOrEqual(at('off'));
        expect(at('on') - at('off'), iso).toBeGreaterThanOrEqual(300);
        expect(at('cold_by') - at('on'), iso).toBeGreaterThanOrEqual(75);
        expect(at('first_pan'), iso).toBeGreaterThan(at('cold_by'));
      }
    }
    expect(rested).toBe(362);
    expect(changes).toBeGreaterThanOrEqual(2);
  });
});
