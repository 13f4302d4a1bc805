/** The pan against exact solutions of transient conduction and against worked textbook examples. */
import { describe, expect, test } from 'vitest';
import { foodTemperature, layersAt, panNetwork, steadyPan, stepPan, type Films, type Pan } from '../../src/science/pan.js';
import { panHistory } from '../../src/science/pan-history.js';
import { fahrenheit, inFahrenheit, the } from '../science/read-table.js';
import { coefficient, erf, roots, theta, thetaMean } from './plane-wall.js';

const food = { density: 1050, specificHeat: 3600, conductivity: 0.5 };
const alpha = 0.5 / (1050 * 3600);
const sixth: Pan = { length: 0.176, width: 0.162, depth: 0.1 };

describe('the exact series itself', () => {
  test.each([
    [0.1, 0.3111, 1.0161],
    [1, 0.8603, 1.1191],
    [5, 1.3138, 1.2402],
    [10, 1.4289, 1.262],
    [100, 1.5552, 1.2731],
  ])('Incropera table 5.1: Bi %d: zeta %d, C %d', (bi, zeta, c) => {
    const z = roots(bi, 1)[0] as number;
    expect(Math.abs(z - zeta)).toBeLessThan(6e-5);
    expect(Math.abs(coefficient(z) - c)).toBeLessThan(2e-4);
  });

  test.each([
    [1, 0.5, 0.77296, 0.50411],
    [5, 0.5, 0.52321, 0.13297],
    [10, 1, 0.16382, 0.02317],
  ])('computed elsewhere, the first term alone: Bi %d, Fo %d: centre %d, face %d', (bi, fo, centre, face) => {
    const z = roots(bi, 1)[0] as number;
    const first = coefficient(z) * Math.exp(-z * z * fo);
    expect(first).toBeCloseTo(centre, 4);
    expect(first * Math.cos(z)).toBeCloseTo(face, 4);
    expect(Math.abs(theta(bi, fo, 0) - centre)).toBeLessThan(6e-4);
  });
});

describe('cooled at the floor only, the pan is half a plane wall of its full depth', () => {
  const cases = [0.3, 1, 5, 20].flatMap((bi) => [0.1, 0.3, 1].map((fo) => [bi, fo] as const));
  test.each(cases)(
    'Bi %d, Fo %d: mean within 0.5 %, coldest and warmest within 1.5 % of the whole difference, eight layers',
    (bi, fo) => {
      const films: Films = { top: 0, bottom: (bi * 0.5) / 0.1, walls: 0 };
      const n = panNetwork(sixth, food, films);
      const time = (fo * 0.01) / alpha;
      const end = the(panHistory(n, { start: 1, above: 1, around: 0, duration: time, every: 600 }).at(-1));
      expect(Math.abs(end.mean - thetaMean(bi, fo))).toBeLessThan(0.005);
      expect(Math.abs(end.warmest - theta(bi, fo, 0))).toBeLessThan(0.015);
      expect(Math.abs(end.coldest - theta(bi, fo, 1))).toBeLessThan(0.015);
    },
  );

  test('forty layers agree within 0.1 %', () => {
    const n = panNetwork(sixth, food, { top: 0, bottom: 25, walls: 0 }, 40);
    const end = the(panHistory(n, { start: 1, above: 1, around: 0, duration: (0.3 * 0.01) / alpha, every: 600 }).at(-1));
    expect(Math.abs(end.mean - thetaMean(5, 0.3))).toBeLessThan(0.001);
    expect(Math.abs(end.warmest - theta(5, 0.3, 0))).toBeLessThan(0.001);
  });
});

describe('cooled on all sides, the pan is a brick: the product of three exact walls', () => {
  test.each([
    [5, 4],
    [5, 8],
    [10, 4],
    [20, 3],
  ])(
    'film %d W/(m² K), after %d h: the mean within 2 % of the difference, the coldest corner within 2 %, the centre not shown cooler than it is',
    (film, hours) => {
      const n = panNetwork(sixth, food, { top: film, bottom: film, walls: film });
      const end = the(panHistory(n, { start: 1, above: 0, around: 0, duration: hours * 3600, every: 600 }).at(-1));
      const sides = [sixth.length / 2, sixth.width / 2, sixth.depth / 2];
      const of = (f: (bi: number, fo: number) => number) =>
        sides.reduce((product, half) => product * f((film * half) / 0.5, (alpha * hours * 3600) / half ** 2), 1);
      const [mean, centre, corner] = [of(thetaMean), of((bi, fo) => theta(bi, fo, 0)), of((bi, fo) => theta(bi, fo, 1))];
      expect(Math.abs(end.mean - mean)).toBeLessThan(0.02);
      expect(end.warmest).toBeGreaterThan(centre - 0.005);
      expect(end.warmest).toBeLessThan(centre + 0.03);
      expect(Math.abs(end.coldest - corner)).toBeLessThan(0.02);
    },
  );
});

describe('Incropera and DeWitt, 6th ed., worked examples', () => {
  test('5.1: a thermocouple bead reaches 199 °C in 5.2 s (stirred: one temperature)', () => {
    const diameter = 7.06e-4;
    const bead = { density: 8500, specificHeat: 400, conductivity: 20 };
    const n = panNetwork({ length: 1, width: 1, depth: diameter / 6 }, bead, { top: 400, bottom: 0, walls: 0 });
    const points = panHistory(n, { start: 25, above: 200, around: 200, duration: 6, every: 0.01, stirred: true });
    expect(Math.abs(the(points.find((p) => p.mean >= 199)).time - 5.165)).toBeLessThan(0.05);
  });

  test('5.4: the wall of a pipe: its insulated face is at 43 °C after 8 min, and 27.3 MJ/m went in', () => {
    const steel = { density: 7832, specificHeat: 434, conductivity: 63.9 };
    const n = panNetwork({ length: 1, width: 1, depth: 0.04 }, steel, { top: 0, bottom: 500, walls: 0 }, 20);
    const end = the(panHistory(n, { start: -20, above: -20, around: 60, duration: 480, every: 60 }).at(-1));
    expect(Math.abs(end.coldest - 43.02)).toBeLessThan(0.15);
    expect(Math.abs(end.warmest - 45.36)).toBeLessThan(0.15);
    expect(Math.abs((Math.PI * 0.04 * 7832 * 434 * (end.mean + 20)) / 2.725e7 - 1)).toBeLessThan(0.005);
  });

  test('5.6: frost is 0.68 m deep in the soil after 60 days', () => {
    const soil = { density: 2050, specificHeat: 1840, conductivity: 0.52 };
    const layers = 120;
    const n = panNetwork({ length: 1, width: 1, depth: 4 }, soil, { top: 1e6, bottom: 0, walls: 0 }, layers);
    const ground = layersAt(n, new Array<number>(layers).fill(20));
    for (let hour = 0; hour < 60 * 24; hour += 1) stepPan(n, ground, -15, 20, 3600);
    const below = ground.temperature.findIndex((t) => t > 0);
    const [upper, lower] = [ground.temperature[below - 1] as number, ground.temperature[below] as number];
    const depth = ((below - 0.5 - upper / (lower - upper)) * 4) / layers;
    expect(Math.abs(depth - 0.677)).toBeLessThan(0.01);
    expect(Math.abs(erf(0.677 / 2 / Math.sqrt((0.52 / 2050 / 1840) * 60 * 86400)) - 15 / 35)).toBeLessThan(0.002);
  });
});

test('a first sketch without walls, computed elsewhere: 29 / 42 / 55 °F over air at 15 °F in a 75 °F kitchen', () => {
  const n = panNetwork(sixth, food, { top: 7, bottom: 10, walls: 0 });
  const [above, around] = [fahrenheit(75), fahrenheit(15)];
  const spot = foodTemperature(n, steadyPan(n, above, around), above, around);
  expect(Math.abs(inFahrenheit(spot.coldest) - 29)).toBeLessThan(0.7);
  expect(Math.abs(inFahrenheit(spot.mean) - 42)).toBeLessThan(0.7);
  expect(Math.abs(inFahrenheit(spot.warmest) - 55)).toBeLessThan(0.7);
});
