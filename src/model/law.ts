/**
 * A food law as a data file (equipment/tables/law): its limits in its own pairs of figures, each with its section and whether anybody checked it.
 */
import { z } from 'zod';
import { amount, type Amount } from '../base/amount.js';
import { text, name } from './fields.js';

const source = {
  section: z.string().min(1),
  /** False: taken from a state's adoption, a guide or memory, and nobody has held it against the text. */
  checked: z.boolean(),
};

/** The law's own figures; neither is ever computed from the other. */
const limit = z.strictObject({ f: z.number().optional(), c: z.number(), ...source }).transform((l) => ({
  section: l.section,
  checked: l.checked,
  at_most: {
    ...amount('temperature', l.c + 273.15),
    printed: { '°C': l.c, ...(l.f === undefined ? {} : { '°F': l.f }) },
  } satisfies Amount<'temperature'>,
}));

export const lawSchema = z.strictObject({
  name,
  /** Who makes it binding, and what a local rule may change. */
  authority: text,
  cold: limit,
  /** Frozen food: a figure where the law gives one; else it only says "kept frozen". */
  frozen: z.strictObject({ ...source, f: z.number().optional(), c: z.number().optional() }),
  /** How long food that a record shows was cold enough may have been over the limit; none: not at all. */
  over_limit: z.strictObject({
    rule: z.enum(['none', 'two-four-hours', 'once-four-hours']),
    ...source,
  }),
  /** Cooling of cooked or warm food. */
  cooling: z
    .strictObject({
      from: z.strictObject({ f: z.number().optional(), c: z.number() }),
      through: z.strictObject({ f: z.number().optional(), c: z.number(), hours: z.number().positive() }).optional(),
      to: z.strictObject({ f: z.number().optional(), c: z.number(), hours: z.number().positive() }),
      ...source,
    })
    .optional(),
  sources: z.array(z.string().min(1)).min(1),
});

export type Law = z.output<typeof lawSchema>;
