/**
 * How much of a processor's time the physics takes, warm; run from the project's folder:
 *   npx tsc -p . --noEmit false --outDir out/js; node out/js/bench/science.js [units of the chain]
 */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { withScenes } from '../src/plan/consequences/index.js';
import { calibrate } from '../src/science/cabinet/calibrate.js';
import { runCabinet } from '../src/science/cabinet/run.js';
import { dewTemperature, meanEvaporating, pressureForMeanCondensing, type Refrigerant } from '../src/science/saturation.js';
import { nightScene, skippedRestScene } from '../src/science/scenes/night.js';
import { planOf } from '../src/fleet/store-papers.js';
import { openWorkshop } from '../src/fleet/workshop.js';
import { demoFiles, TABLE, tryChain } from '../tests/support/chain.js';
import { HOUR, kitchen, modelOf, settingOf, shared } from '../tests/science/units.js';

/** Seconds of the processor since the program began: what other programs take meanwhile does not count. */
const now = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

/** Median of nine of twelve rounds: the first three warm up. */
const median = (round: () => number): number =>
  Array.from({ length: 12 }, round)
    .slice(3)
    .sort((a, b) => a - b)[4] as number;

/** Median seconds a call. */
const seconds = (calls: number, work: (i: number) => unknown): number => {
  let sink: unknown;
  const found = median(() => {
    const start = now();
    for (let i = 0; i < calls; i += 1) sink = work(i);
    return (now() - start) / calls;
  });
  if (sink === null) throw new Error('work gave nothing');
  return found;
};

const row = (what: string, figure: number, unit: string): void =>
  console.log(`${what.padEnd(62)} ${figure.toFixed(3).padStart(9)} ${unit}`);

console.log(`Node ${process.version}`);
const r448a = parse(readFileSync('equipment/tables/refrigerants/r-448a.yaml', 'utf8')) as Refrigerant;
const model = modelOf(shared);
const setting = settingOf(shared);
const times = { loaded: 8 * HOUR, emptied: 22 * HOUR, off: 22.5 * HOUR, on: 6.5 * HOUR, covers: 'down' } as const;
const days = { kitchen, start: 'settled', duration: 48 * HOUR, every: 300, events: [] } as const;

row('dew temperature from pressure', seconds(1e5, (i) => dewTemperature(r448a, 2e5 + i)) * 1e6, 'µs (at most 1)');
row('mean evaporating from pressure', seconds(1e5, (i) => meanEvaporating(r448a, 2e5 + i)) * 1e6, 'µs (at most 1)');
row('pressure for mean condensing', seconds(3e4, (i) => pressureForMeanCondensing(r448a, 300 + i / 1e3)) * 1e6, 'µs (at most 1)');
row('two zones for 48 h', seconds(20, () => runCabinet(model, days)) * 1e3, 'ms (at most 5)');
row('calibrate a unit on shared control', seconds(5, () => calibrate(shared)) * 1e3, 'ms');
row('scene: two nights, emptied and not', seconds(5, () => nightScene(setting, times, 278)) * 1e3, 'ms');
row('scene: two weeks, rested and not', seconds(2, () => skippedRestScene(setting, times)) * 1e3, 'ms');

/** A unit that no other round has: nothing is remembered of it. */
let made = 0;
const newUnit = (): ReturnType<typeof tryChain> => {
  made += 1;
  const table = TABLE.replace('condensing: {', `condensing: { power: ${400 + made / 10} W,`).replace(
    'cut_out: 33 °F, senses: air }',
    'cut_out: 33 °F, senses: air }\n    shelves: { count: 4, volume: 16 cu ft }',
  );
  return tryChain({ 'equipment/table.yaml': table });
};

/** Milliseconds of all scenes of a unit that was planned: what a paper that asks for them waits for. */
const scenes = (): number => {
  const { workshop, stores } = newUnit();
  const { read, plan } = stores.get('street') ?? {};
  const unit = plan?.units['line-1'];
  if (!workshop || !read || !plan || !unit) throw new Error('the unit has no plan');
  const start = now();
  const { scenes: found } = withScenes(workshop.shelf, read, plan, unit);
  const took = now() - start;
  if (!found?.nights || found.never.length === 0) throw new Error('the unit has no scenes');
  return took * 1e3;
};
row('all scenes of one unit', median(scenes), 'ms (at most 100)');

/** Stores of two tables each, in kitchens as they differ over a country: no two wrote the same figures. */
const store = (n: number): string => `name: Store number ${n}
timezone: America/Chicago
hours: Mo-Th ${String(8 + (n % 3)).padStart(2, '0')}:00-22:00; Fr-Su 09:00-2${2 + (n % 2)}:30
altitude: ${(n * 37) % 3000} ft
kitchen: { usual: ${72 + ((n * 7) % 121) / 10} °F, hottest: ${88 + ((n * 11) % 97) / 10} °F, humidity: ${45 + ((n * 13) % 197) / 10} % }
units:
${[60, 72].map((size) => `  line-${size}:\n    { profile: prep-table-${size}, nickname: { en: L, es: L }, position: { en: by the door, es: junto a la puerta }, serial: A${n}, food_goes_to: { zone: base, free_shelf: 12 sq ft, height: 8 in } }`).join('\n')}
`;

/** Plans all stores, and once more with every answer of the physics remembered: what is saved is the physics. */
const chain = (units: number): void => {
  const { workshop } = openWorkshop(demoFiles());
  if (!workshop) throw new Error('the demo does not open');
  const encoder = new TextEncoder();
  const all = Array.from({ length: units / 2 }, (_, n) => encoder.encode(store(n)));
  const round = (): number => {
    const start = now();
    for (const [n, bytes] of all.entries()) {
      const { plan, findings } = planOf(workshop, `sites/store-${n}.yaml`, bytes);
      if (!plan?.units['line-60']?.physics) throw new Error(findings.map((f) => f.code).join());
    }
    return now() - start;
  };
  const [first, again] = [round(), round()];
  row(`the physics of a chain's ${units} units`, first - again, 's on one core (well under 60 on two)');
  row('the rest of their plans', again, 's on one core');
};
chain(Number(process.argv[2] ?? 5000));
