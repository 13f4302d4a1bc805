/**
 * The published tables as the tests use them, with the units in which handbooks print.
 * The tests parse the YAML plainly; the reading room checks it for people.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Refrigerant } from '../../src/science/saturation.js';

const tables = 'equipment/tables/';

export const readTable = (path: string): unknown => parse(readFileSync(tables + path, 'utf8'));

export const refrigerants: readonly Refrigerant[] = readdirSync(`${tables}refrigerants`).map(
  (file) => readTable(`refrigerants/${file}`) as Refrigerant,
);

export const refrigerant = (name: string): Refrigerant => refrigerants.find((r) => r.name === name) as Refrigerant;

export * from './people-units.js';
