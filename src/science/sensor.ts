/**
 * Temperature sensors: ohms from temperature and back, and what a sensor must read in stirred ice.
 * A sensor is known by its curve, not by its resistance at 25 °C; the curves are data (equipment/tables/sensors).
 */

/** 1/T = a + b ln R + c (ln R)^3, T in K, R in ohm. Source: Steinhart and Hart 1968. */
export interface SteinhartHart {
  readonly form: 'steinhart-hart';
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** R = resistance * exp(beta (1/T - 1/temperature)), ohm and K. */
export interface Beta {
  readonly form: 'beta';
  readonly resistance: number;
  readonly temperature: number;
  readonly beta: number;
}

/** R = resistance * (1 + a t + b t^2 + c (t - 100) t^3), t in °C, the last term below 0 °C only. Source: IEC 60751. */
export interface Platinum {
  readonly form: 'platinum';
  readonly resistance: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** A curve as its file under equipment/tables/sensors holds it. */
export type SensorCurve = (SteinhartHart | Beta | Platinum) & {
  readonly name: string;
  /** Coldest and warmest temperature of the curve, K; outside it there is no answer. */
  readonly limits: readonly [coldest: number, warmest: number];
  readonly source: string;
};

const ICE = 273.15;

/** The cubic's one real root, as the application notes of the equation give it. */
const steinhartHartResistance = ({ a, b, c }: SteinhartHart, temperature: number): number => {
  const x = (a - 1 / temperature) / (2 * c);
  const y = Math.sqrt((b / (3 * c)) ** 3 + x * x);
  return Math.exp(Math.cbrt(y - x) - Math.cbrt(y + x));
};

const platinumResistance = ({ resistance, a, b, c }: Platinum, temperature: number): number => {
  const t = temperature - ICE;
  return resistance * (1 + a * t + b * t * t + (t < 0 ? c * (t - 100) * t ** 3 : 0));
};

/** Secant steps; the curve is so nearly straight that a few are exact. */
const platinumTemperature = (curve: Platinum, resistance: number): number => {
  let temperature = ICE;
  for (let step = 0; step < 20; step += 1) {
    temperature += (resistance - platinumResistance(curve, temperature)) / (curve.resistance * curve.a);
  }
  return temperature;
};

const resistanceOf = (curve: SensorCurve, temperature: number): number => {
  switch (curve.form) {
    case 'steinhart-hart':
      return steinhartHartResistance(curve, temperature);
    case 'beta':
      return curve.resistance * Math.exp(curve.beta * (1 / temperature - 1 / curve.temperature));
    case 'platinum':
      return platinumResistance(curve, temperature);
  }
};

const temperatureOf = (curve: SensorCurve, resistance: number): number => {
  switch (curve.form) {
    case 'steinhart-hart': {
      const log = Math.log(resistance);
      return 1 / (curve.a + curve.b * log + curve.c * log ** 3);
    }
    case 'beta':
      return 1 / (1 / curve.temperature + Math.log(resistance / curve.resistance) / curve.beta);
    case 'platinum':
      return platinumTemperature(curve, resistance);
  }
};

const inside = ({ limits }: SensorCurve, temperature: number): boolean => temperature >= limits[0] && temperature <= limits[1];

/** Resistance, ohm, at a temperature in K; undefined outside the curve's limits. */
export const sensorResistance = (curve: SensorCurve, temperature: number): number | undefined =>
  inside(curve, temperature) ? resistanceOf(curve, temperature) : undefined;

/** Temperature, K, for a resistance in ohm; undefined where it lies outside the curve's limits (an open or shorted sensor does). */
export const sensorTemperature = (curve: SensorCurve, resistance: number): number | undefined => {
  if (!(resistance > 0)) return undefined;
  const temperature = temperatureOf(curve, resistance);
  return inside(curve, temperature) ? temperature : undefined;
};

/** What an unplugged sensor may read in stirred crushed ice, ohm. Inside it, the sensor is not yet cleared: it needs a second point. */
export interface IcePoint {
  readonly expected: number;
  readonly least: number;
  readonly most: number;
}

/**
 * The ice-point check.
 * @param tolerance K either way, of the sensor and of the bath
 * @returns undefined where the curve doesn't reach that far round the ice point
 */
export const icePoint = (curve: SensorCurve, tolerance: number): IcePoint | undefined => {
  const expected = sensorResistance(curve, ICE);
  const colder = sensorResistance(curve, ICE - tolerance);
  const warmer = sensorResistance(curve, ICE + tolerance);
  if (expected === undefined || colder === undefined || warmer === undefined) return undefined;
  return { expected, least: Math.min(colder, warmer), most: Math.max(colder, warmer) };
};

/** A row of a card's small table: K and ohm. */
export interface SensorPoint {
  readonly temperature: number;
  readonly resistance: number;
}

/** The curve at the temperatures asked for, K; those outside its limits are left out. */
export const sensorTable = (curve: SensorCurve, temperatures: readonly number[]): readonly SensorPoint[] =>
  temperatures.flatMap((temperature) => {
    const resistance = sensorResistance(curve, temperature);
    return resistance === undefined ? [] : [{ temperature, resistance }];
  });
