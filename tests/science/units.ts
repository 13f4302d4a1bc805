/**
 * Invented units for the tests of cabinet and scenes. Their figures are plausible, and nobody's.
 */
import { calibrate, doorExchange } from '../../src/science/cabinet/calibrate.js';
import type { ForcedAirBox, SharedAirRail, StaticRail, UnitFacts } from '../../src/science/cabinet/facts.js';
import type { UnitModel } from '../../src/science/cabinet/model.js';
import type { Setting } from '../../src/science/scenes/setting.js';
import { fahrenheit } from './people-units.js';

export const HOUR = 3600;
export const kitchen = { temperature: fahrenheit(75), humidity: 0.5, pressure: 101325 };
export const food = { density: 1000, specificHeat: 3700, conductivity: 0.5, freezing: { point: 272.5, latent: 300e3 } };
export const sixth = { length: 0.176, width: 0.162, depth: 0.09 };
export const fullPan = { length: 0.53, width: 0.325, depth: 0.09 };

export const rail: StaticRail = {
  name: 'rail',
  cooled: 'static',
  well: { length: 1.5, width: 0.36, depth: 0.14, rims: 16 * 2 * (0.176 + 0.162), unfilled: 0 },
  pans: { count: 16, pan: sixth, food },
  air: fahrenheit(15),
  foodTemperature: fahrenheit(40),
  drains: true,
};

export const base: ForcedAirBox = {
  name: 'base',
  cooled: 'forced-air',
  thermostat: { cutIn: fahrenheit(37), cutOut: fahrenheit(33) },
  volume: 0.45,
  fan: 10,
  pans: { count: 12, pan: sixth, food },
  defrost: { heater: 0, ends: fahrenheit(40), longest: 25 * 60, drip: 0, fanBack: 0 },
};

const rating = { capacity: 420, evaporating: fahrenheit(10), ambient: fahrenheit(90) };

/** The rail's only control is the shared low-pressure control. */
export const shared: UnitFacts = {
  kitchen,
  rating,
  lowPressure: { cutIn: fahrenheit(12.1), cutOut: fahrenheit(-5.3) },
  restartDelay: 180,
  zones: [rail, base],
};

/** A thermostat and a valve for each zone. */
export const separate: UnitFacts = {
  kitchen,
  rating,
  restartDelay: 180,
  zones: [{ ...rail, thermostat: { cutIn: fahrenheit(18), cutOut: fahrenheit(12) } }, base],
};

const airRail: SharedAirRail = {
  name: 'rail',
  cooled: 'shared-air',
  from: 0,
  well: { length: 1.2, width: 0.36, depth: 0.14, rims: 12 * 2 * (0.176 + 0.162), unfilled: 0 },
  pans: { count: 12, pan: sixth, food },
  air: fahrenheit(36),
  foodTemperature: fahrenheit(40),
};

/** One thermostat, a fan that blows the base's air over and under the rail's pans. */
export const forcedAir: UnitFacts = {
  kitchen,
  rating: { capacity: 350, evaporating: fahrenheit(15), ambient: fahrenheit(90) },
  restartDelay: 180,
  zones: [{ ...base, thermostat: { cutIn: fahrenheit(38), cutOut: fahrenheit(33) }, volume: 0.25 }, airRail],
};

/** A rail with a coil and a fan of its own. */
export const fanRail: UnitFacts = {
  kitchen,
  rating: { capacity: 230, evaporating: fahrenheit(10), ambient: fahrenheit(90) },
  restartDelay: 180,
  zones: [
    {
      name: 'rail',
      cooled: 'fan-rail',
      thermostat: { cutIn: fahrenheit(33), cutOut: fahrenheit(28) },
      well: { length: 1.7, width: 0.34, depth: 0.14, rims: 9 * 2 * (0.325 + 0.176), unfilled: 0 },
      pans: { count: 9, pan: { length: 0.325, width: 0.176, depth: 0.09 }, food },
      foodTemperature: fahrenheit(38),
      fan: 8,
    },
  ],
};

/** Two boxes and a rail on one condensing unit. */
export const threeZones: UnitFacts = {
  ...separate,
  zones: [...separate.zones, { ...base, name: 'drawers', volume: 0.2, pans: { count: 4, pan: fullPan, food } }],
};

export const freezer: UnitFacts = {
  kitchen,
  rating: { capacity: 600, evaporating: fahrenheit(-15), ambient: fahrenheit(90) },
  restartDelay: 180,
  zones: [
    {
      name: 'freezer',
      cooled: 'forced-air',
      thermostat: { cutIn: fahrenheit(0), cutOut: fahrenheit(-6) },
      volume: 1.39,
      fan: 20,
      pans: { count: 20, pan: fullPan, food },
      defrost: { heater: 700, ends: fahrenheit(50), longest: 30 * 60, drip: 120, fanBack: fahrenheit(23) },
    },
  ],
};

export const modelOf = (facts: UnitFacts): UnitModel => {
  const found = calibrate(facts);
  if (!found.ok) throw new Error(`${found.fault} in zone ${found.zone}`);
  return found.model;
};

export const settingOf = (facts: UnitFacts, railZone = 0, baseZone = 1): Setting => ({
  model: modelOf(facts),
  kitchen,
  rail: railZone,
  base: baseZone,
  doors: doorExchange(0.45, 12, 1.2),
});
