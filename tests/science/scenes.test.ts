/** Scenes: plain data, and the story that each tells. */
import { expect, test } from 'vitest';
import { hotKitchenScene } from '../../src/science/scenes/hot-kitchen.js';
import type { StaticRail } from '../../src/science/cabinet/facts.js';
import { dialScene } from '../../src/science/scenes/dial.js';
import { neverSatisfiedScene } from '../../src/science/scenes/never-satisfied.js';
import { nightScene, skippedRestScene, type DayTimes } from '../../src/science/scenes/night.js';
import { pullDown } from '../../src/science/scenes/pull-down.js';
import { warmFoodScene } from '../../src/science/scenes/warm-food.js';
import { fahrenheit, inFahrenheit, the } from './read-table.js';
import { HOUR, food, forcedAir, freezer, fullPan, separate, settingOf, shared } from './units.js';

const setting = settingOf(shared);
const LIMIT = fahrenheit(41);
const times: DayTimes = { loaded: 8 * HOUR, emptied: 22 * HOUR, off: 22.5 * HOUR, on: 6.5 * HOUR, covers: 'down' };

test('two nights: emptied food stays cold in the base, left food is over the limit in the morning', () => {
  const scene = the(nightScene(setting, times, LIMIT));
  expect(inFahrenheit(scene.atOn.emptied.warmest)).toBeLessThan(41);
  expect(inFahrenheit(scene.atOn.left.coldest)).toBeGreaterThan(41);
  expect(inFahrenheit(scene.atOn.left.warmest)).toBeGreaterThan(45);
  expect(scene.over).toBeGreaterThan(0);
  expect(scene.over).toBeLessThan(8 * HOUR);
  expect(scene.afterShift.warmest).toBeGreaterThan(LIMIT);
  expect(Math.max(...the(scene.emptied.loads[1]).mean)).toBeLessThan(LIMIT);
});

test('a forced-air rail has no clock: left alone it is cooled all night, and the scene asks for no rest of it', () => {
  const scene = the(nightScene({ ...settingOf(forcedAir, 1, 0), rail: 1, base: 0 }, times, LIMIT));
  expect(inFahrenheit(scene.atOn.left.mean)).toBeLessThan(41);
  expect(Math.max(...the(scene.left.zones[1]).air)).toBeLessThan(fahrenheit(50));
});

test('two weeks without an off-cycle: ice grows, air and food warm, day after day; with it they stay', () => {
  const { rested, skipped } = the(skippedRestScene(setting, times));
  expect(skipped.frost).toHaveLength(14);
  for (let day = 1; day < 14; day += 1) expect(the(skipped.frost[day])).toBeGreaterThan(the(skipped.frost[day - 1]));
  expect(the(skipped.frost[13])).toBeGreaterThan(8 * the(rested.frost[13]));
  expect(Math.abs(the(rested.air[13]) - the(rested.air[1]))).toBeLessThan(0.5);
  expect(the(skipped.air[13])).toBeGreaterThan(the(rested.air[13]) + 4);
  expect(the(skipped.food[13]).mean).toBeGreaterThan(the(rested.food[13]).mean + 1.5);
});

test.each([70, 135])('food put in at %d °F misses the limits of cooling, in the base and in the rail', (warm) => {
  const limits = [
    { to: fahrenheit(70), within: 2 * HOUR },
    { to: LIMIT, within: 6 * HOUR },
  ];
  for (const where of [{ in: 'base', pans: { count: 2, pan: fullPan, food } } as const, { in: 'rail' } as const]) {
    const scene = the(warmFoodScene(setting, fahrenheit(warm), where, limits));
    expect(the(scene.limits[1]).met).toBe(false);
    expect(the(scene.limits[0]).met).toBe(warm === 70);
    if (where.in === 'base') expect(the(scene.neighbours)).toBeGreaterThan(fahrenheit(37));
  }
});

test('small cold pans in a box meet a limit that is easy: the scene can say yes', () => {
  const pans = { count: 1, pan: { length: 0.176, width: 0.162, depth: 0.02 }, food };
  const scene = the(warmFoodScene(setting, fahrenheit(50), { in: 'base', pans }, [{ to: LIMIT, within: 6 * HOUR }]));
  expect(the(scene.limits[0]).met).toBe(true);
  expect(the(scene.limits[0]).reached).toBeLessThan(6 * HOUR);
});

test('a 95 °F kitchen: open covers lose the food, shut covers keep its mean', () => {
  const scene = the(hotKitchenScene(setting, { temperature: fahrenheit(95), humidity: 0.4 }, 8 * HOUR, LIMIT));
  expect(scene.open.food.mean).toBeGreaterThan(LIMIT);
  expect(scene.open.meanOver).toBeLessThan(8 * HOUR);
  expect(scene.shut.meanOver).toBeUndefined();
  expect(scene.shut.food.warmest).toBeLessThan(scene.open.food.warmest - 5);
});

test('a base that never satisfies: what happens depends on why', () => {
  const play = (fault: Parameters<typeof neverSatisfiedScene>[1]) => the(neverSatisfiedScene(setting, fault, 24 * HOUR, LIMIT));
  const stuck = play('stuck-calling');
  expect(stuck.running.fault).toBeGreaterThan(0.9);
  expect(stuck.baseAir.late).toBeLessThan(fahrenheit(25));
  expect(stuck.rail.fault.coldest).toBeLessThan(stuck.rail.sound.coldest);
  expect(stuck.baseOver).toBeUndefined();
  const ajar = play('door-ajar');
  expect(ajar.baseAir.late).toBeGreaterThan(LIMIT);
  expect(ajar.baseOver).toBeLessThan(24 * HOUR);
  expect(the(ajar.run.zones[1]).frost.at(-1)).toBeGreaterThan(1);
  const apart = the(neverSatisfiedScene(settingOf(separate), 'stuck-calling', 24 * HOUR, LIMIT));
  expect(apart.railColdest).toBeGreaterThan(stuck.railColdest + 0.5);
});

test('a dial turned down makes colder air and food, one left as it is gives the fit again, one the wrong way round nothing', () => {
  const { cutIn, cutOut } = the(shared.lowPressure);
  const at = (shift: number) => the(dialScene(setting, { cutIn: cutIn + shift, cutOut: cutOut + shift }));
  const [colder, same, warmer] = [at(-3), at(0), at(3)];
  expect(Math.abs(same.air - the(shared.zones[0] as StaticRail).air)).toBeLessThan(1);
  for (const spot of ['coldest', 'mean', 'warmest'] as const) {
    expect(colder.food[spot]).toBeLessThan(same.food[spot]);
    expect(same.food[spot]).toBeLessThan(warmer.food[spot]);
  }
  expect(colder.air).toBeLessThan(same.air - 1.5);
  expect(warmer.air).toBeGreaterThan(same.air + 1.5);
  expect(dialScene(setting, { cutIn: cutOut, cutOut: cutIn })).toBeUndefined();
  expect(dialScene(settingOf(separate), { cutIn, cutOut })).toBeUndefined();
});

test('pull-down: never planned with less than an hour, nor than half as much again as computed', () => {
  const mild = the(pullDown(setting, fahrenheit(20)));
  expect(mild.least).toBeGreaterThanOrEqual(HOUR);
  expect(mild.least).toBeGreaterThanOrEqual(1.5 * mild.computed);
  const hot = the(pullDown({ ...setting, kitchen: { temperature: fahrenheit(95), humidity: 0.4 } }, fahrenheit(20)));
  expect(hot.least).toBeGreaterThanOrEqual(1.5 * HOUR);
  expect(hot.computed).toBeGreaterThanOrEqual(mild.computed);
  expect(pullDown(setting, fahrenheit(-40))).toBeUndefined();
});

test('a bound: in a warmer kitchen an empty rail is never ready sooner, nor planned to be', () => {
  let before = { computed: 0, least: 0 };
  for (let f = 55; f <= 105; f += 5) {
    const now = the(pullDown({ ...setting, kitchen: { temperature: fahrenheit(f), humidity: 0.4 } }, fahrenheit(20)));
    expect(now.computed, `${f} °F`).toBeGreaterThanOrEqual(before.computed);
    expect(now.least, `${f} °F`).toBeGreaterThanOrEqual(before.least);
    before = now;
  }
});

test('a kitchen out of range has no scene; a zone without pans is a mistake of the caller', () => {
  const nowhere = { ...setting, kitchen: { temperature: 400, humidity: 0.5 } };
  expect(nightScene(nowhere, times, LIMIT)).toBeUndefined();
  expect(skippedRestScene(nowhere, times)).toBeUndefined();
  expect(warmFoodScene(nowhere, 300, { in: 'rail' }, [])).toBeUndefined();
  expect(hotKitchenScene(setting, { temperature: 400, humidity: 0.5 }, HOUR, LIMIT)).toBeUndefined();
  expect(neverSatisfiedScene(nowhere, 'door-ajar', HOUR, LIMIT)).toBeUndefined();
  expect(pullDown(nowhere, 270)).toBeUndefined();
  expect(() => nightScene({ ...settingOf(freezer, 0, 0), rail: 5 }, times, LIMIT)).toThrow(RangeError);
});

test('a scene is plain data', () => {
  const scene = the(nightScene(setting, times, LIMIT));
  expect(JSON.parse(JSON.stringify(scene))).toEqual(scene);
});
