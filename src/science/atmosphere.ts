/**
 * The standard atmosphere: what the air at a store's altitude weighs, and how warm it is there on a standard day.
 */

/** Metres above sea level between which the formulas are given. */
const LOWEST = -5000;
const HIGHEST = 11000;

const within = (altitude: number): boolean => altitude >= LOWEST && altitude <= HIGHEST;

/**
 * Pressure of the standard atmosphere, Pa.
 * Source: ASHRAE Handbook Fundamentals, Psychrometrics, eq. 3.
 * @param altitude m above sea level
 * @returns undefined outside -5000 to 11 000 m
 */
export const standardPressure = (altitude: number): number | undefined =>
  within(altitude) ? 101325 * (1 - 2.25577e-5 * altitude) ** 5.2559 : undefined;

/**
 * Temperature of the standard atmosphere, K.
 * Source: ASHRAE Handbook Fundamentals, Psychrometrics, eq. 4.
 * @param altitude m above sea level
 * @returns undefined outside -5000 to 11 000 m
 */
export const standardTemperature = (altitude: number): number | undefined =>
  within(altitude) ? 288.15 - 0.0065 * altitude : undefined;
