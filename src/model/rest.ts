/**
 * The nightly rest of a static rail, and the clock that makes it, as a profile writes them.
 */
import { z } from 'zod';
import { CLOCK_KINDS, clockKindNames, hasPrograms } from '../trade/clocks.js';
import { amountOf, clockStep, id, lasting, text } from './fields.js';

const PROGRAMMED = clockKindNames.filter((kind) => hasPrograms(CLOCK_KINDS[kind]));

export const rest = z.strictObject({
  least: lasting.optional().describe("The maker's least time off each night, in h or min: 5 h. Never under 4 h."),
  enough: lasting
    .optional()
    .describe('The time off beyond which more brings nothing, in h or min: 7 h. Without it the computed upper bound stands in.'),
  pull_down: lasting
    .optional()
    .describe('From switching on to ready for food, in min or h: 60 min. Without it the computed one stands in.'),
  pull_down_hot: z
    .strictObject({
      above: amountOf('temperature').describe('The kitchen from which it holds, in °F or °C: 86 °F.'),
      takes: lasting.describe('How long it takes then, in min or h: 90 min.'),
    })
    .optional()
    .describe('The same in a hot kitchen, where it takes longer.'),
  clock: z
    .strictObject({
      kind: z.enum(clockKindNames).describe('The kind of clock, or the hand switch, that turns it off and on.'),
      step: clockStep
        .optional()
        .describe(
          'What lies between two of its settings, where it is not the usual step of its kind, in whole minutes that divide the day: 30 min.',
        ),
      programs: z
        .number()
        .int()
        .min(1)
        .max(50)
        .optional()
        .describe(
          'How many programs it can keep, where each is an off and an on time with the days that it is for, a plain number: 4. Left out where each day can have its own.',
        ),
      polarity: z
        .enum(['out-is-on', 'out-is-off'])
        .optional()
        .describe('Which way a tripper or pin acts: pushed out it is on, or off.'),
      reachable: z
        .boolean()
        .optional()
        .describe(
          'True only if its time and its override can be set without a tool, with no box opened and nothing live in reach: then papers let the manager set these two.',
        ),
      follows_dst: z
        .boolean()
        .optional()
        .describe(
          'True only if it goes to summer time and back by itself. Left out, papers take it that it does not, and order somebody to set it twice a year.',
        ),
      stops: z
        .array(id)
        .min(1)
        .describe('Ids of the zones that it stops: the rail alone. A clock that also stops the base is an error.'),
      where: text.optional().describe('Where it is, in words: behind the right side panel.'),
    })
    .superRefine(({ kind, programs }, ctx) => {
      if (programs !== undefined && !hasPrograms(CLOCK_KINDS[kind]))
        ctx.addIssue({ code: 'custom', path: ['programs'], params: { finding: 'clock-without-programs', kinds: PROGRAMMED } });
    })
    .describe('What turns the rail off and on.'),
});
