/**
 * One refrigerant at one pressure, or at one temperature: both ends of its glide, and the two means that controls and condensers stand for.
 */
import {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  inletTemperature,
  meanCondensing,
  meanEvaporating,
  pressureForMeanCondensing,
  pressureForMeanEvaporating,
  type Refrigerant,
} from './saturation.js';

/** A figure for each; undefined where the refrigerant's curve for it ends. In a pure fluid all are one. */
export interface Glide {
  /** Superheat counts from it. */
  readonly dew: number | undefined;
  /** What a pressure control on the suction side stands for. */
  readonly meanEvaporating: number | undefined;
  /** Where the refrigerant enters the coil, fed with liquid at 95 °F; of a temperature there is none. */
  readonly inlet: number | undefined;
  /** What air entering the condenser plus the split comes to. */
  readonly meanCondensing: number | undefined;
  /** Subcooling counts from it. */
  readonly bubble: number | undefined;
}

/** Temperatures, K, at a pressure in Pa absolute. */
export const temperaturesAt = (r: Refrigerant, pressure: number): Glide => ({
  dew: dewTemperature(r, pressure),
  meanEvaporating: meanEvaporating(r, pressure),
  inlet: inletTemperature(r, pressure),
  meanCondensing: meanCondensing(r, pressure),
  bubble: bubbleTemperature(r, pressure),
});

/** Pressures, Pa absolute, at which each of them is at a temperature in K. */
export const pressuresAt = (r: Refrigerant, temperature: number): Glide => ({
  dew: dewPressure(r, temperature),
  meanEvaporating: pressureForMeanEvaporating(r, temperature),
  inlet: undefined,
  meanCondensing: pressureForMeanCondensing(r, temperature),
  bubble: bubblePressure(r, temperature),
});

/** Lowest and highest pressure of any of its curves, Pa absolute. */
export const pressureLimits = (r: Refrigerant): readonly [low: number, high: number] => [
  r.dew.pressure[0],
  (r.bubble ?? r.dew).pressure[1],
];
