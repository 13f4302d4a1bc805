/**
 * Saturation of refrigerants: temperature from pressure and back, at dew, at bubble, and in the middle of an evaporator or a condenser.
 * The curves are data (equipment/tables/refrigerants), fitted to CoolProp 8.0.0 by scripts/fit-saturation.py.
 */

/** One monotone curve T(p) = sum of chebyshev[k] * T_k(x), x = ln p scaled to -1..1 over its pressures. */
export interface SaturationCurve {
  /** Lowest and highest pressure of the curve, Pa absolute; outside it there is no answer. */
  readonly pressure: readonly [low: number, high: number];
  /** Coefficients, K. */
  readonly chebyshev: readonly number[];
}

/** A refrigerant as its file under equipment/tables/refrigerants holds it. */
export interface Refrigerant {
  readonly name: string;
  /** Parts of mass by component; they add up to 1. */
  readonly composition: Readonly<Record<string, number>>;
  /** ASHRAE 34 safety class. */
  readonly safety: 'A1' | 'A2L' | 'A2' | 'A3';
  /** K and Pa absolute. */
  readonly critical: { readonly temperature: number; readonly pressure: number };
  readonly sources: { readonly composition: string; readonly safety: string; readonly saturation: string };
  readonly dew: SaturationCurve;
  /** Absent in a pure fluid: then dew and bubble are one. */
  readonly bubble?: SaturationCurve;
  /** The evaporator's inlet, for liquid at 95 °F throttled to this pressure. Absent in a pure fluid: then it is dew. */
  readonly inlet?: SaturationCurve;
}

interface Point {
  /** K */
  readonly temperature: number;
  /** dT / d ln p, K */
  readonly slope: number;
}

/** Clenshaw's recurrence for the sum and, beside it, for its derivative. */
const at = (curve: SaturationCurve, logPressure: number): Point => {
  const low = Math.log(curve.pressure[0]);
  const high = Math.log(curve.pressure[1]);
  const x = (2 * logPressure - low - high) / (high - low);
  let [b1, b2, d1, d2] = [0, 0, 0, 0];
  for (let k = curve.chebyshev.length - 1; k > 0; k -= 1) {
    const d = 2 * b1 + 2 * x * d1 - d2;
    const b = (curve.chebyshev[k] as number) + 2 * x * b1 - b2;
    [d2, d1, b2, b1] = [d1, d, b1, b];
  }
  return { temperature: (curve.chebyshev[0] as number) + x * b1 - b2, slope: (2 * (b1 + x * d1 - d2)) / (high - low) };
};

/** Half-way between two curves at the same pressure; a curve alone is half-way between itself and itself. */
const halfWay = (one: SaturationCurve, other: SaturationCurve, logPressure: number): Point => {
  const a = at(one, logPressure);
  if (one === other) return a;
  const b = at(other, logPressure);
  return { temperature: (a.temperature + b.temperature) / 2, slope: (a.slope + b.slope) / 2 };
};

const temperatureOn = (one: SaturationCurve, other: SaturationCurve, pressure: number): number | undefined => {
  const low = Math.max(one.pressure[0], other.pressure[0]);
  const high = Math.min(one.pressure[1], other.pressure[1]);
  return pressure >= low && pressure <= high ? halfWay(one, other, Math.log(pressure)).temperature : undefined;
};

/** Where two curves both hold: ln p at the ends, and the temperatures there. */
interface Ends {
  readonly low: number;
  readonly high: number;
  readonly coldest: number;
  readonly warmest: number;
}

const known = new WeakMap<SaturationCurve, WeakMap<SaturationCurve, Ends>>();

const endsOf = (one: SaturationCurve, other: SaturationCurve): Ends => {
  const before = known.get(one)?.get(other);
  if (before) return before;
  const low = Math.log(Math.max(one.pressure[0], other.pressure[0]));
  const high = Math.log(Math.min(one.pressure[1], other.pressure[1]));
  const ends = { low, high, coldest: halfWay(one, other, low).temperature, warmest: halfWay(one, other, high).temperature };
  known.set(one, (known.get(one) ?? new WeakMap<SaturationCurve, Ends>()).set(other, ends));
  return ends;
};

/** Newton's method in ln p, kept inside a bracket that every step narrows. It begins near, since ln p goes nearly as 1/T (Clausius and Clapeyron). */
const pressureOn = (one: SaturationCurve, other: SaturationCurve, temperature: number): number | undefined => {
  const { coldest, warmest, ...ends } = endsOf(one, other);
  let { low, high } = ends;
  if (!(temperature >= coldest && temperature <= warmest)) return undefined;
  let guess = low + ((high - low) * (1 / coldest - 1 / temperature)) / (1 / coldest - 1 / warmest);
  for (let step = 0; step < 50 && high - low > 1e-12; step += 1) {
    const { temperature: found, slope } = halfWay(one, other, guess);
    if (found < temperature) low = guess;
    else high = guess;
    const newton = guess + (temperature - found) / slope;
    const next = newton >= low && newton <= high ? newton : (low + high) / 2;
    const moved = Math.abs(next - guess);
    guess = next;
    // Each step squares what was wrong before it.
    if (moved < 1e-8) break;
  }
  return Math.exp(guess);
};

const bubbleOf = (r: Refrigerant): SaturationCurve => r.bubble ?? r.dew;
const inletOf = (r: Refrigerant): SaturationCurve => r.inlet ?? r.dew;

/** Dew temperature, K, at a pressure in Pa absolute: superheat counts from here. Undefined outside the curve. */
export const dewTemperature = (r: Refrigerant, pressure: number): number | undefined => temperatureOn(r.dew, r.dew, pressure);

/** Bubble temperature, K, at a pressure in Pa absolute: subcooling counts from here. Undefined outside the curve. */
export const bubbleTemperature = (r: Refrigerant, pressure: number): number | undefined =>
  temperatureOn(bubbleOf(r), bubbleOf(r), pressure);

/** Temperature, K, of the mixture that enters the evaporator at a pressure in Pa absolute, fed with liquid at 95 °F. */
export const inletTemperature = (r: Refrigerant, pressure: number): number | undefined =>
  temperatureOn(inletOf(r), inletOf(r), pressure);

/** Dew pressure, Pa absolute, at a temperature in K. Undefined outside the curve. */
export const dewPressure = (r: Refrigerant, temperature: number): number | undefined => pressureOn(r.dew, r.dew, temperature);

/** Bubble pressure, Pa absolute, at a temperature in K. Undefined outside the curve. */
export const bubblePressure = (r: Refrigerant, temperature: number): number | undefined =>
  pressureOn(bubbleOf(r), bubbleOf(r), temperature);

/**
 * Mean evaporating temperature, K, at a pressure in Pa absolute: half-way from the evaporator's inlet to dew.
 * It is the temperature that a pressure control on the suction side stands for. Undefined outside the curves (dew -50 to 20 °C).
 */
export const meanEvaporating = (r: Refrigerant, pressure: number): number | undefined =>
  temperatureOn(inletOf(r), r.dew, pressure);

/** Pressure, Pa absolute, for a mean evaporating temperature in K. Undefined outside the curves. */
export const pressureForMeanEvaporating = (r: Refrigerant, temperature: number): number | undefined =>
  pressureOn(inletOf(r), r.dew, temperature);

/** Mean condensing temperature, K, at a pressure in Pa absolute: half-way from dew to bubble. Undefined outside the curves. */
export const meanCondensing = (r: Refrigerant, pressure: number): number | undefined =>
  temperatureOn(bubbleOf(r), r.dew, pressure);

/** Pressure, Pa absolute, for a mean condensing temperature in K. Undefined outside the curves. */
export const pressureForMeanCondensing = (r: Refrigerant, temperature: number): number | undefined =>
  pressureOn(bubbleOf(r), r.dew, temperature);
