/**
 * An equipment profile (equipment/*.yaml): what one technician knows of a unit, in the trade's own units.
 * Nothing here has a default: what is left out is not known, and the papers leave it out or say so.
 */
import { z } from 'zod';
import { zoneKindNames } from '../trade/zones.js';
import { strategyNames } from '../trade/strategies.js';
import { LOADING_RULES, ruleCodes, ruleFigures, type RuleCode } from '../trade/rules.js';
import { panSizeNames } from '../trade/pans.js';
import {
  amountOf,
  clockStep,
  id,
  isoDate,
  lasting,
  name,
  notKnown,
  phone,
  secondScale,
  spanOf,
  text,
  textLike,
} from './fields.js';
import { rest } from './rest.js';
import { sensorSchema } from './tables.js';
import { amount, type Amount } from '../base/amount.js';

const circuit = z.strictObject({
  refrigerant: z.string().min(1).max(12).describe('The refrigerant that the circuit is charged with, by its number: R-448A.'),
  charge: amountOf('mass').describe('What the circuit is charged with by its plate, in oz, lb, g or kg: 28 oz.'),
  serves: z.array(id).min(1).describe('Ids of the zones that the circuit cools, as they stand under zones.'),
});

const nameplate = z.strictObject({
  model: name.describe('The model, letter by letter as the plate has it.'),
  volts: z.number().positive().max(700).optional().describe('Volts on the plate, a plain number: 115.'),
  amps: z.number().positive().max(400).optional().describe('Amperes on the plate, a plain number: 8.5.'),
  hertz: z
    .union([z.literal(50), z.literal(60)])
    .optional()
    .describe('Hertz on the plate: 50 or 60.'),
  built: z.number().int().min(1950).max(2100).optional().describe('The year in which it was built, four digits.'),
  circuits: z
    .array(circuit)
    .min(1)
    .describe('One entry for each refrigerant circuit: limits on a flammable charge hold for each by itself.'),
});

const condensing = z.strictObject({
  power: amountOf('power').optional().describe('Power of the condensing unit, in hp, W or kW: 1/2 hp.'),
  place: z.enum(['in-unit', 'remote']).describe('Where the condensing unit stands: in the unit, or remote from it.'),
  feed: z
    .enum(['expansion-valve', 'capillary'])
    .describe('What feeds liquid to the coil: an expansion valve or a capillary tube.'),
  receiver: z.boolean().describe('Whether it has a liquid receiver: true or false.'),
  ports: z.boolean().describe('Whether it has service ports: true, or false for a sealed system.'),
  split: amountOf('difference')
    .optional()
    .describe(
      'Condensing temperature over the air that enters the condenser, steady and near set point, the mean of both ends of the glide, in °F or °C: 27 °F.',
    ),
  superheat: spanOf('difference').optional().describe("Superheat at the coil's outlet, from and to, in °F or °C: 6 to 10 °F."),
  head_control: z
    .boolean()
    .optional()
    .describe('Whether something holds the head pressure up in the cold, so that the split does not hold then: true or false.'),
  rating: z
    .strictObject({
      capacity: amountOf('cooling').describe('The cooling that is stated, in BTU/h, W or kW: 3000 BTU/h.'),
      evaporating: amountOf('temperature').describe('The mean evaporating temperature for which it is stated, in °F or °C.'),
      air: amountOf('temperature').describe('The air entering the condenser for which it is stated, in °F or °C.'),
    })
    .optional()
    .describe("The nameplate's or data sheet's cooling, with the two temperatures for which it is stated."),
});

/** The scales of a pressure control, as they read at sea level, unless the store says what was found. */
export const pressureScales = z.strictObject({
  cut_in: amountOf('gauge').describe(
    'The pressure at which it starts, as its dial reads at sea level, in psig, bar(g) or inHg: 46 psig.',
  ),
  cut_out: secondScale.describe(
    'The pressure at which it stops, as its dial reads at sea level, in psig, bar(g) or inHg: 28 psig. Where its second scale is the difference, that, in psi or bar: 18 psi.',
  ),
  reference: z
    .enum(['atmosphere', 'sealed'])
    .describe(
      "What the dial's zero is: atmosphere for a bellows, which works against the air around it, sealed for a transducer.",
    ),
  dial: z
    .enum(['cut-in-and-cut-out', 'cut-in-and-difference'])
    .describe('How the dial is marked: with both ends, or with the upper end and the difference.'),
});

/** Where it stops, whichever way that was written. */
export const stopsAt = (starts: Amount<'gauge'>, second: Amount<'gauge' | 'gauge-difference'>): Amount<'gauge'> =>
  second.q === 'gauge' ? (second as Amount<'gauge'>) : amount('gauge', starts.si - second.si);

export const pressureControl = pressureScales
  .superRefine(({ cut_out, dial }, ctx) => {
    if (cut_out.q === 'gauge-difference' && dial === 'cut-in-and-cut-out')
      ctx.addIssue({ code: 'custom', path: ['cut_out'], params: { finding: 'no-difference-scale' } });
  })
  /** `as_end`: what it was written with is where it stops, whatever its scale shows. */
  .transform((scales) => ({ ...scales, as_end: scales.cut_out.q === 'gauge', cut_out: stopsAt(scales.cut_in, scales.cut_out) }));

const control = z.strictObject({
  strategy: z
    .enum(strategyNames)
    .describe(
      'How the controls share the work: one low-pressure control for both zones, a thermostat and a solenoid for each, one thermostat, a circuit for each, a single zone, or pump-down.',
    ),
  pressure: pressureControl.optional().describe('The low-pressure control, if there is one that somebody can set.'),
  pressure_switch: z
    .strictObject({
      cut_in: amountOf('gauge').describe(
        'The pressure at which it lets the compressor start again, in psig, bar(g) or inHg: 25 psig.',
      ),
      cut_out: amountOf('gauge').describe('The pressure at which it stops the compressor, in psig, bar(g) or inHg: 5 psig.'),
    })
    .optional()
    .describe('A low-pressure switch that its maker fixed, as a safety: the card tells its figures, and never to set them.'),
  restart_delay: amountOf('duration').optional().describe('How long it waits before it starts again, in s, min or h: 3 min.'),
  sensor: z
    .union([z.string(), sensorSchema])
    .meta({ examples: ['ntc-10k-type-2'] })
    .optional()
    .describe(
      "The curve of its temperature sensor: the name of a file under equipment/tables/sensors, ntc-10k-type-2, or the curve itself, as its maker's table of points.",
    ),
});

const defrost = z.strictObject({
  by: z
    .enum(['off-cycle', 'air', 'electric', 'own-controller'])
    .describe('What clears the coil: an off-cycle, air, electric heat, or its own controller.'),
  every: lasting.optional().describe('How often, in h: 6 h.'),
  a_day: z.number().int().min(1).max(12).optional().describe('How many times a day, a plain number.'),
  step: clockStep
    .optional()
    .describe(
      "What lies between two starts that its clock can be set to, in whole minutes that divide the day: 15 min. Left out where its times can't be set.",
    ),
  ends_at: amountOf('temperature').optional().describe('The coil temperature that ends it, in °F or °C.'),
  at_most: lasting.describe('The longest that it lasts, in min or h: 30 min.'),
  drip: amountOf('duration').optional().describe('How long it drips before cold comes back, in min.'),
  fan_back: amountOf('temperature').optional().describe('The coil temperature at which the fan starts again, in °F or °C.'),
});

const zone = z.strictObject({
  kind: z
    .enum(zoneKindNames)
    .describe(
      'The kind of zone. Only a static-rail, which has no fan, rests for hours, empty; a rail that shares the air of its base or has its own fan coil rests otherwise; all others are closed boxes.',
    ),
  name: text.optional().describe('What people at the store call it, plain or by language: Top.'),
  aim: spanOf('temperature')
    .optional()
    .describe("What a good day's food reads, from and to, in °F or °C: 36 to 38 °F. The law's limit comes from the store."),
  air: spanOf('temperature').optional().describe('Its air, under the pans of a rail, from and to, in °F or °C: 16 to 20 °F.'),
  measured: z
    .strictObject({
      kitchen: amountOf('temperature').describe('The kitchen in which it was read, in °F or °C.'),
      air: amountOf('temperature').optional().describe('Air under the pans, its mean over some cycles, in °F or °C.'),
      food: amountOf('temperature').optional().describe('A probed pan, its mean from top to bottom, in °F or °C.'),
    })
    .optional()
    .describe(
      'What was read on a sound, clean unit after hours of steady running, covers open, every opening filled: the physics is fitted to it.',
    ),
  well: z
    .strictObject({
      length: amountOf('length').describe('Its length, in in, ft or mm.'),
      width: amountOf('length').describe('Its width, in in, ft or mm.'),
      depth: amountOf('length').describe('Its depth, in in, ft or mm.'),
    })
    .optional()
    .describe('The empty well that pans hang in, measured inside.'),
  probe: z
    .strictObject({
      where: textLike('Where its food is warmest, in words: there it is probed.', 'top shelf, right'),
      how: text.optional().describe('How it is probed, in words.'),
    })
    .describe('Where and how its food is probed.'),
  control: z
    .strictObject({
      cut_in: amountOf('temperature').describe('The temperature at which its thermostat starts, in °F or °C: 37 °F.'),
      cut_out: amountOf('temperature').describe('The temperature at which its thermostat stops, in °F or °C: 33 °F.'),
      senses: z
        .enum(['air', 'return-air', 'coil', 'rail-probe'])
        .describe("What the thermostat's sensor is in: air, return air, the coil, or the rail's probe."),
    })
    .optional()
    .describe('Its thermostat, if it has one.'),
  pans: z
    .strictObject({
      count: z.number().int().min(1).max(60).describe('How many pans hang in it, a plain number: 16.'),
      size: z.enum(panSizeNames).describe('The size of the pans, a part of a full pan or a GN size: sixth, gn-1-6.'),
      depth: amountOf('length').describe('How deep the pans are, in in or mm: 4 in.'),
      material: z.enum(['steel', 'plastic']).describe('What the pans are made of: steel or plastic.'),
      load_line: amountOf('length')
        .optional()
        .describe(
          "How far below the rail's top edge food must stay, in in or mm: 1 in. Nobody knows it yet? Leave it out and list it under not_known.",
        ),
    })
    .optional()
    .describe('The pans of a rail.'),
  shelves: z
    .strictObject({
      count: z.number().int().min(1).max(60).describe('How many shelves or slides it has, a plain number: 4.'),
      volume: amountOf('volume').optional().describe('How much it holds, in cu ft or L: 16 cu ft.'),
      load_line: text.optional().describe('How far it may be filled, in words.'),
    })
    .optional()
    .describe('The shelves of a box.'),
  drawers: z
    .strictObject({
      count: z.number().int().min(1).max(24).describe('How many drawers it has, a plain number.'),
      pans_each: z.number().int().min(1).max(12).describe('How many pans each drawer holds, a plain number.'),
      size: z.enum(panSizeNames).describe('The size of the pans, a part of a full pan or a GN size: third, gn-1-3.'),
    })
    .optional()
    .describe('The drawers of a base.'),
  covers: z
    .strictObject({
      night: z
        .enum(['shut', 'up-to-dry', 'none'])
        .describe('How its covers stand at night over the empty top: shut, or up to dry; none for a top that has none.'),
      slack: z
        .enum(['shut', 'open', 'none'])
        .describe('How its covers stand between rushes: shut, or open; none for a top that has none.'),
    })
    .optional()
    .describe('How the covers of a rail stand.'),
  drains: z
    .enum(['by-itself', 'by-hand'])
    .optional()
    .describe('How melt water leaves: by itself, or by hand, where somebody wipes it up before the rail comes on.'),
  rest: rest.optional().describe('The nightly rest of a static rail, and the clock that makes it.'),
  defrost: defrost.optional().describe('How its coil is cleared of frost with the food in.'),
  move: z
    .strictObject({
      empty: lasting.describe('How long emptying takes one person, in min: 20 min.'),
      load: lasting.describe('How long loading takes one person, in min: 15 min.'),
    })
    .optional()
    .describe('How long moving the food takes one person each way, where it is not so much a pan and so much for wiping.'),
});

const FIGURES: Readonly<Record<string, string>> = {
  distance: 'How far, in in, ft or mm: 3 in. Rules that keep a distance need it.',
  weight: 'How much at most, in lb or kg: 20 lb. Rules about weight need it.',
  wait: 'How long, in min or h: 30 min. Rules that let people wait need it.',
};
const anAmount = z.string().min(1);
const loading = z
  .union([
    z.enum(ruleCodes),
    z.strictObject({
      rule: z.enum(ruleCodes).describe('The rule, by its code.'),
      ...Object.fromEntries(ruleFigures.map((figure) => [figure, anAmount.optional().describe(FIGURES[figure] ?? '')])),
      note: text.optional().describe('What else to say of the rule at this kind of unit, in words.'),
    }),
  ])
  .transform((wrote, ctx) => {
    const given: { rule: RuleCode; [figure: string]: unknown } = typeof wrote === 'string' ? { rule: wrote } : wrote;
    const figures: Record<string, Amount> = {};
    for (const [figure, quantity] of Object.entries(LOADING_RULES[given.rule].needs)) {
      const read = amountOf(quantity).safeParse(given[figure]);
      if (read.success) figures[figure] = read.data;
      else
        ctx.addIssue({
          code: 'custom',
          path: given[figure] === undefined ? [] : [figure],
          params: { finding: 'rule-needs', rule: given.rule, figure },
        });
    }
    return {
      rule: given.rule,
      figures,
      ...(given['note'] === undefined ? {} : { note: given['note'] as z.output<typeof text> }),
    };
  });

export const CLEANING = [
  'condenser',
  'gaskets',
  'rail-and-board',
  'drain',
  'inside',
  'fans',
  'shelves',
  'strip-curtain',
  'heat-shield',
] as const;
export const LOOKS = [
  'plugged-in',
  'doors-shut',
  'covers-shut',
  'grille-clear',
  'no-warm-food',
  'clock-right',
  'no-ice',
  'lights-on',
] as const;

export const profileSchema = z.strictObject({
  name: textLike('What papers call this kind of unit, plain or by language: Prep table 60.', 'Prep table 60'),
  sort: textLike("What sort of unit it is, in the store's words, plain or by language: prep table.", 'prep table'),
  maker: z
    .strictObject({
      name: name.describe('Who made it.'),
      support: phone.optional().describe("The maker's phone number for technicians: 555-0117."),
      warranty: text.optional().describe('What the warranty covers and until when, in words.'),
    })
    .describe('Who made it, and whom to ask.'),
  nameplate: nameplate.describe('What its plate says.'),
  condensing: condensing.describe('The machine: what makes the cold.'),
  control: control.describe('What starts and stops the compressor.'),
  zones: z.record(id, zone).describe('Where food lies, each zone by an id of small letters and hyphens: rail, base.'),
  loading: z
    .array(loading)
    .min(1)
    .optional()
    .transform((rules) => rules ?? [])
    .describe(
      'The loading rules that hold for it, each by its code, or as {rule: ..., distance: ...} where it needs a figure or a note. Nobody knows them yet? Leave it out and list loading under not_known.',
    ),
  cleaning: z
    .array(
      z.strictObject({
        task: z.enum(CLEANING).describe('What is cleaned.'),
        every: lasting.describe('How often, in days, weeks or months: 1 week.'),
        by: z.enum(['staff', 'technician']).describe('Who does it: staff or a technician.'),
      }),
    )
    .optional()
    .describe('Who cleans what, and how often.'),
  display: z
    .array(
      z.strictObject({
        shows: textLike('What the display shows, as people read it: fault 31.', 'fault 31'),
        means: textLike('What it means, in words.', 'the coil sensor is open'),
        staff: text.optional().describe('What staff do then, in words.'),
      }),
    )
    .optional()
    .describe('What its display may show.'),
  looks: z
    .array(
      z.union([
        z.enum(LOOKS),
        z.strictObject({ say: textLike('What to look at, in words of your own.', 'Is the drain plugged?') }),
      ]),
    )
    .max(5)
    .optional()
    .describe('What staff look at before they call, in order, five at most: codes, or {say: ...}.'),
  notes: z.array(text).optional().describe('What else a technician should know, in sentences, for the service card.'),
  not_known: notKnown
    .optional()
    .describe(
      'Facts that somebody still has to find out, by their keys joined by dots: condensing.split. A setting that stands here is never printed.',
    ),
  origins: z
    .array(
      z.strictObject({
        facts: z
          .array(z.string().min(1))
          .min(1)
          .describe(
            'Keys of the facts that it covers, joined by dots, without the numbers of lists: zones.rail.rest. The closest key counts.',
          ),
        who: z.string().min(1).describe('Who told it: a name and a job.'),
        when: isoDate.describe('When it was told, a date: 2026-09-14.'),
        how: textLike('How they knew, in words: read from the plate.', 'read from the plate'),
        confirmed: z
          .boolean()
          .optional()
          .describe('False for what was taken over from a similar unit and nobody has checked on this one: the card marks it.'),
      }),
    )
    .optional()
    .describe('Where the facts came from.'),
});

export type Profile = z.output<typeof profileSchema>;
export type Zone = Profile['zones'][string];
export type PressureControl = z.output<typeof pressureControl>;
export type Rest = NonNullable<Zone['rest']>;
