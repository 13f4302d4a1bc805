/**
 * Weeks as people write them, closed days among open ones in whatever order and with whatever stands between: what is read has each written time on its own
 * days and no other, or nothing is read and what is proposed loses no time either.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dayNumber, isoOf, openOn, parseHours, weekdayOf, type Hours, type Span } from '../../src/model/hours/index.js';

const NAMES = [
  ['mon', 'monday', 'Mo', 'mondays'],
  ['tue', 'tuesday', 'Tu', 'tuesdays'],
  ['wed', 'wednesday', 'We', 'wednesdays'],
  ['thu', 'thursday', 'Th', 'thursdays'],
  ['fri', 'friday', 'Fr', 'fridays'],
  ['sat', 'saturday', 'Sa', 'saturdays'],
  ['sun', 'sunday', 'Su', 'sundays'],
] as const;

/** Minutes of the business day, reckoned here by hand, and how people write them. */
const TIMES: readonly (readonly [string, Span])[] = [
  ['11am-9:30pm', { from: 660, to: 1290 }],
  ['11am to 1am', { from: 660, to: 1500 }],
  ['noon-8pm', { from: 720, to: 1200 }],
  ['11:00-22:00', { from: 660, to: 1320 }],
  ['5pm-midnight', { from: 1020, to: 1440 }],
];

interface Part {
  readonly wrote: string;
  readonly days: readonly number[];
  readonly time: Span | undefined;
}

/** The whole week cut into stretches of days, each closed or open, and written in one of the ways that people have. */
const part = (days: readonly number[], between: string): fc.Arbitrary<Part> =>
  fc
    .record({
      name: fc.integer({ min: 0, max: 3 }),
      // Nobody divides by "and" what commas stand in: closed mon and tue, wed 11am-9pm.
      list: fc.constantFrom('-', ' to ', ' and ', ' & ', ' ', ...(between === ' and ' ? [] : [', '])),
      open: fc.boolean(),
      time: fc.constantFrom(...TIMES),
      order: fc.integer({ min: 0, max: 3 }),
    })
    .map(({ name, list, open, time: [wrote, span], order }) => {
      const named = days.map((day) => NAMES[day]?.[name] ?? '');
      const range = list === '-' || list === ' to ';
      const said = range ? [...new Set([named[0], named.at(-1)])].join(list) : named.join(list);
      const closed = [`closed ${said}`, `closed on ${said}`, `${said} closed`, `${said}: closed`][order] as string;
      const opened = [`${said} ${wrote}`, `${said}: ${wrote}`, `${wrote} ${said}`, `open ${said} ${wrote}`][order] as string;
      return { wrote: open ? opened : closed, days, time: open ? span : undefined };
    });

const weeks = fc
  .tuple(
    fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 4 }),
    fc.constantFrom(', ', '; ', '\n', ' and '),
  )
  .chain(([cuts, between]) => {
    const at = [0, ...cuts.toSorted((a, b) => a - b), 7];
    const parts = at.slice(1).map((to, n) => Array.from({ length: to - (at[n] ?? 0) }, (_, d) => (at[n] ?? 0) + d));
    return fc.tuple(fc.tuple(...parts.map((days) => part(days, between))), fc.constant(between), fc.boolean());
  })
  .map(([parts, between, backwards]) => {
    const ordered = backwards ? parts.toReversed() : parts;
    return { parts, wrote: ordered.map(({ wrote }) => wrote).join(between) };
  });

const MONDAY = dayNumber(2027, 6, 7);

const spans = (hours: Hours): readonly (readonly Span[])[] => {
  expect(weekdayOf(MONDAY)).toBe(0);
  return [0, 1, 2, 3, 4, 5, 6].map((day) => openOn(hours, isoOf(MONDAY + day)));
};

it('loses no time and no open day that stands beside a closed one', () => {
  let [read, proposed, cut] = [0, 0, 0];
  fc.assert(
    fc.property(weeks, ({ parts, wrote }) => {
      const meant = [0, 1, 2, 3, 4, 5, 6].map((day) =>
        parts.flatMap(({ days, time }) => (time && days.includes(day) ? [time] : [])),
      );
      const parsed = parseHours(wrote);
      if (parsed.ok) {
        read += 1;
        expect(spans(parsed.hours), wrote).toEqual(meant);
        return;
      }
      const texts = [parsed.suggestion, parsed.other].filter((text) => text !== undefined);
      const weeksOf = texts.map((text) => {
        const again = parseHours(text);
        return again.ok ? spans(again.hours) : [];
      });
      proposed += texts.length;
      for (const [n, week] of weeksOf.entries())
        for (const { time } of parts) if (time) expect(week.flat(), texts[n]).toContainEqual(time);
      // Where something is proposed, what was meant is among it.
      if (parsed.fault === 'closed-and-times' && parts.length === 2 && texts.length > 0) {
        cut += 1;
        expect(weeksOf, wrote).toContainEqual(meant);
      }
    }),
    { seed: 14, numRuns: 6000 },
  );
  expect(read).toBeGreaterThan(2000);
  expect(proposed).toBeGreaterThan(200);
  expect(cut).toBeGreaterThan(10);
});
