/**
 * A strip to stick into the well: its lower edge is the line that food stays under.
 */
import { pathOf, type Mark } from './drawing.js';
import type { Figure } from './figure.js';
import { bold, LARGE, oneLine, plain, put } from './lettering.js';
import { arrowHead } from './marks.js';
import { HEAVY, stroke } from './strokes.js';

const WIDTH = 540;
const FOOT = 34;

export const loadStrip: Figure = ({ unit, speaker, width }) => {
  if (!unit?.rail?.pans) return undefined;
  const words = oneLine(bold(plain(speaker.word('labels.under-line'))), LARGE, WIDTH - 120, width);
  const arrows = [24, WIDTH - 24].flatMap((x): readonly Mark[] => [
    stroke(pathOf('M', x, 4, 'V', FOOT - 12), HEAVY),
    arrowHead(x, FOOT - 5, Math.PI / 2, 16),
  ]);
  return {
    name: 'load-strip',
    width: WIDTH,
    height: FOOT + HEAVY / 2,
    alt: speaker.phrase('labels.strip-alt'),
    marks: [
      ...arrows,
      ...put(words, WIDTH / 2, (FOOT - words.height) / 2 - 2, 'middle', width),
      stroke(pathOf('M', 0, FOOT, 'H', WIDTH), HEAVY),
    ],
  };
};
