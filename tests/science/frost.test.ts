/** Frost and rest: monotone, never too short, and silent where nothing melts. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { frostRate, leastRest, wellFrost, type RestQuestion } from '../../src/science/frost.js';
import { the } from './read-table.js';

const question: RestQuestion = {
  well: { length: 1.5, width: 0.36, depth: 0.14, rims: 10.8, unfilled: 0 },
  kitchen: { temperature: 297, humidity: 0.5, pressure: 101325 },
  night: 294,
  surface: 261,
  running: 16 * 3600,
  covers: 'up',
};

test('the rest is never under four hours, nor under the maker’s figure, nor under the upper bound', () => {
  expect(leastRest({ ...question, running: 3600 })).toMatchObject({ least: 4 * 3600, decidedBy: 'four-hours' });
  expect(leastRest({ ...question, running: 3600, maker: 5 * 3600 })).toMatchObject({ least: 5 * 3600, decidedBy: 'maker' });
  const iced = the(leastRest({ ...question, running: 30 * 86400 }));
  expect(iced).toMatchObject({ least: iced.melting.high, decidedBy: 'computed' });
});

test('a longer run, a damper kitchen, a hole without a pan, a shut cover, a colder night: none shortens the rest', () => {
  const hours = (change: Partial<RestQuestion>) => the(leastRest({ ...question, running: 14 * 86400, ...change })).melting.high;
  const before = hours({});
  expect(hours({ running: 15 * 86400 })).toBeGreaterThan(before);
  expect(hours({ kitchen: { ...question.kitchen, humidity: 0.7 } })).toBeGreaterThan(before);
  expect(hours({ well: { ...question.well, unfilled: 0.1 } })).toBeGreaterThan(before);
  expect(hours({ covers: 'down' })).toBeGreaterThan(before);
  expect(hours({ night: 285 })).toBeGreaterThan(before);
});

test('a night at freezing melts nothing: no answer; a liner above freezing makes no frost', () => {
  expect(leastRest({ ...question, night: 273.5 })).toBeUndefined();
  expect(wellFrost(question.well, question.kitchen, 280, 3600)?.mass.high).toBe(0);
});

test('bands are in order, finite and not negative', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 274, max: 320, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 235, max: 285, noNaN: true }),
      fc.double({ min: 0, max: 60 * 86400, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (night, humidity, surface, running, unfilled) => {
        const kitchen = { temperature: night, humidity, pressure: 1e5 };
        const found = leastRest({ ...question, well: { ...question.well, unfilled }, kitchen, night, surface, running });
        if (night <= 274.15) expect(found).toBeUndefined();
        if (!found) return;
        for (const { low, likely, high } of [found.melting, found.frost])
          expect(low >= 0 && low <= likely && likely <= high && Number.isFinite(high)).toBe(true);
        expect(found.least).toBeGreaterThanOrEqual(4 * 3600);
      },
    ),
    { seed: 9, numRuns: 200 },
  );
});

test('frost grows only from air that is damper than the ice’s own', () => {
  expect(frostRate(1e-3, 1e-2, 0.002, 0.004)).toBe(0);
  expect(frostRate(1e-3, 1e-2, 0.009, 0.002)).toBeGreaterThan(0);
  expect(frostRate(1e-3, 1e-2, 0.009, 0.002)).toBeLessThan(1e-3 * 0.007);
});
