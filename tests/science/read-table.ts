/**
 * The published tables as the tests use them, with the units in which handbooks print.
 * The tests parse the YAML plainly; the reading room checks it for people.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { asSensor, sensorSchema } from '../../src/model/tables.js';
import type { Refrigerant } from '../../src/science/saturation.js';
import type { SensorCurve } from '../../src/science/sensor.js';

const tables = 'equipment/tables/';

export const readTable = (path: string): unknown => parse(readFileSync(tables + path, 'utf8'));

/** Of a sensor's file people write temperatures with their unit, so the reading room reads it here too. */
export const sensorCurve = (file: string): SensorCurve => asSensor(sensorSchema.parse(readTable(`sensors/${file}.yaml`)));

export const refrigerants: readonly Refrigerant[] = readdirSync(`${tables}refrigerants`).map(
  (file) => readTable(`refrigerants/${file}`) as Refrigerant,
);

export const refrigerant = (name: string): Refrigerant => refrigerants.find((r) => r.name === name) as Refrigerant;

export * from './people-units.js';
