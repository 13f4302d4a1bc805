/**
 * For any times and any words: no label lies on another one, on a leader or outside its picture, and the alternative names every time.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Known } from '../../src/base/basis.js';
import { moment, WEEKDAYS, type Moment } from '../../src/base/moment.js';
import type { ByDay } from '../../src/base/value.js';
import type { UnitPlan } from '../../src/plan/unit.js';
import { spread } from '../../src/draw/leaders.js';
import { onTheWall } from '../../src/base/moment.js';
import { LANGUAGES } from '../support/languages.js';
import { BY_DIAL, BY_HAND, BY_SEVEN_DAYS, BY_WEEKDAY_CLOCK, REACH_IN, WALK_IN } from './stores.js';
import { altOf, collisions, crossings, draw, looseDigits, type Asked } from './tried.js';

const SEED = { seed: 20261116, numRuns: 150 } as const;

const word = fc.string({ unit: fc.constantFrom(...'abdegilmnoprstuwáñW'), minLength: 1, maxLength: 18 });
/** From a word to a sentence that no translator would write. */
const label = fc.array(word, { minLength: 1, maxLength: 7 }).map((words) => words.join(' '));
const labels = fc.array(label, { minLength: 40, maxLength: 40 });
const reader = fc.record({
  lang: fc.constantFrom(...LANGUAGES),
  clockShows: fc.constantFrom('24-hour' as const, '12-hour' as const),
  measure: fc.constantFrom('us' as const, 'si' as const),
});

/** Words of one figure, each label its own; what names values keeps naming them. */
const wordsOf = (figure: string, own: readonly string[]): NonNullable<Asked['words']> => {
  const given = new Map<string, string>();
  return (code, text) => {
    if (!code.startsWith(`${figure}.`) || code.endsWith('.alt') || code.endsWith('.alt-limit')) return text;
    const label = given.get(code) ?? own[given.size % own.length] ?? text;
    given.set(code, label);
    return [...(text.match(/\{[a-z_]+\}/g) ?? []), label].join(' ');
  };
};

type Rest = NonNullable<UnitPlan['rest']>;

/** A night in minutes from its business day's 00:00: when emptying starts, and how long each stretch lasts. */
const night = fc
  .record({
    start: fc.integer({ min: 17 * 60, max: 27 * 60 }),
    emptying: fc.integer({ min: 5, max: 120 }),
    idle: fc.integer({ min: 0, max: 300 }),
    off: fc.integer({ min: 240, max: 720 }),
    cooling: fc.integer({ min: 20, max: 240 }),
    loading: fc.integer({ min: 5, max: 120 }),
  })
  .map(({ start, emptying, idle, off, cooling, loading }) => {
    const empty = start + emptying;
    const goes = empty + idle;
    const comes = goes + off;
    return {
      start,
      empty_by: empty,
      off: goes,
      wipe: comes - 20,
      on: comes,
      cold_by: comes + cooling,
      first_pan: comes + cooling + loading,
    };
  });

type Night = { readonly [K in 'start' | 'empty_by' | 'off' | 'wipe' | 'on' | 'cold_by' | 'first_pan']: number };

const EVENING: ReadonlySet<string> = new Set(['start', 'empty_by', 'off']);

/** The unit with the nights given, one after another through the week. */
const withNights =
  (nights: readonly Night[]) =>
  (unit: UnitPlan): UnitPlan => {
    const rest = unit.rest as Rest;
    const by = (event: keyof Night, known: Known<ByDay> | undefined): Known<ByDay> | undefined => {
      if (!known) return undefined;
      const at: Partial<Record<(typeof WEEKDAYS)[number], Moment>> = {};
      WEEKDAYS.forEach((day, i) => {
        const minutes = (nights[i % nights.length] as Night)[event];
        const morning = WEEKDAYS[(i + 1) % 7] as (typeof WEEKDAYS)[number];
        if (EVENING.has(event)) at[day] = moment(minutes);
        else at[morning] = moment(minutes - 1440);
      });
      return { ...known, value: { q: 'by-day', at } };
    };
    const events = Object.fromEntries(
      Object.keys(nights[0] as Night).map((event) => [event, by(event as keyof Night, rest[event as keyof Night])]),
    );
    return { ...unit, rest: { ...rest, ...events } };
  };

describe('the night as a bar', () => {
  it.each([
    ['by a dial', BY_DIAL],
    ['by hand, wiped by hand', BY_HAND],
  ])('%s: keeps its labels apart', (_, files) => {
    fc.assert(
      fc.property(fc.array(night, { minLength: 1, maxLength: 7 }), labels, reader, (nights, own, who) => {
        const drawing = draw('day-bar', { files, reader: who, change: withNights(nights), words: wordsOf('day-bar', own) });
        expect(collisions(drawing)).toEqual([]);
        expect(crossings(drawing)).toEqual([]);
        expect(looseDigits(drawing)).toEqual([]);
      }),
      SEED,
    );
  });

  it('names the times of every night in its alternative', () => {
    fc.assert(
      fc.property(fc.array(night, { minLength: 1, maxLength: 3 }), (nights) => {
        const alt = altOf(draw('day-bar', { files: BY_DIAL, change: withNights(nights) }));
        for (const { start, empty_by, off, on, first_pan } of nights) {
          for (const min of [start, empty_by, off, on, first_pan]) {
            const wall = onTheWall(moment(min));
            expect(alt).toContain(`${String(Math.floor(wall / 60)).padStart(2, '0')}:${String(wall % 60).padStart(2, '0')}`);
          }
        }
      }),
      SEED,
    );
  });
});

describe('figures of any words', () => {
  it.each([
    ['dial', BY_DIAL],
    ['dial', BY_WEEKDAY_CLOCK],
    ['dial', BY_SEVEN_DAYS],
    ['elevation', BY_DIAL],
    ['elevation', BY_HAND],
    ['elevation', REACH_IN],
    ['elevation', WALK_IN],
    ['fill', BY_DIAL],
    ['ladder', BY_DIAL],
    ['ladder', REACH_IN],
  ])('%s keeps its labels apart', (name, files) => {
    fc.assert(
      fc.property(labels, reader, (own, who) => {
        const drawing = draw(name, { files, reader: who, words: wordsOf(name, own) });
        expect(collisions(drawing)).toEqual([]);
        expect(looseDigits(drawing)).toEqual([]);
        expect(altOf(drawing)).not.toBe('');
      }),
      { ...SEED, numRuns: 40 },
    );
  });
});

describe('the temperatures', () => {
  const degrees = fc.tuple(fc.integer({ min: -40, max: 60 }), fc.integer({ min: 0, max: 20 }));

  it('keep their labels apart for any spans', () => {
    fc.assert(
      fc.property(fc.array(degrees, { minLength: 4, maxLength: 4 }), reader, (spans, who) => {
        const change = (unit: UnitPlan): UnitPlan => {
          let i = 0;
          const next = <T>(known: T): T => {
            const [low, wide] = spans[i++ % spans.length] as [number, number];
            return {
              ...known,
              value: {
                q: 'span',
                span: {
                  low: { q: 'temperature', si: 255 + low * 0.5 },
                  high: { q: 'temperature', si: 255.5 + (low + wide) * 0.5 },
                },
              },
            };
          };
          return {
            ...unit,
            zones: Object.fromEntries(
              Object.entries(unit.zones).map(([id, zone]) => [id, { ...zone, air: next(zone.air), aim: next(zone.aim) }]),
            ),
          };
        };
        expect(collisions(draw('ladder', { files: BY_DIAL, reader: who, change }))).toEqual([]);
      }),
      SEED,
    );
  });
});

describe('labels beside a picture', () => {
  it('are pushed apart in their order, and stay above the bottom where there is room', () => {
    const wanted = fc.array(
      fc.record({ y: fc.double({ min: 0, max: 300, noNaN: true }), height: fc.double({ min: 5, max: 60, noNaN: true }) }),
      { maxLength: 9 },
    );
    fc.assert(
      fc.property(wanted, (some) => {
        const ordered = [...some].sort((a, b) => a.y - b.y);
        const tops = spread(ordered, 0, 300, 8);
        const total = ordered.reduce((sum, w) => sum + w.height + 8, -8);
        tops.forEach((top, i) => {
          const before = i === 0 ? 0 : (tops[i - 1] as number) + (ordered[i - 1] as { height: number }).height + 8;
          expect(top).toBeGreaterThanOrEqual(before - 1e-9);
          expect(top + (ordered[i] as { height: number }).height).toBeLessThanOrEqual(Math.max(300, total) + 1e-9);
        });
      }),
      SEED,
    );
  });
});
