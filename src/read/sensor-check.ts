/**
 * A second figure that a sensor's maker gives beside a beta or coefficients, against the curve: both can't be right where they lie apart.
 */
import type { z } from 'zod';
import { amount } from '../base/amount.js';
import { error, warning, type Finding } from '../base/finding.js';
import { within, type Place } from '../base/place.js';
import { asSensor, type sensorSchema } from '../model/tables.js';
import { sensorReading, sensorTemperature, type SensorCurve } from '../science/sensor.js';

/** Under half a degree Fahrenheit lies what rounding a printed figure makes, K. */
const APART = 0.28;

/** Steps in which a curve is walked from its coldest to its warmest. */
const STEPS = 20;
/** A sensor that a meter can follow changes by this part of its reading, at least, over such a walk. Common practice, no source. */
const CHANGES = 0.05;

/** Whether a curve gives figures that a meter could show, ever more or ever less of them from cold to warm. */
const isCurve = (curve: SensorCurve): boolean => {
  const [low, high] = curve.limits;
  const read = Array.from({ length: STEPS + 1 }, (_, i) => sensorReading(curve, low + ((high - low) * i) / STEPS) ?? Number.NaN);
  const [first, last] = [read[0] as number, read.at(-1) as number];
  const way = Math.sign(last - first);
  return (
    read.every((one) => Number.isFinite(one) && one > 0) &&
    read.slice(1).every((one, i) => Math.sign(one - (read[i] as number)) === way) &&
    Math.abs(last - first) > CHANGES * Math.min(first, last)
  );
};

/** @param at where the curve is written */
export const checkCurve = (read: z.output<typeof sensorSchema>, at: Place): readonly Finding[] => {
  if (!isCurve(asSensor(read))) return [error('curve-senseless', at, {})];
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
