/** Food properties against the ASHRAE handbook's table of foods, measured specific heats, and figures computed elsewhere. */
import { expect, test } from 'vitest';
import { diffusivity, foodMaterial, levyConductivity, type Composition, type Food } from '../../src/science/food.js';
import { readTable, the } from '../science/read-table.js';

const composition = (percent: readonly number[]): Composition => {
  const [water, protein, fat, carbohydrate, fiber, ash] = percent.map((p) => p / 100) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return { water, protein, fat, carbohydrate, fiber, ash };
};
const solid = (percent: readonly number[]): Food => ({
  composition: composition(percent),
  porosity: 0,
  freezing: 260,
  source: '',
});

/** Handbook (Refrigeration, thermal properties of foods, table 3): mass %, and specific heat above freezing, kJ/(kg K). */
const TABLE = [
  ['lettuce, iceberg', [95.89, 1.01, 0.19, 2.09, 1.4, 0.48], 4.09],
  ['cucumber', [96.01, 0.69, 0.13, 2.76, 0.8, 0.41], 4.09],
  ['carrots', [87.79, 1.03, 0.19, 10.14, 3, 0.87], 3.92],
  ['celery', [94.64, 0.75, 0.14, 3.65, 1.7, 0.82], 4.07],
  ['cabbage', [92.15, 1.44, 0.27, 5.43, 2.3, 0.71], 4.02],
  ['broccoli', [90.69, 2.98, 0.35, 5.24, 3, 0.92], 4.01],
  ['corn, sweet', [75.96, 3.22, 1.18, 19.02, 2.7, 0.62], 3.62],
  ['garlic', [58.58, 6.36, 0.5, 33.07, 2.1, 1.5], 3.17],
  ['mushrooms', [91.81, 2.09, 0.42, 4.65, 1.2, 0.89], 3.99],
  ['beef sirloin, lean', [71.7, 21.24, 4.4, 0, 0, 1.08], 3.52],
] as const;

test.each(TABLE)('handbook: %s, within 2 %% (its table counts fiber twice)', (_, percent, specificHeat) => {
  const found = foodMaterial(solid(percent), 273.15)?.specificHeat ?? NaN;
  expect(Math.abs(found / 1000 / specificHeat - 1)).toBeLessThan(0.02);
});

test.each(TABLE)(
  "handbook: %s, within 1 %% by the table's own way, fiber on top and nothing evened out",
  (_, percent, specificHeat) => {
    const twice = composition(percent.map((p, i) => (i === 3 ? p + (percent[4] as number) : p)));
    const sum = twice.water + twice.protein + twice.fat + twice.carbohydrate + twice.ash;
    const found = foodMaterial({ composition: twice, porosity: 0, freezing: 260, source: '' }, 273.15)?.specificHeat ?? NaN;
    expect(Math.abs((found * sum) / 1000 / specificHeat - 1)).toBeLessThan(0.01);
  },
);

test.each([
  ['lean beef, 72 % water', [72, 21.5, 5.4, 0, 0, 1.1], 3.43],
  ['carrots, 88.2 % water', [88.2, 1, 0.2, 9.8, 2.9, 0.8], 3.87],
  ['cucumber, 97 % water', [97, 0.6, 0.1, 1.9, 0.6, 0.4], 4.1],
  ['whole milk, 87.5 % water', [87.5, 3.3, 3.5, 5, 0, 0.7], 3.85],
] as const)(
  'measured mean from 0 to 100 °C (Geankoplis, app. A.4): %s, within 5 %% (the solids from memory)',
  (_, percent, measured) => {
    const found = foodMaterial(solid(percent), 323.15)?.specificHeat ?? NaN;
    expect(Math.abs(found / 1000 / measured - 1)).toBeLessThan(0.05);
  },
);

/** At 4.4 °C, computed elsewhere by the same rules: kg/m³, W/(m K), kJ/(kg K). */
test.each([
  ['beef sirloin, lean', [71.7, 21.24, 4.4, 0, 0, 1.08], 1057, 0.489, 3.58],
  ['cheddar', [36.75, 24.9, 33.14, 1.28, 0, 3.93], 1065, 0.34, 2.76],
  ['lettuce', [95.89, 1.01, 0.19, 2.09, 1.4, 0.48], 1008, 0.569, 4.08],
  ['tomato', [93.76, 0.85, 0.33, 4.64, 1.1, 0.42], 1018, 0.563, 4.02],
  ['cooked rice', [68.4, 2.7, 0.3, 28.2, 0.4, 0.4], 1126, 0.494, 3.36],
] as const)('%s: density, conductivity and specific heat at 40 °F', (_, percent, density, conductivity, specificHeat) => {
  const found = the(foodMaterial(solid(percent), 277.55));
  expect(Math.abs(found.density / density - 1)).toBeLessThan(0.003);
  expect(Math.abs(found.conductivity / conductivity - 1)).toBeLessThan(0.01);
  expect(Math.abs(found.specificHeat / 1000 / specificHeat - 1)).toBeLessThan(0.005);
});

test('water alone against IAPWS: 4.184 kJ/(kg K) at 20 °C, 998.2 kg/m³, 0.598 W/(m K) (the last two from memory)', () => {
  const water = the(foodMaterial(solid([100, 0, 0, 0, 0, 0]), 293.15));
  expect(Math.abs(water.specificHeat / 4184 - 1)).toBeLessThan(0.005);
  expect(Math.abs(water.density / 998.2 - 1)).toBeLessThan(0.005);
  expect(Math.abs(water.conductivity / 0.598 - 1)).toBeLessThan(0.01);
});

test('Levy: both materials are treated alike, and the mixture lies between them', () => {
  for (const share of [0, 0.1, 0.25, 0.5, 0.75, 0.9, 1]) {
    const mixed = levyConductivity(0.57, 0.0245, share);
    expect(levyConductivity(0.0245, 0.57, 1 - share)).toBeCloseTo(mixed, 12);
    expect(mixed).toBeGreaterThanOrEqual(0.0245 - 1e-12);
    expect(mixed).toBeLessThanOrEqual(0.57 + 1e-12);
  }
});

test('every food of the table has properties at 5 °C, adds up, and air between the pieces slows it', () => {
  const foods = Object.entries(readTable('foods.yaml') as Record<string, Food>);
  expect(foods.length).toBeGreaterThanOrEqual(15);
  for (const [name, food] of foods) {
    const { water, protein, fat, carbohydrate, ash } = food.composition;
    expect(Math.abs(water + protein + fat + carbohydrate + ash - 1), name).toBeLessThan(0.02);
    const found = the(foodMaterial(food, 278.15));
    const dense = the(foodMaterial({ ...food, porosity: 0 }, 278.15));
    expect(found.conductivity, name).toBeLessThanOrEqual(dense.conductivity);
    expect(diffusivity(found), name).toBeGreaterThan(0.5e-7);
    expect(diffusivity(found), name).toBeLessThan(4e-7);
  }
});
