/**
 * The chain (nightrail.yaml): its name, its look, which papers it prints, and what its stores have in common.
 */
import { z } from 'zod';
import { WEEKDAYS } from '../base/moment.js';
import { id, isoDate, name } from './fields.js';

export const chainSchema = z.strictObject({
  name,
  brand: z.strictObject({
    colour: z.string().regex(/^#[0-9a-f]{6}$/i),
    /** A PNG, JPEG or SVG file below the chain's folder. */
    logo: z.string().min(1).optional(),
    /** TrueType files below the chain's folder, in place of the typeface that nightrail brings: for text, for strong text, for the largest type. */
    fonts: z.strictObject({ regular: z.string().min(1), strong: z.string().min(1), heavy: z.string().min(1) }).optional(),
  }),
  /** Papers to build, by the names of their folders under templates/. */
  papers: z.array(id).min(1),
  week_starts: z.enum(WEEKDAYS),
  /** Until somebody approves the papers, each page says that it is a draft. */
  approved: z.strictObject({ by: z.string().min(1).max(60), from: isoDate }).optional(),
  /** Anything a store may write, for all of them. */
  defaults: z.record(z.string(), z.unknown()).optional(),
});

export type Chain = z.output<typeof chainSchema>;
