/**
 * The switches of a unit: thermostats, the low-pressure control, the restart delay, defrosts. One at a time: the first that is due flips.
 */
import type { UnitModel, ZoneModel } from './model.js';
import type { UnitState, ZoneState } from './state.js';
import { refresh, setValves } from './step.js';

/** What is due: nothing, a zone's thermostat, a zone's defrost (its next phase), or the compressor. */
export type Due = 'none' | 'compressor' | { readonly zone: number; readonly what: 'thermostat' | 'defrost' };

/** s; a switch doesn't bounce. */
const SHORTEST_RUN = 10;
/** s; a fan that waits for a cold coil doesn't wait for ever. Common practice, no source. */
const FAN_WAITS = 300;

const defrostDue = (z: ZoneModel, s: ZoneState, time: number, coil: number): boolean => {
  const d = z.defrost;
  if (d === undefined) return false;
  const passed = time - s.phaseSince;
  if (s.phase === 'melting') return coil >= d.ends || passed >= d.longest;
  if (s.phase === 'dripping') return passed >= d.drip;
  return coil <= d.fanBack || passed >= FAN_WAITS;
};

const compressorDue = (m: UnitModel, u: UnitState, time: number, suction: number): boolean => {
  let open = false;
  for (let i = 0; i < u.zones.length; i += 1) open ||= (u.zones[i] as ZoneState).open;
  const control = m.lowPressure;
  if (u.running) return !open || (control !== undefined && suction <= control.cutOut && time - u.since >= SHORTEST_RUN);
  return open && (control === undefined || suction >= control.cutIn) && time - u.since >= Math.max(SHORTEST_RUN, m.restartDelay);
};

const DUES: readonly Due[] = [0, 1, 2].flatMap((zone) => [
  { zone, what: 'thermostat' as const },
  { zone, what: 'defrost' as const },
]);

/**
 * The first switch that is due, now or at the end of the step that was tried last.
 * @param ahead s from now: 0 for now, the step's length for its end
 */
export const due = (m: UnitModel, u: UnitState, ahead: number): Due => {
  const time = u.time + ahead;
  for (let i = 0; i < m.zones.length; i += 1) {
    const z = m.zones[i] as ZoneModel;
    const s = u.zones[i] as ZoneState;
    const air = ahead > 0 ? s.nextAir : s.air;
    if (z.thermostat && (s.calls ? air <= z.thermostat.cutOut : air >= z.thermostat.cutIn)) return DUES[2 * i] as Due;
    if (s.phase !== 'none' && defrostDue(z, s, time, ahead > 0 ? s.nextCoil : s.coil)) return DUES[2 * i + 1] as Due;
  }
  return compressorDue(m, u, time, ahead > 0 ? u.nextSuction : u.suction) ? 'compressor' : 'none';
};

/** Starts a zone's defrost, where it has one and none is going on. */
export const startDefrost = (m: UnitModel, u: UnitState, zone: number): void => {
  const s = u.zones[zone] as ZoneState;
  if (m.zones[zone]?.defrost === undefined || s.phase !== 'none') return;
  s.phase = 'melting';
  s.phaseSince = u.time;
};

const nextPhase = (z: ZoneModel, s: ZoneState): ZoneState['phase'] => {
  const heated = (z.defrost?.heater ?? 0) > 0;
  if (s.phase === 'melting') return (z.defrost?.drip ?? 0) > 0 ? 'dripping' : heated ? 'fan-waits' : 'none';
  return s.phase === 'dripping' && heated ? 'fan-waits' : 'none';
};

/** Flips one switch. */
export const flip = (m: UnitModel, u: UnitState, what: Due): void => {
  if (what === 'none') return;
  if (what === 'compressor') {
    u.running = !u.running;
    u.since = u.time;
  } else {
    const s = u.zones[what.zone] as ZoneState;
    if (what.what === 'thermostat') s.calls = !s.calls;
    else {
      s.phase = nextPhase(m.zones[what.zone] as ZoneModel, s);
      s.phaseSince = u.time;
      refresh(m, u);
    }
  }
  setValves(m, u);
};
