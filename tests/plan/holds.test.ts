/**
 * One rule says up to which kitchen a rail holds its food, and the card and the findings never contradict each other: the warmest spot, covers shut.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { withScenes } from '../../src/plan/consequences/index.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const POWERED = TABLE.replace('condensing: { place', 'condensing: { power: 1/2 hp, place').replace(
  'senses: air }',
  'senses: air }\n    shelves: { count: 4, volume: 16 cu ft }',
);

const random = fc.record({
  usual: fc.integer({ min: 45, max: 100 }),
  warmer: fc.integer({ min: 0, max: 30 }),
  humidity: fc.integer({ min: 10, max: 90 }),
  altitude: fc.integer({ min: 0, max: 9000 }),
  read: fc.integer({ min: 60, max: 85 }),
  air: fc.integer({ min: 12, max: 26 }),
  food: fc.integer({ min: 33, max: 39 }),
});

it('the card’s kitchen and the finding agree over random kitchens and units', () => {
  const seen = new Set<boolean>();
  fc.assert(
    fc.property(random, ({ usual, warmer, humidity, altitude, read, air, food }) => {
      const { workshop, stores, findings } = tryChain({
        'equipment/table.yaml': POWERED.replace(
          'air: 16 to 20 °F',
          `measured: { kitchen: ${read} °F, air: ${air} °F, food: ${food} °F }\n    air: 16 to 20 °F`,
        ),
        'sites/street.yaml': `${STORE}altitude: ${altitude} ft\nkitchen: { usual: ${usual} °F, hottest: ${usual + warmer} °F, humidity: ${humidity} % }\n`,
      });
      const { read: store, plan } = stores.get('street') ?? {};
      const unit = plan?.units['line-1'];
      fc.pre(workshop !== undefined && store !== undefined && plan !== undefined && unit?.physics?.hot !== undefined);
      const { scenes, physics } = withScenes(workshop.shelf, store, plan, unit);
      const hottest = physics?.hottest.value.si ?? NaN;
      const to = scenes?.holds?.warmest_shut?.value.si ?? -Infinity;
      const cannot = findings.find((f) => f.code === 'rail-cannot-hold');
      expect(cannot !== undefined).toBe(hottest > to + 1e-6);
      if (cannot) expect((cannot.data['food'] as { si: number }).si).toBeGreaterThan(plan.store.law.aim.value.si);
      // What is told of open covers is never gentler: a kitchen in which they fail on the mean is none in which they need not be shut.
      const open = scenes?.holds?.mean_open?.value.si ?? -Infinity;
      if (hottest > open + 1e-6) expect(findings.some((f) => /^rail-(cannot-hold|needs-covers)$/.test(f.code))).toBe(true);
      seen.add(cannot !== undefined);
    }),
    { numRuns: 16, seed: 3 },
  );
  expect(seen).toEqual(new Set([true, false]));
});
