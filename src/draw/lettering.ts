/**
 * Lettering of figures: runs measured, wrapped to a width and set line by line, so that a label's box is known before anything is drawn.
 */
import type { Run } from '../base/run.js';
import type { Mark, TextWidth, Tone } from './drawing.js';

/** Font sizes of figures 540 pt wide. At SMALL capitals are 3 mm and more, even on a page set at nine tenths. */
export const SMALL = 15;
export const MEDIUM = 16;
export const LARGE = 20;

/** Em: from the top of a line's box to its baseline, and from one baseline to the next. */
const ASCENT = 0.8;
const PITCH = 1.14;

export type Line = readonly Run[];

/** A label that is ready to be put somewhere. */
export interface Block {
  readonly lines: readonly Line[];
  readonly size: number;
  readonly width: number;
  readonly height: number;
}

export const plain = (text: string): Line => [{ text }];
export const bold = (line: Line): Line => line.map((run) => ({ ...run, strong: true as const }));

/** Its first letter as a capital. */
export const capital = (line: Line): Line =>
  line.map((run, i) => (i === 0 ? { ...run, text: run.text.charAt(0).toUpperCase() + run.text.slice(1) } : run));

export const lineWidth = (line: Line, size: number, width: TextWidth): number =>
  line.reduce((sum, run) => sum + width(run.text, size, run.strong === true), 0);

/** Words of a line with the space before each. A figure keeps its unit: between them stands a space that holds. */
const wordsOf = (line: Line): readonly Run[] =>
  line.flatMap((run) => run.text.split(/(?= )/).map((text) => ({ ...run, text }))).filter((run) => run.text !== '');

/** Without spaces at its head. */
const trimmed = (line: Line): Line => {
  const [first, ...rest] = line;
  if (!first) return [];
  const text = first.text.replace(/^ +/, '');
  return text === '' ? trimmed(rest) : [{ ...first, text }, ...rest];
};

/** Runs of one style side by side become one, so that a line is as few marks as it can be. */
const joined = (line: Line): Line => {
  const runs: Run[] = [];
  for (const run of line) {
    const last = runs.at(-1);
    if (last && last.value === run.value && last.strong === run.strong && last.lang === run.lang)
      runs[runs.length - 1] = { ...last, text: last.text + run.text };
    else runs.push(run);
  }
  return runs;
};

/** Lines of at most `most` points, filled greedily; a word that is wider stands on a line of its own. */
const wrapped = (line: Line, size: number, most: number, width: TextWidth): readonly Line[] => {
  const lines: Run[][] = [];
  let open: Run[] = [];
  for (const word of wordsOf(line)) {
    const longer = trimmed([...open, word]);
    // A new line starts only at a space: a comma stays with the value before it.
    const apart = word.text.startsWith(' ') || open.at(-1)?.text.endsWith(' ') === true;
    if (open.length > 0 && apart && lineWidth(longer, size, width) > most) {
      lines.push(open);
      open = [...trimmed([word])];
    } else open = [...longer];
  }
  if (open.length > 0) lines.push(open);
  return lines.map(joined);
};

/** As few lines as `most` points allow, of about one length. */
const balanced = (line: Line, size: number, most: number, width: TextWidth): readonly Line[] => {
  if (lineWidth(line, size, width) <= most) return [joined(line)];
  const greedy = wrapped(line, size, most, width);
  const even = lineWidth(line, size, width) / Math.max(1, greedy.length);
  const tried = [1, 1.08, 1.16, 1.24, 1.32].map((f) => even * f).filter((room) => room < most);
  return tried.map((room) => wrapped(line, size, room, width)).find((lines) => lines.length === greedy.length) ?? greedy;
};

/** A label wrapped to at most `most` points; where a single word is wider, the whole label is set smaller. */
export const block = (line: Line, size: number, most: number, width: TextWidth): Block => {
  const lines = balanced(line, size, most, width);
  const wide = Math.max(0, ...lines.map((l) => lineWidth(l, size, width)));
  const fit = wide > most ? (size * most) / wide : size;
  return { lines, size: fit, width: (wide * fit) / size, height: lines.length * fit * PITCH };
};

/** A label on one line, set smaller where it would be wider than `most`. */
export const oneLine = (line: Line, size: number, most: number, width: TextWidth): Block => {
  const wide = lineWidth(line, size, width);
  const fit = Math.min(size, (size * most) / Math.max(wide, 1e-9));
  return { lines: [line], size: fit, width: (wide * fit) / size, height: fit * PITCH };
};

export type Anchor = 'start' | 'middle' | 'end';

/** One line with its baseline at `y`. */
const setLine = (
  line: Line,
  x: number,
  y: number,
  size: number,
  anchor: Anchor,
  tone: Tone,
  width: TextWidth,
): readonly Mark[] => {
  const [only] = line;
  if (only && line.length === 1) return [textMark(only, x, y, size, anchor, tone, width)];
  let at = x - { start: 0, middle: 0.5, end: 1 }[anchor] * lineWidth(line, size, width);
  return line.map((run) => {
    // A space at the head of a text would not be shown: it is left as a gap.
    const text = run.text.replace(/^ +/, '');
    const next = at + width(run.text, size, run.strong === true);
    const mark = textMark({ ...run, text }, next - width(text, size, run.strong === true), y, size, 'start', tone, width);
    at = next;
    return mark;
  });
};

const textMark = (run: Run, x: number, y: number, size: number, anchor: Anchor, tone: Tone, width: TextWidth): Mark => ({
  mark: 'text',
  x,
  y,
  text: run.text,
  size,
  // Spaces at its ends are not shown.
  width: width(run.text.replace(/^ +| +$/g, ''), size, run.strong === true),
  ...(run.strong ? { strong: true as const } : {}),
  anchor,
  tone,
  ...(run.value === undefined ? {} : { value: run.value }),
});

/** Puts a label with its top at `top`; `x` is its left, middle or right by the anchor. */
export const put = (
  label: Block,
  x: number,
  top: number,
  anchor: Anchor,
  width: TextWidth,
  tone: Tone = 'ink',
): readonly Mark[] =>
  label.lines.flatMap((line, i) => setLine(line, x, top + label.size * (ASCENT + i * PITCH), label.size, anchor, tone, width));
