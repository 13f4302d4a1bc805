/** Rows of the model's table that stand on the trade's rules of thumb of a static rail over a base; none has a source. °F throughout, hours where it says so. */
import type { CabinetEvent } from '../src/science/cabinet/event.js';
import { runCabinet, type CabinetRun } from '../src/science/cabinet/run.js';
import type { Fault } from '../src/science/cabinet/state.js';
import { leastRest } from '../src/science/frost.js';
import type { FoodTemperature } from '../src/science/pan.js';
import { hotKitchenScene } from '../src/science/scenes/hot-kitchen.js';
import { neverSatisfiedScene } from '../src/science/scenes/never-satisfied.js';
import { nightScene, skippedRestScene } from '../src/science/scenes/night.js';
import { warmFoodScene } from '../src/science/scenes/warm-food.js';
import { fahrenheit, inFahrenheit, the } from '../tests/science/people-units.js';
import { HOUR, food, fullPan, kitchen, rail, separate, settingOf, shared } from '../tests/science/units.js';
import { once, PRACTICE, type Band, type Row } from './model-row.js';

const setting = once(() => settingOf(shared));
const limit = fahrenheit(41);

const spots = (s: FoodTemperature): number[] => [s.coldest, s.mean, s.warmest].map(inFahrenheit);

const play = (events: readonly CabinetEvent[], hours: number, frost: readonly number[] = []): CabinetRun =>
  the(runCabinet(setting().model, { kitchen, start: 'settled', duration: hours * HOUR, every: 300, events, frost }));

const foodAfter = (run: CabinetRun, hours: number): FoodTemperature => {
  const l = the(run.loads[0]);
  const i = run.time.findIndex((t) => t >= hours * HOUR);
  return { coldest: the(l.coldest[i]), mean: the(l.mean[i]), warmest: the(l.warmest[i]) };
};

const railAir = (run: CabinetRun): number => {
  const late = the(run.zones[0]).air.slice(-48);
  return inFahrenheit(late.reduce((a, b) => a + b, 0) / late.length);
};

const left = (shut: boolean): CabinetRun =>
  play(
    [
      { at: 0, do: 'cooling', zone: 0, on: false },
      { at: 0, do: 'covers', zone: 0, shut },
      { at: 8 * HOUR, do: 'cooling', zone: 0, on: true },
      { at: 8 * HOUR, do: 'covers', zone: 0, shut: false },
    ],
    14,
  );

const sound = once(() => play([], 24));
const iced = once(() => play([], 24, [7]));
const shutNight = once(() => left(true));
const openNight = once(() => left(false));

const melting = (hours: number, covers: 'up' | 'down') => (): readonly number[] => {
  const question = { well: rail.well, kitchen, night: fahrenheit(70), surface: fahrenheit(8), running: hours * HOUR, covers };
  const band = the(leastRest(question)).melting;
  return [band.low, band.likely, band.high].map((s) => s / HOUR);
};

const warm = (degrees: number, ...hours: readonly number[]): readonly number[] => {
  const pans = { count: 2, pan: fullPan, food };
  const scene = the(warmFoodScene(setting(), fahrenheit(degrees), { in: 'base', pans }, []));
  return hours.map((h) => inFahrenheit(scene.run.loads[scene.load]?.mean[(h * HOUR) / 300]));
};

const times = { loaded: 8 * HOUR, emptied: 22 * HOUR, off: 22.5 * HOUR, on: 6.5 * HOUR, covers: 'down' } as const;
const nights = once(() => the(nightScene(setting(), times, limit)));
const weeks = once(() => the(skippedRestScene(setting(), times)));
const hot = once(() => the(hotKitchenScene(setting(), { temperature: fahrenheit(95), humidity: 0.4 }, 24 * HOUR, limit)));

/** The rail's food and the base's air late in a day, with a fault of the base. */
const faulty = (facts: typeof shared, fault: Fault) => (): readonly number[] => {
  const s = the(neverSatisfiedScene(settingOf(facts), fault, 24 * HOUR, limit));
  return [...spots(s.rail.fault), inFahrenheit(s.baseAir.late)];
};

const over = (low: number): Band => [low, Infinity];
const SPOTS = 'coldest, mean, warmest';

export const practice: readonly Row[] = [
  {
    what: 'rail running, 75 °F kitchen: air under the pans (fitted)',
    outside: '13 to 17',
    source: PRACTICE,
    compute: () => [railAir(sound())],
    digits: 1,
    bands: [[13, 17]],
  },
  {
    what: `its food: ${SPOTS} (the mean is fitted)`,
    outside: 'about 40',
    source: PRACTICE,
    compute: () => spots(foodAfter(sound(), 24)),
    digits: 1,
    bands: [
      [27, 33],
      [38.5, 41.5],
      [50, 60],
    ],
    why: 'the rule is of a probed pan; a corner and an open top are shown too far out, since food’s own mixing, wet surface and shifting by hand are left out',
  },
  {
    what: '7 kg of ice on the liner: air',
    outside: '32',
    source: PRACTICE,
    compute: () => [railAir(iced())],
    digits: 1,
    bands: [[26, 33]],
    why: 'the ice is an even sheet that the coil still freezes hard; that real ice bridges to the pans and is wet at its face is left out',
  },
  {
    what: `7 kg of ice: food, ${SPOTS}`,
    outside: 'no longer holds 41',
    source: PRACTICE,
    compute: () => spots(foodAfter(iced(), 24)),
    digits: 1,
    bands: [undefined, [41, 52], over(41)],
  },
  {
    what: `food left 8 h in a rail that is off, covers shut: ${SPOTS}`,
    outside: '45 to 50',
    source: PRACTICE,
    compute: () => spots(foodAfter(shutNight(), 8)),
    digits: 1,
    bands: [over(41), [45, 50], [45, 55]],
  },
  {
    what: `the same, covers open: ${SPOTS}`,
    outside: '45 to 50',
    source: PRACTICE,
    compute: () => spots(foodAfter(openNight(), 8)),
    digits: 1,
    bands: [over(45), [50, 58], over(50)],
    why: 'the rule is of covered pans; the cooling by water that evaporates from open food is left out, and errs to warm',
  },
  {
    what: 'covers shut, back on: mean 2, 4, 6 h later',
    outside: 'not back in a shift',
    source: PRACTICE,
    compute: () => [10, 12, 14].map((h) => inFahrenheit(foodAfter(shutNight(), h).mean)),
    digits: 1,
    bands: [
      [41, 50],
      [41, 50],
      [41, 50],
    ],
  },
  {
    what: `second night, food left, when the rail comes on: ${SPOTS}`,
    outside: '45 to 50',
    source: PRACTICE,
    compute: () => spots(nights().atOn.left),
    digits: 1,
    bands: [over(41), [45, 50], [45, 55]],
  },
  {
    what: `the same food 8 h into the shift: ${SPOTS}`,
    outside: 'not back in a shift',
    source: PRACTICE,
    compute: () => spots(nights().afterShift),
    digits: 1,
    bands: [undefined, [41, 50], over(41)],
  },
  {
    what: 'melting a day of 16 h, covers up: low, likely, high, h',
    outside: 'a rest of 4 to 8 h clears it',
    source: PRACTICE,
    compute: melting(16, 'up'),
    digits: 1,
    bands: [
      [0, 8],
      [0, 8],
      [0, 8],
    ],
  },
  {
    what: 'the same, covers down, h',
    outside: 'a rest of 4 to 8 h clears it',
    source: PRACTICE,
    compute: melting(16, 'down'),
    digits: 1,
    bands: [
      [0, 8],
      [0, 8],
      [0, 8],
    ],
  },
  {
    what: 'melting two weeks without a rest, covers up: low, likely, high, h',
    outside: 'one usual night is not enough',
    source: PRACTICE,
    compute: melting(14 * 24, 'up'),
    digits: 1,
    bands: [undefined, [8, 24], over(8)],
    why: 'the low end lies under a night: how much kitchen air enters a well nobody publishes, and the band is a factor of ten wide',
  },
  {
    what: 'two weeks without a rest: rail air on day 1, 7, 14',
    outside: 'from 13 to 17 towards 32',
    source: PRACTICE,
    compute: () => [0, 6, 13].map((d) => inFahrenheit(weeks().skipped.air[d])),
    digits: 1,
    bands: [
      [13, 17],
      [17, 32],
      [22, 33],
    ],
  },
  {
    what: 'two full-size pans in the base from 70: mean after 4, 10 h',
    outside: '57, 46 (a sketch); not made to chill',
    source: PRACTICE,
    compute: () => warm(70, 4, 10),
    digits: 1,
    bands: [
      [51, 63],
      [41, 52],
    ],
    why: 'the sketch’s pan stands in still air, this one in a fan’s; neither is at 41 after the law’s four hours',
  },
  {
    what: 'from 135: mean after 2, 6 h',
    outside: '113, 84 (a sketch); not made to chill',
    source: PRACTICE,
    compute: () => warm(135, 2, 6),
    digits: 1,
    bands: [
      [101, 125],
      [70, 98],
    ],
    why: 'as above; both miss the law’s 70 after two hours and 41 after six',
  },
  {
    what: `95 °F kitchen, 24 h, covers open: ${SPOTS}`,
    outside: '51 (a sketch)',
    source: PRACTICE,
    compute: () => spots(hot().open.food),
    digits: 1,
    bands: [undefined, [48, 54], over(51)],
  },
  {
    what: `the same, covers shut: ${SPOTS}`,
    outside: 'colder than with open covers',
    source: PRACTICE,
    compute: () => spots(hot().shut.food),
    digits: 1,
    bands: [
      [20, 35.4],
      [30, 48],
      [41, 70],
    ],
  },
  {
    what: `base stuck calling 24 h, shared control: rail ${SPOTS}; base air`,
    outside: 'rail food may freeze; 26, base air 10 (a sketch)',
    source: PRACTICE,
    compute: faulty(shared, 'stuck-calling'),
    digits: 1,
    bands: [[22, 28.6], undefined, undefined, [5, 15]],
  },
  {
    what: 'the same, separate controls',
    outside: 'lessened, not cured; 31.7 (a sketch)',
    source: PRACTICE,
    compute: faulty(separate, 'stuck-calling'),
    digits: 1,
    bands: [[26.5, 29.6], undefined, undefined, [5, 15]],
    why: 'between the sound rail’s corner, 29.6, and the shared control’s; the sketch’s food is one lump and has no corner',
  },
  {
    what: `base door ajar 24 h, shared control: rail ${SPOTS}; base air`,
    outside: 'base warms as its coil ices: 48 to 63 (a sketch)',
    source: PRACTICE,
    compute: faulty(shared, 'door-ajar'),
    digits: 1,
    bands: [undefined, undefined, undefined, [48, 63]],
  },
  {
    what: `base drain blocked 24 h, shared control: rail ${SPOTS}; base air`,
    outside: 'none',
    source: PRACTICE,
    compute: faulty(shared, 'drain-blocked'),
    digits: 1,
    bands: [undefined, undefined, undefined, undefined],
  },
  {
    what: `base fan stopped 24 h, shared control: rail ${SPOTS}; base air`,
    outside: 'none',
    source: PRACTICE,
    compute: faulty(shared, 'fan-stopped'),
    digits: 1,
    bands: [undefined, undefined, undefined, undefined],
  },
];
