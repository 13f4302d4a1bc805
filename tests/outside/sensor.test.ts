/** Sensor curves against printed tables. */
import { expect, test } from 'vitest';
import { asSensor, sensorSchema } from '../../src/model/tables.js';
import { bentAt, sensorReading, sensorTemperature, type SensorCurve } from '../../src/science/sensor.js';
import { sensorCurve as curve } from '../science/read-table.js';

/** A maker's table as a profile has it. */
const ofPoints = (points: readonly (readonly [temperature: string, read: string])[]): SensorCurve =>
  asSensor(sensorSchema.parse({ form: 'points', name: 'Own', source: 'its sheet', points }));

const KELVIN = 273.15;

/** Largest error against a table of °C and ohm, K. */
const worst = (file: string, table: readonly (readonly [celsius: number, ohm: number])[]): number =>
  Math.max(...table.map(([celsius, ohm]) => Math.abs((sensorTemperature(curve(file), ohm) ?? NaN) - celsius - 273.15)));

test('10 k type 2: the table printed in a chiller service manual', () => {
  const table = [[-32, 200510], [-20, 97060], [-10, 55319], [0, 32654], [5, 25396], [10, 19903], [20, 12493], [25, 10000], [40, 5327]] as const; // prettier-ignore
  expect(worst('ntc-10k-type-2', table)).toBeLessThan(0.02);
});

test('10 k beta 3435: the resistance table of the type, as three public reproductions print it', () => {
  const table = [[-40, 188500], [-30, 111300], [-20, 67770], [-10, 42470], [0, 27280], [10, 17960], [20, 12090], [25, 10000], [40, 5827], [60, 3020]] as const; // prettier-ignore
  expect(worst('ntc-10k-beta-3435', table)).toBeLessThan(0.03);
});

test('15 k at the ice point: the table printed in air-conditioning service manuals, to two figures', () => {
  const table = [[0, 15000], [10, 9600], [20, 6300], [25, 5200], [30, 4300], [40, 3000]] as const; // prettier-ignore
  for (const [celsius, ohm] of table) {
    expect(Math.abs((sensorReading(curve('ntc-15k-at-ice'), celsius + 273.15) ?? NaN) - ohm)).toBeLessThan(60);
  }
});

test('Pt1000: a printed table by IEC 60751', () => {
  const table = [[-30, 882.2], [-20, 921.6], [0, 1000], [5, 1019.527], [10, 1039.025]] as const; // prettier-ignore
  expect(worst('pt1000', table)).toBeLessThan(0.02);
});

test('5 k: about 16 kohm at the ice point (common practice, no source)', () => {
  expect(Math.abs((sensorReading(curve('ntc-5k'), 273.15) ?? NaN) - 16000)).toBeLessThan(500);
});

test.each([
  ['ntc-10k-type-2', 96999, 55301, 32650, 25394],
  ['ntc-5k', 48491, 27650, 16326, 12698],
  ['ntc-10k-type-3', 78930, 47549, 29490, 23462],
])('%s at -20, -10, 0 and 5 °C, computed elsewhere from the same coefficients', (file, ...ohms) => {
  [-20, -10, 0, 5].forEach((celsius, i) => {
    expect(Math.abs((sensorReading(curve(file), celsius + 273.15) ?? NaN) / (ohms[i] as number) - 1)).toBeLessThan(1e-4);
  });
});

test('a 5 k sensor in ice read on the 15 k curve shows -1.8 °C', () => {
  const ohm = sensorReading(curve('ntc-5k'), 273.15) as number;
  expect(Math.abs((sensorTemperature(curve('ntc-15k-at-ice'), ohm) ?? NaN) - 271.35)).toBeLessThan(0.1);
});

test('a table of points gives back its own rows, and the rows of the printed table that were left out of it', () => {
  // 10 k type 2, the table printed in a chiller service manual: every second row is kept from the curve. Steps of 20 K, wider than a sheet prints.
  const own = ofPoints([['-20 °C', '97.06 kohm'], ['0 °C', '32654 ohm'], ['20 °C', '12.493 kohm'], ['40 °C', '5327 ohm']]); // prettier-ignore
  for (const [celsius, ohm] of [
    [-20, 97060],
    [0, 32654],
    [20, 12493],
    [40, 5327],
  ] as const)
    // prettier-ignore
    expect(sensorReading(own, celsius + KELVIN)).toBeCloseTo(ohm, 6);
  for (const [celsius, ohm] of [
    [-10, 55319],
    [5, 25396],
    [10, 19903],
    [25, 10000],
  ] as const)
    // prettier-ignore
    expect(Math.abs((sensorTemperature(own, ohm) ?? NaN) - celsius - KELVIN)).toBeLessThan(0.13);
  expect(sensorReading(own, 41 + KELVIN)).toBeUndefined();
  expect(sensorTemperature(own, 100_000)).toBeUndefined();
});

/** Largest error, K, of a table with points so far apart, in °F, against the curve that it was taken from, from -40 to 140 °F. */
const worstBetween = (step: number, reads: (kelvin: number) => number, unit: string): number => {
  const kelvin = (f: number): number => (f + 459.67) / 1.8;
  const rows = Array.from({ length: 180 / step + 1 }, (_, i) => -40 + i * step);
  const own = ofPoints(rows.map((f) => [`${f} °F`, `${reads(kelvin(f))} ${unit}`]));
  const between = Array.from({ length: 180 }, (_, i) => kelvin(-39.5 + i));
  return Math.max(...between.map((k) => Math.abs((sensorTemperature(own, reads(k)) ?? NaN) - k)));
};

/** Volts over a sensor behind a resistor of 10 kohm on 5 V, as boards read it: Ohm's law. */
const divided =
  (file: string) =>
  (kelvin: number): number => {
    const ohm = sensorReading(curve(file), kelvin) as number;
    return (5 * ohm) / (ohm + 10_000);
  };

test.each(['ntc-10k-type-2', 'ntc-10k-type-3', 'ntc-5k', 'ntc-10k-beta-3435'])(
  '%s: ln R over 1/T between points is within 0.01 K of Steinhart and Hart at 10 °F apart, and 0.04 K at 20 °F',
  (file) => {
    const ohms = (kelvin: number): number => sensorReading(curve(file), kelvin) as number;
    expect(worstBetween(10, ohms, 'ohm')).toBeLessThan(0.01);
    expect(worstBetween(20, ohms, 'ohm')).toBeLessThan(0.04);
  },
);

test('platinum between points is within 0.02 K of IEC 60751 at 20 °F apart', () => {
  expect(worstBetween(20, (kelvin) => sensorReading(curve('pt1000'), kelvin) as number, 'ohm')).toBeLessThan(0.02);
});

test.each(['ntc-10k-type-2', 'ntc-10k-beta-3435'])('%s: volts of its divider are within 0.25 K at 10 °F apart', (file) => {
  expect(worstBetween(10, divided(file), 'V')).toBeLessThan(0.25);
});

test('a table bends where a figure was read wrong, and no printed table of a sensor does', () => {
  const rows = (table: readonly (readonly [celsius: number, ohm: number])[]) =>
    ofPoints(table.map(([celsius, ohm]) => [`${celsius} °C`, `${ohm} ohm`] as const));
  // As printed above: 10 k type 2, 10 k beta 3435, 15 k at ice to two figures, and platinum.
  const printed = [
    [[-20, 97060], [-10, 55319], [0, 32654], [10, 19903], [20, 12493]],
    [[-40, 188500], [-30, 111300], [-20, 67770], [-10, 42470], [0, 27280], [10, 17960], [20, 12090], [40, 5827]],
    [[0, 15000], [10, 9600], [20, 6300], [30, 4300], [40, 3000]],
    [[-30, 882.2], [-20, 921.6], [0, 1000], [10, 1039.025]],
  ] as const; // prettier-ignore
  for (const table of printed) expect(bentAt(rows(table))).toBeUndefined();
  // Ideal curves, rounded as sheets print them, also in rows a degree or five apart.
  const ideal = (at25: number, beta: number, to: number, step: number) =>
    rows(
      Array.from({ length: 12 }, (_, i): readonly [number, number] => {
        const celsius = -10 + i * step;
        const ohm = at25 * Math.exp(beta * (1 / (celsius + 273.15) - 1 / 298.15));
        return [celsius, Math.round(ohm / to) * to];
      }),
    );
  for (const step of [1, 5, 10])
    for (const [at25, beta, to] of [
      [2252, 3976, 10],
      [2000, 3500, 10],
      [10000, 3435, 100],
    ] as const)
      // prettier-ignore
      expect(bentAt(ideal(at25, beta, to, step)), `${at25} ${step}`).toBeUndefined();
  // Two digits changed places in each figure in turn, as long as the table still falls.
  const [type2] = printed;
  for (const [i, [, ohm]] of type2.entries()) {
    const text = String(ohm);
    const swapped = Number(`${text[1]}${text[0]}${text.slice(2)}`);
    const wrong = type2.map(([celsius, read], k) => [celsius, k === i ? swapped : read] as const);
    const falls = wrong.every(([, read], k) => k === 0 || read < (wrong[k - 1]?.[1] ?? 0));
    if (falls && Math.abs(swapped / ohm - 1) > 0.1) expect(bentAt(rows(wrong)), text).toHaveLength(3);
  }
});
