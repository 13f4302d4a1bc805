/**
 * How long the physics takes, warm; run from the project's folder:
 *   npx tsc -p . --noEmit false --outDir out/js; node out/js/bench/science.js
 */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { calibrate } from '../src/science/cabinet/calibrate.js';
import { runCabinet } from '../src/science/cabinet/run.js';
import { dewTemperature, meanEvaporating, pressureForMeanCondensing, type Refrigerant } from '../src/science/saturation.js';
import { nightScene, skippedRestScene } from '../src/science/scenes/night.js';
import { HOUR, kitchen, modelOf, settingOf, shared } from '../tests/science/units.js';

/** Median of nine rounds, in seconds a call. */
const seconds = (calls: number, work: (i: number) => unknown): number => {
  let sink: unknown;
  const rounds = Array.from({ length: 12 }, () => {
    const start = performance.now();
    for (let i = 0; i < calls; i += 1) sink = work(i);
    return (performance.now() - start) / 1000 / calls;
  });
  if (sink === null) throw new Error('work gave nothing');
  return rounds.slice(3).sort((a, b) => a - b)[4] as number;
};

const r448a = parse(readFileSync('equipment/tables/refrigerants/r-448a.yaml', 'utf8')) as Refrigerant;
const model = modelOf(shared);
const setting = settingOf(shared);
const times = { loaded: 8 * HOUR, emptied: 22 * HOUR, off: 22.5 * HOUR, on: 6.5 * HOUR, covers: 'down' } as const;

const rows: readonly (readonly [string, number, string])[] = [
  ['dew temperature from pressure', seconds(1e5, (i) => dewTemperature(r448a, 2e5 + i)) * 1e6, 'µs (at most 1)'],
  ['mean evaporating from pressure', seconds(1e5, (i) => meanEvaporating(r448a, 2e5 + i)) * 1e6, 'µs (at most 1)'],
  ['pressure for mean condensing', seconds(3e4, (i) => pressureForMeanCondensing(r448a, 300 + i / 1e3)) * 1e6, 'µs (at most 1)'],
  [
    'two zones for 48 h',
    seconds(20, () => runCabinet(model, { kitchen, start: 'settled', duration: 48 * HOUR, every: 300, events: [] })) * 1e3,
    'ms (at most 5)',
  ],
  ['calibrate a unit on shared control', seconds(5, () => calibrate(shared)) * 1e3, 'ms'],
  ['scene: two nights, emptied and not', seconds(5, () => nightScene(setting, times, 278)) * 1e3, 'ms'],
  ['scene: two weeks, rested and not', seconds(2, () => skippedRestScene(setting, times)) * 1e3, 'ms'],
];
for (const [what, figure, unit] of rows) console.log(`${what.padEnd(40)} ${figure.toFixed(3).padStart(9)} ${unit}`);
