/**
 * A food as a store or its chain names it: what it may stand beside, and whether it must be kept cold. A unit's `openings` name foods by id.
 */
import { z } from 'zod';
import { text, textLike } from './fields.js';

/** In `openings`: nothing but an empty pan or a bar. */
export const EMPTY = 'empty';

export const foodSchema = z
  .strictObject({
    name: textLike('What it is called, plain or by language: Lettuce.', 'Lettuce'),
    class: z
      .enum(['ready-to-eat', 'raw'])
      .describe('Whether it is eaten as it is, or raw: raw food stands apart from what is eaten as it is, and below it.'),
    allergen: text.optional().describe('What it contains that must not get into other food: milk.'),
    hardy: z.boolean().optional().describe('Whether it stands the warmth of the opening nearest the heat: true or false.'),
    needs_cold: z
      .boolean()
      .optional()
      .describe('False only for food that is safe at any temperature; what is not said must be kept cold.'),
  })
  .superRefine((food, ctx) => {
    if (food.class === 'raw' && food.needs_cold === false)
      ctx.addIssue({ code: 'custom', path: ['needs_cold'], params: { finding: 'raw-needs-cold' } });
  });

export type Food = z.output<typeof foodSchema>;
