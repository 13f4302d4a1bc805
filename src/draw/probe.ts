/**
 * How to probe: a pan cut open, the probe's tip in the middle of the food near its top, and beside it what it may read at most.
 */
import { circle, pathOf, rectangle } from './drawing.js';
import type { Figure } from './figure.js';
import { block, bold, LARGE, MEDIUM, plain, put } from './lettering.js';
import { level, panMarks, type Pan } from './pans.js';
import { EDGE, fill, HEAVY, OUTLINE, shape, stroke } from './strokes.js';

const WIDTH = 540;
const PAN: Pan = { x: 20, top: 74, width: 190, depth: 116 };
const FOOD = 22;
/** Of the probe: where it enters, and its tip, just under the food's top. */
const TIP = { x: PAN.x + PAN.width / 2, y: PAN.top + FOOD + 11 } as const;
const HANDLE = { x: TIP.x + 66, y: 20 } as const;
const WORDS = 280;

export const probe: Figure = ({ unit, speaker, width }) => {
  if (!unit || unit.is.sealed.value.is) return undefined;
  const { limit } = unit;
  const zone = unit.rail ?? unit.box;
  if (!zone) return undefined;
  const most = block(bold(speaker.phrase('probe.at-most', { limit })), LARGE * 1.7, WIDTH - WORDS, width);
  const where = block(speaker.phrase('probe.where', { where: zone.probe.where }), MEDIUM, WIDTH - WORDS, width);
  const how = block(plain(speaker.word('probe.tip')), MEDIUM, WIDTH - WORDS, width);
  const bottom = PAN.top + PAN.depth + 8;
  const labels = [most, where, how];
  let top = Math.max(0, (bottom - labels.reduce((sum, l) => sum + l.height + 10, -10)) / 2);
  const words = labels.flatMap((label) => {
    const marks = put(label, WORDS, top, 'start', width);
    top += label.height + 10;
    return marks;
  });
  return {
    name: 'probe',
    width: WIDTH,
    height: Math.max(bottom, top),
    alt: speaker.phrase('probe.alt', { limit, where: zone.probe.where }),
    marks: [
      ...panMarks(PAN),
      level(PAN, FOOD),
      stroke(pathOf('M', HANDLE.x, HANDLE.y, 'L', TIP.x, TIP.y), HEAVY),
      fill(circle(TIP.x, TIP.y, 5), 'ink'),
      shape(rectangle(HANDLE.x - 18, 2, 84, 34), 'paper', OUTLINE),
      stroke(rectangle(HANDLE.x - 10, 9, 68, 20), EDGE),
      ...words,
    ],
  };
};
