/**
 * A store (sites/*.yaml): its hours, its crew, its kitchen, its units and what was found on them.
 * The chain's `defaults` and nightrail's own fill what a store leaves out (model/resolve); what comes from nightrail is shown as assumed.
 */
import { z } from 'zod';
import { measures, type Amount } from '../base/amount.js';
import { WEEKDAYS } from '../base/moment.js';
import { sheetSizes } from '../base/sheet-size.js';
import {
  amountOf,
  clockTime,
  days,
  hours,
  id,
  isoDate,
  name,
  notKnown,
  phone,
  probeError,
  readDays,
  signer,
  text,
  textLike,
  whenByDay,
} from './fields.js';
import { foodSchema } from './food.js';
import { pressureScales, stopsAt } from './profile.js';

const span = z
  .string()
  .meta({ examples: ['02:00-05:00'] })
  .transform((wrote, ctx) => {
    const [from, to] = wrote.split('-').map((part) => clockTime.safeParse(part.trim()));
    if (from?.success && to?.success && wrote.split('-').length === 2) return { from: from.data, to: to.data };
    ctx.addIssue({ code: 'custom', params: { finding: 'bad-span', wrote } });
    return z.NEVER;
  });

/** What was read of a control is at least one of its ends. */
const anEnd = ({ cut_in, cut_out }: { cut_in?: unknown; cut_out?: unknown }, ctx: z.RefinementCtx): void => {
  if (cut_in === undefined && cut_out === undefined) ctx.addIssue({ code: 'custom', params: { finding: 'found-no-end' } });
};

/** What a clock stands at. */
const clockSetting = {
  off: clockTime.optional().describe("When it turns the rail off, on all days: '01:15'. Quote it."),
  on: clockTime.optional().describe("When it turns the rail on, on all days: '08:00'. Quote it."),
  settings: z
    .array(
      z
        .strictObject({
          days: days.optional().describe('The days of the calendar on which it goes off: sun-thu. Without them, all days.'),
          off: clockTime.describe("When it turns the rail off: '01:15'. Quote it."),
          on: clockTime.describe("When it turns the rail on next: '08:00'. Quote it."),
          on_day: z
            .enum(WEEKDAYS)
            .optional()
            .describe('The day on which it turns it on, where days are one and that is neither it nor the next: tue.'),
        })
        .superRefine(({ days: written, off, on, on_day: onDay }, ctx) => {
          if (onDay === undefined) return;
          const days = written === undefined ? [] : readDays(written);
          const finding =
            days.length !== 1 ? 'on-day-of-several' : days[0] === onDay && on <= off ? 'on-day-before-off' : undefined;
          if (finding) ctx.addIssue({ code: 'custom', path: ['on_day'], params: { finding } });
        }),
    )
    .min(1)
    .max(21)
    .optional()
    .describe('Instead of off and on: several stretches, or some for some days.'),
};

const offAndOnOrSettings = (
  { off, on, settings }: { off?: unknown; on?: unknown; settings?: unknown },
  ctx: z.RefinementCtx,
): void => {
  if (settings ? off !== undefined || on !== undefined : off === undefined || on === undefined)
    ctx.addIssue({ code: 'custom', params: { finding: 'found-clock-times' } });
};

const found = z.strictObject({
  when: isoDate.describe('When it was found so, a date: 2026-11-12.'),
  who: signer.describe('Who found it.'),
  clock: z
    .strictObject({
      ...clockSetting,
      override: z
        .enum(['automatic', 'on', 'off'])
        .optional()
        .describe('How its override stood: automatic, held on, or held off.'),
      slow: amountOf('duration')
        .optional()
        .describe('By how much its time of day was behind the true time, in min or h: 40 min.'),
      fast: amountOf('duration')
        .optional()
        .describe('By how much its time of day was ahead of the true time, in min or h: 40 min.'),
      shows: text.optional().describe('What else the clock showed, in words.'),
    })
    .superRefine(offAndOnOrSettings)
    .superRefine(({ slow, fast }, ctx) => {
      if (slow && fast) ctx.addIssue({ code: 'custom', path: ['fast'], params: { finding: 'found-slow-and-fast' } });
    })
    .optional()
    .describe('How its clock was set.'),
  pressure: pressureScales
    .pick({ cut_in: true, cut_out: true })
    .partial()
    .superRefine(anEnd)
    .superRefine(({ cut_in, cut_out }, ctx) => {
      if (!cut_in && cut_out?.q === 'gauge-difference')
        ctx.addIssue({ code: 'custom', path: ['cut_out'], params: { finding: 'found-difference-alone' } });
    })
    .transform(({ cut_in, cut_out }) => ({
      ...(cut_in ? { cut_in } : {}),
      ...(cut_out ? { cut_out: cut_in ? stopsAt(cut_in, cut_out) : (cut_out as Amount<'gauge'>) } : {}),
      as_end: cut_out?.q === 'gauge',
    }))
    .optional()
    .describe('How its low-pressure control was set, as the dial read there; one end alone where only one was read.'),
  control: z
    .record(
      id,
      z
        .strictObject({
          cut_in: amountOf('temperature').optional().describe('Where its thermostat was set to start, in °F or °C.'),
          cut_out: amountOf('temperature').optional().describe('Where its thermostat was set to stop, in °F or °C.'),
        })
        .superRefine(anEnd),
    )
    .optional()
    .describe('How its thermostats were set, by the ids of their zones; one end alone where only one was read.'),
  notes: text.optional().describe('What else was found, in words.'),
});

const unit = z.strictObject({
  profile: id.meta({
    description: 'Which kind of unit it is: the name of its file under equipment, without .yaml.',
    examples: ['prep-table-60'],
  }),
  nickname: textLike('What people call it, plain or by language: Line 1.', 'Line 1'),
  position: textLike('Where it stands, plain or by language: left of the grill.', 'left of the grill'),
  serial: z.string().min(1).max(40).optional().describe('Its serial number, letter by letter as the plate has it.'),
  differs: z
    .record(z.string(), z.unknown())
    .optional()
    .describe('What differs at this unit from its profile, with the same keys: {nameplate: {built: 2019}}.'),
  food_goes_to: z
    .strictObject({
      zone: id.meta({ description: 'The zone that takes it, by its id: base.', examples: ['base'] }),
      unit: id.optional().describe("The unit of that zone, by its id in this store; left out for the rail's own bottom."),
      free_shelf: amountOf('area')
        .optional()
        .describe('How much shelf is free there, in sq ft or m²: 6 sq ft. Left out, nobody has measured it, and check says so.'),
      height: amountOf('length')
        .optional()
        .describe(
          'How high the room over that shelf is, in in or mm: 6 in. Left out, nobody has measured it, and check says so.',
        ),
    })
    .optional()
    .describe("Where the rail's food goes at night, and how much room is there."),
  openings: z
    .array(z.array(id).min(1).max(60))
    .min(1)
    .max(8)
    .meta({ examples: [[['lettuce', 'tomato', 'empty']]] })
    .optional()
    .describe(
      "Foods of the rail's openings by their ids under foods, a list a row: from the left, the front row first; empty for an empty pan or a bar.",
    ),
  backup: textLike(
    "Where its cold food goes when it fails, where that is not the store's own backup: for a walk-in that is itself the backup of the others.",
    'the refrigerators of the shop next door',
  ).optional(),
  heat: z
    .enum(['left', 'right'])
    .optional()
    .describe('The end of the rail that is nearest the heat, seen by whoever works at it: left or right.'),
  found: found.optional().describe('What a technician found before anything was set, and when.'),
  set_by: z
    .strictObject({
      who: signer.describe('Who set them.'),
      when: isoDate.describe('When they were set, a date: 2026-11-20.'),
      clock: z
        .strictObject(clockSetting)
        .superRefine(offAndOnOrSettings)
        .optional()
        .describe(
          "What the clock was set to: {off: '23:00', on: '05:45'}. When the hours change, papers stop saying that it is set.",
        ),
      controls: z
        .boolean()
        .optional()
        .describe('False where the clock alone was set and nobody looked at the controls: then papers say so. True if left out.'),
    })
    .optional()
    .describe('Who set the clock and the controls as these sheets say, and when.'),
});

/** Some years of dates: a year's own are a few dozen at most. */
const MOST_DATES = 500;

export const storeSchema = z.strictObject({
  name: name.describe('The name of the store, printed on every sheet.'),
  region: name.optional().describe('The region that it counts to in reports.'),
  timezone: z
    .string()
    .min(1)
    .max(60)
    .meta({ examples: ['America/Chicago'] })
    .describe('Its time zone by its IANA name: America/Chicago.'),
  hours: hours.describe('Opening hours, like Mo-Th 06:30-22:00; Fr-Sa 06:30-00:30; Su off, or as people write them.'),
  crew: z
    .strictObject({
      comes: whenByDay.describe(
        'When the first person comes: 60 min before opening, or a clock time; or by days, {mon-fri: ..., sat-sun: ...}.',
      ),
      leaves: whenByDay.describe('When the last person leaves: 45 min after closing, or a clock time; or by days.'),
      first_pan: whenByDay.describe('The time by which all pans are in: 30 min before opening, or a clock time; or by days.'),
      closers: z.number().int().min(1).max(20).describe('How many people close and share the work, a plain number: 2.'),
      openers: z.number().int().min(1).max(20).describe('How many people open and share the work, a plain number: 1.'),
      start_before_closing: amountOf('duration').describe('How long before closing emptying may begin, in min: 30 min.'),
    })
    .describe('When people come and leave, and how many there are.'),
  rush: z
    .array(span)
    .min(1)
    .max(6)
    .optional()
    .describe(
      "For defrosts alone: when its boxes are opened most, also for deliveries, ['11:30-13:30', '17:30-20:00']: no defrost is set then.",
    ),
  quiet_window: span.optional().describe("For a store that never closes: when a rail may be empty and off, '02:00-05:00'."),
  exceptions: z
    .array(
      z.strictObject({
        date: isoDate.describe('The date: 2026-12-25.'),
        hours: hours.describe('The opening hours of that date, or off.'),
        why: text.optional().describe('Why, in words: Christmas.'),
      }),
    )
    .max(MOST_DATES)
    .optional()
    .describe("Dates with other hours, beside the chain's; of a date that both list, the store's are taken."),
  holidays: z
    .array(isoDate)
    .max(MOST_DATES)
    .optional()
    .describe(
      "The public holidays on which what `hours` says of PH holds: [2026-11-26, 2026-12-25]. The chain's, unless a store lists its own.",
    ),
  altitude: amountOf('altitude').describe('How high the store lies above the sea, in ft or m: 5280 ft.'),
  kitchen: z
    .strictObject({
      usual: amountOf('temperature').describe('The kitchen on a usual day, in °F or °C: 78 °F.'),
      hottest: amountOf('temperature').describe('The kitchen on the hottest day, in °F or °C: 92 °F.'),
      humidity: amountOf('fraction').describe('Its relative humidity, in %: 50 %.'),
    })
    .describe('What its kitchen is like.'),
  languages: z
    .array(
      z
        .string()
        .regex(/^[a-z]{2}$/)
        .meta({ examples: ['en', 'es'] }),
    )
    .min(1)
    .transform((some) => [...new Set(some)])
    .describe('The languages of its papers, by their two-letter codes: [en, es].'),
  sheet: z
    .enum(sheetSizes)
    .describe(
      'The sheet for its posters, and as far as an office prints it for its other papers too: letter, legal, tabloid, a4 or a3.',
    ),
  measure: z.enum(measures).describe('The units that its papers use: us for °F and psig, si for °C and bar.'),
  clock_shows: z.enum(['24-hour', '12-hour']).describe('How its papers write times: 24-hour, or 12-hour with am and pm.'),
  law: id.describe('The food law that holds there, by the name of its file under equipment/tables/law.'),
  probe_error: probeError.describe('What a probe thermometer may be out by, in °F or °C: 2 °F. The aim is the limit less this.'),
  backup: textLike(
    'Where cold food goes when a unit fails, plain or by language: the walk-in cooler. A place that makes cold by itself, never a chest with ice: food may stay there for days.',
    'the walk-in cooler',
  ),
  phones: z
    .strictObject({
      service: z
        .strictObject({
          name: name.describe('Who repairs its refrigeration.'),
          phone: phone.describe('Their phone number: 555-0142.'),
        })
        .describe('Who repairs its refrigeration, and their number.'),
      emergency: phone.describe("The emergency number, in quotes: '911'."),
      manager: phone.optional().describe("The manager's phone number."),
    })
    .describe('Whom to call.'),
  not_known: notKnown.optional().describe('Facts that somebody still has to find out, by their keys joined by dots: altitude.'),
  foods: z.record(id, foodSchema).optional().describe('Foods by the ids that openings use.'),
  people: z.array(z.string().min(1).max(60)).max(400).optional().describe('Who works here: names, a line each on the sign-off.'),
  training: z
    .strictObject({
      seed: z.string().min(1).max(60).describe('Any word: another one brings another order of questions.'),
      versions: z.number().int().min(1).max(8).describe('How many versions of the question sheet, a plain number from 1 to 8.'),
    })
    .optional()
    .describe('How the question sheets are shuffled.'),
  units: z.record(id, unit).describe('Its units, each by an id of small letters and hyphens: line-1.'),
});

export type Store = z.output<typeof storeSchema>;
export type Unit = Store['units'][string];
export type Found = NonNullable<Unit['found']>;
