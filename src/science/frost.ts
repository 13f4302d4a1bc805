/**
 * Frost on the liner of a static rail: how much the kitchen's moisture makes while it runs, and how long it must rest to lose it.
 * Correlations for frost disagree by a factor of two to four, so every answer is a band, and the longer rest is the one to keep.
 */
import { AIR_SPECIFIC_HEAT, airProperties, floorFilm, radiationFilm, wallFilm } from './convection.js';
import { FREEZING, airDensity, humidityRatio, saturatedHumidityRatio, type MoistAir } from './moist-air.js';

/** J/kg, water at 0 °C. Source: IAPWS (fusion from memory; sublimation is the sum of fusion and vaporisation). */
export const FUSION = 333.6e3;
export const SUBLIMATION = 2834e3;
const ICE_SPECIFIC_HEAT = 2100;
/** Lewis number to the 2/3 of moist air: heat film = mass film * specific heat * this. Source: Chilton and Colburn (from memory, Incropera ch. 6). */
const LEWIS = 0.9;
/** No rest of a static rail is shorter, whatever is computed. Common practice, no source. */
export const SHORTEST_REST = 4 * 3600;

export interface Band {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/**
 * Density of fresh frost, kg/m³, kept between 50 and 500.
 * Source: Hayashi et al. 1977, 650 exp(0.277 t), t the frost's surface in °C; made for -18.6 to -5 °C and air at 2 to 6 m/s.
 */
export const freshFrostDensity = (surface: number): number =>
  Math.min(500, Math.max(50, 650 * Math.exp(0.277 * (surface - FREEZING))));

/** Frost that has aged, thawed in part and frozen again. Common practice, no source. */
const OLD_FROST_DENSITY = 350;

/** Conductivity of frost, W/(m K), from its density: the spread of four correlations, and no more than ice. */
export const frostConductivity = (density: number): Band => {
  const of = [
    0.02422 + 7.214e-4 * density + 1.1797e-6 * density ** 2, // Yonko and Sepsy 1967
    0.001202 * density ** 0.963, // Sanders 1974
    0.132 + 3.13e-4 * density + 1.6e-7 * density ** 2, // Lee
    -8.71e-3 + 4.39e-4 * density + 1.05e-6 * density ** 2, // Ostin and Andersson 1991
  ].map((k) => Math.min(2.2, Math.max(0.02, k)));
  return { low: Math.min(...of), likely: of.reduce((a, b) => a + b) / of.length, high: Math.max(...of) };
};

/** Water that a film carries, kg/(m² s) a unit of humidity ratio, from the film's W/(m² K). */
export const massFilm = (heatFilm: number): number => heatFilm / (AIR_SPECIFIC_HEAT * LEWIS);

/** A static rail's well as a tape measures it. */
export interface Well {
  /** m, inside. */
  readonly length: number;
  readonly width: number;
  readonly depth: number;
  /** Outline of all pans in it, m: each pan's length and width, twice. */
  readonly rims: number;
  /** Part of the opening that no pan or bar fills, 0..1. */
  readonly unfilled: number;
}

const possible = ({ length, width, depth, rims, unfilled }: Well): boolean =>
  length > 0 &&
  width > 0 &&
  depth > 0 &&
  rims >= 0 &&
  unfilled >= 0 &&
  unfilled <= 1 &&
  Number.isFinite(length + width + depth + rims);

export const linerArea = ({ length, width, depth }: Well): number => length * width + 2 * (length + width) * depth;

/** Gap under a pan's rim, m, and the air that moves through gaps and open holes, m/s. Common practice, no source: hence the wide band. */
const GAP: Band = { low: 0.0005, likely: 0.001, high: 0.0015 };
const DRAUGHT: Band = { low: 0.03, likely: 0.07, high: 0.12 };

/** kg/s of kitchen air that a filled well takes in; undefined for a well that can't be, or air outside the equations. */
export const airTakenIn = (well: Well, kitchen: MoistAir): Band | undefined => {
  const density = airDensity(kitchen);
  if (density === undefined || !possible(well)) return undefined;
  const of = (edge: keyof Band): number =>
    density * DRAUGHT[edge] * (well.rims * GAP[edge] + well.unfilled * well.length * well.width);
  return { low: of('low'), likely: of('likely'), high: of('high') };
};

/**
 * kg/s of frost where air is taken in and gives its water to a cold surface: exchange and film in series. Never negative.
 * @param exchange kg/s of kitchen air
 * @param film kg/s a unit of humidity ratio, from the box's air to all of the surface
 */
export const frostRate = (exchange: number, film: number, outside: number, saturated: number): number =>
  exchange > 0 && film > 0 ? Math.max(0, outside - saturated) / (1 / exchange + 1 / film) : 0;

/** Frost after a run: kg in all, and m thick. */
export interface Frost {
  readonly mass: Band;
  readonly thickness: Band;
}

const surfaceFilm = (well: Well, surface: number, air: number, pressure: number): { wall: number; floor: number } => {
  const { length, width, depth } = well;
  const still = airProperties((surface + air) / 2, pressure).conductivity / depth;
  return {
    wall: wallFilm({ surface, air, length: depth, pressure }),
    floor: floorFilm({ surface, air, length: (length * width) / (2 * (length + width)), pressure }) ?? still,
  };
};

/**
 * Frost that a clean well gathers.
 * @param surface K, the liner's mean while it runs
 * @param running s
 * @returns undefined for air or a surface outside the equations of moist air; no frost on a surface at or above freezing
 */
export const wellFrost = (well: Well, kitchen: MoistAir, surface: number, running: number): Frost | undefined => {
  const outside = humidityRatio(kitchen);
  const saturated = saturatedHumidityRatio(surface, kitchen.pressure);
  const taken = airTakenIn(well, kitchen);
  if (outside === undefined || saturated === undefined || taken === undefined || !(running >= 0)) return undefined;
  const area = linerArea(well);
  const film = surfaceFilm(well, surface, (surface + kitchen.temperature) / 2, kitchen.pressure);
  const deposit =
    massFilm(film.wall) * 2 * (well.length + well.width) * well.depth + massFilm(film.floor) * well.length * well.width;
  const mass = (edge: keyof Band): number =>
    surface < FREEZING ? running * frostRate(taken[edge], deposit, outside, saturated) : 0;
  const fresh = freshFrostDensity(surface);
  const old = Math.max(fresh, OLD_FROST_DENSITY);
  // A well that is full can't be fuller.
  const thick = (edge: keyof Band, density: number): number => Math.min(well.depth, mass(edge) / (area * density));
  return {
    mass: { low: mass('low'), likely: mass('likely'), high: mass('high') },
    thickness: { low: thick('low', old), likely: thick('likely', Math.sqrt(fresh * old)), high: thick('high', fresh) },
  };
};

/** W/K from the kitchen to the liner of an empty well. */
export const emptyWellConductance = (well: Well, kitchen: MoistAir, covers: 'up' | 'down'): Band => {
  const { wall, floor } = surfaceFilm(well, FREEZING, kitchen.temperature, kitchen.pressure);
  const mouth = well.length * well.width;
  const walls = 2 * (well.length + well.width) * well.depth;
  // Low: the cold air stays in the trough and only radiation and the floor's still film reach the ice. High: the walls see kitchen air too.
  const radiation = radiationFilm(FREEZING, kitchen.temperature, 0.9) * mouth;
  const [low, high] = [floor * mouth * 0.5 + radiation * 0.5, floor * mouth + wall * walls + radiation];
  const lid = covers === 'down' ? 2 * mouth : Infinity;
  const throughLid = (g: number): number => 1 / (1 / g + 1 / lid);
  return { low: throughLid(low), likely: throughLid(Math.sqrt(low * high)), high: throughLid(high) };
};

export interface RestQuestion {
  readonly well: Well;
  /** The kitchen while the rail runs: it makes the frost. */
  readonly kitchen: MoistAir;
  /** K, the kitchen at night: it melts the frost. */
  readonly night: number;
  /** K, the liner's mean while it runs. */
  readonly surface: number;
  /** s of running since the last full rest. */
  readonly running: number;
  readonly covers: 'up' | 'down';
  /** s, the least rest that the maker asks for. */
  readonly maker?: number;
}

export interface RestAnswer {
  /** s to melt, as computed: low, likely, high. */
  readonly melting: Band;
  /** kg of frost that there is to melt. */
  readonly frost: Band;
  /** s: the longest of four hours, the maker's figure and the computed upper bound. */
  readonly least: number;
  readonly decidedBy: 'four-hours' | 'maker' | 'computed';
}

/**
 * The least rest of a static rail after a run.
 * @returns undefined where the kitchen at night can't melt ice (within 1 K of freezing), or the air is outside the equations
 */
export const leastRest = (question: RestQuestion): RestAnswer | undefined => {
  const { well, kitchen, night, surface, running, covers, maker = 0 } = question;
  const frost = wellFrost(well, kitchen, surface, running);
  const air = { ...kitchen, temperature: night, humidity: 0 };
  if (frost === undefined || !(night > FREEZING + 1) || airDensity(air) === undefined) return undefined;
  const conductance = emptyWellConductance(well, air, covers);
  const heat = FUSION + ICE_SPECIFIC_HEAT * Math.max(0, FREEZING - surface);
  const time = (mass: number, g: number): number => (mass * heat) / (g * (night - FREEZING));
  const melting = {
    low: time(frost.mass.low, conductance.high),
    likely: time(frost.mass.likely, conductance.likely),
    high: time(frost.mass.high, conductance.low),
  };
  const least = Math.max(SHORTEST_REST, maker, melting.high);
  const decidedBy = least === melting.high ? 'computed' : least === maker && maker > SHORTEST_REST ? 'maker' : 'four-hours';
  return { melting, frost: frost.mass, least, decidedBy };
};
