/**
 * A static rail over a refrigerated base against the trade's rules of thumb. Every rule here is common practice, no source:
 * the model is held to their sense and to their figures within what such figures are worth.
 */
import { describe, expect, test } from 'vitest';
import type { CabinetEvent } from '../../src/science/cabinet/event.js';
import { runCabinet, type CabinetRun } from '../../src/science/cabinet/run.js';
import { leastRest } from '../../src/science/frost.js';
import { headPressure } from '../../src/science/pressure-control.js';
import { dewPressure } from '../../src/science/saturation.js';
import { warmFoodScene } from '../../src/science/scenes/warm-food.js';
import { fahrenheit, inFahrenheit, refrigerant, the } from '../science/read-table.js';
import { HOUR, food, fullPan, kitchen, modelOf, rail, settingOf, shared } from '../science/units.js';

const model = modelOf(shared);
const play = (events: readonly CabinetEvent[], hours: number, frost: readonly number[] = []): CabinetRun =>
  the(runCabinet(model, { kitchen, start: 'settled', duration: hours * HOUR, every: 300, events, frost }));
const mean = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0) / of.length;
const railAir = (run: CabinetRun): number => inFahrenheit(mean(the(run.zones[0]).air.slice(-48)));
const railFood = (run: CabinetRun, hours: number) => {
  const series = the(run.loads[0]);
  const i = run.time.findIndex((t) => t >= hours * HOUR);
  return {
    coldest: inFahrenheit(series.coldest[i]),
    mean: inFahrenheit(series.mean[i]),
    warmest: inFahrenheit(series.warmest[i]),
  };
};

const night: CabinetEvent[] = [
  { at: 0, do: 'cooling', zone: 0, on: false },
  { at: 0, do: 'covers', zone: 0, shut: true },
  { at: 8 * HOUR, do: 'cooling', zone: 0, on: true },
  { at: 8 * HOUR, do: 'covers', zone: 0, shut: false },
];

describe('common practice, no source', () => {
  test('air under the pans at 13 to 17 °F holds food of about 40 °F', () => {
    const run = play([], 24);
    expect(railAir(run)).toBeGreaterThan(13);
    expect(railAir(run)).toBeLessThan(17);
    expect(Math.abs(railFood(run, 24).mean - 40)).toBeLessThan(1.5);
  });

  test('a heavily iced rail sits near 32 °F and no longer holds food at 41 °F', () => {
    const run = play([], 24, [7]);
    expect(Math.abs(railAir(run) - 32)).toBeLessThan(6);
    expect(railFood(run, 24).mean).toBeGreaterThan(41);
  });

  test('food left overnight in a rail that is off is at about 45 to 50 °F by morning', () => {
    const found = railFood(play(night, 8), 8);
    expect(found.mean).toBeGreaterThan(45);
    expect(found.mean).toBeLessThan(50);
  });

  test('and the rail can’t bring it back during service: four hours later it is still over 41 °F', () => {
    const run = play(night, 16);
    expect(railFood(run, 12).mean).toBeGreaterThan(41);
    expect(railFood(run, 16).warmest).toBeGreaterThan(41);
  });

  test('a usual off-cycle of 8 h clears a day’s frost, on the upper bound too', () => {
    const rest = the(
      leastRest({ well: rail.well, kitchen, night: fahrenheit(70), surface: fahrenheit(8), running: 16 * HOUR, covers: 'down' }),
    );
    expect(rest.least).toBeLessThanOrEqual(8 * HOUR);
    const run = play([{ at: 0, do: 'move', load: 0, to: 1 }, ...night], 8, [0.7]);
    expect(the(run.zones[0]).frost.at(-1)).toBe(0);
  });

  test('condensing at ambient + 25 to 30 °F: 98 to 103 °F in a 73 °F kitchen', () => {
    const r = refrigerant('R-134a');
    const zero = { reference: 'atmosphere', altitude: 0 } as const;
    for (const split of [25, 30]) {
      const found = the(headPressure(r, fahrenheit(73), split / 1.8, zero));
      expect(found.mean + 101325).toBeCloseTo(the(dewPressure(r, fahrenheit(73 + split))), 0);
    }
  });

  test('on a shared low-pressure control the rail runs whenever the base does, and a stuck base makes its food colder', () => {
    const sound = play([], 24);
    const stuck = play([{ at: 0, do: 'fault', zone: 1, fault: 'stuck-calling', on: true }], 24);
    expect(railFood(stuck, 24).coldest).toBeLessThan(railFood(sound, 24).coldest - 1);
    expect(mean(stuck.running)).toBeGreaterThan(mean(sound.running) + 0.3);
  });

  test('storage cabinets are not made to chill: two full-size pans at 70 or 135 °F miss every limit of cooling', () => {
    for (const warm of [70, 135]) {
      const scene = the(
        warmFoodScene(settingOf(shared), fahrenheit(warm), { in: 'base', pans: { count: 2, pan: fullPan, food } }, [
          { to: fahrenheit(41), within: 4 * HOUR },
          { to: fahrenheit(41), within: 6 * HOUR },
        ]),
      );
      expect(scene.limits.some(({ met }) => met)).toBe(false);
    }
  });
});
