/**
 * Temperature sensors: what one reads at a temperature (ohms, or volts where its maker's table gives these) and back, and what it must read in
 * stirred ice. A sensor is known by its curve, not by its resistance at 25 °C; the curves are data (equipment/tables/sensors, or a profile's own).
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

/** A row of a table: K, and ohm or V. */
export interface SensorPoint {
  readonly temperature: number;
  readonly reads: number;
}

/** A maker's table of points, coldest first; what it reads goes one way. Between two of them, see `pointsReading`. */
export interface Points {
  readonly form: 'points';
  readonly quantity: 'resistance' | 'voltage';
  readonly points: readonly SensorPoint[];
}

/** A curve as its file under equipment/tables/sensors, or a profile, holds it. */
export type SensorCurve = (SteinhartHart | Beta | Platinum | Points) & {
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

/**
 * Between two points. A resistance that falls as it gets warmer is a thermistor's: ln R is nearly straight over 1/T (of a single beta wholly so).
 * One that rises, and volts, are nearly straight over T.
 * How far off, for points 10 and 20 °F apart: tests/outside/sensor.test.ts.
 */
const axes = ({ quantity, points }: Points) =>
  quantity === 'resistance' && (points[0] as SensorPoint).reads > (points.at(-1) as SensorPoint).reads
    ? { x: (t: number) => 1 / t, t: (x: number) => 1 / x, y: Math.log, reads: Math.exp }
    : { x: (t: number) => t, t: (x: number) => x, y: (r: number) => r, reads: (y: number) => y };

/** The two points between which something lies; the outermost two beyond them. @param before whether it lies before a point */
const around = (points: readonly SensorPoint[], before: (point: SensorPoint) => boolean): readonly [SensorPoint, SensorPoint] => {
  const found = points.findIndex(before);
  const upper = Math.max(1, found < 0 ? points.length - 1 : found);
  return [points[upper - 1] as SensorPoint, points[upper] as SensorPoint];
};

const line = (x: number, [x0, y0]: readonly [number, number], [x1, y1]: readonly [number, number]): number =>
  y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);

const pointsReading = (curve: Points, temperature: number): number => {
  const { x, y, reads } = axes(curve);
  const [cold, warm] = around(curve.points, (point) => point.temperature >= temperature);
  return reads(line(x(temperature), [x(cold.temperature), y(cold.reads)], [x(warm.temperature), y(warm.reads)]));
};

const pointsTemperature = (curve: Points, read: number): number => {
  const { x, t, y } = axes(curve);
  const rises = (curve.points[0] as SensorPoint).reads < (curve.points.at(-1) as SensorPoint).reads;
  const [cold, warm] = around(curve.points, (point) => (rises ? point.reads >= read : point.reads <= read));
  return t(line(y(read), [y(cold.reads), x(cold.temperature)], [y(warm.reads), x(warm.temperature)]));
};

const readingOf = (curve: SensorCurve, temperature: number): number => {
  switch (curve.form) {
    case 'steinhart-hart':
      return steinhartHartResistance(curve, temperature);
    case 'beta':
      return curve.resistance * Math.exp(curve.beta * (1 / temperature - 1 / curve.temperature));
    case 'platinum':
      return platinumResistance(curve, temperature);
    case 'points':
      return pointsReading(curve, temperature);
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
    case 'points':
      return pointsTemperature(curve, resistance);
  }
};

/** What binary fractions leave of a limit written in °F, K. */
const SPECK = 1e-9;

const inside = ({ limits }: SensorCurve, temperature: number): boolean =>
  temperature >= limits[0] - SPECK && temperature <= limits[1] + SPECK;

/** Whether a curve is of ohms or of volts. */
export const sensorQuantity = (curve: SensorCurve): 'resistance' | 'voltage' =>
  curve.form === 'points' ? curve.quantity : 'resistance';

/**
 * By how much the slope of a table's curve may differ from one stretch to the next. A thermistor's beta changes by a few hundredths over 20 °F; two digits
 * that changed places change it by a tenth and more. Common practice, no source.
 */
const BEND = 1.15;

/** Rows of a table that are compared, K: between these the last figure's rounding is little of the change. */
const FAR_APART = 9;

/** The place of the last figure in which a table's readings differ from noughts, ohm: 10 where all end in a nought. */
const lastFigure = (points: readonly SensorPoint[]): number => {
  const isWhole = (of: number): boolean => Math.abs(of - Math.round(of)) < 1e-6;
  const places = [1000, 100, 10, 1, 0.1, 0.01];
  return places.find((place) => points.every(({ reads }) => isWhole(reads / place))) ?? 0.001;
};

/** The three points of a thermistor's table at which its curve bends most, where that is more than a sensor's does: one of them was read wrong. */
export const bentAt = (curve: SensorCurve): readonly SensorPoint[] | undefined => {
  if (curve.form !== 'points' || curve.quantity !== 'resistance') return undefined;
  if ((curve.points[0] as SensorPoint).reads < (curve.points.at(-1) as SensorPoint).reads) return undefined;
  const { x, y } = axes(curve);
  // Closer rows bend by the rounding of their last figure; what is left of it is allowed for.
  const points = curve.points.reduce<readonly SensorPoint[]>((kept, point) => {
    const before = kept.at(-1);
    return before && point.temperature - before.temperature < FAR_APART ? kept : [...kept, point];
  }, []);
  const last = lastFigure(points);
  const slopes = points.slice(1).map((warm, i) => {
    const cold = points[i] as SensorPoint;
    const change = y(warm.reads) - y(cold.reads);
    const rounded = (last / 2 / cold.reads + last / 2 / warm.reads) / Math.abs(change);
    return { slope: change / (x(warm.temperature) - x(cold.temperature)), rounded };
  });
  const bends = slopes.slice(1).map(({ slope, rounded }, i) => {
    const before = slopes[i] as (typeof slopes)[number];
    return Math.abs(Math.log(slope / before.slope)) - rounded - before.rounded;
  });
  const most = Math.max(0, ...bends);
  const i = bends.indexOf(most);
  return most > Math.log(BEND) ? points.slice(i, i + 3) : undefined;
};

/** What it reads, ohm or V, at a temperature in K; undefined outside the curve's limits. */
export const sensorReading = (curve: SensorCurve, temperature: number): number | undefined =>
  inside(curve, temperature) ? readingOf(curve, temperature) : undefined;

/** Temperature, K, for what it reads, ohm or V; undefined where it lies outside the curve's limits (an open or shorted sensor does). */
export const sensorTemperature = (curve: SensorCurve, read: number): number | undefined => {
  if (!(read > 0)) return undefined;
  const temperature = temperatureOf(curve, read);
  return inside(curve, temperature) ? temperature : undefined;
};

/** What a sensor may read in stirred crushed ice, ohm or V. Inside it, the sensor is not yet cleared: it needs a second point. */
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
  const expected = sensorReading(curve, ICE);
  const colder = sensorReading(curve, ICE - tolerance);
  const warmer = sensorReading(curve, ICE + tolerance);
  if (expected === undefined || colder === undefined || warmer === undefined) return undefined;
  return { expected, least: Math.min(colder, warmer), most: Math.max(colder, warmer) };
};

/** The curve at the temperatures asked for, K; those outside its limits are left out. */
export const sensorTable = (curve: SensorCurve, temperatures: readonly number[]): readonly SensorPoint[] =>
  temperatures.flatMap((temperature) => {
    const reads = sensorReading(curve, temperature);
    return reads === undefined ? [] : [{ temperature, reads }];
  });
