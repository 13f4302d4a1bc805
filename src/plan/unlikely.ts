/**
 * Figures of a profile and a store that no kitchen's unit has: a slip of the unit or of a nought, which a page would print as if it were so. They are told,
 * and used. What units have: common practice, no source; the bounds are wide on purpose.
 */
import { amount, of, type Amount } from '../base/amount.js';
import { warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';

/** Degrees Fahrenheit of a difference. */
const degrees = (fahrenheit: number): Amount<'difference'> => amount('difference', fahrenheit / 1.8);

type Bounds = readonly [low: Amount, high: Amount];

const BOUNDS = {
  split: [degrees(5), degrees(60)],
  superheat: [degrees(1), degrees(45)],
  restart_delay: [of(10, 's'), of(20, 'min')],
  charge: [of(0.5, 'oz'), of(10, 'lb')],
  remote_charge: [of(2, 'oz'), of(100, 'lb')],
  band: [degrees(0.5), degrees(25)],
  thermostat: [of(-45, '°F'), of(60, '°F')],
  distance: [of(0.25, 'in'), of(10, 'ft')],
  weight: [of(1, 'lb'), of(5000, 'lb')],
  wait: [of(1, 'min'), of(6, 'h')],
  every_defrost: [of(1, 'h'), of(48, 'h')],
  defrost: [of(1, 'min'), of(2, 'h')],
  drip: [of(10, 's'), of(30, 'min')],
  fan_back: [of(-20, '°F'), of(60, '°F')],
  least: [of(30, 'min'), of(20, 'h')],
  pull_down: [of(5, 'min'), of(8, 'h')],
  cleaning: [of(1, 'h'), of(24000, 'h')],
  move: [of(2, 'min'), of(3, 'h')],
  load_line: [of(0.1, 'in'), of(6, 'in')],
  humidity: [of(5, '%'), of(100, '%')],
  altitude: [of(-1500, 'Δft'), of(15000, 'Δft')],
  height: [of(1, 'in'), of(12, 'ft')],
  shelf: [of(0.1, 'sq ft'), of(300, 'sq ft')],
} as const satisfies Record<string, Bounds>;

/** Power that a plate's volts and amperes stand for, over that of its compressor: heaters and fans are on it too. Common practice, no source. */
const POWER_RATIO = [0.8, 10] as const;

/** Amperes of another decimal place. */
const unlikelyAmps = ({ profile: { nameplate, condensing }, originOf }: ReadUnit): readonly Finding[] => {
  const { volts, amps } = nameplate;
  const { power } = condensing;
  if (volts === undefined || amps === undefined || power === undefined || condensing.place === 'remote') return [];
  const ratio = (volts * amps) / power.si;
  if (ratio >= POWER_RATIO[0] && ratio <= POWER_RATIO[1]) return [];
  return [warning('amps-unlikely', originOf('nameplate', 'amps').at, { amps: amount('current', amps), power })];
};

/** A value that somebody wrote, what it is, and where. */
type Written = readonly [kind: keyof typeof BOUNDS, value: Amount | undefined, at: Place];

const tell = (written: readonly Written[]): readonly Finding[] =>
  written.flatMap(([kind, value, at]) => {
    const [low, high] = BOUNDS[kind];
    const slack = 1e-6 * high.si;
    const fits = value === undefined || (value.si >= low.si - slack && value.si <= high.si + slack);
    return fits ? [] : [warning('figure-unlikely', at, { figure: value, low, high })];
  });

export const unlikelyOfStore = ({ store, originOf }: ReadStore): readonly Finding[] =>
  tell([
    ['humidity', store.kitchen.humidity, originOf('kitchen', 'humidity').at],
    ['altitude', store.altitude, originOf('altitude').at],
  ]);

export const unlikelyOfUnit = (one: ReadUnit, read: ReadStore): readonly Finding[] => {
  const { id, unit, profile, originOf } = one;
  const at = (...path: (string | number)[]): Place => originOf(...path).at;
  const here = (...path: string[]): Place => read.originOf('units', id, ...path).at;
  const { condensing, control, nameplate } = profile;
  const written = tell([
    ['split', condensing.split, at('condensing', 'split')],
    ['superheat', condensing.superheat?.low, at('condensing', 'superheat')],
    ['superheat', condensing.superheat?.high, at('condensing', 'superheat')],
    ['restart_delay', control.restart_delay, at('control', 'restart_delay')],
    ...nameplate.circuits.map((circuit, i): Written => [
      condensing.place === 'remote' ? 'remote_charge' : 'charge',
      circuit.charge,
      at('nameplate', 'circuits', i, 'charge'),
    ]),
    ...Object.entries(profile.zones).flatMap(([zone, { control: own, defrost, move, pans, rest }]): readonly Written[] => {
      const inZone = (...path: string[]): Place => at('zones', zone, ...path);
      const band = own && own.cut_in.si > own.cut_out.si ? amount('difference', own.cut_in.si - own.cut_out.si) : undefined;
      return [
        ['thermostat', own?.cut_out, inZone('control', 'cut_out')],
        ['thermostat', own?.cut_in, inZone('control', 'cut_in')],
        ['band', band, inZone('control')],
        ['every_defrost', defrost?.every, inZone('defrost', 'every')],
        // A rail's own controller rests its coil for hours.
        ['defrost', defrost?.by === 'own-controller' ? undefined : defrost?.at_most, inZone('defrost', 'at_most')],
        ['drip', defrost?.drip, inZone('defrost', 'drip')],
        ['fan_back', defrost?.fan_back, inZone('defrost', 'fan_back')],
        ['move', move?.empty, inZone('move', 'empty')],
        ['move', move?.load, inZone('move', 'load')],
        ['load_line', pans?.load_line, inZone('pans', 'load_line')],
        ['least', rest?.least, inZone('rest', 'least')],
        ['pull_down', rest?.pull_down, inZone('rest', 'pull_down')],
        ['pull_down', rest?.pull_down_hot?.takes, inZone('rest', 'pull_down_hot', 'takes')],
      ];
    }),
    ...profile.loading.flatMap(({ figures }, i) =>
      (['distance', 'weight', 'wait'] as const).map((kind): Written => [kind, figures[kind], at('loading', i)]),
    ),
    ...(profile.cleaning ?? []).map(({ every }, i): Written => ['cleaning', every, at('cleaning', i, 'every')]),
    ['height', unit.food_goes_to?.height, here('food_goes_to', 'height')],
    ['shelf', unit.food_goes_to?.free_shelf, here('food_goes_to', 'free_shelf')],
  ]);
  return [...written, ...unlikelyAmps(one)];
};
