/**
 * The night as a bar: from the evening to the morning, when the top is emptied, off, cooling down and ready; the bottom below it, on throughout.
 */
import { scaleLinear } from 'd3-scale';
import { WEEKDAYS } from '../base/moment.js';
import { circle, pathOf, rectangle, type Mark, type Tone } from './drawing.js';
import type { Figure } from './figure.js';

const WIDTH = 540;
const LEFT = 0;
const BAR = 44;
const GAP = 16;
const LABEL = 18;

export const dayBar: Figure = ({ unit, speaker, width }) => {
  const rest = unit?.rest;
  if (!rest?.start || !rest.empty_by || !rest.off || !rest.on || !rest.cold_by) return undefined;
  // The night that the poster shows: the week's most usual one.
  const day = WEEKDAYS.find((d) => rest.empty_by?.value.at[d] && rest.off?.value.at[d]) ?? 'mon';
  const at = (value: { readonly value: { readonly at: Partial<Record<string, { readonly min: number }>> } }): number | undefined => value.value.at[day]?.min;
  const start = at(rest.start);
  const empty = at(rest.empty_by);
  const off = at(rest.off);
  const morning = (value: Parameters<typeof at>[0]): number | undefined => {
    const min = at(value);
    return min === undefined ? undefined : min + 1440;
  };
  const on = morning(rest.on);
  const cold = morning(rest.cold_by);
  const pan = morning(rest.first_pan);
  if (start === undefined || empty === undefined || off === undefined || on === undefined || cold === undefined || pan === undefined) return undefined;

  const x = scaleLinear([start - 45, pan + 45], [LEFT, WIDTH]);
  const marks: Mark[] = [];
  const top = LABEL * 2 + 10;
  const stretch = (from: number, to: number, y: number, fill: Tone): void => void marks.push({ mark: 'path', d: rectangle(x(from), y, x(to) - x(from), BAR), fill });
  const say = (text: string, centre: number, y: number, tone: Tone, size = LABEL, strong = true): void =>
    void marks.push({ mark: 'text', x: centre, y, text, size, anchor: 'middle', tone, ...(strong ? { strong: true as const } : {}) });
  const inBar = (text: string, from: number, to: number, y: number, tone: Tone): void => {
    const room = x(to) - x(from) - 6;
    const size = Math.min(LABEL + 2, (LABEL * room) / Math.max(1, width(text, LABEL, true)));
    if (size >= LABEL - 3) say(text, (x(from) + x(to)) / 2, y + BAR / 2 + size * 0.34, tone, size);
  };
  const word = (code: string): string => speaker.word(`day-bar.${code}`);

  stretch(start - 45, empty, top, 'cold');
  stretch(empty, off, top, 'wash');
  stretch(off, on, top, 'off');
  stretch(on, cold, top, 'wash');
  stretch(cold, pan + 45, top, 'cold');
  inBar(word('off'), off, on, top, 'paper');
  const bottom = top + BAR + GAP;
  stretch(start - 45, pan + 45, bottom, 'cold');
  inBar(word('bottom-on'), start - 45, pan + 45, bottom, 'paper');
  marks.push({ mark: 'path', d: `${rectangle(0, top, WIDTH, BAR)} ${rectangle(0, bottom, WIDTH, BAR)}`, stroke: 'ink', width: 1.5 });

  const ticks = [
    { min: start, code: 'start', known: rest.start },
    { min: empty, code: 'empty', known: rest.empty_by },
    { min: off, code: 'goes-off', known: rest.off },
    { min: on, code: 'comes-on', known: rest.on },
    { min: pan, code: 'load', known: rest.first_pan },
  ];
  let last = -Infinity;
  ticks.forEach(({ min, code, known }, i) => {
    const text = speaker.times.moment({ q: 'moment', min });
    const half = Math.max(width(text, LABEL, true), width(word(code), LABEL - 2)) / 2;
    const centre = Math.min(WIDTH - half, Math.max(half, x(min)));
    const above = centre - half < last + 8 ? top + BAR * 2 + GAP + LABEL * 2 + 8 : LABEL;
    if (above === LABEL) last = centre + half;
    marks.push({ mark: 'text', x: centre, y: above, text, size: LABEL, strong: true, anchor: 'middle', tone: 'ink', value: known.path });
    marks.push({ mark: 'text', x: centre, y: above + LABEL, text: word(code), size: LABEL - 2, anchor: 'middle', tone: 'ink' });
    marks.push({ mark: 'path', d: pathOf('M', x(min), top - 4, 'V', top + BAR), stroke: 'ink', width: i === 1 ? 4 : 1.5 });
    if (i === 1) marks.push({ mark: 'path', d: circle(x(min), top - 4, 5), fill: 'ink' });
  });

  const alt = speaker.phrase('day-bar.alt', { start: rest.start, empty: rest.empty_by, off: rest.off, on: rest.on, pan: rest.first_pan });
  return { name: 'day-bar', width: WIDTH, height: bottom + BAR + LABEL * 2 + 14, alt, marks };
};
