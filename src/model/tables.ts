/**
 * Published tables that ship as data files: refrigerants, sensor curves and foods. The chain's own equipment/tables may add to them.
 */
import { z } from 'zod';
import type { Food } from '../science/food.js';
import type { Refrigerant } from '../science/saturation.js';
import type { SensorCurve } from '../science/sensor.js';

const curve = z.strictObject({
  pressure: z.tuple([z.number().positive(), z.number().positive()]),
  chebyshev: z.array(z.number()).min(2),
});

export const refrigerantSchema = z.strictObject({
  name: z.string().min(1).max(12),
  composition: z.record(z.string(), z.number().positive().max(1)),
  safety: z.enum(['A1', 'A2L', 'A2', 'A3']),
  critical: z.strictObject({ temperature: z.number().positive(), pressure: z.number().positive() }),
  sources: z.strictObject({ composition: z.string(), safety: z.string(), saturation: z.string() }),
  dew: curve,
  bubble: curve.optional(),
  inlet: curve.optional(),
});

/** The schema and the physics agree on the shape; the compiler holds them together. */
export const asRefrigerant = (read: z.output<typeof refrigerantSchema>): Refrigerant => read as Refrigerant;

const sensorBase = {
  name: z.string().min(1),
  limits: z.tuple([z.number().positive(), z.number().positive()]),
  source: z.string().min(1),
};

export const sensorSchema = z.discriminatedUnion('form', [
  z.strictObject({ form: z.literal('steinhart-hart'), a: z.number(), b: z.number(), c: z.number(), ...sensorBase }),
  z.strictObject({
    form: z.literal('beta'),
    resistance: z.number().positive(),
    temperature: z.number().positive(),
    beta: z.number().positive(),
    ...sensorBase,
  }),
  z.strictObject({
    form: z.literal('platinum'),
    resistance: z.number().positive(),
    a: z.number(),
    b: z.number(),
    c: z.number(),
    ...sensorBase,
  }),
]);

export const asSensor = (read: z.output<typeof sensorSchema>): SensorCurve => read;

const part = z.number().min(0).max(1);

export const foodPropertiesSchema = z.record(
  z.string(),
  z.strictObject({
    composition: z.strictObject({ water: part, protein: part, fat: part, carbohydrate: part, fiber: part, ash: part }),
    porosity: part,
    freezing: z.number().positive(),
    source: z.string().min(1),
  }),
);

export const asFoodProperties = (read: z.output<typeof foodPropertiesSchema>): Readonly<Record<string, Food>> => read;
