/** Rows of the model's table that stand on handbooks, reference libraries and exact solutions. */
import { readFileSync } from 'node:fs';
import { standardPressure } from '../src/science/atmosphere.js';
import { coldPlateFacingUp, verticalPlate } from '../src/science/convection.js';
import { foodMaterial } from '../src/science/food.js';
import { frostConductivity } from '../src/science/frost.js';
import { dewPoint, humidityRatio, saturationVapourPressure } from '../src/science/moist-air.js';
import { foodTemperature, panNetwork, steadyPan } from '../src/science/pan.js';
import { panHistory } from '../src/science/pan-history.js';
import { altitudeCorrection, evaporatingAt, headPressure } from '../src/science/pressure-control.js';
import { bubbleTemperature, dewPressure, dewTemperature, inletTemperature, meanEvaporating } from '../src/science/saturation.js';
import { sensorReading } from '../src/science/sensor.js';
import { coils, heads } from '../tests/outside/pressure-points.js';
import { theta, thetaMean } from '../tests/outside/plane-wall.js';
import {
  fahrenheit,
  feet,
  inFahrenheit,
  PSI,
  psig,
  sensorCurve,
  refrigerant,
  refrigerants,
  the,
} from '../tests/science/read-table.js';
import { sixth } from '../tests/science/units.js';
import { once, PRACTICE, type Row } from './model-row.js';

const COOLPROP = 'CoolProp 8.0.0';

const saturationErrors = once(() => {
  const curves = { dew: dewTemperature, bubble: bubbleTemperature, inlet: inletTemperature };
  return readFileSync('tests/outside/reference/saturation.csv', 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('R-'))
    .map((line) => {
      const [name, curve, pressure, temperature] = line.split(',') as [string, keyof typeof curves, string, string];
      return Math.abs(the(curves[curve](refrigerant(name), Number(pressure))) - Number(temperature));
    });
});

const bellows = (altitude: number) => ({ reference: 'atmosphere', altitude: feet(altitude) }) as const;
const coilErrors = (): readonly number[] =>
  coils.flatMap(({ name, dial, altitude, mean, dew }) => {
    const found = the(evaporatingAt(refrigerant(name), dial * PSI, bellows(altitude)));
    return [Math.abs(inFahrenheit(found.mean) - mean), Math.abs(inFahrenheit(found.dew) - dew)];
  });
const headErrors = (): readonly number[] =>
  heads.flatMap(({ name, air, split, mean, dew, bubble }) => {
    const found = the(headPressure(refrigerant(name), fahrenheit(air), split / 1.8, bellows(0)));
    return [found.mean / PSI - mean, found.dew / PSI - dew, found.bubble / PSI - bubble].map(Math.abs);
  });

const r448a = refrigerant('R-448A');
const at0F = once(() => the(dewPressure(r448a, fahrenheit(0))));
const ice5k = (): number => the(sensorReading(sensorCurve('ntc-5k'), 273.15)) / 1000;
const air75 = { temperature: fahrenheit(75), humidity: 0.5, pressure: 101325 };

const condensing = (split: number): number => {
  const r = refrigerant('R-134a');
  const gauge = the(headPressure(r, fahrenheit(73), split / 1.8, { reference: 'atmosphere', altitude: 0 })).mean;
  return inFahrenheit(dewTemperature(r, gauge + 101325));
};

export const properties: readonly Row[] = [
  {
    what: `saturation, ${refrigerants.length} refrigerants, ${saturationErrors().length} points: largest error, K`,
    outside: 'at most 0.1',
    source: COOLPROP,
    compute: () => [Math.max(...saturationErrors())],
    digits: 4,
    bands: [[0, 0.1]],
  },
  {
    what: 'R-448A, dew 0 °F, liquid 95 °F: inlet, mean evaporating, °F',
    outside: '-7.9, -4.0',
    source: COOLPROP,
    compute: () => [inFahrenheit(inletTemperature(r448a, at0F())), inFahrenheit(meanEvaporating(r448a, at0F()))],
    digits: 1,
    bands: [
      [-8.1, -7.7],
      [-4.2, -3.8],
    ],
  },
  {
    what: 'R-134a at 33 and 15 psig: dew, °F',
    outside: '38, 15',
    source: 'trade press',
    compute: () => [33, 15].map((gauge) => inFahrenheit(dewTemperature(refrigerant('R-134a'), psig(gauge)))),
    digits: 1,
    bands: [
      [37.5, 38.5],
      [14.5, 15.5],
    ],
  },
  {
    what: '73 °F air, splits of 25 and 30 °F: condensing, °F',
    outside: '98, 103',
    source: PRACTICE,
    compute: () => [condensing(25), condensing(30)],
    digits: 1,
    bands: [
      [97.8, 98.2],
      [102.8, 103.2],
    ],
  },
  {
    what: 'standard atmosphere at 7000 ft, psia',
    outside: '11.341',
    source: 'ASHRAE table',
    compute: () => [the(standardPressure(feet(7000))) / PSI],
    digits: 3,
    bands: [[11.336, 11.346]],
  },
  {
    what: `${coils.length} dials, from the sea to 7000 ft: largest error of mean and dew, °F`,
    outside: 'at most 0.1 K',
    source: `${COOLPROP} and US Standard Atmosphere 1976`,
    compute: () => [Math.max(...coilErrors())],
    digits: 3,
    bands: [[0, 0.18]],
  },
  {
    what: `${heads.length} head pressures, 87 to 119 °F condensing: largest error of mean, dew and bubble, psi`,
    outside: 'a gauge shows 1',
    source: COOLPROP,
    compute: () => [Math.max(...headErrors())],
    digits: 3,
    bands: [[0, 0.5]],
  },
  {
    what: 'a bellows dial at 5280 ft: to raise, psi',
    outside: '2.60',
    source: 'ASHRAE formula',
    compute: () => [the(altitudeCorrection(bellows(5280))) / PSI],
    digits: 2,
    bands: [[2.58, 2.62]],
  },
  {
    what: '5 k sensor in ice, kohm',
    outside: 'about 16',
    source: PRACTICE,
    compute: () => [ice5k()],
    digits: 1,
    bands: [[15.5, 16.5]],
  },
  {
    what: 'water vapour, saturation at 25 °C, Pa',
    outside: '3169.7',
    source: 'ASHRAE Fundamentals, ch. 1 table 3',
    compute: () => [the(saturationVapourPressure(298.15))],
    digits: 1,
    bands: [[3168.7, 3170.7]],
  },
  {
    what: 'air of 75 °F and 50 %: dew point, °F; g/kg',
    outside: '55.12, 9.24',
    source: 'psychrolib 2.5.0',
    compute: () => [inFahrenheit(dewPoint(air75)), 1000 * the(humidityRatio(air75))],
    digits: 2,
    bands: [
      [55.1, 55.14],
      [9.22, 9.26],
    ],
  },
  {
    what: 'vertical plate, Pr 0.69, Gr 2.63e9: Nu',
    outside: '147',
    source: 'Incropera example 9.2',
    compute: () => [verticalPlate(2.63e9 * 0.69, 0.69)],
    digits: 1,
    bands: [[146, 148]],
  },
  {
    what: 'cold plate facing up, Pr 5.54, Gr 3.21e8: Nu',
    outside: '55.4',
    source: 'McAdams',
    compute: () => [the(coldPlateFacingUp(3.21e8 * 5.54))],
    digits: 1,
    bands: [[55, 56]],
  },
  {
    what: 'frost of 200 kg/m³: least and most conductivity, W/(m K)',
    outside: '0.121, 0.216',
    source: 'four correlations',
    compute: () => [frostConductivity(200).low, frostConductivity(200).high],
    digits: 3,
    bands: [
      [0.12, 0.122],
      [0.215, 0.217],
    ],
  },
];

const material = { density: 1050, specificHeat: 3600, conductivity: 0.5 };

/** Largest errors of a pan that is cooled at its floor, against the exact series. */
const wall = once(() => {
  const alpha = material.conductivity / (material.density * material.specificHeat);
  let [mean, spot] = [0, 0];
  for (const bi of [0.3, 1, 5, 20])
    for (const fo of [0.1, 0.3, 1]) {
      const n = panNetwork({ ...sixth, depth: 0.1 }, material, { top: 0, bottom: bi * 5, walls: 0 });
      const end = the(panHistory(n, { start: 1, above: 1, around: 0, duration: (fo * 0.01) / alpha, every: 600 }).at(-1));
      mean = Math.max(mean, Math.abs(end.mean - thetaMean(bi, fo)));
      spot = Math.max(spot, Math.abs(end.warmest - theta(bi, fo, 0)), Math.abs(end.coldest - theta(bi, fo, 1)));
    }
  return { mean, spot };
});

const pipe = (): number => {
  const steel = { density: 7832, specificHeat: 434, conductivity: 63.9 };
  const n = panNetwork({ length: 1, width: 1, depth: 0.04 }, steel, { top: 0, bottom: 500, walls: 0 }, 20);
  return the(panHistory(n, { start: -20, above: -20, around: 60, duration: 480, every: 60 }).at(-1)).coldest;
};

const lettuce = {
  composition: { water: 0.9589, protein: 0.0101, fat: 0.0019, carbohydrate: 0.0209, fiber: 0.014, ash: 0.0048 },
  porosity: 0,
  freezing: 272.95,
  source: '',
};

const bare = (): readonly number[] => {
  const n = panNetwork({ ...sixth, depth: 0.1 }, material, { top: 7, bottom: 10, walls: 0 });
  const [above, around] = [fahrenheit(75), fahrenheit(15)];
  const spot = foodTemperature(n, steadyPan(n, above, around), above, around);
  return [spot.coldest, spot.mean, spot.warmest].map(inFahrenheit);
};

export const pans: readonly Row[] = [
  {
    what: 'plane wall, 12 pairs of Bi and Fo, eight layers: largest error of the mean, part of the whole difference',
    outside: 'exact series',
    source: 'Incropera eq. 5.39',
    compute: () => [wall().mean],
    digits: 4,
    bands: [[0, 0.005]],
  },
  {
    what: 'the same, of the coldest and warmest spot',
    outside: 'exact series',
    source: 'Incropera eq. 5.39',
    compute: () => [wall().spot],
    digits: 4,
    bands: [[0, 0.015]],
  },
  {
    what: 'wall of a pipe after 8 min, insulated face, °C',
    outside: '42.9 (exact 43.02)',
    source: 'Incropera example 5.4',
    compute: () => [pipe()],
    digits: 2,
    bands: [[42.87, 43.17]],
  },
  {
    what: 'specific heat of lettuce, kJ/(kg K)',
    outside: '4.09',
    source: 'ASHRAE table of foods',
    compute: () => [the(foodMaterial(lettuce, 273.15)).specificHeat / 1000],
    digits: 2,
    bands: [[4.01, 4.17]],
  },
  {
    what: 'pan without walls over 15 °F, 75 °F kitchen, steady: coldest, mean, warmest, °F',
    outside: '29, 42, 55',
    source: 'a sketch computed elsewhere',
    compute: bare,
    digits: 1,
    bands: [
      [28.3, 29.7],
      [41.3, 42.7],
      [54.3, 55.7],
    ],
  },
];
