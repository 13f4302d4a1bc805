/**
 * A food as a store or its chain names it: what it may stand beside, and whether it must be kept cold. A unit's `openings` name foods by id.
 */
import { z } from 'zod';
import { text } from './fields.js';

/** In `openings`: nothing but an empty pan or a bar. */
export const EMPTY = 'empty';

export const foodSchema = z.strictObject({
  name: text,
  /** Raw food that is cooked later stands apart from what is eaten as it is, and below it. */
  class: z.enum(['ready-to-eat', 'raw']),
  /** What it contains that must not get into other food. */
  allergen: text.optional(),
  /** Stands the warmth of the opening nearest the heat. */
  hardy: z.boolean().optional(),
  /** False only for food that is safe at any temperature; what is not said must be kept cold. */
  needs_cold: z.boolean().optional(),
});

export type Food = z.output<typeof foodSchema>;
