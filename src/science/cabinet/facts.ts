/**
 * What a technician can know of a unit, and nothing else: temperatures that were read, a tape measure's figures, the nameplate, the dials.
 * No heat-transfer coefficient is typed in; calibrate.ts finds them. SI throughout: K, m, m³, W, s; fractions 0..1.
 */
import type { Material } from '../food.js';
import type { Well } from '../frost.js';
import type { MoistAir } from '../moist-air.js';
import type { Pan } from '../pan.js';

/** Air at which a thermostat starts and stops cooling, K. */
export interface Thermostat {
  readonly cutIn: number;
  readonly cutOut: number;
}

/** Mean evaporating temperatures at which a low-pressure control starts and stops the compressor, K (see pressure-control.ts). */
export interface LowPressure {
  readonly cutIn: number;
  readonly cutOut: number;
}

/** A timed defrost. Without a heater it is an off-cycle: the fan goes on and the box's own air melts the coil. */
export interface Defrost {
  /** W; 0 for an off-cycle. */
  readonly heater: number;
  /** Coil temperature that ends it, K. */
  readonly ends: number;
  /** s; ends it whatever the coil reads. */
  readonly longest: number;
  /** s between heat and cooling. */
  readonly drip: number;
  /** Coil temperature at which the fan comes back, K; only for a heated defrost. */
  readonly fanBack: number;
}

export interface PansFacts {
  readonly count: number;
  readonly pan: Pan;
  readonly food: Material;
}

interface ZoneFacts {
  readonly name: string;
  /** Absent where the unit's own control is the zone's only one. */
  readonly thermostat?: Thermostat;
  readonly pans?: PansFacts;
  /** Mean evaporating temperature on the gauge while it runs steadily, K; absent where there is no port to read it at. */
  readonly evaporating?: number;
}

/** A rail cooled by its liner: no fan, frost on the liner. */
export interface StaticRail extends ZoneFacts {
  readonly cooled: 'static';
  readonly well: Well;
  readonly pans: PansFacts;
  /** Mean air under the pans while it runs, K, every opening filled, covers open, in the facts' kitchen. */
  readonly air: number;
  /** Mean of a probed pan after hours of that, K. */
  readonly foodTemperature: number;
  /** Melt water leaves by itself. */
  readonly drains: boolean;
}

/** A closed box with a coil and a fan: base, reach-in, freezer, drawers. */
export interface ForcedAirBox extends ZoneFacts {
  readonly cooled: 'forced-air';
  readonly thermostat: Thermostat;
  /** m³, inside. */
  readonly volume: number;
  /** W of the fan. */
  readonly fan: number;
  readonly defrost?: Defrost;
}

/** An open rail that a fan blows another zone's air through: no evaporator of its own, no clock of its own. */
export interface SharedAirRail extends ZoneFacts {
  readonly cooled: 'shared-air';
  /** Index of the zone whose air it takes. */
  readonly from: number;
  readonly well: Well;
  readonly pans: PansFacts;
  readonly air: number;
  readonly foodTemperature: number;
}

/** An open rail with a coil and a fan of its own: its air is its thermostat's. */
export interface FanRail extends ZoneFacts {
  readonly cooled: 'fan-rail';
  readonly thermostat: Thermostat;
  readonly well: Well;
  readonly pans: PansFacts;
  readonly foodTemperature: number;
  /** W of the fan. */
  readonly fan: number;
  readonly defrost?: Defrost;
}

export type Rail = StaticRail | SharedAirRail | FanRail;
export type Zone = Rail | ForcedAirBox;

/** One condensing unit and its zones. */
export interface UnitFacts {
  /** The kitchen in which the temperatures were read. */
  readonly kitchen: MoistAir;
  /** W at a mean evaporating temperature and an air temperature at the condenser, K: the nameplate's or the data sheet's rating. */
  readonly rating: { readonly capacity: number; readonly evaporating: number; readonly ambient: number };
  /** Absent where the zones' thermostats start the compressor. */
  readonly lowPressure?: LowPressure;
  /** s that the compressor stays off once it has stopped. */
  readonly restartDelay: number;
  /** One to three. */
  readonly zones: readonly Zone[];
}
