/** Sensors: the way there and back, the ice point's tolerance, and silence outside the limits. */
import { readdirSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { icePoint, sensorReading, sensorTable, sensorTemperature, type SensorCurve } from '../../src/science/sensor.js';
import { sensorCurve, the } from './read-table.js';

const curves = readdirSync(new URL('../../equipment/tables/sensors', import.meta.url)).map((file) =>
  sensorCurve(file.replace('.yaml', '')),
);

test('ohms lead back to the temperature, and run one way', () => {
  for (const curve of curves) {
    let before: number | undefined;
    const rises = curve.form === 'platinum';
    for (let t = curve.limits[0]; t <= curve.limits[1]; t += 0.5) {
      const ohm = sensorReading(curve, t) as number;
      if (t > curve.limits[0] && t < curve.limits[1]) expect(sensorTemperature(curve, ohm)).toBeCloseTo(t, 6);
      if (before !== undefined) expect(ohm > before).toBe(rises);
      before = ohm;
    }
  }
});

test('1 °F is 2.8 to 2.9 % of a 10 k type 2 in ice', () => {
  const ice = icePoint(curves.find((c) => c.name === '10 k type 2') as SensorCurve, 1 / 1.8);
  expect(ice).toBeDefined();
  const { expected, least, most } = the(ice);
  expect(most / expected - 1).toBeGreaterThan(0.028);
  expect(most / expected - 1).toBeLessThan(0.0295);
  expect(least).toBeLessThan(expected);
});

test('a positive-coefficient sensor reads more when it is warmer, and its tolerance is still least to most', () => {
  const ice = icePoint(curves.find((c) => c.form === 'platinum') as SensorCurve, 1);
  expect(the(ice).least).toBeLessThan(1000);
  expect(the(ice).most).toBeGreaterThan(1000);
});

test('no input gives NaN; open, shorted and absurd sensors have no temperature', () => {
  fc.assert(
    fc.property(fc.constantFrom(...curves), fc.double(), (curve, x) => {
      for (const found of [sensorTemperature(curve, x), sensorReading(curve, x)])
        expect(found === undefined || Number.isFinite(found)).toBe(true);
    }),
    { seed: 3, numRuns: 300 },
  );
  for (const curve of curves)
    for (const ohm of [0, -5, NaN, Infinity, 1e9, 1]) expect(sensorTemperature(curve, ohm)).toBeUndefined();
});

test('a table leaves out what the curve does not reach', () => {
  expect(sensorTable(curves[0] as SensorCurve, [100, 273.15, 500]).map((row) => row.temperature)).toEqual([273.15]);
});
