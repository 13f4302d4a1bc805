/**
 * Where a zone's air settles in a kitchen that doesn't change: the figure that calibration compares with what was read.
 */
import type { MoistAir } from '../moist-air.js';
import type { UnitModel, ZoneModel } from './model.js';
import { runCabinet } from './run.js';

const HOURS = 3600;

/** Mean air of a zone over six hours, after two hours of running in, K. Throws for a kitchen that no run accepts. */
export const settledAir = (m: UnitModel, kitchen: MoistAir, zone: number): number => {
  const run = runCabinet(m, { kitchen, start: 'settled', duration: 8 * HOURS, every: 60, events: [] });
  if (run === undefined) throw new RangeError('settledAir: kitchen out of range');
  const air = run.zones[zone]?.air ?? [(m.zones[zone] as ZoneModel).usual];
  const later = air.slice(Math.floor(air.length / 4));
  return later.reduce((a, b) => a + b, 0) / later.length;
};
