/**
 * A store (sites/*.yaml): its hours, its crew, its kitchen, its units and what was found on them.
 * The chain's `defaults` and nightrail's own fill what a store leaves out (model/resolve); what comes from nightrail is shown as assumed.
 */
import { z } from 'zod';
import { sheetSizes } from '../base/sheet-size.js';
import { amountOf, clockTime, days, hours, id, isoDate, name, notKnown, phone, text, whenByDay } from './fields.js';
import { foodSchema } from './food.js';
import { pressureControl } from './profile.js';

const span = z
  .string()
  .meta({ examples: ['02:00-05:00'] })
  .transform((wrote, ctx) => {
    const [from, to] = wrote.split('-').map((part) => clockTime.safeParse(part.trim()));
    if (from?.success && to?.success && wrote.split('-').length === 2) return { from: from.data, to: to.data };
    ctx.addIssue({ code: 'custom', params: { finding: 'bad-span', wrote } });
    return z.NEVER;
  });

const found = z.strictObject({
  when: isoDate,
  who: z.string().min(1).max(60),
  clock: z
    .strictObject({
      /** For all days. */
      off: clockTime.optional(),
      on: clockTime.optional(),
      /** Instead of off and on: several stretches, or some for some days; `days` are those of the calendar on which it goes off. */
      settings: z
        .array(z.strictObject({ days: days.optional(), off: clockTime, on: clockTime }))
        .min(1)
        .max(21)
        .optional(),
      override: z.enum(['automatic', 'on', 'off']).optional(),
      shows: text.optional(),
    })
    .superRefine(({ off, on, settings }, ctx) => {
      if (settings ? off !== undefined || on !== undefined : off === undefined || on === undefined)
        ctx.addIssue({ code: 'custom', params: { finding: 'found-clock-times' } });
    })
    .optional(),
  pressure: pressureControl.pick({ cut_in: true, cut_out: true }).optional(),
  control: z.record(id, z.strictObject({ cut_in: amountOf('temperature'), cut_out: amountOf('temperature') })).optional(),
  notes: text.optional(),
});

const unit = z.strictObject({
  profile: id.meta({ examples: ['prep-table-60'] }),
  nickname: text,
  position: text,
  serial: z.string().min(1).max(40).optional(),
  /** Laid over the profile: only what differs at this unit. */
  differs: z.record(z.string(), z.unknown()).optional(),
  /** Where the rail's food goes at night, and how much shelf is free there. */
  food_goes_to: z
    .strictObject({ zone: id, unit: id.optional(), free_shelf: amountOf('area'), height: amountOf('length') })
    .optional(),
  /** Foods of the rail's openings, a list a row: from the left, the front row first; `empty` for an empty pan or a bar. */
  openings: z
    .array(z.array(id).min(1).max(60))
    .min(1)
    .max(8)
    .meta({ examples: [[['lettuce', 'tomato', 'empty']]] })
    .optional(),
  /** The end of the rail that is nearest the heat, seen by whoever works at it. */
  heat: z.enum(['left', 'right']).optional(),
  found: found.optional(),
  /** Who set the clock and the controls as these sheets say, and when. */
  set_by: z.strictObject({ who: z.string().min(1).max(60), when: isoDate }).optional(),
});

export const storeSchema = z.strictObject({
  name,
  region: name.optional(),
  timezone: z
    .string()
    .min(1)
    .max(60)
    .meta({ examples: ['America/Chicago'] }),
  hours,
  crew: z.strictObject({
    comes: whenByDay,
    leaves: whenByDay,
    first_pan: whenByDay,
    /** People who close, and people who open: they share the work. */
    closers: z.number().int().min(1).max(20),
    openers: z.number().int().min(1).max(20),
    /** Emptying may begin so long before closing. */
    start_before_closing: amountOf('duration'),
  }),
  quiet_window: span.optional(),
  exceptions: z.array(z.strictObject({ date: isoDate, hours, why: text.optional() })).optional(),
  altitude: amountOf('length'),
  kitchen: z.strictObject({ usual: amountOf('temperature'), hottest: amountOf('temperature'), humidity: amountOf('fraction') }),
  languages: z
    .array(
      z
        .string()
        .regex(/^[a-z]{2}$/)
        .meta({ examples: ['en', 'es'] }),
    )
    .min(1),
  sheet: z.enum(sheetSizes),
  measure: z.enum(['us', 'si']),
  clock_shows: z.enum(['24-hour', '12-hour']),
  law: id,
  /** What a probe thermometer may be out by; the aim is the limit less this. */
  probe_error: amountOf('difference'),
  backup: text,
  phones: z.strictObject({ service: z.strictObject({ name, phone }), emergency: phone, manager: phone.optional() }),
  /** Facts by their keys that somebody still has to find out. */
  not_known: notKnown.optional(),
  /** By the id that `openings` use. */
  foods: z.record(id, foodSchema).optional(),
  /** Who works here: names on the sign-off. */
  people: z.array(z.string().min(1).max(60)).max(400).optional(),
  /** Of the question sheets: another seed, another order. */
  training: z.strictObject({ seed: z.string().min(1).max(60), versions: z.number().int().min(1).max(8) }).optional(),
  units: z.record(id, unit),
});

export type Store = z.output<typeof storeSchema>;
export type Unit = Store['units'][string];
export type Found = NonNullable<Unit['found']>;
