/**
 * Published tables that ship as data files: refrigerants, sensor curves and foods. The chain's own equipment/tables may add to them.
 */
import { z } from 'zod';
import type { Food } from '../science/food.js';
import type { Refrigerant } from '../science/saturation.js';
import type { SensorCurve, SensorPoint } from '../science/sensor.js';
import { amountOf, sensorReading, spanOf } from './fields.js';

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

/** A temperature as a person writes it, or kelvins as a plain number. */
const kelvins = z.union([z.number().positive(), amountOf('temperature').transform(({ si }) => si)]);

const ohms = z.union([z.number().positive(), amountOf('resistance').transform(({ si }) => si)]);

const limits = z
  .union([z.tuple([kelvins, kelvins]), spanOf('temperature').transform(({ low, high }): [number, number] => [low.si, high.si])])
  .meta({
    description: 'The coldest and the warmest temperature that the curve is good for: -40 to 140 °F.',
    examples: ['-40 to 140 °F', '-40 to 60 °C'],
  });

const sensorBase = {
  name: z.string().min(1).describe('The name of the curve, printed on the card: 10 k type 2.'),
  source: z.string().min(1).describe("Where the curve is from: the maker's fact sheet, its number and date."),
};

const check = z
  .strictObject({
    at: kelvins.describe('The temperature of the second figure: 32 °F.'),
    reads: ohms.describe('What it reads at that temperature: 9.79 kohm.'),
  })
  .optional()
  .describe('A second figure that its maker gives, to hold the curve against; no curve is made of it.');

const coefficients = {
  a: z.number().describe('The first coefficient, a plain number: 1.129241e-3.'),
  b: z.number().describe('The second coefficient, a plain number: 2.341077e-4.'),
  c: z.number().describe('The third coefficient, a plain number: 8.775468e-8.'),
};

/** Fewer give no shape: two would be a straight line. */
const FEWEST = 3;

/** A row of a table is a temperature and what is read at it; what is wrong with the table is told at its first wrong row. */
const points = z
  .array(z.tuple([amountOf('temperature'), sensorReading]))
  .max(400)
  .describe("The maker's table, coldest or warmest first, a row each: [32 °F, 32.65 kohm], or [32 °F, 1.31 V].")
  .superRefine((rows, ctx) => {
    const tell = (row: number | undefined, finding: string, data: object = {}): void =>
      ctx.addIssue({ code: 'custom', path: row === undefined ? [] : [row], params: { finding, ...data } });
    if (rows.length < FEWEST) return void tell(undefined, 'curve-few', { count: rows.length, least: FEWEST });
    const [[first, read], [second, next]] = rows as [(typeof rows)[0], (typeof rows)[0]];
    const mixed = rows.findIndex(([, { q }]) => q !== read.q);
    if (mixed >= 0) return void tell(mixed, 'curve-mixed', { first: read.q, here: (rows[mixed] as (typeof rows)[0])[1].q });
    const nought = rows.findIndex(([, { si }]) => si <= 0);
    if (nought >= 0) return void tell(nought, 'curve-nought');
    /** The first row that doesn't go on as the first two began. */
    const turns = (of: (row: (typeof rows)[0]) => number, way: number): number =>
      rows.findIndex((row, i) => i > 0 && Math.sign(of(row) - of(rows[i - 1] as (typeof rows)[0])) !== way);
    const order = turns(([{ si }]) => si, Math.sign(second.si - first.si) || 1);
    if (order >= 0) return void tell(order, 'curve-order');
    const turn = turns(([, { si }]) => si, Math.sign(next.si - read.si) || 1);
    if (turn >= 0) tell(turn, 'curve-turns');
  });

export const sensorSchema = z.discriminatedUnion('form', [
  z.strictObject({
    form: z
      .literal('steinhart-hart')
      .describe('The coefficients of Steinhart and Hart: 1/T = a + b ln R + c (ln R)^3, in kelvins and ohms.'),
    ...coefficients,
    limits,
    check,
    ...sensorBase,
  }),
  z.strictObject({
    form: z.literal('beta').describe('One beta: R = resistance exp(beta (1/T - 1/temperature)).'),
    resistance: ohms.describe('What it reads at that temperature: 10 kohm.'),
    temperature: kelvins.describe('The temperature at which it reads that: 25 °C.'),
    beta: z.number().positive().describe('Its beta, in kelvins, a plain number: 3480.'),
    limits,
    check,
    ...sensorBase,
  }),
  z.strictObject({
    form: z.literal('platinum').describe('Platinum by IEC 60751: R = resistance (1 + a t + b t^2 + c (t - 100) t^3), in °C.'),
    resistance: ohms.describe('What it reads at 0 °C: 1000 ohm.'),
    ...coefficients,
    limits,
    check,
    ...sensorBase,
  }),
  z.strictObject({ form: z.literal('points').describe("The maker's table, point by point."), points, ...sensorBase }),
]);

/** A table of points coldest first; of the other forms the physics has the same shape. */
export const asSensor = (read: z.output<typeof sensorSchema>): SensorCurve => {
  if (read.form !== 'points') return read;
  const { name, source, form } = read;
  const rows = read.points
    .map(([temperature, { si }]) => ({ temperature: temperature.si, reads: si }))
    .sort((a, b) => a.temperature - b.temperature);
  const [first, last] = [rows[0], rows.at(-1)] as [SensorPoint, SensorPoint];
  const quantity = (read.points[0] as (typeof read.points)[0])[1].q;
  return { form, name, source, quantity, points: rows, limits: [first.temperature, last.temperature] };
};

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
