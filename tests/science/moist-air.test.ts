/** Moist air: what sweats and what frosts, and silence outside the equations. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import * as moist from '../../src/science/moist-air.js';
import { fahrenheit } from './read-table.js';

const kitchen = { temperature: fahrenheit(75), humidity: 0.5, pressure: 101325 };

test('in a kitchen at 75 °F and 50 % a lid at 60 °F is dry, one at 45 °F sweats, the liner at 20 °F frosts', () => {
  expect(moist.onSurface(kitchen, fahrenheit(60))).toBe('dry');
  expect(moist.onSurface(kitchen, fahrenheit(45))).toBe('sweat');
  expect(moist.onSurface(kitchen, fahrenheit(20))).toBe('frost');
});

test('no input gives NaN, and nothing throws', () => {
  fc.assert(
    fc.property(
      fc.double(),
      fc.double({ min: -0.5, max: 1.5 }),
      fc.double(),
      fc.double(),
      (temperature, humidity, pressure, surface) => {
        const air = { temperature, humidity, pressure };
        const found = [
          moist.dewPoint(air),
          moist.humidityRatio(air),
          moist.wetBulb(air),
          moist.airDensity(air),
          moist.airEnthalpy(air),
        ];
        for (const value of found) expect(value === undefined || Number.isFinite(value)).toBe(true);
        moist.onSurface(air, surface);
      },
    ),
    { seed: 4, numRuns: 300 },
  );
  fc.assert(
    fc.property(
      fc.double({ min: 174, max: 350, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 6e4, max: 1.1e5, noNaN: true }),
      (temperature, humidity, pressure) => {
        const air = { temperature, humidity, pressure };
        const dew = moist.dewPoint(air);
        if (dew !== undefined) expect(dew).toBeLessThanOrEqual(temperature + 1e-3);
        const wet = moist.wetBulb(air);
        if (wet !== undefined) expect(wet).toBeLessThanOrEqual(temperature + 1e-3);
      },
    ),
    { seed: 5, numRuns: 300 },
  );
});

test('moister air has a higher dew point and more water', () => {
  let [dew, ratio] = [0, 0];
  for (let humidity = 0.05; humidity <= 1; humidity += 0.05) {
    const air = { ...kitchen, humidity };
    expect(moist.dewPoint(air) as number).toBeGreaterThan(dew);
    expect(moist.humidityRatio(air) as number).toBeGreaterThan(ratio);
    [dew, ratio] = [moist.dewPoint(air) as number, moist.humidityRatio(air) as number];
  }
});
