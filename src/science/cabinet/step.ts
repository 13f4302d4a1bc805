/**
 * One step of a unit between events: air and coils by one implicit step (a small linear system per zone, tied together by the refrigerant),
 * food by its layers, frost and melt water by what heat is left over at the ice point.
 * For each zone coil and air are solved as straight lines in the evaporating temperature, which the capacity line then fixes. The implicit
 * step keeps every temperature between those that drive it, whatever its length.
 */
import { AIR_SPECIFIC_HEAT } from '../convection.js';
import { FUSION, SUBLIMATION, frostConductivity, frostRate, massFilm } from '../frost.js';
import { FREEZING, saturatedHumidityRatio } from '../moist-air.js';
import { aroundConductance, aroundPull, heldByFood, stepPan } from '../pan.js';
import { fanFlow, type CapacityLine, type UnitModel, type ZoneModel } from './model.js';
import { aboveLoad, type LoadState, type UnitState, type ZoneState } from './state.js';

/** Air that still moves where the fan doesn't, part of its flow. Common practice, no source. */
const STILL = 0.05;
/** Frost as it mostly is after some hours, kg/m³. Common practice, no source; see frost.ts for the band. */
const FROST_DENSITY = 250;
const FROST_CONDUCTIVITY = frostConductivity(FROST_DENSITY).likely;
/** Exchange under shut covers, part of that with open ones. Common practice, no source. */
const UNDER_COVERS = 0.5;
/** kg/s through a door that is not shut: a hand's breadth of a reach-in door. Common practice, no source. */
const DOOR_AJAR = 0.012;

/** Refrigerant passes through the zone's coil when the compressor runs. */
const valveOpen = (z: ZoneModel, s: ZoneState): boolean =>
  z.from < 0 &&
  !s.rests &&
  (s.phase === 'none' || s.phase === 'fan-waits') &&
  (z.thermostat === undefined || s.calls || s.faults.has('stuck-calling'));

/** To be called whenever a switch was flipped: sets the valves, and at rest what the suction gauge shows. */
export const setValves = (m: UnitModel, u: UnitState): void => {
  u.zones.forEach((s, i) => (s.open = valveOpen(m.zones[i] as ZoneModel, s)));
  if (!u.running) u.suction = restingSuction(m, u, false);
};

const fanShare = (z: ZoneModel, s: ZoneState): number => {
  if (z.cooled !== 'forced-air') return 1;
  const heated = (z.defrost?.heater ?? 0) > 0 && s.phase !== 'none';
  if (heated || s.faults.has('fan-stopped')) return STILL;
  return Math.max(STILL, 1 - s.frost / z.choke);
};

const iceResistance = (z: ZoneModel, s: ZoneState): number =>
  s.frost > 0 ? s.frost / (FROST_DENSITY * FROST_CONDUCTIVITY * z.frostArea * z.frostArea) : 0;

/** Sums the food's pull on each zone's air: whenever it has moved on or been moved. */
const gatherFood = (u: UnitState): void => {
  for (const s of u.zones) {
    s.foodConductance = 0;
    s.foodPull = 0;
  }
  for (const load of u.loads) {
    const s = u.zones[load.zone];
    if (s === undefined) continue;
    const { count } = load.model;
    const { network, toAir } = load.situation;
    const top = network.top * toAir;
    s.foodConductance += count * (aroundConductance(network) + top);
    s.foodPull += count * (aroundPull(network, load.food.temperature) + top * (load.food.temperature[0] as number));
  }
};

/** Works out anew what changes slowly: the food's pull, films under frost, air exchange, and how fast frost grows. */
export const refresh = (m: UnitModel, u: UnitState): void => {
  gatherFood(u);
  const taken = m.zones.map((z, i) => {
    const s = u.zones[i] as ZoneState;
    const filled = u.loads.some((l) => l.zone === i && l.model.home === i);
    const empty = filled ? 0 : s.covered ? z.empty.down : z.empty.up;
    const gaps = filled ? z.exchange * (s.covered ? UNDER_COVERS : 1) : 0;
    const exchange = gaps + s.doors + (s.faults.has('door-ajar') ? DOOR_AJAR : 0);
    s.outside = z.wall + empty + exchange * AIR_SPECIFIC_HEAT;
    return exchange + empty / AIR_SPECIFIC_HEAT;
  });
  for (const [i, z] of m.zones.entries()) {
    const s = u.zones[i] as ZoneState;
    if (z.from >= 0) continue;
    const share = fanShare(z, s);
    const ice = iceResistance(z, s);
    if (z.cooled === 'static') s.film = 1 / (1 / z.film + ice);
    else {
      const flow = fanFlow(z.film) * share;
      s.supply = 1 - Math.exp(-1 / (1 / fanFlow(z.film) + ice) / flow);
      s.film = s.supply * flow;
    }
    const all = (taken[i] as number) + (taken[z.feeds] ?? 0);
    const surface = s.coilTime > 0 ? s.coilSum / s.coilTime : s.coil;
    const saturated = surface < FREEZING ? saturatedHumidityRatio(surface, m.pressure) : undefined;
    s.fanHeat = share > STILL ? z.fan : 0;
    s.frosting = saturated === undefined ? 0 : frostRate(all, massFilm(s.film), u.humidity, saturated);
    s.coilHeat = s.frosting * SUBLIMATION + (s.phase === 'melting' ? (z.defrost?.heater ?? 0) : 0);
    s.coilSum = 0;
    s.coilTime = 0;
  }
  for (const [i, z] of m.zones.entries()) {
    if (z.from < 0) continue;
    const [s, source] = [u.zones[i] as ZoneState, u.zones[z.from] as ZoneState];
    s.film = z.film * fanShare(m.zones[z.from] as ZoneModel, source);
  }
};

/**
 * Moves the food on by the time that it waits, in the mean of the air since: food changes in hours, so it is moved on every minute or two.
 * Meanwhile its pull on the air stays what it was, so the heat that the air gave is the heat that it gets.
 */
export const moveFood = (u: UnitState): void => {
  const h = u.foodWaits;
  u.foodWaits = 0;
  if (h > 0) {
    for (const load of u.loads) {
      const s = u.zones[load.zone];
      if (s === undefined) continue;
      const { situation, food, model } = load;
      const { network, toAir } = situation;
      const air = s.airSum / h;
      u.gained += h * model.count * network.top * (1 - toAir) * (u.kitchen - (food.temperature[0] as number));
      stepPan(network, food, aboveLoad(situation, u.kitchen, air), air, h);
      load.least = Math.min(load.least, s.air);
      load.most = Math.max(load.most, toAir < 1 ? u.kitchen : s.air);
    }
    for (const s of u.zones) s.airSum = 0;
  }
  gatherFood(u);
};

/** Evaporating temperature where sum * (coils - Te) meets the capacity line, coils = weighted / sum. */
const balance = ({ at0, slope, most }: CapacityLine, sum: number, weighted: number): number => {
  const evaporating = (weighted - at0) / (slope + sum);
  const capacity = at0 + slope * evaporating;
  if (capacity > most) return (weighted - most) / sum;
  return capacity > 0 ? evaporating : weighted / sum;
};

/** What the suction gauge shows at rest, K: the mean of the coils that are open to it; where none is, what the pump-down left. */
export const restingSuction = (m: UnitModel, u: UnitState, next: boolean): number => {
  let sum = 0;
  let weighted = 0;
  for (let i = 0; i < m.zones.length; i += 1) {
    const s = u.zones[i] as ZoneState;
    if (!s.open) continue;
    const { refrigerant } = m.zones[i] as ZoneModel;
    sum += refrigerant;
    weighted += refrigerant * (next ? s.nextCoil : s.coil);
  }
  return sum === 0 ? (m.lowPressure?.cutOut ?? u.suction) : weighted / sum;
};

/** A zone's coil and air after h seconds, each as base + gain * evaporating temperature. */
const prepare = (m: UnitModel, u: UnitState, z: ZoneModel, s: ZoneState, h: number): void => {
  const cooling = u.running && s.open ? z.refrigerant : 0;
  let link = 0;
  let back = 0;
  if (z.feeds >= 0) {
    // The rail's own air is base + gain * supply, supply = (1 - share) * air + share * coil.
    const zr = m.zones[z.feeds] as ZoneModel;
    const sr = u.zones[z.feeds] as ZoneState;
    link = sr.film;
    const all = zr.air / h + sr.foodConductance + sr.outside + link;
    sr.gain = link / all;
    sr.base = ((zr.air / h) * sr.air + sr.foodPull + sr.outside * u.kitchen) / all;
    back = link * (1 - sr.gain);
    link *= sr.base;
  }
  // Its air is airAlone + reach * coil; put into the coil's own equation, that leaves one unknown.
  const coilRate = z.coil / h;
  const airRate = z.air / h;
  const airDiagonal = airRate + s.film + s.foodConductance + s.outside + back * (1 - s.supply);
  const airAlone = (airRate * s.air + s.foodPull + s.outside * u.kitchen + s.fanHeat + link) / airDiagonal;
  const reach = (s.film - back * s.supply) / airDiagonal;
  const share = 1 / (coilRate + cooling + s.film * (1 - reach));
  const base = share * (coilRate * s.coil + s.coilHeat + s.film * airAlone);
  const gain = share * cooling;
  s.cooling = cooling;
  s.base = base;
  s.gain = gain;
  s.airBase = airAlone + reach * base;
  s.airGain = reach * gain;
};

/** Heat past the ice point melts frost, heat short of it freezes water that has not left; the coil stays at the ice point meanwhile. */
const meltOrFreeze = (z: ZoneModel, s: ZoneState): void => {
  const over = z.coil * (s.nextCoil - FREEZING);
  s.nextMelting = 0;
  if ((over > 0 ? s.nextFrost : s.water) === 0) return;
  const melting = over > 0 ? Math.min(s.nextFrost, over / FUSION) : -Math.min(s.water, -over / FUSION);
  s.nextMelting = melting;
  s.nextFrost -= melting;
  s.nextCoil -= (melting * FUSION) / z.coil;
};

/** Tries a step of h seconds: sets every zone's next temperatures and frost and the next suction, and changes nothing else. */
export const trial = (m: UnitModel, u: UnitState, h: number): void => {
  let sum = 0;
  let weighted = 0;
  for (let i = 0; i < m.zones.length; i += 1) {
    const z = m.zones[i] as ZoneModel;
    const s = u.zones[i] as ZoneState;
    if (z.from >= 0) continue;
    prepare(m, u, z, s, h);
    sum += s.cooling * (1 - s.gain);
    weighted += s.cooling * s.base;
  }
  const evaporating = sum > 0 ? balance(u.line, sum, weighted) : 0;
  u.nextRemoved = 0;
  for (let i = 0; i < m.zones.length; i += 1) {
    const z = m.zones[i] as ZoneModel;
    const s = u.zones[i] as ZoneState;
    if (z.from >= 0) continue;
    s.nextCoil = s.base + s.gain * evaporating;
    s.nextAir = s.airBase + s.airGain * evaporating;
    if (z.feeds >= 0) {
      const sr = u.zones[z.feeds] as ZoneState;
      sr.nextAir = sr.base + sr.gain * (s.nextAir + s.supply * (s.nextCoil - s.nextAir));
    }
    u.nextRemoved += s.cooling * (s.nextCoil - evaporating) * h;
    s.nextFrost = s.frost + s.frosting * h;
    meltOrFreeze(z, s);
  }
  u.nextSuction = sum > 0 ? evaporating : restingSuction(m, u, true);
};

/** Makes the step that was tried last true; the food waits to be moved on. */
export const commit = (m: UnitModel, u: UnitState, h: number): void => {
  let moved = 0;
  for (let i = 0; i < m.zones.length; i += 1) {
    const z = m.zones[i] as ZoneModel;
    const s = u.zones[i] as ZoneState;
    u.gained += h * (s.outside * (u.kitchen - s.nextAir) + s.fanHeat + s.coilHeat);
    moved = Math.max(moved, Math.abs(s.nextAir - s.air));
    s.air = s.nextAir;
    s.airSum += s.air * h;
    if (z.from >= 0) continue;
    moved = Math.max(moved, Math.abs(s.nextCoil - s.coil));
    s.coil = s.nextCoil;
    s.frost = s.nextFrost;
    u.melted += s.nextMelting * FUSION;
    const leaves = s.nextMelting > 0 && z.drains && !s.faults.has('drain-blocked');
    if (!leaves) s.water = Math.max(0, s.water + s.nextMelting);
    s.coilSum += s.coil * h;
    s.coilTime += h;
  }
  u.foodWaits += h;
  u.rate = moved / h;
  u.removed += u.nextRemoved;
  u.suction = u.nextSuction;
  u.time += h;
};

/** J that a load holds above 0 K; 0 while it is out of the unit. */
export const heldByLoad = ({ model, food, zone }: LoadState): number =>
  zone < 0 ? 0 : model.count * heldByFood(model.open.network, food);

/** J that air, coils and food hold above 0 K. */
export const heldHeat = (m: UnitModel, u: UnitState): number => {
  let sum = 0;
  for (const [i, z] of m.zones.entries()) {
    const s = u.zones[i] as ZoneState;
    sum += z.air * s.air + (z.from < 0 ? z.coil * s.coil : 0);
  }
  for (const load of u.loads) sum += heldByLoad(load);
  return sum;
};
