/** Moist air against ASHRAE's table 3 and against figures computed with psychrolib on its own. */
import { expect, test } from 'vitest';
import {
  airEnthalpy,
  dewPoint,
  humidityRatio,
  saturatedHumidityRatio,
  saturationVapourPressure,
  wetBulb,
} from '../../src/science/moist-air.js';
import { standardPressure } from '../../src/science/atmosphere.js';
import { fahrenheit, feet, inFahrenheit } from '../science/read-table.js';

test.each([
  [-20, 103.24],
  [-5, 401.74],
  [5, 872.6],
  [25, 3169.7],
  [50, 12351.3],
])('ASHRAE Fundamentals ch. 1 table 3: saturation at %d °C, %d Pa, within 300 ppm', (celsius, pascal) => {
  expect(Math.abs((saturationVapourPressure(celsius + 273.15) ?? NaN) / pascal - 1)).toBeLessThan(3e-4);
});

test.each([
  [-20, 0.0006373],
  [-5, 0.0024863],
  [5, 0.005425],
  [25, 0.020173],
])(
  'ASHRAE Fundamentals ch. 1 table 3: saturated air at %d °C holds %d, within 1 % (no enhancement factor here)',
  (celsius, ratio) => {
    expect(Math.abs((saturatedHumidityRatio(celsius + 273.15, 101325) ?? NaN) / ratio - 1)).toBeLessThan(0.01);
  },
);

/** °F, relative humidity, dew point °F, kg/kg, wet bulb °F, Btu/lb from 0 °F: at sea level, computed with psychrolib 2.5.0. */
test.each([
  [70, 0.5, 50.53, 0.00778, 58.45, 25.3],
  [75, 0.5, 55.12, 0.00924, 62.55, 28.11],
  [80, 0.5, 59.71, 0.01092, 66.66, 31.18],
  [86, 0.35, 55.18, 0.00926, 66.26, 30.82],
  [86, 0.6, 70.5, 0.01604, 74.86, 38.27],
  [90, 0.5, 68.86, 0.01515, 74.91, 38.28],
])('%d °F and %d: dew point %d °F, %d kg/kg, wet bulb %d °F', (f, humidity, dew, ratio, wet, enthalpy) => {
  const air = { temperature: fahrenheit(f), humidity, pressure: 101325 };
  expect(Math.abs(inFahrenheit(dewPoint(air)) - dew)).toBeLessThan(0.02);
  expect(Math.abs((humidityRatio(air) ?? NaN) - ratio)).toBeLessThan(1.5e-5);
  expect(Math.abs(inFahrenheit(wetBulb(air)) - wet)).toBeLessThan(0.02);
  // The handbook's other scale counts from dry air at 0 °F and is 7.68 Btu/lb (17.86 kJ/kg) higher.
  expect(Math.abs((airEnthalpy(air) ?? NaN) / 2326 + 7.68 - enthalpy)).toBeLessThan(0.05);
});

test('at 5280 ft the same air holds more water, and has the same dew point', () => {
  const air = { temperature: fahrenheit(77), humidity: 0.5, pressure: standardPressure(feet(5280)) as number };
  expect(Math.abs((humidityRatio(air) ?? NaN) - 0.01204)).toBeLessThan(1.5e-5);
  expect(Math.abs(inFahrenheit(dewPoint(air)) - 56.96)).toBeLessThan(0.02);
});
