/**
 * What changes while a unit runs: temperatures, frost, switches. Mutable, and private to one run; a run's result is plain data (run.ts).
 */
import type { MoistAir } from '../moist-air.js';
import { humidityRatio } from '../moist-air.js';
import { layersAt, steadyPan, type Layers } from '../pan.js';
import { capacityLine, type CapacityLine, type LoadModel, type Situation, type UnitModel, type ZoneModel } from './model.js';

export type DefrostPhase = 'none' | 'melting' | 'dripping' | 'fan-waits';

export type Fault = 'door-ajar' | 'fan-stopped' | 'drain-blocked' | 'stuck-calling';

export interface ZoneState {
  /** K */
  coil: number;
  air: number;
  /** At the end of the step that is being tried: K, K, kg of frost, kg melted (frozen, if negative). */
  nextCoil: number;
  nextAir: number;
  nextFrost: number;
  nextMelting: number;
  /** That step's straight lines in the evaporating temperature, and W/K to the refrigerant; see step.ts. */
  base: number;
  gain: number;
  airBase: number;
  airGain: number;
  cooling: number;
  /** kg on the coil or liner. */
  frost: number;
  /** kg of melt water that has not left. */
  water: number;
  calls: boolean;
  /** Switched off by its clock. */
  rests: boolean;
  phase: DefrostPhase;
  /** s, when the phase began. */
  phaseSince: number;
  covered: boolean;
  /** kg/s of kitchen air through doors in use. */
  doors: number;
  readonly faults: Set<Fault>;
  /** Refrigerant passes through its coil while the compressor runs. */
  open: boolean;
  /** Refreshed now and then: W/K coil to air, the supply's share of the coil, W/K to the kitchen, kg/s of frost; W into air and coil. */
  film: number;
  supply: number;
  outside: number;
  frosting: number;
  fanHeat: number;
  coilHeat: number;
  /** K s and s of coil temperature since the last refresh. */
  coilSum: number;
  coilTime: number;
  /** K s of its air since the food was moved on. */
  airSum: number;
  /** W/K and W: all food in the zone's air, as it was when it was moved on. */
  foodConductance: number;
  foodPull: number;
}

export interface LoadState {
  readonly model: LoadModel;
  /** Index of the zone it stands in; -1 is out of the unit. */
  zone: number;
  situation: Situation;
  food: Layers;
  /** Coldest and warmest that it and its surroundings have been since it was filled. */
  least: number;
  most: number;
}

export interface UnitState {
  /** s */
  time: number;
  running: boolean;
  /** s, when the compressor last started or stopped. */
  since: number;
  /** Mean evaporating temperature that the suction gauge shows, K. */
  suction: number;
  nextSuction: number;
  kitchen: number;
  /** kg/kg */
  humidity: number;
  line: CapacityLine;
  readonly zones: ZoneState[];
  readonly loads: LoadState[];
  /** s since the food was moved on. */
  foodWaits: number;
  /** K/s, the fastest of airs and coils in the last step; Infinity after a switch or an event. */
  rate: number;
  /** J since the start: in from the kitchen, fans and heaters; out with the refrigerant; into melting ice. */
  gained: number;
  nextRemoved: number;
  removed: number;
  melted: number;
}

/** Where people cook, K: -20 to 60 °C. */
export const KITCHENS = { low: 253.15, high: 333.15 } as const;
export const inKitchen = (temperature: number): boolean =>
  temperature >= KITCHENS.low - 1e-6 && temperature <= KITCHENS.high + 1e-6;

/** Sets the kitchen; false where it is outside the equations or where nobody cooks. */
export const setKitchen = (m: UnitModel, u: UnitState, kitchen: Pick<MoistAir, 'temperature' | 'humidity'>): boolean => {
  const ratio = humidityRatio({ ...kitchen, pressure: m.pressure });
  if (ratio === undefined || !inKitchen(kitchen.temperature)) return false;
  u.kitchen = kitchen.temperature;
  u.humidity = ratio;
  u.line = capacityLine(m, kitchen.temperature);
  return true;
};

/** K, of what a pan's top faces: the kitchen, the zone's air, or both in parts. */
export const aboveLoad = ({ toAir }: Situation, kitchen: number, air: number): number => (1 - toAir) * kitchen + toAir * air;

/** The situation that fits where a load stands. */
export const placeLoad = (u: UnitState, load: LoadState): void => {
  const { home, open, covered, stored } = load.model;
  load.situation = load.zone !== home ? stored : u.zones[home]?.covered ? covered : open;
};

/**
 * A unit at the start of a run: settled, every zone at its usual air and the food where that leaves it; or warm, all at the kitchen's temperature.
 * Undefined for a kitchen that `setKitchen` refuses.
 */
export const startState = (
  m: UnitModel,
  kitchen: Pick<MoistAir, 'temperature' | 'humidity'>,
  start: 'settled' | 'warm',
): UnitState | undefined => {
  const u: UnitState = {
    time: 0,
    running: false,
    since: -Infinity,
    suction: kitchen.temperature,
    nextSuction: kitchen.temperature,
    kitchen: kitchen.temperature,
    humidity: 0,
    line: { at0: 0, slope: 0, most: 0 },
    zones: m.zones.map((z) => {
      const air = start === 'warm' ? kitchen.temperature : z.usual;
      return {
        coil: air,
        air,
        nextCoil: air,
        nextAir: air,
        nextFrost: 0,
        nextMelting: 0,
        base: 0,
        gain: 0,
        airBase: 0,
        airGain: 0,
        cooling: 0,
        frost: 0,
        water: 0,
        calls: false,
        rests: false,
        phase: 'none',
        phaseSince: 0,
        covered: false,
        doors: 0,
        faults: new Set(),
        open: false,
        film: z.film,
        supply: 0,
        outside: z.wall,
        frosting: 0,
        fanHeat: 0,
        coilHeat: 0,
        coilSum: 0,
        coilTime: 0,
        airSum: 0,
        foodConductance: 0,
        foodPull: 0,
      };
    }),
    loads: m.loads.map((model) => {
      const { network, toAir } = model.open;
      const air = (m.zones[model.home] as ZoneModel).usual;
      const above = aboveLoad(model.open, kitchen.temperature, air);
      const food =
        start === 'warm' ? new Array<number>(network.layers).fill(kitchen.temperature) : steadyPan(network, above, air);
      return {
        model,
        zone: model.home,
        situation: model.open,
        food: layersAt(network, food),
        least: Math.min(air, ...food),
        most: Math.max(toAir < 1 ? kitchen.temperature : air, ...food),
      };
    }),
    foodWaits: 0,
    rate: Infinity,
    gained: 0,
    nextRemoved: 0,
    removed: 0,
    melted: 0,
  };
  return setKitchen(m, u, kitchen) ? u : undefined;
};
