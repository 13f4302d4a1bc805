/**
 * The table of docs/model.md: the physics against outside figures and the trade's rules of thumb. Run from the project's folder:
 *   npx tsc -p . --noEmit false --outDir out/js; node out/js/scripts/model-table.js
 */
import { readFileSync, readdirSync } from 'node:fs';
import { parse } from 'yaml';
import { standardPressure } from '../src/science/atmosphere.js';
import type { CabinetEvent } from '../src/science/cabinet/event.js';
import { runCabinet, type CabinetRun } from '../src/science/cabinet/run.js';
import { foodMaterial } from '../src/science/food.js';
import { leastRest } from '../src/science/frost.js';
import { foodTemperature, panNetwork, steadyPan } from '../src/science/pan.js';
import { panHistory } from '../src/science/pan-history.js';
import {
  bubbleTemperature,
  dewTemperature,
  inletTemperature,
  meanEvaporating,
  dewPressure,
  type Refrigerant,
} from '../src/science/saturation.js';
import { hotKitchenScene } from '../src/science/scenes/hot-kitchen.js';
import { neverSatisfiedScene } from '../src/science/scenes/never-satisfied.js';
import { nightScene, skippedRestScene } from '../src/science/scenes/night.js';
import { warmFoodScene } from '../src/science/scenes/warm-food.js';
import { sensorResistance, type SensorCurve } from '../src/science/sensor.js';
import { theta, thetaMean } from '../tests/outside/plane-wall.js';
import { fahrenheit, inFahrenheit, the } from '../tests/science/people-units.js';
import { HOUR, food, fullPan, kitchen, rail, separate, settingOf, shared, sixth } from '../tests/science/units.js';

type Row = readonly [what: string, outside: string, model: string, source: string];

const PRACTICE = 'common practice, no source';
const table = (path: string): unknown => parse(readFileSync(`equipment/tables/${path}`, 'utf8'));
const f = (k: number | undefined): string => inFahrenheit(k).toFixed(1);
const spots = (s: { coldest: number; mean: number; warmest: number }): string =>
  `${f(s.coldest)} / ${f(s.mean)} / ${f(s.warmest)}`;
const mean = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0) / of.length;

const saturation = (): Row[] => {
  const all = readdirSync('equipment/tables/refrigerants').map((file) => table(`refrigerants/${file}`) as Refrigerant);
  const curves = { dew: dewTemperature, bubble: bubbleTemperature, inlet: inletTemperature };
  const errors = readFileSync('tests/outside/reference/saturation.csv', 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('R-'))
    .map((line) => {
      const [name, curve, pressure, temperature] = line.split(',') as [string, keyof typeof curves, string, string];
      return Math.abs(the(curves[curve](the(all.find((r) => r.name === name)), Number(pressure))) - Number(temperature));
    });
  const r448a = the(all.find((r) => r.name === 'R-448A'));
  const zero = the(dewPressure(r448a, fahrenheit(0)));
  return [
    [
      `saturation, ${all.length} refrigerants, ${errors.length} points, largest error, K`,
      'at most 0.1',
      Math.max(...errors).toFixed(4),
      'CoolProp 8.0.0',
    ],
    [
      'R-448A, dew 0 °F, liquid 95 °F: inlet / mean evaporating, °F',
      '-7.9 / -4.0',
      `${f(inletTemperature(r448a, zero))} / ${f(meanEvaporating(r448a, zero))}`,
      'CoolProp 8.0.0',
    ],
    [
      'standard atmosphere at 7000 ft, psia',
      '11.341',
      (the(standardPressure(7000 * 0.3048)) / 6894.757).toFixed(3),
      'ASHRAE table',
    ],
    [
      '5 k sensor in ice, kohm',
      'about 16',
      (the(sensorResistance(table('sensors/ntc-5k.yaml') as SensorCurve, 273.15)) / 1000).toFixed(1),
      PRACTICE,
    ],
  ];
};

const conduction = (): Row[] => {
  const material = { density: 1050, specificHeat: 3600, conductivity: 0.5 };
  const alpha = 0.5 / (1050 * 3600);
  let [worstMean, worstSpot] = [0, 0];
  for (const bi of [0.3, 1, 5, 20])
    for (const fo of [0.1, 0.3, 1]) {
      const n = panNetwork({ ...sixth, depth: 0.1 }, material, { top: 0, bottom: bi * 5, walls: 0 });
      const end = the(panHistory(n, { start: 1, above: 1, around: 0, duration: (fo * 0.01) / alpha, every: 600 }).at(-1));
      worstMean = Math.max(worstMean, Math.abs(end.mean - thetaMean(bi, fo)));
      worstSpot = Math.max(worstSpot, Math.abs(end.warmest - theta(bi, fo, 0)), Math.abs(end.coldest - theta(bi, fo, 1)));
    }
  const pipe = panNetwork(
    { length: 1, width: 1, depth: 0.04 },
    { density: 7832, specificHeat: 434, conductivity: 63.9 },
    { top: 0, bottom: 500, walls: 0 },
    20,
  );
  const wall = the(panHistory(pipe, { start: -20, above: -20, around: 60, duration: 480, every: 60 }).at(-1));
  const lettuce = {
    composition: { water: 0.9589, protein: 0.0101, fat: 0.0019, carbohydrate: 0.0209, fiber: 0.014, ash: 0.0048 },
    porosity: 0,
    freezing: 272.95,
    source: '',
  };
  const bare = panNetwork({ ...sixth, depth: 0.1 }, material, { top: 7, bottom: 10, walls: 0 });
  const [above, around] = [fahrenheit(75), fahrenheit(15)];
  return [
    [
      'plane wall, 12 pairs of Bi and Fo, eight layers: largest error of the mean',
      'exact series',
      worstMean.toFixed(4),
      'Incropera eq. 5.39',
    ],
    ['the same, of the coldest and warmest spot', 'exact series', worstSpot.toFixed(4), 'Incropera eq. 5.39'],
    ['wall of a pipe after 8 min, insulated face, °C', '42.9 (exact 43.02)', wall.coldest.toFixed(2), 'Incropera example 5.4'],
    [
      'specific heat of lettuce, kJ/(kg K)',
      '4.09',
      (the(foodMaterial(lettuce, 273.15)).specificHeat / 1000).toFixed(2),
      'ASHRAE table of foods',
    ],
    [
      'pan without walls over 15 °F, 75 °F kitchen, steady, °F',
      '29 / 42 / 55',
      spots(foodTemperature(bare, steadyPan(bare, above, around), above, around)),
      'a sketch computed elsewhere',
    ],
  ];
};

const practice = (): Row[] => {
  const setting = settingOf(shared);
  const model = setting.model;
  const play = (events: readonly CabinetEvent[], hours: number, frost: readonly number[] = []): CabinetRun =>
    the(runCabinet(model, { kitchen, start: 'settled', duration: hours * HOUR, every: 300, events, frost }));
  const at = (run: CabinetRun, hours: number) => {
    const l = the(run.loads[0]);
    const i = run.time.findIndex((t) => t >= hours * HOUR);
    return { coldest: the(l.coldest[i]), mean: the(l.mean[i]), warmest: the(l.warmest[i]) };
  };
  const air = (run: CabinetRun): string => f(mean(the(run.zones[0]).air.slice(-48)));
  const night = (shut: boolean): CabinetEvent[] => [
    { at: 0, do: 'cooling', zone: 0, on: false },
    { at: 0, do: 'covers', zone: 0, shut },
    { at: 8 * HOUR, do: 'cooling', zone: 0, on: true },
    { at: 8 * HOUR, do: 'covers', zone: 0, shut: false },
  ];
  const sound = play([], 24);
  const iced = play([], 24, [7]);
  const [shut, open] = [play(night(true), 14), play(night(false), 14)];
  const rest = (hours: number, covers: 'up' | 'down') => {
    const { melting } = the(
      leastRest({ well: rail.well, kitchen, night: fahrenheit(70), surface: fahrenheit(8), running: hours * HOUR, covers }),
    );
    return [melting.low, melting.likely, melting.high].map((s) => (s / HOUR).toFixed(1)).join(' / ');
  };
  const limit = fahrenheit(41);
  const pans = { count: 2, pan: fullPan, food };
  const warm = (degrees: number, hours: number): string => {
    const scene = the(warmFoodScene(setting, fahrenheit(degrees), { in: 'base', pans }, []));
    return f(scene.run.loads[scene.load]?.mean[(hours * HOUR) / 300]);
  };
  const times = { loaded: 8 * HOUR, emptied: 22 * HOUR, off: 22.5 * HOUR, on: 6.5 * HOUR, covers: 'down' } as const;
  const nights = the(nightScene(setting, times, limit));
  const weeks = the(skippedRestScene(setting, times));
  const hot = the(hotKitchenScene(setting, { temperature: fahrenheit(95), humidity: 0.4 }, 24 * HOUR, limit));
  const faults = (facts: typeof shared, fault: 'stuck-calling' | 'door-ajar' | 'fan-stopped') => {
    const s = the(neverSatisfiedScene(settingOf(facts), fault, 24 * HOUR, limit));
    return `rail ${spots(s.rail.fault)}, base air ${f(s.baseAir.late)}`;
  };
  return [
    ['rail running, 75 °F kitchen: air under the pans (fitted), °F', '13 to 17', air(sound), PRACTICE],
    ['its food, coldest / mean / warmest (mean fitted), °F', 'about 40', spots(at(sound, 24)), PRACTICE],
    ['7 kg of ice on the liner: air, °F', '32', air(iced), PRACTICE],
    ['7 kg of ice: food, °F', 'over 41', spots(at(iced, 24)), PRACTICE],
    ['food left 8 h in a rail that is off, covers shut, °F', '45 to 50', spots(at(shut, 8)), PRACTICE],
    ['the same, covers open, °F', '45 to 50', spots(at(open, 8)), PRACTICE],
    [
      'covers shut, back on: 2, 4, 6 h later, mean °F',
      'not back in a shift',
      [10, 12, 14].map((h) => f(at(shut, h).mean)).join(', '),
      PRACTICE,
    ],
    ['second night, food left, when the rail comes on, °F', '45 to 50', spots(nights.atOn.left), PRACTICE],
    ['the same food 8 h into the shift, °F', 'not back in a shift', spots(nights.afterShift), PRACTICE],
    ['melting a day of 16 h, covers up, low / likely / high, h', 'rest 4 to 8 h', rest(16, 'up'), PRACTICE],
    ['the same, covers down, h', 'rest 4 to 8 h', rest(16, 'down'), PRACTICE],
    ['melting two weeks without a rest, covers up, h', 'a rescue night', rest(14 * 24, 'up'), PRACTICE],
    [
      'two weeks without a rest: rail air on day 1, 7, 14, °F',
      'towards 32',
      [0, 6, 13].map((d) => f(weeks.skipped.air[d])).join(', '),
      PRACTICE,
    ],
    [
      'two full-size pans in the base from 70 °F: mean after 4, 10 h, °F',
      '57, 46 (a sketch); not made to chill',
      `${warm(70, 4)}, ${warm(70, 10)}`,
      PRACTICE,
    ],
    ['from 135 °F: mean after 2, 6 h, °F', '113, 84 (a sketch); not made to chill', `${warm(135, 2)}, ${warm(135, 6)}`, PRACTICE],
    ['95 °F kitchen, 24 h, covers open, °F', '51 (a sketch)', spots(hot.open.food), PRACTICE],
    ['95 °F kitchen, 24 h, covers shut, °F', '', spots(hot.shut.food), PRACTICE],
    ['base stuck calling 24 h, shared control, °F', 'food may freeze', faults(shared, 'stuck-calling'), PRACTICE],
    ['base stuck calling 24 h, separate controls, °F', 'lessened, not cured', faults(separate, 'stuck-calling'), PRACTICE],
    ['base door ajar 24 h, shared control, °F', 'base warms as its coil ices', faults(shared, 'door-ajar'), PRACTICE],
    ['base fan stopped 24 h, shared control, °F', '', faults(shared, 'fan-stopped'), PRACTICE],
  ];
};

for (const row of [
  ['what', 'outside', 'model', 'source'],
  ['---', '---', '---', '---'],
  ...saturation(),
  ...conduction(),
  ...practice(),
])
  console.log(`| ${row.join(' | ')} |`);
