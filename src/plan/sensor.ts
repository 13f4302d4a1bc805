/**
 * The temperature sensor's check for the card: what it reads in stirred ice, and a small table.
 */
import { amount, of, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { error, warning, type Finding } from '../base/finding.js';
import { suggestion } from '../base/spelling.js';
import { flag, verbatim } from '../base/value.js';
import { asSensor } from '../model/tables.js';
import type { Filed, ReadUnit, Shelf } from '../read/shelf.js';
import { bentAt, icePoint, sensorQuantity, sensorTable, type SensorCurve } from '../science/sensor.js';
import { computed, practice, written } from './known.js';

/** Temperatures that a technician meets: freezer, rail, ice, limit, kitchen. */
const TABLE = [0, 14, 32, 41, 50, 77].map((f) => of(f, '°F').si);

/**
 * Points of a table further apart than this leave too much to what lies between them, K. For ohms 20 °F (between them within 0.04 K of
 * Steinhart and Hart), for volts 10 °F (within 0.25 K of a divider): measured by tests/outside/sensor.test.ts.
 */
const APART = { resistance: 20 / 1.8, voltage: 10 / 1.8 } as const;

/** The unit's sensor: a file of that name, or what its profile says itself. */
const sensorOf = (shelf: Shelf, { profile, originOf }: ReadUnit): Filed<SensorCurve> | undefined => {
  const { sensor } = profile.control;
  return typeof sensor === 'object'
    ? { value: asSensor(sensor), at: originOf('control', 'sensor').at }
    : shelf.sensors.get(sensor ?? '');
};

export const sensorFacts = (shelf: Shelf, unit: ReadUnit) => {
  const filed = sensorOf(shelf, unit);
  if (!filed) return undefined;
  const q = sensorQuantity(filed.value);
  const reads = (si: number, from: readonly Known<unknown>[], rule: string): Known<Amount<'resistance' | 'voltage'>> =>
    computed(amount(q, si), rule, from);
  const curve = written(verbatim(filed.value.name), { ...unit.originOf('control', 'sensor'), at: filed.at });
  // Of the sensor and of the bath together. Common practice, no source.
  const tolerance = practice<Amount<'difference'>>(of(1, 'Δ°F'), 'ice-tolerance');
  const ice = icePoint(filed.value, tolerance.value.si);
  const from = [curve, tolerance];
  return {
    curve,
    tolerance,
    /** It is read in volts, at work; ohms are read of an unplugged one. */
    volts: practice(flag(q === 'voltage'), 'trait'),
    ice: ice && {
      expected: reads(ice.expected, [curve], 'sensor-in-ice'),
      least: reads(ice.least, from, 'sensor-in-ice'),
      most: reads(ice.most, from, 'sensor-in-ice'),
    },
    table: sensorTable(filed.value, TABLE).map((point) => {
      const temperature = practice(amount('temperature', point.temperature), 'sensor-table-temperature');
      return { temperature, reads: reads(point.reads, [curve, temperature], 'sensor-curve') };
    }),
  };
};

/** A name that no file has, a table with a gap, in which no figure is the maker's, or one with a row that was read wrong. */
export const checkSensor = (shelf: Shelf, unit: ReadUnit): readonly Finding[] => {
  const { sensor } = unit.profile.control;
  const at = unit.originOf('control', 'sensor').at;
  if (typeof sensor === 'string' && !shelf.sensors.has(sensor))
    return [error('unknown-sensor', at, { wrote: sensor, ...suggestion(sensor, [...shelf.sensors.keys()]) })];
  const curve = sensorOf(shelf, unit)?.value;
  if (curve?.form !== 'points') return [];
  const most = APART[curve.quantity] + 1e-6;
  const wide = curve.points.findIndex(
    ({ temperature }, i) => temperature - (curve.points[i - 1]?.temperature ?? temperature) > most,
  );
  const [cold, warm] = [curve.points[wide - 1], curve.points[wide]];
  const temperatureOf = ({ temperature }: { readonly temperature: number }): Amount => amount('temperature', temperature);
  const [low, middle, high] = bentAt(curve)?.map(temperatureOf) ?? [];
  return [
    ...(cold && warm
      ? [warning('curve-apart', at, { low: temperatureOf(cold), high: temperatureOf(warm), most: amount('difference', most) })]
      : []),
    ...(low && middle && high ? [warning('curve-bent', at, { low, middle, high })] : []),
  ];
};
