/** Pressure controls high up and after a change of refrigerant, against figures computed with CoolProp 8.0.0 and the standard atmosphere. */
import { expect, test } from 'vitest';
import { altitudeCorrection, dialForMeanEvaporating, evaporatingAt, headPressure } from '../../src/science/pressure-control.js';
import { fahrenheit, feet, inFahrenheit, PSI, refrigerant } from '../science/read-table.js';

const bellows = (altitudeFeet: number) => ({ reference: 'atmosphere', altitude: feet(altitudeFeet) }) as const;

test.each([
  [1000, 0.52],
  [5280, 2.6],
  [7000, 3.36],
])('to keep the coil at %d ft, raise the dial by %d psi', (altitude, psi) => {
  expect(Math.abs((altitudeCorrection(bellows(altitude)) ?? NaN) / PSI - psi)).toBeLessThan(0.01);
});

test.each([
  ['R-404A', 30, -2.7, -5.6],
  ['R-134a', 15, 14.9, 10.8],
  ['R-290', 24, 0.4, -3.1],
])('%s, %d psig on the dial: dew %d °F at the sea, %d °F at 5280 ft', (name, dial, sea, high) => {
  const dew = (altitude: number) => inFahrenheit(evaporatingAt(refrigerant(name), dial * PSI, bellows(altitude))?.dew);
  expect(Math.abs(dew(0) - sea)).toBeLessThan(0.1);
  expect(Math.abs(dew(5280) - high)).toBeLessThan(0.1);
});

test('the dial of 46 / 28 psig reads 48.6 / 30.6 at 5280 ft for the same coil', () => {
  const r = refrigerant('R-404A');
  for (const [sea, high] of [
    [46, 48.6],
    [28, 30.6],
  ] as const) {
    const coil = evaporatingAt(r, sea * PSI, bellows(0))?.mean as number;
    expect(Math.abs((dialForMeanEvaporating(r, coil, bellows(5280)) ?? NaN) / PSI - high)).toBeLessThan(0.05);
  }
});

test('R-404A at 78 + 27 °F: 252 psig at dew; R-448A at 105 °F: 262, 246, 229.5', () => {
  const psigOf = (pa: number | undefined) => (pa ?? NaN) / PSI;
  const r404a = headPressure(refrigerant('R-404A'), fahrenheit(78), 15, bellows(0));
  expect(inFahrenheit(r404a?.temperature)).toBeCloseTo(105, 6);
  expect(Math.abs(psigOf(r404a?.dew) - 252)).toBeLessThan(0.5);
  const r448a = headPressure(refrigerant('R-448A'), fahrenheit(105), 0, bellows(0));
  expect(Math.abs(psigOf(r448a?.bubble) - 262)).toBeLessThan(0.5);
  expect(Math.abs(psigOf(r448a?.mean) - 246)).toBeLessThan(0.5);
  expect(Math.abs(psigOf(r448a?.dew) - 229.5)).toBeLessThan(0.5);
});
