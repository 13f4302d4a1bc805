/**
 * Hand-made units and stores for figures: a table by a dial, by a weekday clock, by a hand; a cabinet, drawers, a walk-in.
 */
import { STORE, TABLE } from '../support/chain.js';

const clock = (kind: string): string => TABLE.replace('kind: daily-dial, polarity: out-is-on', `kind: ${kind}`);

/** A late Friday and Saturday, closed on Monday. */
export const LATE = STORE.replace('Mo-Su 07:00-22:00', 'Tu-Th,Su 11:00-22:00; Fr-Sa 11:00-00:30; Mo off');

/** The weekend opens and closes later. */
export const WEEKEND = STORE.replace('Mo-Su 07:00-22:00', 'Mo-Fr 07:00-21:00; Sa-Su 10:00-23:00');

export const BY_DIAL = { 'sites/street.yaml': LATE };
export const BY_WEEKDAY_CLOCK = { 'equipment/table.yaml': clock('weekday-weekend-clock'), 'sites/street.yaml': WEEKEND };
export const BY_SEVEN_DAYS = { 'equipment/table.yaml': clock('seven-day-clock'), 'sites/street.yaml': LATE };
export const BY_HAND = {
  'equipment/table.yaml': clock('hand-switch').replace('drains: by-itself', 'drains: by-hand'),
  'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', 'Mo-Sa 11:00-20:00; Su off\ncrew: { comes: 4 h before opening }'),
};

/** One zone under its own thermostat, in the sort's own form. */
const alone = (zone: string): Readonly<Record<string, string>> => ({
  'equipment/table.yaml': `name: Test unit
sort: cold unit
maker: { name: Test Works }
nameplate: { model: T-2, volts: 115, amps: 4, hertz: 60, circuits: [{ refrigerant: R-290, charge: 4 oz, serves: [box] }] }
condensing: { place: in-unit, feed: capillary, receiver: false, ports: false, split: 25 °F }
control: { strategy: single-zone }
zones:
  box:
    aim: 36 to 39 °F
    air: 34 to 39 °F
    control: { cut_in: 39 °F, cut_out: 34 °F, senses: air }
    probe: { where: top shelf }
${zone}
loading: [no-warm-food]
`,
  'sites/street.yaml': STORE.replace(/ {4}food_goes_to.*\n/, ''),
});

export const REACH_IN = alone('    kind: reach-in\n    shelves: { count: 6, load_line: Below the mark. }');
export const DRAWERS = alone('    kind: drawers\n    drawers: { count: 4, pans_each: 2, size: full }');
export const WALK_IN = alone('    kind: walk-in\n    shelves: { count: 16 }');
export const COOLER = alone('    kind: merchandiser\n    shelves: { count: 5 }');

/** A top whose air comes from the base. */
export const SHARED_AIR = {
  'equipment/table.yaml': TABLE.replace('kind: static-rail', 'kind: forced-air-rail')
    .replace(/ {4}rest:\n(?: {6}.*\n)+/, '')
    .replace('shared-low-pressure', 'one-thermostat')
    .replace(/ {2}pressure: \{.*\n/, ''),
  'sites/street.yaml': STORE,
};
