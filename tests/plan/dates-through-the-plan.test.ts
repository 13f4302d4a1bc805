/**
 * A year of dated weeks through the whole plan, in ten zones, held against the platform's own time-zone data: what a sheet tells people must be safe as it stands.
 */
import { describe, expect, it } from 'vitest';
import type { Moment } from '../../src/base/moment.js';
import { dayOfIso, isoOf, openOn } from '../../src/model/hours/index.js';
import { planWeek } from '../../src/plan/week.js';
import type { When } from '../../src/plan/steps.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { changesByIntl, wallClock } from './wall-clock.js';

const ZONES = [
  'America/Chicago',
  'America/Phoenix',
  'America/St_Johns',
  'America/Santiago', // changes at midnight
  'Europe/London',
  'Africa/Cairo', // changes at midnight, on a Friday
  'Asia/Kathmandu',
  'Australia/Adelaide',
  'Australia/Lord_Howe', // by half an hour
  'Pacific/Chatham', // at a quarter to
] as const;
/** One dial for all days that doesn't follow; a clock a day that follows. Both have dates of other hours in this year. */
const STORES = ['copper-ferry', 'assay-yard'] as const;
const FIRST = dayOfIso('2026-09-28') as number;
const WEEKS = 53;

interface Day {
  readonly date: number;
  readonly open: boolean;
  /** Minutes of the date. */
  readonly at: Readonly<Partial<Record<When, number>>>;
  readonly closes: number | undefined;
  readonly opens: number | undefined;
}

const yearOf = (id: string, zone: string) => {
  const files = demoFiles();
  const doc = `sites/${id}.yaml`;
  const text = new TextDecoder().decode(files.get(doc)).replace(/^timezone: .*$/m, `timezone: ${zone}`);
  for (const other of [...files.keys()]) if (other.startsWith('sites/') && other !== doc) files.delete(other);
  files.set(doc, new TextEncoder().encode(text));
  const { plan, read } = tryFiles(files).stores.get(id) ?? {};
  if (!plan || !read) throw new Error(`${id} in ${zone} has no plan`);
  const exceptions = (read.store.exceptions ?? []).map((e) => ({ date: e.date, hours: e.hours.hours }));
  const weeks = Array.from({ length: WEEKS }, (_, w) => planWeek(read, plan, { first: FIRST + w * 7 }));
  const days = (unit: string): readonly Day[] =>
    weeks.flatMap((week) =>
      week.days.map((day): Day => {
        const spans = openOn(read.store.hours.hours, day.date.value.iso, { exceptions });
        const times = Object.entries(day.units[unit] ?? {}) as readonly (readonly [When, { value: Moment }])[];
        return {
          date: dayOfIso(day.date.value.iso) as number,
          open: day.open,
          at: Object.fromEntries(times.map(([when, known]) => [when, known.value.min])),
          closes: spans.at(-1)?.to,
          opens: spans[0]?.from,
        };
      }),
    );
  /** Dates of which something is said about a unit, by the sentence's code. */
  const said = (unit: string): ReadonlySet<string> => {
    const nickname = plan.units[unit]?.nickname;
    return new Set(
      weeks.flatMap((week) =>
        [...week.tree.notes, ...week.tree.errors]
          .filter((note) => note.unit === nickname || note.unit === undefined)
          .map((note) => `${note.date.value.iso} ${note.text.value.code.slice('notes.'.length)}`),
      ),
    );
  };
  const units = Object.values(plan.units).filter((unit) => unit.rest?.off && unit.needs);
  return { plan, units, days, said };
};

describe.each(STORES)('a year of %s', (id) => {
  it.each(ZONES)('in %s', (zone) => {
    const { units, days, said } = yearOf(id, zone);
    const { utc } = wallClock(zone);
    let nights = 0;
    let changes = 0;
    expect(units.length).toBeGreaterThan(0);
    for (const unit of units) {
      const unitId = unit.id.value.text;
      const told = said(unitId);
      const is = (date: number, code: RegExp): boolean =>
        [...told].some((t) => t.startsWith(isoOf(date)) && code.test(t.slice(11)));
      const least = (unit.needs?.least.value.si ?? 0) / 60;
      const pullDown = (unit.needs?.pull_down.value.si ?? 0) / 60;
      const open = days(unitId).filter((day) => day.open);
      open.forEach((day, i) => {
        const next = open[i + 1];
        if (!next) return;
        const where = `${unitId} ${isoOf(day.date)}`;
        const { start, empty_by: emptyBy, off } = day.at;
        const { on, cold_by: coldBy, first_pan: firstPan } = next.at;
        if (is(day.date, /clocks-/)) changes++;
        if (is(day.date, /^(first-pan-before|empty-after|load-before|wiped-too)/)) {
          expect([start, emptyBy, off, on, coldBy, firstPan], where).toEqual(Array(6).fill(undefined));
          return;
        }
        if (off === undefined) {
          // It stays on: somebody is told to hold it, and it is emptied all the same.
          expect(is(day.date, /^stay-on/), where).toBe(true);
          expect(emptyBy, where).toBeDefined();
          return;
        }
        nights++;
        const times = [start, emptyBy, off, on, coldBy, firstPan, day.closes, next.opens];
        expect(times, where).not.toContain(undefined);
        const at = (date: number, minutes: number | undefined, which: 'first' | 'last'): number =>
          utc(date * 1440 + (minutes as number), which);
        // Of a time that the wall shows twice the sheet says which is meant; else the worse for food is looked at.
        const which = is(day.date, /^second-time-meant/) ? 'last' : 'first';
        expect(at(day.date, start, 'first'), where).toBeLessThan(at(day.date, emptyBy, which));
        expect(at(day.date, emptyBy, which), where).toBeLessThanOrEqual(at(day.date, off, 'last'));
        expect(at(day.date, off, 'last'), where).toBeGreaterThanOrEqual(at(day.date, day.closes, 'first'));
        expect(at(next.date, on, 'last'), where).toBeLessThanOrEqual(at(next.date, next.opens, 'first'));
        expect(at(next.date, coldBy, 'first') - at(next.date, on, 'last'), where).toBeGreaterThanOrEqual(pullDown);
        expect(at(next.date, coldBy, 'first'), where).toBeLessThan(at(next.date, firstPan, 'last'));
        const rest = at(next.date, on, 'first') - at(day.date, off, 'last');
        if (rest < least) expect(is(day.date, /^rest-short/), `${where} rests ${rest}`).toBe(true);
      });
    }
    expect(nights).toBeGreaterThan(300);
    const moves = [2026, 2027]
      .flatMap((year) => changesByIntl(zone, year))
      .filter(({ at }) => at >= FIRST * 1440 && at < (FIRST + WEEKS * 7 - 0.5) * 1440);
    // Said for each rail once a change; a unit's notes hold the store's.
    expect(changes).toBe(moves.length * units.length);
  });
});
