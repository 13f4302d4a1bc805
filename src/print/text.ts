/**
 * Runs set into lines of paint within a frame, and a paragraph's lines as slabs that leave no single line behind.
 */
import { error } from '../base/finding.js';
import type { Run } from '../base/run.js';
import type { Written } from '../compose/block.js';
import { setLines, type Line } from './lines.js';
import { fitting, hyphenated, type Bit, type Divide, type Word } from './measure.js';
import { placeOf, type Setting } from './setting.js';
import type { Element, Paint, Painting, Slab } from './sheet.js';
import type { TypeStyle } from './theme.js';
import type { FaceName } from './faces.js';

export interface TextOptions {
  readonly align?: 'start' | 'middle' | 'end';
  /** Evens out the last line too. */
  readonly balance?: true;
  readonly colour: string;
  /** Colour of runs that say a value; `colour` unless told. */
  readonly valueColour?: string;
  /** Face of strong runs. */
  readonly strong?: FaceName;
  /** Element that the text belongs to; an artifact without one. */
  readonly of?: Element;
}

export interface SetText {
  /** How many lines it takes. */
  readonly lines: number;
  /** Paint of a line, counted from 0, and of all of them; each from the top of the text. */
  readonly line: (i: number, top: number) => readonly Paint[];
  readonly paint: Painting;
  readonly pitch: number;
  readonly height: number;
  /** Baseline of the first line, from the top. */
  readonly baseline: number;
  /** Widest line, points. */
  readonly width: number;
}

/** Capitals stand in the middle of their line. */
export const baselineOf = (style: TypeStyle, capHeight: number): number => style.pitch / 2 + (capHeight * style.size) / 2;

interface Segment {
  readonly pieces: string[];
  readonly style: Bit;
  width: number;
}

const segmentsOf = (words: readonly Word[], last: boolean): { segments: readonly Segment[]; hyphen: boolean } => {
  const segments: Segment[] = [];
  const add = (text: string, width: number, style: Bit): void => {
    const current = segments.at(-1);
    if (
      current &&
      current.style.face === style.face &&
      current.style.lang === style.lang &&
      current.style.value === style.value
    ) {
      current.pieces.push(text);
      current.width += width;
    } else segments.push({ pieces: [text], style, width });
  };
  words.forEach((word, i) => {
    for (const bit of word.bits) add(bit.text, bit.width, bit);
    const atEnd = i === words.length - 1;
    // The space at a line's end is kept, unseen, so that text read out of the file keeps its words apart.
    if (word.joint === 'space' && !(atEnd && last)) add(' ', word.jointWidth, word.bits.at(-1) as Bit);
  });
  const end = words.at(-1);
  return { segments, hyphen: !last && end?.joint === 'hyphen' };
};

/** What a hyphen reads as that only a line's end put there. */
const SOFT_HYPHEN = '\u00AD';

/** Sets a text; lines that can't be made to fit are a finding. */
export const setText = (runs: readonly Run[], style: TypeStyle, setting: Setting, options: TextOptions): SetText => {
  const { job } = setting;
  const { faces } = job;
  const strong = options.strong ?? (style.face === 'regular' ? 'strong' : 'heavy');
  const width = setting.width / style.size;
  const divide: Divide = (word) => hyphenated(faces, word, job.hyphenator(word.bits[0]?.lang));
  const measured = job.measure(runs, style.face, strong);
  const breaking = { width, balance: options.balance ?? false };
  const { words, lines } = job.remember(measured, breaking, () =>
    setLines(fitting(faces, measured, width, divide), breaking, divide),
  );
  if (lines.some((l) => l.width > width + 1e-6)) {
    job.findings.push(error('too-narrow', placeOf(setting), { text: runs.map((run) => run.text).join('') }));
  }
  const baseline = baselineOf(style, faces[style.face].capHeight);
  const line = (i: number, top: number): readonly Paint[] => {
    const { from, to, width: taken } = lines[i] as Line;
    const { segments, hyphen } = segmentsOf(words.slice(from, to), i === lines.length - 1);
    const free = setting.width - taken * style.size;
    let x = setting.x + (options.align === 'end' ? free : options.align === 'middle' ? free / 2 : 0);
    return segments.flatMap((segment, k): readonly Paint[] => {
      const paint: Extract<Paint, { kind: 'text' }> = {
        kind: 'text',
        x,
        y: top + i * style.pitch + baseline,
        size: style.size,
        face: segment.style.face,
        pieces: segment.pieces,
        colour: segment.style.value ? (options.valueColour ?? options.colour) : options.colour,
        ...(segment.style.lang === undefined ? {} : { lang: segment.style.lang }),
        ...(options.of ? { of: options.of } : {}),
      };
      x += segment.width * style.size;
      return hyphen && k === segments.length - 1 ? [paint, { ...paint, x, pieces: ['-'], actual: SOFT_HYPHEN }] : [paint];
    });
  };
  return {
    lines: lines.length,
    line,
    paint: (top) => lines.flatMap((_, i) => line(i, top)),
    pitch: style.pitch,
    height: lines.length * style.pitch,
    baseline,
    width: Math.max(0, ...lines.map((l) => l.width)) * style.size,
  };
};

/** Paragraphs of up to this many lines never break; of longer ones two lines stay together at either end. */
const UNBROKEN = 3;

/** A text as slabs, one a line. */
export const textSlabs = (text: SetText, at: Written, gap: number, keep = false): readonly Slab[] =>
  Array.from({ length: text.lines }, (_, i): Slab => {
    const n = text.lines;
    return {
      at,
      gap: i === 0 ? gap : 0,
      height: text.pitch,
      paint: (top) => text.line(i, top - i * text.pitch),
      keep: i === n - 1 ? keep : n <= UNBROKEN || i === 0 || i === n - 2,
      baseline: text.baseline,
    };
  });
