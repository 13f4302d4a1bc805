/**
 * The rail from above, as it lies before whoever works at it: each opening with its number and its food, or room to write one;
 * what is raw, what it contains, what must stay cold, where nothing hangs, and which end is nearest the heat.
 */
import type { Opening } from '../plan/openings.js';
import type { Speaker } from '../say/speaker.js';
import { PAN_SIZES, type PanSizeName } from '../trade/pans.js';
import { pathOf, rectangle, type Mark, type TextWidth } from './drawing.js';
import type { Figure } from './figure.js';
import { block, bold, plain, put, SMALL, type Line } from './lettering.js';
import { arrowHead } from './marks.js';
import { EDGE, fill, HAIR, hatched, HEAVY, OUTLINE, shape, stroke } from './strokes.js';
import { sentences } from './telling.js';

/** As wide as a sheet that lies on its long side, so that names are read at the unit. */
const WIDTH = 720;
/** The heated end's own strip. */
const HEAT = 70;
const WALL = 7;
const GAP = 4;
const PAD = 3;
/** An opening is high enough for its words. */
const LEAST = 74;
/** The dark corner of an opening whose food must stay cold. */
const CORNER = 20;
/** Of all rows. */
const MOST = 168;

interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A dark upper right corner: must stay cold. */
const coldCorner = ({ x, y, width }: Frame): Mark =>
  fill(pathOf('M', x + width, y, 'h', -CORNER, 'L', x + width, y + CORNER, 'Z'), 'ink');

/** Words under each other from the top, as many as there is room for. */
const column = (lines: readonly (readonly [Line, number])[], { x, y, width }: Frame, measure: TextWidth): readonly Mark[] => {
  let top = y;
  return lines.flatMap(([line, size]) => {
    const label = block(line, size, width, measure);
    const marks = put(label, x, top, 'start', measure);
    top += label.height;
    return marks;
  });
};

const openingMarks = (opening: Opening, known: boolean, frame: Frame, speaker: Speaker, measure: TextWidth): readonly Mark[] => {
  const { x, y, width, height } = frame;
  const inner = { x: x + PAD, y: y + 24, width: width - 2 * PAD, height: height - 28 };
  const number = put(block(bold(speaker.say(opening.number).runs), SMALL, width, measure), x + PAD, y + 3, 'start', measure);
  const box = rectangle(x, y, width, height);
  if (!known) {
    const lines = [0.5, 0.68, 0.86].map((part) => pathOf('M', x + PAD, y + height * part, 'h', width - 2 * PAD)).join(' ');
    return [shape(box, 'paper', OUTLINE), ...number, stroke(lines, HAIR, 'soft-ink')];
  }
  if (!opening.food) {
    const word = block(plain(speaker.word('pan-map.empty')), SMALL, inner.width, measure);
    const top = y + height - word.height - 5;
    return [
      shape(box, 'wash', EDGE),
      stroke(pathOf('M', x, y + 22, 'L', x + width, top, 'M', x + width, y + 22, 'L', x, top), HAIR, 'soft-ink'),
      ...number,
      ...put(word, x + width / 2, top, 'middle', measure),
    ];
  }
  const raw = opening.raw.value.is;
  const texts: readonly (readonly [Line, number])[] = [
    [speaker.say(opening.food).runs, SMALL],
    ...(opening.allergen ? [[speaker.phrase('pan-map.contains', { allergen: opening.allergen }), SMALL] as const] : []),
  ];
  const band = block(bold(plain(speaker.word('pan-map.raw'))), SMALL, width, measure);
  const foot = y + height - band.height - 4;
  return [
    shape(box, 'paper', OUTLINE),
    ...number,
    ...(opening.needs_cold.value.is ? [coldCorner(frame)] : []),
    ...column(texts, inner, measure),
    ...(raw
      ? [
          stroke(hatched(x, foot, width, band.height + 4, 6), EDGE),
          fill(rectangle(x + (width - band.width) / 2 - 4, foot, band.width + 8, band.height + 4), 'paper'),
          stroke(pathOf('M', x, foot, 'h', width), EDGE),
          stroke(box, OUTLINE),
          ...put(band, x + width / 2, foot + 1, 'middle', measure),
        ]
      : []),
  ];
};

/** Three arrows that come from the heat, and its word. */
const heatMarks = (left: boolean, y: number, height: number, speaker: Speaker, measure: TextWidth): readonly Mark[] => {
  const word = block(bold(plain(speaker.word('pan-map.heat'))), SMALL, HEAT - 6, measure);
  const [from, to] = left ? [6, HEAT - 8] : [WIDTH - 6, WIDTH - HEAT + 8];
  const middle = y + height / 2;
  return [
    ...[-30, 0, 30].flatMap((dy) => [
      stroke(pathOf('M', from, middle + dy, 'H', to + (left ? -7 : 7)), OUTLINE),
      arrowHead(to, middle + dy, left ? 0 : Math.PI, 12),
    ]),
    ...put(word, (from + to) / 2, middle - 42 - word.height, 'middle', measure),
  ];
};

export const panMap: Figure = ({ unit, speaker, width }) => {
  const map = unit?.pan_map;
  const pans = unit?.rail?.pans;
  if (!map || !pans) return undefined;
  const known = map.known.value.is;
  const heat = map.heat?.value.code;
  const x = heat === 'left' ? HEAT : 0;
  const inside = WIDTH - (heat ? HEAT : 0);
  const most = Math.max(...map.rows.map((row) => row.length));
  const wide = (inside - 2 * WALL - GAP * (most + 1)) / most;
  const size = PAN_SIZES[pans.size.value.code.replace('pan-', '') as PanSizeName];
  const high = Math.min(MOST / map.rows.length, Math.max(LEAST, (wide * size.length) / size.width));

  const back = block(plain(speaker.word('pan-map.back')), SMALL, inside, width);
  const front = block(bold(plain(speaker.word('pan-map.front'))), SMALL, inside, width);
  const top = back.height + 4;
  const tall = map.rows.length * (high + GAP) + GAP + 2 * WALL;
  const rows = [...map.rows].reverse().flatMap((row, r) =>
    row.flatMap((opening, i) => {
      const frame = {
        x: x + WALL + GAP + i * (wide + GAP),
        y: top + WALL + GAP + r * (high + GAP),
        width: wide,
        height: high,
      };
      return openingMarks(opening, known, frame, speaker, width);
    }),
  );
  const foot = top + tall + 6;
  const middle = x + inside / 2;
  const told = map.rows
    .flat()
    .map((opening): Line => [
      ...speaker.say(opening.number).runs,
      { text: speaker.colon },
      ...(opening.food ? speaker.say(opening.food).runs : [{ text: speaker.word('pan-map.empty') }]),
    ]);
  return {
    name: 'pan-map',
    width: WIDTH,
    height: foot + front.height,
    alt: sentences([speaker.phrase(known ? 'pan-map.alt' : 'pan-map.alt-blank', { count: pans.count }), ...(known ? told : [])]),
    marks: [
      ...put(back, middle, 0, 'middle', width),
      shape(rectangle(x + WALL / 2, top + WALL / 2, inside - WALL, tall - WALL), 'paper', WALL, 'cold'),
      ...rows,
      stroke(pathOf('M', x, top + tall + 2, 'h', inside), HEAVY),
      ...put(front, middle, foot, 'middle', width),
      ...(heat ? heatMarks(heat === 'left', top, tall, speaker, width) : []),
    ],
  };
};
