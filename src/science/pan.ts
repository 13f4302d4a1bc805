/**
 * A pan of food as layers: heat passes up and down between them, in at the top, and out at the bottom and through the pan's walls.
 * The mean of a pan hides a frozen bottom and a warm top, so every answer is coldest, mean and warmest.
 */
import type { Material } from './food.js';

/** Inside length and width of the pan and depth of the food in it, m. */
export interface Pan {
  readonly length: number;
  readonly width: number;
  readonly depth: number;
}

/** Film coefficients from the surroundings to the food's faces, W/(m² K); 0 is an insulated face. */
export interface Films {
  readonly top: number;
  readonly bottom: number;
  readonly walls: number;
}

/** One pan as conductances and capacities. Layer 0 is the top. */
export interface PanNetwork {
  readonly layers: number;
  /** J/K of one layer. */
  readonly capacity: number;
  /** W/K from layer to layer. */
  readonly between: number;
  /** W/K from what is above to the top layer's middle. */
  readonly top: number;
  /** W/K from the air around to the bottom layer's middle, through the floor. */
  readonly bottom: number;
  /** W/K from the air around to one layer's mean, through the walls. */
  readonly wall: number;
  /** Part of each path's difference that falls inside the food: at the top, at the bottom, across. */
  readonly inside: { readonly top: number; readonly bottom: number; readonly wall: number };
  /** K; -Infinity for what doesn't freeze. */
  readonly freezing: number;
  /** J that one layer gives off while it freezes at that point. */
  readonly latent: number;
  /** Largest time step that is stable, s. */
  readonly longestStep: number;
}

/** K. Coldest and warmest are of spots, corners and surfaces included, not of layers. */
export interface FoodTemperature {
  readonly coldest: number;
  readonly mean: number;
  readonly warmest: number;
}

/**
 * A square bar of side s that gives off heat evenly: its mean is 0.1406 s q/k warmer than its faces (q the flux through them).
 * Source: Poisson's equation in a square (0.03514 = 0.1406 / 4, the torsion constant in Timoshenko and Goodier, Theory of Elasticity).
 */
const MEAN_OVER_FACE = 0.1406;
/**
 * Its centre is at most (pi/2)^2 times as much over the faces as its mean: the cosine to which every cooling bar tends (an even source
 * gives 2.10). The larger one is used, so that the warmest spot is not shown cooler than it is.
 */
const CENTRE_OVER_MEAN = (Math.PI / 2) ** 2;

/** Layers of about half an inch; a shallow pan still has three. */
const layersFor = (depth: number): number => Math.min(12, Math.max(3, Math.round(depth / 0.0125)));

/** The network of one pan. Throws for a size or property that is not positive: a programmer's mistake. */
export const panNetwork = (pan: Pan, material: Material, films: Films, layers = layersFor(pan.depth)): PanNetwork => {
  const area = pan.length * pan.width;
  const perimeter = 2 * (pan.length + pan.width);
  const { density, specificHeat, conductivity } = material;
  if (!(area > 0 && pan.depth > 0 && density > 0 && specificHeat > 0 && conductivity > 0))
    throw new RangeError('pan: size or material');
  const height = pan.depth / layers;
  const across = (MEAN_OVER_FACE * 4 * area) / perimeter / conductivity;
  const half = height / 2 / conductivity;
  const through = (film: number, inner: number, face: number): number => (film > 0 ? face / (1 / film + inner) : 0);
  const capacity = density * specificHeat * area * height;
  const between = (conductivity * area) / height;
  const top = through(films.top, half, area);
  const bottom = through(films.bottom, half, area);
  const wall = through(films.walls, across, perimeter * height);
  return {
    layers,
    capacity,
    between,
    top,
    bottom,
    wall,
    inside: { top: (top * half) / area, bottom: (bottom * half) / area, wall: (wall * across) / (perimeter * height) },
    freezing: material.freezing?.point ?? -Infinity,
    latent: material.freezing ? material.freezing.latent * density * area * height : 0,
    longestStep: capacity / (2 * between + wall + Math.max(top, bottom)),
  };
};

/** W/K from the air around the pan to all of its food. */
export const aroundConductance = (n: PanNetwork): number => n.layers * n.wall + n.bottom;

/** W that the food would give to surroundings at 0 K: the sum of conductance times temperature. */
export const aroundPull = (n: PanNetwork, food: ArrayLike<number>): number => {
  let sum = n.bottom * (food[n.layers - 1] as number);
  for (let i = 0; i < n.layers; i += 1) sum += n.wall * (food[i] as number);
  return sum;
};

/** Food layer by layer: K, and J that its ice has given off so far. */
export interface Layers {
  readonly temperature: Float64Array;
  readonly ice: Float64Array;
}

/** Food at known temperatures, K, top first; what is below its freezing point is frozen through. Throws if there is not one for each layer. */
export const layersAt = (n: PanNetwork, temperatures: ArrayLike<number>): Layers => {
  if (temperatures.length !== n.layers) throw new RangeError(`pan: ${n.layers} layers, ${temperatures.length} temperatures`);
  const temperature = Float64Array.from(temperatures);
  return { temperature, ice: temperature.map((t) => (t < n.freezing ? n.latent : 0)) };
};

/** A layer that is past its freezing point freezes, or thaws, before it goes on. */
const freezeOrThaw = (n: PanNetwork, food: Layers, i: number): void => {
  const short = n.capacity * (n.freezing - (food.temperature[i] as number));
  const ice = food.ice[i] as number;
  const change = short > 0 ? Math.min(short, n.latent - ice) : Math.max(short, -ice);
  food.ice[i] = ice + change;
  food.temperature[i] = (food.temperature[i] as number) + change / n.capacity;
};

/**
 * Moves the food on by one step, in place.
 * @param above K, of what is over the pan: kitchen air, or the box's own
 * @param around K, of the air at the floor and the walls
 * @param step s, at most the network's longest
 */
export const stepPan = (n: PanNetwork, food: Layers, above: number, around: number, step: number): void => {
  const { temperature, ice } = food;
  const last = n.layers - 1;
  const share = step / n.capacity;
  let fromAbove = n.top * (above - (temperature[0] as number));
  for (let i = 0; i <= last; i += 1) {
    const here = temperature[i] as number;
    const fromBelow = i < last ? n.between * ((temperature[i + 1] as number) - here) : n.bottom * (around - here);
    const next = here + share * (fromAbove + fromBelow + n.wall * (around - here));
    temperature[i] = next;
    if (next < n.freezing || (ice[i] as number) > 0) freezeOrThaw(n, food, i);
    fromAbove = -fromBelow;
  }
};

/** J that the food holds above 0 K, less what its ice has given off. */
export const heldByFood = (n: PanNetwork, { temperature, ice }: Layers): number => {
  let sum = 0;
  for (let i = 0; i < n.layers; i += 1) sum += n.capacity * (temperature[i] as number) - (ice[i] as number);
  return sum;
};

/** Makes all layers equal: stirred food. */
export const stir = ({ temperature, ice }: Layers): void => {
  for (const of of [temperature, ice]) of.fill(of.reduce((a, b) => a + b, 0) / of.length);
};

/**
 * Coldest, mean and warmest spot. A corner lies as much under a face's mean as that lies under the bar's (the exact solution of a bar is
 * the product of two walls'), so the face's share applies twice. Between layer means and faces the profile is that of steady heat flow; just after a change that
 * exaggerates, so spots are kept between `least` and `most`, the coldest and warmest that food and surroundings have been.
 */
export const foodTemperature = (
  n: PanNetwork,
  food: ArrayLike<number>,
  above: number,
  around: number,
  least = -Infinity,
  most = Infinity,
): FoodTemperature => {
  const last = n.layers - 1;
  const corner = (1 - n.inside.wall) ** 2;
  const centre = 1 + n.inside.wall * (CENTRE_OVER_MEAN - 1);
  let [coldest, warmest, sum] = [Infinity, -Infinity, 0];
  /** A level of the pan whose mean is t: its corner and its centre; a level that freezes has no warmer centre. */
  const level = (t: number): void => {
    const [outer, inner] = [around + (t - around) * corner, t <= n.freezing ? t : around + (t - around) * centre];
    coldest = Math.min(coldest, outer, inner);
    warmest = Math.max(warmest, outer, inner);
  };
  for (let i = 0; i <= last; i += 1) {
    const here = food[i] as number;
    sum += here;
    level(here);
    if (i === 0) level(here + n.inside.top * (above - here));
    if (i === last) level(here + n.inside.bottom * (around - here));
  }
  const keep = (t: number): number => Math.min(most, Math.max(least, t));
  return { coldest: keep(coldest), mean: sum / n.layers, warmest: keep(warmest) };
};

/** Layer temperatures after a long time in unchanging surroundings, K. Throws where every face is insulated. */
export const steadyPan = (n: PanNetwork, above: number, around: number): number[] => {
  if (n.top + n.bottom + n.wall === 0) throw new RangeError('pan: every face is insulated');
  const diagonal = new Array<number>(n.layers);
  const right = new Array<number>(n.layers);
  for (let i = 0; i < n.layers; i += 1) {
    const up = i === 0 ? n.top : n.between;
    const down = i === n.layers - 1 ? n.bottom : n.between;
    diagonal[i] = up + down + n.wall;
    right[i] = n.wall * around + (i === 0 ? n.top * above : 0) + (i === n.layers - 1 ? n.bottom * around : 0);
  }
  for (let i = 1; i < n.layers; i += 1) {
    const factor = n.between / (diagonal[i - 1] as number);
    diagonal[i] = (diagonal[i] as number) - factor * n.between;
    right[i] = (right[i] as number) + factor * (right[i - 1] as number);
  }
  const food = new Array<number>(n.layers);
  for (let i = n.layers - 1; i >= 0; i -= 1) {
    food[i] = ((right[i] as number) + (i < n.layers - 1 ? n.between * (food[i + 1] as number) : 0)) / (diagonal[i] as number);
  }
  return food;
};
