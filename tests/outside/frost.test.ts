/** Frost against the published correlations, and the rest of a rail against what the trade says of it. */
import { expect, test } from 'vitest';
import { freshFrostDensity, frostConductivity, leastRest, type Well } from '../../src/science/frost.js';
import { fahrenheit, the } from '../science/read-table.js';

test.each([
  [-5, 162.7],
  [-8, 70.9],
  [0, 500],
  [-15, 50],
])('Hayashi 1977: frost with its surface at %d °C weighs %d kg/m³, kept between 50 and 500', (celsius, density) => {
  expect(Math.abs(freshFrostDensity(celsius + 273.15) - density)).toBeLessThan(0.3);
});

test.each([
  [100, 0.046, 0.165],
  [200, 0.121, 0.216],
  [300, 0.217, 0.347],
])('at %d kg/m³ Yonko and Sepsy, Sanders, Lee, Ostin and Andersson span %d to %d W/(m K)', (density, low, high) => {
  const band = frostConductivity(density);
  expect(Math.abs(band.low - low)).toBeLessThan(0.001);
  expect(Math.abs(band.high - high)).toBeLessThan(0.001);
});

test('frost never conducts better than ice (2.2 W/(m K), IAPWS)', () => {
  expect(frostConductivity(5000).high).toBe(2.2);
});

const well: Well = { length: 1.5, width: 0.36, depth: 0.14, rims: 16 * 2 * (0.176 + 0.162), unfilled: 0 };
const rest = (hours: number) =>
  the(
    leastRest({
      well,
      kitchen: { temperature: fahrenheit(75), humidity: 0.5, pressure: 101325 },
      night: fahrenheit(70),
      surface: fahrenheit(10),
      running: hours * 3600,
      covers: 'up',
    }),
  );

test('a clean rail with its covers up rests 4 to 8 h after a day (common practice, no source)', () => {
  expect(rest(16).least).toBeGreaterThanOrEqual(4 * 3600);
  expect(rest(16).least).toBeLessThanOrEqual(8 * 3600);
});

test('after two weeks without a rest one night of 8 h may not be enough (common practice, no source)', () => {
  expect(rest(14 * 24).melting.high).toBeGreaterThan(8 * 3600);
  expect(rest(14 * 24).melting.likely).toBeGreaterThan(4 * 3600);
});
