/**
 * A calibrated unit: heat capacities and conductances between kitchen, air, coil, refrigerant and food. Plain numbers, made by calibrate.ts.
 */
import type { PanNetwork } from '../pan.js';
import type { Defrost, LowPressure, Thermostat } from './facts.js';

export interface ZoneModel {
  readonly name: string;
  readonly cooled: 'static' | 'forced-air' | 'shared-air';
  /** Zone whose air it takes, or -1. */
  readonly from: number;
  /** Rail that takes this zone's air, or -1. */
  readonly feeds: number;
  /** K, its air while it runs in the kitchen it was calibrated in. */
  readonly usual: number;
  readonly thermostat: Thermostat | undefined;
  readonly defrost: Defrost | undefined;
  /** J/K of liner or coil. */
  readonly coil: number;
  /** W/K from refrigerant to liner or coil. */
  readonly refrigerant: number;
  /** W/K from a clean liner or coil to the zone's air; for shared air, from the other zone's supply. */
  readonly film: number;
  /** m² on which frost grows. */
  readonly frostArea: number;
  /** kg of frost that chokes the coil; Infinity where there is no fan to choke. */
  readonly choke: number;
  /** J/K of air, shelves and inner walls. */
  readonly air: number;
  /** W/K through insulation to the kitchen. */
  readonly wall: number;
  /** kg/s of kitchen air that comes in by itself, covers open and pans in. */
  readonly exchange: number;
  /** W/K from the kitchen to an empty well, covers up and down; 0 for a box. */
  readonly empty: { readonly up: number; readonly down: number };
  /** W of the fan. */
  readonly fan: number;
  readonly drains: boolean;
}

/** A pan's network where it stands, and the part of its top film that faces the zone's own air: 0 under the kitchen, 1 lidded on a shelf. */
export interface Situation {
  readonly network: PanNetwork;
  readonly toAir: number;
}

/** Pans that are filled, moved and probed together. All three situations have the same layers. */
export interface LoadModel {
  readonly name: string;
  /** Zone it belongs to. */
  readonly home: number;
  readonly count: number;
  /** At home with covers open and shut, and lidded on a shelf of another zone. */
  readonly open: Situation;
  readonly covered: Situation;
  readonly stored: Situation;
}

export interface UnitModel {
  readonly capacity: number;
  /** Rating point, K. */
  readonly evaporating: number;
  readonly ambient: number;
  readonly lowPressure: LowPressure | undefined;
  readonly restartDelay: number;
  /** Pa */
  readonly pressure: number;
  readonly zones: readonly ZoneModel[];
  /** The first ones are the zones' own pans, in the zones' order where they have any. */
  readonly loads: readonly LoadModel[];
}

/**
 * The same unit with the same keys in the same order, whatever kind its zones are and however they were put together. A run reads them
 * some hundred thousand times, and Node reads objects of one layout twice as fast as objects of several.
 */
export const inOneLayout = (m: UnitModel): UnitModel => ({
  capacity: m.capacity,
  evaporating: m.evaporating,
  ambient: m.ambient,
  lowPressure: m.lowPressure,
  restartDelay: m.restartDelay,
  pressure: m.pressure,
  zones: m.zones.map((z) => ({
    name: z.name,
    cooled: z.cooled,
    from: z.from,
    feeds: z.feeds,
    usual: z.usual,
    thermostat: z.thermostat,
    defrost: z.defrost,
    coil: z.coil,
    refrigerant: z.refrigerant,
    film: z.film,
    frostArea: z.frostArea,
    choke: z.choke,
    air: z.air,
    wall: z.wall,
    exchange: z.exchange,
    empty: z.empty,
    fan: z.fan,
    drains: z.drains,
  })),
  loads: m.loads,
});

/** Parts of the rating lost a kelvin of colder evaporating, and a kelvin of warmer condenser air. Common practice, no source. */
const BY_EVAPORATING = 0.035;
const BY_AMBIENT = 0.01;
/** An expansion valve or a small compressor takes no more however warm the coil is: part of the rating. Common practice, no source. */
const MOST = 1.5;

/** Cooling as a straight line in the mean evaporating temperature, W: least of line and most, never below 0. */
export interface CapacityLine {
  /** W at 0 K of the line, and W/K. */
  readonly at0: number;
  readonly slope: number;
  readonly most: number;
}

export const capacityLine = (m: Pick<UnitModel, 'capacity' | 'evaporating' | 'ambient'>, kitchen: number): CapacityLine => {
  const share = Math.min(1.3, Math.max(0.3, 1 - BY_AMBIENT * (kitchen - m.ambient)));
  const slope = m.capacity * BY_EVAPORATING * share;
  return { at0: m.capacity * share - slope * m.evaporating, slope, most: m.capacity * MOST * share };
};

/** W at a mean evaporating temperature, K. */
export const capacityAt = ({ at0, slope, most }: CapacityLine, evaporating: number): number =>
  Math.min(most, Math.max(0, at0 + slope * evaporating));

/** What an exchanger of one transfer unit passes on, part of the whole. */
const ONE_UNIT = 1 - Math.exp(-1);

/** Flow of a clean coil's fan, W/K, from the coil's film: the coil is an exchanger of one transfer unit. Common practice, no source. */
export const fanFlow = (film: number): number => film / ONE_UNIT;
