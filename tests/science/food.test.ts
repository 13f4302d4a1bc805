/** Food properties: no answer where the equations end, and never NaN. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { foodMaterial } from '../../src/science/food.js';
import { the } from './read-table.js';

const composition = { water: 0.9, protein: 0.03, fat: 0.01, carbohydrate: 0.05, fiber: 0.02, ash: 0.01 };

test('no answer for a frozen food, a boiling one, or one that does not add up', () => {
  const food = { composition, porosity: 0, freezing: 272, source: '' };
  expect(foodMaterial(food, 278)).toBeDefined();
  expect(foodMaterial(food, 273)).toBeUndefined();
  expect(foodMaterial(food, 424)).toBeUndefined();
  expect(foodMaterial({ ...food, porosity: 1 }, 278)).toBeUndefined();
  expect(foodMaterial({ ...food, composition: { ...composition, water: 0.5 } }, 278)).toBeUndefined();
  expect(foodMaterial({ ...food, composition: { ...composition, fiber: 0.06 } }, 278)).toBeUndefined();
});

test('no input gives NaN, and properties are positive', () => {
  const part = fc.double({ min: 0, max: 1, noNaN: true });
  const wild = fc.tuple(part, part, part, part, part, part);
  const sensible = wild.map((p) => {
    const sum = p[0] + p[1] + p[2] + p[3] + p[5];
    return p.map((x, i) => (i === 4 ? (x * p[3]) / sum : x / sum)) as typeof p;
  });
  let answers = 0;
  fc.assert(
    fc.property(
      fc.oneof(wild, sensible),
      fc.oneof(part, fc.double()),
      fc.oneof(fc.double({ min: 270, max: 430 }), fc.double()),
      (p, porosity, t) => {
        const [water, protein, fat, carbohydrate, fiber, ash] = p;
        const food = { composition: { water, protein, fat, carbohydrate, fiber, ash }, porosity, freezing: 272, source: '' };
        const found = foodMaterial(food, t);
        if (found) answers += 1;
        if (found)
          for (const x of [found.density, found.specificHeat, found.conductivity, the(found.freezing).latent + 1])
            expect(x > 0 && Number.isFinite(x)).toBe(true);
      },
    ),
    { seed: 6, numRuns: 500 },
  );
  expect(answers).toBeGreaterThan(50);
});
