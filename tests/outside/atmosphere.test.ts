/** The standard atmosphere against the 1976 standard's own equations and against handbook tables, within 0.02 %. */
import { expect, test } from 'vitest';
import { standardPressure, standardTemperature } from '../../src/science/atmosphere.js';
import { feet, PSI } from '../science/read-table.js';

const off = (altitude: number, expected: number): number => Math.abs((standardPressure(altitude) ?? NaN) / expected - 1);

test('U.S. Standard Atmosphere 1976: hydrostatic equation of the lowest layer, with the constants of its table 2', () => {
  const exponent = (9.80665 * 0.0289644) / (8.31432 * 0.0065);
  for (const altitude of [-300, 0, 305, 1000, 1609, 2134, 3048]) {
    expect(off(altitude, 101325 * (1 - (0.0065 * altitude) / 288.15) ** exponent)).toBeLessThan(2e-4);
  }
});

test.each([
  [0, 14.696],
  [1000, 14.175],
  [5000, 12.23],
  [7000, 11.341],
  [10000, 10.108],
])('ASHRAE handbook table: %d ft, %d psia', (altitude, psia) => {
  expect(off(feet(altitude), psia * PSI)).toBeLessThan(2e-4);
});

test('ASHRAE: t = 59 - 0.0035662 Z °F', () => {
  expect((standardTemperature(feet(5280)) ?? NaN) * 1.8 - 459.67).toBeCloseTo(59 - 0.0035662 * 5280, 1);
});

test('no answer outside the formula, and none for a number that is none', () => {
  for (const altitude of [-5001, 11001, NaN, Infinity]) expect(standardPressure(altitude)).toBeUndefined();
});
