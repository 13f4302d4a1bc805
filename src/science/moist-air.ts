/**
 * Moist air: how much water a kitchen's air holds, and whether a cold surface in it sweats or frosts.
 * The one place that touches psychrolib (ASHRAE Handbook Fundamentals 2017, ch. 1), whose unit system is global: it is set here, once.
 */
import psychrolib from 'psychrolib';

psychrolib.SetUnitSystem(psychrolib.SI);

const ZERO_CELSIUS = 273.15;
/** Range of the saturation equations, K. */
const COLDEST = 173.15;
const WARMEST = 473.15;
/** Freezing of water, K. */
export const FREEZING = 273.15;

/** Air of a place: K, relative humidity 0..1, Pa absolute. */
export interface MoistAir {
  readonly temperature: number;
  readonly humidity: number;
  readonly pressure: number;
}

const inRange = (temperature: number): boolean => temperature >= COLDEST && temperature <= WARMEST;

/** Far enough from boiling that air is still most of it. */
const mostlyAir = (saturation: number, pressure: number): boolean =>
  pressure >= 1e4 && pressure <= 2e5 && saturation < pressure / 2;

/** Air that the equations hold for. */
const known = ({ temperature, humidity, pressure }: MoistAir): boolean =>
  inRange(temperature) &&
  humidity >= 0 &&
  humidity <= 1 &&
  mostlyAir(psychrolib.GetSatVapPres(temperature - ZERO_CELSIUS), pressure);

/** Saturation pressure of water vapour, Pa, over ice below freezing; undefined outside -100 to 200 °C. */
export const saturationVapourPressure = (temperature: number): number | undefined =>
  inRange(temperature) ? psychrolib.GetSatVapPres(temperature - ZERO_CELSIUS) : undefined;

/** kg of water a kg of dry air over a wet or icy surface of this temperature, K, at a pressure in Pa. */
export const saturatedHumidityRatio = (temperature: number, pressure: number): number | undefined => {
  const saturation = saturationVapourPressure(temperature);
  return saturation !== undefined && mostlyAir(saturation, pressure)
    ? psychrolib.GetHumRatioFromVapPres(saturation, pressure)
    : undefined;
};

/** kg of water a kg of dry air. Higher up, the same temperature and relative humidity hold more. */
export const humidityRatio = (air: MoistAir): number | undefined =>
  known(air) ? psychrolib.GetHumRatioFromRelHum(air.temperature - ZERO_CELSIUS, air.humidity, air.pressure) : undefined;

/** Dew point (frost point below freezing), K. Altitude doesn't change it. Undefined for air too dry to have one above -100 °C. */
export const dewPoint = (air: MoistAir): number | undefined => {
  if (!known(air)) return undefined;
  const celsius = air.temperature - ZERO_CELSIUS;
  const vapour = air.humidity * psychrolib.GetSatVapPres(celsius);
  return vapour > psychrolib.GetSatVapPres(COLDEST - ZERO_CELSIUS)
    ? psychrolib.GetTDewPointFromVapPres(celsius, vapour) + ZERO_CELSIUS
    : undefined;
};

/** Wet bulb, K. */
export const wetBulb = (air: MoistAir): number | undefined =>
  known(air)
    ? psychrolib.GetTWetBulbFromRelHum(air.temperature - ZERO_CELSIUS, air.humidity, air.pressure) + ZERO_CELSIUS
    : undefined;

/** kg of moist air a m³. */
export const airDensity = (air: MoistAir): number | undefined => {
  const ratio = humidityRatio(air);
  return ratio === undefined ? undefined : psychrolib.GetMoistAirDensity(air.temperature - ZERO_CELSIUS, ratio, air.pressure);
};

/** Enthalpy, J a kg of dry air, from dry air and liquid water at 0 °C. */
export const airEnthalpy = (air: MoistAir): number | undefined => {
  const ratio = humidityRatio(air);
  return ratio === undefined ? undefined : psychrolib.GetMoistAirEnthalpy(air.temperature - ZERO_CELSIUS, ratio);
};

/** What a surface of a temperature, K, does in the air: nothing, sweat (gutter, drip), or frost. Undefined where the dew point is. */
export const onSurface = (air: MoistAir, surface: number): 'dry' | 'sweat' | 'frost' | undefined => {
  const dew = dewPoint(air);
  if (dew === undefined || !Number.isFinite(surface)) return undefined;
  if (surface >= dew) return 'dry';
  return surface < FREEZING ? 'frost' : 'sweat';
};
