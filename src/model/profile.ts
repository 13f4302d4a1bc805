/**
 * An equipment profile (equipment/*.yaml): what one technician knows of a unit, in the trade's own units.
 * Nothing here has a default: what is left out is not known, and the papers leave it out or say so.
 */
import { z } from 'zod';
import { zoneKindNames } from '../trade/zones.js';
import { clockKindNames } from '../trade/clocks.js';
import { strategyNames } from '../trade/strategies.js';
import { LOADING_RULES, ruleCodes, ruleFigures, type RuleCode } from '../trade/rules.js';
import { panSizeNames } from '../trade/pans.js';
import { amountOf, clockStep, id, isoDate, name, notKnown, phone, spanOf, text } from './fields.js';
import type { Amount } from '../base/amount.js';

const circuit = z.strictObject({
  refrigerant: z.string().min(1).max(12),
  charge: amountOf('mass'),
  /** Zones that the circuit cools. */
  serves: z.array(id).min(1),
});

const nameplate = z.strictObject({
  model: name,
  volts: z.number().positive().max(700),
  amps: z.number().positive().max(400),
  hertz: z.union([z.literal(50), z.literal(60)]),
  built: z.number().int().min(1950).max(2100).optional(),
  /** One each; limits on flammable charges are per circuit. */
  circuits: z.array(circuit).min(1),
});

const condensing = z.strictObject({
  power: amountOf('power').optional(),
  place: z.enum(['in-unit', 'remote']),
  feed: z.enum(['expansion-valve', 'capillary']),
  receiver: z.boolean(),
  /** False: a sealed system without service ports. */
  ports: z.boolean(),
  /** Condensing temperature over the temperature of the air entering the condenser, mean of both ends of the glide. */
  split: amountOf('difference').optional(),
  superheat: spanOf('difference').optional(),
  /** Something holds the head pressure up in the cold, so the split doesn't hold then. */
  head_control: z.boolean().optional(),
  /** The nameplate's or data sheet's cooling, at the mean evaporating temperature and the air at the condenser that it is stated for. */
  rating: z
    .strictObject({ capacity: amountOf('cooling'), evaporating: amountOf('temperature'), air: amountOf('temperature') })
    .optional(),
});

/** A pressure control as its dial reads at sea level, unless the store says what was found. */
export const pressureControl = z.strictObject({
  cut_in: amountOf('gauge'),
  cut_out: amountOf('gauge'),
  /** What the dial's zero is: a bellows works against the local atmosphere, a sealed transducer doesn't. */
  reference: z.enum(['atmosphere', 'sealed']),
  /** How the dial is marked: both ends, or the upper end and the difference. */
  dial: z.enum(['cut-in-and-cut-out', 'cut-in-and-difference']),
});

const control = z.strictObject({
  strategy: z.enum(strategyNames),
  pressure: pressureControl.optional(),
  restart_delay: amountOf('duration').optional(),
  /** Name of the sensor's curve (equipment/tables/sensors). */
  sensor: z.string().optional(),
});

const rest = z.strictObject({
  /** The maker's least time off. */
  least: amountOf('duration').optional(),
  /** More than this brings nothing. Without it the computed upper bound stands in. */
  enough: amountOf('duration').optional(),
  /** From switching on to ready for food, and in a hot kitchen. Without it the computed one stands in. */
  pull_down: amountOf('duration').optional(),
  pull_down_hot: z.strictObject({ above: amountOf('temperature'), takes: amountOf('duration') }).optional(),
  clock: z.strictObject({
    kind: z.enum(clockKindNames),
    /** Between two of its settings, where it is not the usual step of its kind. */
    step: clockStep.optional(),
    /** Which way a tripper or pin acts. */
    polarity: z.enum(['out-is-on', 'out-is-off']).optional(),
    /** Its time and its override can be set without a tool, with no box opened and nothing live in reach: then the manager may. Off and on stay a technician's. */
    reachable: z.boolean(),
    /** Stops the rail alone, or also the base or the whole condensing unit (an error). */
    stops: z.array(id).min(1),
    where: text.optional(),
  }),
});

const defrost = z.strictObject({
  by: z.enum(['off-cycle', 'air', 'electric', 'own-controller']),
  every: amountOf('duration').optional(),
  a_day: z.number().int().min(1).max(12).optional(),
  ends_at: amountOf('temperature').optional(),
  at_most: amountOf('duration'),
  drip: amountOf('duration').optional(),
  fan_back: amountOf('temperature').optional(),
});

const zone = z.strictObject({
  kind: z.enum(zoneKindNames),
  name: text.optional(),
  /** What a good day's food reads; the law's limit comes from the store. */
  aim: spanOf('temperature').optional(),
  air: spanOf('temperature').optional(),
  /** What a technician read on a sound, clean unit after hours of steady running, covers open, every opening filled: the physics is fitted to it. */
  measured: z
    .strictObject({
      kitchen: amountOf('temperature'),
      /** Air under the pans, its mean over some cycles. */
      air: amountOf('temperature').optional(),
      /** A probed pan, its mean from top to bottom. */
      food: amountOf('temperature').optional(),
    })
    .optional(),
  /** The empty well that pans hang in, inside. */
  well: z.strictObject({ length: amountOf('length'), width: amountOf('length'), depth: amountOf('length') }).optional(),
  probe: z.strictObject({ where: text, how: text.optional() }),
  control: z
    .strictObject({
      cut_in: amountOf('temperature'),
      cut_out: amountOf('temperature'),
      senses: z.enum(['air', 'return-air', 'coil', 'rail-probe']),
    })
    .optional(),
  pans: z
    .strictObject({
      count: z.number().int().min(1).max(60),
      size: z.enum(panSizeNames),
      depth: amountOf('length'),
      material: z.enum(['steel', 'plastic']),
      /** How far below the rail's top edge food must stay. */
      load_line: amountOf('length'),
    })
    .optional(),
  shelves: z
    .strictObject({
      count: z.number().int().min(1).max(60),
      volume: amountOf('volume').optional(),
      load_line: text.optional(),
    })
    .optional(),
  drawers: z
    .strictObject({
      count: z.number().int().min(1).max(24),
      pans_each: z.number().int().min(1).max(12),
      size: z.enum(panSizeNames),
    })
    .optional(),
  covers: z.strictObject({ night: z.enum(['shut', 'up-to-dry']), slack: z.enum(['shut', 'open']) }).optional(),
  /** Melt water leaves by itself, or somebody wipes it up before the rail restarts. */
  drains: z.enum(['by-itself', 'by-hand']).optional(),
  rest: rest.optional(),
  defrost: defrost.optional(),
  /** How long the move takes one person, each way; without it, so much a pan and so much for wiping (common practice). */
  move: z.strictObject({ empty: amountOf('duration'), load: amountOf('duration') }).optional(),
});

const anAmount = z.string().min(1);
const loading = z
  .union([
    z.enum(ruleCodes),
    z.strictObject({
      rule: z.enum(ruleCodes),
      ...Object.fromEntries(ruleFigures.map((figure) => [figure, anAmount.optional()])),
      note: text.optional(),
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
  name: text,
  /** Sort of unit, in the store's words: "prep table". */
  sort: text,
  maker: z.strictObject({ name, support: phone.optional(), warranty: text.optional() }),
  nameplate,
  condensing,
  control,
  zones: z.record(id, zone),
  loading: z.array(loading).min(1),
  cleaning: z
    .array(z.strictObject({ task: z.enum(CLEANING), every: amountOf('duration'), by: z.enum(['staff', 'technician']) }))
    .optional(),
  display: z.array(z.strictObject({ shows: text, means: text, staff: text.optional() })).optional(),
  looks: z
    .array(z.union([z.enum(LOOKS), z.strictObject({ say: text })]))
    .max(5)
    .optional(),
  notes: z.array(text).optional(),
  /** Facts by their keys that somebody still has to find out. */
  not_known: notKnown.optional(),
  /** Where facts came from: the keys that it covers, who told, when, and how they knew. */
  origins: z
    .array(
      z.strictObject({
        facts: z.array(z.string().min(1)).min(1),
        who: z.string().min(1),
        when: isoDate,
        how: text,
        /** False: taken over from a similar unit, and nobody has checked it on this one. */
        confirmed: z.boolean().optional(),
      }),
    )
    .optional(),
});

export type Profile = z.output<typeof profileSchema>;
export type Zone = Profile['zones'][string];
export type PressureControl = z.output<typeof pressureControl>;
export type Rest = NonNullable<Zone['rest']>;
