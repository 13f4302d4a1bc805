/**
 * Air moving by itself along cold walls and over cold floors, and what surfaces radiate to each other.
 * Used for what nobody can measure on a rail: the films between its liner, its air and the kitchen.
 */

const GRAVITY = 9.80665;
const STEFAN_BOLTZMANN = 5.670374419e-8;
const GAS_CONSTANT_OF_AIR = 287.05;
/** J/(kg K), dry air near room temperature. */
export const AIR_SPECIFIC_HEAT = 1006;

/** Dry air at a film temperature. */
interface AirProperties {
  readonly density: number;
  /** Kinematic viscosity, m²/s. */
  readonly viscosity: number;
  readonly conductivity: number;
  readonly prandtl: number;
}

/** Sutherland's law with the constants of White, Viscous Fluid Flow, table 1-2 and 1-3 (from memory); ideal gas. */
export const airProperties = (temperature: number, pressure: number): AirProperties => {
  const sutherland = (at0: number, s: number): number => (at0 * (temperature / 273.15) ** 1.5 * (273.15 + s)) / (temperature + s);
  const density = pressure / (GAS_CONSTANT_OF_AIR * temperature);
  const dynamic = sutherland(1.716e-5, 110.6);
  const conductivity = sutherland(0.0241, 194);
  return { density, viscosity: dynamic / density, conductivity, prandtl: (dynamic * AIR_SPECIFIC_HEAT) / conductivity };
};

/** Nusselt number of a vertical isothermal plate, any Rayleigh number. Source: Churchill and Chu 1975 (Incropera eq. 9.26). */
export const verticalPlate = (rayleigh: number, prandtl: number): number =>
  (0.825 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2;

/**
 * Nusselt number over a cold plate that faces up (a rail's floor: the cold air lies still on it).
 * Source: McAdams (Incropera 6th ed., eq. 9.32), length = area / perimeter; newer editions print another form.
 * @returns undefined outside Rayleigh 1e5 to 1e10
 */
export const coldPlateFacingUp = (rayleigh: number): number | undefined =>
  rayleigh >= 1e5 && rayleigh <= 1e10 ? 0.27 * rayleigh ** 0.25 : undefined;

/** A cold surface in warmer air (or the reverse): K, K, m, Pa. */
export interface Film {
  readonly surface: number;
  readonly air: number;
  /** Height of a wall; area / perimeter of a floor. */
  readonly length: number;
  readonly pressure: number;
}

const rayleighOf = ({ surface, air, length, pressure }: Film): { rayleigh: number; properties: AirProperties } => {
  const middle = (surface + air) / 2;
  const properties = airProperties(middle, pressure);
  const grashof = (GRAVITY * Math.abs(air - surface) * length ** 3) / middle / properties.viscosity ** 2;
  return { rayleigh: grashof * properties.prandtl, properties };
};

/** Film coefficient along a vertical wall, W/(m² K). */
export const wallFilm = (film: Film): number => {
  const { rayleigh, properties } = rayleighOf(film);
  return (verticalPlate(rayleigh, properties.prandtl) * properties.conductivity) / film.length;
};

/** Film coefficient over a cold floor, W/(m² K); undefined outside the correlation's range (very small or hardly cold). */
export const floorFilm = (film: Film): number | undefined => {
  const { rayleigh, properties } = rayleighOf(film);
  const nusselt = coldPlateFacingUp(rayleigh);
  return nusselt === undefined ? undefined : (nusselt * properties.conductivity) / film.length;
};

/** Radiation between two surfaces as a film coefficient, W/(m² K): 4 e s T³ at their mean. */
export const radiationFilm = (one: number, other: number, emissivity: number): number =>
  4 * emissivity * STEFAN_BOLTZMANN * ((one + other) / 2) ** 3;
