/** Saturation: monotone, the same both ways, and silent outside its range. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import * as saturation from '../../src/science/saturation.js';
import type { Refrigerant } from '../../src/science/saturation.js';
import { refrigerants } from './read-table.js';

type Way = (r: Refrigerant, x: number) => number | undefined;

const PAIRS: [string, Way, Way][] = [
  ['dew', saturation.dewTemperature, saturation.dewPressure],
  ['bubble', saturation.bubbleTemperature, saturation.bubblePressure],
  ['mean evaporating', saturation.meanEvaporating, saturation.pressureForMeanEvaporating],
  ['mean condensing', saturation.meanCondensing, saturation.pressureForMeanCondensing],
];

test.each(PAIRS)('%s: temperature rises with pressure, and the way back leads home', (_, temperature, pressure) => {
  for (const r of refrigerants) {
    let colder = 0;
    for (let logPressure = Math.log(2e4); logPressure < Math.log(8e6); logPressure += 0.01) {
      const t = temperature(r, Math.exp(logPressure));
      if (t === undefined) continue;
      expect(t).toBeGreaterThan(colder);
      expect(Math.abs((pressure(r, t) as number) / Math.exp(logPressure) - 1)).toBeLessThan(1e-9);
      colder = t;
    }
    expect(colder).toBeGreaterThan(280);
  }
});

test('inlet is colder than dew, dew is never colder than bubble', () => {
  for (const r of refrigerants) {
    const p = saturation.dewPressure(r, 255) as number;
    const [inlet, dew] = [saturation.inletTemperature(r, p) as number, saturation.dewTemperature(r, p) as number];
    expect(inlet).toBeLessThanOrEqual(dew);
    expect(saturation.bubbleTemperature(r, p) as number).toBeLessThanOrEqual(inlet + 0.01);
  }
});

test('outside its range a curve has no answer, and no input gives NaN', () => {
  fc.assert(
    fc.property(fc.constantFrom(...refrigerants), fc.constantFrom(...PAIRS), fc.double(), (r, [, temperature, pressure], x) => {
      for (const found of [temperature(r, x), pressure(r, x)]) expect(found === undefined || Number.isFinite(found)).toBe(true);
    }),
    { seed: 1, numRuns: 300 },
  );
  for (const r of refrigerants) {
    expect(saturation.dewTemperature(r, 0)).toBeUndefined();
    expect(saturation.dewTemperature(r, r.critical.pressure)).toBeUndefined();
    expect(saturation.bubblePressure(r, r.critical.temperature)).toBeUndefined();
    expect(saturation.dewPressure(r, 220)).toBeUndefined();
    expect(saturation.meanEvaporating(r, r.dew.pressure[1] * 1.001)).toBeUndefined();
  }
});
