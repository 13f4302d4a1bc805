/**
 * Figures by the name that templates use.
 */
import { dayBar } from './day-bar.js';
import { dial } from './dial.js';
import type { Drawing } from './drawing.js';
import type { Figure, FigureContext } from './figure.js';
import { elevation } from './elevation.js';
import { fillPans } from './fill.js';
import { ladder } from './ladder.js';
import { loadStrip } from './load-strip.js';
import { panMap } from './pan-map.js';
import { panNight } from './pan-night.js';
import { twoNights } from './two-nights.js';
import { probe } from './probe.js';
import { partBottom, partTop } from './which-part.js';

const FIGURES: Readonly<Record<string, Figure>> = {
  'day-bar': dayBar,
  dial,
  elevation,
  fill: fillPans,
  ladder,
  'load-strip': loadStrip,
  'pan-map': panMap,
  'pan-night': panNight,
  'part-top': partTop,
  'part-bottom': partBottom,
  'two-nights': twoNights,
  probe,
};

export const figureNames: readonly string[] = Object.keys(FIGURES);

/** @returns the picture, undefined where the plan has nothing to show, or `unknown` for a name that is no figure */
export const drawFigure = (name: string, context: FigureContext): Drawing | undefined | 'unknown' => {
  const figure = Object.hasOwn(FIGURES, name) ? FIGURES[name] : undefined;
  return figure ? figure(context) : 'unknown';
};
