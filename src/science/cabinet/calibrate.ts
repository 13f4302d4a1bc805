/**
 * From what a technician can know to conductances: films that give the food temperature that was probed, coils that carry the rating at the
 * evaporating temperature that was read, and a liner that gives the air that was read under the pans.
 */
import { airTakenIn, emptyWellConductance, linerArea } from '../frost.js';
import { airDensity } from '../moist-air.js';
import { CABINET_WALL } from '../surroundings.js';
import type { FanRail, ForcedAirBox, PansFacts, Rail, SharedAirRail, StaticRail, UnitFacts, Zone } from './facts.js';
import { capacityAt, capacityLine, fanFlow, type LoadModel, type UnitModel, type ZoneModel } from './model.js';
import { loadOf, middleOf, panFilm, railAir, wellHeat, wellWall } from './pans-in-rail.js';
import { settledAir } from './settle.js';
import { inKitchen } from './state.js';

/** Why facts contradict each other or physics; `zone` is the index of the zone they belong to. */
export type CalibrationFault =
  /** The kitchen is outside the equations of moist air, or outside -20 to 60 °C. */
  | 'kitchen-out-of-range'
  /** A length, volume, count, or property of food that no unit has (under 0.0001 or over 100 000 in SI). */
  | 'size-not-possible'
  /** Food colder than its air could keep it under an open top, or warmer than the kitchen. */
  | 'food-does-not-fit-air'
  /** Air colder than, or as cold as, the refrigerant or the supply air that is to cool it. */
  | 'air-too-cold'
  /** Thermostat, low-pressure control or rating the wrong way round or not positive. */
  | 'controls-contradict';

export type Calibration =
  | { readonly ok: true; readonly model: UnitModel }
  | { readonly ok: false; readonly fault: CalibrationFault; readonly zone: number };

/** Air over evaporating where no gauge tells, K: 25 °F for a liner, 20 °F for a coil with a fan. Common practice, no source. */
const DIFFERENCE = { static: 14, 'forced-air': 11 } as const;
/** Refrigerant to a liner's metal at the rating, K. Common practice, no source. */
const TUBE_TO_LINER = 5;
/** Part of a coil's resistance on the refrigerant's side. Common practice, no source. */
const INSIDE_COIL = 1 / 3;
/**
 * J/K: of a m² of liner with its tubing, and with the bars and frame over it; of a coil, a W/K; of a m² of pan; of a m³ of box.
 * From usual thicknesses of steel, no source.
 */
const MASS = { liner: 8000, frame: 5000, coil: 60, pan: 2800, box: 25000 } as const;
/** W/(m² K) over a coil's fins, and the frost that chokes them: 2.5 mm at 250 kg/m³. Common practice, no source. */
const FIN_FILM = 30;
const CHOKING = 0.0025 * 250;
/** Outer faces of a box over a face of a cube of its volume. Common practice, no source. */
const BOX_OUTSIDE = 1.3 * 6;

const outsideOfBox = (volume: number): number => BOX_OUTSIDE * volume ** (2 / 3);

/** kg/s of kitchen air that door openings bring: half of the box's air each time. Common practice, no source. */
export const doorExchange = (volume: number, openingsAnHour: number, density: number): number =>
  (0.5 * volume * density * openingsAnHour) / 3600;

/**
 * Root of a rising function by false position, within `tolerance` of its value; undefined where it has none between. An end that stays twice
 * counts half (the Illinois variant), or it would hold the root back.
 */
const falsePosition = (f: (x: number) => number, from: number, to: number, tolerance: number): number | undefined => {
  let [a, b, fa, fb] = [from, to, f(from), f(to)];
  if (!(fa < 0 && fb > 0)) return undefined;
  let last = 0;
  for (let i = 0; i < 40; i += 1) {
    const x = (a * fb - b * fa) / (fb - fa);
    const fx = f(x);
    if (Math.abs(fx) < tolerance) return x;
    const stays = fx * last > 0 ? 0.5 : 1;
    if (fx < 0) [a, fa, fb] = [x, fx, fb * stays];
    else [b, fb, fa] = [x, fx, fa * stays];
    last = fx;
  }
  return (a + b) / 2;
};

/** Outside faces of the metal of all pans, m². */
const panMetal = ({ count, pan }: PansFacts): number =>
  count * (pan.length * pan.width + 2 * (pan.length + pan.width) * pan.depth);

const wellParts = (rail: Rail, facts: UnitFacts, exchange: number) => ({
  name: rail.name,
  usual: railAir(rail),
  air: MASS.pan * panMetal(rail.pans) + MASS.frame * rail.well.length * rail.well.width,
  wall: wellWall(rail),
  exchange,
  empty: {
    up: emptyWellConductance(rail.well, facts.kitchen, 'up').likely,
    down: emptyWellConductance(rail.well, facts.kitchen, 'down').likely,
  },
});

const staticZone = (rail: StaticRail, facts: UnitFacts, exchange: number, air: number): ZoneModel | undefined => {
  const difference = rail.evaporating === undefined ? DIFFERENCE.static : air - rail.evaporating;
  const refrigerant = facts.rating.capacity / TUBE_TO_LINER;
  const heat = capacityAt(capacityLine(facts.rating, facts.kitchen.temperature), air - difference);
  const resistance = difference / heat - 1 / refrigerant;
  if (!(resistance > 0) || !Number.isFinite(resistance)) return undefined;
  return {
    ...wellParts(rail, facts, exchange),
    thermostat: rail.thermostat,
    defrost: undefined,
    cooled: 'static',
    from: -1,
    feeds: -1,
    coil: MASS.liner * linerArea(rail.well),
    refrigerant,
    film: 1 / resistance,
    frostArea: linerArea(rail.well),
    choke: Infinity,
    fan: 0,
    drains: rail.drains,
  };
};

const boxParts = ({ name, volume }: ForcedAirBox, usual: number) => ({
  name,
  usual,
  air: MASS.box * volume,
  wall: CABINET_WALL * outsideOfBox(volume),
  exchange: 0,
  empty: { up: 0, down: 0 },
});

/** A zone with a coil and a fan: what holds the air is a box or a well. */
const fanZone = (zone: ForcedAirBox | FanRail, facts: UnitFacts, exchange: number): ZoneModel | undefined => {
  const air = middleOf(zone.thermostat);
  const difference = zone.evaporating === undefined ? DIFFERENCE['forced-air'] : air - zone.evaporating;
  const conductance = capacityAt(capacityLine(facts.rating, facts.kitchen.temperature), air - difference) / difference;
  if (!(conductance > 0) || !Number.isFinite(conductance)) return undefined;
  const film = conductance / (1 - INSIDE_COIL);
  return {
    ...(zone.cooled === 'fan-rail' ? wellParts(zone, facts, exchange) : boxParts(zone, air)),
    cooled: 'forced-air',
    from: -1,
    feeds: facts.zones.findIndex((z) => z.cooled === 'shared-air' && facts.zones[z.from] === zone),
    thermostat: zone.thermostat,
    defrost: zone.defrost,
    coil: MASS.coil * conductance,
    refrigerant: conductance / INSIDE_COIL,
    film,
    frostArea: film / FIN_FILM,
    choke: (film / FIN_FILM) * CHOKING,
    fan: zone.fan,
    drains: true,
  };
};

const sharedZone = (
  rail: SharedAirRail,
  facts: UnitFacts,
  exchange: number,
  load: LoadModel,
  source: ZoneModel,
): ZoneModel | undefined => {
  if (!source.thermostat) return undefined;
  const { temperature } = facts.kitchen;
  const boxAir = middleOf(source.thermostat);
  const heat = wellHeat(rail, load, exchange, temperature);
  const carried = heat + source.wall * (temperature - boxAir) + source.fan;
  const link = heat / (rail.air - (boxAir - carried / fanFlow(source.film)));
  if (!(link > 0 && link <= fanFlow(source.film))) return undefined;
  return {
    ...wellParts(rail, facts, exchange),
    cooled: 'shared-air',
    from: rail.from,
    feeds: -1,
    thermostat: undefined,
    defrost: undefined,
    coil: 1,
    refrigerant: 0,
    film: link,
    frostArea: 0,
    choke: Infinity,
    fan: 0,
    drains: true,
  };
};

const possible = (...figures: readonly number[]): boolean => figures.every((x) => x > 1e-4 && x < 1e5);

const sizesFit = (zone: Zone): boolean => {
  const { pans } = zone;
  const room = zone.cooled === 'forced-air' ? [zone.volume] : [zone.well.length, zone.well.width, zone.well.depth];
  if (!possible(...room)) return false;
  if (pans === undefined) return true;
  const { count, pan, food } = pans;
  return possible(count, pan.length, pan.width, pan.depth, food.density, food.specificHeat, food.conductivity);
};

const controlsFit = ({ rating, lowPressure, restartDelay, zones }: UnitFacts): number | undefined => {
  if (!(rating.capacity > 0) || !(restartDelay >= 0) || (lowPressure && !(lowPressure.cutIn > lowPressure.cutOut))) return 0;
  const wrong = zones.findIndex(
    (z) =>
      (z.thermostat && !(z.thermostat.cutIn > z.thermostat.cutOut)) ||
      (z.cooled === 'static' && !z.thermostat && !lowPressure) ||
      (z.cooled === 'shared-air' && zones[z.from]?.cooled !== 'forced-air'),
  );
  return wrong < 0 ? undefined : wrong;
};

/**
 * The unit that fits the facts, or why none does. Throws for a unit without zones or with more than three: a programmer's mistake.
 */
export const calibrate = (facts: UnitFacts): Calibration => {
  if (facts.zones.length < 1 || facts.zones.length > 3) throw new RangeError('calibrate: one to three zones');
  const wrong = controlsFit(facts);
  if (wrong !== undefined) return { ok: false, fault: 'controls-contradict', zone: wrong };
  const unsized = facts.zones.findIndex((zone) => !sizesFit(zone));
  if (unsized >= 0) return { ok: false, fault: 'size-not-possible', zone: unsized };
  if (airDensity(facts.kitchen) === undefined || !inKitchen(facts.kitchen.temperature))
    return { ok: false, fault: 'kitchen-out-of-range', zone: 0 };
  const zones: (ZoneModel | undefined)[] = facts.zones.map(() => undefined);
  const loads: LoadModel[] = [];
  const order = facts.zones
    .map((_, i) => i)
    .sort((a, b) => Number(facts.zones[a]?.cooled === 'shared-air') - Number(facts.zones[b]?.cooled === 'shared-air'));
  for (const i of order) {
    const zone = facts.zones[i] as Zone;
    const film = zone.cooled === 'forced-air' ? 0 : panFilm(zone, facts.kitchen.temperature);
    if (film === undefined) return { ok: false, fault: 'food-does-not-fit-air', zone: i };
    const load = zone.pans ? loadOf(zone, i, zone.pans, film) : undefined;
    if (load) loads.push(load);
    const exchange = zone.cooled === 'forced-air' ? 0 : airTakenIn(zone.well, facts.kitchen)?.likely;
    if (exchange === undefined) return { ok: false, fault: 'size-not-possible', zone: i };
    zones[i] =
      zone.cooled === 'forced-air' || zone.cooled === 'fan-rail'
        ? fanZone(zone, facts, exchange)
        : zone.cooled === 'static'
          ? staticZone(zone, facts, exchange, zone.air)
          : sharedZone(zone, facts, exchange, load as LoadModel, zones[zone.from] as ZoneModel);
    if (zones[i] === undefined) return { ok: false, fault: 'air-too-cold', zone: i };
  }
  loads.sort((a, b) => a.home - b.home);
  const model: UnitModel = {
    ...facts.rating,
    lowPressure: facts.lowPressure,
    restartDelay: facts.restartDelay,
    pressure: facts.kitchen.pressure,
    zones: zones as ZoneModel[],
    loads,
  };
  return fitLiners(model, facts);
};

/** Where the low-pressure control is a rail's only one, its liner's film decides the air under the pans: found by running the unit. */
const fitLiners = (model: UnitModel, facts: UnitFacts): Calibration => {
  let fitted = model;
  for (const [i, zone] of facts.zones.entries()) {
    if (zone.cooled !== 'static' || zone.thermostat) continue;
    const withFilm = (film: number): UnitModel => ({
      ...fitted,
      zones: fitted.zones.map((z, k) => (k === i ? { ...z, film } : z)),
    });
    // Heat from the kitchen over conductance that grows with the film: the inverse of what air lacks to the kitchen is nearly straight in the film's resistance.
    const lack = facts.kitchen.temperature - zone.air;
    const over = (resistance: number): number =>
      lack / Math.max(0.1, facts.kitchen.temperature - settledAir(withFilm(1 / resistance), facts.kitchen, i)) - 1;
    const resistance = falsePosition(over, 1 / 500, 1, 0.1 / lack);
    if (resistance === undefined) return { ok: false, fault: 'air-too-cold', zone: i };
    fitted = withFilm(1 / resistance);
  }
  return { ok: true, model: fitted };
};
