/**
 * The temperature sensor's check for the card: what it reads in stirred ice, and a small table.
 */
import { amount, of, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { verbatim } from '../base/value.js';
import type { ReadUnit, Shelf } from '../read/shelf.js';
import { icePoint, sensorTable } from '../science/sensor.js';
import { computed, practice, written } from './known.js';

/** Temperatures that a technician meets: freezer, rail, ice, limit, kitchen. */
const TABLE = [0, 14, 32, 41, 50, 77].map((f) => of(f, '°F').si);

const ohms = (si: number, from: readonly Known<unknown>[], rule: string): Known<Amount<'resistance'>> =>
  computed(amount('resistance', si), rule, from);

export const sensorFacts = (shelf: Shelf, unit: ReadUnit) => {
  const name = unit.profile.control.sensor;
  const filed = name === undefined ? undefined : shelf.sensors.get(name);
  if (!filed) return undefined;
  const curve = written(verbatim(filed.value.name), { ...unit.originOf('control', 'sensor'), at: filed.at });
  // Of the sensor and of the bath together. Common practice, no source.
  const tolerance = practice<Amount<'difference'>>(of(1, 'Δ°F'), 'ice-tolerance');
  const ice = icePoint(filed.value, tolerance.value.si);
  const from = [curve, tolerance];
  return {
    curve,
    tolerance,
    ice: ice && {
      expected: ohms(ice.expected, [curve], 'sensor-in-ice'),
      least: ohms(ice.least, from, 'sensor-in-ice'),
      most: ohms(ice.most, from, 'sensor-in-ice'),
    },
    table: sensorTable(filed.value, TABLE).map((point) => {
      const temperature = practice(amount('temperature', point.temperature), 'sensor-table-temperature');
      return { temperature, resistance: ohms(point.resistance, [curve, temperature], 'sensor-curve') };
    }),
  };
};
