/** Sensor curves against printed tables. */
import { expect, test } from 'vitest';
import { sensorResistance, sensorTemperature, type SensorCurve } from '../../src/science/sensor.js';
import { readTable } from '../science/read-table.js';

const curve = (file: string): SensorCurve => readTable(`sensors/${file}.yaml`) as SensorCurve;

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
    expect(Math.abs((sensorResistance(curve('ntc-15k-at-ice'), celsius + 273.15) ?? NaN) - ohm)).toBeLessThan(60);
  }
});

test('Pt1000: a printed table by IEC 60751', () => {
  const table = [[-30, 882.2], [-20, 921.6], [0, 1000], [5, 1019.527], [10, 1039.025]] as const; // prettier-ignore
  expect(worst('pt1000', table)).toBeLessThan(0.02);
});

test('5 k: about 16 kohm at the ice point (common practice, no source)', () => {
  expect(Math.abs((sensorResistance(curve('ntc-5k'), 273.15) ?? NaN) - 16000)).toBeLessThan(500);
});

test.each([
  ['ntc-10k-type-2', 96999, 55301, 32650, 25394],
  ['ntc-5k', 48491, 27650, 16326, 12698],
  ['ntc-10k-type-3', 78930, 47549, 29490, 23462],
])('%s at -20, -10, 0 and 5 °C, computed elsewhere from the same coefficients', (file, ...ohms) => {
  [-20, -10, 0, 5].forEach((celsius, i) => {
    expect(Math.abs((sensorResistance(curve(file), celsius + 273.15) ?? NaN) / (ohms[i] as number) - 1)).toBeLessThan(1e-4);
  });
});

test('a 5 k sensor in ice read on the 15 k curve shows -1.8 °C', () => {
  const ohm = sensorResistance(curve('ntc-5k'), 273.15) as number;
  expect(Math.abs((sensorTemperature(curve('ntc-15k-at-ice'), ohm) ?? NaN) - 271.35)).toBeLessThan(0.1);
});
