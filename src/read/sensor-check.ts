/**
 * A second figure that a sensor's maker gives beside a beta or coefficients, against the curve: both can't be right where they lie apart.
 */
import type { z } from 'zod';
import { amount } from '../base/amount.js';
import { warning, type Finding } from '../base/finding.js';
import { within, type Place } from '../base/place.js';
import { asSensor, type sensorSchema } from '../model/tables.js';
import { sensorTemperature } from '../science/sensor.js';

/** Under half a degree Fahrenheit lies what rounding a printed figure makes, K. */
const APART = 0.28;

/** @param at where the curve is written */
export const checkCurve = (read: z.output<typeof sensorSchema>, at: Place): readonly Finding[] => {
  if (read.form === 'points' || !read.check) return [];
  const { at: told, reads } = read.check;
  const by = sensorTemperature({ ...asSensor(read), limits: [1, 1e4] }, reads);
  if (by !== undefined && Math.abs(by - told) <= APART) return [];
  const data = {
    reads: amount('resistance', reads),
    at: amount('temperature', told),
    ...(by === undefined ? {} : { by: amount('temperature', by), apart: amount('difference', Math.abs(by - told)) }),
  };
  // The one beta that goes through both of the maker's figures.
  const beta =
    read.form === 'beta' && told !== read.temperature
      ? Math.log(reads / read.resistance) / (1 / told - 1 / read.temperature)
      : Number.NaN;
  return [
    warning('sensor-check-apart', within(at, 'check'), { ...data, ...(beta > 0 ? { beta: String(Math.round(beta)) } : {}) }),
  ];
};
