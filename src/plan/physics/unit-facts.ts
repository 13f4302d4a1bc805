/**
 * From a profile to what the physics asks of a technician: temperatures read, sizes, nameplate, dials. What a profile leaves out and common
 * practice can give is a leaf like any other; where practice can't, the unit is not modelled and what is missing is named.
 */
import { amount, fromSI, of, type Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import { flag, span, term, type Flag, type SpanValue, type Term } from '../../base/value.js';
import type { Profile, Zone } from '../../model/profile.js';
import type { ReadUnit, Shelf } from '../../read/shelf.js';
import { loadLineOf } from '../../read/unknown.js';
import type {
  ForcedAirBox,
  LowPressure,
  PansFacts,
  Thermostat,
  UnitFacts,
  Zone as ModelZone,
} from '../../science/cabinet/facts.js';
import { foodMaterial, type Material } from '../../science/food.js';
import type { Well } from '../../science/frost.js';
import { evaporatingAt } from '../../science/pressure-control.js';
import { PAN_SIZES, panRows } from '../../trade/pans.js';
import { STRATEGIES } from '../../trade/strategies.js';
import { isRail, ZONE_KINDS } from '../../trade/zones.js';
import { computed, practice, written } from '../known.js';
import type { Climate } from './climate.js';

type Temperature = Known<Amount<'temperature'>>;

/** Where nobody says in which kitchen the targets hold. Common practice, no source; a cool one, so that warmer kitchens are told warm. */
const FITTED_IN = of(75, '°F');
const FITTED_HUMIDITY = 0.5;
/** A motor's W to W of cooling, at 10 °F mean evaporating and 90 °F air. Common practice, no source. */
const COOLING_BY_POWER = 2;
const RATED = { evaporating: of(10, '°F'), air: of(90, '°F') };
/** W of a small evaporator fan; s of a restart delay that nobody wrote. Common practice, no source. */
const FAN = 10;
const DELAY = 180;
/** A pan is narrower inside than over its rims by this, m; a well is deeper than its pans by this. From memory. */
const RIMS = 0.02;
const UNDER_PANS = 0.05;
/** What the food is counted as: dense and wet, so that it warms slowest of what stands in a rail, and other food is warmer sooner. */
export const FOOD = 'tuna-salad';
const FOOD_AT = 278.15;
/** Pans in a box: a full-size one on each shelf, filled this deep, m. Common practice, no source. */
const SHELF_FOOD = 0.0762;

/** What the model of a unit rests on, as leaves for the card. */
export interface Assumptions {
  readonly kitchen: Temperature;
  /** Somebody read it there; else it is taken to be that kitchen in which the targets hold. */
  readonly read_there: Known<Flag>;
  readonly air: Temperature | undefined;
  readonly food: Temperature | undefined;
  readonly cooling: Known<Amount<'cooling'>>;
  readonly evaporating: Temperature;
  readonly at_air: Temperature;
  readonly counted_as: Known<Term>;
  /** What the figures above were worked out from. */
  readonly power: Known<Amount<'power'>> | undefined;
  readonly air_read: Temperature | undefined;
  readonly air_target: Known<SpanValue> | undefined;
  readonly food_read: Temperature | undefined;
  readonly food_target: Known<SpanValue> | undefined;
}

/** One condensing unit, and which of its zones is the open rail and which the box under it, by index. Plain numbers: equal ones are equal units. */
export interface Machine {
  readonly facts: UnitFacts;
  readonly rail: number | undefined;
  readonly box: number | undefined;
}

export interface Modelled {
  readonly machine: Machine;
  /** Ids of the zones, by index. */
  readonly zones: readonly string[];
  readonly tree: Assumptions;
}

/** Keys of the profile without which there is no model. */
export interface NotModelled {
  readonly missing: readonly string[];
}

/** W, printed to two figures: a rule of thumb knows no more. */
const roughly = (si: number): Amount<'cooling'> => ({
  ...amount('cooling', si),
  printed: { W: twoFigures(si), 'BTU/h': twoFigures(fromSI('BTU/h', si)) },
});
const twoFigures = (n: number): number => Number(n.toPrecision(2));

const middle = ({ low, high }: { readonly low: Amount; readonly high: Amount }): number => (low.si + high.si) / 2;

type From = (...path: string[]) => Parameters<typeof written>[1];

interface ReadOrAimed {
  readonly value: Temperature;
  readonly read?: Temperature;
  readonly aimed?: Known<SpanValue>;
}

/**
 * What was read, or the middle of what is aimed at; with both, for the plan to hold: a reading wins. Air that a rail shares with the box is
 * colder than the box's only while the coil works: of that the warm end is taken.
 */
const readOrAimed = (zone: Zone, what: 'air' | 'food', from: From): ReadOrAimed | undefined => {
  const found = zone.measured?.[what];
  const key = what === 'air' ? 'air' : 'aim';
  const target = zone[key];
  const read = found && written(found, from('measured', what));
  const aimed = target && written(span(target), from(key));
  if (read && aimed) return { value: computed(read.value, 'reading-wins', [read, aimed]), read, aimed };
  if (read) return { value: read };
  if (!target || !aimed) return undefined;
  const warm = what === 'air' && ZONE_KINDS[zone.kind].cooled === 'shared-air';
  const value = amount('temperature', warm ? target.high.si : middle(target));
  return { value: computed(value, warm ? 'warm-end-of-target' : 'middle-of-target', [aimed]), aimed };
};

const pansOf = (pans: NonNullable<Zone['pans']>, food: Material): PansFacts => {
  const size = PAN_SIZES[pans.size];
  return {
    count: pans.count,
    pan: { length: size.length - RIMS, width: size.width - RIMS, depth: pans.depth.si - loadLineOf(pans).si },
    food,
  };
};

const wellOf = ({ well }: Zone, pans: NonNullable<Zone['pans']>): Well => {
  const size = PAN_SIZES[pans.size];
  const rows = panRows(pans.size, pans.count);
  return {
    length: well?.length.si ?? Math.max(...rows) * size.width,
    width: well?.width.si ?? rows.length * size.length,
    depth: well?.depth.si ?? pans.depth.si + UNDER_PANS,
    rims: pans.count * 2 * (size.length + size.width),
    unfilled: 0,
  };
};

const thermostatOf = ({ control }: Zone): Thermostat | undefined =>
  control && control.senses !== 'coil' ? { cutIn: control.cut_in.si, cutOut: control.cut_out.si } : undefined;

const defrostOf = ({ defrost }: Zone): Pick<ForcedAirBox, 'defrost'> =>
  defrost
    ? { defrost: { heater: 0, ends: defrost.ends_at?.si ?? of(40, '°F').si, longest: defrost.at_most.si, drip: 0, fanBack: 0 } }
    : {};

const boxOf = (name: string, zone: Zone, food: Material, metric: boolean): ForcedAirBox | string => {
  const thermostat = thermostatOf(zone);
  const volume = zone.shelves?.volume;
  if (!thermostat) return 'control';
  if (!volume) return 'shelves.volume';
  const size = PAN_SIZES[metric ? 'gn-1-1' : 'full'];
  return {
    name,
    cooled: 'forced-air',
    thermostat,
    volume: volume.si,
    fan: FAN,
    pans: {
      count: zone.shelves?.count ?? 1,
      pan: { length: size.length - RIMS, width: size.width - RIMS, depth: SHELF_FOOD },
      food,
    },
    ...defrostOf(zone),
  };
};

/** Mean coil temperatures that the dial was made for, at sea level: at the store it is set so that they stay. */
const lowPressureOf = (shelf: Shelf, profile: Profile): LowPressure | undefined => {
  const r = shelf.refrigerants.get(profile.nameplate.circuits[0]?.refrigerant ?? '')?.value;
  const dial = profile.control.pressure;
  if (!r || !dial) return undefined;
  const at = (gauge: number) => evaporatingAt(r, gauge, { reference: dial.reference, altitude: 0 })?.mean;
  const [cutIn, cutOut] = [at(dial.cut_in.si), at(dial.cut_out.si)];
  return cutIn === undefined || cutOut === undefined ? undefined : { cutIn, cutOut };
};

interface Circuit {
  readonly zones: readonly (readonly [id: string, zone: Zone])[];
  /** Part of the motor's power. */
  readonly share: number;
}

/** Circuits that cool for themselves; most units have one. */
const circuitsOf = (profile: Profile): readonly Circuit[] => {
  const zones = Object.entries(profile.zones);
  if (!STRATEGIES[profile.control.strategy].ownCircuits) return [{ zones, share: 1 }];
  const { circuits } = profile.nameplate;
  return circuits.map(({ serves }) => ({ zones: zones.filter(([id]) => serves.includes(id)), share: 1 / circuits.length }));
};

const modelCircuit = (shelf: Shelf, unit: ReadUnit, climate: Climate, circuit: Circuit): Modelled | NotModelled => {
  const { profile } = unit;
  const from = (...path: string[]) => unit.originOf(...path);
  const missing: string[] = [];
  const need = <T>(value: T | undefined, ...path: string[]): T | undefined => {
    if (value === undefined) missing.push(path.join('.'));
    return value;
  };
  const properties = shelf.foodProperties.get(FOOD)?.value;
  const food = need(properties && foodMaterial(properties, FOOD_AT), 'equipment/tables/foods', FOOD);
  const railIndex = circuit.zones.findIndex(([, zone]) => isRail(ZONE_KINDS[zone.kind]));
  const [railId, rail] = circuit.zones[railIndex] ?? [];
  // A top without covers is open all day and all night: the model knows none.
  if (rail?.covers?.night === 'none') missing.push(`zones.${railId}.covers`);
  const boxIndex = circuit.zones.findIndex(([, zone]) => ZONE_KINDS[zone.kind].cooled === 'boxed');
  const { rating, power } = profile.condensing;
  const motor = power && written(power, from('condensing', 'power'));
  const cooling = rating
    ? written(rating.capacity, from('condensing', 'rating', 'capacity'))
    : motor &&
      computed<Amount<'cooling'>>(roughly(motor.value.si * COOLING_BY_POWER * circuit.share), 'cooling-by-power', [motor]);
  need(cooling, 'condensing', 'power');
  const at = (key: 'evaporating' | 'air'): Temperature =>
    rating
      ? written(rating[key], from('condensing', 'rating', key))
      : practice<Amount<'temperature'>>(RATED[key], 'rating-point');
  const origin =
    (id: string): From =>
    (...path) =>
      from('zones', id, ...path);
  const measured = circuit.zones.find(([, zone]) => zone.measured);
  const kitchen: Temperature = measured?.[1].measured
    ? written(measured[1].measured.kitchen, from('zones', measured[0], 'measured', 'kitchen'))
    : practice<Amount<'temperature'>>(FITTED_IN, 'targets-hold-in');
  const known = (what: 'air' | 'food') => (rail && railId !== undefined ? readOrAimed(rail, what, origin(railId)) : undefined);
  const [air, probed] = [known('air'), known('food')];

  const linked = STRATEGIES[profile.control.strategy].pressureControl === 'temperature';
  const metric = rail?.pans?.size.startsWith('gn-') === true;
  const zones = circuit.zones.map(([id, zone]): ModelZone | undefined => {
    if (!food) return undefined;
    const kind = ZONE_KINDS[zone.kind];
    if (kind.cooled === 'boxed') {
      const box = boxOf(id, zone, food, metric);
      return typeof box === 'string' ? void need(undefined, 'zones', id, box) : box;
    }
    const pans = need(zone.pans, 'zones', id, 'pans');
    const foodTemperature = need(probed, 'zones', id, 'aim')?.value.value.si;
    if (!pans || foodTemperature === undefined) return undefined;
    const thermostat = thermostatOf(zone);
    const common = { name: id, well: wellOf(zone, pans), pans: pansOf(pans, food), foodTemperature };
    if (kind.cooled === 'fan-rail') {
      const control = need(thermostat, 'zones', id, 'control');
      return control && { ...common, cooled: 'fan-rail', thermostat: control, fan: FAN };
    }
    const under = need(air, 'zones', id, 'air')?.value.value.si;
    if (under === undefined) return undefined;
    if (kind.cooled === 'shared-air') return { ...common, cooled: 'shared-air', from: boxIndex, air: under };
    const own = linked ? undefined : need(thermostat, 'zones', id, 'control');
    return {
      ...common,
      cooled: 'static',
      air: under,
      drains: zone.drains !== 'by-hand',
      ...(own ? { thermostat: own } : {}),
    };
  });
  const lowPressure = linked ? need(lowPressureOf(shelf, profile), 'control', 'pressure') : undefined;
  const complete = zones.filter((zone) => zone !== undefined);
  if (missing.length > 0 || complete.length !== zones.length || !cooling || zones.length < 1 || zones.length > 3)
    return { missing };
  const evaporating = at('evaporating');
  const atAir = at('air');
  const facts: UnitFacts = {
    kitchen: { temperature: kitchen.value.si, humidity: FITTED_HUMIDITY, pressure: climate.usual.pressure },
    rating: { capacity: cooling.value.si, evaporating: evaporating.value.si, ambient: atAir.value.si },
    ...(lowPressure ? { lowPressure } : {}),
    restartDelay: profile.control.restart_delay?.si ?? DELAY,
    zones: complete,
  };
  return {
    machine: { facts, rail: railIndex < 0 ? undefined : railIndex, box: boxIndex < 0 ? undefined : boxIndex },
    zones: circuit.zones.map(([id]) => id),
    tree: {
      kitchen,
      read_there: practice(flag(measured !== undefined), 'trait'),
      air: air?.value,
      food: probed?.value,
      cooling,
      evaporating,
      at_air: atAir,
      counted_as: practice<Term>(term('model-food'), 'counted-as-dense-food'),
      power: motor,
      air_read: air?.read,
      air_target: air?.aimed,
      food_read: probed?.read,
      food_target: probed?.aimed,
    },
  };
};

/** The circuits of a unit that are modelled: those that hold cold food. */
export const unitFacts = (shelf: Shelf, unit: ReadUnit, climate: Climate): readonly (Modelled | NotModelled)[] =>
  circuitsOf(unit.profile)
    .filter(({ zones }) => zones.length > 0 && zones.every(([, zone]) => ZONE_KINDS[zone.kind].holds === 'cold'))
    .map((circuit) => modelCircuit(shelf, unit, climate, circuit));

export const isModelled = (one: Modelled | NotModelled): one is Modelled => 'machine' in one;
