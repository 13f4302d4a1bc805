/** The pan of food: energy kept, bounds kept, warmer surroundings never give colder food. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  aroundConductance,
  aroundPull,
  foodTemperature,
  heldByFood,
  layersAt,
  panNetwork,
  steadyPan,
  stepPan,
} from '../../src/science/pan.js';
import { panHistory, timeToCool } from '../../src/science/pan-history.js';
import { the } from './read-table.js';

const pan = { length: 0.176, width: 0.162, depth: 0.1 };
const food = { density: 1050, specificHeat: 3600, conductivity: 0.5 };
const open = panNetwork(pan, food, { top: 7, bottom: 4, walls: 4 });

const sizes = fc.record({
  length: fc.double({ min: 0.1, max: 0.6, noNaN: true }),
  width: fc.double({ min: 0.1, max: 0.4, noNaN: true }),
  depth: fc.double({ min: 0.02, max: 0.2, noNaN: true }),
});
const film = fc.double({ min: 0, max: 50, noNaN: true });
const films = fc.record({ top: film, bottom: film, walls: film });
const kelvin = fc.double({ min: 240, max: 340, noNaN: true });

const freezing = { ...food, freezing: { point: 272.5, latent: 250e3 } };

test.each([
  ['chilled', food],
  ['frozen in part', freezing],
])('%s: what the food gains is what passed through its faces, to a thousandth', (_, material) => {
  const n = panNetwork(pan, material, { top: 7, bottom: 10, walls: 10 });
  const layers = layersAt(n, new Array<number>(n.layers).fill(278));
  const before = heldByFood(n, layers);
  let passed = 0;
  for (let i = 0; i < 1440; i += 1) {
    passed += 60 * (n.top * (290 - the(layers.temperature[0])) + aroundConductance(n) * 250 - aroundPull(n, layers.temperature));
    stepPan(n, layers, 290, 250, 60);
  }
  expect(layers.ice.some((j) => j > 0)).toBe(material === freezing);
  expect(Math.abs((heldByFood(n, layers) - before) / passed - 1)).toBeLessThan(1e-3);
});

test('food that freezes stays at its freezing point until it has given off its latent heat, and takes it back when it thaws', () => {
  const n = panNetwork(pan, freezing, { top: 10, bottom: 10, walls: 10 });
  const layers = layersAt(n, new Array<number>(n.layers).fill(275));
  const run = (air: number, hours: number) => {
    for (let i = 0; i < hours * 60; i += 1) stepPan(n, layers, air, air, 60);
  };
  run(262, 24);
  expect(Math.max(...layers.temperature)).toBe(272.5);
  run(262, 400);
  expect(Math.max(...layers.temperature)).toBeLessThan(263);
  expect(the(layers.ice[3]) / n.latent).toBeCloseTo(1, 9);
  run(280, 400);
  expect(Math.min(...layers.temperature)).toBeGreaterThan(279);
  expect(Math.max(...layers.ice)).toBe(0);
});

test('spots stay between the coldest and the warmest that food and surroundings were, and are in order', () => {
  fc.assert(
    fc.property(sizes, films, kelvin, kelvin, kelvin, (size, coefficients, start, above, around) => {
      const points = panHistory(panNetwork(size, food, coefficients), { start, above, around, duration: 7200, every: 1800 });
      for (const p of points) {
        expect(p.coldest).toBeGreaterThanOrEqual(Math.min(start, above, around) - 1e-9);
        expect(p.warmest).toBeLessThanOrEqual(Math.max(start, above, around) + 1e-9);
        expect(p.coldest <= p.mean + 1e-9 && p.mean <= p.warmest + 1e-9).toBe(true);
      }
    }),
    { seed: 7, numRuns: 60 },
  );
});

test('a warmer kitchen, warmer air or warmer food never gives colder food', () => {
  fc.assert(
    fc.property(
      sizes,
      films,
      kelvin,
      kelvin,
      kelvin,
      fc.double({ min: 0, max: 20, noNaN: true }),
      (size, f, start, above, around, more) => {
        const n = panNetwork(size, food, f);
        const end = (s: number, a: number, r: number) =>
          the(panHistory(n, { start: s, above: a, around: r, duration: 5400, every: 5400 }).at(-1)).mean;
        const before = end(start, above, around);
        for (const after of [
          end(start + more, above, around),
          end(start, above + more, around),
          end(start, above, around + more),
        ])
          expect(after).toBeGreaterThanOrEqual(before - 1e-9);
      },
    ),
    { seed: 8, numRuns: 40 },
  );
});

test('a bound: of a pan that has settled, no spot is colder in a warmer kitchen, nor its mean and coldest in warmer air', () => {
  const some = fc.double({ min: 0.5, max: 50, noNaN: true });
  fc.assert(
    fc.property(
      sizes,
      fc.record({ top: some, bottom: some, walls: some }),
      fc.double({ min: 275, max: 320, noNaN: true }),
      fc.double({ min: 255, max: 275, noNaN: true }),
      fc.double({ min: 0, max: 20, noNaN: true }),
      (size, f, kitchen, air, more) => {
        const n = panNetwork(size, food, f);
        const spots = (above: number, around: number) => foodTemperature(n, steadyPan(n, above, around), above, around);
        const before = spots(kitchen, air);
        const after = spots(kitchen + more, air);
        for (const spot of ['coldest', 'mean', 'warmest'] as const)
          expect(after[spot]).toBeGreaterThanOrEqual(before[spot] - 1e-9);
        // The warmest spot is rebuilt too warm, the more so the colder the air: warmer air takes some of that away.
        const aired = spots(kitchen, Math.min(air + more, kitchen));
        for (const spot of ['coldest', 'mean'] as const) expect(aired[spot]).toBeGreaterThanOrEqual(before[spot] - 1e-9);
      },
    ),
    { seed: 9, numRuns: 200 },
  );
});

test('left long enough, the pan settles where the steady solution says', () => {
  const end = the(panHistory(open, { start: 300, above: 297, around: 262, duration: 4 * 86400, every: 86400 }).at(-1));
  const steady = foodTemperature(open, steadyPan(open, 297, 262), 297, 262);
  expect(end.mean).toBeCloseTo(steady.mean, 3);
  expect(end.warmest).toBeCloseTo(steady.warmest, 3);
});

test('stirred food has one temperature; a cover keeps the top colder', () => {
  const stirred = the(
    panHistory(open, { start: 277, above: 297, around: 277, duration: 4 * 3600, every: 3600, stirred: true }).at(-1),
  );
  expect(stirred.coldest).toBe(stirred.warmest);
  const course = { start: 277, above: 297, around: 262, duration: 4 * 3600, every: 3600 };
  const covered = panNetwork(pan, food, { top: 2.5, bottom: 4, walls: 4 });
  expect(the(panHistory(covered, course).at(-1)).warmest).toBeLessThan(the(panHistory(open, course).at(-1)).warmest - 2);
});

test('the time to cool is where the warmest spot passes the limit', () => {
  const points = panHistory(open, { start: 330, above: 276, around: 276, duration: 12 * 3600, every: 600 });
  const time = timeToCool(points, 294) as number;
  expect(points.filter((p) => p.time < time).every((p) => p.warmest > 294)).toBe(true);
  expect(timeToCool(points, 270)).toBeUndefined();
  expect(timeToCool(points, 340)).toBe(0);
});

test('a pan without size, or insulated all round, is a mistake of the caller', () => {
  expect(() => panNetwork({ ...pan, depth: 0 }, food, { top: 1, bottom: 1, walls: 1 })).toThrow(RangeError);
  expect(() => steadyPan(panNetwork(pan, food, { top: 0, bottom: 0, walls: 0 }), 290, 290)).toThrow(RangeError);
});
