/**
 * Runs a unit over hours or days: steps between events, shorter where something moves, events located to a second, and plain data as the result.
 */
import type { MoistAir } from '../moist-air.js';
import { foodTemperature } from '../pan.js';
import { due, flip } from './control.js';
import { happen, type CabinetEvent } from './event.js';
import { inOneLayout, type UnitModel } from './model.js';
import { aboveLoad, startState, type LoadState, type UnitState, type ZoneState } from './state.js';
import { commit, heldHeat, moveFood, refresh, setValves, trial } from './step.js';

export interface RunQuestion {
  readonly kitchen: Pick<MoistAir, 'temperature' | 'humidity'>;
  readonly start: 'settled' | 'warm';
  /** s */
  readonly duration: number;
  /** s between points of the series. */
  readonly every: number;
  /** In any order. */
  readonly events: readonly CabinetEvent[];
  /** Frost that is there at the start, kg by zone. */
  readonly frost?: readonly number[];
  /** Asked at each point of the series: whether what was to be seen has been seen, and the run may end here. */
  readonly seen?: (soFar: Omit<CabinetRun, 'heat'>) => boolean;
}

/** Every series has one figure for each point of `time`. */
export interface ZoneSeries {
  readonly name: string;
  /** K, at the point. */
  readonly air: readonly number[];
  /** K, of liner or coil. */
  readonly coil: readonly number[];
  /** kg */
  readonly frost: readonly number[];
}

export interface LoadSeries {
  readonly name: string;
  /** K, of the spots of a pan. */
  readonly coldest: readonly number[];
  readonly mean: readonly number[];
  readonly warmest: readonly number[];
  /** Index of the zone it stands in; -1 is out of the unit. */
  readonly zone: readonly number[];
}

export interface CabinetRun {
  /** s from the start. */
  readonly time: readonly number[];
  readonly zones: readonly ZoneSeries[];
  readonly loads: readonly LoadSeries[];
  /** K, mean evaporating temperature that the suction gauge shows. */
  readonly suction: readonly number[];
  /** Part of the time since the last point that the compressor ran, 0..1. */
  readonly running: readonly number[];
  /** J over the whole run; gained = held + removed + melted, or the run is wrong. */
  readonly heat: { readonly gained: number; readonly held: number; readonly removed: number; readonly melted: number };
}

/** s: the shortest and the longest step between events, and the longest that food waits to be moved on; between refreshes of what changes slowly; to which an event is located. */
const STEP = 30;
const LONGEST_STEP = 120;
const REFRESH = 600;
const LOCATED = 1;
/** K that air and coils may move by in a step that is longer than the shortest. */
const CALM = 0.5;
/** kg; more than a rail has room for. */
const MOST_FROST = 100;

/** Steps on by at most `longest`, less if a switch becomes due on the way: then to within a second of it. */
const advance = (m: UnitModel, u: UnitState, longest: number): number => {
  trial(m, u, longest);
  let step = longest;
  const switches = due(m, u, step) !== 'none';
  if (switches) {
    let before = 0;
    while (step - before > LOCATED) {
      const middle = (before + step) / 2;
      trial(m, u, middle);
      if (due(m, u, middle) === 'none') before = middle;
      else step = middle;
    }
    trial(m, u, step);
  }
  commit(m, u, step);
  if (switches) u.rate = Infinity;
  return step;
};

/** Flips what is due now; a few at most, since each has its own hysteresis or delay. */
const settle = (m: UnitModel, u: UnitState): void => {
  for (let i = 0; i < 10; i += 1) {
    const what = due(m, u, 0);
    if (what === 'none') return;
    flip(m, u, what);
    u.rate = Infinity;
  }
};

interface Recorder {
  readonly record: () => void;
  /** Grows with each record. */
  readonly soFar: Omit<CabinetRun, 'heat'>;
}

const recorder = (m: UnitModel, u: UnitState, ran: () => number): Recorder => {
  const time: number[] = [];
  const suction: number[] = [];
  const running: number[] = [];
  const zones = m.zones.map(({ name }) => ({ name, air: [] as number[], coil: [] as number[], frost: [] as number[] }));
  const loads = m.loads.map(({ name }) => ({
    name,
    coldest: [] as number[],
    mean: [] as number[],
    warmest: [] as number[],
    zone: [] as number[],
  }));
  const recordLoad = (load: LoadState, series: (typeof loads)[number]): void => {
    const zone = u.zones[load.zone];
    const air = zone === undefined ? (load.food.temperature[0] as number) : zone.air;
    const above = aboveLoad(load.situation, u.kitchen, air);
    const spot = foodTemperature(load.situation.network, load.food.temperature, above, air, load.least, load.most);
    series.coldest.push(spot.coldest);
    series.mean.push(spot.mean);
    series.warmest.push(spot.warmest);
    series.zone.push(load.zone);
  };
  const record = (): void => {
    time.push(u.time);
    suction.push(u.suction);
    running.push(ran());
    zones.forEach((series, i) => {
      const s = u.zones[i] as ZoneState;
      series.air.push(s.air);
      series.coil.push(m.zones[i]?.from === -1 ? s.coil : s.air);
      series.frost.push(s.frost);
    });
    loads.forEach((series, i) => recordLoad(u.loads[i] as LoadState, series));
  };
  return { record, soFar: { time, suction, running, zones, loads } };
};

/**
 * Runs a unit.
 * @returns undefined for a kitchen outside the equations of moist air or outside -20 to 60 °C, and for food outside -70 to 125 °C
 * Throws for a duration or spacing that is not positive, and for events about zones or loads that don't exist.
 */
export const runCabinet = (model: UnitModel, question: RunQuestion): CabinetRun | undefined => {
  const m = inOneLayout(model);
  const { duration, every, seen } = question;
  if (!(duration > 0 && every > 0)) throw new RangeError('runCabinet: duration and every must be positive');
  const u = startState(m, question.kitchen, question.start);
  if (u === undefined) return undefined;
  question.frost?.forEach((kg, i) => ((u.zones[i] as ZoneState).frost = Math.min(MOST_FROST, Math.max(0, kg))));
  const events = [...question.events].sort((a, b) => a.at - b.at);
  // Shallow pans step their food by less: it is moved on explicitly.
  const stable = Math.min(...m.loads.flatMap((l) => [l.open, l.covered, l.stored].map(({ network }) => network.longestStep)));
  const [shortest, longest] = [Math.min(STEP, stable), Math.min(LONGEST_STEP, stable)];
  let [next, sampled, refreshed, ranFor] = [0, 0, 0, 0];
  const { record, soFar } = recorder(m, u, () => {
    const share = ranFor / Math.max(1, u.time - sampled);
    ranFor = 0;
    sampled = u.time;
    return Math.min(1, share);
  });
  const held = heldHeat(m, u);
  refresh(m, u);
  setValves(m, u);
  for (;;) {
    while (next < events.length && (events[next] as CabinetEvent).at <= u.time) {
      if (!happen(m, u, events[next] as CabinetEvent)) return undefined;
      u.rate = Infinity;
      next += 1;
    }
    if (u.rate === Infinity) settle(m, u);
    const ends = u.time >= duration - 1e-6;
    if (u.time === 0 || u.time - sampled >= every - 1e-6 || ends) {
      moveFood(u);
      record();
      if (ends || seen?.(soFar)) break;
    }
    if (u.time - refreshed >= REFRESH) {
      refresh(m, u);
      refreshed = u.time;
    }
    const until = Math.min(duration, sampled + every, events[next]?.at ?? Infinity);
    const running = u.running;
    const calm = Math.min(longest, Math.max(shortest, CALM / u.rate));
    const ahead = Math.min(calm, Math.max(1e-3, until - u.time));
    if (u.foodWaits + ahead > longest) moveFood(u);
    const step = advance(m, u, ahead);
    if (running) ranFor += step;
  }
  const { gained, removed, melted } = u;
  return { ...soFar, heat: { gained, held: heldHeat(m, u) - held, removed, melted } };
};
