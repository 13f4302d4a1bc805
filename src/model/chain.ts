/**
 * The chain (nightrail.yaml): its name, its look, which papers it prints, and what its stores have in common.
 */
import { z } from 'zod';
import { WEEKDAYS } from '../base/moment.js';
import { id, isoDate, LANG, name, signer, text } from './fields.js';

/** Units that a question may be about: names of traits in the plan's `is`. */
export const ASKED_OF = ['rail', 'box', 'timed', 'cold', 'frozen', 'sealed', 'room'] as const;

export const chainSchema = z.strictObject({
  name: name.describe('The name of the chain, printed on every sheet.'),
  brand: z
    .strictObject({
      colour: z
        .string()
        .regex(/^#[0-9a-f]{6}$/i)
        .describe("The chain's colour, six hexadecimal digits in quotes: '#3d3a5c'."),
      logo: z.string().min(1).optional().describe("Its logo, a PNG, JPEG or SVG file below the chain's folder: brand/logo.svg."),
      fonts: z
        .strictObject({
          regular: z.string().min(1).describe('The file for text: brand/regular.ttf.'),
          strong: z.string().min(1).describe('The file for strong text: brand/bold.ttf.'),
          heavy: z.string().min(1).describe('The file for the largest type: brand/black.ttf.'),
        })
        .optional()
        .describe("TrueType files below the chain's folder, in place of the typeface that nightrail brings."),
    })
    .describe('How its pages look.'),
  papers: z
    .array(id)
    .min(1)
    .describe('Papers to build, by the names of their folders under templates: [poster, week, handout, card].'),
  week_starts: z.enum(WEEKDAYS).describe('The day with which a week begins: mon.'),
  approved: z
    .strictObject({
      by: signer.describe('Who approved them.'),
      from: isoDate.describe('From which date they hold: 2026-11-16.'),
      languages: z
        .array(z.string().regex(LANG))
        .min(1)
        .optional()
        .describe(
          'Languages of your own, in words/, in which somebody read and approved them: [pt]. Those that ship are approved with the chain.',
        ),
    })
    .optional()
    .describe('Who approved the papers; until somebody does, each page says that it is a draft.'),
  questions: z
    .array(
      z.strictObject({
        ask: text.describe('The question.'),
        answer: text.describe('Its answer, for the trainer.'),
        of: z.enum(ASKED_OF).optional().describe('Which units it is asked of: rail. Of all units where this is left out.'),
      }),
    )
    .max(6)
    .optional()
    .describe("Questions of the chain's own, asked after those that ship, each with its answer, in every language."),
  defaults: z
    .record(z.string(), z.unknown())
    .optional()
    .describe('Anything that a store may write, for all of them that do not say otherwise.'),
});

export type Chain = z.output<typeof chainSchema>;
