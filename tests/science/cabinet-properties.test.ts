/** Whatever the unit, the kitchen and the script: numbers stay finite and between what drives them, energy is kept, and warmth is not cold. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { calibrate } from '../../src/science/cabinet/calibrate.js';
import type { ForcedAirBox, StaticRail } from '../../src/science/cabinet/facts.js';
import type { CabinetEvent } from '../../src/science/cabinet/event.js';
import type { UnitModel } from '../../src/science/cabinet/model.js';
import { runCabinet, type CabinetRun } from '../../src/science/cabinet/run.js';
import { fahrenheit, the } from './read-table.js';
import { HOUR, fanRail, forcedAir, freezer, kitchen, modelOf, separate, shared, threeZones } from './units.js';

const models = [shared, separate, forcedAir, fanRail, threeZones, freezer].map(modelOf);

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const at = fc.integer({ min: 0, max: 12 * HOUR });
const zone = fc.constant(0);
const event: fc.Arbitrary<CabinetEvent> = fc.oneof(
  fc.record({ at, do: fc.constant('kitchen' as const), temperature: between(280, 320), humidity: between(0, 1) }),
  fc.record({ at, do: fc.constant('cooling' as const), zone, on: fc.boolean() }),
  fc.record({ at, do: fc.constant('covers' as const), zone, shut: fc.boolean() }),
  fc.record({ at, do: fc.constant('doors' as const), zone, exchange: between(0, 0.05) }),
  fc.record({ at, do: fc.constant('move' as const), load: zone, to: fc.constantFrom(-1, 0) }),
  fc.record({ at, do: fc.constant('fill' as const), load: zone, temperature: between(250, 330) }),
  fc.record({ at, do: fc.constant('wipe' as const), zone }),
  fc.record({ at, do: fc.constant('defrost' as const), zone }),
  fc.record({
    at,
    do: fc.constant('fault' as const),
    zone,
    fault: fc.constantFrom('door-ajar' as const, 'fan-stopped' as const, 'drain-blocked' as const, 'stuck-calling' as const),
    on: fc.boolean(),
  }),
);

test('every figure is finite and between what drives it; frost is never negative; energy is kept within 0.1 %', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...models),
      between(280, 320),
      between(0, 1),
      fc.array(event, { maxLength: 12 }),
      fc.constantFrom('settled' as const, 'warm' as const),
      fc.array(between(0, 10), { maxLength: 1 }),
      (m, temperature, humidity, events, start, frost) => {
        const run = runCabinet(m, { kitchen: { temperature, humidity }, start, duration: 12 * HOUR, every: 600, events, frost });
        expect(run).toBeDefined();
        // Coldest: where the capacity line ends, or food that was put in colder. Warmest: kitchens, food put in, a heater's cut-out.
        const coldest = Math.min(m.evaporating - 30, ...events.map((e) => (e.do === 'fill' ? e.temperature : 330)));
        const warmest = Math.max(
          temperature,
          285,
          ...events.map((e) => (e.do === 'fill' || e.do === 'kitchen' ? e.temperature : 0)),
        );
        const inside = (x: number) => x >= coldest - 1e-6 && x <= warmest + 2;
        for (const z of the(run).zones) {
          expect(z.air.every(inside) && z.coil.every(inside)).toBe(true);
          expect(z.frost.every((kg) => kg >= 0 && Number.isFinite(kg))).toBe(true);
        }
        for (const l of the(run).loads) {
          expect([...l.coldest, ...l.mean, ...l.warmest].every(inside)).toBe(true);
          expect(l.mean.every((t, i) => the(l.coldest[i]) <= t + 1e-6 && t <= the(l.warmest[i]) + 1e-6)).toBe(true);
        }
        expect(the(run).suction.every(Number.isFinite)).toBe(true);
        expect(the(run).running.every((r) => r >= 0 && r <= 1)).toBe(true);
        const { gained, held, removed, melted } = the(run).heat;
        expect(Math.abs(gained - held - removed - melted)).toBeLessThan(1e-3 * (Math.abs(gained) + Math.abs(removed) + 1e4));
      },
    ),
    { seed: 10, numRuns: 120 },
  );
});

test('a warmer kitchen never gives colder food, of six-hour means', () => {
  for (const m of models) {
    let before = 0;
    for (let f = 60; f <= 105; f += 5) {
      const run = the(
        runCabinet(m, {
          kitchen: { temperature: fahrenheit(f), humidity: 0.4 },
          start: 'settled',
          duration: 48 * HOUR,
          every: 120,
          events: [],
        }),
      );
      const means = run.loads.map((l) => l.mean.slice(-180).reduce((a, b) => a + b) / 180);
      // A box's own food follows its thermostat, so the rail's decides; where there is none, the box's, within its thermostat's play.
      const open = m.zones.findIndex((z) => z.empty.up > 0);
      const decides = open < 0 ? the(means[0]) : the(means[run.loads.findIndex((_, i) => the(m.loads[i]).home === open)]);
      expect(decides).toBeGreaterThan(before - (open < 0 ? 0.3 : 0));
      before = decides;
    }
  }
});

/** s between points of the series: what a run can tell apart. */
const POINT = 60;
const firstCold = (
  m: UnitModel,
  events: readonly CabinetEvent[],
  from: number,
  cold: (run: CabinetRun, i: number) => boolean,
): number => {
  const run = the(runCabinet(m, { kitchen, start: 'settled', duration: 30 * HOUR, every: POINT, events }));
  return run.time.find((t, i) => t >= from && cold(run, i)) ?? Infinity;
};
const two = fc.constantFrom(modelOf(shared), modelOf(separate));
const hours = between(0, 6).map((h) => Math.round(h * HOUR));

test('food put into the base later is never ready earlier', () => {
  fc.assert(
    fc.property(two, hours, hours, between(45, 75), (m, first, gap, warm) => {
      const ready = (at: number): number =>
        firstCold(
          m,
          [{ at, do: 'fill', load: 1, temperature: fahrenheit(warm) }],
          at + POINT,
          (run, i) => the(run.loads[1]?.mean[i]) <= fahrenheit(41),
        );
      // A cycle of the thermostat may help the later by some minutes, never by more than it came later.
      expect(ready(first + gap)).toBeGreaterThanOrEqual(ready(first) - (gap < HOUR ? 600 : 0));
    }),
    { seed: 14, numRuns: 40 },
  );
});

test('a rail that is switched on later is never cold earlier', () => {
  fc.assert(
    fc.property(two, hours, hours, (m, first, gap) => {
      const ready = (at: number): number => {
        const events: CabinetEvent[] = [
          { at: 0, do: 'move', load: 0, to: 1 },
          { at: 0, do: 'cooling', zone: 0, on: false },
          { at: HOUR + at, do: 'cooling', zone: 0, on: true },
        ];
        return firstCold(m, events, HOUR + at, (run, i) => the(run.zones[0]?.air[i]) <= fahrenheit(20));
      };
      expect(ready(first + gap)).toBeGreaterThanOrEqual(ready(first) - POINT);
    }),
    { seed: 15, numRuns: 40 },
  );
});

test('one wild fact is named or fits; what fits runs with finite figures', () => {
  const wild = fc.oneof(between(-10, 400), fc.double());
  const plausible = fc.tuple(
    between(262, 266),
    between(276, 281),
    between(258, 261),
    between(6, 12),
    between(274, 278),
    between(1, 4),
    between(0.5, 2),
    between(0.1, 2),
  );
  let [fitted, named] = [0, 0];
  fc.assert(
    fc.property(
      plausible,
      fc.integer({ min: 0, max: 15 }),
      wild,
      fc.constantFrom(shared, separate),
      (facts, which, figure, unit) => {
        const changed = facts.map((x, i) => (i === which ? figure : x)) as typeof facts;
        const [air, foodTemperature, cutIn, span, boxIn, boxSpan, length, volume] = changed;
        const [railFacts, boxFacts] = unit.zones as [StaticRail, ForcedAirBox];
        const found = calibrate({
          ...unit,
          ...(unit.lowPressure ? { lowPressure: { cutIn, cutOut: cutIn - span } } : {}),
          zones: [
            { ...railFacts, air, foodTemperature, well: { ...railFacts.well, length } },
            { ...boxFacts, volume, thermostat: { cutIn: boxIn, cutOut: boxIn - boxSpan } },
          ],
        });
        if (!found.ok) {
          named += 1;
          return;
        }
        fitted += 1;
        const run = runCabinet(found.model, { kitchen, start: 'settled', duration: 2 * HOUR, every: 600, events: [] });
        expect(run?.zones.every((z) => z.air.every(Number.isFinite))).toBe(true);
        expect(run?.loads.every((l) => l.warmest.every(Number.isFinite))).toBe(true);
      },
    ),
    { seed: 11, numRuns: 200 },
  );
  expect(fitted).toBeGreaterThan(50);
  expect(named).toBeGreaterThan(20);
});
