/**
 * Labels on poles: each stands beside its own leader, those left of the middle to the right of it and those right of the middle to the left,
 * the one nearest the middle lowest. So no label meets another one or a leader, wherever the leaders stand.
 */
import type { Run } from '../base/run.js';
import { circle, pathOf, type Mark, type TextWidth } from './drawing.js';
import { block, bold, LARGE, lineWidth, MEDIUM, plain, put, type Block } from './lettering.js';
import { EDGE, fill, HEAVY, stroke } from './strokes.js';

export interface Flag {
  readonly x: number;
  /** Large. */
  readonly value: Run;
  readonly words: string;
  /** The one that a reader should see first. */
  readonly main: boolean;
}

/** From a pole to its label, and between the parts of a label. */
const ASIDE = 6;
/** Between two labels, one above the other. */
const APART = 3;

interface Cut {
  readonly flag: Flag;
  readonly value: Block;
  readonly words: Block;
  /** The words stand beside the value where there is room, else under it. */
  readonly beside: boolean;
  readonly height: number;
}

const cut = (flag: Flag, middle: number, width: TextWidth): Cut => {
  const room = Math.abs(middle - flag.x) - 1.5 * ASIDE;
  const value = block(bold([flag.value]), flag.main ? LARGE * 1.3 : LARGE, room, width);
  const line = flag.main ? bold(plain(flag.words)) : plain(flag.words);
  const free = room - value.width - ASIDE;
  const beside = lineWidth(line, MEDIUM, width) <= free;
  const words = block(line, MEDIUM, room, width);
  return { flag, value, words, beside, height: beside ? Math.max(value.height, words.height) : value.height + words.height };
};

const lettered = ({ flag, value, words, beside }: Cut, evening: boolean, top: number, width: TextWidth): readonly Mark[] => {
  const edge = evening ? flag.x + ASIDE : flag.x - ASIDE;
  if (!beside) {
    const anchor = evening ? 'start' : 'end';
    return [...put(value, edge, top, anchor, width), ...put(words, edge, top + value.height, anchor, width)];
  }
  const left = evening ? edge : edge - value.width - ASIDE - words.width;
  return [
    ...put(value, left, top, 'start', width),
    ...put(words, left + value.width + ASIDE, top + (value.size - words.size) * 0.8, 'start', width),
  ];
};

/** Height of each label's top above the ground, from the middle outward. */
const heights = (cuts: readonly Cut[]): readonly number[] => {
  let above = 0;
  return cuts.map((c) => (above += c.height + APART));
};

export interface Flags {
  readonly height: number;
  /** @param ground y of the poles' feet; `deep` how far they reach below it, into the picture */
  readonly at: (ground: number, deep: number) => readonly Mark[];
}

/** @param flags from left to right */
export const flags = (all: readonly Flag[], middle: number, width: TextWidth): Flags => {
  const side = (evening: boolean): readonly { readonly cut: Cut; readonly above: number; readonly evening: boolean }[] => {
    const some = all.filter((f) => f.x < middle === evening).map((f) => cut(f, middle, width));
    const ordered = evening ? some.reverse() : some;
    const above = heights(ordered);
    return ordered.map((c, i) => ({ cut: c, above: above[i] as number, evening }));
  };
  const raised = [...side(true), ...side(false)];
  return {
    height: Math.max(0, ...raised.map((r) => r.above)),
    at: (ground, deep) =>
      raised.flatMap(({ cut: c, above, evening }) => [
        stroke(pathOf('M', c.flag.x, ground - above + APART, 'V', ground + deep), c.flag.main ? HEAVY : EDGE),
        ...(c.flag.main ? [fill(circle(c.flag.x, ground + deep, 2 * HEAVY), 'ink')] : []),
        ...lettered(c, evening, ground - above, width),
      ]),
  };
};
