/**
 * What a dial and a head gauge stand for, high up too, against CoolProp 8.0.0 and the US Standard Atmosphere 1976: the expected figures are in
 * reference/pressure-control.csv, made by scripts/pressure-control-points.py without our curves.
 */
import { describe, expect, test } from 'vitest';
import { altitudeCorrection, dialForMeanEvaporating, evaporatingAt, headPressure } from '../../src/science/pressure-control.js';
import { coils, heads } from './pressure-points.js';
import { fahrenheit, feet, inFahrenheit, PSI, refrigerant, refrigerants } from '../science/read-table.js';

const bellows = (altitudeFeet: number) => ({ reference: 'atmosphere', altitude: feet(altitudeFeet) }) as const;

/** °F; the curves' own tolerance, 0.1 K, is wider. */
const CLOSE = 0.05;

describe.each(refrigerants.map((r) => r.name))('CoolProp: %s', (name) => {
  const of = <T extends { readonly name: string }>(all: readonly T[]) => all.filter((row) => row.name === name);

  test('two dials at four altitudes: mean evaporating and dew, and back', () => {
    expect(of(coils)).toHaveLength(8);
    for (const { dial, altitude, mean, dew } of of(coils)) {
      const found = evaporatingAt(refrigerant(name), dial * PSI, bellows(altitude));
      expect(Math.abs(inFahrenheit(found?.mean) - mean), `mean at ${altitude} ft`).toBeLessThan(CLOSE);
      expect(Math.abs(inFahrenheit(found?.dew) - dew), `dew at ${altitude} ft`).toBeLessThan(CLOSE);
      const back = dialForMeanEvaporating(refrigerant(name), fahrenheit(mean), bellows(altitude)) ?? NaN;
      // A dial shows half a pound at best.
      expect(Math.abs(back / PSI - dial), `dial at ${altitude} ft`).toBeLessThan(0.1);
    }
  });

  test('head pressure over air entering: mean, dew and bubble', () => {
    // Of R-744, 87 °F is all but critical.
    expect(of(heads)).toHaveLength(name === 'R-744' ? 0 : 3);
    for (const { air, split, mean, dew, bubble } of of(heads)) {
      const found = headPressure(refrigerant(name), fahrenheit(air), split / 1.8, bellows(0));
      const psig = (pa: number | undefined) => (pa ?? NaN) / PSI;
      expect(Math.abs(psig(found?.mean) - mean)).toBeLessThan(0.2);
      expect(Math.abs(psig(found?.dew) - dew)).toBeLessThan(0.2);
      expect(Math.abs(psig(found?.bubble) - bubble)).toBeLessThan(0.2);
    }
  });
});

test.each([
  // 14.696 psia less the table's 14.175 and 11.341.
  [1000, 0.521, 'ASHRAE Handbook Fundamentals, table of the standard atmosphere'],
  [7000, 3.355, 'ASHRAE Handbook Fundamentals, table of the standard atmosphere'],
  // 14.696 (1 - (1 - 6.8754e-6 Z)^5.2559) by hand; no table prints this height.
  [5280, 2.596, 'ASHRAE Handbook Fundamentals, formula of the standard atmosphere'],
])('to keep the coil at %d ft, raise the dial by %d psi (%s)', (altitude, psi) => {
  expect(Math.abs((altitudeCorrection(bellows(altitude)) ?? NaN) / PSI - psi)).toBeLessThan(0.005);
});

test('CoolProp: the same dial is a colder coil higher up, by the table and by us', () => {
  for (const { name } of refrigerants) {
    const [sea, , , high] = coils.filter((row) => row.name === name);
    const ours = [0, 7000].map((ft) => evaporatingAt(refrigerant(name), (sea?.dial ?? NaN) * PSI, bellows(ft))?.mean);
    const shift = inFahrenheit(ours[1]) - inFahrenheit(ours[0]);
    expect(shift, name).toBeLessThan(0);
    expect(Math.abs(shift - ((high?.mean ?? NaN) - (sea?.mean ?? NaN))), name).toBeLessThan(CLOSE);
  }
});
