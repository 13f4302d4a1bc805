/** Natural convection against worked examples and tabulated air. */
import { expect, test } from 'vitest';
import {
  airProperties,
  coldPlateFacingUp,
  floorFilm,
  radiationFilm,
  verticalPlate,
  wallFilm,
} from '../../src/science/convection.js';
import { COVERED_TOP, OPEN_TOP } from '../../src/science/surroundings.js';

test('Incropera example 9.2: vertical plate, Pr 0.69 and Gr 2.63e9: Nu 147', () => {
  expect(verticalPlate(2.63e9 * 0.69, 0.69)).toBeCloseTo(147.16, 1);
});

test("McAdams, cold plate facing up, Pr 5.54 and Gr 3.21e8: Nu 55.446, as in a heat-transfer library's own example", () => {
  expect(coldPlateFacingUp(3.21e8 * 5.54)).toBeCloseTo(55.446, 2);
  expect(coldPlateFacingUp(5e10)).toBeUndefined();
});

test('air at 300 K and one atmosphere (Incropera table A.4, from memory): 15.89e-6 m²/s, 0.0263 W/(m K), Pr 0.707', () => {
  const air = airProperties(300, 101325);
  expect(Math.abs(air.viscosity / 15.89e-6 - 1)).toBeLessThan(0.02);
  expect(Math.abs(air.conductivity / 0.0263 - 1)).toBeLessThan(0.02);
  expect(Math.abs(air.prandtl / 0.707 - 1)).toBeLessThan(0.02);
});

test('the film over an open pan is radiation and the still air of a cold plate; a cover adds its gap in series', () => {
  const convection = floorFilm({ surface: 282, air: 297, length: 0.042, pressure: 101325 }) ?? 1.8;
  const radiation = radiationFilm(282, 297, 0.95);
  expect(radiation + convection).toBeGreaterThan(OPEN_TOP - 1);
  expect(radiation + convection).toBeLessThan(OPEN_TOP + 1.5);
  const gap = 0.025 / 0.025;
  const cover = (between: number) => 1 / (1 / (radiation + convection) + 1 / (gap + between));
  // Between a metal cover (emissivity 0.3) and a plastic one (0.9).
  expect(cover(radiationFilm(282, 290, 0.3))).toBeLessThan(COVERED_TOP);
  expect(cover(radiationFilm(282, 290, 0.85))).toBeGreaterThan(COVERED_TOP);
});

test('higher up the air is thinner and carries less', () => {
  const film = { surface: 265, air: 297, length: 0.2 };
  expect(wallFilm({ ...film, pressure: 83430 })).toBeLessThan(wallFilm({ ...film, pressure: 101325 }));
});
