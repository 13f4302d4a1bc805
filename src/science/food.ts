/**
 * Food as a material: density, specific heat and conductivity from what it is made of, above its freezing point.
 * Source: Choi and Okos 1986, as in ASHRAE Handbook Refrigeration, "Thermal properties of foods", tables 1 and 2.
 */

/** Parts of mass; carbohydrate is the total, with the fiber in it, as food tables print it. They needn't add up to 1 exactly. */
export interface Composition {
  readonly water: number;
  readonly protein: number;
  readonly fat: number;
  readonly carbohydrate: number;
  readonly fiber: number;
  readonly ash: number;
}

/** A food as equipment/tables/foods.yaml holds it. */
export interface Food {
  readonly composition: Composition;
  /** Part of the volume that is air between shreds, dice or grains, 0..1. */
  readonly porosity: number;
  /** Initial freezing point, K. */
  readonly freezing: number;
  readonly source: string;
}

/** What conduction needs: kg/m³, J/(kg K), W/(m K); for what may freeze also where, K, and the heat that takes, J/kg. */
export interface Material {
  readonly density: number;
  readonly specificHeat: number;
  readonly conductivity: number;
  readonly freezing?: { readonly point: number; readonly latent: number };
}

/** J/kg of water that freezes, at 0 °C (IAPWS, from memory). */
const FUSION = 333.6e3;

const ZERO_CELSIUS = 273.15;
const WARMEST = 423.15;

type Polynomial = readonly [number, number, number];

/** a + b t + c t², t in °C: J/(kg K), W/(m K), kg/m³. */
interface Component {
  readonly specificHeat: Polynomial;
  readonly conductivity: Polynomial;
  readonly density: Polynomial;
}

/**
 * Water's first constant is Choi and Okos' 4176.2; the handbook prints 4128.9, with which its own table of foods can't be had again
 * (and which is 1.3 % below water's true specific heat).
 */
const COMPONENTS: Readonly<Record<keyof Composition, Component>> = {
  water: {
    specificHeat: [4176.2, -9.0864e-2, 5.4731e-3],
    conductivity: [0.57109, 1.7625e-3, -6.7036e-6],
    density: [997.18, 3.1439e-3, -3.7574e-3],
  },
  protein: {
    specificHeat: [2008.2, 1.2089, -1.3129e-3],
    conductivity: [0.17881, 1.1958e-3, -2.7178e-6],
    density: [1329.9, -0.5184, 0],
  },
  fat: {
    specificHeat: [1984.2, 1.4733, -4.8008e-3],
    conductivity: [0.18071, -2.7604e-4, -1.7749e-7],
    density: [925.59, -0.41757, 0],
  },
  carbohydrate: {
    specificHeat: [1548.8, 1.9625, -5.9399e-3],
    conductivity: [0.20141, 1.3874e-3, -4.3312e-6],
    density: [1599.1, -0.31046, 0],
  },
  fiber: {
    specificHeat: [1845.9, 1.8306, -4.6509e-3],
    conductivity: [0.18331, 1.2497e-3, -3.1683e-6],
    density: [1311.5, -0.36589, 0],
  },
  ash: {
    specificHeat: [1092.6, 1.8896, -3.6817e-3],
    conductivity: [0.32962, 1.4011e-3, -2.9069e-6],
    density: [2423.8, -0.28063, 0],
  },
};

const KINDS = Object.keys(COMPONENTS) as (keyof Composition)[];

const value = ([a, b, c]: Polynomial, t: number): number => a + b * t + c * t * t;

/** Parts that add up to 1, fiber counted once. */
const parts = (composition: Composition): Composition | undefined => {
  const once = { ...composition, carbohydrate: composition.carbohydrate - composition.fiber };
  if (!KINDS.every((kind) => once[kind] >= 0)) return undefined;
  const sum = KINDS.reduce((total, kind) => total + once[kind], 0);
  if (!(sum > 0.9 && sum < 1.1)) return undefined;
  const share = (kind: keyof Composition): number => once[kind] / sum;
  return {
    water: share('water'),
    protein: share('protein'),
    fat: share('fat'),
    carbohydrate: share('carbohydrate'),
    fiber: share('fiber'),
    ash: share('ash'),
  };
};

/** Dry still air between the pieces, W/(m K), near 5 °C. */
const AIR = 0.0245;

/**
 * Conductivity of two materials mixed, W/(m K).
 * Source: Levy 1981, the modified Maxwell-Eucken equation, which treats both alike; found best in Fricke and Becker's review (2001).
 * @param share part of the volume that the first one fills, 0..1
 */
export const levyConductivity = (first: number, second: number, share: number): number => {
  const ratio = first / second;
  const sigma = (ratio - 1) ** 2 / ((ratio + 1) ** 2 + ratio / 2);
  if (sigma === 0) return first;
  const sum = 2 / sigma - 1 + 2 * share;
  const f = (sum - Math.sqrt(sum * sum - (8 * share) / sigma)) / 2;
  return (second * (2 + ratio + 2 * (ratio - 1) * f)) / (2 + ratio - (ratio - 1) * f);
};

/**
 * Properties of a food at a temperature, K. Components add by mass for the specific heat, by volume for density, in parallel (the upper
 * bound) for the conductivity of the tissue; air between the pieces by Levy's rule.
 * @returns undefined below the food's freezing point or 0 °C, above 150 °C, or for a composition that doesn't add up within a tenth
 */
export const foodMaterial = (food: Food, temperature: number): Material | undefined => {
  const t = temperature - ZERO_CELSIUS;
  const share = parts(food.composition);
  if (share === undefined || !(temperature >= Math.max(food.freezing, ZERO_CELSIUS) && temperature <= WARMEST)) return undefined;
  if (!(food.porosity >= 0 && food.porosity < 1)) return undefined;
  let [specificHeat, volume, tissue] = [0, 0, 0];
  for (const kind of KINDS) {
    const component = COMPONENTS[kind];
    const ofVolume = share[kind] / value(component.density, t);
    specificHeat += share[kind] * value(component.specificHeat, t);
    volume += ofVolume;
    tissue += ofVolume * value(component.conductivity, t);
  }
  return {
    density: (1 - food.porosity) / volume,
    specificHeat,
    conductivity: levyConductivity(tissue / volume, AIR, 1 - food.porosity),
    freezing: { point: food.freezing, latent: share.water * FUSION },
  };
};

/** Thermal diffusivity, m²/s. */
export const diffusivity = ({ density, specificHeat, conductivity }: Material): number => conductivity / (density * specificHeat);
