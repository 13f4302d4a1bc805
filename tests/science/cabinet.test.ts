/** The cabinet: it fits the facts, keeps its energy, and its controls do what controls do. */
import { expect, test } from 'vitest';
import { calibrate, doorExchange } from '../../src/science/cabinet/calibrate.js';
import type { CabinetEvent } from '../../src/science/cabinet/event.js';
import { capacityAt, capacityLine, type UnitModel } from '../../src/science/cabinet/model.js';
import { runCabinet, type CabinetRun, type RunQuestion } from '../../src/science/cabinet/run.js';
import { fahrenheit, inFahrenheit, the } from './read-table.js';
import { HOUR, base, forcedAir, freezer, kitchen, modelOf, rail, separate, shared, fanRail, threeZones } from './units.js';

const models = {
  shared: modelOf(shared),
  separate: modelOf(separate),
  forcedAir: modelOf(forcedAir),
  fanRail: modelOf(fanRail),
  threeZones: modelOf(threeZones),
  freezer: modelOf(freezer),
};
const doors = doorExchange(0.45, 12, 1.2);

const play = (m: UnitModel, question: Partial<RunQuestion> = {}): CabinetRun => {
  const run = runCabinet(m, { kitchen, start: 'settled', duration: 24 * HOUR, every: 300, events: [], ...question });
  if (run === undefined) throw new Error('out of range');
  return run;
};
const mean = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0) / of.length;
const late = (of: readonly number[]): number => mean(of.slice(-72));
const spots = (run: CabinetRun, load: number) => [
  late(the(run.loads[load]).coldest),
  late(the(run.loads[load]).mean),
  late(the(run.loads[load]).warmest),
];

test.each(['shared', 'separate'] as const)('%s: the air and the food that were read come out again', (name) => {
  const run = play(models[name], { every: 60, duration: 12 * HOUR });
  expect(Math.abs(mean(the(run.zones[0]).air.slice(180)) - fahrenheit(15))).toBeLessThan(0.5);
  expect(Math.abs(the(the(run.loads[0]).mean.at(-1)) - fahrenheit(40))).toBeLessThan(0.4);
  expect(inFahrenheit(mean(the(run.zones[1]).air))).toBeGreaterThan(33);
  expect(inFahrenheit(mean(the(run.zones[1]).air))).toBeLessThan(37);
});

test('forced air: the same', () => {
  const run = play(models.forcedAir, { every: 60, duration: 12 * HOUR });
  expect(Math.abs(mean(the(run.zones[1]).air) - fahrenheit(36))).toBeLessThan(0.7);
  expect(Math.abs(the(the(run.loads[1]).mean.at(-1)) - fahrenheit(40))).toBeLessThan(0.7);
});

test('a rail with a coil and a fan of its own: the same, and a rest of three hours lets its coil melt', () => {
  const run = play(models.fanRail, { every: 60, duration: 12 * HOUR });
  expect(Math.abs(mean(the(run.zones[0]).air) - fahrenheit(30.5))).toBeLessThan(0.7);
  expect(Math.abs(the(the(run.loads[0]).mean.at(-1)) - fahrenheit(38))).toBeLessThan(0.7);
  const rest = play(models.fanRail, {
    frost: [0.3],
    duration: 3 * HOUR,
    events: [
      { at: 0, do: 'move', load: 0, to: -1 },
      { at: 0, do: 'cooling', zone: 0, on: false },
    ],
  });
  expect(the(rest.zones[0]).frost.at(-1)).toBe(0);
});

test('three zones on one condensing unit: each holds by its own thermostat', () => {
  const run = play(models.threeZones, { every: 60 });
  [15, 35, 35].forEach((f, i) => {
    expect(Math.abs(inFahrenheit(mean(the(run.zones[i]).air)) - f)).toBeLessThan(1);
  });
});

const busy: CabinetEvent[] = [
  { at: HOUR, do: 'doors', zone: 0, exchange: doors },
  { at: 2 * HOUR, do: 'kitchen', temperature: fahrenheit(90), humidity: 0.6 },
  { at: 3 * HOUR, do: 'covers', zone: 0, shut: true },
  { at: 4 * HOUR, do: 'move', load: 0, to: -1 },
  { at: 5 * HOUR, do: 'cooling', zone: 0, on: false },
  { at: 6 * HOUR, do: 'defrost', zone: 0 },
  { at: 12 * HOUR, do: 'cooling', zone: 0, on: true },
  { at: 14 * HOUR, do: 'fill', load: 0, temperature: fahrenheit(70) },
  { at: 14 * HOUR, do: 'move', load: 0, to: 0 },
  { at: 16 * HOUR, do: 'fault', zone: 0, fault: 'drain-blocked', on: true },
  { at: 18 * HOUR, do: 'fault', zone: 0, fault: 'door-ajar', on: true },
];

test.each(['shared', 'separate', 'forcedAir', 'fanRail', 'threeZones', 'freezer'] as const)(
  '%s: heat in is heat held, removed and melted, to a thousandth',
  (name) => {
    const { gained, held, removed, melted } = play(models[name], { events: busy, frost: [0.5] }).heat;
    expect(Math.abs(gained - held - removed - melted)).toBeLessThan(1e-3 * Math.abs(removed));
  },
);

test('capacity falls with colder evaporating and with a hotter kitchen, and never below nothing', () => {
  const m = models.shared;
  const [mild, hot] = [capacityLine(m, fahrenheit(75)), capacityLine(m, fahrenheit(105))];
  expect(capacityAt(capacityLine(m, m.ambient), m.evaporating)).toBeCloseTo(420, 6);
  expect(capacityAt(mild, 250)).toBeLessThan(capacityAt(mild, 260));
  expect(capacityAt(hot, 260)).toBeLessThan(capacityAt(mild, 260));
  expect(capacityAt(mild, 180)).toBe(0);
  expect(capacityAt(mild, 320)).toBe(capacityAt(mild, 330));
});

test('facts that contradict each other are named, not forced', () => {
  const fault = (facts: typeof shared) => {
    const found = calibrate(facts);
    return found.ok ? 'ok' : `${found.fault} ${found.zone}`;
  };
  expect(fault({ ...shared, zones: [{ ...rail, foodTemperature: fahrenheit(14) }, base] })).toBe('food-does-not-fit-air 0');
  expect(fault({ ...shared, zones: [{ ...rail, foodTemperature: fahrenheit(80) }, base] })).toBe('food-does-not-fit-air 0');
  expect(fault({ ...shared, zones: [{ ...rail, air: fahrenheit(-10), foodTemperature: fahrenheit(30) }, base] })).toMatch(
    /air-too-cold 0|food-does-not-fit-air 0/,
  );
  expect(fault({ ...shared, lowPressure: { cutIn: 255, cutOut: 262 } })).toBe('controls-contradict 0');
  expect(fault({ ...separate, zones: [rail, base] })).toBe('controls-contradict 0');
  expect(fault({ ...shared, zones: [rail, { ...base, thermostat: { cutIn: 273, cutOut: 276 } }] })).toBe('controls-contradict 1');
  expect(fault({ ...shared, kitchen: { ...kitchen, humidity: 2 } })).toBe('kitchen-out-of-range 0');
  expect(() => calibrate({ ...shared, zones: [] })).toThrow(RangeError);
});

test('resting the rail rests only the rail: the base holds', () => {
  for (const m of [models.shared, models.separate]) {
    const run = play(m, { events: [{ at: 0, do: 'cooling', zone: 0, on: false }], duration: 8 * HOUR });
    expect(inFahrenheit(Math.max(...the(run.loads[1]).mean))).toBeLessThan(38);
    expect(the(run.zones[0]).air.at(-1)).toBeGreaterThan(fahrenheit(50));
  }
});

test('on shared control a base that always calls drives the rail colder; on separate controls it does not', () => {
  const events: CabinetEvent[] = [{ at: 0, do: 'fault', zone: 1, fault: 'stuck-calling', on: true }];
  const change = (m: UnitModel) => late(the(play(m, { events }).loads[0]).mean) - late(the(play(m).loads[0]).mean);
  expect(change(models.shared)).toBeLessThan(-0.7);
  expect(Math.abs(change(models.separate))).toBeLessThan(0.5);
});

test('the compressor keeps its restart delay, and stops and starts at the pressures on the dial', () => {
  const run = play(models.shared, { every: 5, duration: 4 * HOUR });
  const starts = run.running.flatMap((r, i) => (i > 1 && r > 0 && run.running[i - 1] === 0 ? [i] : []));
  const stops = run.running.flatMap((r, i) => (i > 1 && r < 1 && run.running[i - 1] === 1 ? [i] : []));
  expect(starts.length).toBeGreaterThan(5);
  for (const start of starts) {
    const stop = stops.filter((s) => s < start).at(-1);
    if (stop !== undefined) expect((start - stop) * 5).toBeGreaterThanOrEqual(180 - 10);
  }
  expect(Math.min(...run.suction)).toBeGreaterThan(fahrenheit(-5.3) - 0.2);
});

test('the result does not hang on the step: points every 10 s and every 5 min agree', () => {
  const at = (every: number) => play(models.shared, { every, events: busy.slice(0, 3) });
  const [fine, coarse] = [at(10), at(300)];
  expect(Math.abs(the(the(fine.loads[0]).mean.at(-1)) - the(the(coarse.loads[0]).mean.at(-1)))).toBeLessThan(0.15);
  expect(Math.abs(late(the(coarse.loads[1]).mean) - mean(the(fine.loads[1]).mean.slice(-2160)))).toBeLessThan(0.15);
});

test('ice insulates the liner: the iced rail’s air and food are warmer', () => {
  const [clean, iced] = [play(models.shared), play(models.shared, { frost: [7] })];
  expect(late(the(iced.zones[0]).air)).toBeGreaterThan(late(the(clean.zones[0]).air) + 4);
  expect(late(the(iced.loads[0]).mean)).toBeGreaterThan(fahrenheit(43));
});

test('while ice melts in a rest the liner stays at the ice point; then it warms', () => {
  const events: CabinetEvent[] = [
    { at: 0, do: 'move', load: 0, to: 1 },
    { at: 0, do: 'cooling', zone: 0, on: false },
  ];
  const run = play(models.shared, { events, frost: [1] });
  const melting = run.time.flatMap((t, i) =>
    t > HOUR / 4 && the(the(run.zones[0]).frost[i]) > 0.01 ? [the(the(run.zones[0]).coil[i])] : [],
  );
  expect(melting.length).toBeGreaterThan(5);
  for (const coil of melting) expect(coil).toBeCloseTo(273.15, 6);
  expect(the(run.zones[0]).frost.at(-1)).toBe(0);
  expect(the(run.zones[0]).coil.at(-1)).toBeGreaterThan(285);
});

test('melt water that does not drain freezes again in the morning; wiped, it does not', () => {
  const undrained = modelOf({ ...shared, zones: [{ ...rail, drains: false }, base] });
  const night = (wiped: boolean): CabinetEvent[] => [
    { at: 0, do: 'move', load: 0, to: 1 },
    { at: 0, do: 'cooling', zone: 0, on: false },
    { at: 0, do: 'covers', zone: 0, shut: true },
    ...(wiped ? [{ at: 12 * HOUR - 60, do: 'wipe', zone: 0 } as const] : []),
    { at: 12 * HOUR, do: 'cooling', zone: 0, on: true },
  ];
  const frost = (wiped: boolean) =>
    the(the(play(undrained, { events: night(wiped), frost: [0.5], duration: 14 * HOUR }).zones[0]).frost.at(-1));
  expect(frost(false)).toBeGreaterThan(0.5);
  expect(frost(true)).toBeLessThan(0.1);
});

test('a choked coil loses its air: with doors in use the base warms, though its coil is colder', () => {
  const events: CabinetEvent[] = [{ at: 0, do: 'doors', zone: 1, exchange: doors }];
  const [clean, choked] = [play(models.shared, { events }), play(models.shared, { events, frost: [0, 2.5] })];
  expect(late(the(choked.zones[1]).air)).toBeGreaterThan(late(the(clean.zones[1]).air));
  expect(late(the(choked.zones[1]).coil)).toBeLessThan(late(the(clean.zones[1]).coil) - 3);
});

test('an electric defrost clears the coil, ends by its temperature, and the food hardly notices', () => {
  const events: CabinetEvent[] = [
    { at: 0, do: 'doors', zone: 0, exchange: 3 * doors },
    ...[6, 12, 18].map((h) => ({ at: h * HOUR, do: 'defrost', zone: 0 }) as const),
  ];
  const run = play(models.freezer, { events, every: 60 });
  const at = (hours: number) => run.time.findIndex((t) => t >= hours * HOUR);
  expect(the(run.zones[0]).frost[at(6) - 1]).toBeGreaterThan(0.2);
  expect(Math.min(...the(run.zones[0]).frost.slice(at(6), at(6.5)))).toBe(0);
  expect(inFahrenheit(Math.max(...the(run.zones[0]).coil))).toBeLessThan(52);
  expect(inFahrenheit(Math.max(...the(run.loads[0]).mean))).toBeLessThan(5);
});

test('food that leaves the unit is held as it was; food that comes in warm warms its neighbours a little', () => {
  const out = play(models.shared, { events: [{ at: 0, do: 'move', load: 0, to: -1 }], duration: 6 * HOUR });
  expect(the(out.loads[0]).mean.at(-1)).toBe(the(out.loads[0]).mean[0]);
  const warm = play(models.shared, {
    events: [
      { at: 0, do: 'fill', load: 0, temperature: fahrenheit(70) },
      { at: 0, do: 'move', load: 0, to: 1 },
    ],
  });
  expect(Math.max(...the(warm.loads[1]).warmest)).toBeGreaterThan(Math.max(...the(play(models.shared).loads[1]).warmest));
});

test('two equal questions give two equal answers', () => {
  expect(JSON.stringify(play(models.shared, { events: busy }))).toBe(JSON.stringify(play(models.shared, { events: busy })));
});

test('a kitchen out of range has no answer; a zone or load that does not exist is a mistake of the caller', () => {
  const question = { kitchen, start: 'settled' as const, duration: HOUR, every: 300 };
  expect(runCabinet(models.shared, { ...question, kitchen: { temperature: 400, humidity: 0.5 }, events: [] })).toBeUndefined();
  expect(
    runCabinet(models.shared, { ...question, events: [{ at: 60, do: 'kitchen', temperature: 300, humidity: 1.5 }] }),
  ).toBeUndefined();
  expect(() => runCabinet(models.shared, { ...question, events: [{ at: 60, do: 'wipe', zone: 7 }] })).toThrow(RangeError);
  expect(() => runCabinet(models.shared, { ...question, events: [{ at: 60, do: 'fill', load: 7, temperature: 300 }] })).toThrow(
    RangeError,
  );
  expect(() => runCabinet(models.shared, { ...question, duration: 0, events: [] })).toThrow(RangeError);
});

test('spots are in order', () => {
  const [coldest, middle, warmest] = spots(play(models.shared), 0);
  expect(the(coldest)).toBeLessThan(the(middle));
  expect(the(middle)).toBeLessThan(the(warmest));
});

test('shallow pans step their food by less: a third of an inch of it stays between air and kitchen', () => {
  const pans = { ...rail.pans, pan: { ...rail.pans.pan, depth: 0.008 } };
  const m = modelOf({
    ...separate,
    zones: [{ ...rail, thermostat: { cutIn: fahrenheit(18), cutOut: fahrenheit(12) }, pans }, base],
  });
  const food = the(play(m).loads[0]);
  expect(Math.min(...food.coldest)).toBeGreaterThan(fahrenheit(5));
  expect(Math.max(...food.warmest)).toBeLessThan(kitchen.temperature);
});

test('a run that has seen what was to be seen ends at that point, and is the same until then', () => {
  const m = models.shared;
  const until = play(m, { seen: ({ time }) => (time.at(-1) ?? 0) >= 6 * HOUR });
  expect(until.time.at(-1)).toBeCloseTo(6 * HOUR, 3);
  expect(play(m).zones[0]?.air.slice(0, until.time.length)).toEqual(until.zones[0]?.air);
});
