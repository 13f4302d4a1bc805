/**
 * One night in two ways: food that was cold enough when it was probed at closing, moved to the box, or left in the rail that its clock switches off.
 */
import { runCabinet, type CabinetRun } from '../cabinet/run.js';
import type { FoodTemperature } from '../pan.js';
import { EVERY, HOUR, foodAt, pansOf, type Setting } from './setting.js';

/** s from closing, when the food is probed and the covers are shut. Nought <= off < on <= loaded. */
export interface NightTimes {
  readonly off: number;
  readonly on: number;
  /** First pan in the next morning. */
  readonly loaded: number;
}

export interface OneNightScene {
  /** s from closing, for all series. */
  readonly time: readonly number[];
  readonly left: readonly FoodTemperature[];
  readonly moved: readonly FoodTemperature[];
  /** The left food when the rail comes on again, and when the first pan would go in. */
  readonly atOn: FoodTemperature;
  readonly atLoading: FoodTemperature;
  /** s of the night in which the mean of the left food is over the limit, to the first pan; and of that what has passed when the rail comes on. */
  readonly over: number;
  readonly overByOn: number;
}

/** s of ordinary running before closing. */
const BEFORE = 2 * HOUR;

const spots = (run: CabinetRun, load: number, from: number): FoodTemperature[] => {
  const series = run.loads[load];
  return run.time.flatMap((t, i) =>
    t < from - 1e-6
      ? []
      : [{ coldest: series?.coldest[i] as number, mean: series?.mean[i] as number, warmest: series?.warmest[i] as number }],
  );
};

/**
 * @param probed K, all of the food at closing
 * @param limit K, cold holding
 * @returns undefined for a kitchen or food out of range
 */
export const oneNightScene = (
  { model, kitchen, rail, base }: Setting,
  times: NightTimes,
  probed: number,
  limit: number,
): OneNightScene | undefined => {
  const load = pansOf(model, rail);
  const night = (moved: boolean): CabinetRun | undefined =>
    runCabinet(model, {
      kitchen,
      start: 'settled',
      duration: BEFORE + times.loaded,
      every: EVERY,
      events: [
        { at: BEFORE, do: 'fill', load, temperature: probed },
        { at: BEFORE, do: 'covers', zone: rail, shut: true },
        ...(moved ? [{ at: BEFORE, do: 'move', load, to: base } as const] : []),
        { at: BEFORE + times.off, do: 'cooling', zone: rail, on: false },
        { at: BEFORE + times.on - 60, do: 'wipe', zone: rail },
        { at: BEFORE + times.on, do: 'cooling', zone: rail, on: true },
      ],
    });
  const [left, moved] = [night(false), night(true)];
  if (left === undefined || moved === undefined) return undefined;
  const time = left.time.filter((t) => t >= BEFORE - 1e-6).map((t) => t - BEFORE);
  const course = spots(left, load, BEFORE);
  const over = (until: number): number =>
    course.reduce(
      (sum, { mean }, i) =>
        sum + (mean > limit && i > 0 && (time[i] as number) <= until + 1e-6 ? (time[i] as number) - (time[i - 1] as number) : 0),
      0,
    );
  return {
    time,
    left: course,
    moved: spots(moved, load, BEFORE),
    atOn: foodAt(left, load, BEFORE + times.on),
    atLoading: foodAt(left, load, BEFORE + times.loaded),
    over: over(times.loaded),
    overByOn: over(times.on),
  };
};
