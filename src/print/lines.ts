/**
 * Words to lines, ragged right: as few lines as can be, and among these the one with the least sum of squared white at the line ends.
 * Hyphens come in only where a line would be under 60 % full.
 */
import type { Divide, Word } from './measure.js';

export interface SetWords {
  readonly words: readonly Word[];
  readonly lines: readonly Line[];
}

/** Words `from` up to, not including, `to`; `width` in em. */
export interface Line {
  readonly from: number;
  readonly to: number;
  readonly width: number;
}

export interface Breaking {
  /** Em. */
  readonly width: number;
  /** True to even out the last line too: headings and signals. */
  readonly balance: boolean;
}

/** A hyphen counts as much white as this part of a line. */
const HYPHEN_COST = 0.25;

/** White on a last line costs nothing up to this part of it: a single short word is not left alone if the lines before can spare one. */
const SHORT = 0.67;

/** The best lines for the words given. A word wider than a line stands alone on it, too wide. */
export const breakLines = (words: readonly Word[], { width, balance }: Breaking): readonly Line[] => {
  const n = words.length;
  const best: { lines: number; cost: number; to: number; width: number }[] = [];
  best[n] = { lines: 0, cost: 0, to: n, width: 0 };
  for (let from = n - 1; from >= 0; from--) {
    let wide = 0;
    for (let to = from + 1; to <= n; to++) {
      const word = words[to - 1] as Word;
      wide += word.width;
      const full = wide + (word.joint === 'hyphen' && to < n ? word.jointWidth : 0);
      if (full > width && to > from + 1) {
        // A hyphen may be what is too wide: the next part of the word, without it, is not.
        if (wide > width) break;
      } else {
        const rest = best[to] as (typeof best)[number];
        const free = Math.max(0, width - full) / width;
        const white = to === n && !balance ? Math.max(0, free - SHORT) : free;
        const cost = white ** 2 + (word.joint === 'hyphen' && to < n ? HYPHEN_COST ** 2 : 0) + rest.cost;
        const known = best[from];
        if (!known || rest.lines + 1 < known.lines || (rest.lines + 1 === known.lines && cost < known.cost)) {
          best[from] = { lines: rest.lines + 1, cost, to, width: full };
        }
      }
      wide += word.joint === 'space' ? word.jointWidth : 0;
    }
  }
  const lines: Line[] = [];
  for (let from = 0; from < n;) {
    const { to, width: w } = best[from] as (typeof best)[number];
    lines.push({ from, to, width: w });
    from = to;
  }
  return lines;
};

const LOOSE = 0.6;

/**
 * Words and their lines, with hyphens where they are needed.
 * @param words each fits a line (measure/fitting).
 */
export const setLines = (words: readonly Word[], breaking: Breaking, divide: Divide): SetWords => {
  const lines = breakLines(words, breaking);
  const loose = lines.slice(0, -1).filter((line) => line.width < LOOSE * breaking.width);
  if (breaking.balance || loose.length === 0) return { words, lines };
  const after = new Set(loose.map((line) => line.to));
  const divided = words.flatMap((word, i) => (after.has(i) && !word.bits.some((bit) => bit.value) ? divide(word) : [word]));
  return { words: divided, lines: breakLines(divided, breaking) };
};

/** Lines of a text by its words and how they are broken: rungs of the ladder that differ in white alone break nothing again. */
export type RememberLines = (words: readonly Word[], breaking: Breaking, make: () => SetWords) => SetWords;

export const rememberLines = (): RememberLines => {
  const known = new WeakMap<readonly Word[], Map<string, SetWords>>();
  return (words, { width, balance }, make) => {
    const byWidth = known.get(words) ?? new Map<string, SetWords>();
    known.set(words, byWidth);
    const key = `${width} ${balance}`;
    const set = byWidth.get(key) ?? make();
    byWidth.set(key, set);
    return set;
  };
};
