/**
 * Pans in a rail: the film from the rail's air to them that keeps the food at the temperature that was probed, and the heat that they take in.
 */
import { AIR_SPECIFIC_HEAT } from '../convection.js';
import { linerArea } from '../frost.js';
import { panNetwork, steadyPan } from '../pan.js';
import { CABINET_WALL, COVERED_TOP, IN_MOVING_AIR, OPEN_TOP, RADIATION_TOP } from '../surroundings.js';
import type { PansFacts, Rail, Thermostat, Zone } from './facts.js';
import type { LoadModel, Situation } from './model.js';

/** Outer faces of a well over inner. Common practice, no source. */
const WELL_OUTSIDE = 1.2;

const bisect = (low: number, high: number, tooLow: (x: number) => boolean): number => {
  let [a, b] = [low, high];
  for (let i = 0; i < 60; i += 1) {
    const x = Math.sqrt(a * b);
    if (tooLow(x)) a = x;
    else b = x;
  }
  return Math.sqrt(a * b);
};

const mean = (layers: readonly number[]): number => layers.reduce((a, b) => a + b) / layers.length;

/** W/K through a well's insulation. */
export const wellWall = ({ well }: Rail): number => CABINET_WALL * WELL_OUTSIDE * linerArea(well);

export const middleOf = ({ cutIn, cutOut }: Thermostat): number => (cutIn + cutOut) / 2;

/** K, the air under a rail's pans. */
export const railAir = (rail: Rail): number => (rail.cooled === 'fan-rail' ? middleOf(rail.thermostat) : rail.air);

/** A pan in its rail. Air from a fan blows over the food too, and only radiation reaches it from the kitchen; a static rail's air lies below. */
const inRail = (rail: Rail, film: number, kitchenFilm: number): Situation => {
  const over = rail.cooled === 'static' ? 0 : film;
  const top = kitchenFilm + over;
  return { network: panNetwork(rail.pans.pan, rail.pans.food, { top, bottom: film, walls: film }), toAir: over / top };
};

const openRail = (rail: Rail, film: number): Situation => inRail(rail, film, rail.cooled === 'static' ? OPEN_TOP : RADIATION_TOP);

/** Layers of an open pan after hours in the facts' kitchen, K. */
const usualFood = ({ network, toAir }: Situation, kitchen: number, air: number): number[] =>
  steadyPan(network, (1 - toAir) * kitchen + toAir * air, air);

/** Film from a well's air to its pans that keeps the food at the temperature that was probed; undefined where none does. */
export const panFilm = (rail: Rail, kitchen: number): number | undefined => {
  const food = (film: number): number => mean(usualFood(openRail(rail, film), kitchen, railAir(rail)));
  const [LEAST, MOST] = [0.2, 60];
  if (!(food(MOST) < rail.foodTemperature && food(LEAST) > rail.foodTemperature)) return undefined;
  return bisect(LEAST, MOST, (film) => food(film) > rail.foodTemperature);
};

export const loadOf = (zone: Zone, home: number, pans: PansFacts, film: number): LoadModel => {
  const stored: Situation = { network: panNetwork(pans.pan, pans.food, IN_MOVING_AIR), toAir: 1 };
  const of = { name: zone.name, home, count: pans.count, stored };
  if (zone.cooled === 'forced-air') return { ...of, open: stored, covered: stored };
  return { ...of, open: openRail(zone, film), covered: inRail(zone, film, COVERED_TOP) };
};

/** W into a well's air from food, gaps and insulation, in the facts' kitchen. */
export const wellHeat = (rail: Rail, load: LoadModel, exchange: number, kitchen: number): number => {
  const { network, toAir } = load.open;
  const top = network.top * (1 - toAir) * (kitchen - (usualFood(load.open, kitchen, railAir(rail))[0] as number));
  return load.count * top + (exchange * AIR_SPECIFIC_HEAT + wellWall(rail)) * (kitchen - railAir(rail));
};
