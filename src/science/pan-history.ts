/**
 * One pan left alone: its coldest, mean and warmest spot over time in surroundings that don't change.
 * For a pan inside a working unit see the cabinet.
 */
import { foodTemperature, layersAt, stepPan, stir, type FoodTemperature, type PanNetwork } from './pan.js';

export interface PanPoint extends FoodTemperature {
  /** s from the start. */
  readonly time: number;
}

export interface PanCourse {
  /** K at the start: one figure, or one for each layer, top first. */
  readonly start: number | readonly number[];
  /** K, of what is over the pan. */
  readonly above: number;
  /** K, of the air at the floor and the walls. */
  readonly around: number;
  /** s */
  readonly duration: number;
  /** s between points. */
  readonly every: number;
  /** Food that is stirred all the time has one temperature. */
  readonly stirred?: boolean;
}

/** The points of a pan's course, the start and the end among them. Throws for a duration or spacing that is not positive. */
export const panHistory = (n: PanNetwork, course: PanCourse): readonly PanPoint[] => {
  const { start, above, around, duration, every } = course;
  if (!(duration > 0 && every > 0)) throw new RangeError('panHistory: duration and every must be positive');
  const food = layersAt(n, typeof start === 'number' ? new Array<number>(n.layers).fill(start) : start);
  const least = Math.min(above, around, ...food.temperature);
  const most = Math.max(above, around, ...food.temperature);
  const point = (time: number): PanPoint => {
    if (course.stirred) stir(food);
    const spot = foodTemperature(n, food.temperature, above, around, least, most);
    return course.stirred ? { time, coldest: spot.mean, mean: spot.mean, warmest: spot.mean } : { time, ...spot };
  };
  const points = [point(0)];
  for (let time = 0; time < duration - 1e-9;) {
    const span = Math.min(every, duration - time);
    const steps = Math.ceil(span / n.longestStep);
    for (let i = 0; i < steps; i += 1) {
      stepPan(n, food, above, around, span / steps);
      if (course.stirred) stir(food);
    }
    time += span;
    points.push(point(time));
  }
  return points;
};

/** s until the warmest spot is at or below a limit, K, by straight line between points; undefined where it isn't reached. */
export const timeToCool = (points: readonly PanPoint[], limit: number): number | undefined => {
  const at = points.findIndex((p) => p.warmest <= limit);
  if (at <= 0) return at === 0 ? (points[0] as PanPoint).time : undefined;
  const [before, after] = [points[at - 1] as PanPoint, points[at] as PanPoint];
  return before.time + ((after.time - before.time) * (before.warmest - limit)) / (before.warmest - after.warmest);
};
