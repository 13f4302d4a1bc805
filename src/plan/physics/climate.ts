/**
 * A store's kitchen rounded outward, to the warmer, wetter and higher side, so that units become equal and what is predicted errs to the safe side.
 */
import { amount, of, type Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import { standardPressure } from '../../science/atmosphere.js';
import type { MoistAir } from '../../science/moist-air.js';
import type { StoreFacts } from '../facts.js';
import { computed, practice } from '../known.js';

type Temperature = Known<Amount<'temperature'>>;

/** K from °F and back, exact at whole degrees. */
export const kelvin = (fahrenheit: number): number => (fahrenheit + 459.67) / 1.8;
export const fahrenheit = (k: number): number => k * 1.8 - 459.67;

/** To the next step up; what binary fractions leave over a step is no step. */
const up = (value: number, step: number): number => Math.ceil(value / step - 1e-6) * step;
/** Even degrees Fahrenheit. */
const evenUp = (k: number): number => kelvin(up(fahrenheit(k), 2));

const FEET = 0.3048;

export interface Climate {
  readonly tree: {
    readonly usual: Temperature;
    readonly hottest: Temperature;
    readonly humidity: Known<Amount<'fraction'>>;
    readonly altitude: Known<Amount<'altitude'>>;
    /** How much the kitchen cools at night, and to what: it melts the ice. */
    readonly cools: Known<Amount<'difference'>>;
    readonly night: Temperature;
  };
  readonly usual: MoistAir;
  /** With the water that the usual kitchen's air holds, or a little more. */
  readonly hottest: MoistAir;
  /** K */
  readonly night: number;
}

/** Relative humidities in steps of 5 %, to the wetter. */
const wetter = (humidity: number): number => Math.min(1, up(humidity, 0.05));

/** Relative humidity of the same air when it is warmer: about half for each 20 °F. Common practice, no source. */
const driedBy = (warmer: number): number => 0.5 ** Math.max(0, warmer / (20 / 1.8));

/** The same kitchen at another temperature, K: warmer, it holds the water that it held, or a little more. */
export const warmed = ({ temperature, humidity, pressure }: MoistAir, to: number): MoistAir => ({
  temperature: to,
  humidity: wetter(humidity * driedBy(to - temperature)),
  pressure,
});

/** @returns undefined for a store outside the standard atmosphere */
export const climateOf = (facts: StoreFacts): Climate | undefined => {
  const { kitchen, altitude } = facts;
  const outward = <Q extends 'temperature' | 'fraction' | 'altitude'>(from: Known<Amount<Q>>, si: number): Known<Amount<Q>> =>
    computed(amount(from.value.q, si), 'rounded-outward', [from], 'up');
  const usual = outward(kitchen.usual, evenUp(kitchen.usual.value.si));
  const hottest = outward(kitchen.hottest, Math.max(usual.value.si, evenUp(kitchen.hottest.value.si)));
  const humidity = outward(kitchen.humidity, wetter(kitchen.humidity.value.si));
  const height = outward(altitude, up(altitude.value.si / FEET, 500) * FEET);
  const pressure = standardPressure(height.value.si);
  if (pressure === undefined) return undefined;
  // A kitchen with its hoods off overnight. Common practice, no source.
  const cools = practice<Amount<'difference'>>(of(10, 'Δ°F'), 'kitchen-cools-at-night');
  const night = computed<Amount<'temperature'>>(
    amount('temperature', usual.value.si - cools.value.si),
    'kitchen-at-night',
    [usual, cools],
    'colder',
  );
  return {
    tree: { usual, hottest, humidity, altitude: height, cools, night },
    usual: { temperature: usual.value.si, humidity: humidity.value.si, pressure },
    hottest: warmed({ temperature: usual.value.si, humidity: humidity.value.si, pressure }, hottest.value.si),
    night: night.value.si,
  };
};
