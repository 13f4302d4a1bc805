/**
 * What people and clocks do to a unit at a known time: the script of a run.
 */
import { startDefrost } from './control.js';
import { layersAt } from '../pan.js';
import type { UnitModel } from './model.js';
import { placeLoad, setKitchen, type Fault, type LoadState, type UnitState, type ZoneState } from './state.js';
import { heldByLoad, moveFood, refresh, setValves } from './step.js';

/** `at` in s from the start of the run; `zone` and `load` are indices in the model. */
export type CabinetEvent = { readonly at: number } & (
  | { readonly do: 'kitchen'; readonly temperature: number; readonly humidity: number }
  /** The clock switches a zone's cooling off (on = false) or on. */
  | { readonly do: 'cooling'; readonly zone: number; readonly on: boolean }
  | { readonly do: 'covers'; readonly zone: number; readonly shut: boolean }
  /** Doors in use: kg/s of kitchen air (see doorExchange); 0 when the kitchen is closed. */
  | { readonly do: 'doors'; readonly zone: number; readonly exchange: number }
  /** Food moves to another zone, or out of the unit (-1). */
  | { readonly do: 'move'; readonly load: number; readonly to: number }
  /** The pans are filled anew with food of one temperature, K. */
  | { readonly do: 'fill'; readonly load: number; readonly temperature: number }
  /** Melt water that stands in a zone is wiped up. */
  | { readonly do: 'wipe'; readonly zone: number }
  | { readonly do: 'defrost'; readonly zone: number }
  | { readonly do: 'fault'; readonly zone: number; readonly fault: Fault; readonly on: boolean }
);

const zoneOf = (u: UnitState, i: number): ZoneState => {
  const s = u.zones[i];
  if (s === undefined) throw new RangeError(`event: no zone ${i}`);
  return s;
};

const loadOf = (u: UnitState, i: number): LoadState => {
  const load = u.loads[i];
  if (load === undefined) throw new RangeError(`event: no load ${i}`);
  return load;
};

/** Food from -70 to 125 °C; kg/s that no open door passes. */
const [COLDEST, WARMEST, GALE] = [203, 398, 0.5];

/** Does one event. Returns false for a kitchen or food that is out of range; throws for a zone or load that doesn't exist. */
export const happen = (m: UnitModel, u: UnitState, event: CabinetEvent): boolean => {
  moveFood(u);
  switch (event.do) {
    case 'kitchen':
      if (!setKitchen(m, u, event)) return false;
      break;
    case 'cooling':
      zoneOf(u, event.zone).rests = !event.on;
      break;
    case 'covers':
      zoneOf(u, event.zone).covered = event.shut;
      for (const load of u.loads) placeLoad(u, load);
      break;
    case 'doors':
      zoneOf(u, event.zone).doors = Math.min(GALE, Math.max(0, event.exchange));
      break;
    case 'move':
    case 'fill': {
      if (event.do === 'fill' && !(event.temperature >= COLDEST && event.temperature <= WARMEST)) return false;
      const load = loadOf(u, event.load);
      const before = heldByLoad(load);
      if (event.do === 'move') load.zone = event.to < 0 ? -1 : (zoneOf(u, event.to), event.to);
      else {
        const { network } = load.model.open;
        load.food = layersAt(network, new Array<number>(network.layers).fill(event.temperature));
        load.least = event.temperature;
        load.most = event.temperature;
      }
      placeLoad(u, load);
      u.gained += heldByLoad(load) - before;
      break;
    }
    case 'wipe':
      zoneOf(u, event.zone).water = 0;
      break;
    case 'defrost':
      startDefrost(m, u, event.zone);
      break;
    case 'fault': {
      const { faults } = zoneOf(u, event.zone);
      if (event.on) faults.add(event.fault);
      else faults.delete(event.fault);
    }
  }
  refresh(m, u);
  setValves(m, u);
  return true;
};
