/** Pressure controls: the sign of altitude's effect, sealed references, and the way there and back. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  absoluteFromGauge,
  condensingAt,
  dialForMeanEvaporating,
  evaporatingAt,
  headPressure,
} from '../../src/science/pressure-control.js';
import { PSI, refrigerant, refrigerants } from './read-table.js';

test('higher up, a bellows makes the coil colder and a sealed control does not', () => {
  const r = refrigerant('R-404A');
  const mean = (reference: 'atmosphere' | 'sealed', altitude: number) =>
    evaporatingAt(r, 30 * PSI, { reference, altitude })?.mean as number;
  expect(mean('atmosphere', 2000)).toBeLessThan(mean('atmosphere', 0) - 1);
  expect(mean('sealed', 2000)).toBe(mean('atmosphere', 0));
});

test('a dial for a wanted coil temperature gives that temperature back', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...refrigerants),
      fc.double({ min: 235, max: 280, noNaN: true }),
      fc.double({ min: -100, max: 4000, noNaN: true }),
      fc.constantFrom('atmosphere' as const, 'sealed' as const),
      (r, wanted, altitude, reference) => {
        const dial = dialForMeanEvaporating(r, wanted, { reference, altitude }) as number;
        expect(evaporatingAt(r, dial, { reference, altitude })?.mean).toBeCloseTo(wanted, 6);
      },
    ),
    { seed: 2, numRuns: 200 },
  );
});

test('a head gauge reading and the pressure to expect agree', () => {
  const zero = { reference: 'atmosphere', altitude: 1609 } as const;
  const r = refrigerant('R-448A');
  const expected = headPressure(r, 300, 15, zero);
  expect(condensingAt(r, expected?.mean as number, zero)?.mean).toBeCloseTo(315, 6);
  expect(condensingAt(r, expected?.dew as number, zero)?.dew).toBeCloseTo(315, 6);
  expect(condensingAt(r, expected?.bubble as number, zero)?.bubble).toBeCloseTo(315, 6);
});

test('no pressure, no altitude, no curve: no answer', () => {
  const r = refrigerant('R-744');
  expect(absoluteFromGauge(-101326, { reference: 'sealed', altitude: 0 })).toBeUndefined();
  expect(absoluteFromGauge(NaN, { reference: 'sealed', altitude: 0 })).toBeUndefined();
  expect(absoluteFromGauge(1e5, { reference: 'atmosphere', altitude: 20000 })).toBeUndefined();
  expect(headPressure(r, 300, 10, { reference: 'atmosphere', altitude: 0 })).toBeUndefined();
});
