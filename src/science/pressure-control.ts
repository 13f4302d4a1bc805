/**
 * A pressure control as a thermostat: what coil temperature a dial stands for, and what dial a wanted coil temperature needs.
 * A bellows works against the air around it, so the same dial is a lower absolute pressure, and a colder coil, in a store high up.
 */
import { standardPressure } from './atmosphere.js';
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

const SEA_LEVEL = 101325;

/** What a dial or a gauge counts from: the air around it, or one sealed atmosphere (sea level's, wherever it hangs). */
export interface Zero {
  readonly reference: 'atmosphere' | 'sealed';
  /** m above sea level. */
  readonly altitude: number;
}

/** Pressure at which the dial or gauge reads nought, Pa absolute; undefined outside -5000 to 11 000 m. */
export const zeroPressure = ({ reference, altitude }: Zero): number | undefined =>
  reference === 'sealed' ? SEA_LEVEL : standardPressure(altitude);

/** Pa absolute from Pa on a dial or gauge; undefined where the altitude is out of range or the result no pressure. */
export const absoluteFromGauge = (gauge: number, zero: Zero): number | undefined => {
  const nought = zeroPressure(zero);
  return nought !== undefined && nought + gauge > 0 && Number.isFinite(gauge) ? nought + gauge : undefined;
};

/** Pa on a dial or gauge (below nought is vacuum) from Pa absolute. */
export const gaugeFromAbsolute = (absolute: number, zero: Zero): number | undefined => {
  const nought = zeroPressure(zero);
  return nought !== undefined && absolute > 0 && Number.isFinite(absolute) ? absolute - nought : undefined;
};

/**
 * How far a sea-level setting is to be raised to keep its coil temperature, Pa.
 * @returns 0 for a sealed reference; undefined outside the standard atmosphere
 */
export const altitudeCorrection = (zero: Zero): number | undefined => {
  const nought = zeroPressure(zero);
  return nought === undefined ? undefined : SEA_LEVEL - nought;
};

/** One pressure seen from the coil's side: K, and Pa absolute. */
export interface Evaporating {
  readonly pressure: number;
  /** Where the refrigerant enters the coil, fed with liquid at 95 °F. */
  readonly inlet: number;
  /** Half-way from inlet to dew: what the control stands for. */
  readonly mean: number;
  /** Where superheat counts from. */
  readonly dew: number;
}

/** What a suction dial or gauge reading stands for. Undefined where the altitude or the refrigerant's curves end. */
export const evaporatingAt = (r: Refrigerant, gauge: number, zero: Zero): Evaporating | undefined => {
  const pressure = absoluteFromGauge(gauge, zero);
  if (pressure === undefined) return undefined;
  const inlet = inletTemperature(r, pressure);
  const mean = meanEvaporating(r, pressure);
  const dew = dewTemperature(r, pressure);
  return inlet === undefined || mean === undefined || dew === undefined ? undefined : { pressure, inlet, mean, dew };
};

/** The dial, Pa, at which the coil's mean evaporating temperature is the one wanted, K. */
export const dialForMeanEvaporating = (r: Refrigerant, temperature: number, zero: Zero): number | undefined => {
  const pressure = pressureForMeanEvaporating(r, temperature);
  return pressure === undefined ? undefined : gaugeFromAbsolute(pressure, zero);
};

/** One pressure seen from the condenser's side: K, and Pa absolute. */
export interface Condensing {
  readonly pressure: number;
  readonly dew: number;
  /** Half-way from dew to bubble: what air entering plus split means. */
  readonly mean: number;
  /** Where subcooling counts from. */
  readonly bubble: number;
}

/** What a head gauge reading stands for. Undefined where the altitude or the refrigerant's curves end. */
export const condensingAt = (r: Refrigerant, gauge: number, zero: Zero): Condensing | undefined => {
  const pressure = absoluteFromGauge(gauge, zero);
  if (pressure === undefined) return undefined;
  const dew = dewTemperature(r, pressure);
  const mean = meanCondensing(r, pressure);
  const bubble = bubbleTemperature(r, pressure);
  return dew === undefined || mean === undefined || bubble === undefined ? undefined : { pressure, dew, mean, bubble };
};

/** Head pressures that belong to one condensing temperature, Pa on the gauge, high to low. In a pure fluid they are equal. */
export interface HeadPressure {
  /** K: air entering plus split. */
  readonly temperature: number;
  /** If the temperature were the bubble point's. */
  readonly bubble: number;
  /** If it is the mean, which it is. */
  readonly mean: number;
  /** If it were the dew point's. */
  readonly dew: number;
}

/**
 * Head pressure to expect.
 * @param airEntering K, of the air that enters the condenser, not of the room
 * @param split K, condensing over air entering
 * @returns undefined where the refrigerant's curves or the altitude end
 */
export const headPressure = (r: Refrigerant, airEntering: number, split: number, zero: Zero): HeadPressure | undefined => {
  const temperature = airEntering + split;
  const nought = zeroPressure(zero);
  const bubble = bubblePressure(r, temperature);
  const mean = pressureForMeanCondensing(r, temperature);
  const dew = dewPressure(r, temperature);
  if (nought === undefined || bubble === undefined || mean === undefined || dew === undefined) return undefined;
  return { temperature, bubble: bubble - nought, mean: mean - nought, dew: dew - nought };
};
