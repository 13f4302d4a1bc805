/**
 * The ring of a day with its trippers: midnight at the top, the hours clockwise, a tab for each step, dark where the top is on.
 * On the outside, in the middle of the hours on: the mark at which the time of day is set, and the way the hours run.
 */
import { DAY } from '../base/moment.js';
import { circle, pathOf, type Mark } from './drawing.js';
import { arrowHead } from './marks.js';
import { EDGE, fill, HAIR, HEAVY, polygon, shape, stroke } from './strokes.js';

/** From the centre: tabs pushed in, the ring, tabs pulled out, what stands outside. */
const IN = 88;
export const RING = 100;
const OUT = 112;
export const REACH = 134;
/** Radius free for words. */
export const FREE = 70;

export type Polarity = 'out-is-on' | 'out-is-off' | undefined;

export interface Ring {
  readonly off: number;
  readonly on: number;
  /** Minutes. */
  readonly step: number;
  readonly polarity: Polarity;
}

const angleOf = (minutes: number): number => (minutes / DAY) * 2 * Math.PI - Math.PI / 2;

/** A tab between two radii, from one angle to another. */
const tab = (x: number, y: number, from: number, to: number, inner: number, outer: number): string =>
  polygon(
    ...([[inner, from], [outer, from], [outer, to], [inner, to]] as const).map(([r, a]): readonly [number, number] => [x + r * Math.cos(a), y + r * Math.sin(a)]),
  ); // prettier-ignore

/** Radii of a tab that is dark (on) or open (off). */
export const reach = (isOn: boolean, polarity: Polarity): readonly [number, number] => {
  if (polarity === undefined) return [RING - 7, RING + 7];
  return isOn === (polarity === 'out-is-on') ? [RING, OUT] : [IN, RING];
};

const isOff = ({ off, on }: Ring, minutes: number): boolean =>
  off < on ? minutes >= off && minutes < on : minutes >= off || minutes < on;

export const ring = (x: number, y: number, day: Ring): readonly Mark[] => {
  const at = (r: number, minutes: number): readonly [number, number] => [
    x + r * Math.cos(angleOf(minutes)),
    y + r * Math.sin(angleOf(minutes)),
  ];
  const steps = Array.from({ length: Math.ceil(DAY / day.step) }, (_, i) => i * day.step);
  const gap = (2 * Math.PI * day.step * 0.09) / DAY;
  const tabs = (isOn: boolean): string =>
    steps
      .filter((m) => isOff(day, m) !== isOn)
      .map((m) => tab(x, y, angleOf(m) + gap, angleOf(m + day.step) - gap, ...reach(isOn, day.polarity)))
      .join(' ');
  const radial = (minutes: number, inner: number, outer: number): string =>
    pathOf('M', ...at(inner, minutes), 'L', ...at(outer, minutes));
  const hours = Array.from({ length: DAY / 60 }, (_, i) => i * 60);
  const on = (day.off - day.on + DAY) % DAY;
  const now = day.on + on / 2;
  const [from, to] = [now + on * 0.09, now + on * 0.27];
  const way = pathOf('M', ...at(REACH - 12, from), 'A', REACH - 12, REACH - 12, 0, 0, 1, ...at(REACH - 12, to));
  const [tip, left, right] = [at(OUT + 3, now), at(REACH, now - 22), at(REACH, now + 22)];
  return [
    stroke(circle(x, y, RING), EDGE),
    fill(tabs(true), 'ink'),
    shape(tabs(false), 'paper', HAIR),
    stroke(hours.map((m) => radial(m, IN - 4, IN - (m % 360 === 0 ? 14 : 9))).join(' '), EDGE),
    stroke(`${radial(day.off, IN - 4, OUT + 10)} ${radial(day.on, IN - 4, OUT + 10)}`, HEAVY),
    stroke(way, EDGE),
    arrowHead(...at(REACH - 12, to + on * 0.01), angleOf(to) + Math.PI / 2 + 0.1, 11),
    fill(polygon(tip, left, right), 'ink'),
  ];
};
