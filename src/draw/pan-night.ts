/**
 * Where each pan of the rail spends the night: boards one above the other, food that is eaten as it is on the upper ones,
 * what has an allergen on a board of its own, raw food lowest; each pan with its lid, its number and its food. Without foods, boards to fill in.
 */
import type { Opening } from '../plan/openings.js';
import type { Speaker } from '../say/speaker.js';
import { pathOf, type Mark, type TextWidth } from './drawing.js';
import type { Figure } from './figure.js';
import { block, bold, capital, plain, put, SMALL, type Line } from './lettering.js';
import { EDGE, HAIR, HEAVY, OUTLINE, polygon, shape, stroke } from './strokes.js';
import { sentences } from './telling.js';

const WIDTH = 720;
/** Names of the boards stand left of them. */
const NAMES = 130;
const PAN = { width: 84, height: 54 } as const;
const EACH = Math.floor((WIDTH - NAMES) / PAN.width);
const ROOM = 9;

/** A pan from the side, its lid on. */
const panMarks = (x: number, foot: number, opening: Opening | undefined, speaker: Speaker, width: TextWidth): readonly Mark[] => {
  const [left, right, top] = [x + 2, x + PAN.width - 2, foot - PAN.height];
  const body = polygon([left, top], [right, top], [right - 4, foot], [left + 4, foot]);
  const lid = stroke(pathOf('M', left - 1, top, 'H', right + 1, 'M', x + PAN.width / 2 - 7, top - 4, 'h', 14), OUTLINE);
  if (!opening) return [shape(body, 'paper', HAIR, 'soft-ink'), lid];
  const number = block(bold(speaker.say(opening.number).runs), SMALL, PAN.width - 12, width);
  const food = opening.food && block(speaker.say(opening.food).runs, SMALL, PAN.width - 14, width);
  return [
    shape(body, 'paper', EDGE),
    lid,
    ...put(number, x + PAN.width / 2, top + 1, 'middle', width),
    ...(food ? put(food, x + PAN.width / 2, top + 1 + number.height, 'middle', width) : []),
  ];
};

/** Rows of at most so many. */
const chunks = <T>(items: readonly T[], most: number): readonly (readonly T[])[] =>
  Array.from({ length: Math.ceil(items.length / most) }, (_, i) => items.slice(i * most, (i + 1) * most));

interface Board {
  readonly name: Line;
  /** Undefined: a pan to be named by hand. */
  readonly pans: readonly (Opening | undefined)[];
}

export const panNight: Figure = ({ unit, speaker, width }) => {
  const map = unit?.pan_map;
  if (!map) return undefined;
  const known = map.known.value.is;
  const boards = Object.entries(map.night).flatMap(([shelf, openings]): readonly Board[] => {
    const name = capital(bold(plain(speaker.word(`pan-night.${shelf}`))));
    if (!known) return [{ name, pans: Array.from({ length: EACH }, () => undefined) }];
    return chunks(openings, EACH).map((pans, i) => ({ name: i === 0 ? name : plain(''), pans }));
  });
  const told: Line[] = [];
  let y = 0;
  const marks = boards.flatMap(({ name, pans }): readonly Mark[] => {
    const label = block(name, SMALL, NAMES - 10, width);
    const foot = y + Math.max(label.height, PAN.height + ROOM);
    y = foot + HEAVY + 6;
    told.push([
      ...name.map(({ strong: _, ...run }) => run),
      ...pans.flatMap((p) => (p ? [{ text: ' ' }, ...speaker.say(p.number).runs] : [])),
    ]);
    return [
      ...put(label, 0, foot - label.height, 'start', width),
      ...pans.flatMap((pan, i) => panMarks(NAMES + i * PAN.width, foot - HEAVY / 2, pan, speaker, width)),
      stroke(pathOf('M', NAMES - 4, foot, 'H', WIDTH), HEAVY),
    ];
  });
  const alt = sentences([speaker.phrase(known ? 'pan-night.alt' : 'pan-night.alt-blank'), ...(known ? told : [])]);
  return { name: 'pan-night', width: WIDTH, height: y, alt, marks };
};
