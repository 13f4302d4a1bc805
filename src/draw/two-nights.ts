/**
 * One night in two panels on one scale: the top emptied, and the food left in it, with the law's limit through both. Predicted, by the physics.
 * Each curve is the average of a pan. That of the left food ends when the top comes on again: it is thrown out, whatever it reads later.
 */
import { scaleLinear } from 'd3-scale';
import type { NightCurves } from '../plan/consequences/nights.js';
import { circle, pathOf, rectangle, type Mark } from './drawing.js';
import type { Figure } from './figure.js';
import { block, bold, LARGE, MEDIUM, put, SMALL, type Block, type Line } from './lettering.js';
import { EDGE, fill, HAIR, hatched, HEAVY, OUTLINE, stroke } from './strokes.js';
import { sentences } from './telling.js';

const WIDTH = 540;
const GAP = 20;
const PANEL = (WIDTH - GAP) / 2;
const SCALE = 170;
const STRIP = 24;
/** Inside a panel, beside its words. */
const ASIDE = 8;

/** s from closing, and K. */
type Course = readonly (readonly [time: number, average: number])[];

const sum = (blocks: readonly Block[]): number => blocks.reduce((total, b) => total + b.height, 0);

export const twoNights: Figure = ({ unit, speaker, width }) => {
  const night = unit?.scenes?.nights;
  if (!unit || !night) return undefined;
  const { limit } = unit;
  const { start, mean, warmest, over: lasts, off, on } = night;
  const curves: NightCurves = night.curves.holds;
  const course = (food: NightCurves['left'], until: number): Course =>
    food.flatMap(({ mean: average }, i) => {
      const time = curves.time[i] as number;
      return time <= until + 1 ? [[time, average] as const] : [];
    });
  const moved = course(curves.moved, curves.loaded);
  const left = course(curves.left, curves.on);

  const room = PANEL - 2 * ASIDE;
  const say = (code: string, values: Parameters<typeof speaker.phrase>[1] = {}): Line => speaker.phrase(`scenes.${code}`, values);
  const predicted = block(say('is-predicted'), SMALL, room / 2, width);
  const titles = ['title-emptied', 'title-left'].map((code, i) =>
    block(bold(say(code)), LARGE, room - i * (predicted.width + ASIDE), width),
  );
  const { destination } = unit;
  const where = destination ? { destination } : {};
  const place = unit.is.elsewhere.value.is ? say('in-another', where) : say('in-bottom');
  const law = block(say('limit', { limit }), MEDIUM, room, width);
  const peak = [bold(say('on-average', { mean })), say('at-warmest', { warmest })].map((line) =>
    block(line, MEDIUM, room, width),
  );
  const inBottom = block(place, MEDIUM, room, width);
  const out = block(bold(say('thrown-out')), MEDIUM, room, width);

  // Over all curves, room for what stands over them; under them, for what is said below.
  const reached = [...moved, ...left].map(([, average]) => average);
  const above = Math.max(law.height, sum(peak)) + 12;
  const below = Math.max(inBottom.height, out.height) + 10;
  const head = Math.max(predicted.height, ...titles.map((t) => t.height)) + 6;
  const foot = head + above + SCALE + below;
  const y = scaleLinear(
    [Math.min(...reached), Math.max(limit.value.si, ...reached)],
    [foot - below - HEAVY, head + above + HEAVY],
  );

  const share = (curves.on - curves.off) / curves.loaded;
  const words = block(say('top-off'), SMALL, share * (PANEL - 2 * OUTLINE) - 20, width);
  const deep = Math.max(STRIP, words.height + 6);

  const marks: Mark[] = [];
  const limitAt = y(limit.value.si);
  const strip = foot + 4;
  let bottom = 0;
  [moved, left].forEach((one, i) => {
    const at = i * (PANEL + GAP);
    const x = scaleLinear([0, curves.loaded], [at + OUTLINE, at + PANEL - OUTLINE]);
    marks.push(...put(titles[i] as Block, at, 0, 'start', width), fill(rectangle(at, head, PANEL, limitAt - head), 'wash'));
    const points = one.map(([time, average]) => [x(time), y(average)] as const);
    const [endX, endY] = points.at(-1) as readonly [number, number];
    marks.push(stroke(pathOf('M', at, limitAt, 'h', PANEL), OUTLINE), stroke(rectangle(at, head, PANEL, foot - head), EDGE));
    marks.push(stroke(pathOf(...points.flatMap(([px, py], k) => [k === 0 ? 'M' : 'L', px, py])), HEAVY));
    if (one === left) marks.push(fill(circle(endX, endY, 1.6 * HEAVY), 'ink'));
    // When the top is off, under the curves, with its times.
    const [goes, comes] = [x(curves.off), x(curves.on)];
    const dark = comes - goes;
    marks.push(stroke(hatched(goes, strip, dark, deep, 7), HAIR, 'soft-ink'), stroke(rectangle(goes, strip, dark, deep), EDGE));
    marks.push(fill(rectangle((goes + comes - words.width) / 2 - 6, strip + 2, words.width + 12, deep - 4), 'paper'));
    marks.push(...put(words, (goes + comes) / 2, strip + (deep - words.height) / 2, 'middle', width));
    const times = [off, on].map((m) => block(speaker.say(m).runs, SMALL, dark / 2 - 4, width));
    times.forEach((time, k) => {
      marks.push(...put(time, k === 0 ? goes : comes, strip + deep + 3, k === 0 ? 'start' : 'end', width));
      bottom = Math.max(bottom, strip + deep + 3 + time.height);
    });
  });

  const second = PANEL + GAP;
  marks.push(...put(predicted, WIDTH, head - 6 - predicted.height, 'end', width));
  marks.push(...put(law, ASIDE, head + 6, 'start', width));
  marks.push(...put(inBottom, PANEL - ASIDE, foot - inBottom.height - 5, 'end', width));
  peak.forEach((line, i) => marks.push(...put(line, second + ASIDE, head + 6 + sum(peak.slice(0, i)), 'start', width)));
  marks.push(...put(out, second + PANEL - ASIDE, foot - out.height - 5, 'end', width));

  const alt = sentences([say('alt', { start, mean, warmest, over: lasts, off, on, limit, ...where })]);
  return { name: 'two-nights', width: WIDTH, height: bottom, alt, marks };
};
