/**
 * A food law as a data file (equipment/tables/law): its limits in its own pairs of figures, each with its section and whether anybody checked it.
 */
import { z } from 'zod';
import { amount, type Amount } from '../base/amount.js';
import { refuse, text, name } from './fields.js';

const source = {
  section: z.string().min(1),
  /** False: taken from a state's adoption, a guide or memory, and nobody has held it against the text. */
  checked: z.boolean(),
};

/** A temperature as a law prints it, in °C and, where it gives that, in °F; neither is ever computed from the other. */
export const lawTemperature = ({ f, c }: { readonly f?: number | undefined; readonly c: number }) =>
  ({
    ...amount('temperature', c + 273.15),
    printed: { '°C': c, ...(f === undefined ? {} : { '°F': f }) },
  }) satisfies Amount<'temperature'>;

/** No law lets cold food be warmer than this, °C: the warmest limit that nightrail knows is 8 °C. Common practice, no source. */
const WARMEST = 10;
/** A law's two figures are each other's within its rounding, K. */
const ROUNDING = 1;

const closeBy = (l: { readonly f?: number | undefined; readonly c?: number | undefined }, ctx: z.RefinementCtx): void => {
  const { f, c } = l;
  if (f !== undefined && c !== undefined && Math.abs((f - 32) / 1.8 - c) > ROUNDING)
    refuse(ctx, { finding: 'law-figures-apart', wrote: `${f} °F`, other: `${c} °C` });
};

/** The law's own figures; one that is far from the other is a slip. */
const limit = z.strictObject({ f: z.number().optional(), c: z.number(), ...source }).transform((l, ctx) => {
  const { c, section, checked } = l;
  if (c > WARMEST || c < 0) return refuse(ctx, { finding: 'law-limit', wrote: `${c} °C`, most: `${WARMEST} °C` });
  closeBy(l, ctx);
  return { section, checked, at_most: lawTemperature(l) };
});

/** A stage of a law's cooling in its own figures. */
const stage = { f: z.number().optional(), c: z.number().min(0).max(100) };
const within = z.number().min(0.5).max(24);
export const lawSchema = z.strictObject({
  name,
  /** Who makes it binding, and what a local rule may change. */
  authority: text,
  cold: limit,
  /** Frozen food: a figure where the law gives one; else it only says "kept frozen". */
  frozen: z.strictObject({ ...source, f: z.number().max(32).optional(), c: z.number().max(0).optional() }).superRefine(closeBy),
  /** How long food that a record shows was cold enough may have been over the limit; none: not at all. */
  over_limit: z.strictObject({
    rule: z.enum(['none', 'two-four-hours', 'once-four-hours']),
    ...source,
  }),
  /** Cooling of cooked or warm food. */
  cooling: z
    .strictObject({
      from: z.strictObject(stage).superRefine(closeBy),
      through: z
        .strictObject({ ...stage, hours: within })
        .superRefine(closeBy)
        .optional(),
      to: z.strictObject({ ...stage, hours: within }).superRefine(closeBy),
      ...source,
    })
    .optional(),
  sources: z.array(z.string().min(1)).min(1),
});

export type Law = z.output<typeof lawSchema>;
